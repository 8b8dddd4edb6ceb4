package main

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"snapgauge/cmd/internal/audit"
	"snapgauge/specs/release"
)

// filesIn reads a folder of a release.
func filesIn(t *testing.T, folder string) map[string][]byte {
	t.Helper()
	files := map[string][]byte{}
	err := filepath.WalkDir(folder, func(name string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		rel, err := filepath.Rel(folder, name)
		if err != nil {
			return err
		}
		files[filepath.ToSlash(rel)], err = os.ReadFile(name)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

// isAuthored tells of a file what cannot be made anew.
func isAuthored(name string) bool {
	return strings.HasPrefix(name, "authored") || name == release.KeyFile || name == release.SignatureFile
}

// TestAuditBytes changes single bytes of a release, 200 times, or 2000 times with
// SNAPGAUGE_WHOLE=1: in a .zip and in a folder, signed and not. Each is named: the
// file, or the part of the .zip, and, where what stood there follows from the
// authored files, the byte. Half of the bytes are drawn from all, and half from a
// part drawn first, so that the small ones have their turn.
func TestAuditBytes(t *testing.T) {
	t.Parallel()
	samples := 200
	if os.Getenv("SNAPGAUGE_WHOLE") != "" {
		samples = 2000
	}
	if raced || testing.Short() {
		samples = 60
	}
	folder := countersigned(t, "kedge-5.yaml", "bailer-22.ndjson")
	secret, _ := testKey(t, "shop")
	out := t.TempDir()
	r := rand.New(rand.NewPCG(5, 0))
	start := time.Now()
	made := 0
	for _, signed := range []bool{true, false} {
		args := []string{"release", folder, "--edition", "2026-06"}
		if signed {
			args = append(args, "--key", secret)
		}
		name := filepath.Join(out, fmt.Sprint("r", signed))
		mustRun(t, exitGoes, append(args, "-o", name)...)
		files := filesIn(t, name)
		var zipped bytes.Buffer
		stretches, err := release.Zip(&zipped, files)
		if err != nil {
			t.Fatal(err)
		}
		a := newAuditor()
		names := namesOf(files)
		for range samples / 4 {
			made++
			part := names[r.IntN(len(names))]
			if r.IntN(2) == 0 {
				part = byWeight(r, names, func(n string) int { return len(files[n]) })
			}
			at := r.IntN(len(files[part]))
			changed := slices.Clone(files[part])
			changed[at] ^= byte(1 + r.IntN(255))
			file := filepath.Join(name, filepath.FromSlash(part))
			if err := os.WriteFile(file, changed, 0o644); err != nil {
				t.Fatal(err)
			}
			got, err := a.Audit(name, "")
			if err != nil {
				t.Errorf("folder, signed %v: %s byte %d, %q to %q: %v", signed, part, at, files[part][at], changed[at], err)
			} else if !namesByte(got, part, part, int64(at), int64(at)) {
				t.Errorf("folder, signed %v: %s byte %d, %q to %q is not named: %v", signed, part, at, files[part][at], changed[at], got.Faults)
			}
			if err := os.WriteFile(file, files[part], 0o644); err != nil {
				t.Fatal(err)
			}
		}
		raw := zipped.Bytes()
		zip := name + ".zip"
		for range samples / 4 {
			made++
			s := stretches[r.IntN(len(stretches))]
			at := s.From + r.Int64N(s.To-s.From)
			if r.IntN(2) == 0 {
				at = r.Int64N(int64(len(raw)))
				s = stretches[slices.IndexFunc(stretches, func(s release.Stretch) bool { return at < s.To })]
			}
			changed := slices.Clone(raw)
			changed[at] ^= byte(1 + r.IntN(255))
			if err := os.WriteFile(zip, changed, 0o644); err != nil {
				t.Fatal(err)
			}
			got, err := a.Audit(zip, "")
			if err != nil {
				t.Errorf(".zip, signed %v: byte %d (%s), %q to %q: %v", signed, at, s.What, raw[at], changed[at], err)
			} else if !namesByte(got, s.File, s.What, at-s.From, at) {
				t.Errorf(".zip, signed %v: byte %d (%s, %d), %q to %q is not named: %v", signed, at, s.What, at-s.From, raw[at], changed[at], got.Faults)
			}
		}
		if got, err := a.Audit(name, ""); err != nil || !got.Intact() {
			t.Errorf("put back as it was: %v %v", err, got.Faults)
		}
	}
	t.Logf("%d bytes changed in %s", made, time.Since(start).Round(time.Millisecond))
}

func namesOf(files map[string][]byte) []string {
	var names []string
	for name := range files {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}

func byWeight(r *rand.Rand, names []string, weight func(string) int) string {
	total := 0
	for _, n := range names {
		total += weight(n)
	}
	at := r.IntN(total)
	for _, n := range names {
		if at -= weight(n); at < 0 {
			return n
		}
	}
	return ""
}

// namesByte reports that an audit names a changed byte: of a file at an offset in
// it, or of a part of a .zip at an offset in that; and nothing but its file.
func namesByte(got *audit.Result, file, part string, inFile, inZip int64) bool {
	if len(got.Faults) != 1 {
		return false
	}
	f := got.Faults[0]
	if file != "" && f.Part == file {
		return f.Offset == inFile || isAuthored(file) && f.Offset < 0
	}
	return f.Part == part && f.Offset == inZip
}
