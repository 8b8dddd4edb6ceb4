package main

import (
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/verify/joint"
)

func asked(t *testing.T, opt bandOptions) question {
	t.Helper()
	if opt.kind == "" {
		opt.kind = "screw"
	}
	q, err := ask(opt)
	if err != nil {
		t.Fatalf("%+v: %v", opt, err)
	}
	return q
}

// Rows of the fine-thread table after VDI 2230, as a distributor's catalogue
// prints it (Mastik, "Preload and tightening torques", page 685): 0.9 of the
// yield, one friction in thread and under a hexagon head. N·m and kN by class
// 8.8, 10.9, 12.9.
var vdiFine = []struct {
	thread, friction string
	nm, kn           [3]float64
}{
	{"M8x1", "0.10", [3]float64{22.8, 33.5, 39.2}, [3]float64{20.7, 30.4, 35.6}},
	{"M8x1", "0.12", [3]float64{26.1, 38.3, 44.9}, [3]float64{20.2, 29.7, 34.7}},
	{"M8x1", "0.14", [3]float64{29.2, 42.8, 50.1}, [3]float64{19.7, 28.9, 33.9}},
	{"M10x1.25", "0.10", [3]float64{44, 65, 76}, [3]float64{32.4, 47.5, 55.6}},
	{"M10x1.25", "0.12", [3]float64{51, 75, 87}, [3]float64{31.6, 46.4, 54.3}},
	{"M10x1.25", "0.14", [3]float64{57, 83, 98}, [3]float64{30.8, 45.2, 52.9}},
	{"M12x1.25", "0.10", [3]float64{79, 116, 135}, [3]float64{49.1, 72.1, 84.4}},
	{"M12x1.25", "0.12", [3]float64{90, 133, 155}, [3]float64{48.0, 70.5, 82.5}},
	{"M12x1.25", "0.14", [3]float64{101, 149, 174}, [3]float64{46.8, 68.7, 80.4}},
	{"M16x1.5", "0.10", [3]float64{189, 278, 325}, [3]float64{89.6, 131.6, 154.0}},
	{"M16x1.5", "0.12", [3]float64{218, 320, 374}, [3]float64{87.6, 128.7, 150.6}},
	{"M16x1.5", "0.14", [3]float64{244, 359, 420}, [3]float64{85.5, 125.5, 146.9}},
	{"M20x1.5", "0.10", [3]float64{392, 558, 653}, [3]float64{151, 215, 252}},
	{"M20x1.5", "0.12", [3]float64{454, 646, 756}, [3]float64{148, 211, 246}},
	{"M20x1.5", "0.14", [3]float64{511, 728, 852}, [3]float64{144, 206, 241}},
	{"M24x2", "0.10", [3]float64{666, 949, 1110}, [3]float64{213, 304, 355}},
	{"M24x2", "0.12", [3]float64{769, 1095, 1282}, [3]float64{209, 297, 348}},
	{"M24x2", "0.14", [3]float64{865, 1232, 1442}, [3]float64{204, 290, 339}},
}

// The figures at 0.9 of yield are those of the printed table; the span over all
// hexagon heads holds them, and yield lies a tenth above.
func TestBandEqualsTable(t *testing.T) {
	const off = 0.012
	for _, r := range vdiFine {
		for i, class := range []string{"8.8", "10.9", "12.9"} {
			q := asked(t, bandOptions{thread: r.thread, class: class, head: "hex", friction: r.friction})
			rows := q.chartRows()
			if len(rows) != 1 {
				t.Fatalf("%s %s: %d rows, want 1", r.thread, class, len(rows))
			}
			nm, kn := rows[0].torqueNm, rows[0].preloadN/1000
			if math.Abs(nm-r.nm[i]) > off*r.nm[i] || math.Abs(kn-r.kn[i]) > off*r.kn[i] {
				t.Errorf("%s %s at %s: %.4g N·m and %.4g kN, printed are %v and %v", r.thread, class, r.friction, nm, kn, r.nm[i], r.kn[i])
			}
			u, err := joint.UseAt(q.facts, chartShare)
			if err != nil || nm < u.TorqueNm.Lo*(1-1e-9) || nm > u.TorqueNm.Hi*(1+1e-9) {
				t.Errorf("%s %s: %.4g N·m is outside %+v, %v", r.thread, class, nm, u.TorqueNm, err)
			}
			y, err := joint.UseAt(q.facts, 1)
			if err != nil || math.Abs(y.TorqueNm.Hi*chartShare-u.TorqueNm.Hi) > 1e-9*u.TorqueNm.Hi {
				t.Errorf("%s %s: yield %+v beside %+v, %v", r.thread, class, y.TorqueNm, u.TorqueNm, err)
			}
			// Whoever does not know the friction and the head sees it as usual.
			b := joint.BandOf(asked(t, bandOptions{thread: r.thread, class: class}).facts)
			if r.nm[i] < b.UsualLoNm || r.nm[i] > b.UsualHiNm {
				t.Errorf("%s %s: printed %v N·m is outside the usual %.4g to %.4g", r.thread, class, r.nm[i], b.UsualLoNm, b.UsualHiNm)
			}
		}
	}
}

