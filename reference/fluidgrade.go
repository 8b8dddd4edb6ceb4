package reference

import (
	"regexp"
	"strconv"
	"strings"
)

// fluidForm is one way to print a grade. read gets what the pattern caught and
// says not known where the number is no grade.
type fluidForm struct {
	pattern *regexp.Regexp
	read    func(m []string) (Fluid, bool)
}

var fluidForms = []fluidForm{
	{regexp.MustCompile(`\b(\d{1,2}) ?w(?:(?: ?[-/] ?| )?(\d{1,3}))?\b`), func(m []string) (Fluid, bool) { return saeWinter(m[1], m[2]) }},
	{regexp.MustCompile(`\b(?:sae|(?:engine|motor|gear) oil) ?(\d{1,3})\b`), func(m []string) (Fluid, bool) { return sae(m[1]) }},
	{regexp.MustCompile(`\b(?:(?:iso )?vg|iso|hlpd?|hvlpd?|hl|hm|hv|hg|aw|hydraulic oil) ?-? ?(\d{1,4})\b`), func(m []string) (Fluid, bool) { return isoVG(m[1]) }},
	{regexp.MustCompile(`\bdot ?-?(\d(?:\.\d)?)\b`), func(m []string) (Fluid, bool) { return byGrade("DOT " + m[1]) }},
	{regexp.MustCompile(`\b(?:ultra low viscosity|ulv) (?:atf|automatic transmission fluid)|\b(?:atf|automatic transmission fluid),? (?:ultra low viscosity|ulv)\b`),
		func([]string) (Fluid, bool) { return byGrade("ATF ultra low viscosity") }},
	{regexp.MustCompile(`(?:\batf,? )?\bcvt (?:fluid|atf)\b|\batf for cvt\b|^cvtf?$`), func([]string) (Fluid, bool) { return byGrade("ATF for CVT") }},
	{regexp.MustCompile(`(?:\batf,? )?\b(?:dexron[ -]?vi|mercon[ -]?lv)\b(?:,? atf\b)?|\b(?:atf|automatic transmission fluid),? (?:low viscosity|lv)\b|\b(?:low viscosity|lv) (?:atf|automatic transmission fluid)\b`),
		func([]string) (Fluid, bool) { return byGrade("ATF low viscosity") }},
	{regexp.MustCompile(`(?:\batf,? )?\bdexron[ -]?i{2,3}[a-h]?\b(?:,? atf\b)?|\batf,? conventional\b`), func([]string) (Fluid, bool) { return byGrade("ATF conventional") }},
	{regexp.MustCompile(`\batf\b|\bautomatic transmission fluid\b`), func([]string) (Fluid, bool) { return byGrade("ATF") }},
	{regexp.MustCompile(`\b(\d{1,3}) ?(?:%|percent|per cent)[a-z ]*\b(?:ethylene glycol|glycol|antifreeze|coolant)|\b(?:ethylene glycol|glycol|antifreeze|coolant)[a-z ,(]*(\d{1,3}) ?%`),
		func(m []string) (Fluid, bool) { return glycol(m[1] + m[2]) }},
	{regexp.MustCompile(`\b50 ?[/:] ?50\b`), func([]string) (Fluid, bool) { return glycol("50") }},
}

// fluidClasses are names of fluids without a grade.
var fluidClasses = map[string]string{
	"engine oil": engineOil, "motor oil": engineOil, "gear oil": gearOil, "hydraulic oil": hydraulicOil, "hydraulic fluid": hydraulicOil,
	"mineral oil": mineralOil, "oil": mineralOil,
}

var fluidMarks = strings.NewReplacer(
	"–", "-", "—", "-", "−", "-", "‐", "-", "‑", "-", "\u00a0", " ", "®", "", "_", " ", "vol%", "%", "vol.%", "%", "vol.-%", "%",
	"iso 3448", "iso", "sae j300", "sae", "sae j306", "sae",
)

// another is a second grade behind the first: ISO VG 32 or 46.
var another = regexp.MustCompile(`\|.*\b(?:or|and) ?\d`)

// FluidByGrade reads a grade of a fluid as printed: SAE 15W-40, 80W-90, SAE 90,
// ISO VG 46, VG46, HLP 46, ATF, DOT 4, 50 % ethylene glycol, 50/50 coolant; or a
// class: engine oil, gear oil, hydraulic oil, mineral oil. What it does not know
// (NLGI 2, SAE 15W-45, water), and a text with two grades of different fluids, is
// not known; that is no error.
func FluidByGrade(text string) (f Fluid, known bool) {
	if len(text) > 200 {
		return Fluid{}, false
	}
	if seen, ok := fluidMemo.get(text); ok {
		return seen.fluid, seen.known
	}
	f, known = fluidByGrade(text)
	fluidMemo.put(text, fluidSeen{f, known})
	return f, known
}

type fluidSeen struct {
	fluid Fluid
	known bool
}

var fluidMemo memo[string, fluidSeen]

func fluidByGrade(text string) (f Fluid, known bool) {
	s := fluidMarks.Replace(strings.ToLower(strings.Join(strings.Fields(text), " ")))
	if strings.Contains(s, "propylene") || strings.Contains(s, "grease") {
		return Fluid{}, false // our tables have ethylene glycol, and no greases
	}
	if class, ok := fluidClasses[s]; ok {
		return fluidOf(class, "", ""), true
	}
	for _, form := range fluidForms {
		all := form.pattern.FindAllStringSubmatch(s, -1)
		for _, m := range all {
			one, ok := form.read(m)
			if !ok || known && one.Grade != f.Grade {
				return Fluid{}, false
			}
			f, known = one, true
		}
		if len(all) == 0 {
			continue
		}
		// The text of a grade is used up: SAE 15W-40 holds no SAE 15.
		s = form.pattern.ReplaceAllString(s, "|")
	}
	if another.MatchString(s) {
		return Fluid{}, false
	}
	return f, known
}

func byGrade(grade string) (Fluid, bool) {
	class, ok := fluids().grades[grade]
	if !ok {
		return Fluid{}, false
	}
	return fluidOf(class, grade, grade), true
}

// saeWinter reads 15W-40 or 15W; SAE J300 has 0W to 25W, SAE J306 70W to 85W.
func saeWinter(winter, summer string) (Fluid, bool) {
	cold := "SAE " + winter + "W"
	class, ok := fluids().grades[cold]
	if !ok {
		return Fluid{}, false
	}
	if summer == "" {
		return fluidOf(class, cold, cold), true
	}
	hot := "SAE " + summer
	if fluids().grades[hot] != class {
		return Fluid{}, false
	}
	grade := cold + "-" + summer
	f := fluidOf(class, grade, cold, hot, grade)
	// A grade thinner at 100 °C than its winter grade allows cannot be.
	return f, f.KV100.Lo < f.KV100.Hi
}

func sae(number string) (Fluid, bool) { return byGrade("SAE " + number) }

// isoVG reads a viscosity class of ISO 3448.
func isoVG(number string) (Fluid, bool) { return byGrade("ISO VG " + number) }

// glycol reads a mix; of other shares than a half only the name is known.
func glycol(percent string) (Fluid, bool) {
	n, err := strconv.Atoi(percent)
	if err != nil || n < 1 || n > 100 {
		return Fluid{}, false
	}
	if n == 50 {
		return fluidOf(coolant, glycol50, glycol50), true
	}
	return Fluid{Class: coolant, Grade: percent + " % ethylene glycol"}, true
}
