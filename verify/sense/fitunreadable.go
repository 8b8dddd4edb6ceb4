package sense

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// FitUnreadable flags a fit that ISO 286 does not know.
var FitUnreadable = &rule.Check{
	ID: "fit-unreadable", Layer: rule.Sense, Title: "a fit that ISO 286 does not know",
	Doc: doc("fit-unreadable.md"), Source: reference.Cite("iso-286"), Since: "v0.1.0",
	Verdict: rule.Reject,
	Record: func(p *rule.Pass) {
		fit := p.Record.Fit
		if fit == "" || inchFit.MatchString(fit) {
			return
		}
		f := rule.Finding{Verdict: rule.Query, At: schema.Spot{Path: schema.At("fit")}, Read: fit}
		m := isoFit.FindStringSubmatch(strings.TrimSpace(fit))
		if m == nil {
			f.Message = fmt.Sprintf("%s is no fit; write a hole and a shaft as H7/g6, or one of them", fit)
			p.Report(f)
			return
		}
		for _, part := range [][2]string{{m[1], m[2]}, {m[3], m[4]}} {
			if why := notISO286(part[0], part[1]); why != "" {
				f.Verdict = rule.Reject
				f.Message = fmt.Sprintf("%s is no fit of ISO 286: %s", fit, why)
				p.Report(f)
				return
			}
		}
		if m[3] != "" && (isShaft(m[1]) || !isShaft(m[3])) {
			f.Message = fmt.Sprintf("%s names the hole in capitals and the shaft in small letters; write the hole first", fit)
			p.Report(f)
		}
	},
}

var (
	isoFit = regexp.MustCompile(`^([A-Za-z]{1,2}) ?([0-9]{1,3})(?: ?[/ -] ?([A-Za-z]{1,2}) ?([0-9]{1,3}))?$`)

	// inchFit is a fit of ANSI B4.1: RC 4, LC 2, LT 3, LN 2, FN 1.
	inchFit = regexp.MustCompile(`^(RC|LC|LT|LN|FN) ?[0-9]{1,2}$`)
)

func isShaft(letters string) bool { return letters == strings.ToLower(letters) }

// notISO286 says why a tolerance class cannot exist, "" if it can. ISO 286-1 uses
// all letters but I, L, O, Q and W, the doubled letters below, and the grades 01,
// 0 and 1 to 18.
func notISO286(letters, grade string) string {
	if letters == "" {
		return ""
	}
	upper := strings.ToUpper(letters)
	if letters != upper && letters != strings.ToLower(letters) {
		return fmt.Sprintf("%q mixes capitals, which are holes, with small letters, which are shafts", letters)
	}
	switch {
	case len(letters) == 1 && strings.Contains("ILOQW", upper):
		return fmt.Sprintf("the letter %s is not used", letters)
	case len(letters) == 2 && !strings.Contains(" CD EF FG JS ZA ZB ZC ", " "+upper+" "):
		return fmt.Sprintf("there is no %s", letters)
	}
	if n, err := strconv.Atoi(grade); grade != "01" && (err != nil || n > 18 || len(grade) > 1 && grade[0] == '0') {
		return fmt.Sprintf("grade %s does not exist, the grades are 01, 0 and 1 to 18", grade)
	}
	return ""
}
