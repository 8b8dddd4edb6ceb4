package main

import (
	"os/exec"
	"slices"
	"strings"
	"testing"
)

// rooms are the folders of the house, each with what it may import of the
// others.
var rooms = map[string][]string{
	"convert":   nil,
	"reference": {"convert"},
	"schema":    {"convert"},
	"specs":     {"schema", "convert"},
	"verify":    {"reference", "schema", "convert"},
	"cmd":       {"convert", "reference", "schema", "specs", "verify"},
}

// outside are the modules that a room may import, where that is fixed. The
// others may import whatever go.mod has.
var outside = map[string][]string{
	"convert":   {"github.com/martinlindhe/unit"},
	"reference": {},
}

// What a package imports is what the house allows.
func TestArrows(t *testing.T) {
	out, err := exec.Command("go", "list", "-f", `{{.ImportPath}} {{join .Imports " "}}`, "snapgauge/...").Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	met := map[string]bool{}
	for line := range strings.Lines(string(out)) {
		words := strings.Fields(line)
		room, ok := roomOf(words[0])
		if !ok {
			t.Errorf("%s lies in no room of the house", words[0])
			continue
		}
		met[room] = true
		for _, imp := range words[1:] {
			other, own := roomOf(imp)
			module := strings.Contains(strings.SplitN(imp, "/", 2)[0], ".")
			allowed, fixed := outside[room]
			switch {
			case own && other != room && !slices.Contains(rooms[room], other):
				t.Errorf("%s imports %s: %s may import only %v", words[0], imp, room, rooms[room])
			case module && fixed && !slices.Contains(allowed, imp):
				t.Errorf("%s imports %s: of modules, %s may import only %v", words[0], imp, room, allowed)
			}
		}
	}
	for room := range rooms {
		if !met[room] {
			t.Errorf("no package in %s", room)
		}
	}
}

func roomOf(pkg string) (room string, ok bool) {
	rest, own := strings.CutPrefix(pkg, "snapgauge/")
	if !own {
		return "", false
	}
	room, _, _ = strings.Cut(rest, "/")
	_, ok = rooms[room]
	return room, ok
}