// The twenty commonest threads against charts of other authors. These take less
// than 0.9 of the yield or another friction, so that the figure of the VDI
// relation stands a little above them. Dry inch charts are made with a nut factor
// of 0.2, about the friction of 0.14.
func TestBandCommonThreads(t *testing.T) {
	const (
		handbook = "Dubbel, 18th ed. p. G175, quoted in a machine manual (friction not stated, fits 0.12)"
		manual   = "machine manual, maximum torques at friction 0.14"
		army     = "US Army TM 10-6640-238-13 Table G-1, SAE 5, clean and dry"
		seller   = "bolt seller's metric socket screw page, 12.9, dry"
	)
	tests := []struct {
		thread, class, friction string
		printed                 float64
		unit, source            string
	}{
		{"M3", "12.9", "0.14", 2.20, "N·m", seller},
		{"M4", "8.8", "0.12", 2.8, "N·m", handbook},
		{"M5", "8.8", "0.12", 5.5, "N·m", handbook},
		{"M6", "8.8", "0.12", 9.5, "N·m", handbook},
		{"M8", "8.8", "0.12", 23, "N·m", handbook},
		{"M8", "10.9", "0.12", 34, "N·m", handbook},
		{"M8x1", "8.8", "0.14", 27, "N·m", manual},
		{"M10", "8.8", "0.12", 46, "N·m", handbook},
		{"M10x1.25", "8.8", "0.14", 52, "N·m", manual},
		{"M12", "8.8", "0.12", 79, "N·m", handbook},
		{"M12x1.5", "8.8", "0.14", 89, "N·m", manual},
		{"M14", "8.8", "0.12", 125, "N·m", handbook},
		{"M16", "8.8", "0.12", 195, "N·m", handbook},
		{"M20", "8.8", "0.12", 390, "N·m", handbook},
		{"M24", "8.8", "0.12", 670, "N·m", handbook},
		{"1/4-20", "SAE 5", "0.14", 8, "lbf·ft", army},
		{"1/4-28", "SAE 5", "0.14", 10, "lbf·ft", army},
		{"5/16-18", "SAE 5", "0.14", 17, "lbf·ft", army},
		{"3/8-16", "SAE 5", "0.14", 31, "lbf·ft", army},
		{"3/8-24", "SAE 5", "0.14", 35, "lbf·ft", army},
		{"7/16-14", "SAE 5", "0.14", 49, "lbf·ft", army},
		{"1/2-13", "SAE 5", "0.14", 75, "lbf·ft", army},
		{"1/2-20", "SAE 5", "0.14", 85, "lbf·ft", army},
		{"5/8-11", "SAE 5", "0.14", 150, "lbf·ft", army},
	}
	for _, tt := range tests {
		u, ok := convert.UnitBySymbol(tt.unit)
		if !ok {
			t.Fatal(tt.unit)
		}
		nm := u.ToSI(tt.printed)
		q := asked(t, bandOptions{thread: tt.thread, class: tt.class, friction: tt.friction})
		if share := nm / q.chartRows()[0].torqueNm; share < 0.85 || share > 1.01 {
			t.Errorf("%s %s: printed %v %s is %.2f of the figure (%s)", tt.thread, tt.class, tt.printed, tt.unit, share, tt.source)
		}
		b := joint.BandOf(asked(t, bandOptions{thread: tt.thread, class: tt.class}).facts)
		if nm < b.UsualLoNm || nm > b.UsualHiNm {
			t.Errorf("%s %s: printed %v %s is not usual (%s)", tt.thread, tt.class, tt.printed, tt.unit, tt.source)
		}
		// Inch-pounds typed as foot-pounds break the screw.
		if 12*nm < b.CeilingNm {
			t.Errorf("%s %s: twelve times %v %s is below the ceiling", tt.thread, tt.class, tt.printed, tt.unit)
		}
	}
}

