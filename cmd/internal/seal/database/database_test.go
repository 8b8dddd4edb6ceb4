package database

import (
	"bytes"
	"context"
	"database/sql"
	"os"
	"path/filepath"
	"testing"

	"snapgauge/cmd/internal/seal"
)

func tables(rows int) []*seal.Table {
	state := seal.Column{Name: "state", Type: seal.Text, Required: true, Doc: "The state."}
	a := &seal.Table{
		Name: "a", Doc: "The first.", Key: []string{"n"},
		Columns: []seal.Column{state, {Name: "n", Type: seal.Whole, Required: true, Doc: "A number."}, {Name: "x", Type: seal.Number, Doc: "A value."}},
	}
	b := &seal.Table{
		Name: "b", Doc: "The second.", Key: []string{"n", "place"},
		Columns: []seal.Column{state, {Name: "n", Type: seal.Whole, Required: true, Doc: "A number."}, {Name: "place", Type: seal.Whole, Required: true, Doc: "A place."},
			{Name: "text", Type: seal.Text, Doc: "A text."}, {Name: "yes", Type: seal.Boolean, Required: true, Doc: "A truth."}},
		References: []seal.Reference{{Columns: []string{"n"}, Table: "a", To: []string{"n"}}},
	}
	for i := range int64(rows) {
		a.Rows = append(a.Rows, []any{"release", i, float64(i) / 3})
		b.Rows = append(b.Rows, []any{"release", i, int64(1), "71 lbf·in, \"quoted\"\n", i%2 == 0}, []any{"release", i, int64(2), nil, false})
	}
	return []*seal.Table{a, b}
}

// The same tables make the same bytes, whatever was made before.
func TestWriteSameBytes(t *testing.T) {
	first, err := Write(tables(2000), "release")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := Write(tables(10), "release"); err != nil {
		t.Fatal(err)
	}
	for range 3 {
		again, err := Write(tables(2000), "release")
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(first, again) {
			t.Fatal("the same tables make other bytes")
		}
	}
}

func TestWriteReadBack(t *testing.T) {
	text, err := Write(tables(30), "DRAFT")
	if err != nil {
		t.Fatal(err)
	}
	name := filepath.Join(t.TempDir(), "r.sqlite")
	if err := os.WriteFile(name, text, 0o644); err != nil {
		t.Fatal(err)
	}
	db, err := sql.Open("sqlite", name)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	for query, want := range map[string]string{
		"PRAGMA integrity_check":                                                                 "ok",
		"SELECT count(*) FROM pragma_foreign_key_check":                                          "0",
		"SELECT x FROM a WHERE n = 1":                                                            "0.3333333333333333",
		"SELECT typeof(x) FROM a WHERE n = 3":                                                    "real",
		"SELECT text FROM b WHERE n = 7 AND place = 1":                                           "71 lbf·in, \"quoted\"\n",
		"SELECT typeof(text) FROM b WHERE place = 2":                                             "null",
		"SELECT sum(yes) FROM b":                                                                 "15",
		"SELECT group_concat(DISTINCT state) FROM documentation":                                 "DRAFT",
		"SELECT description FROM documentation WHERE table_name = 'b' AND column_name = 'yes'":   "A truth.",
		"SELECT description FROM documentation WHERE table_name = 'documentation' AND place = 0": "What each table and column holds.",
	} {
		var got string
		if err := db.QueryRowContext(context.Background(), query).Scan(&got); err != nil || got != want {
			t.Errorf("%s: %q %v, want %q", query, got, err, want)
		}
	}
}

// Rows that do not fit are an error.
func TestWriteFails(t *testing.T) {
	for name, change := range map[string]func([]*seal.Table){
		"a key twice": func(ts []*seal.Table) { ts[0].Rows = append(ts[0].Rows, ts[0].Rows[0]) },
		"a row too many": func(ts []*seal.Table) {
			ts[1].Rows = append(ts[1].Rows, []any{"release", int64(99), int64(1), nil, false})
		},
		"no value":          func(ts []*seal.Table) { ts[1].Rows[0][4] = nil },
		"a truth that is 2": func(ts []*seal.Table) { ts[1].Rows[0][4] = int64(2) },
		"a table twice":     func(ts []*seal.Table) { ts[1].Name = "a" },
		"a cell of no kind": func(ts []*seal.Table) { ts[0].Rows[0][1] = struct{}{} },
		"no table to name":  func(ts []*seal.Table) { ts[1].References[0].Table = "c" },
		"a cell too few":    func(ts []*seal.Table) { ts[0].Rows[0] = ts[0].Rows[0][:2] },
	} {
		ts := tables(3)
		change(ts)
		if _, err := Write(ts, "release"); err == nil {
			t.Errorf("%s: written all the same", name)
		}
	}
}

func BenchmarkWrite(b *testing.B) {
	ts := tables(1000)
	for b.Loop() {
		if _, err := Write(ts, "release"); err != nil {
			b.Fatal(err)
		}
	}
}
