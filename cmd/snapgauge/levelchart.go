package main

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"snapgauge/convert"
	"snapgauge/schema"
	"snapgauge/verify/fluid"
)

// chartHeight is the number of rows of a level chart.
const chartHeight = 14

// chart draws temperature against level: the low and the high line, the points
// of the table, and the asked temperature with what holds there.
func (p *levelPage) chart(points []fluid.Point, tC float64, u convert.Unit) {
	points = slices.Clone(points)
	slices.SortStableFunc(points, func(a, b fluid.Point) int { return cmp.Compare(a.TC.Lo, b.TC.Lo) })
	from, to := tC, tC
	for _, pt := range points {
		for _, end := range ends(pt) {
			from, to = min(from, end), max(to, end)
		}
	}
	lowest, highest := math.Inf(1), math.Inf(-1)
	for _, pt := range points {
		for _, side := range []fluid.Interval{pt.Low, pt.High} {
			if side.Known() {
				lowest, highest = min(lowest, side.Lo), max(highest, side.Hi)
			}
		}
	}
	x := widened(axis{lo: from, hi: to, width: axisWidth}, 5)
	y := widened(axis{lo: u.FromSI(lowest / 1000), hi: u.FromSI(highest / 1000), width: chartHeight}, 1)
	grid := make([][]byte, chartHeight)
	for i := range grid {
		grid[i] = blank(axisWidth)
	}
	put := func(col int, level float64, mark byte) {
		grid[chartHeight-1-y.column(u.FromSI(level/1000))][col] = mark
	}
	at := x.column(tC)
	for i := range grid {
		grid[i][at] = ':'
	}
	for c := range axisWidth {
		t := x.lo + (x.hi-x.lo)*float64(c)/float64(axisWidth-1)
		low, high, err := fluid.At(points, t)
		if err != nil || c == at {
			continue
		}
		for _, side := range []fluid.Interval{low, high} {
			if side.Known() {
				put(c, side.Mid(), '.')
			}
		}
	}
	for _, pt := range points {
		for _, side := range []fluid.Interval{pt.Low, pt.High} {
			for _, end := range ends(pt) {
				if side.Known() {
					put(x.column(end), side.Mid(), 'o')
				}
			}
		}
	}
	if low, high, err := fluid.At(points, tC); err == nil {
		for _, side := range []fluid.Interval{low, high} {
			if side.Known() {
				put(at, side.Mid(), 'X')
			}
		}
	}
	numbers := p.numbersBeside(y)
	for i, row := range grid {
		p.b.WriteString(strings.TrimRight(numbers[i]+string(row), " ") + "\n")
	}
	p.temperatures(x)
	fmt.Fprintf(&p.b, "%s; upper line high, lower line low; o printed, X at %s\n", u.Symbol(), p.t)
}

// ends are the temperatures that are printed for a point: one, or both of a range.
func ends(p fluid.Point) []float64 {
	out := []float64{p.TC.Lo, p.TC.Hi}
	return slices.DeleteFunc(out, func(t float64) bool { return math.IsInf(t, 0) })
}

// widened leaves a margin on both sides, and makes room where the ends meet.
func widened(a axis, columns float64) axis {
	room := (a.hi - a.lo) * columns / float64(a.width-1)
	if room <= 0 {
		room = max(math.Abs(a.hi)/10, 1)
	}
	a.lo, a.hi = a.lo-room, a.hi+room
	return a
}

// numbersBeside are the numbers of an upright axis, row by row from the top.
func (p *levelPage) numbersBeside(y axis) []string {
	out := make([]string, chartHeight)
	for i := range out {
		out[i] = pad("", labelWidth-2) + "| "
	}
	for _, v := range y.ticks(y.lo, y.hi) {
		text := strconv.FormatFloat(v, 'f', -1, 64)
		out[chartHeight-1-y.column(v)] = strings.Repeat(" ", max(0, labelWidth-3-len(text))) + text + " + "
	}
	return out
}

// temperatures draws the axis in °C and in °F, that of the question first.
func (p *levelPage) temperatures(x axis) {
	c, _ := unitOf("°C", convert.Temperature)
	f, _ := unitOf("°F", convert.Temperature)
	in := func(u convert.Unit) func(float64) float64 {
		return func(tC float64) float64 { return u.FromSI(tC + 273.15) }
	}
	first, second := c, f
	if p.t.Unit == f {
		first, second = f, c
	}
	numbers, line := x.scale(in(first))
	p.b.WriteString(labelled("", line) + labelled(first.Symbol(), numbers))
	numbers, _ = x.scale(in(second))
	p.b.WriteString(labelled(second.Symbol(), numbers))
}

// windows draws the windows of temperature of a level by marks or by plug, and
// where the asked temperature lies.
func (p *levelPage) windows(l *schema.Level) {
	var figures []*schema.Figure
	for i := range l.Marks {
		figures = append(figures, &l.Marks[i].At)
	}
	if len(l.Marks) == 0 {
		figures = append(figures, &l.At)
	}
	tC := celsius(p.t.Nominal())
	x := axis{lo: tC, hi: tC, width: axisWidth}
	var ends [][2]float64
	for _, f := range figures {
		q, ok := f.Quantity()
		if !ok {
			continue
		}
		lo, hi := q.Bounds()
		lo, hi = lo-273.15, hi-273.15
		ends = append(ends, [2]float64{lo, hi})
		for _, v := range []float64{lo, hi} {
			if !math.IsInf(v, 0) {
				x.lo, x.hi = min(x.lo, v), max(x.hi, v)
			}
		}
	}
	if len(ends) == 0 {
		return
	}
	x = widened(x, 5)
	for i, e := range ends {
		label := "window"
		if len(l.Marks) > 0 {
			label = "mark " + strconv.Itoa(i+1)
		}
		t := track{from: max(e[0], x.lo), to: min(e[1], x.hi), left: '[', fill: '=', right: ']'}
		p.b.WriteString(labelled(label, t.draw(x)))
	}
	p.b.WriteString(labelled("asked", track{from: tC, to: tC, fill: 'X'}.draw(x)))
	p.temperatures(x)
	for i := range l.Marks {
		fmt.Fprintf(&p.b, "  mark %d, %s: %s\n", i+1, texts(&l.Marks[i].At), l.Marks[i].Mark)
	}
}
