package main

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"snapgauge/specs"
)

// killed is what a run of countersign had said of itself when it was killed.
type killed struct {
	said  map[string]bool // ids of which it said that they were countersigned
	whole bool            // it came to its end
}

// killCountersign runs countersign over records and kills it a while after it has
// said of so many that they are countersigned.
func killCountersign(t *testing.T, book string, ids []string, by string, many int, while time.Duration) killed {
	t.Helper()
	args := append([]string{"countersign", book}, ids...)
	cmd := exec.Command("snapgauge", append(args, "--by", by, "--date", "2026-06-01")...)
	cmd.Stdin = strings.NewReader(strings.Repeat("y\n", len(ids)))
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	k := killed{said: map[string]bool{}}
	kill := func() {
		if len(k.said) == many {
			time.AfterFunc(while, func() { _ = cmd.Process.Kill() })
			many = -1
		}
	}
	in := bufio.NewScanner(out)
	kill()
	for in.Scan() {
		line := strings.TrimPrefix(in.Text(), countersignQuestion)
		if id, ok := strings.CutSuffix(line, ": countersigned by "+by); ok {
			k.said[id] = true
			kill()
		}
	}
	k.whole = cmd.Wait() == nil
	return k
}

// TestCountersignKilled kills countersign at random points, 40 times, or 200 times with
// SNAPGAUGE_WHOLE=1. Whatever it has said to be countersigned stands in the ledger, nothing that stood there is lost, and no
// line is half.
func TestCountersignKilled(t *testing.T) {
	t.Parallel()
	if testing.Short() {
		t.Skip("dozens of processes")
	}
	const records = 40
	kills := 40
	if os.Getenv("SNAPGAUGE_WHOLE") != "" {
		kills = 200
	}
	r := rand.New(rand.NewPCG(20, 0))
	start := time.Now()
	folder := t.TempDir()
	book := filepath.Join(folder, "book.ndjson")
	var ids []string
	var text strings.Builder
	for i := range records {
		id := fmt.Sprintf("screw-%d", i)
		ids = append(ids, id)
		fmt.Fprintf(&text, `{"format":"snapgauge/1.0","machine":{"id":"m","name":"M"},"id":%q,"kind":"torque","where":"cover",`+
			`"tighten":[{"to":["%d N·m"]}],"source":{"title":"Manual","at":"page 1"},"entered":{"by":"RM"}}`+"\n", id, 20+i)
	}
	if err := os.WriteFile(book, []byte(text.String()), 0o644); err != nil {
		t.Fatal(err)
	}
	ledger := filepath.Join(folder, specs.Ledger)
	begun := time.Now()
	if k := killCountersign(t, book, ids, "first", -1, 0); !k.whole || len(k.said) != records {
		t.Fatalf("not killed, and only %d countersigned", len(k.said))
	}
	usual := time.Since(begun)
	each := time.Millisecond // about what one record takes

	var before []byte
	ended, signed, torn := 0, 0, 0
	for n := range kills {
		by := fmt.Sprintf("p%d", n)
		if n%10 == 9 { // a ledger of its own, so that it stays small, and begins to be
			if err := os.Remove(ledger); err != nil {
				t.Fatal(err)
			}
			before = nil
		}
		k := killCountersign(t, book, ids, by, r.IntN(records), time.Duration(r.Int64N(int64(each))))
		after, err := os.ReadFile(ledger)
		if err != nil && !os.IsNotExist(err) {
			t.Fatal(err)
		}
		if !bytes.HasPrefix(after, before) {
			t.Fatalf("kill %d: what stood in the ledger is lost", n)
		}
		if len(after) > 0 && after[len(after)-1] != '\n' {
			torn++
			t.Errorf("kill %d: the last line is half", n)
		}
		lines, bad, err := specs.ReadLedger(ledger, bytes.NewReader(after))
		if err != nil || len(bad) > 0 {
			t.Fatalf("kill %d: %v %v", n, err, bad)
		}
		stands := map[string]bool{}
		for _, c := range lines {
			if c.By == by {
				stands[c.ID] = true
			}
		}
		for id := range k.said {
			if !stands[id] {
				t.Errorf("kill %d: %s was said to be countersigned, and is not", n, id)
			}
		}
		if len(stands) > len(k.said)+1 {
			t.Errorf("kill %d: %d lines, and %d told", n, len(stands), len(k.said))
		}
		if k.whole {
			ended++
		}
		if len(stands) > 0 && len(stands) < records {
			signed++
		}
		before = after
	}
	t.Logf("%d kills in %s (a run takes %s): %d in the midst of countersigning, %d too late, %d half lines",
		kills, time.Since(start).Round(time.Millisecond), usual.Round(time.Millisecond), signed, ended, torn)
	if signed < kills/2 {
		t.Errorf("%d kills in the midst of countersigning, too few to prove anything", signed)
	}
}

// Two people countersign the same records at once, and both stand.
func TestCountersignTogether(t *testing.T) {
	folder := t.TempDir()
	good, err := os.ReadFile("../../specs/demo/kedge-5.yaml")
	if err != nil {
		t.Fatal(err)
	}
	book := filepath.Join(folder, "kedge-5.yaml")
	if err := os.WriteFile(book, good, 0o644); err != nil {
		t.Fatal(err)
	}
	var ids []string
	for e, err := range specs.ReadFile(os.DirFS(folder), "kedge-5.yaml", book) {
		if err != nil {
			t.Fatal(err)
		}
		if !e.HeadOnly {
			ids = append(ids, e.Record.ID)
		}
	}
	done := make(chan error)
	for _, by := range []string{"JT", "KE", "TH"} {
		go func() {
			args := append([]string{"countersign", book, "--by", by}, ids...)
			var stderr bytes.Buffer
			if code := run(args, strings.NewReader(strings.Repeat("y\n", len(ids))), io.Discard, &stderr); code != exitGoes {
				done <- fmt.Errorf("%s: exit code %d: %s", by, code, stderr.String())
				return
			}
			done <- nil
		}()
	}
	for range 3 {
		if err := <-done; err != nil {
			t.Error(err)
		}
	}
	f, err := os.Open(filepath.Join(folder, specs.Ledger))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	lines, bad, err := specs.ReadLedger("ledger", f)
	if err != nil || len(bad) > 0 || len(lines) != 3*len(ids) {
		t.Errorf("%d lines of %d, %v %v", len(lines), 3*len(ids), bad, err)
	}
}
