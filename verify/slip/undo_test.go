package slip

import (
	"slices"
	"testing"

	"snapgauge/convert"
	"snapgauge/schema"
)

func anything(*Candidate) (float64, string) { return 1, "" }

// TestUndo: what was meant, first or among three. Most are errors met in print,
// with the id of the call-out (convert/testdata/callouts).
func TestUndo(t *testing.T) {
	for _, tt := range []struct {
		name   string
		record *schema.Record
		at     schema.Path
		kind   string
		reads  string
		rank   int // at most
	}{
		{"the unit of the issue", torque("71 lbf·ft", "8 N·m"), atTorque, "unit-swapped", "71 lbf·in", 1},
		{"transposed", torque("33 lbf·ft", "54 N·m"), atTorque, "digits-transposed", "45 N·m", 1},
		{"factor 1.4, as in 70-75 ft lb = 98-105 N·m", torque("70 to 75 lbf·ft", "98 to 105 N·m"), atTorque, "factor-wrong", "95 to 102 N·m", 1},
		{"C0586", torque("30 to 30 lb-ft", "41 to 81 N·m"), atTorque, "digit-wrong", "30 to 60 lb-ft", 1},
		{"C0347", torque("135 inch-pounds", "1.52 kg-m"), atTorque, "digit-wrong", "1.56 kg-m", 1},
		{"D0151", tolerance("end float", "0.095 to 0.145 mm", "0.0037 to 0.057 in"), atNew, "point-moved", "0.0037 to 0.0057 in", 1},
		{"D0290", tolerance("clearance", "0.011 in", "0.028 mm"), atNew, "point-moved", "0.28 mm", 2},
		{"D0137", tolerance("width", "50 in", "12.7 mm"), atNew, "point-lost", ".50 in", 1},
		{"D0370", tolerance("clearance", "013 mm", ".0005 in"), atNew, "point-lost", ".013 mm", 1},
		{"D0356", tolerance("temperature", "-40 °F", "-.40 °C"), atNew, "point-moved", "-40 °C", 1},
		{"C0570", torque("95 to 105 lb-ft", "423 to 467 N·m"), atTorque, "force-for-torque", "423 to 467 N", 2},
		{"D0326", tolerance("spring load", "5 lb", "22 Nm"), atNew, "force-for-torque", "22 N", 1},
		{"belt tension in torques", tolerance("spring load", "95-105 lb-ft", "423-467 Nm"), atNew, "force-for-torque", "95-105 lbf, 423-467 N", 1},
		{"dash lost, as in 6071 lb-ft for 60-71", torque("6071 lb-ft", "81 to 96 N·m"), atTorque, "dash-lost", "60 to 71 lb-ft", 1},
		{"dash lost between decimals", tolerance("clearance", "0.00030.0016 in", "0.008 to 0.041 mm"), atNew, "dash-lost", "0.0003 to 0.0016 in", 1},
		{"± lost", torque("9 1 N·m", "80 ±9 lbf·in"), atTorque, "sign-lost", "9 ±1 N·m", 1},
		{"± and its blanks lost", torque("9 ±1 N·m", "809 lbf·in"), atTorque, "dash-lost", "80 ±9 lbf·in", 1},
		{"dash lost behind a 0", torque("0170 lb-ft", "0 to 230 N·m"), atTorque, "dash-lost", "0 to 170 lb-ft", 1},
		{"factor 12", torque("45 lb-ft", "5.1 N·m"), atTorque, "factor-wrong", "61 N·m", 2},
		{"factor 12 from 0", torque("0 to 600 lb-ft", "0 to 9762 N·m"), atTorque, "factor-wrong", "0 to 813 N·m", 1},
		{"divided for multiplied", torque("30 lbf·ft", "22 N·m"), atTorque, "factor-wrong", "41 N·m", 1},
		{"and the reverse", torque("60 to 71 N·m", "81 to 96 lbf·ft"), atTorque, "factor-wrong", "44.3 to 52.4 lbf·ft", 1},
		{"one end from the wrong one", torque("180 to 215 lb-ft", "290 to 290 N·m"), atTorque, "wrong-end", "244 to 290 N·m", 1},
		{"factor 1.4 with ±", torque("640 ±80 lb-ft", "896 ±112 N·m"), atTorque, "factor-wrong", "868 ±108 N·m", 1},
		{"factor 1.4 with ±, the deviation rounded", torque("165 ±20 lb-ft", "231 ±28 N·m"), atTorque, "factor-wrong", "224 ±27 N·m", 1},
		{"factor 1.33 with ±", torque("300 ±30 lb-ft", "399 ±40 N·m"), atTorque, "factor-wrong", "407 ±41 N·m", 1},
		{"factor 12 with ±", torque("45 ±5 lb-ft", "5.1 ±0.6 N·m"), atTorque, "factor-wrong", "61 ±7 N·m", 2},
		{"factor 1.4 with sides of two sizes", torque("60 +10/-0 lb-ft", "84 +14/-0 N·m"), atTorque, "factor-wrong", "81 +14/-0 N·m", 1},
		{"factor 1.4 with a share", torque("60 ±10 % lb-ft", "84 ±10 % N·m"), atTorque, "factor-wrong", "81 N·m ±10 %", 1},
		{"a zero comes to the front", torque("06 lb-ft", "81 N·m"), atTorque, "digits-transposed", "60 lb-ft", 1},
		{"the first digit typed as 0", torque("40 lb-ft", "04 N·m"), atTorque, "digit-wrong", "54 N·m", 1},
		{"a zero before the lower end", tolerance("pressure", "05 to 65 psi"), atNew, "digits-transposed", "50 to 65 psi", 1},
		{"a zero with decimals behind it", torque("01.5 N·m", "93 lb-in"), atTorque, "digits-transposed", "10.5 N·m", 3},
		{"the point behind a zero lost", torque("045 N·m", "4 lb-in"), atTorque, "point-moved", "0.45 N·m", 1},
		{"a zero that nobody wrote", torque("40 lb-ft", "054 N·m"), atTorque, "scan-noise", "54 N·m", 1},
		{"the first digit lost before a 0", torque("75 lb-ft", "02 N·m"), atTorque, "digit-lost", "102 N·m", 1},
		{"the point of one side of a deviation", torque("9 +10/-0 N·m", "80 +9/-0 lbf·in"), atTorque, "point-moved", "9 +1/-0 N·m", 1},
		{"doubled in a fraction", tolerance("width", "1/22 in.", "12.7 mm"), atNew, "digit-doubled", "1/2 in.", 1},
		{"mistyped in a fraction", tolerance("width", "2/2 in.", "12.7 mm"), atNew, "digit-wrong", "1/2 in.", 1},
		{"mistyped beside a fraction", tolerance("width", "2 1/2 in", "38 mm"), atNew, "digit-wrong", "1 1/2 in", 1},
		{"minus lost", tolerance("temperature", "20 °C", "-4 °F"), atNew, "sign-lost", "-20 °C", 1},
		{"ends swapped", torque("10 to 8 N·m", "71 to 89 lbf·in"), atTorque, "ends-swapped", "8 to 10 N·m", 1},
		{"a blank in a number", torque("7 1 lbf·in", "8 N·m"), atTorque, "scan-noise", "71 lbf·in", 1},
		{"letters for digits", torque("7l lbf·in", "8 N·m"), atTorque, "scan-noise", "71 lbf·in", 1},
		{"a letter for the last digit", tolerance("temperature", "22O °F"), atNew, "scan-noise", "220 °F", 1},
		{"a letter behind max", tolerance("clearance", "max O.46 mm"), atNew, "scan-noise", "max 0.46 mm", 1},
		{"a letter in the upper end", torque("47 to 6l N·m"), atTorque, "scan-noise", "47 to 61 N·m", 1},
		{"letters in both ends", torque("4l to 5O N·m", "30 to 37 lb-ft"), atTorque, "scan-noise", "41 to 50 N·m", 1},
		{"a letter in the deviation", torque("36 ±l.5 lbf·ft"), atTorque, "scan-noise", "36 ±1.5 lbf·ft", 1},
		{"a letter in the second value", torque("71 lbf·in", "8.O N·m"), atTorque, "scan-noise", "8.0 N·m", 1},
		{"a letter in a fraction", tolerance("clearance", "l/16 in"), atNew, "scan-noise", "1/16 in", 1},
		{"degrees read as 0", tolerance("temperature", "700 C", "158 °F"), atNew, "scan-noise", "70 °C", 1},
		{"unit misread", torque("23 Nrn"), atTorque, "scan-noise", "23 N·m", 1},
		{"cut short", torque("50 lb", "68 N·m"), atTorque, "unit-cut-short", "50 lbf·ft", 1},
		{"unit left out", torque("50", "68 N·m"), atTorque, "unit-cut-short", "50 lbf·ft", 1},
		{"wrong form", torque("4.5 kg/m"), atTorque, "unit-wrong-form", "4.5 kgf·m", 1},
		{"US for imperial", tolerance("volume", "10.0 imp qt", "9.5 L"), atNew, "factor-wrong", "11.4 L", 1},
		{"wrong end", torque("17 to 20 N·m", "150 to 150 lbf·in"), atTorque, "wrong-end", "150 to 177 lbf·in", 1},
		{"°F under °C", tolerance("temperature", "158 °C", "158 °F"), atNew, "fahrenheit", "70 °C", 1},
		{"doubled", torque("75 lbf·ft", "1022 N·m"), atTorque, "digit-doubled", "102 N·m", 1},
		{"lost", torque("75 lbf·ft", "10 N·m"), atTorque, "digit-lost", "102 N·m", 3},
	} {
		got := NewBench(tt.record, "").Undo([]schema.Path{tt.at}, anything, nil)
		i := slices.IndexFunc(got, func(r Restored) bool { return r.Kind.ID == tt.kind && r.Reads == tt.reads })
		if i < 0 || i >= tt.rank {
			t.Errorf("%s: want %s, %s among %d; got:", tt.name, tt.kind, tt.reads, tt.rank)
			for _, r := range got {
				t.Logf("    %s: %s (%v): %s", r.Kind.ID, r.Reads, r.Score, r.Because)
			}
		}
		if len(got) > most {
			t.Errorf("%s: %d are given", tt.name, len(got))
		}
	}
}

