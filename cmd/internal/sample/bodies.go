package sample

import (
	"fmt"
	"math"
	"math/rand/v2"
)

// joint is a fastener with a torque that is usual for it, in N·m.
type joint struct {
	thread, class string
	torque        float64
	length        string
	engagement    string // enough for the softest that it is screwed into
	inch          bool   // printed in pounds first
}

// The torques are of the size that tables of dry steel screws give.
var joints = []joint{
	{"M6x1", "8.8", 9.5, "20 mm", "14 mm", false},
	{"M8x1.25", "8.8", 23, "25 mm", "18 mm", false},
	{"M10x1.5", "8.8", 45, "35 mm", "22 mm", false},
	{"M12x1.75", "8.8", 78, "40 mm", "27 mm", false},
	{"M16x2", "8.8", 190, "55 mm", "35 mm", false},
	{"M8x1.25", "10.9", 32, "30 mm", "20 mm", false},
	{"M10x1.5", "10.9", 63, "40 mm", "25 mm", false},
	{"M12x1.75", "10.9", 110, "45 mm", "30 mm", false},
	{"1/4-20 UNC", "SAE 5", 10.8, "3/4 in", "0.6 in", true},
	{"5/16-18 UNC", "SAE 5", 23, "1 in", "0.75 in", true},
	{"3/8-16 UNC", "SAE 5", 41, "1 1/4 in", "0.9 in", true},
	{"1/2-13 UNC", "SAE 5", 102, "1 1/2 in", "1.2 in", true},
}

var (
	heads    = []string{"hex", "hex flange", "socket cap"}
	bases    = []string{"steel", "cast iron", "ductile iron"}
	patterns = []string{"criss-cross", "circular", "spiral", "in order"}
	covers   = []string{"cover to gearcase", "bearing cap to casing", "pump body to bracket", "output flange to shaft", "selector bracket to housing", "filter head to block", "motor to housing", "foot to bed plate"}
	renewals = []string{"cover gasket", "O-ring", "lock plate", "sealing washers"}
)

func torque(r *rand.Rand, rec *record) {
	j := pick(r, joints)
	nm := j.torque * (0.95 + 0.1*r.Float64())
	rec.kind, rec.where = "torque", pick(r, covers)
	rec.first, rec.second = newtons(nm), pounds(round(nm))
	if j.inch {
		rec.first, rec.second = pounds(nm), newtons(poundsRead(nm))
	}
	rec.count = fmt.Sprintf(`"count":%d`, 2+r.IntN(15))
	length := ""
	if r.IntN(2) == 0 {
		length = fmt.Sprintf(`"length":"%s",`, j.length)
	}
	rec.before = fmt.Sprintf(`"fastener":{"type":"screw","thread":"%s","class":"%s","head":"%s",%s%s},`+
		`"joint":{"into":"%s","engagement":"%s","threads":"dry"},"tighten":[{"to":`,
		j.thread, j.class, pick(r, heads), length, rec.count, pick(r, bases), j.engagement)
	rec.after = fmt.Sprintf(`,"pattern":"%s"}]`, pick(r, patterns))
	if length == "" && r.IntN(2) == 0 {
		rec.after = `,"tolerance":"±10 %"` + rec.after
	}
	if r.IntN(3) == 0 {
		rec.after += fmt.Sprintf(`,"renew":["%s"]`, pick(r, renewals))
	}
}

// 1 lbf·in is 0.1129848… N·m, 1 lbf·ft twelve of these.
const poundInch = 0.112984829

// round is a torque in N·m as it is printed.
func round(nm float64) float64 {
	if nm < 20 {
		return math.Round(nm*10) / 10
	}
	return math.Round(nm)
}

func newtons(nm float64) string {
	if nm < 20 {
		return fmt.Sprintf("%.1f N·m", nm)
	}
	return fmt.Sprintf("%.0f N·m", nm)
}

func pounds(nm float64) string {
	if nm < 15 {
		return fmt.Sprintf("%.0f lbf·in", nm/poundInch)
	}
	return fmt.Sprintf("%.0f lbf·ft", nm/poundInch/12)
}

// poundsRead is what the pounds mean that are printed for a torque.
func poundsRead(nm float64) float64 {
	if nm < 15 {
		return math.Round(nm/poundInch) * poundInch
	}
	return math.Round(nm/poundInch/12) * poundInch * 12
}

var (
	fluids = [][2]string{{"hydraulic oil", "ISO VG 46"}, {"hydraulic oil", "ISO VG 32"}, {"gear oil", "SAE 80W-90"}, {"engine oil", "SAE 15W-40"}, {"engine oil", "SAE 10W-30"}}
	sumps  = []string{"gearcase", "worm gearbox", "hydraulic tank", "crankcase", "chain case", "stern tube header tank"}
	signs  = []string{"oil at the lower edge of the hole", "oil just runs over the edge", "oil at the edge of the filler hole"}
)

func fill(r *rand.Rand, rec *record) {
	f := pick(r, fluids)
	litres := math.Round((1+9*r.Float64())*10) / 10
	after := math.Round(litres*8.5) / 10
	rec.kind, rec.where = "fill", pick(r, sumps)
	rec.before = fmt.Sprintf(`"fluid":{"name":"%s","grade":"%s"},"amounts":[{"when":"dry fill","volume":`, f[0], f[1])
	rec.first, rec.second = fmt.Sprintf("%.1f L", litres), quarts(litres)
	rec.after = fmt.Sprintf(`},{"when":"drain and refill","volume":["%.1f L","%s"]}],`+
		`"level":{"by":"plug","engine":"off","after":"%d min","at":"10 to 30 °C","sign":"%s"}`,
		after, quarts(after), 5*(1+r.IntN(4)), pick(r, signs))
}

// quarts: 1 US qt is 0.946352946 L.
func quarts(litres float64) string { return fmt.Sprintf("%.1f US qt", litres/0.946352946) }

// measure is a tolerance that grows as parts wear.
type measure struct {
	of, where string
	low, wide int // hundredths of a mm: the least of the lower limit, and how far it may lie above
	span      int // from lower to upper limit
}

var measures = []measure{
	{"end float", "worm shaft in its housing", 5, 10, 10},
	{"backlash", "crown wheel to pinion", 10, 20, 15},
	{"clearance", "clutch plates, pack pressed by hand", 100, 100, 60},
	{"clearance", "impeller to wear plate", 20, 30, 30},
	{"gap", "pick-up to toothed wheel", 30, 50, 40},
	{"side float", "chain sprocket on its shaft", 20, 40, 30},
	{"play", "control lever at its end", 200, 200, 150},
}

var methods = []string{"dial gauge, pushed and pulled", "feeler gauge in four places", "cold, after two turns by hand"}

func tolerance(r *rand.Rand, rec *record) {
	m := pick(r, measures)
	low := m.low + r.IntN(m.wide)
	high := low + m.span
	worn := high + high/2
	rec.kind, rec.where = "tolerance", m.where
	rec.before = fmt.Sprintf(`"of":"%s","new":`, m.of)
	rec.first = hundredths(low) + " to " + hundredths(high) + " mm"
	rec.second = inches(low) + " to " + inches(high) + " in"
	rec.after = fmt.Sprintf(`,"wear-limit":["%s mm","%s in"],"how":"%s"`, hundredths(worn), inches(worn), pick(r, methods))
}

func hundredths(n int) string { return fmt.Sprintf("%d.%02d", n/100, n%100) }

// inches: 1 in is 25.4 mm.
func inches(n int) string { return fmt.Sprintf("%.4f", float64(n)/2540) }