// Every page is whole: no line of a picture is wider than a terminal, and the
// usual band stands where the scale says.
func TestBandPages(t *testing.T) {
	for i, th := range reference.Threads() {
		if i%5 > 0 || th.D > 40 {
			continue
		}
		for _, class := range []string{"", "8.8", "SAE 5", "A2-70"} {
			q, err := ask(bandOptions{thread: th.Designation, class: class, kind: "screw", into: "cast aluminium", engagement: "20 mm"})
			if err != nil {
				continue // a class of the other family, or not made in the size
			}
			text := q.text()
			for line := range strings.Lines(text) {
				if n := utf8.RuneCountInString(strings.TrimSuffix(line, "\n")); n > 96 {
					t.Errorf("%s %s: %d characters: %s", th.Designation, class, n, line)
				}
			}
			_, picture, _ := strings.Cut(text, "too much above")
			picture, _, _ = strings.Cut(picture, "what each missing")
			for _, want := range []string{"too little ", "[", "]", "#", "X", "|>"} {
				if !strings.Contains(picture, want) {
					t.Errorf("%s %s: no %q in\n%s", th.Designation, class, want, picture)
				}
			}
			for line := range strings.Lines(picture) {
				if strings.HasPrefix(line, "usual") && len(line) > labelWidth+axisWidth+1 {
					t.Errorf("%s %s: too wide: %s", th.Designation, class, line)
				}
			}
		}
	}
}

// A fact that is missing never makes the band narrower than any word for it.
func TestBandCosts(t *testing.T) {
	for _, opt := range []bandOptions{
		{thread: "M8"}, {thread: "1/4"}, {thread: "M8", kind: "nut"}, {thread: "No. 10-32", kind: "stud"}, {thread: "M20", class: "10.9"},
	} {
		q := asked(t, opt)
		now := costWith{band: joint.BandOf(q.facts)}.factor()
		list := q.costList()
		if len(list) == 0 {
			t.Errorf("%+v: nothing is missing", opt)
		}
		for _, c := range list {
			if c.best.factor() > c.worst.factor()*(1+1e-9) || c.worst.factor() > now*(1+1e-9) {
				t.Errorf("%+v %s: %.3g (%s) to %.3g (%s), now %.3g", opt, c.flag, c.best.factor(), c.best.word, c.worst.factor(), c.worst.word, now)
			}
		}
	}
	full := asked(t, bandOptions{thread: "M8x1.25", class: "8.8", head: "hex", threads: "dry", into: "steel"})
	if list := full.costList(); len(list) > 0 {
		t.Errorf("all is said, yet missing are %+v", list)
	}
	// Nobody who knows that it goes into plastic leaves that out.
	q := asked(t, bandOptions{thread: "M8"})
	for _, c := range q.costList() {
		if c.worst.word == "plastic" {
			t.Error("plastic counts as a gap of knowledge")
		}
	}
}

func TestNumber(t *testing.T) {
	for x, want := range map[float64]string{0.1: "0.10", 0.12: "0.12", 0.125: "0.125", 0.2: "0.20", 1: "1.00", 0.0815: "0.0815"} {
		if got := number(x); got != want {
			t.Errorf("%v: got %s, want %s", x, got, want)
		}
	}
}

// FuzzBandQuestion: whatever is asked, band answers with a whole page or says
// why not.
func FuzzBandQuestion(f *testing.F) {
	f.Add("M8", "8.8", "screw", "hex", "dry", "0.12", "cast aluminium", "12 mm", "", "gasket")
	f.Add("1/4", "SAE 1 or 2", "nut", "", "", "", "plastic", "", "wire", "")
	f.Add("M300x8", "", "stud", "other: square", "other: graphite", "0.08 to 0.14", "", "1/2 in", "x", "")
	f.Add("No. 0-80", "ASTM A574", "screw", "countersunk", "waxed", "1e-9", "brass", "0.001 mm", "", "O-ring")
	f.Fuzz(func(t *testing.T, thread, class, kind, head, threads, friction, into, engagement, insert, seal string) {
		q, err := ask(bandOptions{
			thread: thread, class: class, kind: kind, head: head, threads: threads, friction: friction,
			into: into, engagement: engagement, insert: insert, seal: seal,
		})
		if err != nil {
			return
		}
		text := q.text()
		for _, want := range []string{"no specification", "usual in print", "too much above", "sources"} {
			if !strings.Contains(text, want) {
				t.Errorf("no %q in\n%s", want, text)
			}
		}
		for _, bad := range []string{"NaN", "Inf"} {
			if strings.Contains(text, bad) {
				t.Errorf("%s in\n%s", bad, text)
			}
		}
	})
}

func BenchmarkBand(b *testing.B) {
	for b.Loop() {
		q, err := ask(bandOptions{thread: "M8", kind: "screw"})
		if err != nil || q.text() == "" {
			b.Fatal(err)
		}
	}
}
