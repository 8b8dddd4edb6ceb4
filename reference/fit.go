package reference

import (
	"strconv"
	"strings"
)

// isHole reports that a letter stands for a hole: holes are capitals.
func isHole(letter string) bool { return letter[0] < 'a' }

// toleranceClass splits a tolerance class: "H7" is H and 7, "js01" js and -1.
func toleranceClass(class string) (letter string, grade int, err error) {
	class = strings.TrimSpace(class)
	n := 0
	for n < len(class) && isLetter(class[n]|0x20) {
		n++
	}
	letter, number := class[:n], strings.TrimSpace(class[n:])
	if n == 0 || n > 2 || number == "" || len(number) > 3 || strings.Trim(number, "0123456789") != "" {
		return "", 0, fitError(FitUnreadable, "“%s” is no tolerance class; write H7, g6 or H7/g6", short(class))
	}
	upper := strings.ToUpper(letter)
	switch {
	case letter != upper && letter != strings.ToLower(letter):
		return "", 0, fitError(FitImpossible, "%s mixes capitals, which are holes, with small letters, which are shafts", letter)
	case n == 1 && strings.Contains("ILOQW", upper), n == 2 && !strings.Contains(" CD EF FG JS ZA ZB ZC ", " "+upper+" "):
		return "", 0, fitError(FitImpossible, "ISO 286 has no deviation %s", letter)
	}
	if number == "01" {
		return letter, it01, nil
	}
	grade, err = strconv.Atoi(number)
	if err != nil || grade > mostGrade || number[0] == '0' && len(number) > 1 {
		return "", 0, fitError(FitImpossible, "grade %s does not exist; the grades of ISO 286 are 01, 0 and 1 to 18", number)
	}
	return letter, grade, nil
}

// fitMarks brings the marks between hole and shaft, and those before, to one.
var fitMarks = strings.NewReplacer(
	"⁄", "/", "∕", "/", "–", "-", "−", "-", "‐", "-", "\u00a0", " ", "\t", " ", "ø", " ", "Ø", " ", "⌀", " ",
)

// ParseFit reads a fit: H7/g6, H7-g6, H7 g6. One part may stand alone; the other
// is then empty. Classes come back without spaces. Letters that ISO 286 has but
// our tables lack (ZC8) are read. The error is a [FitError].
func ParseFit(text string) (hole, shaft string, err error) {
	s := strings.TrimSpace(fitMarks.Replace(text))
	first, second, two := strings.Cut(s, "/")
	if !two {
		first, second, two = strings.Cut(s, "-")
	}
	if !two {
		// H7 g6: the space stands before a letter; in H 7 it does not.
		if i := strings.LastIndexByte(s, ' '); i > 0 && i+1 < len(s) && isLetter(s[i+1]|0x20) {
			first, second, two = s[:i], s[i+1:], true
		}
	}
	one, err := fitPart(first)
	if err != nil {
		return "", "", readFit(err, text)
	}
	if !two {
		if isHole(one) {
			return one, "", nil
		}
		return "", one, nil
	}
	other, err := fitPart(second)
	switch {
	case err != nil:
		return "", "", readFit(err, text)
	case isHole(one) && isHole(other):
		return "", "", fitError(FitUnreadable, "“%s” names two holes; the shaft has small letters", short(text))
	case !isHole(one) && !isHole(other):
		return "", "", fitError(FitUnreadable, "“%s” names two shafts; the hole has capitals", short(text))
	case !isHole(one):
		return "", "", fitError(FitUnreadable, "“%s” names the shaft first; write %s/%s", short(text), other, one)
	}
	return one, other, nil
}

// readFit names the whole fit where a part could not be read.
func readFit(err error, text string) error {
	if e, ok := err.(*FitError); ok && e.Fault == FitUnreadable {
		return fitError(FitUnreadable, "“%s” is no fit; write a hole and a shaft as H7/g6, or one of them", short(text))
	}
	return err
}

func fitPart(text string) (class string, err error) {
	letter, grade, err := toleranceClass(text)
	if err != nil {
		return "", err
	}
	return letter + gradeName(grade), nil
}

// FitLimits is what a fit comes to at a nominal size. Deviations and clearances
// are in µm; a negative clearance is interference.
type FitLimits struct {
	Nominal                    float64 // mm
	Hole, Shaft                string
	HoleUpper, HoleLower       float64
	ShaftUpper, ShaftLower     float64
	MaxClearance, MinClearance float64
	Kind                       string // clearance, transition, interference
	Source                     Citation
}

// Fit works out a fit such as H7/g6 at a nominal size in mm, by ISO 286-1. The
// error is a [FitError]; a hole or a shaft alone is no fit.
func Fit(nominalMM float64, fit string) (FitLimits, error) {
	f := FitLimits{Nominal: nominalMM}
	var err error
	if f.Hole, f.Shaft, err = ParseFit(fit); err != nil {
		return FitLimits{}, err
	}
	if f.Hole == "" || f.Shaft == "" {
		return FitLimits{}, fitError(FitUnreadable, "“%s” is one part only; a fit needs a hole and a shaft", short(fit))
	}
	var hole, shaft Citation
	if f.HoleUpper, f.HoleLower, hole, err = LimitDeviation(nominalMM, f.Hole); err != nil {
		return FitLimits{}, err
	}
	if f.ShaftUpper, f.ShaftLower, shaft, err = LimitDeviation(nominalMM, f.Shaft); err != nil {
		return FitLimits{}, err
	}
	f.MaxClearance, f.MinClearance = f.HoleUpper-f.ShaftLower, f.HoleLower-f.ShaftUpper
	switch {
	case f.MinClearance >= 0:
		f.Kind = "clearance"
	case f.MaxClearance <= 0:
		f.Kind = "interference"
	default:
		f.Kind = "transition"
	}
	f.Source = Citation{ID: "iso-286", Text: hole.Text + "; " + strings.TrimPrefix(shaft.Text, "ISO 286-1, "), Seen: Computed}
	return f, nil
}
