package release_test

import (
	"encoding/json"
	"math"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"snapgauge/schema"
	"snapgauge/specs"
	"snapgauge/specs/release"
)

// entriesOf reads a spec file from its text.
func entriesOf(t *testing.T, text string) (out []schema.Entry) {
	t.Helper()
	for e, err := range specs.Read("book.yaml", strings.NewReader(text)) {
		if err != nil {
			t.Fatal(err)
		}
		if !e.HeadOnly {
			out = append(out, e)
		}
	}
	return out
}

const book = `format: snapgauge/1.0
machine: {id: m-1, name: Machine 1}
variants: [A, B]
serials: {gear: number, built: date}
entered: {by: RM, date: 2026-03-02}
sources:
  manual: {title: Manual, edition: third, kind: maker}
  bulletin: {title: Bulletin, kind: maker}
records:
  - id: cover
    kind: torque
    where: cover
    applies: [{variant: [A], gear: from 1200, built: to 2020-01-02}, {gear: 7}]
    supersedes: cover-old
    tighten: [{to: [71 lbf·in, 8.0 N·m], tolerance: ±10 %}, {turn: 90°}]
    source: {ref: manual, at: page 4}
    answers: [{check: c, figure: /tighten/0/to, read: 8 N·m, because: b, by: KE, date: 2026-03-04}]
  - id: level
    kind: fill
    where: sump
    level: {by: dipstick, engine: idling, points: [{at: [20 °C, 68 °F], low: 30 mm, high: 48 to 50 mm}]}
    source: {ref: manual, at: page 5}
  - id: float
    item: end-float
    kind: tolerance
    where: shaft
    of: end float
    new: 0.50 mm
    wear-limit: max 2 mm
    misprint: {printed: 0.50 mm, use: 0.05 mm, because: b, source: {ref: bulletin, at: page 1}, by: KE, date: 2026-04-01}
    source: {ref: manual, at: page 6}
`

func num(f float64) *float64 { return &f }

