package slip

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestShifted(t *testing.T) {
	for _, tt := range []struct {
		s    string
		k    int
		want string
	}{
		{"25", 1, "250"}, {"25", -1, "2.5"}, {"25", -2, "0.25"}, {"25", -3, "0.025"},
		{"2.5", 1, "25"}, {"0.047", 3, "47"}, {"0.047", 1, "0.47"}, {"250", -1, "25.0"},
		{".50", 1, "5.0"}, {".50", -1, ".050"}, {".50", 2, "50"}, {"1.2", 2, "120"},
	} {
		if got := shifted(tt.s, tt.k, '.'); got != tt.want {
			t.Errorf("the point of %s moved by %d: %s, want %s", tt.s, tt.k, got, tt.want)
		}
	}
	if got := shifted("6,5", 1, ','); got != "65" {
		t.Errorf("with a comma: %s", got)
	}
	for s, want := range map[string]string{"25.0": "25", "25": "25", "0.250": "0.25", "250": "250"} {
		if got := trimmed(s, '.'); got != want {
			t.Errorf("%s trimmed: %s, want %s", s, got, want)
		}
	}
}

func TestIsNumber(t *testing.T) {
	for s, want := range map[string]bool{
		"25": true, "0.5": true, ".5": true, "10": true, "025": false, "0": false, "0.0": false, "2.5.1": false, "5.": false, "2,5": false,
	} {
		if got := isNumber(s, '.'); got != want {
			t.Errorf("%q is a number: %v, want %v", s, got, want)
		}
	}
}

func TestDigitSlips(t *testing.T) {
	for _, tt := range []struct {
		name      string
		got, want []string
	}{
		{"transposed", transposed("4.58"), []string{"5.48", "4.85"}},
		{"transposed, alike", transposed("55"), nil},
		{"shorter", shorter("123", false), []string{"23", "13", "12"}},
		{"shorter, one of two", shorter("112", false), []string{"11"}},
		{"shorter, doubled", shorter("112", true), []string{"12"}},
		{"shorter, one digit", shorter("8", false), nil},
		{"doubled", longer("25", true), []string{"225", "255"}},
	} {
		if d := cmp.Diff(tt.want, tt.got); d != "" {
			t.Errorf("%s: -want +got\n%s", tt.name, d)
		}
	}
	all := longer("7", false)
	for _, want := range []string{"17", "70", "77", "79"} {
		if !slices.Contains(all, want) {
			t.Errorf("7 with a digit more is not %s", want)
		}
	}
	sum := 0.0
	for _, v := range mistyped("45") {
		sum += v.share
		if v.text == "55" && v.share <= 0.1 {
			t.Errorf("4 beside 5 in the row: share %v", v.share)
		}
	}
	if sum < 0.8 || sum > 1.2 {
		t.Errorf("the shares of all mistyped digits add up to %v, want about 1", sum)
	}
}

// TestLettersAsDigits: a letter is a digit in a run with digits only.
func TestLettersAsDigits(t *testing.T) {
	for _, tt := range []struct{ text, want string }{
		{"22O °F", "220 °F"},
		{"22O°F", "220°F"},
		{"4l-5O N·m", "41-50 N·m"},
		{"max O.46 mm", "max 0.46 mm"},
		{"1/l6 in", "1/16 in"},
		{"5lb", ""},
		{"5 lb", ""},
		{"8 to 10 lbf·in", ""},
		{"5 l/min", ""},
		{"8 Ω", ""},
		{"SAE5", ""},
		{"", ""},
	} {
		got, ok := lettersAsDigits(tt.text)
		if !ok && got != tt.text {
			t.Errorf("%q: nothing to put right, and yet %q", tt.text, got)
		}
		if !ok {
			got = ""
		}
		if got != tt.want {
			t.Errorf("%q: got %q, want %q", tt.text, got, tt.want)
		}
	}
}