// TestUndoNothing: two slips at once, and what is right by no single one.
func TestUndoNothing(t *testing.T) {
	for _, r := range []*schema.Record{
		torque("3035 lb-in", "12 N·m"),                              // C0489: a dash lost in each
		tolerance("pressure", "105 to 115 bar", "1740 to 1885 psi"), // another row's figure
	} {
		at := atTorque
		if r.Kind == schema.KindTolerance {
			at = atNew
		}
		if got := NewBench(r, "").Undo([]schema.Path{at}, anything, nil); len(got) > 0 {
			t.Errorf("%q is explained by %s: %s", texts(NewBench(r, "").Figure(at)), got[0].Kind.Name, got[0].Reads)
		}
	}
	if got := NewBench(torque("8 N·m"), "").Undo([]schema.Path{atNew, atTorque}, func(*Candidate) (float64, string) { return 0, "" }, nil); got == nil || len(got) > 0 {
		t.Errorf("nothing is plausible, and yet: %v", got)
	}
}

// TestUndoRows: figures exchanged within a record, told from both sides.
func TestUndoRows(t *testing.T) {
	r := &schema.Record{ID: "r", Kind: schema.KindFill}
	r.Level.Points = []schema.LevelPoint{
		{At: figure("20 °C"), Low: figure("41 mm"), High: figure("48 mm")},
		{At: figure("70 °C"), Low: figure("30 mm"), High: figure("59 mm")},
	}
	r.ReadFigures("")
	b := NewBench(r, "")
	low := func(i int) float64 { q, _ := b.Record.Level.Points[i].Low.Quantity(); return q.Nominal() }
	got := b.Undo([]schema.Path{schema.At("level", "points", 1, "low"), schema.At("level", "points", 0, "low")},
		func(c *Candidate) (float64, string) {
			if low(0) < low(1) && low(1) < 0.05 && low(0) > 0.02 {
				return 1, ""
			}
			return 0, ""
		}, nil)
	if !slices.ContainsFunc(got, func(r Restored) bool { return r.Kind.ID == "figures-exchanged" && r.Reads == "41 mm" }) {
		t.Errorf("the exchange is not found: %v", got)
	}
}

