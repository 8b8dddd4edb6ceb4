package reference

import (
	"regexp"
	"slices"
	"strings"
)

// Grades of SAE J429 in our tables, and those of other editions; the latter
// from memory, but for 6, which older US Army torque tables print.
var (
	saeGrades = []string{"1", "2", "4", "5", "5.2", "7", "8", "8.2"}
	otherSAE  = []string{"0", "3", "5.1", "6", "8.1"}
)

// Classes of nuts of ISO 898-2 and what they go with.
var nutPartner = map[string][]string{
	"4": {"4.6", "4.8"}, "5": {"5.6", "5.8"}, "6": {"6.8"}, "8": {"8.8"}, "9": {"9.8"}, "10": {"10.9"}, "12": {"12.9"},
	"04": nil, "05": nil,
}

// nutOrSAE reads what has one number: a grade of SAE J429, or a class of nuts.
func (c *classPart) nutOrSAE(core string) (ClassReading, bool) {
	if digits.MatchString(core) && len(core) > 1 && c.system == "" {
		class := core[:len(core)-1] + "." + core[len(core)-1:]
		if slices.Contains(isoClasses, class) {
			return ClassReading{Near: []string{class},
				Message: "there is no class " + core + "; " + class + " with its point is one"}, true
		}
	}
	if !saeGrade.MatchString(core) {
		return ClassReading{}, false
	}
	_, nut := nutPartner[core]
	inGrade := slices.Contains(saeGrades, core)
	known := inGrade || slices.Contains(otherSAE, core)
	inchGrade := c.system == "sae" || known && (!c.metric || strings.Contains(core, ".") || c.word == "grade" || c.word == "gr" || c.word == "g")
	switch {
	case inchGrade && inGrade:
		r := c.fromTable("SAE " + core)
		c.foreign(&r, "SAE "+core, true)
		return r, true
	case inchGrade && known:
		r := ClassReading{Exists: true, SizeFits: true}
		if core == "6" && !c.metric {
			c.between(&r, "SAE 5", "SAE 7")
		}
		c.foreign(&r, "SAE "+core, true)
		return r, true
	case inchGrade && !known:
		return ClassReading{Near: []string{"SAE 8"},
			Message: "there is no SAE grade " + core + "; SAE J429 has 1, 2, 4, 5, 5.1, 5.2, 7, 8 and 8.2"}, true
	case nut && c.metric:
		r := ClassReading{Exists: true, SizeFits: true}
		if len(strengthsOf(core)) > 0 {
			r = c.fromTable(core)
		}
		r.Near = slices.Clone(nutPartner[core])
		return r, true
	}
	// Grade 9 and the like are makers' own names.
	return ClassReading{}, false
}

// between takes the rows of two neighbours for a grade that has none.
func (c *classPart) between(r *ClassReading, lower, upper string) {
	a, b := c.fromTable(lower), c.fromTable(upper)
	if a.SizeFits && b.SizeFits {
		r.Between, r.Rows = true, append(a.Rows, b.Rows...)
	}
}

var (
	stainless    = regexp.MustCompile(`^(a)(\d)(?: ?[-/ ] ?(\d{2,3}))?l?$`)
	stainlessRun = regexp.MustCompile(`^(a)([1-5])(50|70|80)$`)
	otherSteel   = regexp.MustCompile(`^([cfd])(\d)[- ](\d{2,3})$`)
	stainlessSet = regexp.MustCompile(`^a[1-5][- ](?:12|21)h$`)
)

// Steels and classes of ISO 3506 that have no rows in our tables; from memory.
var otherStainless = map[string][]string{
	"a":  {"50", "70", "80", "100", "025", "035", "040", "050"},
	"c1": {"50", "70", "110", "025", "035", "055"}, "c3": {"80", "040"}, "c4": {"50", "70", "025", "035"},
	"f1": {"45", "60", "020", "030"},
	"d2": {"70", "80", "100"}, "d4": {"70", "80", "100"}, "d6": {"70", "80", "100"}, "d8": {"70", "80", "100"},
}

