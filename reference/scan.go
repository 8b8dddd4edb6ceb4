package reference

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// scan reads a designation. The text is brought to lower-case ASCII first, with
// the place of every byte kept, so that problems point into the text as printed.
type scan struct {
	text string
	norm []byte
	at   []int // place in text of each byte of norm, and of the end
	i    int

	series string // unified series that stood before the size
}

var spelled = map[rune]string{
	'×': "x", '✕': "x", '✖': "x", '*': "x", '∗': "x", 'х': "x", 'Х': "x", // the last two are Cyrillic
	'м': "m", 'М': "m", // Cyrillic
	'‐': "-", '‑': "-", '‒': "-", '–': "-", '—': "-", '−': "-",
	'″': "\"", '”': "\"", '“': "\"", '„': "\"", '′': "'", '’': "'",
	'⁄': "/", '∕': "/", '№': "no", '＃': "#",
	'°': "deg", 'º': "deg", '˚': "deg", 'ø': "", 'Ø': "", '⌀': "",
	'½': "1/2", '¼': "1/4", '¾': "3/4", '⅛': "1/8", '⅜': "3/8", '⅝': "5/8", '⅞': "7/8",
}

func (s *scan) normalise() {
	s.norm = make([]byte, 0, len(s.text)+4)
	s.at = make([]int, 0, len(s.text)+5)
	put := func(at int, text string) {
		for i := 0; i < len(text); i++ {
			s.norm = append(s.norm, text[i])
			s.at = append(s.at, at)
		}
	}
	for i, r := range s.text {
		switch {
		case r >= 'A' && r <= 'Z':
			put(i, string(r+'a'-'A'))
		case r == '\'' && strings.HasPrefix(s.text[i:], "''"):
			put(i, "\"") // two strokes for an inch mark; the second is skipped as a stroke
		case r == '\t' || r == '\n' || r == '\r':
			put(i, " ")
		case r < utf8.RuneSelf && r != '*':
			put(i, string(r))
		case unicode.IsSpace(r):
			put(i, " ")
		default:
			to, ok := spelled[r]
			if !ok {
				to = "?"
			}
			// 1½ is 1-1/2, not 11/2.
			if len(to) == 3 && to[1] == '/' && len(s.norm) > 0 && isDigit(s.norm[len(s.norm)-1]) {
				put(i, "-")
			}
			put(i, to)
		}
	}
	s.at = append(s.at, len(s.text))
}

func isDigit(c byte) bool  { return c >= '0' && c <= '9' }
func isLetter(c byte) bool { return c >= 'a' && c <= 'z' }

func (s *scan) end() bool { return s.i >= len(s.norm) }

// peek is the next byte, 0 at the end.
func (s *scan) peek() byte { return s.look(0) }

func (s *scan) look(n int) byte {
	if s.i+n >= len(s.norm) {
		return 0
	}
	return s.norm[s.i+n]
}

func (s *scan) skip(chars string) {
	for !s.end() && strings.IndexByte(chars, s.norm[s.i]) >= 0 {
		s.i++
	}
}

// from is the place in the text of byte i.
func (s *scan) from(i int) int { return s.at[min(i, len(s.norm))] }

// span is the text as printed from byte i to here.
func (s *scan) span(i int) string { return strings.TrimSpace(s.text[s.from(i):s.from(s.i)]) }

// hasWord reports that the next letters are this word and no more.
func (s *scan) hasWord(w string) bool {
	for i := range len(w) {
		if s.look(i) != w[i] {
			return false
		}
	}
	return !isLetter(s.look(len(w)))
}

// word takes the next run of letters.
func (s *scan) word() string {
	i := s.i
	for isLetter(s.peek()) {
		s.i++
	}
	return string(s.norm[i:s.i])
}

// number takes digits with at most one mark, point or comma: 8, 1.25, 1,25, .25.
func (s *scan) number() (v float64, ok bool) {
	i, digits, mark := s.i, false, false
	for !s.end() {
		c := s.peek()
		if isDigit(c) {
			digits = true
		} else if (c == '.' || c == ',') && !mark && isDigit(s.look(1)) {
			mark = true
		} else {
			break
		}
		s.i++
	}
	if !digits {
		s.i = i
		return 0, false
	}
	v, err := strconv.ParseFloat(strings.ReplaceAll(string(s.norm[i:s.i]), ",", "."), 64)
	if err != nil || v > 1e6 {
		s.i = i
		return 0, false
	}
	return v, true
}

// integer takes digits only.
func (s *scan) integer() (n int, ok bool) {
	i := s.i
	for isDigit(s.peek()) && s.i-i < 6 {
		n = n*10 + int(s.peek()-'0')
		s.i++
	}
	if s.i == i || isDigit(s.peek()) {
		s.i = i
		return 0, false
	}
	return n, true
}

// tolerance takes a tolerance class: 6g, 5g6g, 6H/6g, as printed. letters are
// the deviations allowed.
func (s *scan) tolerance(digits, letters string) (string, bool) {
	i := s.i
	for {
		j := s.i
		for s.i-j < 2 && strings.IndexByte(digits, s.peek()) >= 0 && !s.end() {
			s.i++
		}
		if s.i == j || s.end() || strings.IndexByte(letters, s.peek()) < 0 {
			s.i = j
			break
		}
		s.i++
		if isLetter(s.peek()) || s.peek() == '.' {
			s.i = j
			break
		}
		if s.peek() == '/' && isDigit(s.look(1)) {
			s.i++
		}
	}
	if s.i == i || isDigit(s.peek()) {
		s.i = i
		return "", false
	}
	return s.span(i), true
}

// tail reads what may follow a designation: tolerance, hand, length, words. What
// it cannot read is a problem. own takes the words of one family.
func (s *scan) tail(t *Thread, digits, letters string, own func(word string) bool) *ThreadProblem {
	for {
		s.skip(" -,;()[]\"'")
		if s.end() {
			return nil
		}
		i := s.i
		if tol, ok := s.tolerance(digits, letters); ok {
			t.Tolerance = strings.TrimPrefix(t.Tolerance+" "+tol, " ")
			continue
		}
		if s.peek() == 'x' {
			s.i++
			s.skip(" ")
		}
		if j := s.i; t.Length == "" {
			if _, _, ok := s.inches(); ok || s.numberOnly() {
				t.Length = s.span(j)
				continue
			}
		}
		s.i = i
		w := s.word()
		if w != "" && own(w) {
			continue
		}
		switch w {
		case "lh", "left", "links":
			t.LeftHand = true
			continue
		case "rh", "right", "hand", "handed", "thread", "threads", "mm", "in", "inch", "inches",
			"pitch", "metric", "ext", "int", "external", "internal", "long", "lg", "cl", "class", "iso", "tpi":
			continue
		}
		return &ThreadProblem{
			Start: s.from(i), End: len(s.text), Kind: NotAThread,
			Message: "cannot read “" + short(s.text[s.from(i):]) + "” behind the thread",
		}
	}
}

func (s *scan) numberOnly() bool {
	_, ok := s.number()
	return ok
}
