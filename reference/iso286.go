package reference

import (
	"fmt"
	"math"
	"strconv"
	"sync"
)

// FitFault is a kind of FitError.
type FitFault uint8

// The kinds of trouble with a fit or a tolerance class.
const (
	FitUnreadable   FitFault = iota // no fit or tolerance class
	FitImpossible                   // ISO 286 has no such letter or grade
	FitNotInTables                  // it exists, but not in our tables
	FitOutsideSizes                 // the nominal size is outside our tables: not over 0, or over 500 mm
)

// FitError says why a fit or tolerance class cannot be worked out.
type FitError struct {
	Fault   FitFault
	Message string // lower case, no full stop
}

func (e *FitError) Error() string { return e.Message }

func fitError(f FitFault, format string, args ...any) error {
	return &FitError{f, fmt.Sprintf(format, args...)}
}

const (
	it01, it0 = -1, 0
	mostGrade = 18
	mostSize  = 500 // mm
)

// sizeRange is over the first figure, up to and including the second, in mm.
type sizeRange struct{ over, upTo float64 }

func (r sizeRange) holds(mm float64) bool { return mm > r.over && mm <= r.upTo }

func (r sizeRange) String() string {
	return "over " + plain(r.over) + " to " + plain(r.upTo) + " mm"
}

func (r row) sizes() sizeRange {
	s := sizeRange{r.number("over_mm"), r.number("up_to_mm")}
	if s.upTo == 0 {
		s.upTo = math.Inf(1)
	}
	return s
}

type standardTolerance struct {
	sizeRange
	um     [mostGrade + 2]float64 // from IT01
	source Citation
}

// deviation is a fundamental deviation, or a value of Delta.
type deviation struct {
	sizeRange
	gradeMin, gradeMax int
	um                 float64
	source             Citation
}

func (d deviation) holds(mm float64, grade int) bool {
	return d.sizeRange.holds(mm) && grade >= d.gradeMin && grade <= d.gradeMax
}

type iso286Tables struct {
	tolerances []standardTolerance
	deviations map[string][]deviation // by letter, "Delta" for Delta
}

var iso286 = sync.OnceValue(func() iso286Tables {
	tab := iso286Tables{deviations: make(map[string][]deviation)}
	for _, r := range mustTable("iso286-it.csv") {
		t := standardTolerance{sizeRange: r.sizes(), source: r.cite()}
		for i := range t.um {
			t.um[i] = r.number("IT" + gradeName(i+it01))
		}
		tab.tolerances = append(tab.tolerances, t)
	}
	for _, r := range mustTable("iso286-deviations.csv") {
		letter := r.text("letter")
		tab.deviations[letter] = append(tab.deviations[letter], deviation{
			sizeRange: r.sizes(), um: r.number("value_um"), source: r.cite(),
			gradeMin: int(r.number("grade_min")), gradeMax: int(r.number("grade_max")),
		})
	}
	return tab
})

func gradeName(grade int) string {
	if grade == it01 {
		return "01"
	}
	return strconv.Itoa(grade)
}

// find is the deviation of a letter at a size and grade.
func (tab iso286Tables) find(letter string, mm float64, grade int) (deviation, bool) {
	for _, d := range tab.deviations[letter] {
		if d.holds(mm, grade) {
			return d, true
		}
	}
	return deviation{}, false
}

func (tab iso286Tables) tolerance(mm float64) standardTolerance {
	for _, t := range tab.tolerances {
		if t.holds(mm) {
			return t
		}
	}
	return standardTolerance{}
}

// sizeOutside is the error of a nominal size that the tables do not hold, nil
// where they do.
func sizeOutside(mm float64) error {
	if mm > 0 && mm <= mostSize {
		return nil
	}
	return fitError(FitOutsideSizes, "our tables of ISO 286 are for nominal sizes over 0 up to %d mm, not for %s mm", mostSize, plain(mm))
}

// StandardTolerance is the tolerance of a grade of ISO 286-1 in µm: grade 7 is
// IT7, 0 is IT0, -1 is IT01.
func StandardTolerance(nominalMM float64, grade int) (um float64, c Citation, err error) {
	if grade < it01 || grade > mostGrade {
		return 0, Citation{}, fitError(FitImpossible, "there is no IT%d; the grades are IT01, IT0 and IT1 to IT18", grade)
	}
	if err := sizeOutside(nominalMM); err != nil {
		return 0, Citation{}, err
	}
	t := iso286().tolerance(nominalMM)
	return t.um[grade-it01], t.source, nil
}

// LimitDeviation is the upper and the lower limit deviation, in µm, of a
// tolerance class (H7, g6, js6) at a nominal size in mm, by ISO 286-1: the
// fundamental deviation of the letter, the standard tolerance of the grade, for
// holes K to N up to IT8 and P to S up to IT7 the value Delta added. js and JS
// are the exact half of the tolerance; ISO 286-2 rounds an odd one in grades 7
// to 11 down to the next whole micrometre.
//
// The error is a [FitError].
func LimitDeviation(nominalMM float64, class string) (upperUm, lowerUm float64, c Citation, err error) {
	letter, grade, err := toleranceClass(class)
	if err != nil {
		return 0, 0, Citation{}, err
	}
	it, _, err := StandardTolerance(nominalMM, grade)
	if err != nil {
		return 0, 0, Citation{}, err
	}
	tab := iso286()
	c = Citation{ID: "iso-286", Text: "ISO 286-1, IT" + gradeName(grade) + " and deviation " + letter +
		", " + tab.tolerance(nominalMM).sizeRange.String(), Seen: Computed}
	if letter == "js" || letter == "JS" {
		return it / 2, -it / 2, c, nil
	}
	d, ok := tab.find(letter, nominalMM, grade)
	if !ok {
		return 0, 0, Citation{}, notTabled(letter, grade, nominalMM)
	}
	if isHole(letter) {
		if letter <= "H" {
			return d.um + it, d.um, c, nil
		}
		delta, err := tab.delta(letter, nominalMM, grade)
		if err != nil {
			return 0, 0, Citation{}, err
		}
		upper := d.um + delta
		// ISO 286-1 gives this one cell a value of its own, for otherwise the
		// hole would not go with the shaft that it is made for.
		if letter == "M" && grade == 6 && nominalMM > 250 && nominalMM <= 315 {
			upper = -9
		}
		return upper, upper - it, c, nil
	}
	if letter <= "h" {
		return d.um, d.um - it, c, nil
	}
	return d.um + it, d.um, c, nil
}

// delta is what ISO 286-1 adds to the upper deviation of holes K, M, N up to
// IT8 and P to S up to IT7, above 3 mm.
func (tab iso286Tables) delta(letter string, mm float64, grade int) (float64, error) {
	last := 7
	if letter <= "N" {
		last = 8
	}
	if mm <= 3 || grade > last {
		return 0, nil
	}
	d, ok := tab.find("Delta", mm, grade)
	if !ok {
		return 0, notTabled(letter, grade, mm)
	}
	return d.um, nil
}

func notTabled(letter string, grade int, mm float64) error {
	class := letter + gradeName(grade)
	switch {
	case letter == "K" && grade > 8:
		return fitError(FitNotInTables, "ISO 286 does not define %s above 3 mm; K ends at K8", class)
	case len(iso286().deviations[letter]) == 0:
		return fitError(FitNotInTables, "%s is not in our tables of ISO 286, which have d to s, js, D to S and JS", class)
	}
	return fitError(FitNotInTables, "%s is not in our tables of ISO 286 for %s mm", class, plain(mm))
}