// Of a last judge that weighs one down the others go first.
func TestUndoLast(t *testing.T) {
	r := torque("33 lbf·ft", "54 N·m")
	got := NewBench(r, "").Undo([]schema.Path{atTorque}, anything, func(c *Candidate) float64 {
		if c.Reads == "45 N·m" {
			return 0.001
		}
		return 1
	})
	if len(got) == 0 || got[0].Reads == "45 N·m" {
		t.Errorf("first is still %v", got)
	}
}

// TestRoundTrip: what every kind plants, the search takes back: the text that was
// there, or one that reads the same, is among the candidates.
func TestRoundTrip(t *testing.T) {
	for _, r := range []struct {
		record *schema.Record
		at     schema.Path
	}{
		{torque("71 lbf·in", "8.0 N·m"), atTorque},
		{torque("60 to 71 lbf·ft", "81 to 96 N·m"), atTorque},
		{torque("36 ±2 lbf·ft", "49 ±3 N·m"), atTorque},
		{torque("12.5 kgf·m"), atTorque},
		{torque("max 25 N·m"), atTorque},
		{tolerance("clearance", "0.04 to 0.09 mm", ".0016 to .0035 in"), atNew},
		{tolerance("temperature", "-10 to 35 °C", "14 to 95 °F"), atNew},
		{tolerance("volume", "6.2 L", "6.6 US qt"), atNew},
		{tolerance("pressure", "4.5 bar", "65 psi"), atNew},
		{tolerance("spring load", "110 N"), atNew},
		{tolerance("angle", "90°"), atNew},
	} {
		b := NewBench(r.record, "")
		f := b.Figure(r.at)
		for i := range f.Values {
			was := f.Values[i]
			for _, k := range Kinds() {
				if k.undo == nil {
					continue
				}
				for _, edits := range k.Plants(b, r.at, i, nil) {
					b.Set(edits)
					found := false
					for _, c := range b.candidates(r.at) {
						for _, e := range c.Edits {
							q, problem := b.Parse(r.at, e.Text)
							found = found || e.Text == was.Text || problem == nil && (Canonical(q) == Canonical(was.Quantity) || alike(q, was.Quantity))
						}
					}
					// A unit of another quantity in its place may read as it is.
					if now := b.Figure(r.at).Values[i]; !found && !(now.Problem == nil && Canonical(now.Quantity) == Canonical(was.Quantity)) {
						t.Errorf("%s: %q planted as %q is not taken back", k.ID, was.Text, edits[0].Text)
					}
					b.Reset()
				}
			}
		}
	}
}

