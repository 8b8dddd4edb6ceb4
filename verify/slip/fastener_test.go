package slip

import (
	"slices"
	"testing"

	"snapgauge/schema"
)

// ISO 261: M8 has 1.25, 1 and 0.75; beside it stand M7 and M9 or M10.
func TestOtherThreads(t *testing.T) {
	got := otherThreads("M8x1.25")
	for _, want := range []string{"M8x1", "M8x0.75"} {
		if !slices.Contains(got, want) {
			t.Errorf("M8x1.25 is not taken for %s: %v", want, got)
		}
	}
	if slices.Contains(got, "M8x1.25") || len(got) < 4 {
		t.Errorf("M8x1.25 is taken for %v", got)
	}
	if got := otherThreads("G 1/4"); got != nil {
		t.Errorf("a pipe thread is taken for %v", got)
	}
	if got := otherThreads("M8x1.25"); len(got) < 4 {
		t.Error("the second answer is another")
	}
}

func TestOtherClasses(t *testing.T) {
	for class, want := range map[string]string{"8.8": "10.9", "A2-70": "A4-80", "8": "10", "SAE 5": "SAE 8"} {
		if got := otherClasses(class); !slices.Contains(got, want) || slices.Contains(got, class) {
			t.Errorf("%s is taken for %v", class, got)
		}
	}
	if got := otherClasses("ASTM A574"); got != nil {
		t.Errorf("ASTM A574 is taken for %v", got)
	}
}

// Misprints of threads in a table of US Army TM 10-6640-238-13, and a class that
// there is none of.
func TestTexts(t *testing.T) {
	r := screwed("22 N·m")
	at := r.Fasteners.At(0)
	for _, tt := range []struct{ thread, class, field, want, kind string }{
		{"7/17-14", "8.8", "thread", "7/16-14", "digit-wrong"},
		{"5/6-11", "8.8", "thread", "5/8-11", "digit-wrong"},
		{"M8x1.52", "8.8", "thread", "M8x1.25", "digits-transposed"},
		{"M8x1.255", "8.8", "thread", "M8x1.25", "digit-doubled"},
		{"M8x1.25", "8.7", "class", "8.8", "digit-wrong"},
		{"M8x1.25", "1.9", "class", "10.9", "digit-lost"},
	} {
		r.Fasteners.Items[0].Thread, r.Fasteners.Items[0].Class = tt.thread, tt.class
		got := NewBench(r, "").Texts(at.Field(tt.field), anything, nil)
		if !slices.ContainsFunc(got, func(r Restored) bool { return r.Reads == tt.want && r.Kind.ID == tt.kind }) {
			t.Errorf("%s %s: want %s (%s), got %v", tt.thread, tt.class, tt.want, tt.kind, got)
		}
	}
	if got := NewBench(r, "").Texts(atNew, anything, nil); got != nil {
		t.Errorf("a place without text: %v", got)
	}
	none := func(*Candidate) (float64, string) { return 0, "" }
	if got := NewBench(r, "").Texts(at.Field("class"), none, nil); len(got) > 0 {
		t.Errorf("nothing is plausible, and yet: %v", got)
	}
}

func TestPlantFastener(t *testing.T) {
	b := NewBench(screwed("22 N·m"), "")
	at := b.Record.Fasteners.At(0)
	thread, _ := KindOf("thread-wrong")
	class, _ := KindOf("class-wrong")
	if got := thread.Plants(b, at.Field("thread"), -1, nil); len(got) < 4 || got[0][0].Value != -1 {
		t.Errorf("threads planted: %v", got)
	}
	if got := class.Plants(b, at.Field("class"), -1, nil); len(got) < 4 {
		t.Errorf("classes planted: %v", got)
	}
	if got := class.Plants(b, atTorque, 0, nil); got != nil {
		t.Errorf("a class planted in a torque: %v", got)
	}
	// Undone by its torque.
	got := b.Undo([]schema.Path{atTorque}, func(c *Candidate) (float64, string) {
		if b.Record.Fasteners.Items[0].Thread == "M10x1.5" || b.Record.Fasteners.Items[0].Class == "10.9" {
			return 1, "fits"
		}
		return 0, ""
	}, nil)
	kinds := map[string]string{}
	for _, r := range got {
		kinds[r.Kind.ID] = r.Reads
	}
	if kinds["thread-wrong"] != "M10x1.5" && kinds["class-wrong"] != "10.9" {
		t.Errorf("got %v", got)
	}
}

// Copies come from a neighbour of the same shape only.
func TestPlantCopied(t *testing.T) {
	b := NewBench(torque("22 N·m", "195 lbf·in"), "")
	donor := NewBench(torque("45 N·m", "33 lbf·ft"), "").Figure(atTorque)
	k, _ := KindOf("row-copied")
	got := k.Plants(b, atTorque, 0, donor)
	if len(got) != 1 || len(got[0]) != 2 || got[0][1].Text != "33 lbf·ft" {
		t.Errorf("copied: %v", got)
	}
	short := NewBench(torque("45 N·m"), "").Figure(atTorque)
	if got := k.Plants(b, atTorque, 0, short); got != nil {
		t.Errorf("copied from another shape: %v", got)
	}
	if got := k.Plants(b, atTorque, 1, donor); got != nil {
		t.Errorf("copied twice: %v", got)
	}
}
