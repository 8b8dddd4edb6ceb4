// Package tabletest reads the published tables that the tests of verification
// are held against.
package tabletest

import (
	"encoding/csv"
	"os"
	"testing"
)

// Rows reads a table with a heading, each row by the names of its columns.
// Lines that begin with # are comments.
func Rows(t testing.TB, name string) []map[string]string {
	t.Helper()
	f, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	lines, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []map[string]string
	for _, line := range lines[1:] {
		m := map[string]string{}
		for i, name := range lines[0] {
			m[name] = line[i]
		}
		out = append(out, m)
	}
	return out
}
