package reference

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// seenThread is what a row of the tests says of a thread.
type seenThread struct {
	Designation string
	Family      Family
	Series      string
	Tolerance   string
	Length      string
	Left        bool
	Given       bool
	Listed      bool
}

func brief(t Thread) seenThread {
	return seenThread{t.Designation, t.Family, t.Series, t.Tolerance, t.Length, t.LeftHand, t.PitchGiven, t.Listed}
}

func TestParseThread(t *testing.T) {
	metric := func(d, series string) seenThread { return seenThread{d, Metric, series, "", "", false, true, true} }
	inch := func(d, series string) seenThread { return seenThread{d, Unified, series, "", "", false, true, true} }
	other := func(d string, f Family) seenThread { return seenThread{Designation: d, Family: f} }
	with := func(s seenThread, change func(*seenThread)) seenThread { change(&s); return s }
	tol := func(s seenThread, text string) seenThread { return with(s, func(s *seenThread) { s.Tolerance = text }) }
	length := func(s seenThread, text string) seenThread { return with(s, func(s *seenThread) { s.Length = text }) }
	left := func(s seenThread) seenThread { return with(s, func(s *seenThread) { s.Left = true }) }
	unsaid := func(s seenThread) seenThread { return with(s, func(s *seenThread) { s.Given = false }) }
	unlisted := func(s seenThread) seenThread { return with(s, func(s *seenThread) { s.Listed = false }) }
	given := func(s seenThread) seenThread { return with(s, func(s *seenThread) { s.Given = true }) }
	series := func(s seenThread, name string) seenThread { return with(s, func(s *seenThread) { s.Series = name }) }

	m8, m8fine, quarter := metric("M8x1.25", "coarse"), metric("M8x1", "fine"), inch("1/4-20 UNC", "UNC")
	for _, c := range []struct {
		text string
		want seenThread
	}{
		// metric, ISO 965-1 designations and how they are printed
		{"M8x1.25", m8},
		{"M8 × 1.25", m8},
		{"M8×1,25", m8},
		{"M 8 X 1.25", m8},
		{"m8*1.25", m8},
		{"М8х1.25", m8}, // Cyrillic letters
		{"M8-1.25", m8},
		{"M8 1.25", m8},
		{"M8 x P1.25", m8},
		{"M8xPh2.5P1.25", m8},
		{"M08x1.250", m8},
		{"M8 x 1.25 mm", m8},
		{"M8", unsaid(m8)},
		{"M8 coarse", unsaid(m8)},
		{"M8-6g", tol(unsaid(m8), "6g")},
		{"M8x1.25-6H", tol(m8, "6H")},
		{"M8 × 1.25-6g", tol(m8, "6g")},
		{"M8x1-5g6g", tol(m8fine, "5g6g")},
		{"M8x1 - 6H/6g", tol(m8fine, "6H/6g")},
		{"M8x1.25 LH", left(m8)},
		{"M8x1.25-6g-LH", left(tol(m8, "6g"))},
		{"M8x1.25, left hand thread", left(m8)},
		{"M8x1.25x25", length(m8, "25")},
		{"M8-1.25 x 25 mm long", length(m8, "25")},
		{"M10x1", metric("M10x1", "fine")},
		{"M7x0.75", metric("M7x0.75", "fine")}, // connecting rod bolts in service
		{"M18x1.5", metric("M18x1.5", "fine")},
		{"M90x2", metric("M90x2", "fine")},
		{"M25", unsaid(metric("M25", ""))},
		{"M12 fine", unsaid(metric("M12", "fine"))},
		{"M8x1.5", unlisted(metric("M8x1.5", ""))}, // both standard, not together
		{"M5x0.9", unlisted(metric("M5x0.9", ""))}, // JIS before ISO
		{"M2.6", unlisted(unsaid(metric("M2.6", "")))},

		// unified, ASME B1.1
		{"1/4-20", quarter},
		{"1/4-20 UNC", quarter},
		{"1/4-20UNC-2A", tol(quarter, "2A")},
		{"1/4 - 20 UNC - 2A - LH", left(tol(quarter, "2A"))},
		{"1/4\"-20", quarter},
		{"1/4 in-20", quarter},
		{"¼-20", quarter},
		{"1/4 20 UNC", quarter},
		{"1/4 x 20", quarter},
		{".250-20", quarter},
		{"0.250-20", quarter},
		{"1/4-20 NC", quarter},
		{"1/4-20 UNRC-2A", tol(quarter, "2A")},
		{"1/4-20 x 3/4", length(quarter, "3/4")},
		{"1/4-20 UNC x 1-1/2", length(quarter, "1-1/2")},
		{"1/4-28", inch("1/4-28 UNF", "UNF")},
		{"#10-32", inch("No. 10-32 UNF", "UNF")},
		{"No. 10-32", inch("No. 10-32 UNF", "UNF")},
		{"No 10-32 UNF", inch("No. 10-32 UNF", "UNF")},
		{"№10-32", inch("No. 10-32 UNF", "UNF")},
		{"10-32", inch("No. 10-32 UNF", "UNF")},
		{"8-32 UNC-2B", tol(inch("No. 8-32 UNC", "UNC"), "2B")},
		{"4-40", inch("No. 4-40 UNC", "UNC")},
		{"4-4", inch("4-4 UNC", "UNC")},
		{"1-8", inch("1-8 UNC", "UNC")},
		{"1-64", inch("No. 1-64 UNC", "UNC")},
		{"2-4.5", inch("2-4.5 UNC", "UNC")},
		{"5/16-18UNC", inch("5/16-18 UNC", "UNC")},
		{"1-1/8-12", inch("1-1/8-12 UNF", "UNF")},
		{"1 1/8-7", inch("1-1/8-7 UNC", "UNC")},
		{"1⅛-7", inch("1-1/8-7 UNC", "UNC")},
		{"7/16-20 UNF", inch("7/16-20 UNF", "UNF")},
		{"1-1/8-8 UN", inch("1-1/8-8 UN", "UN")},
		{"1-14 UNF", inch("1-14 UNS", "UNS")}, // older 1 in screws
		{"1-5/16-12", inch("1-5/16-12 UN", "UN")},
		{"1/4 UNF", unsaid(inch("1/4-28 UNF", "UNF"))},
		{"1/4", unsaid(inch("1/4", ""))},
		{"1/4 (fine and coarse)", unsaid(inch("1/4", ""))},
		{"10", unsaid(inch("No. 10", ""))},
		{"1/2-14", unlisted(inch("1/2-14 UNS", "UNS"))},
		{"0.260-20 UNS", unlisted(inch("0.26-20 UNS", "UNS"))},

		// other families, by name
		{"G 1/2", other("G 1/2", PipeParallel)},
		{"G1/2A", tol(other("G 1/2", PipeParallel), "A")},
		{"G 1 1/2", other("G 1-1/2", PipeParallel)},
		{"G½", other("G 1/2", PipeParallel)},
		{"1/4 BSPP", other("G 1/4", PipeParallel)},
		{"PF 1/4", other("PF 1/4", PipeParallel)},
		{"R 3/8", other("R 3/8", PipeTaper)},
		{"Rc1/4", other("Rc 1/4", PipeTaper)},
		{"Rp 1/8", other("Rp 1/8", PipeTaper)},
		{"PT 1/8", other("PT 1/8", PipeTaper)},
		{"BSPT 3/4", other("R 3/4", PipeTaper)},
		{"NPT 3/8", other("3/8 NPT", NPT)},
		{"3/8-18 NPT", other("3/8 NPT", NPT)},
		{"1/4 NPTF", other("1/4 NPTF", NPTF)},
		{"1/2 NPSM", other("1/2 NPSM", OtherFamily)},
		{"1/4 BSP", other("1/4 BSP", OtherFamily)},
		{"7/16-20 37° flare", series(given(other("7/16-20 37° flare", Flare37)), "UNF")},
		{"JIC 8", series(given(other("3/4-16 37° flare", Flare37)), "UNF")}, // fitting makers' tables
		{"-6 JIC", series(given(other("9/16-18 37° flare", Flare37)), "UNF")},
		{"7/16-20 45° flare", series(given(other("7/16-20 45° flare", OtherFamily)), "UNF")},
		{"9/16-18 ORB", series(given(other("9/16-18 O-ring port", ORingPort)), "UNF")},
		{"M18x1.5 O-ring port", series(given(other("M18x1.5 O-ring port", ORingPort)), "fine")},
		{"1-14 O-ring face seal", series(given(other("1-14 O-ring face seal", OtherFamily)), "UNS")},
		{"dash -6 (9/16-18)", series(given(other("dash -6 (9/16-18)", OtherFamily)), "UNF")},
		{"Tr 20x4", given(other("Tr 20x4", OtherFamily))},
		{"Tr20x4 LH", left(given(other("Tr 20x4", OtherFamily)))},
		{"1-5 Acme", given(other("1-5 Acme", OtherFamily))},
		{"3/8-16 BSW", given(other("3/8-16 BSW", OtherFamily))},
		{"W 3/8", other("W 3/8", OtherFamily)},
		{"2 BA", other("2 BA", OtherFamily)},
		{"MJ8x1", given(other("MJ8x1", OtherFamily))},
		{"1/4-28 UNJF-3A", given(other("1/4-28 UNJF", OtherFamily))},
		{"ST 4.2", other("ST 4.2", OtherFamily)},
		{"Pg 11", other("Pg 11", OtherFamily)},
		{"flare nut", other("flare nut", OtherFamily)},
		{"JIC", other("JIC", Flare37)},
	} {
		got, p := ParseThread(c.text)
		if p != nil {
			t.Errorf("%q: %s", c.text, p.Message)
			continue
		}
		if diff := cmp.Diff(c.want, brief(got)); diff != "" {
			t.Errorf("%q (-want +got):\n%s", c.text, diff)
		}
		if got.Text != c.text {
			t.Errorf("%q: Text is %q", c.text, got.Text)
		}
	}
}

