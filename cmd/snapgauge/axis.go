package main

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Pictures are drawn with ASCII characters only and are never wider than a
// terminal of 80 columns, so that they look the same everywhere.
const (
	labelWidth = 15
	axisWidth  = 57
)

// axis places numbers on a line of columns, evenly or by their ratio.
type axis struct {
	lo, hi  float64
	byRatio bool
	width   int
}

// part is where x lies between the ends, 0 to 1; beyond them it is cut.
func (a axis) part(x float64) float64 {
	lo, hi := a.lo, a.hi
	if a.byRatio {
		lo, hi, x = math.Log(lo), math.Log(hi), math.Log(x)
	}
	if hi <= lo || math.IsNaN(x) {
		return 0
	}
	return min(max((x-lo)/(hi-lo), 0), 1)
}

// column of a number, 0 to width-1.
func (a axis) column(x float64) int { return int(math.Round(a.part(x) * float64(a.width-1))) }

// scale draws the numbers of the axis and the line under them; in turns a number
// of the axis into one of the unit that is printed.
func (a axis) scale(in func(float64) float64) (numbers, line string) {
	places := blank(a.width + 8) // the last number may stand out
	marks := []byte(strings.Repeat("-", a.width))
	free := 0
	from, to := in(a.lo), in(a.hi)
	for _, v := range a.ticks(from, to) {
		c := axis{from, to, a.byRatio, a.width}.column(v)
		text := strconv.FormatFloat(v, 'f', -1, 64)
		marks[c] = '|'
		if at := max(0, c-(len(text)-1)/2); at >= free && at+len(text) <= len(places) {
			copy(places[at:], text)
			free = at + len(text) + 1
		}
	}
	return strings.TrimRight(string(places), " "), string(marks)
}

// ticks are round numbers from one end to the other.
func (a axis) ticks(from, to float64) []float64 {
	var out []float64
	if a.byRatio {
		for e := math.Floor(math.Log10(from)); e <= math.Ceil(math.Log10(to)); e++ {
			for _, m := range []float64{1, 2, 5} {
				if v := round(m * math.Pow(10, e)); v >= from && v <= to {
					out = append(out, v)
				}
			}
		}
		return out
	}
	step := roundStep((to - from) / 6)
	if !(step > 0) {
		return []float64{from}
	}
	for v := math.Ceil(from/step-1e-9) * step; v <= to+step*1e-9; v += step {
		out = append(out, round(v))
	}
	return out
}

// roundStep is the next 1, 2 or 5 times a power of ten from x up.
func roundStep(x float64) float64 {
	if !(x > 0) || math.IsInf(x, 0) {
		return 0
	}
	e := math.Pow(10, math.Floor(math.Log10(x)))
	for _, m := range []float64{1, 2, 5} {
		if x <= m*e*(1+1e-9) {
			return m * e
		}
	}
	return 10 * e
}

// round takes off the noise of binary arithmetic.
func round(x float64) float64 {
	v, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 12, 64), 64)
	return v + 0 // -0 is 0
}

// track is one row of a picture: from an axis to another it is filled, with
// marks at the ends.
type track struct {
	label      string
	from, to   float64
	left, fill byte
	right      byte
	at         float64 // a number marked within it; 0 marks none
	mark       byte
}

func (t track) draw(a axis) string {
	row := blank(a.width)
	from, to := a.column(t.from), a.column(t.to)
	for c := from; c <= to; c++ {
		row[c] = t.fill
	}
	row[to], row[from] = t.right, t.left
	if from == to {
		row[from] = t.fill
	}
	if t.mark != 0 {
		row[a.column(t.at)] = t.mark
	}
	return strings.TrimRight(string(row), " ")
}

// labelled puts a label before a row of a picture.
func labelled(label, row string) string {
	return strings.TrimRight(pad(label, labelWidth)+row, " ") + "\n"
}

// pad fills a text with blanks up to a width in characters.
func pad(text string, width int) string {
	return text + strings.Repeat(" ", max(0, width-utf8.RuneCountInString(text)))
}

func blank(n int) []byte { return slices.Repeat([]byte{' '}, n) }

// wrap breaks a text into lines of at most so many characters where it can.
func wrap(text, indent string, width int) string {
	var b strings.Builder
	line := indent
	for _, w := range strings.Fields(text) {
		if utf8.RuneCountInString(line)+1+utf8.RuneCountInString(w) > width && strings.TrimSpace(line) != "" {
			b.WriteString(line + "\n")
			line = indent + "  "
		}
		if strings.TrimSpace(line) != "" && !strings.HasSuffix(line, " ") {
			line += " "
		}
		line += w
	}
	b.WriteString(line + "\n")
	return b.String()
}
