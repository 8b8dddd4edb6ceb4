package specs

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"snapgauge/schema"
)

const (
	twoUnits = `{"format":"snapgauge/1.0","machine":{"id":"m"},"id":"a","kind":"torque","where":"cover","tighten":[{"to":["71 lbf·in","8 N·m"]}],"source":{"title":"t","at":"p"}}`
	escapes  = `{"format":"snapgauge\/1.0","machine":{"id":"m"},"id":"\u0062","kind":"torque","where":"cover \"A\"\n\ud83d\udd29","tighten":[{"to":["71 lbf\u00b7in","8 N\u00b7m"]}],"source":{"title":"t","at":"p"}}`
)

// TestLinesReuse: the entry of a line is made where the last one was, unless
// that is kept.
func TestLinesReuse(t *testing.T) {
	var l Lines
	read := func(line string) schema.Entry {
		e, err := l.Read("x.ndjson", line, 10, 3)
		if err != nil || len(e.Problems) > 0 {
			t.Fatalf("%s: %v, %v", line, err, e.Problems)
		}
		return e
	}
	kept := read(twoUnits)
	l.Keep()
	next := read(escapes)
	if got := []string{kept.Record.ID, kept.Record.Tighten[0].To.Text(), kept.Head.Machine.ID}; cmp.Diff([]string{"a", "71 lbf·in", "m"}, got) != "" {
		t.Errorf("the kept entry has %v", got)
	}
	if got := []string{next.Record.ID, next.Record.Where, next.Record.Tighten[0].To.Text()}; cmp.Diff([]string{"b", "cover \"A\"\n🔩", "71 lbf·in"}, got) != "" {
		t.Errorf("escapes are read as %q", got)
	}
	unit := schema.Spot{Path: schema.At("tighten", 0, "to", 1), From: 2, To: len("8 N·m")}
	if got := kept.Locate(unit).Start; got != (schema.Position{Line: 3, Column: 122}) {
		t.Errorf("the unit of the kept entry is at %v", got)
	}
	if got := next.Locate(unit).Start; got != (schema.Position{Line: 3, Column: strings.Index(escapes, `N\u00b7m"`) + 1}) {
		t.Errorf("the unit of the other is at %v", got)
	}
	if again := read(twoUnits); again.Record != next.Record {
		t.Error("the memory of a record that was not kept is not used again")
	}
}

// TestLinesAllocate nothing for a sound line.
func TestLinesAllocate(t *testing.T) {
	var l Lines
	for _, line := range []string{twoUnits, strings.TrimSpace(string(benchLines(1)))} {
		if got := testing.AllocsPerRun(200, func() {
			if _, err := l.Read("x.ndjson", line, 1, 1); err != nil {
				t.Fatal(err)
			}
		}); got != 0 {
			t.Errorf("%v allocations, want none: %s", got, line)
		}
	}
}

// TestReuse: with Reuse a file gives the same entries, each in its turn.
func TestReuse(t *testing.T) {
	for _, file := range []struct{ name, src string }{
		{"x.ndjson", string(benchLines(3)) + "{}\n" + twoUnits},
		{"x.yaml", string(benchYAML(3))},
	} {
		keep := entriesOf(Reader{}.Read(file.name, strings.NewReader(file.src)))
		i := 0
		for e, err := range (Reader{Reuse: true}).Read(file.name, strings.NewReader(file.src)) {
			one := entriesOf(func(yield func(schema.Entry, error) bool) { yield(e, err) })
			if d := cmp.Diff(keep[i:i+1], one, everything); d != "" {
				t.Errorf("%s: (-keep +reuse)\n%s", file.name, d)
			}
			i++
		}
		if i != len(keep) {
			t.Errorf("%s: %d entries, want %d", file.name, i, len(keep))
		}
	}
}

// TestUnsureJSON: what the quick way leaves to the plain way, sound or not.
func TestUnsureJSON(t *testing.T) {
	line := func(member string) string { return strings.Replace(twoUnits, `"id":"a"`, `"id":"a",`+member, 1) }
	for member, want := range map[string]bool{
		`"x-a":[1,-2.5,0,true,false,null,{},[],{"b":"\t"}]`: true,
		`"x-a": { "b" : [ 1 , 2 ] } `:                       true,
		`"x-a":1e5`:                                         false,
		`"x-a":01`:                                          false,
		`"x-a":1.`:                                          false,
		`"x-a":-`:                                           false,
		`"x-a":+1`:                                          false,
		`"x-a":1 2`:                                         false,
		`"x-a":[1 2]`:                                       false,
		`"x-a":[1,]`:                                        false,
		`"x-a":{"b":1,}`:                                    false,
		`"x-a":{"b" 1}`:                                     false,
		`"x-a":{b:1}`:                                       false,
		`"x-a":[`:                                           false,
		`"x-a":{`:                                           false,
		`"x-a":tru`:                                         false,
		`"x-a":"\ud83d"`:                                    false,
		`"x-a":"\ud83d\u0041"`:                              false,
		`"x-a":"\q"`:                                        false,
		`"x-a":"\u00g0"`:                                    false,
		`"x-a":"\n` + "\n" + `"`:                            false,
		`"x-a":"` + "\xff" + `"`:                            false,
		`"x-a":"\n` + "\xff" + `"`:                          false,
		`"x-a":"` + "\t" + `"`:                              false,
		`"x-a":{"b":1,"\u0062":2}`:                          false,
		`"x-a":` + strings.Repeat("[", 59) + strings.Repeat("]", 59): true,
		`"x-a":` + strings.Repeat("[", 61) + strings.Repeat("]", 61): false,
	} {
		if got := sureOf(line(member)); got != want {
			t.Errorf("%s: sure %v, want %v", member, got, want)
		}
		bothWays(t, "x.ndjson", strings.ReplaceAll(line(member), "\n", ""))
	}
	for _, line := range []string{"", " ", twoUnits + "x", twoUnits[:len(twoUnits)-1], strings.Replace(twoUnits, "1.0", "1.01", 1), "[]", `"a"`} {
		if sureOf(line) {
			t.Errorf("sure of %s", line)
		}
	}
	if !sureOf(" " + twoUnits + "\t") {
		t.Error("not sure where blanks stand around it")
	}
}

// FuzzPlainBytes holds the count of plain bytes against one byte at a time.
func FuzzPlainBytes(f *testing.F) {
	for _, s := range []string{"", "abc", `abcdefg"`, `abcdefgh"`, "abcdefghijk\\", "12345678\x1f", "\x7f\x7f\x7f\x7f\x7f\x7f\x7f\x80", "        ·", "!!!!!!!!!#######[]"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		want := 0
		for want < len(s) && s[want] >= ' ' && s[want] < 0x80 && s[want] != '"' && s[want] != '\\' {
			want++
		}
		if got := plainBytes(s); got != want {
			t.Errorf("%q: %d plain bytes, want %d", s, got, want)
		}
	})
}
