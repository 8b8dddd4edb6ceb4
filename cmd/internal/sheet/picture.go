package sheet

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"snapgauge/schema"
)

// Drawing is a picture in millimetres, y downwards.
type Drawing struct {
	W, H   string
	Title  string
	Shapes []Shape
}

// Shape is one element of a drawing.
type Shape struct {
	Kind           string // line, circle, polygon, text
	Class          string
	X, Y, X2, Y2   string
	R              string
	Points, Anchor string
	Size, Text     string
}

// mm is a coordinate with two decimals.
func mm(x float64) string { return strconv.FormatFloat(math.Round(x*100)/100+0, 'f', -1, 64) }

func (d *Drawing) line(class string, x, y, x2, y2 float64) {
	d.Shapes = append(d.Shapes, Shape{Kind: "line", Class: class, X: mm(x), Y: mm(y), X2: mm(x2), Y2: mm(y2)})
}

func (d *Drawing) text(class, anchor string, x, y float64, text string) {
	d.Shapes = append(d.Shapes, Shape{Kind: "text", Class: class, Anchor: anchor, X: mm(x), Y: mm(y), Text: text})
}

// sized is a text in the middle of x, in a size of its own.
func (d *Drawing) sized(class string, x, y, size float64, text string) {
	d.Shapes = append(d.Shapes, Shape{Kind: "text", Class: class, Anchor: "middle", X: mm(x), Y: mm(y), Size: mm(size), Text: text})
}

func (d *Drawing) circle(class string, x, y, r float64) {
	d.Shapes = append(d.Shapes, Shape{Kind: "circle", Class: class, X: mm(x), Y: mm(y), R: mm(r)})
}

func (d *Drawing) polygon(class string, points ...[2]float64) {
	var b strings.Builder
	for i, p := range points {
		if i > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(mm(p[0]) + "," + mm(p[1]))
	}
	d.Shapes = append(d.Shapes, Shape{Kind: "polygon", Class: class, Points: b.String()})
}

// Picture shows where the places lie.
type Picture struct {
	Drawing
	Say  string // what the numbers are
	Keys []Key
}

// Key tells the mark of one of several fasteners.
type Key struct {
	Mark string // circle, square, diamond, triangle
	Name string
}

// The marks of the fasteners of a list, told apart without colour.
var markNames = []string{"circle", "square", "diamond", "triangle"}

// The room for a picture, the most it may take where places stand close, and the
// mark of a place (mm).
const (
	pictureW, pictureH = 66.0, 46.0
	mostW, mostH       = 96.0, 120.0
	markR, leastR      = 4.2, 1.6
)

// picturesOf draws the places as the record has them: x to the right, y up, both
// to one scale. Where the source prints an order the marks are numbered by it,
// one picture for each order; where it prints none they bear the numbers of the
// places.
func picturesOf(r *schema.Record) []*Picture {
	if len(r.Layout.Places) == 0 {
		return nil
	}
	var orders [][]int
	for i := range r.Tighten {
		if o := r.Tighten[i].Order; len(o) > 0 && !slices.ContainsFunc(orders, func(p []int) bool { return slices.Equal(p, o) }) {
			orders = append(orders, o)
		}
	}
	if len(orders) == 0 {
		orders = [][]int{nil}
	}
	var out []*Picture
	for _, o := range orders {
		if p := pictureOf(r, o); p != nil {
			if len(orders) > 1 {
				p.Say += "; order " + numbers(o, " → ")
			}
			out = append(out, p)
		}
	}
	return out
}

type spot struct {
	place int
	x, y  float64
}

func pictureOf(r *schema.Record, order []int) *Picture {
	spots, ok := spotsOf(r.Layout.Places)
	if !ok {
		return nil
	}
	p := &Picture{}
	p.Title = "places as the source draws them"
	aside := order != nil && !isCount(order) // the number of the place stands below the mark
	width, height, near := fit(spots, aside)
	m := marker{d: &p.Drawing, r: min(markR, near*0.46)}
	if aside {
		m.r = min(markR, near*0.3)
	}
	m.r = max(m.r, leastR)
	room := m.r*1.4 + 0.5
	foot := room
	if aside {
		foot += m.r * 0.9
	}
	p.W, p.H = mm(width+2*room), mm(height+room+foot)
	keys := keysOf(r)
	for _, s := range spots {
		x, y := room+s.x, room+height-s.y
		m.mark(markNames[keys[s.place]%len(markNames)], x, y)
		turn, place := turnsOf(order, s.place), strconv.Itoa(s.place)
		if order == nil {
			turn = place
		}
		m.inside(x, y, turn)
		if aside || turn == "" {
			m.below(x, y, place)
		}
	}
	switch {
	case order == nil:
		p.Say = "numbers of the places; no order is recorded"
	case isCount(order):
		p.Say = "in the mark: place and order of tightening"
	default:
		p.Say = "in the mark: order of tightening; below it: no. of the place"
	}
	if r.Fasteners.List {
		for i := range r.Fasteners.Items {
			if f := &r.Fasteners.Items[i]; len(f.Places) > 0 {
				p.Keys = append(p.Keys, Key{markNames[i%len(markNames)], clean(f.Key)})
			}
		}
	}
	return p
}

