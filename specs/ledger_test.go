package specs

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"

	"snapgauge/schema"
)

func sign(id string) schema.Countersign {
	return schema.Countersign{ID: id, Fingerprint: "f1:" + id, By: "JT", Date: "2026-06-01"}
}

const bareLine = `{"id":"a","fingerprint":"f1:a","by":"JT","date":"2026-06-01"}`

func TestReadLedger(t *testing.T) {
	a := sign("a")
	full := a
	full.Machine, full.Figures, full.Members = "m", map[string]string{"/new": "8 <9> N·m"}, map[string]string{"new": "0123abcd"}
	line, err := ledgerLine(full)
	if err != nil {
		t.Fatal(err)
	}
	tests := []struct {
		name, text string
		want       []schema.Countersign
		bad        []string
	}{
		{"empty", "", nil, nil},
		{"the members that count", bareLine + "\n", []schema.Countersign{a}, nil},
		{"all members", string(line), []schema.Countersign{full}, nil},
		{"members of others, blanks, CRLF", "\r\n \n" + strings.Replace(bareLine, "{", `{"x-place":"bay 2",`, 1) + "\r\n", []schema.Countersign{a}, nil},
		{"without the last line feed", bareLine + "\n" + bareLine, []schema.Countersign{a, a}, nil},
		{"a line never finished", bareLine + "\n" + `{"id":"b","fingerp`, []schema.Countersign{a}, nil},
		{"a line never begun", bareLine + "\n{", []schema.Countersign{a}, nil},
		{"half a line with others behind it", `{"id":"b","fing` + "\n" + bareLine + "\n", []schema.Countersign{a}, []string{"l:1:1: no line of a ledger: unexpected end of JSON input"}},
		{"half a line that ends", bareLine + "\n" + `{"id":"b","fing` + "\n", []schema.Countersign{a}, []string{"l:2:1: no line of a ledger: unexpected end of JSON input"}},
		{"other text at the end", bareLine + "\n>>>>>>> theirs", []schema.Countersign{a}, []string{"l:2:1: no line of a ledger: invalid character '>' looking for beginning of value"}},
		{"a member missing", `{"id":"a","fingerprint":"f1:a","date":"2026-06-01"}` + "\n" + bareLine, []schema.Countersign{a},
			[]string{"l:1:1: a line of a ledger has id, fingerprint, by and date; by is missing"}},
		{"not UTF-8", "\xff\n" + bareLine, []schema.Countersign{a}, []string{"l:1:1: byte 0xFF is not UTF-8; save the file as UTF-8"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, faults, err := ReadLedger("l", strings.NewReader(tt.text))
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(tt.want, got); diff != "" {
				t.Errorf("lines (-want +got):\n%s", diff)
			}
			var bad []string
			for _, f := range faults {
				bad = append(bad, f.Error())
			}
			if diff := cmp.Diff(tt.bad, bad); diff != "" {
				t.Errorf("faults (-want +got):\n%s", diff)
			}
		})
	}
}

func TestReadLedgerFails(t *testing.T) {
	broken := errors.New("the disk is gone")
	if _, _, err := ReadLedger("l", failingReader{broken}); !errors.Is(err, broken) {
		t.Errorf("error %v, want %v", err, broken)
	}
}

type failingReader struct{ err error }

func (f failingReader) Read([]byte) (int, error) { return 0, f.err }

// What stands in a ledger stays, and the new line stands behind it as a whole.
func TestAppendLedger(t *testing.T) {
	want := strings.Replace(bareLine, `"a"`, `"b"`, 1)
	want = strings.Replace(want, "f1:a", "f1:b", 1) + "\n"
	tests := []struct{ name, before, kept string }{
		{"no ledger yet", "", ""},
		{"a line", bareLine + "\n", bareLine + "\n"},
		{"a line without its end", bareLine, bareLine + "\n"},
		{"a line never finished", bareLine + "\n" + `{"id":"c","finger`, bareLine + "\n"},
		{"nothing but one", `{"id":"c","finger`, ""},
		{"text of others", "# note", "# note\n"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			name := filepath.Join(t.TempDir(), Ledger)
			if tt.before != "" {
				if err := os.WriteFile(name, []byte(tt.before), 0o640); err != nil {
					t.Fatal(err)
				}
			}
			if err := AppendLedger(name, sign("b")); err != nil {
				t.Fatal(err)
			}
			got, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(tt.kept+want, string(got)); diff != "" {
				t.Errorf("-want +got:\n%s", diff)
			}
		})
	}
	if err := AppendLedger(filepath.Join(t.TempDir(), "no", Ledger), sign("b")); err == nil {
		t.Error("a ledger in a folder that is not there was written")
	}
}

// Many who append at once lose no line and mix none.
func TestAppendLedgerTogether(t *testing.T) {
	name := filepath.Join(t.TempDir(), Ledger)
	const people, each = 8, 10
	var all sync.WaitGroup
	for p := range people {
		all.Go(func() {
			for i := range each {
				c := sign(fmt.Sprintf("p%d-%d", p, i))
				c.Figures = map[string]string{"/new": strings.Repeat("8 N·m, ", 200)}
				if err := AppendLedger(name, c); err != nil {
					t.Error(err)
				}
			}
		})
	}
	all.Wait()
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	lines, bad, err := ReadLedger(name, bytes.NewReader(text))
	if err != nil || len(bad) > 0 {
		t.Fatal(err, bad)
	}
	next := map[string]int{}
	for _, c := range lines {
		var p, i int
		if _, err := fmt.Sscanf(c.ID, "p%d-%d", &p, &i); err != nil {
			t.Fatal(err)
		}
		if key := fmt.Sprint(p); next[key] == i {
			next[key]++
		}
	}
	for p := range people {
		if n := next[fmt.Sprint(p)]; n != each {
			t.Errorf("of person %d %d lines in their order, want %d", p, n, each)
		}
	}
}

// FuzzReadLedger: whatever is cut off a ledger or put into it, every line that
// stands whole is read, and each fault lies in the file.
func FuzzReadLedger(f *testing.F) {
	for _, s := range []string{"", bareLine, bareLine + "\n", `{"id":"b","fing`, "\xff\n{}\n[1]\nnull", "\x00"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		text := bareLine + "\n" + s + "\n" + bareLine + "\n"
		lines, bad, err := ReadLedger("l", strings.NewReader(text))
		if err != nil {
			t.Fatal(err)
		}
		if len(lines) < 2 || lines[0].ID != "a" || lines[len(lines)-1].ID != "a" {
			t.Errorf("lines %v", lines)
		}
		for _, u := range bad {
			if n := u.Span.Start.Line; n < 1 || n > strings.Count(text, "\n")+1 {
				t.Errorf("fault on line %d", n)
			}
		}
	})
}

func BenchmarkReadLedger(b *testing.B) {
	text := strings.Repeat(bareLine+"\n", 1000)
	for b.Loop() {
		if lines, _, err := ReadLedger("l", strings.NewReader(text)); err != nil || len(lines) != 1000 {
			b.Fatal(err)
		}
	}
}
