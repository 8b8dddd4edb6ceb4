package sample_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"strings"
	"testing"

	"snapgauge/cmd/internal/sample"
	"snapgauge/schema"
	"snapgauge/specs"
	"snapgauge/verify"
	"snapgauge/verify/rule"
)

func write(t *testing.T, opt sample.Options) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := sample.Write(&b, opt); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// findings are what all checks say of a book.
func findings(t *testing.T, book []byte) (found []rule.Finding) {
	t.Helper()
	entries := func(yield func(schema.Entry) bool) {
		for e, err := range specs.Read("book.ndjson", bytes.NewReader(book)) {
			if err != nil {
				t.Fatal(err)
			}
			if !yield(e) {
				return
			}
		}
	}
	err := verify.Run(entries, verify.Options{}, func(f rule.Finding) bool {
		found = append(found, f)
		return true
	})
	if err != nil {
		t.Fatal(err)
	}
	return found
}

// The records have the sizes and kinds that measurements are asked of, ids of
// their own, and nothing that any check speaks of.
func TestValid(t *testing.T) {
	const n = 8_000
	book := write(t, sample.Options{Records: n, Seed: 7})
	for _, f := range findings(t, book) {
		t.Errorf("%v: %s [%s]", f.Place, f.Message, f.Check)
	}
	kinds, ids, machines := map[string]int{}, map[string]bool{}, map[string]bool{}
	for line := range bytes.Lines(book) {
		if len(line) < 350 || len(line) > 600 {
			t.Errorf("%d bytes, want 350 to 600: %s", len(line), line)
		}
		var rec struct {
			ID, Kind string
			Machine  struct{ ID string }
		}
		if err := json.Unmarshal(line, &rec); err != nil {
			t.Fatalf("%v in %s", err, line)
		}
		kinds[rec.Kind]++
		ids[rec.ID], machines[rec.Machine.ID] = true, true
	}
	if len(ids) != n || len(machines) != n/200 {
		t.Errorf("%d ids of %d machines, want %d of %d", len(ids), len(machines), n, n/200)
	}
	for kind, want := range map[string]float64{"torque": 0.7, "fill": 0.15, "tolerance": 0.15} {
		if got := float64(kinds[kind]) / n; got < want-0.02 || got > want+0.02 {
			t.Errorf("%s: a share of %.3f, want %.2f", kind, got, want)
		}
	}
}

func TestSeed(t *testing.T) {
	opt := sample.Options{Records: 1000, Faulty: 0.05, Seed: 7}
	if !bytes.Equal(write(t, opt), write(t, opt)) {
		t.Error("one seed gives two books")
	}
	other := opt
	other.Seed = 8
	if bytes.Equal(write(t, opt), write(t, other)) {
		t.Error("two seeds give one book")
	}
}

// Each faulty record is found, and about as many are faulty as were asked for.
func TestFaulty(t *testing.T) {
	const n = 4000
	book := write(t, sample.Options{Records: n, Faulty: 0.1, Seed: 7})
	said, lines := map[string]int{}, map[int]bool{}
	for _, f := range findings(t, book) {
		if f.Verdict < rule.Query {
			continue
		}
		said[f.Check]++
		lines[f.Place.Span.Start.Line] = true
	}
	if len(lines) < n*8/100 || len(lines) > n*12/100 {
		t.Errorf("%d records are found, want about %d", len(lines), n/10)
	}
	for _, check := range []string{"unknown-field", "missing-field", "wrong-value", "values-disagree", "doubled-id"} {
		if said[check] < 10 {
			t.Errorf("%s spoke %d times; what was said: %v", check, said[check], said)
		}
	}
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("disk full") }

func TestWriteFails(t *testing.T) {
	for _, n := range []int{1, 1000} {
		if err := sample.Write(full{}, sample.Options{Records: n}); err == nil || !strings.Contains(err.Error(), "disk full") {
			t.Errorf("%d records: %v, want the error of the disk", n, err)
		}
	}
}

type memory struct{ bytes.Buffer }

func (*memory) Close() error { return nil }

// The files hold the records of the lines, as valid and as silent.
func TestWriteFiles(t *testing.T) {
	files := map[string]*memory{}
	create := func(name string) (io.WriteCloser, error) {
		files[name] = &memory{}
		return files[name], nil
	}
	if err := sample.WriteFiles(create, sample.Options{Records: 400, Seed: 7}); err != nil {
		t.Fatal(err)
	}
	records := 0
	entries := func(yield func(schema.Entry) bool) {
		for name, f := range files {
			for e, err := range specs.Read(name, f) {
				if err != nil {
					t.Fatal(err)
				}
				if !e.HeadOnly {
					records++
				}
				if !yield(e) {
					return
				}
			}
		}
	}
	err := verify.Run(entries, verify.Options{}, func(f rule.Finding) bool {
		t.Errorf("%v: %s [%s]", f.Place, f.Message, f.Check)
		return true
	})
	if err != nil || records != 400 || len(files) != 20 {
		t.Errorf("%v; %d records in %d files, want 400 in 20", err, records, len(files))
	}
	for _, err := range []error{
		sample.WriteFiles(func(string) (io.WriteCloser, error) { return nil, errors.New("disk full") }, sample.Options{Records: 1}),
		sample.WriteFiles(func(string) (io.WriteCloser, error) { return torn{}, nil }, sample.Options{Records: 1}),
	} {
		if err == nil || !strings.Contains(err.Error(), "disk full") {
			t.Errorf("%v, want the error of the disk", err)
		}
	}
}

type torn struct{ full }

func (torn) Close() error { return nil }