func TestThreadProblems(t *testing.T) {
	for _, c := range []struct {
		text    string
		kind    ProblemKind
		at      string // the part it points at
		near    string // the first of Near
		certain bool
		read    string // what was read nevertheless
	}{
		{"M8x25", LengthForPitch, "25", "M8x1.25", false, "M8x1.25"},
		{"M8 x 25 mm", LengthForPitch, "25", "M8x1.25", false, "M8x1.25"},
		{"M20x6", LengthForPitch, "6", "M20x2.5", false, "M20x2.5"},
		{"M8x1.52", NoSuchPitch, "1.52", "M8x1.25", true, "M8x1.52"},
		{"M8x1.2", NoSuchPitch, "1.2", "M8x1.25", true, "M8x1.2"}, // a strip table misprints M8x1.25 so
		{"M8x3", NoSuchPitch, "3", "M8x1.25", true, "M8x3"},
		{"M8.25", NoSuchSize, "M8.25", "M8x1.25", true, "M8.25"},
		{"M13x1.25", NoSuchSize, "M13", "M12x1.25", false, "M13x1.25"},
		{"M8.5x1", NoSuchSize, "M8.5", "M8x1", false, "M8.5x1"},
		{"M0", NoSuchSize, "M0", "M1x0.25", true, "M0"},
		{"M500x6", NoSuchSize, "M500", "M300x6", false, "M500x6"},
		{"8x1.25", NotAThread, "8x1.25", "M8x1.25", false, "M8x1.25"},
		{"10-1.5", NotAThread, "10-1.5", "M10x1.5", false, "M10x1.5"},
		{"14 mm", NotAThread, "14 mm", "M14x2", false, "M14"}, // spark plugs are printed so
		{"M8x1.25 foo", NotAThread, "foo", "", false, "M8x1.25"},
		{"M", NotAThread, "M", "", false, ""},
		{"banana", NotAThread, "banana", "", false, ""},
		{"", NotAThread, "", "", false, ""},
		{"#1/4", NotAThread, "#1/4", "", false, ""},
		{"no thread", NotAThread, "no thread", "", false, ""},
		{"1/4-21", NoSuchPitch, "21", "1/4-20 UNC", true, "1/4-21 UNS"},
		{"1/4-26", NoSuchPitch, "26", "1/4-28 UNF", false, "1/4-26 UNS"}, // BSF
		{"10-30", NoSuchPitch, "30", "No. 10-32 UNF", false, "No. 10-30 UNS"},
		{"1/4-8", NoSuchPitch, "8", "1/4-20 UNC", true, "1/4-8 UNS"},
		{"UNF 1/4-20", SeriesMismatch, "1/4-20", "1/4-20 UNC", false, "1/4-20 UNC"},
		{"UNC", NotAThread, "UNC", "", false, ""},
		{"#6-20", NoSuchPitch, "20", "No. 6-32 UNC", false, "No. 6-20 UNS"}, // a tapping screw
		{"1/4-20 UNF", SeriesMismatch, "1/4-20 UNF", "1/4-20 UNC", false, "1/4-20 UNC"},
		{"3/8-24 UNC", SeriesMismatch, "3/8-24 UNC", "3/8-24 UNF", false, "3/8-24 UNF"},
		{"1/4 x 1", LengthForPitch, "1", "1/4-20 UNC", false, "1/4"},
		{"10/32", NoSuchSize, "10/32", "5/16-18 UNC", false, "5/16"},
		{"15/64-20", NoSuchSize, "15/64", "1/4-20 UNC", true, "15/64-20 UNS"},
		{"5/32-32", NoSuchSize, "5/32", "No. 8-32 UNC", false, "5/32-32 UNS"},
		{"No. 7-32", NoSuchSize, "No. 7", "No. 6-32 UNC", false, "0.151-32 UNS"},
		{"1/2 and up", NotAThread, "and up", "", false, "1/2"},
		{"M14 to M18", NotAThread, "to M18", "", false, "M14x2"},
		{"G 5/16", NoSuchSize, "5/16", "", false, "G 5/16"},
		{"NPT", NoSuchSize, "NPT", "", false, "NPT"},
	} {
		got, p := ParseThread(c.text)
		if p == nil {
			t.Errorf("%q: no problem, read as %s", c.text, got.Designation)
			continue
		}
		near := ""
		if len(p.Near) > 0 {
			near = p.Near[0]
		}
		if p.Kind != c.kind || c.text[p.Start:p.End] != c.at || near != c.near || p.Certain != c.certain || got.Designation != c.read {
			t.Errorf("%q: kind %d at %q near %q certain %v read %q (%s); want kind %d at %q near %q certain %v read %q",
				c.text, p.Kind, c.text[p.Start:p.End], near, p.Certain, got.Designation, p.Message, c.kind, c.at, c.near, c.certain, c.read)
		}
		if p.Error() == "" || strings.HasSuffix(p.Message, ".") {
			t.Errorf("%q: message %q", c.text, p.Message)
		}
	}
}

