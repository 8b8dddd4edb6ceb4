package trial_test

import (
	"os"
	"path/filepath"
	"testing"

	"snapgauge/schema"
	"snapgauge/specs"
)

// demo yields the records of the demo books.
func demo(t testing.TB) func(func(schema.Entry) bool) {
	files, err := filepath.Glob("../../specs/demo/*")
	if err != nil || len(files) == 0 {
		t.Fatal(files, err)
	}
	return func(yield func(schema.Entry) bool) {
		for _, file := range files {
			f, err := os.Open(file)
			if err != nil {
				t.Fatal(err)
			}
			defer f.Close()
			for e, err := range specs.Read(file, f) {
				if err != nil {
					t.Fatal(err)
				}
				if !yield(e) {
					return
				}
			}
		}
	}
}