func alike(a, b convert.Quantity) bool {
	return a.Unit == b.Unit && convert.Agree(a, b).Outcome <= convert.RoundedFromSecond
}

// The same scores rank the same, whatever order the candidates come in.
func TestRank(t *testing.T) {
	a := Restored{Candidate: Candidate{Kind: kinds[0], Reads: "8 N·m"}, Score: 1}
	b := Restored{Candidate: Candidate{Kind: kinds[1], Reads: "8 N·m"}, Score: 1}
	c := Restored{Candidate: Candidate{Kind: kinds[1], Reads: "9 N·m"}, Score: 1}
	d := Restored{Candidate: Candidate{Kind: kinds[5], Reads: "9 N·m"}, Score: 2}
	list := []Restored{c, b, d, a}
	slices.SortFunc(list, rank)
	for i, want := range []Restored{d, a, b, c} {
		if list[i].Kind != want.Kind || list[i].Reads != want.Reads {
			t.Errorf("place %d: %s %s", i, list[i].Kind.ID, list[i].Reads)
		}
	}
	if rounded(1.01) != rounded(0.99) || rounded(1) == rounded(1.2) {
		t.Error("scores are not rounded to an eighth of a power of two")
	}
}

func FuzzUndo(f *testing.F) {
	for _, s := range []string{"71 lbf·ft", "6071 N·m", "9 ±1 N·m", "4 1/2 US qt", "", "°", "1b-ft", "0.00030.0016 in", "-", "1,300 N·m", "8 to 10"} {
		f.Add(s, "8 N·m")
	}
	f.Fuzz(func(t *testing.T, first, second string) {
		if len(first)+len(second) > 80 {
			return
		}
		r := torque(first, second)
		b := NewBench(r, "")
		got := b.Undo([]schema.Path{atTorque}, anything, nil)
		if len(got) > most {
			t.Errorf("%q, %q: %d are given", first, second, len(got))
		}
		for _, x := range got {
			if x.Reads == "" || x.Score <= 0 {
				t.Errorf("%q, %q: %+v", first, second, x)
			}
		}
		if now := texts(&b.Record.Tighten[0].To); now[0] != first || now[1] != second {
			t.Errorf("the bench was left as %q", now)
		}
	})
}

func BenchmarkUndo(b *testing.B) {
	bench := NewBench(torque("33 to 40 lbf·ft", "54 to 54 N·m"), "")
	b.ReportAllocs()
	for b.Loop() {
		bench.Undo([]schema.Path{atTorque}, anything, nil)
	}
}
