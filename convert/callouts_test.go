package convert

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// A callout is one call-out in two units from a US government manual, as
// printed. The files in testdata/callouts name document and place of each.
type callout struct {
	id, document, context, printed   string
	firstMin, firstMax, firstUnit    string
	secondMin, secondMax, secondUnit string
	agree, reverse, suspected, class string
	noise                            string
}

func callouts(tb testing.TB) []callout {
	tb.Helper()
	files, err := filepath.Glob("testdata/callouts/*.csv")
	if err != nil || len(files) != 3 {
		tb.Fatalf("call-out files: %v, %v; want three", files, err)
	}
	var cs []callout
	for _, file := range files {
		f, err := os.Open(file)
		if err != nil {
			tb.Fatal(err)
		}
		defer f.Close()
		rows, err := csv.NewReader(f).ReadAll()
		if err != nil {
			tb.Fatal(err)
		}
		for _, r := range rows[1:] {
			cs = append(cs, callout{r[0], r[1], r[2], r[3], r[4], r[5], r[6], r[7], r[8], r[9], r[10], r[11], r[12], r[13], r[14]})
		}
	}
	return cs
}

// The unit columns of the call-outs, where they are not spellings of print.
var calloutUnits = map[string]string{"degC": "°C", "degF": "°F", "gal": "US gal", "qt": "US qt", "lb-ft": "lbf·ft"}

func (c *callout) dimension() Dimension {
	switch c.firstUnit {
	case "lb-ft", "lb-in", "N·m", "kg-m":
		return Torque
	case "in", "mm", "cm", "ft", "m":
		return Length
	case "lb", "N", "kg":
		if c.secondUnit == "kg" {
			return Mass
		}
		return Force
	case "degC", "degF":
		if strings.Contains(c.context, "difference") {
			return TemperatureDifference
		}
		return Temperature
	case "L", "gal", "qt", "bbl":
		return Volume
	case "mph", "kph":
		return Speed
	}
	return Pressure
}

// figures are the two values as they were read from the page.
func (c *callout) figures(tb testing.TB) (first, second Quantity) {
	tb.Helper()
	read := func(lo, hi, unit string, d Dimension) Quantity {
		if u, ok := calloutUnits[unit]; ok {
			unit = u
		}
		lo, hi = strings.ReplaceAll(lo, ",", ""), strings.ReplaceAll(hi, ",", "")
		text := lo + " " + unit
		if lo != hi {
			text = lo + " to " + hi + " " + unit
		}
		q, p := Parse(text, Of(d), Point)
		if p != nil {
			tb.Errorf("%s: Parse(%q): %v", c.id, text, p)
		}
		return q
	}
	d := c.dimension()
	second = read(c.secondMin, c.secondMax, c.secondUnit, map[bool]Dimension{true: Torque, false: d}[c.secondUnit == "N·m"])
	return read(c.firstMin, c.firstMax, c.firstUnit, d), second
}

// lost reports a row whose numbers the scan lost: they say nothing about the
// page.
func (c *callout) lost() bool {
	return c.class == "OCR noise only" && (strings.Contains(c.suspected, "lost") && !strings.Contains(c.suspected, "reads as") || strings.Contains(c.suspected, "degree sign read as 0")) ||
		strings.HasPrefix(c.class, "leading decimal point lost")
}

// right reports a class that is no error of the page.
func (c *callout) right() bool {
	for _, p := range []string{"none", "rounding only", "rounding sloppy", "shortened factor", "OCR noise only"} {
		if strings.HasPrefix(c.class, p) {
			return true
		}
	}
	return false
}

// printedProblem reports a problem in reading one of the two values as printed,
// for the errors that stand in the unit and not in the numbers.
func (c *callout) printedProblem() bool {
	pieces := strings.FieldsFunc(c.printed, func(r rune) bool { return strings.ContainsRune("()[]", r) })
	for _, p := range pieces {
		if strings.ContainsAny(p, "0123456789") {
			if _, pr := Parse(strings.TrimSpace(p), Of(c.dimension()), Point); pr != nil {
				return true
			}
		}
	}
	return false
}

// TestCallouts holds the agreement of printed values against real print: no
// habit of rounding may be called an error, and hardly an error may pass.
func TestCallouts(t *testing.T) {
	var right, accused, wrong, missed int
	for _, c := range callouts(t) {
		if c.lost() {
			continue
		}
		first, second := c.figures(t)
		a := Agree(first, second)
		if c.right() {
			right++
			if a.Outcome == Disagree {
				accused++
				t.Logf("%s %q (%s): %v at the %v, ratio %.4f, want %v", c.id, c.printed, c.class, a.Outcome, a.End, a.Ratio, a.Want)
			}
			if a.Certain() {
				t.Errorf("%s %q (%s): certain disagreement, ratio %.4f", c.id, c.printed, c.class, a.Ratio)
			}
			continue
		}
		wrong++
		inUnit := slices.ContainsFunc([]string{"unit", "quantity"}, func(p string) bool { return strings.HasPrefix(c.class, p) })
		if a.Outcome != Disagree && !(inUnit && c.printedProblem()) {
			missed++
			t.Logf("%s %q (%s): not seen, %v", c.id, c.printed, c.class, a.Outcome)
		}
	}
	t.Logf("right %d, accused %d; wrong %d, missed %d", right, accused, wrong, missed)
	if accused*100 > right {
		t.Errorf("%d of %d call-outs without error are called wrong, want at most 1 %%", accused, right)
	}
	if missed*10 > wrong {
		t.Errorf("%d of %d errors are not seen, want at most 10 %%", missed, wrong)
	}
	if right < 500 || wrong < 25 {
		t.Errorf("only %d right and %d wrong call-outs were compared", right, wrong)
	}
}