// What is only known by name must never be called unknown, and never certain to
// be wrong.
func TestOtherFamiliesAreKnown(t *testing.T) {
	for _, text := range []string{
		"G 1/2", "R 3/8", "Rc 1/4", "Rp 1/2", "PT 1/8", "PF 1/8", "1/8 NPT", "NPTF 1/8", "1/8 NPS", "37° flare", "JIC 6", "ORB 8", "O-ring port",
		"BSPP 1/4", "BSPT 1/4", "Tr 30x6", "1-5 Acme", "1/2 BSW", "1/4-26 BSF", "4 BA", "1/4-28 UNJF", "MJ6x1", "AN6", "Rd 40", "S 40x7", "GHT 3/4",
	} {
		got, p := ParseThread(text)
		if got.Family == NoFamily || p != nil && p.Certain {
			t.Errorf("%q: %v, %v", text, got.Family, p)
		}
		if got.Family == Metric || got.Family == Unified {
			t.Errorf("%q is read as %v", text, got.Family)
		}
	}
}

func TestFamilyNames(t *testing.T) {
	for f := NoFamily; f <= OtherFamily; f++ {
		if f.String() == "" {
			t.Errorf("family %d has no name", f)
		}
	}
	if Metric.String() != "metric" || Flare37.String() != "37° flare" {
		t.Error(Metric, Flare37)
	}
}

