package report

import (
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// Every line can be had, in whatever order, as a plain split gives it.
func TestLines(t *testing.T) {
	var lines []string
	for i := range 3*stride + 7 {
		lines = append(lines, fmt.Sprintf("line %d %s", i+1, strings.Repeat("°", i%50)))
	}
	for _, end := range []string{"\n", "\r\n"} {
		l := files(map[string]string{
			"big":   strings.Join(lines, end),
			"other": "\ufeffone" + end + end + "three" + end,
		})
		r := rand.New(rand.NewPCG(1, 1))
		for i := range 2000 {
			n := 1 + r.IntN(len(lines))
			if i < 600 {
				n = min(1+i*2, len(lines))
			}
			if got, ok := l.Line("big", n); !ok || got != lines[n-1] {
				t.Fatalf("line %d: got %q, %v, want %q", n, got, ok, lines[n-1])
			}
			if i%100 == 0 {
				if got, ok := l.Line("other", 1); !ok || got != "one" {
					t.Fatalf("line 1 of the other: %q, %v", got, ok)
				}
			}
		}
		for n, want := range []string{"one", "", "three"} {
			if got, ok := l.Line("other", n+1); !ok || got != want {
				t.Errorf("line %d: got %q, %v, want %q", n+1, got, ok, want)
			}
		}
		for _, n := range []int{0, -1, 4, 5, 5000} {
			if got, ok := l.Line("other", n); ok {
				t.Errorf("line %d of three: %q", n, got)
			}
		}
		l.Close()
	}
}

func TestLinesMissing(t *testing.T) {
	if got, ok := new(Lines).Line("no such file", 1); ok {
		t.Errorf("got %q from no file", got)
	}
	bad := &Lines{Open: func(string) (io.ReadSeekCloser, error) { return noSeek{strings.NewReader("a\nb\n")}, nil }}
	if got, ok := bad.Line("x", 2); !ok || got != "b" {
		t.Errorf("line 2: %q, %v", got, ok)
	}
	if got, ok := bad.Line("x", 1); ok {
		t.Errorf("line 1 after a failed seek: %q", got)
	}
}

type noSeek struct{ io.Reader }

func (noSeek) Seek(int64, int) (int64, error) { return 0, io.ErrUnexpectedEOF }
func (noSeek) Close() error                   { return nil }

// A line without end is cut, and what is no UTF-8 is shown as such.
func TestLinesOdd(t *testing.T) {
	l := files(map[string]string{"f": "a\xffb\n" + strings.Repeat("x", 3*longLine) + "\nlast"})
	if got, _ := l.Line("f", 1); got != "a\ufffdb" {
		t.Errorf("got %q", got)
	}
	if got, _ := l.Line("f", 2); len(got) != longLine {
		t.Errorf("got %d bytes, want %d", len(got), longLine)
	}
	if got, _ := l.Line("f", 3); got != "last" {
		t.Errorf("got %q", got)
	}
}

func TestExcerpt(t *testing.T) {
	long := strings.Repeat("0123456789", 40)
	tests := []struct {
		name, line         string
		from, to           int // columns
		text, indent, mark string
	}{
		{"plain", "to: 6 N·m", 5, 10, "to: 6 N·m", "    ", "^^^^^"},
		{"tab kept", "\tto:\t6", 6, 7, "\tto:\t6", "\t   \t", "^"},
		{"wide characters", "締付: 六 N", 5, 8, "締付: 六 N", "      ", "^^^^"},
		{"combining mark", "a\u0301: 6", 5, 6, "a\u0301: 6", "   ", "^"},
		{"empty stretch", "to:", 4, 4, "to:", "   ", "^"},
		{"end beyond the line", "to: 6", 5, 99, "to: 6", "    ", "^"},
		{"nothing but a combining mark", "a\u0301", 2, 3, "a\u0301", " ", "^"},
		{"early in a long line", long, 3, 5, long[:100] + "…", "  ", "^^"},
		{"late in a long line", long, 398, 400, "…" + long[300:], strings.Repeat(" ", 98), "^^"},
		{"in the middle", long, 201, 203, "…" + long[151:251] + "…", strings.Repeat(" ", 50), "^^"},
		{"longer than can be shown", long, 201, 391, "…" + long[190:290] + "…", strings.Repeat(" ", 11), strings.Repeat("^", 90)},
	}
	for _, c := range tests {
		text, indent, mark, ok := excerpt(c.line, span(1, c.from, 1, c.to))
		if !ok || text != c.text || indent != c.indent || mark != c.mark {
			t.Errorf("%s: got\n%q\n%q\n%q, want\n%q\n%q\n%q", c.name, text, indent, mark, c.text, c.indent, c.mark)
		}
	}
	if _, _, mark, ok := excerpt("to: {", span(1, 5, 3, 2)); !ok || mark != "^" {
		t.Errorf("over several lines: %q, %v", mark, ok)
	}
	if _, _, _, ok := excerpt("to", span(1, 9, 1, 10)); ok {
		t.Error("a place beyond the line was shown")
	}
}

func TestRuneWidth(t *testing.T) {
	for r, want := range map[rune]int{'a': 1, 'µ': 1, 'Ω': 1, '°': 1, '·': 1, '\u0301': 0, '漢': 2, 'Ａ': 2, '\u200b': 0, '🔧': 2} {
		if got := runeWidth(r); got != want {
			t.Errorf("%q: got %d, want %d", r, got, want)
		}
	}
}

// Whatever stands in a line, the mark fits below what is shown.
func FuzzExcerpt(f *testing.F) {
	f.Add("to: [71 lbf·in, 6 N·m]", 6, 14)
	f.Add("\t\u0301漢\x00", 1, 9)
	f.Add(strings.Repeat("x", 300), 280, 290)
	f.Fuzz(func(t *testing.T, line string, from, to int) {
		text, indent, mark, ok := excerpt(line, span(1, from, 1, to))
		if !ok {
			return
		}
		width := func(s string) (n int) {
			for _, r := range s {
				n += runeWidth(r)
			}
			return n
		}
		if mark == "" || width(indent)+width(mark) > width(text)+1 || strings.ContainsAny(text, "\x1b\n\r") {
			t.Errorf("%q %d %d:\n%q\n%q%q", line, from, to, text, indent, mark)
		}
	})
}

// A copy of what comes through a pipe grows while its lines are asked for: a line
// that has no end yet is not taken for a whole one.
func TestLinesGrow(t *testing.T) {
	name := filepath.Join(t.TempDir(), "copy")
	grow := func(text string) {
		f, err := os.OpenFile(name, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o600)
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		if _, err := f.WriteString(text); err != nil {
			t.Fatal(err)
		}
	}
	var l Lines
	defer l.Close()
	want := func(n int, text string) {
		t.Helper()
		if got, ok := l.Line(name, n); got != text || ok != (text != "") {
			t.Errorf("line %d is %q, %v, want %q", n, got, ok, text)
		}
	}
	grow("one\ntwo\nthr")
	want(3, "thr")
	want(3, "thr")
	want(4, "")
	grow("ee\nfour\nfive")
	want(4, "four")
	want(3, "three")
	want(2, "two")
	want(5, "five")
	want(4, "four")
	want(5, "five")
	want(6, "")
}
