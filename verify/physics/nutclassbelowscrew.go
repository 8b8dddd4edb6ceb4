package physics

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// NutClassBelowScrew queries a nut whose class is too low for the screw that it
// goes on.
var NutClassBelowScrew = &rule.Check{
	ID: "nut-class-below-screw", Layer: rule.Physics, Title: "nut of a lower class than its screw",
	Doc: doc("nut-class-below-screw.md"), Source: reference.Cite("iso-898-2"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record:  nutClassBelowScrew,
}

func nutClassBelowScrew(p *rule.Pass) {
	if p.Record == nil || len(p.Record.Fasteners.Items) < 2 {
		return
	}
	items := p.Record.Fasteners.Items
	for i := range items {
		nut, ok := levelOf(&items[i], true)
		if !ok {
			continue
		}
		screw, weakest := -1, level{}
		strongEnough := false
		for k := range items {
			if l, ok := levelOf(&items[k], false); ok && nut.mates(l) && (screw < 0 || l.number < weakest.number) {
				screw, weakest = k, l
			}
			// A thin nut beside a full one is a jam nut.
			if l, ok := levelOf(&items[k], true); ok && k != i && nut.mates(l) && l.number > nut.number {
				strongEnough = true
			}
		}
		if screw < 0 || nut.number >= weakest.number || strongEnough {
			continue
		}
		f := rule.Finding{
			Verdict: rule.Query, At: schema.Spot{Path: p.Record.Fasteners.At(i).Field("class")}, Read: items[i].Class,
			Want: "at least " + nut.name(weakest.number),
			Message: fmt.Sprintf("a nut of class %s on a screw of class %s strips before the screw breaks; at least %s goes with it",
				items[i].Class, items[screw].Class, nut.name(weakest.number)),
			Related: []rule.Related{{At: schema.Spot{Path: p.Record.Fasteners.At(screw).Field("class")}, Message: "class of the screw"}},
		}
		switch nut.system {
		case "SAE":
			f.Source = reference.Cite("sae-j995")
		case "A":
			f.Source = reference.Cite("iso-3506-1")
		}
		p.Report(f)
	}
}

// level is the rung of a class on the ladder of its system: 8 for a screw of
// 8.8 and for a nut of class 8, 5 for SAE 5, 70 for A2-70.
type level struct {
	system string // ISO, SAE, A (stainless)
	number float64
	thread reference.Thread
}

func (l level) mates(m level) bool {
	a, b := l.thread, m.thread
	if l.system != m.system || a.Family != b.Family || a.D != b.D {
		return false
	}
	return !a.PitchGiven || !b.PitchGiven || a.Pitch == b.Pitch
}

func (l level) name(number float64) string {
	n := strconv.FormatFloat(number, 'f', -1, 64)
	switch l.system {
	case "SAE":
		return "grade " + n
	case "A":
		return "strength class " + n
	}
	return "class " + n
}

var (
	propertyClass  = regexp.MustCompile(`^(\d{1,2})\.\d$`)
	nutClass       = regexp.MustCompile(`^(\d{1,2})( style \d)?$`)
	stainlessClass = regexp.MustCompile(`^A[1-5]-(\d{2,3})$`)
	saeClass       = regexp.MustCompile(`^SAE (\d)(\.\d)?$`)
	saeNut         = regexp.MustCompile(`(?i)^(?:sae )?(?:grade |gr\.? ?|g)?([258])$`)
)

// levelOf reads the class of a nut, or of a screw or stud. ok is false where it
// says nothing sure: no class, several, or one of no ladder.
func levelOf(f *schema.Fastener, nut bool) (level, bool) {
	switch f.Type {
	case "nut", "prevailing nut":
		if !nut {
			return level{}, false
		}
	case "screw", "stud":
		if nut {
			return level{}, false
		}
	default:
		return level{}, false
	}
	t, problem := reference.ParseThread(f.Thread)
	if f.Class == "" || problem != nil || t.Family != reference.Metric && t.Family != reference.Unified {
		return level{}, false
	}
	c := reference.ReadClass(f.Class, t.D, t.Family == reference.Metric)
	if !c.Exists || !c.Known || c.Foreign {
		return level{}, false
	}
	name := ""
	for _, r := range c.Rows {
		if name != "" && name != r.Designation && !strings.HasPrefix(r.Designation, name+" style ") && !sameStyle(name, r.Designation) {
			return level{}, false // 8.8 or 10.9
		}
		name = r.Designation
	}
	if name == "" {
		name = strings.TrimSpace(f.Class)
	}
	l := level{thread: t}
	for _, ladder := range []struct {
		system string
		re     *regexp.Regexp
		fits   bool
	}{
		{"ISO", propertyClass, t.Family == reference.Metric},
		{"ISO", nutClass, nut && t.Family == reference.Metric},
		{"A", stainlessClass, true},
		{"SAE", saeClass, t.Family == reference.Unified},
		{"SAE", saeNut, nut && t.Family == reference.Unified},
	} {
		m := ladder.re.FindStringSubmatch(name)
		if m == nil || !ladder.fits {
			continue
		}
		l.system = ladder.system
		n, err := strconv.ParseFloat(m[1], 64)
		if err != nil {
			return level{}, false
		}
		l.number = n
		if ladder.system == "SAE" && !nut {
			l.number = saeNutFor(name)
		}
		return l, l.number > 0
	}
	return level{}, false
}

func sameStyle(a, b string) bool {
	a, _, _ = strings.Cut(a, " style ")
	b, _, _ = strings.Cut(b, " style ")
	return a == b
}

// saeNutFor is the grade of nut that goes with a grade of screw: SAE J995 has 2,
// 5 and 8 (from memory).
func saeNutFor(screw string) float64 {
	switch screw {
	case "SAE 1", "SAE 2":
		return 2
	case "SAE 4", "SAE 5", "SAE 5.2":
		return 5
	case "SAE 7", "SAE 8", "SAE 8.2":
		return 8
	}
	return 0
}
