package reference

import (
	"regexp"
	"strings"
)

// Why says why nothing is known under a term, where that can be told: a class,
// a grade of oil, a tolerance class or a thread that does not exist, or one
// that exists and stands in no table here. near is what was probably meant.
// Empty where nothing can be said.
func Why(term string) (reason string, near []string) {
	term = strings.Join(strings.Fields(term), " ")
	if term == "" {
		return "", nil
	}
	for _, why := range []func(string) (string, []string){whyNoFluid, whyNoClass, whyNoFit, whyNoThread} {
		if reason, near = why(term); reason != "" {
			return reason, near
		}
	}
	return "", nil
}

func whyNoClass(term string) (string, []string) {
	if strings.Contains(term, "/") {
		return "", nil // a size, a fit
	}
	for _, metric := range []bool{true, false} {
		r := ReadClass(term, 0, metric)
		switch {
		case !r.Known && r.Message != "":
			return r.Message, nil // it names what was meant
		case !r.Known:
		case !r.Exists:
			return r.Message, r.Near
		case !r.InTables:
			return term + " is a class or grade that exists; no table here has its strength", nil
		}
	}
	return "", nil
}

var (
	winterGrade = regexp.MustCompile(`(?i)^(?:sae ?)?(\d{1,3}) ?w(?: ?[-–/]? ?(\d{1,3}))?$`)
	plainGrade  = regexp.MustCompile(`(?i)^(sae|(?:iso )?vg|dot) ?-?(\d{2,4}|\d\.\d|\d)$`)
)

func whyNoFluid(term string) (string, []string) {
	if m := winterGrade.FindStringSubmatch(term); m != nil {
		return whyNoWinterGrade(m[1]+"W", m[2]), nil
	}
	m := plainGrade.FindStringSubmatch(term)
	if m == nil {
		return "", nil
	}
	prefix := map[string]string{"sae": "SAE ", "dot": "DOT "}[strings.ToLower(m[1])]
	switch {
	case prefix == "":
		prefix = "ISO VG "
	case prefix == "SAE " && len(m[2]) < 2:
		return "", nil // a grade of screws
	}
	return "there is no " + prefix + m[2] + " in the tables; there are " + andList(gradesNamed(prefix, "", false)), nil
}

func whyNoWinterGrade(cold, hot string) string {
	class, ok := fluids().grades["SAE "+cold]
	if !ok {
		return "there is no SAE " + cold + "; winter grades are " + andList(gradesNamed("SAE ", "", true))
	}
	warm := gradesNamed("SAE ", class, false)
	if fluids().grades["SAE "+hot] != class {
		return "there is no " + class + " " + hot + " to go with SAE " + cold + "; there are " + andList(warm)
	}
	return "there is no SAE " + cold + "-" + hot + ": SAE " + cold + " is thicker at 100 °C than SAE " + hot
}

// gradesNamed are the grades of the fluid table that begin so, without the
// beginning: of one class, or of all; winter grades or the others.
func gradesNamed(prefix, class string, winter bool) []string {
	var out []string
	for _, g := range fluids().order {
		name, ok := strings.CutPrefix(g, prefix)
		if ok && strings.HasSuffix(name, "W") == winter && !strings.Contains(name, "-") && (class == "" || fluids().grades[g] == class) {
			out = append(out, name)
		}
	}
	return out
}

func andList(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}

var gradeLike = regexp.MustCompile(`(?i)^it ?(\d+)$`)

func whyNoFit(term string) (string, []string) {
	if m := gradeLike.FindStringSubmatch(term); m != nil {
		return "there is no IT" + m[1] + "; the grades of ISO 286 are IT01, IT0 and IT1 to IT18", nil
	}
	mm, text := 0.0, term
	if m := sizedFit.FindStringSubmatch(term); m != nil {
		s := scan{text: m[1]}
		s.normalise()
		mm, _ = s.number()
		text = m[2]
	} else if t, p := ParseThread(term); p == nil && t.Family != NoFamily || p != nil && p.Kind != NotAThread {
		return "", nil
	}
	hole, shaft, err := ParseFit(text)
	for _, class := range []string{hole, shaft} {
		if class == "" || err != nil {
			continue
		}
		at := mm
		if at == 0 {
			at = 10 // any size will do: the letter is in no table, or it is
		}
		_, _, _, err = LimitDeviation(at, class)
	}
	if e, ok := err.(*FitError); ok && e.Fault != FitUnreadable {
		return e.Message, nil
	}
	return "", nil
}

func whyNoThread(term string) (string, []string) {
	_, p := ParseThread(term)
	// A bare number, with whatever behind it, asks for many things.
	named := strings.ContainsAny(term[:1], "Mm#") || strings.Contains(term, "/")
	if p == nil || p.Kind == NotAThread || p.Kind == NoSuchSize && !named {
		return "", nil
	}
	return p.Message, nil
}
