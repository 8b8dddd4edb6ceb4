package sheet

import (
	"fmt"
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
	Kind           string // line, circle, rect, polygon, text
	Class          string
	X, Y, X2, Y2   string
	R, W, H        string
	Points, Anchor string
	Text           string
}

// mm is a coordinate with two decimals.
func mm(x float64) string { return strconv.FormatFloat(math.Round(x*100)/100+0, 'f', -1, 64) }

func (d *Drawing) line(class string, x, y, x2, y2 float64) {
	d.Shapes = append(d.Shapes, Shape{Kind: "line", Class: class, X: mm(x), Y: mm(y), X2: mm(x2), Y2: mm(y2)})
}

func (d *Drawing) text(class, anchor string, x, y float64, text string) {
	d.Shapes = append(d.Shapes, Shape{Kind: "text", Class: class, Anchor: anchor, X: mm(x), Y: mm(y), Text: text})
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

// The room for a picture, and the mark of a place (mm).
const (
	pictureW, pictureH = 82.0, 62.0
	markR              = 4.2
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
	room := markR + 1.5
	if order != nil && !isCount(order) {
		room = markR + 4.5 // for the number below
	}
	width, height := fit(spots, pictureW-2*room, pictureH-2*room)
	p.W, p.H = mm(width+2*room), mm(height+2*room)
	keys := keysOf(r)
	for _, s := range spots {
		x, y := room+s.x, room+height-s.y
		mark := markNames[keys[s.place]%len(markNames)]
		p.mark(mark, x, y)
		turn := slices.Index(order, s.place)
		switch {
		case order == nil:
			p.text("place", "middle", x, y+1.5, strconv.Itoa(s.place))
		case turn < 0: // the order leaves it out
			p.text("aside", "middle", x, y+markR+3.2, strconv.Itoa(s.place))
		default:
			p.text("place", "middle", x, y+1.5, turnsOf(order, s.place))
			if !isCount(order) {
				p.text("aside", "middle", x, y+markR+3.2, "no. "+strconv.Itoa(s.place))
			}
		}
	}
	switch {
	case order == nil:
		p.Say = "numbers of the places; no order is recorded"
	case isCount(order):
		p.Say = "in the mark: place and order of tightening"
	default:
		p.Say = "in the mark: order of tightening; below it: number of the place"
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

// fit scales the spots into a room, both ways alike and no larger than marks
// side by side need, and moves them to its corner.
func fit(spots []spot, w, h float64) (width, height float64) {
	lo, hi := spots[0], spots[0]
	for _, s := range spots {
		lo.x, lo.y = min(lo.x, s.x), min(lo.y, s.y)
		hi.x, hi.y = max(hi.x, s.x), max(hi.y, s.y)
	}
	scale := math.Inf(1)
	if d := hi.x - lo.x; d > 0 {
		scale = min(scale, w/d)
	}
	if d := hi.y - lo.y; d > 0 {
		scale = min(scale, h/d)
	}
	if math.IsInf(scale, 0) {
		scale = 0
	}
	for i := range spots {
		spots[i].x, spots[i].y = (spots[i].x-lo.x)*scale, (spots[i].y-lo.y)*scale
	}
	return (hi.x - lo.x) * scale, (hi.y - lo.y) * scale
}

// mark draws the mark of a place.
func (d *Drawing) mark(name string, x, y float64) {
	const r = markR
	switch name {
	case "square":
		d.polygon("mark", [2]float64{x - r, y - r}, [2]float64{x + r, y - r}, [2]float64{x + r, y + r}, [2]float64{x - r, y + r})
	case "diamond":
		const q = r * 1.3
		d.polygon("mark", [2]float64{x - q, y}, [2]float64{x, y - q}, [2]float64{x + q, y}, [2]float64{x, y + q})
	case "triangle":
		d.polygon("mark", [2]float64{x - r*1.35, y + r}, [2]float64{x, y - r*1.4}, [2]float64{x + r*1.35, y + r})
	default:
		d.circle("mark", x, y, r)
	}
}

// String is for tests.
func (s Shape) String() string { return fmt.Sprint(s.Kind, " ", s.Class, " ", s.Text) }
