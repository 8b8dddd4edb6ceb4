package sample

import (
	"bytes"
	"encoding/json"
	"errors"
	"strings"
	"testing"
)

func TestWrite(t *testing.T) {
	var a, b, c bytes.Buffer
	for _, w := range []*bytes.Buffer{&a, &b} {
		if err := Write(w, 1000, 50, 7); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(a.Bytes(), b.Bytes()) {
		t.Error("one seed gives two books")
	}
	if err := Write(&c, 1000, 0, 7); err != nil {
		t.Fatal(err)
	}
	if strings.Contains(c.String(), slipped.second) {
		t.Error("a slip where none was asked for")
	}
	if n := strings.Count(a.String(), slipped.second); n < 10 || n > 80 {
		t.Errorf("%d slips, want about 35", n)
	}
	kinds := map[string]int{}
	lines := bytes.Split(bytes.TrimSpace(a.Bytes()), []byte("\n"))
	for _, line := range lines {
		var rec struct{ ID, Kind string }
		if err := json.Unmarshal(line, &rec); err != nil {
			t.Fatalf("%v in %s", err, line)
		}
		kinds[rec.Kind]++
	}
	if len(lines) != 1000 || kinds["torque"] < 600 || kinds["fill"] < 100 || kinds["tolerance"] < 100 {
		t.Errorf("%d lines, kinds %v", len(lines), kinds)
	}
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("disk full") }

func TestWriteFails(t *testing.T) {
	if err := Write(full{}, 1, 0, 1); err == nil {
		t.Error("no error from a full disk")
	}
	if err := Write(full{}, 1000, 0, 1); err == nil {
		t.Error("no error from a full disk")
	}
}