// isCount reports the order 1, 2, 3 …: place and turn are one number.
func isCount(order []int) bool {
	for i, n := range order {
		if n != i+1 {
			return false
		}
	}
	return true
}

// turnsOf are the turns at which a place comes: more than one where the order
// goes round to it again.
func turnsOf(order []int, place int) string {
	var out []string
	for i, n := range order {
		if n == place {
			out = append(out, strconv.Itoa(i+1))
		}
	}
	return strings.Join(out, "/")
}

// keysOf tells of each place which fastener of the list sits there.
func keysOf(r *schema.Record) map[int]int {
	keys := map[int]int{}
	for i := range r.Fasteners.Items {
		for _, place := range r.Fasteners.Items[i].Places {
			keys[place] = i
		}
	}
	return keys
}

// spotsOf reads the coordinates. One that is no number makes the whole picture
// impossible.
func spotsOf(places []schema.PlaceAt) ([]spot, bool) {
	var out []spot
	for _, p := range places {
		x, errX := strconv.ParseFloat(strings.ReplaceAll(p.X, "−", "-"), 64)
		y, errY := strconv.ParseFloat(strings.ReplaceAll(p.Y, "−", "-"), 64)
		if errX != nil || errY != nil || math.IsInf(x, 0) || math.IsInf(y, 0) || math.IsNaN(x+y) {
			return nil, false
		}
		out = append(out, spot{p.Place, x, y})
	}
	return out, true
}

// fit scales the spots, both ways alike, so that they fill the room of a picture, or
// more where the nearest two would stand too close; and moves them to the corner.
// It returns the size, and how near the nearest two are.
func fit(spots []spot, aside bool) (width, height, near float64) {
	lo, hi := spots[0], spots[0]
	near = math.Inf(1)
	for i, s := range spots {
		lo.x, lo.y = min(lo.x, s.x), min(lo.y, s.y)
		hi.x, hi.y = max(hi.x, s.x), max(hi.y, s.y)
		for _, t := range spots[:i] {
			if d := math.Hypot(s.x-t.x, s.y-t.y); d > 0 {
				near = min(near, d)
			}
		}
	}
	within := func(w, h float64) float64 {
		scale := math.Inf(1)
		if d := hi.x - lo.x; d > 0 {
			scale = min(scale, w/d)
		}
		if d := hi.y - lo.y; d > 0 {
			scale = min(scale, h/d)
		}
		return scale
	}
	if math.IsInf(near, 0) { // one place, or all in one
		for i := range spots {
			spots[i].x, spots[i].y = 0, 0
		}
		return 0, 0, near
	}
	apart := 2.2 * markR
	if aside {
		apart = 3.4 * markR
	}
	scale := min(max(within(pictureW, pictureH), apart/near), within(mostW, mostH))
	for i := range spots {
		spots[i].x, spots[i].y = (spots[i].x-lo.x)*scale, (spots[i].y-lo.y)*scale
	}
	return (hi.x - lo.x) * scale, (hi.y - lo.y) * scale, near * scale
}

// marker draws the marks of the places, all of one size.
type marker struct {
	d *Drawing
	r float64
}

// inside writes a number in a mark, as large as it can be.
func (m marker) inside(x, y float64, text string) {
	size := m.r * 1.05
	if n := len(text); n > 2 {
		size *= 2.2 / float64(n)
	}
	m.d.sized("place", x, y+size*0.36, size, text)
}

// below writes the number of a place under its mark.
func (m marker) below(x, y float64, place string) {
	m.d.sized("aside", x, y+m.r*1.95, max(m.r*0.72, 2), "no. "+place)
}

// mark draws the mark of a place.
func (m marker) mark(name string, x, y float64) {
	r, d := m.r, m.d
	switch name {
	case "square":
		d.polygon("mark", [2]float64{x - r, y - r}, [2]float64{x + r, y - r}, [2]float64{x + r, y + r}, [2]float64{x - r, y + r})
	case "diamond":
		q := r * 1.3
		d.polygon("mark", [2]float64{x - q, y}, [2]float64{x, y - q}, [2]float64{x + q, y}, [2]float64{x, y + q})
	case "triangle":
		d.polygon("mark", [2]float64{x - r*1.35, y + r}, [2]float64{x, y - r*1.4}, [2]float64{x + r*1.35, y + r})
	default:
		d.circle("mark", x, y, r)
	}
}
