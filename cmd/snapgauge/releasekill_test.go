package main

import (
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"snapgauge/specs/release"
)

// TestReleaseKilled kills release at random points, 40 times, or 200 times with
// SNAPGAUGE_WHOLE=1, over a folder and over a .zip in turn. Whatever the point, the
// old release is there, or the new one, and whole; and in the end nothing else is.
func TestReleaseKilled(t *testing.T) {
	t.Parallel()
	if testing.Short() {
		t.Skip("dozens of processes")
	}
	kills := 40
	if os.Getenv("SNAPGAUGE_WHOLE") != "" {
		kills = 200
	}
	folder := countersigned(t, "kedge-5.yaml")
	dir := t.TempDir()
	outs := []string{filepath.Join(dir, "kept"), filepath.Join(dir, "kept.zip")}
	args := func(out string, edition int) []string {
		return []string{"release", folder, "-o", out, "--edition", fmt.Sprint(edition)}
	}
	standing := map[string]int{}
	begun := time.Now()
	for _, out := range outs {
		mustRun(t, exitGoes, args(out, 1)...)
		standing[out] = 1
	}
	usual := time.Since(begun) / 2
	r := rand.New(rand.NewPCG(21, 0))
	start := time.Now()
	olds, news, midst, late := 0, 0, 0, 0
	for n := range kills {
		out := outs[n%2]
		edition := n + 2
		cmd := exec.Command("snapgauge", args(out, edition)...)
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		if n%4 < 2 { // anywhere
			time.Sleep(time.Duration(r.Int64N(int64(3 * usual))))
		} else { // while it writes
			_, before := countGlob(dir)
			for range 5000 {
				if _, now := countGlob(dir); !slices.Equal(before, now) && len(now) > 0 {
					break
				}
				time.Sleep(50 * time.Microsecond)
			}
			time.Sleep(time.Duration(r.Int64N(int64(8 * time.Millisecond))))
		}
		_ = cmd.Process.Kill()
		if cmd.Wait() == nil {
			late++
		}
		if left, _ := countGlob(dir); left > 0 {
			midst++
		}
		now, err := editionOf(out)
		switch {
		case err != nil:
			t.Fatalf("kill %d of %s: %v", n, out, err)
		case now == fmt.Sprint(standing[out]):
			olds++
		case now == fmt.Sprint(edition):
			news++
			standing[out] = edition
		default:
			t.Fatalf("kill %d of %s: edition %s, want %d or %d", n, out, now, standing[out], edition)
		}
	}
	for _, out := range outs {
		mustRun(t, exitGoes, args(out, 9999)...)
		if now, err := editionOf(out); err != nil || now != "9999" {
			t.Errorf("%s: edition %s %v", out, now, err)
		}
	}
	if n, names := countGlob(dir); n > 0 {
		t.Errorf("left behind: %v", names)
	}
	t.Logf("%d kills in %s (a run takes %s): %d with the old release, %d with the new one; %d too late, %d left something half behind",
		kills, time.Since(start).Round(time.Millisecond), usual.Round(time.Millisecond), olds, news, late, midst)
	if midst < kills/10 {
		t.Errorf("%d kills in the midst of writing, too few to prove anything", midst)
	}
}

func countGlob(dir string) (int, []string) {
	names, _ := filepath.Glob(filepath.Join(dir, ".kept*"))
	return len(names), names
}

// editionOf verifies a release and returns its edition.
func editionOf(out string) (string, error) {
	r, err := release.Open(out)
	if err != nil {
		return "", err
	}
	defer r.Close()
	return r.Manifest.Edition, r.Verify()
}