// The numbers are worked out from the factors of NIST SP 811 Appendix B: 1 lbf·in
// = 0.45359237 × 9.80665 × 0.0254 N·m exactly, 1 °F = 5/9 K above 459.67.
func TestNormal(t *testing.T) {
	var got []release.Record
	for _, e := range entriesOf(t, book) {
		r, err := release.Normal(&e)
		if err != nil {
			t.Fatal(err)
		}
		if _, problems := decoded(t, r); len(problems) > 0 {
			t.Errorf("%s: %v", r.ID, problems)
		}
		r.Authored = nil
		if !strings.HasPrefix(r.Fingerprint, schema.FingerprintPrefix) {
			t.Errorf("%s: fingerprint %q", r.ID, r.Fingerprint)
		}
		r.Fingerprint = ""
		got = append(got, r)
	}
	seven, low, day := int64(7), int64(1200), int64(18263) // 2020-01-02 lies 50 years and 13 leap days after 1970-01-01
	manual := func(at string) release.Source {
		return release.Source{Title: "Manual", Edition: "third", Kind: "maker", At: at}
	}
	everywhere := []release.Box{{Variants: []string{"A", "B"}}}
	mm := func(text, first string, digits int, lo, wlo, whi float64, exact string) release.Value {
		return release.Value{Text: text, Form: "single", Dimension: "length", Unit: "mm", UCUM: "mm", First: first, Digits: digits,
			SI: "m", SIUCUM: "m", Low: &lo, High: &lo, LowExact: exact, HighExact: exact, RoundingLow: &wlo, RoundingHigh: &whi}
	}
	misprinted := mm("0.50 mm", "0.05", 1, 0.00005, 0.000045, 0.000055, "0.00005")
	misprinted.Misprint = true
	want := []release.Record{{
		State: "release", Machine: "m-1", Item: "cover", ID: "cover", Kind: "torque", Where: "cover", File: "book.yaml", Line: 10, Pointer: "/records/0",
		Applies: []release.Box{
			{Variants: []string{"A"}, Serials: []release.Range{
				{Name: "gear", Form: "number", Text: "from 1200", From: &low},
				{Name: "built", Form: "date", Text: "to 2020-01-02", To: &day},
			}},
			{Variants: []string{"A", "B"}, Serials: []release.Range{{Name: "gear", Form: "number", Text: "7", From: &seven, To: &seven}}},
		},
		AppliesTo: "variant A, gear from 1200, built to 2020-01-02; or variant A or B, gear 7", Supersedes: "cover-old",
		Source: manual("page 4"), Entered: release.Signature{By: "RM", Date: "2026-03-02"},
		Answers: []release.Answer{{Check: "c", Figure: "/tighten/0/to", Read: "8 N·m", Because: "b", By: "KE", Date: "2026-03-04"}},
		Figures: []release.Figure{
			{Pointer: "/tighten/0/to", Values: []release.Value{
				{Text: "71 lbf·in", Form: "single", Dimension: "torque", Unit: "lbf·in", UCUM: "[lbf_av].[in_i]", First: "71", Digits: 2, SI: "N·m", SIUCUM: "N.m",
					Low: num(8.0219228609607857), High: num(8.0219228609607857), LowExact: "8.0219228609607857", HighExact: "8.0219228609607857",
					RoundingLow: num(70.5 * 0.1129848290276167), RoundingHigh: num(71.5 * 0.1129848290276167)},
				{Text: "8.0 N·m", Form: "single", Dimension: "torque", Unit: "N·m", UCUM: "N.m", First: "8.0", Digits: 2, SI: "N·m", SIUCUM: "N.m",
					Low: num(8), High: num(8), LowExact: "8", HighExact: "8", RoundingLow: num(7.95), RoundingHigh: num(8.05)},
			}},
			{Pointer: "/tighten/0/tolerance", Values: []release.Value{
				{Text: "±10 %", Form: "tolerance", Dimension: "share", Unit: "%", UCUM: "%", Plus: "10", Minus: "10", Digits: 2, SI: "1", SIUCUM: "1",
					Low: num(-0.1), High: num(0.1), LowExact: "-0.1", HighExact: "0.1", RoundingLow: num(-0.105), RoundingHigh: num(0.105)},
			}},
			{Pointer: "/tighten/1/turn", Values: []release.Value{
				{Text: "90°", Form: "single", Dimension: "angle", Unit: "°", UCUM: "deg", First: "90", Digits: 2, SI: "rad", SIUCUM: "rad",
					Low: num(math.Pi / 2), High: num(math.Pi / 2), RoundingLow: num(89.5 * math.Pi / 180), RoundingHigh: num(90.5 * math.Pi / 180)},
			}},
		},
	}, {
		State: "release", Machine: "m-1", Item: "level", ID: "level", Kind: "fill", Where: "sump", File: "book.yaml", Line: 18, Pointer: "/records/1",
		Applies: everywhere, AppliesTo: "variant A or B", Source: manual("page 5"), Entered: release.Signature{By: "RM", Date: "2026-03-02"},
		Figures: []release.Figure{
			{Pointer: "/level/engine", Word: "idling", Values: []release.Value{}},
			{Pointer: "/level/points/0/at", Values: []release.Value{
				{Text: "20 °C", Form: "single", Dimension: "temperature", Unit: "°C", UCUM: "Cel", First: "20", Digits: 2, SI: "K", SIUCUM: "K",
					Low: num(293.15), High: num(293.15), LowExact: "293.15", HighExact: "293.15", RoundingLow: num(292.65), RoundingHigh: num(293.65)},
				{Text: "68 °F", Form: "single", Dimension: "temperature", Unit: "°F", UCUM: "[degF]", First: "68", Digits: 2, SI: "K", SIUCUM: "K",
					Low: num(293.15), High: num(293.15), LowExact: "293.15", HighExact: "293.15",
					RoundingLow: num(527.17 / 9 * 5), RoundingHigh: num(528.17 / 9 * 5)},
			}},
			{Pointer: "/level/points/0/low", Values: []release.Value{mm("30 mm", "30", 2, 0.03, 0.0295, 0.0305, "0.03")}},
			{Pointer: "/level/points/0/high", Values: []release.Value{
				{Text: "48 to 50 mm", Form: "range", Dimension: "length", Unit: "mm", UCUM: "mm", First: "48", Second: "50", Digits: 2, SI: "m", SIUCUM: "m",
					Low: num(0.048), High: num(0.05), LowExact: "0.048", HighExact: "0.05", RoundingLow: num(0.0475), RoundingHigh: num(0.0505)},
			}},
		},
	}, {
		State: "release", Machine: "m-1", Item: "end-float", ID: "float", Kind: "tolerance", Where: "shaft", File: "book.yaml", Line: 23, Pointer: "/records/2",
		Applies: everywhere, AppliesTo: "variant A or B", Source: manual("page 6"), Entered: release.Signature{By: "RM", Date: "2026-03-02"},
		Misprint: &release.Misprint{Printed: "0.50 mm", Use: release.Figure{Pointer: "/misprint/use", Values: []release.Value{
			mm("0.05 mm", "0.05", 1, 0.00005, 0.000045, 0.000055, "0.00005"),
		}}, Because: "b", Source: release.Source{Title: "Bulletin", Kind: "maker", At: "page 1"}, By: "KE", Date: "2026-04-01"},
		Figures: []release.Figure{
			{Pointer: "/new", Values: []release.Value{misprinted}},
			{Pointer: "/wear-limit", Values: []release.Value{
				{Text: "max 2 mm", Form: "at most", Dimension: "length", Unit: "mm", UCUM: "mm", Second: "2", Digits: 1, SI: "m", SIUCUM: "m",
					High: num(0.002), HighExact: "0.002", RoundingHigh: num(0.0025)},
			}},
		},
	}}
	near := cmp.Comparer(func(a, b float64) bool { return math.Abs(a-b) <= 1e-15*max(math.Abs(a), math.Abs(b)) })
	if diff := cmp.Diff(want, got, near); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
}

