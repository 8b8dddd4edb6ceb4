package schema

import (
	"fmt"
	"regexp"
	"strings"
	"testing"
	"time"
)

// patterns are all that the schemas have, as forms hold them.
func patterns() map[string]*pattern {
	all := map[string]*pattern{}
	seen := map[*form]bool{}
	var look func(f *form)
	look = func(f *form) {
		if f == nil || seen[f] {
			return
		}
		seen[f] = true
		for i := range f.texts {
			if p := f.texts[i].pattern; p != nil {
				all[p.text] = p
			}
		}
		if f.list != nil {
			look(f.list.items)
		}
		if o := f.object; o != nil {
			if o.names != nil && o.names.pattern != nil {
				all[o.names.pattern.text] = o.names.pattern
			}
			look(o.others)
			for _, m := range o.members {
				look(m)
			}
		}
	}
	for _, f := range []*form{&recordForm, &lineForm, &headForm} {
		look(f)
	}
	return all
}

// FuzzPatterns: a pattern that is matched as runs matches what the regular
// expression does.
func FuzzPatterns(f *testing.F) {
	for _, s := range []string{"", "a", "a-b_c.9", "A", "-a", "a ", "é", "aé", "snapgauge/1.0", "snapgauge/1.", "snapgauge/1x0", "snapgauge/1.007", "snapgauge/1.0\n", "other: x", "1,5", "\xff"} {
		f.Add(s)
	}
	all := patterns()
	asRuns := 0
	for _, p := range all {
		if p.runs != nil {
			asRuns++
		}
	}
	if len(all) < 7 || asRuns < 3 {
		f.Fatalf("%d patterns, %d of them as runs", len(all), asRuns)
	}
	regexps := map[string]*regexp.Regexp{}
	for text := range all {
		regexps[text] = regexp.MustCompile(text)
	}
	f.Fuzz(func(t *testing.T, s string) {
		for text, p := range all {
			if got, want := p.matches(s), regexps[text].MatchString(s); got != want {
				t.Errorf("%s on %q: %v, want %v", text, s, got, want)
			}
		}
	})
}

// TestRunsOf: only patterns whose runs cannot take from one another are matched
// as runs.
func TestRunsOf(t *testing.T) {
	for pattern, want := range map[string]bool{
		"^[a-z][a-z0-9]*$":   true,
		"^snapgauge/[0-9]+$": true,
		"^[a-z]+[0-9]$":      true,
		"^[a-z]*[a-z]$":      false, // the first run would take all
		"^[a-z]*[0-9]*x$":    false, // so may a run that is left out
		"^(ab)*$":            false,
		"^a|b$":              false,
		"[a-z]+$":            false,
		"^[a-z]+":            false,
		"^[^ ]+$":            false, // beyond ASCII
		"^(?i)ab$":           false,
	} {
		if got := runsOf(pattern) != ""; got != want {
			t.Errorf("%s: %v, want %v", pattern, got, want)
		}
	}
}

// TestIsDay holds the days of 430 years against package time, and what is none.
func TestIsDay(t *testing.T) {
	for year := 1690; year < 2120; year++ {
		for month := range 14 {
			for day := 27; day < 33; day++ {
				s := fmt.Sprintf("%04d-%02d-%02d", year, month, day)
				if _, err := time.Parse(time.DateOnly, s); isDay(s) != (err == nil) {
					t.Errorf("%s: %v, package time says %v", s, isDay(s), err)
				}
			}
		}
	}
	for s, want := range map[string]bool{
		"0000-02-29": true, "2026-03-00": false, "2026-3-02": false, "2026-03-2": false, "2026/03/02": false, "20 6-03-02": false,
		"2026-03-02 ": false, "-026-03-02": false, "2026-03-0x": false, "": false, "２026-03": false,
	} {
		if _, err := time.Parse(time.DateOnly, s); isDay(s) != want || want != (err == nil) {
			t.Errorf("%q: %v, want %v, package time says %v", s, isDay(s), want, err)
		}
	}
}

// TestDecoderAllocates nothing for a record where the last one was made.
func TestDecoderAllocates(t *testing.T) {
	n := mustNode(t, soundTorque, true)
	d := &Decoder{}
	if got := testing.AllocsPerRun(100, func() {
		if d.Record(benchHead); !d.Tree(n) {
			t.Fatal("not sure")
		}
		d.Done()
	}); got != 0 {
		t.Errorf("%v allocations a record, want none", got)
	}
}

// TestDecoderKeeps: a record that is kept does not change when the next one is
// made, and texts of a record outlive it.
func TestDecoderKeeps(t *testing.T) {
	d := &Decoder{}
	read := func(text string) *Record {
		if d.Record(nil); !d.Tree(mustNode(t, text, true)) {
			t.Fatalf("not sure of %s", text)
		}
		_, r := d.Done()
		return r
	}
	kept := read(soundTorque)
	d.Keep()
	other := read(torque(`"tighten": [{"to": "9 N·m"}, {"turn": "90°"}], "caution": ["heat"]`))
	if got := kept.Tighten[0].To.Text() + strings.Join(kept.Caution, " "); got != "71 lbf·inhot-oil stored-energy" {
		t.Errorf("the kept record has %s", got)
	}
	if again := read(soundTorque); again != other {
		t.Error("a record that was not kept is not used again")
	}
}

// TestDecoderIsUnsure: what it gives up on, whoever feeds it.
func TestDecoderIsUnsure(t *testing.T) {
	open := func(d *Decoder) bool { d.Record(nil); return d.Open(false) }
	for name, feed := range map[string]func(d *Decoder) bool{
		"a list for a record":   func(d *Decoder) bool { d.Record(nil); return d.Open(true) },
		"a text for a record":   func(d *Decoder) bool { d.Record(nil); return d.Text("x", false) },
		"a doubled member":      func(d *Decoder) bool { return open(d) && d.Member("id") && d.Text("a", false) && d.Member("id") },
		"a doubled x- member":   func(d *Decoder) bool { return open(d) && d.Member("x-a") && d.Null() && d.Member("x-a") },
		"a null":                func(d *Decoder) bool { return open(d) && d.Member("id") && d.Null() },
		"a blank text":          func(d *Decoder) bool { return open(d) && d.Member("where") && d.Text("\u00a0", false) },
		"an unknown member":     func(d *Decoder) bool { return open(d) && d.Member("colour") },
		"a number that is none": func(d *Decoder) bool { return open(d) && d.Member("x-a") && d.Number("1.") },
		"too deep": func(d *Decoder) bool {
			ok := open(d) && d.Member("x-a")
			for range maxDeep + 1 {
				ok = ok && d.Open(true)
			}
			return ok
		},
		"more own members than can be told": func(d *Decoder) bool {
			ok := open(d)
			for i := range 70 {
				ok = ok && d.Member("x-"+strings.Repeat("a", i)) && d.Truth(true)
			}
			return ok
		},
	} {
		if feed(&Decoder{}) {
			t.Errorf("sure of %s", name)
		}
	}
}
