package convert

import "testing"

func BenchmarkParse(b *testing.B) {
	for _, bb := range []struct {
		name, text string
		want       Dimensions
	}{
		{"single", "6.0 N·m", Of(Torque)},
		{"range", "8 to 10 lbf·ft", Of(Torque, Ratio)},
		{"deviation", "9 +1/-0 N·m", Of(Torque)},
		{"fraction", "4 1/2 US qt", Of(Volume)},
		{"limit", "max 2.4 mm", Of(Length)},
		{"percent", "9 N·m ±10 %", Of(Torque)},
	} {
		b.Run(bb.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, p := Parse(bb.text, bb.want, Point); p != nil {
					b.Fatal(p)
				}
			}
		})
	}
}

func BenchmarkParseProblem(b *testing.B) {
	for b.Loop() {
		Parse("6 Ib-ft", Of(Torque), Point)
	}
}

func BenchmarkAgree(b *testing.B) {
	for _, bb := range []struct{ name, first, second string }{
		{"rounded", "71 lbf·in", "8 N·m"},
		{"range", "60 to 71 lbf·ft", "81 to 96 N·m"},
		{"shortened", "60 lbf·ft", "8.298 kgf·m"},
		{"disagree", "71 lbf·in", "6 N·m"},
	} {
		first, p := Parse(bb.first, Of(Torque), Point)
		second, p2 := Parse(bb.second, Of(Torque), Point)
		if p != nil || p2 != nil {
			b.Fatal(p, p2)
		}
		b.Run(bb.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				Agree(first, second)
			}
		})
	}
}

func BenchmarkTo(b *testing.B) {
	q, _ := Parse("8 to 10 N·m", Of(Torque), Point)
	u, _ := UnitBySymbol("lbf·in")
	b.ReportAllocs()
	for b.Loop() {
		if _, err := q.To(u, true); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkBounds(b *testing.B) {
	q, _ := Parse("8 to 10 N·m", Of(Torque), Point)
	for b.Loop() {
		q.Bounds()
	}
}