// readStainless reads a class of ISO 3506.
func readStainless(core string) (ClassReading, bool) {
	if stainlessSet.MatchString(core) {
		return ClassReading{Exists: true, SizeFits: true}, true
	}
	m := stainless.FindStringSubmatch(core)
	if m == nil {
		m = stainlessRun.FindStringSubmatch(core)
	}
	if m == nil {
		m = otherSteel.FindStringSubmatch(core)
	}
	if m == nil {
		return ClassReading{}, false
	}
	steel, class := m[1]+m[2], m[3]
	name := strings.ToUpper(steel)
	have := otherStainless[steel]
	if m[1] == "a" && m[2] >= "1" && m[2] <= "5" {
		have = otherStainless["a"]
	}
	if have == nil {
		return ClassReading{Near: []string{"A2-70", "A4-70"},
			Message: "there is no steel " + name + " in ISO 3506; it has A1 to A5, C1, C3, C4, F1, D2, D4, D6 and D8"}, true
	}
	if class == "" { // A2: any class of it
		r := ClassReading{Exists: true, InTables: true, SizeFits: true}
		for _, s := range strengths() {
			if strings.HasPrefix(s.Designation, name+"-") {
				r.Rows = append(r.Rows, s)
			}
		}
		return r, true
	}
	if !slices.Contains(have, class) {
		var near []string
		for _, h := range have {
			// One digit wrong, or the digits exchanged.
			if h[0] != '0' && len(h) == len(class) && (h[0] == class[0] || h[0] == class[1] && h[1] == class[0]) {
				near = append(near, name+"-"+h)
			}
		}
		var all []string
		for _, h := range have {
			if h[0] != '0' {
				all = append(all, name+"-"+h)
			}
		}
		return ClassReading{Near: near,
			Message: "there is no class " + name + "-" + class + ": the number is a tenth of the tensile strength in MPa; ISO 3506-1 has " + orList(all)}, true
	}
	rows := strengthsOf(name + "-" + class)
	return ClassReading{Exists: true, InTables: len(rows) > 0, Rows: rows, SizeFits: true}, true
}

var astmName = regexp.MustCompile(`^(?:astm ?)?([abf])[ -]?(\d{3,4})(m?)(?:[ /,-]+(?:type|grade|gr|class|cl)?[ .]*([a-z0-9]{1,4}(?: .*)?))?$`)

// ASTM standards for bolts, screws, studs and nuts; from memory but for those
// in our tables.
var astmStandards = []string{
	"a193", "a194", "a307", "a320", "a325", "a354", "a394", "a437", "a449", "a453", "a489", "a490", "a540", "a563", "a574", "a687", "a962",
	"f436", "f468", "f467", "f541", "f568", "f593", "f594", "f606", "f738", "f835", "f836", "f837", "f879", "f880", "f912", "f1554", "f1852", "f2280", "f2281", "f2282", "f3111", "f3125", "f3148",
}

// astm reads an ASTM standard with or without its grade.
func (c *classPart) astm(core string) (ClassReading, bool) {
	m := astmName.FindStringSubmatch(core)
	if m == nil {
		return ClassReading{}, false
	}
	name, soft := m[1]+m[2], m[3] == "m"
	if !slices.Contains(astmStandards, name) {
		return ClassReading{}, false
	}
	r := ClassReading{Exists: true, SizeFits: true}
	grade := strings.ToUpper(m[4])
	designation := "ASTM " + strings.ToUpper(name)
	if name == "a307" && (grade == "" || grade == "A") {
		designation += " A"
	}
	if rows := strengthsOf(designation); len(rows) > 0 && !soft && (grade == "" || name == "a307" && grade == "A" || name == "a449") {
		r = c.fromTable(designation)
	}
	if !soft && len(r.Rows) > 0 {
		c.foreign(&r, designation, true)
	}
	return r, true
}

var classNames = []*regexp.Regexp{
	regexp.MustCompile(`(?:^|set screw )(14|22|33|45)h\b`),                     // ISO 898-5, set screws
	regexp.MustCompile(`^(4|5|6|7|8|9|10|11|12|14)t\b`),                        // JIS before ISO
	regexp.MustCompile(`^(4a|4d|4p|4s|5d|5s|6d|6e|6g|6s|8g|10k|12k)$`),         // DIN 267 before ISO
	regexp.MustCompile(`^(b5|b6|b7m?|b8[cmt]*|b16|l7m?|l43|2hm?|dh3?|bc|bd)$`), // grades of ASTM A193, A194, A320, A354, A563
	regexp.MustCompile(`^(an|ms|nas|nasm|bac|mil)[ -]?\d+`),                    // aircraft standards
	regexp.MustCompile(`^an\b.*(bolt|screw)`),
}

// readByName recognises names that have no rows in our tables.
func readByName(core string) (ClassReading, bool) {
	for _, re := range classNames {
		if re.MatchString(core) {
			return ClassReading{Exists: true, SizeFits: true}, true
		}
	}
	return ClassReading{}, false
}

// otherMaterial names what a screw may be made of that is neither steel nor
// stainless steel, and the classes of ISO 8839 (CU1 to CU7, AL1 to AL6; from
// memory).
var otherMaterial = regexp.MustCompile(`(?i)\b(nylon|polyamide|pa ?6(?:[./]?6)?|plastics?|acetal|peek|ptfe|brass|bronze|copper|alumin(?:i)?um|aluminium alloy|magnesium|titanium|monel|cu[1-7]|al[1-6])\b`)

// NotSteel reports a class that names a material for which no strength of screws
// is in the tables: nylon, brass, aluminium, titanium, CU2.
func NotSteel(class string) bool { return otherMaterial.MatchString(class) }
