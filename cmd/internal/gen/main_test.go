package main

import "testing"

func TestShare(t *testing.T) {
	for _, c := range []struct {
		text string
		want float64
		ok   bool
	}{
		{"1%", 0.01, true}, {"0.01", 0.01, true}, {"0", 0, true}, {"100%", 1, true},
		{"101%", 0, false}, {"-1%", 0, false}, {"NaN", 0, false}, {"some", 0, false}, {"", 0, false},
	} {
		got, err := share(c.text)
		if (err == nil) != c.ok || got != c.want {
			t.Errorf("%q: %v, %v; want %v, read %v", c.text, got, err, c.want, c.ok)
		}
	}
}