func FuzzParseThread(f *testing.F) {
	for _, s := range []string{
		"M8x1.25-6g", "M8 × 1,25 LH", "1/4-20 UNC-2A", "#10-32", "No. 10-32", "1 1/8-7", "1½-6", "G 1/2 A", "3/8-18 NPT", "-6 JIC",
		"dash -8", "7/16-20 37° flare", "Tr20x4", "M8x25", "10/32", "14 mm", "M18x1.5 O-ring port", "№4-40", "MJ8x1", "1/0-20", "M8xPh2.5P1.25", "\xff8-32",
		"1/1-80", "1.000-80", `1"-80`,
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		got, p := parseThread(text)
		if got.Text != text {
			t.Fatalf("Text is %q, not %q", got.Text, text)
		}
		if p != nil {
			if p.Start < 0 || p.Start > p.End || p.End > len(text) {
				t.Fatalf("place %d:%d outside %q", p.Start, p.End, text)
			}
			if p.Message == "" || p.Error() != p.Message {
				t.Fatal("a problem must say what it is")
			}
			return
		}
		if got.Family == NoFamily || got.Designation == "" {
			t.Fatalf("%q: neither a thread nor a problem: %+v", text, got)
		}
		if got.Family != Metric && got.Family != Unified || got.Pitch == 0 {
			return
		}
		// The normal form of what was read is read as the same thread.
		back, p := ParseThread(got.Designation)
		if p != nil || !same(back.D, got.D) || !same(back.Pitch, got.Pitch) {
			t.Fatalf("%q reads as %q, which reads as %+v, %v", text, got.Designation, back, p)
		}
	})
}

