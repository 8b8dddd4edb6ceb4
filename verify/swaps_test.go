package verify_test

import (
	"fmt"
	"io/fs"
	"math/big"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"snapgauge/convert"
	"snapgauge/schema"
	"snapgauge/specs"
	"snapgauge/verify"
	"snapgauge/verify/rule"
)

// TestSwaps plants a swapped unit or a moved decimal point in every final torque
// of the demo books whose screw, stud or nut has thread and class, in all
// members of the figure alike, and counts how many of those that raise the
// torque sevenfold or more are caught by a reject or query.
func TestSwaps(t *testing.T) {
	var planted, caught, rejected int
	for _, file := range demoFiles(t) {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for e, err := range specs.Read(file, strings.NewReader(string(data))) {
			if err != nil {
				t.Fatal(err)
			}
			if e.HeadOnly || !wholeFastener(e.Record) {
				continue
			}
			for i := range e.Record.Tighten {
				if !finalTorque(e.Record, i) {
					continue
				}
				f := &e.Record.Tighten[i].To
				good := f.Values
				for _, factor := range slipFactors(good[0].Quantity) {
					f.Values = scaled(t, good, factor)
					planted++
					switch worstAt(t, e, schema.At("tighten", i)) {
					case rule.Reject:
						rejected++
						caught++
					case rule.Query:
						caught++
					default:
						t.Logf("missed: %s: %s for %s", e.Record.ID, f.Values[0].Text, good[0].Text)
					}
				}
				f.Values = good
			}
		}
	}
	t.Logf("%d planted, %d caught, %d of them rejected", planted, caught, rejected)
	if planted < 100 {
		t.Errorf("only %d slips planted: too few to judge", planted)
	}
	if caught*100 < planted*97 {
		t.Errorf("%d of %d caught, want at least 97 %%", caught, planted)
	}
}

func demoFiles(t *testing.T) []string {
	t.Helper()
	var files []string
	err := filepath.WalkDir(filepath.Join("..", "specs", "demo"), func(p string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			files = append(files, p)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

func wholeFastener(r *schema.Record) bool {
	if r.Kind != schema.KindTorque || r.Yield || len(r.Fasteners.Items) == 0 {
		return false
	}
	for _, f := range r.Fasteners.Items {
		switch f.Type {
		case "screw", "stud", "nut":
		default:
			return false
		}
		if f.Thread == "" || f.Class == "" {
			return false
		}
	}
	return true
}

// finalTorque leaves out snug steps, that is torques before an angle, and steps
// into yield.
func finalTorque(r *schema.Record, i int) bool {
	s := &r.Tighten[i]
	if s.To.IsZero() || s.Yield || s.To.Values[0].Quantity.Form == convert.Tolerance {
		return false
	}
	for _, later := range r.Tighten[i+1:] {
		if !later.To.IsZero() || !later.Turn.IsZero() {
			return false
		}
	}
	return s.To.Values[0].Read()
}

// slipFactors are the factors of seven or more by which the torque rises when
// its unit is read as another or its decimal point is lost.
func slipFactors(q convert.Quantity) []*big.Rat {
	own, _ := q.Unit.Factor()
	var out []*big.Rat
	seven := big.NewRat(7, 1)
	for _, name := range []string{"lbf·in", "lbf·ft", "kgf·m", "N·m"} {
		u, ok := convert.UnitBySymbol(name)
		if !ok {
			panic(name)
		}
		f, _ := u.Factor()
		if k := new(big.Rat).Quo(f, own); k.Cmp(seven) >= 0 {
			out = append(out, k)
		}
	}
	return append(out, big.NewRat(10, 1))
}

// scaled makes every value of a figure greater by a factor, in its own unit and
// to four figures.
func scaled(t *testing.T, good []convert.Value, factor *big.Rat) []convert.Value {
	t.Helper()
	k, _ := factor.Float64()
	var out []convert.Value
	for _, v := range good {
		lo, hi := v.Quantity.Bounds()
		scale := func(x float64) string { return number(convert.FromFloat(x*k, v.Quantity.Unit, 4)) }
		text := scale(lo)
		if lo != hi {
			text += " to " + scale(hi)
		}
		text += " " + v.Quantity.Unit.Symbol()
		q, p := convert.Parse(text, convert.Of(convert.Torque), convert.Point)
		if p != nil {
			t.Fatalf("planted %q: %v", text, p)
		}
		out = append(out, convert.Value{Text: text, Quantity: q})
	}
	return out
}

func number(q convert.Quantity) string { return q.First.String() }

// worstAt judges a record and returns the most severe verdict at or below p.
func worstAt(t *testing.T, e schema.Entry, p schema.Path) rule.Verdict {
	t.Helper()
	var worst rule.Verdict
	one := func(yield func(schema.Entry) bool) { yield(e) }
	err := verify.Run(one, verify.Options{}, func(f rule.Finding) bool {
		if strings.HasPrefix(f.Place.Pointer, e.Pointer+p.String()) {
			worst = max(worst, f.Verdict)
		}
		return true
	})
	if err != nil {
		t.Fatal(fmt.Errorf("%s: %w", e.Record.ID, err))
	}
	return worst
}