// decoded reads the record that a release holds as authored.
func decoded(t *testing.T, r release.Record) (*schema.Record, []schema.Problem) {
	t.Helper()
	dec := json.NewDecoder(strings.NewReader(string(r.Authored)))
	dec.UseNumber()
	var x any
	if err := dec.Decode(&x); err != nil {
		t.Fatal(err)
	}
	_, record, problems := schema.DecodeLine(schema.NodeOf(x))
	return record, problems
}

// The exact ends are those that package convert works out with floats, for
// every figure of the demo books and of the corpus.
func TestEndsAgree(t *testing.T) {
	figures := 0
	for _, folder := range []string{"../demo", "../corpus"} {
		for e, err := range specs.ReadFolder(os.DirFS(folder), folder, func(specs.Skipped) {}) {
			if err != nil {
				t.Fatal(err)
			}
			if e.HeadOnly {
				continue
			}
			r, err := release.Normal(&e)
			if err != nil {
				t.Fatal(err)
			}
			byPointer := map[string]release.Figure{}
			for _, f := range r.Figures {
				byPointer[f.Pointer] = f
			}
			for p, f := range e.Record.Figures() {
				if f.Word || p == schema.At("misprint", "use") {
					continue
				}
				for i := range f.Values {
					v := byPointer[p.String()].Values[i]
					if v.Form == "" {
						continue
					}
					figures++
					q := f.Values[i].Quantity
					lo, hi := q.Bounds()
					wlo, whi := q.Widened()
					for _, c := range []struct {
						name string
						got  *float64
						want float64
					}{{"low", v.Low, lo}, {"high", v.High, hi}, {"rounding low", v.RoundingLow, wlo}, {"rounding high", v.RoundingHigh, whi}} {
						if c.got == nil && math.IsInf(c.want, 0) {
							continue
						}
						if c.got == nil || math.Abs(*c.got-c.want) > 1e-12*max(1, math.Abs(c.want)) {
							t.Errorf("%s %s %s: %s %v, want %v", e.File, r.ID, v.Text, c.name, c.got, c.want)
						}
					}
				}
			}
		}
	}
	if figures < 2500 {
		t.Errorf("only %d values", figures)
	}
}