func BenchmarkParseThread(b *testing.B) {
	for _, text := range []string{"M8x1.25", "M10 x 1.5-6g", "1/4-20 UNC-2A", "3/8 NPT", "M8x1.52"} {
		b.Run("first "+text, func(b *testing.B) {
			for b.Loop() {
				parseThread(text)
			}
		})
		b.Run("again "+text, func(b *testing.B) {
			for b.Loop() {
				ParseThread(text)
			}
		})
	}
}

func ExampleParseThread() {
	t, _ := ParseThread("1/4-20 UNC-2A")
	fmt.Printf("%s, D %.2f mm, area %.1f mm², class %s\n", t.Designation, t.D, t.StressArea, t.Tolerance)
	_, p := ParseThread("M8x25")
	fmt.Println(p.Message)
	// Output:
	// 1/4-20 UNC, D 6.35 mm, area 20.5 mm², class 2A
	// 25 mm is a length, not a pitch; M8 is M8x1.25, M8x1 or M8x0.75
}

// The name may stand before the size, and tapping screws are known by name: they
// cut their own thread, M5 and No. 8 are sizes of theirs (ISO 1478, ASME B18.6.4;
// from memory).
func TestParseThreadNames(t *testing.T) {
	for _, c := range []struct {
		text, want string
		family     Family
		pitch      float64
	}{
		{"UNC 1/4-20", "1/4-20 UNC", Unified, 25.4 / 20},
		{"UNC 1/4", "1/4-20 UNC", Unified, 25.4 / 20},
		{"UNF-1/4-28", "1/4-28 UNF", Unified, 25.4 / 28},
		{"UNEF 1/4-32-2A", "1/4-32 UNEF", Unified, 25.4 / 32},
		{"unf No. 10-32", "No. 10-32 UNF", Unified, 25.4 / 32},
		{"NF #10-32", "No. 10-32 UNF", Unified, 25.4 / 32},
		{"M-8x1.25", "M8x1.25", Metric, 1.25},
		{"M5 self-tapping", "M5 tapping screw", OtherFamily, 0},
		{"M5 self tapping screw", "M5 tapping screw", OtherFamily, 0},
		{"#8 tapping", "#8 tapping screw", OtherFamily, 0},
		{"tapping screw", "tapping screw", OtherFamily, 0},
		{"ST4.8 tapping", "ST 4.8", OtherFamily, 0},
	} {
		got, p := ParseThread(c.text)
		if p != nil || got.Designation != c.want || got.Family != c.family || !same(got.Pitch, c.pitch) {
			t.Errorf("%q: got %s, %v, pitch %v, %v, want %s", c.text, got.Designation, got.Family, got.Pitch, p, c.want)
		}
	}
}
