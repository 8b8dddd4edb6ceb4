// Package sample makes books of any length for measurements: lines of NDJSON
// for an invented fleet, the same for the same seed.
package sample

import (
	"bufio"
	"fmt"
	"io"
	"math/rand/v2"
)

// perMachine is how many records one machine has.
const perMachine = 200

// joint is a fastening with the torque that is usual for it, in two units
// that agree.
type joint struct{ thread, class, first, second string }

var joints = []joint{
	{"M6x1", "8.8", "8 N·m", "71 lbf·in"},
	{"M8x1.25", "8.8", "22 N·m", "16 lbf·ft"},
	{"M10x1.5", "8.8", "44 N·m", "32 lbf·ft"},
	{"M12x1.75", "10.9", "105 N·m", "77 lbf·ft"},
	{"1/4-20 UNC", "SAE 5", "8 lbf·ft", "11 N·m"},
}

// slipped is the first joint with its inch-pounds typed as foot-pounds.
var slipped = joint{"M6x1", "8.8", "8 N·m", "71 lbf·ft"}

var places = []string{"cover", "pump body", "bearing housing", "output flange", "selector bracket", "filter head"}

// Write writes n records. Of a thousand, slips have an inch-pound typed as a
// foot-pound.
func Write(w io.Writer, n, slips int, seed uint64) error {
	r := rand.New(rand.NewPCG(seed, 0))
	out := bufio.NewWriter(w)
	for i := range n {
		head := fmt.Sprintf(`"format":"snapgauge/1.0","machine":{"id":"gear-%03d","name":"Reduction gear %[1]d"},`+
			`"source":{"title":"Workshop manual of gear %[1]d","edition":"2019","kind":"maker","at":"page %d-%d"},`+
			`"entered":{"by":"RM","date":"2026-03-%02d"}`,
			i/perMachine, 1+r.IntN(9), 1+r.IntN(60), 1+r.IntN(28))
		where := fmt.Sprintf("%s %d", places[r.IntN(len(places))], i%perMachine)
		var body string
		switch kind := r.IntN(20); {
		case kind < 14:
			j := joints[r.IntN(len(joints))]
			if r.IntN(1000) < slips {
				j = slipped
			}
			body = fmt.Sprintf(`"kind":"torque","fastener":{"type":"screw","thread":"%s","class":"%s","head":"hex flange","count":%d},`+
				`"joint":{"into":"steel","threads":"dry"},"tighten":[{"to":["%s","%s"],"pattern":"criss-cross"}]`,
				j.thread, j.class, 2+r.IntN(15), j.first, j.second)
		case kind < 17:
			body = `"kind":"fill","fluid":{"name":"hydraulic oil","grade":"ISO VG 46"},` +
				`"amounts":[{"when":"after overhaul","volume":["6.2 L","6.6 US qt"]},{"when":"drain and refill","volume":["4.7 L","5.0 US qt"]}]`
		default:
			lo := 10 + r.IntN(10)
			body = fmt.Sprintf(`"kind":"tolerance","of":"clearance","new":"1.%02d to 1.%02d mm","wear-limit":"2.4 mm"`, lo, lo+20)
		}
		if _, err := fmt.Fprintf(out, `{"id":"item-%06d",%s,"where":"%s",%s}`+"\n", i, head, where, body); err != nil {
			return err
		}
	}
	return out.Flush()
}
