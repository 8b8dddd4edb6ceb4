package schema

import (
	"fmt"
	"reflect"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"snapgauge/convert"
)

// fillFigures gives every figure of a value a text that names its place, and
// every list two items. It returns the places.
func fillFigures(v reflect.Value, p Path) []string {
	var places []string
	switch v.Type() {
	case reflect.TypeFor[Figure]():
		v.Addr().Interface().(*Figure).Values = []convert.Value{{Text: p.String()}}
		return []string{p.String()}
	case reflect.TypeFor[Fasteners]():
		f := v.Addr().Interface().(*Fasteners)
		f.List = true
		return fillFigures(reflect.ValueOf(&f.Items).Elem(), p)
	}
	switch v.Kind() {
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 2, 2))
		for i := range 2 {
			places = append(places, fillFigures(v.Index(i), p.Index(i))...)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			f := v.Type().Field(i)
			q := p
			if name := f.Tag.Get("spec"); name != "" {
				q = p.Field(name)
			}
			places = append(places, fillFigures(v.Field(i), q)...)
		}
	}
	return places
}

// TestFiguresMissesNone fills every figure of a record by reflection and
// counts what the walk, which is written by hand, finds.
func TestFiguresMissesNone(t *testing.T) {
	r := &Record{}
	want := fillFigures(valueOf(r), Path{})
	var got []string
	for p, f := range r.Figures() {
		got = append(got, p.String())
		if f.Text() != p.String() {
			t.Errorf("%s: is the figure of %s", p, f.Text())
		}
		if f.Want == 0 {
			t.Errorf("%s: nothing is wanted", p)
		}
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("(-reflection +walk):\n%s", d)
	}
	if len(got) < 40 {
		t.Errorf("only %d figures", len(got))
	}
	// A walk may stop anywhere.
	for stop := range got {
		n := 0
		for range r.Figures() {
			if n == stop {
				break
			}
			n++
		}
		if n != stop {
			t.Fatalf("stopped at %d of %d", n, stop)
		}
	}
	for range (&Record{}).Figures() {
		t.Error("an empty record has a figure")
	}
}

func TestWants(t *testing.T) {
	figure := func(s string) Figure { return Figure{Values: []convert.Value{{Text: s}}} }
	tests := []struct {
		record Record
		want   map[string]string
	}{
		{Record{Torque: Torque{Tighten: []Step{
			{To: figure("8 N·m"), Tolerance: figure("±10 %")},
			{Turn: figure("90°"), Tolerance: figure("±5°")},
			{Loosen: figure("fully")}, {Wait: figure("5 min")}, {Check: figure("8 N·m")},
		}, Joint: Joint{Friction: figure("0.12")}}}, map[string]string{
			"/tighten/0/to": "a torque", "/tighten/0/tolerance": "a share or a torque",
			"/tighten/1/turn": "an angle", "/tighten/1/tolerance": "a share or an angle",
			"/tighten/2/loosen": "an angle", "/tighten/3/wait": "a time", "/tighten/4/check": "a torque",
			"/joint/friction": "a number without unit",
		}},
		{Record{Fill: Fill{Level: Level{Engine: figure("idling"), At: figure("40 °C"), Points: []LevelPoint{{Low: figure("3 mm")}}, BetweenMarks: figure("1 L")}}}, map[string]string{
			"/level/engine": "a rotational speed", "/level/at": "a temperature", "/level/points/0/low": "a volume or a length", "/level/between-marks": "a volume",
		}},
		{Record{Tolerance: Tolerance{Of: "backlash", New: figure("0.1 mm"), Rows: []Row{{Figure: figure("0.1 mm")}}}}, map[string]string{
			"/new": "a length or an angle", "/rows/0/figure": "a length or an angle",
		}},
		{Record{Misprint: Misprint{Printed: "53 lbf·ft", Use: figure("53 lbf·in")}, Torque: Torque{Tighten: []Step{{To: figure("53 lbf·ft")}}}}, map[string]string{
			"/misprint/use": "a torque", "/tighten/0/to": "a torque",
		}},
	}
	for _, tt := range tests {
		got := map[string]string{}
		for p, f := range tt.record.Figures() {
			got[p.String()] = f.Want.String()
		}
		if d := cmp.Diff(tt.want, got); d != "" {
			t.Errorf("(-want +got):\n%s", d)
		}
	}
	// A misprint that stands nowhere may be of any dimension.
	r := Record{Misprint: Misprint{Printed: "x", Use: figure("53 lbf·in")}}
	for _, f := range r.Figures() {
		for _, d := range []convert.Dimension{convert.Torque, convert.Volume, convert.Ratio, convert.Resistance} {
			if !f.Want.Has(d) {
				t.Errorf("a misprint that stands nowhere: %v is missing", d)
			}
		}
	}
}

