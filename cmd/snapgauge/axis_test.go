package main

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestAxis(t *testing.T) {
	even := axis{lo: 0, hi: 10, width: 11}
	ratio := axis{lo: 1, hi: 100, byRatio: true, width: 21}
	tests := []struct {
		a    axis
		x    float64
		want int
	}{
		{even, 0, 0}, {even, 3, 3}, {even, 10, 10}, {even, -5, 0}, {even, 99, 10},
		{ratio, 1, 0}, {ratio, 10, 10}, {ratio, 100, 20}, {ratio, 0.1, 0}, {ratio, 0, 0}, {ratio, -1, 0},
		{axis{lo: 5, hi: 5, width: 11}, 5, 0},
	}
	for _, tt := range tests {
		if got := tt.a.column(tt.x); got != tt.want {
			t.Errorf("%+v: %v is in column %d, want %d", tt.a, tt.x, got, tt.want)
		}
	}
}

func TestScale(t *testing.T) {
	same := func(x float64) float64 { return x }
	numbers, line := axis{lo: 1, hi: 100, byRatio: true, width: 41}.scale(same)
	if diff := cmp.Diff("1     2       5     10    20      50   100", numbers); diff != "" {
		t.Errorf("numbers (-want +got):\n%s", diff)
	}
	if diff := cmp.Diff("|-----|-------|-----|-----|-------|-----|", line); diff != "" {
		t.Errorf("line (-want +got):\n%s", diff)
	}
	numbers, line = axis{lo: -10, hi: 20, width: 31}.scale(same)
	if diff := cmp.Diff("-10  -5   0    5    10   15   20", numbers); diff != "" {
		t.Errorf("numbers (-want +got):\n%s", diff)
	}
	if diff := cmp.Diff("|----|----|----|----|----|----|", line); diff != "" {
		t.Errorf("line (-want +got):\n%s", diff)
	}
	if _, line := (axis{lo: 5, hi: 5, width: 4}).scale(same); line != "|---" {
		t.Errorf("ends that meet: %q", line)
	}
}

func TestTrack(t *testing.T) {
	a := axis{lo: 0, hi: 10, width: 11}
	tests := []struct {
		track track
		want  string
	}{
		{track{from: 2, to: 6, left: '[', fill: '=', right: ']'}, "  [===]"},
		{track{from: 4, to: 4, left: '[', fill: '=', right: ']'}, "    ="},
		{track{from: 2, to: 8, left: '.', fill: '.', right: '.', at: 5, mark: 'X'}, "  ...X..."},
	}
	for _, tt := range tests {
		if got := tt.track.draw(a); got != tt.want {
			t.Errorf("%+v: got %q, want %q", tt.track, got, tt.want)
		}
	}
}

func TestWrap(t *testing.T) {
	got := wrap("one two  three four", "  ", 11)
	if diff := cmp.Diff("  one two\n    three\n    four\n", got); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
}
