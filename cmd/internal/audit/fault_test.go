package audit

import (
	"strings"
	"testing"
)

func TestDiffer(t *testing.T) {
	for _, tt := range []struct{ is, was, want string }{
		{"same", "same", ""},
		{"30 N·m", "33 N·m", `f: byte 101: "30 N·m" stands there, and was "33 N·m"`},
		{"abcdef", "abXdeY", `f: byte 102: "abcdef" stands there, and was "abXdeY"; 2 bytes differ`},
		{"abc", "ab", `f: byte 102: 1 byte too many from here on: "abc"`},
		{"ab", "abc", `f: byte 102: 1 byte is missing from here on: "abc"`},
		{"abcd", "ab", `f: byte 102: 2 bytes too many from here on: "abcd"`},
		{"ab", "abcd", `f: byte 102: 2 bytes are missing from here on: "abcd"`},
		{"x", "abc", `f: byte 100: "x" stands there, and was "abc"; 1 byte, and were 3`},
		{"axcd", "abc", `f: byte 101: "axcd" stands there, and was "abc"; 4 bytes, and were 3`},
		{"a\x00c", "a\x01c", "f: byte 101: 0x00 stands there, and was 0x01"},
		{strings.Repeat("·", 20) + "x", strings.Repeat("·", 20) + "y", `f: byte 140: "·····x" stands there, and was "·····y"`},
	} {
		f, ok := differ("f", []byte(tt.is), []byte(tt.was), 100)
		got := ""
		if ok {
			got = f.String()
		}
		if got != tt.want {
			t.Errorf("%q, %q: %s\nwant %s", tt.is, tt.was, got, tt.want)
		}
	}
}

func TestNear(t *testing.T) {
	for _, tt := range []struct {
		a, b string
		want bool
	}{
		{"0123456789abcdef0123", "0123456789abcdef0123", true},
		{"0123456789abcdef0123", "01234567x9abcdef0123", true},
		{"0123456789abcdef0123", "01234567\ufffd9abcdef0123", true},
		{"0123456789abcdef0123", "1123456789abcdef0124", false},
		{"0123456789abcdef0123", "", false},
		{"", "", true},
	} {
		if got := near(tt.a, tt.b); got != tt.want {
			t.Errorf("near(%q, %q) = %v", tt.a, tt.b, got)
		}
	}
}