func TestFigure(t *testing.T) {
	r, problems := DecodeRecord(mustNode(t, `{"id": "x", "kind": "torque", "where": "y", "source": {"ref": "m", "at": "p"},
		"tighten": [{"to": ["eight", "8 N·m"]}, {"loosen": "fully"}]}`, true), nil)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	to := &r.Tighten[0].To
	if v, i, ok := to.First(); !ok || i != 1 || v.Text != "8 N·m" {
		t.Errorf("the first value read: got %v, %d, %v", v, i, ok)
	}
	if q, ok := to.Quantity(); !ok || q.Unit.Symbol() != "N·m" {
		t.Errorf("quantity: got %v, %v", q, ok)
	}
	if got, want := to.At(At("tighten", 0, "to"), 1).String(), "/tighten/0/to/1"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	word := &r.Tighten[1].Loosen
	if _, ok := word.Quantity(); ok || !word.Word || word.Text() != "fully" {
		t.Errorf("a word is read as a figure: %+v", word)
	}
	if got, want := word.At(At("tighten", 1, "loosen"), 0).String(), "/tighten/1/loosen"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	var none Figure
	if _, ok := none.Quantity(); ok || !none.IsZero() || none.Text() != "" {
		t.Error("an absent figure has a value")
	}
}

func TestReadFigures(t *testing.T) {
	read := func(t *testing.T, members, decimal string) *Record {
		t.Helper()
		r, problems := DecodeRecord(mustNode(t, `{"id": "x", "kind": "torque", "where": "y", "source": {"ref": "m", "at": "p"}, `+members+`}`, true), &Head{Decimal: decimal})
		for _, p := range problems {
			t.Errorf("%s: %s", p.At.Path, p.Message)
		}
		return r
	}
	text := func(f *Figure) string {
		q, ok := f.Quantity()
		return fmt.Sprint(q, ok)
	}

	t.Run("decimal mark", func(t *testing.T) {
		r := read(t, `"tighten": [{"to": "6,5 N·m"}]`, "comma")
		if got := text(&r.Tighten[0].To); got != "6.5 N·m true" {
			t.Errorf("comma: got %s", got)
		}
		r = read(t, `"tighten": [{"to": "6,5 N·m"}]`, "")
		if v := r.Tighten[0].To.Values[0]; v.Problem == nil {
			t.Errorf("point: 6,5 N·m is read as %v without a doubt", v.Quantity)
		}
	})

	t.Run("a second value settles", func(t *testing.T) {
		// 6.6 US qt are 6.2 L, 6.6 imperial qt 7.5 L (NIST SP 811: 0.946353 L, 1.136523 L).
		r := &Record{Fill: Fill{Amounts: []Amount{{Volume: Figure{Values: []convert.Value{{Text: "6.6 qt"}, {Text: "6.2 L"}}}}}}}
		r.ReadFigures("")
		if v := r.Amounts[0].Volume.Values[0]; v.Problem == nil || !v.Problem.Settled || v.Quantity.Unit.Symbol() != "US qt" {
			t.Errorf("got %v, %+v", v.Quantity, v.Problem)
		}
	})

	t.Run("misprint", func(t *testing.T) {
		const misprint = `"misprint": {"printed": "53 lbf·ft", "use": ["6 N·m", "53 lbf·in"], "because": "b", "source": {"ref": "n", "at": "p"}, "by": "JK"}`
		r := read(t, `"tighten": [{"to": ["6 N·m", "53 lbf·ft"]}, {"check": "53 lbf·ft"}, {"to": "53 lbf·in"}], `+misprint, "")
		to := &r.Tighten[0].To
		if !to.Misprint || to.Values[1].Text != "53 lbf·ft" || to.Values[1].Problem != nil {
			t.Errorf("got %+v", to)
		}
		// No value of use is in lbf·ft: the first speaks.
		if got := to.Values[1].Quantity.String(); got != "6 N·m" {
			t.Errorf("got %s", got)
		}
		if to.Values[1].Quantity.FirstAt != (convert.Place{}) || to.Values[0].Quantity.FirstAt == (convert.Place{}) {
			t.Errorf("places: %+v", to.Values)
		}
		if !r.Tighten[1].Check.Misprint || r.Tighten[2].To.Misprint || r.Misprint.Use.Misprint {
			t.Error("another text is taken for the misprint")
		}
		// In the same unit it is the value of that unit.
		r = read(t, `"tighten": [{"to": "35 lbf·in"}], `+`"misprint": {"printed": "35 lbf·in", "use": ["6 N·m", "53 lbf·in"], "because": "b", "source": {"ref": "n", "at": "p"}, "by": "JK"}`, "")
		if got := text(&r.Tighten[0].To); got != "53 lbf·in true" {
			t.Errorf("got %s", got)
		}
		// An unreadable use leaves the misprint unread.
		r = read(t, `"tighten": [{"to": "35 lbf·in"}], `+`"misprint": {"printed": "35 lbf·in", "use": "some", "because": "b", "source": {"ref": "n", "at": "p"}, "by": "JK"}`, "")
		if got := text(&r.Tighten[0].To); r.Tighten[0].To.Values[0].Problem == nil {
			t.Errorf("got %s", got)
		}
		// Without its misprint the record reads as printed again.
		r.Misprint = Misprint{}
		r.ReadFigures("")
		if got := text(&r.Tighten[0].To); got != "35 lbf·in true" || r.Tighten[0].To.Misprint {
			t.Errorf("got %s", got)
		}
	})

	t.Run("words", func(t *testing.T) {
		for s, want := range map[string]bool{
			"fully": true, "until free": true, "one turn": true, "90°": false, "min 90°": false, "max. 90°": false, "maximum 90°": false,
			"Fully": true, " fully": true, "-90°": false, "ganz": true, "½ turn": false, "": false,
		} {
			if got := isWord(s); got != want {
				t.Errorf("%q: got %v, want %v", s, got, want)
			}
		}
		for s, want := range map[string]bool{"idling": true, "stall": true, "cold": true, "about 70 °C": false, "70 °C": false, "max 1500 rpm": false, "": false} {
			if got := bareWord.allows(s); got != want {
				t.Errorf("%q for a condition: got %v, want %v", s, got, want)
			}
		}
		row, _ := DecodeRecord(mustNode(t, `{"kind": "tolerance", "of": "pressure", "rows": [{"figure": "5 bar", "at": {"speed": "stall", "temperature": "about 70 °C"}}]}`, true), nil)
		if at := &row.Rows[0].At; !at.Speed.Word || at.Temperature.Word || at.Temperature.Values[0].Problem == nil {
			t.Errorf("conditions: got %+v", at)
		}
		r := read(t, `"tighten": [{"loosen": "fully"}, {"loosen": "90°"}, {"to": "5 N·m"}]`, "")
		if got := []bool{r.Tighten[0].Loosen.Word, r.Tighten[1].Loosen.Word}; !slices.Equal(got, []bool{true, false}) {
			t.Errorf("got %v", got)
		}
	})
}
