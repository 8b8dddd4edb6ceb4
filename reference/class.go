package reference

import (
	"math"
	"regexp"
	"slices"
	"strings"
)

// ClassReading is what a class or grade was read as.
type ClassReading struct {
	Text     string
	Rows     []Strength // for the size; several for "SAE 1 or 2" and where sizes overlap. Where SizeFits is false, of the nearest size
	Exists   bool       // false: no such class can exist
	Known    bool       // recognised as the name of a class; false: words of which nothing can be said (Exists stays true)
	InTables bool       // every class named has rows in our tables
	SizeFits bool       // the standard has it for this size
	Between  bool       // not InTables, but what has no rows of its own lies between the neighbours that Rows holds: SAE 6
	Foreign  bool       // it belongs to the other family of threads: SAE 5 on M8, 8.8 on 1/4-20
	Near     []string   // what was probably meant
	Message  string     // lower case, no full stop; empty where all is well
}

// ReadClass reads a class or grade as stamped or printed: 8.8, A2-70, SAE 5,
// grade 5, ASTM A574, SAE 1 or 2, class 8 (nut), 45H. dMM is the diameter of the
// thread in mm (0: not known), metric its family; a bare number is a nut class
// on a metric thread and an SAE grade on a unified one.
//
// Exists is false only where the way the standard builds its names leaves no
// room: 8.7, 13.9, 88, A2-75, SAE 9.
func ReadClass(text string, dMM float64, metric bool) ClassReading {
	key := classKey{text, dMM, metric}
	if r, ok := classMemo.get(key); ok {
		r.Rows, r.Near = slices.Clone(r.Rows), slices.Clone(r.Near)
		return r
	}
	r := readClass(text, dMM, metric)
	if r.Known && r.Message == "" && len(text) < 64 {
		kept := r
		kept.Rows, kept.Near = slices.Clone(r.Rows), slices.Clone(r.Near)
		classMemo.put(key, kept)
	}
	return r
}

type classKey struct {
	text   string
	d      float64
	metric bool
}

var classMemo memo[classKey, ClassReading]

func readClass(text string, dMM float64, metric bool) ClassReading {
	out := ClassReading{Text: text, Exists: true, SizeFits: true}
	system := ""
	var known []ClassReading
	for _, part := range alternatives(text) {
		one := classPart{text: part, printed: text, d: dMM, metric: metric, system: system}
		r := one.read()
		system = one.system
		if r.Known {
			known = append(known, r)
		} else if out.Message == "" {
			out.Message, out.Near = r.Message, r.Near
		}
	}
	if len(known) == 0 {
		return out
	}
	out.Known, out.InTables, out.SizeFits, out.Foreign = true, true, false, true
	out.Message, out.Near = "", nil
	covered := true
	for _, r := range known {
		covered = covered && (r.InTables || r.Between)
		out.Exists = out.Exists && r.Exists
		out.InTables = out.InTables && r.InTables
		out.SizeFits = out.SizeFits || r.SizeFits
		out.Foreign = out.Foreign && r.Foreign
		for _, row := range r.Rows {
			if !slices.Contains(out.Rows, row) {
				out.Rows = append(out.Rows, row)
			}
		}
		out.Near = append(out.Near, r.Near...)
		if out.Message == "" || !r.Exists {
			out.Message = r.Message
		}
	}
	out.Between = covered && !out.InTables
	if !out.Exists {
		out.Rows = nil
	}
	return out
}

var (
	classSplit = regexp.MustCompile(`\s+or\s+|\s+and\s+|[;(),]`)
	slashList  = regexp.MustCompile(`^[a-z0-9.-]+(\s*/\s*[a-z0-9.-]+)+$`)
)

// alternatives splits "SAE 1 or 2", "5.6 (4.8)", "A2/A4-70".
func alternatives(text string) []string {
	s := strings.ToLower(strings.Join(strings.Fields(text), " "))
	s = strings.NewReplacer("–", "-", "—", "-", "−", "-", "‑", "-", "‐", "-", "\"", "", "“", "", "”", "").Replace(s)
	s = decimalComma.ReplaceAllString(s, "$1.$2")
	var out []string
	for _, p := range classSplit.Split(s, -1) {
		p = strings.TrimSpace(p)
		if p == "" {
			continue
		}
		if !slashList.MatchString(p) {
			out = append(out, p)
			continue
		}
		parts := strings.Split(p, "/")
		_, tail, cut := strings.Cut(parts[len(parts)-1], "-")
		for i, q := range parts {
			q = strings.TrimSpace(q)
			if cut && i < len(parts)-1 && !strings.Contains(q, "-") {
				q += "-" + tail // A2/A4-70
			}
			out = append(out, q)
		}
	}
	return out
}

var decimalComma = regexp.MustCompile(`\b(\d{1,2}),(\d)\b`)

// classPart is one class within a text.
type classPart struct {
	text    string
	printed string
	d       float64
	metric  bool
	system  string // "sae" where an earlier alternative said so
	word    string // class or grade, where printed
}

var (
	classWord  = regexp.MustCompile(`^(?:(?:iso|en iso|din|bs|en|jis|gb)(?: 898(?:-\d)?| 3506(?:-\d)?| 267)?[ ,]*)?(?:(property class|strength class|class|grade|cl|gr|pc|g)\b[ .-]*)?`)
	saeWord    = regexp.MustCompile(`^sae ?-?(?:j ?429 ?|j ?995 ?|j ?1199 ?)?`)
	isoClass   = regexp.MustCompile(`^0?(\d{1,2})\.(\d{1,2})(?:[a-z]| .*)?$`)
	digits     = regexp.MustCompile(`^\d{1,3}$`)
	saeGrade   = regexp.MustCompile(`^\d{1,2}(?:\.\d)?$`)
	insideISO  = regexp.MustCompile(`(?:^|[^\d.])(\d{1,2}\.\d)(?:[^\d.]|$)`)
	lookalikes = strings.NewReplacer("o", "0", "l", "1", "i", "1", "b", "8", "s", "5")
)

func (c *classPart) read() ClassReading {
	core := c.text
	if m := saeWord.FindString(core); m != "" {
		c.system = "sae"
		core = strings.TrimSpace(core[len(m):])
	}
	if m := classWord.FindStringSubmatch(core); m[0] != "" {
		if rest := strings.TrimSpace(core[len(m[0]):]); rest != "" {
			core, c.word = rest, m[1]
		}
	}
	for _, try := range []func(string) (ClassReading, bool){c.property, c.nutOrSAE, readStainless, c.astm, readByName} {
		if r, ok := try(core); ok {
			r.Known = true
			return r
		}
	}
	for _, m := range insideISO.FindAllStringSubmatch(core, -1) {
		if slices.Contains(isoClasses, m[1]) { // socket head cap 12.9
			r, _ := c.property(m[1])
			r.Known = true
			return r
		}
	}
	r := ClassReading{Exists: true, SizeFits: true}
	if like := lookalikes.Replace(core); like != core && slices.Contains(isoClasses, like) {
		r.Near = []string{like}
		r.Message = "“" + short(c.printed) + "” is no class; " + like + " is"
	}
	return r
}

// The property classes of ISO 898-1:2013 Table 3.
var isoClasses = []string{"4.6", "4.8", "5.6", "5.8", "6.8", "8.8", "9.8", "10.9", "12.9"}

// Property classes of earlier editions, and those above 12.9 that fastener
// makers offer; from memory.
var otherISOClasses = []string{
	"3.6", "4.9", "5.5", "5.9", "6.6", "6.9", "14.8", "14.9", "15.8", "15.9", "16.8", "16.9", "17.8",
}

// property reads a property class of ISO 898-1.
func (c *classPart) property(core string) (ClassReading, bool) {
	m := isoClass.FindStringSubmatch(core)
	if m == nil {
		return ClassReading{}, false
	}
	name := m[1] + "." + m[2]
	if slices.Contains(saeGrades, name) || slices.Contains(otherSAE, name) {
		return ClassReading{}, false // 5.2 and 8.2 are grades of SAE J429
	}
	switch {
	case slices.Contains(isoClasses, name):
		r := c.fromTable(name)
		if name == "8.8" && c.d >= 12 && c.d <= 16 {
			// In structural bolting the values of the larger sizes apply from M12.
			r.Rows = slices.DeleteFunc(strengthsOf(name), func(s Strength) bool { return s.ByName })
		}
		c.foreign(&r, name, false)
		return r, true
	case slices.Contains(otherISOClasses, name):
		r := ClassReading{Exists: true, SizeFits: true}
		c.foreign(&r, name, false)
		return r, true
	}
	return ClassReading{
		Near: nearClasses(m[1], m[2]),
		Message: "there is no property class " + name + ": the first number is a hundredth of the tensile strength in MPa, " +
			"the second ten times the yield ratio; ISO 898-1 has " + orList(isoClasses),
	}, true
}

// nearClasses offers the classes that one slip away print like the one read.
func nearClasses(first, second string) []string {
	var out []string
	for _, c := range isoClasses {
		if a, b, _ := strings.Cut(c, "."); a == first || b == second && len(a) == len(first) {
			out = append(out, c)
		}
	}
	slices.SortStableFunc(out, func(a, b string) int {
		return rank(strings.HasPrefix(a, first+".")) - rank(strings.HasPrefix(b, first+"."))
	})
	return out[:min(len(out), 3)]
}

func rank(first bool) int {
	if first {
		return 0
	}
	return 1
}

// fromTable reads a class that stands in our tables.
func (c *classPart) fromTable(designation string) ClassReading {
	all := strengthsOf(designation)
	rows, fits := rowsFor(all, c.d)
	r := ClassReading{Exists: true, InTables: true, Rows: rows, SizeFits: fits}
	if !fits {
		lo, hi := madeFor(all)
		r.Message = rows[0].Standard + " has " + designation + " for " + c.size(lo) + " to " + c.size(hi) + " only, not for " + c.size(c.d)
	}
	return r
}

// madeFor are the least and greatest size (mm) that a standard has a class for.
func madeFor(rows []Strength) (lo, hi float64) {
	lo = rows[0].MinD
	for _, s := range rows {
		if !s.ByName {
			lo, hi = min(lo, s.MinD), max(hi, s.MaxD)
		}
	}
	return lo, hi
}

// size writes a diameter in the manner of the thread.
func (c *classPart) size(d float64) string {
	if c.metric {
		return "M" + plain(d)
	}
	name := inchName(math.Round(d/inch*1e4) / 1e4)
	if strings.HasPrefix(name, "No.") {
		return name
	}
	return name + " in"
}

// foreign marks a class of the other family of threads.
func (c *classPart) foreign(r *ClassReading, name string, inchGrade bool) {
	if inchGrade != c.metric {
		return
	}
	r.Foreign = true
	if inchGrade {
		r.Message = name + " is a grade of inch screws, the thread is metric"
	} else {
		r.Message = name + " is a class of metric screws, the thread is in inches"
	}
}
