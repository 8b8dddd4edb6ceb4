package specs

import (
	"math/bits"
	"strings"
	"unicode/utf16"
	"unicode/utf8"

	"snapgauge/schema"
)

// quickJSON feeds a decoder with the events of JSON text. It takes less than
// JSON allows: at whatever it does not know for sound it stops, and the text goes
// the plain way, through jsonReader, which says what is wrong with it.
type quickJSON struct {
	src     string
	d       *schema.Decoder
	unquote strings.Builder // texts that had escapes, one behind the other
}

// read feeds the one value that the text is, and reports whether all is sure.
func (q *quickJSON) read(d *schema.Decoder, src string) bool {
	q.d, q.src = d, src
	i := q.value(q.blanks(0), 0)
	return i >= 0 && q.blanks(i) == len(src)
}

// Each of the functions below reads something that begins at byte i and returns
// where it ends, unsure where it is not sure.
const unsure = -1

func (q *quickJSON) blanks(i int) int {
	for i < len(q.src) && blank(q.src[i]) {
		i++
	}
	return i
}

func (q *quickJSON) value(i, depth int) int {
	if i >= len(q.src) {
		return unsure
	}
	switch q.src[i] {
	case '"':
		s, end := q.text(i + 1)
		if end < 0 || !q.d.Text(s, false) {
			return unsure
		}
		return end
	case '{':
		return q.object(i+1, depth+1)
	case '[':
		return q.list(i+1, depth+1)
	case 't':
		return q.literal(i, "true", q.d.Truth(true))
	case 'f':
		return q.literal(i, "false", q.d.Truth(false))
	case 'n':
		return q.literal(i, "null", q.d.Null())
	}
	return q.number(i)
}

func (q *quickJSON) literal(i int, word string, sure bool) int {
	if !sure || !strings.HasPrefix(q.src[i:], word) {
		return unsure
	}
	return i + len(word)
}

// object reads the members of an object and its end.
func (q *quickJSON) object(i, depth int) int {
	if depth > quickDepth || !q.d.Open(false) {
		return unsure
	}
	if i = q.blanks(i); i < len(q.src) && q.src[i] == '}' {
		return q.close(i)
	}
	for {
		if i >= len(q.src) || q.src[i] != '"' {
			return unsure
		}
		name, end := q.text(i + 1)
		if end < 0 || !q.d.Member(name) {
			return unsure
		}
		if i = q.blanks(end); i >= len(q.src) || q.src[i] != ':' {
			return unsure
		}
		if i = q.value(q.blanks(i+1), depth); i < 0 {
			return unsure
		}
		if i = q.blanks(i); i >= len(q.src) {
			return unsure
		}
		switch q.src[i] {
		case '}':
			return q.close(i)
		case ',':
			i = q.blanks(i + 1)
		default:
			return unsure
		}
	}
}

// list reads the items of a list and its end.
func (q *quickJSON) list(i, depth int) int {
	if depth > quickDepth || !q.d.Open(true) {
		return unsure
	}
	if i = q.blanks(i); i < len(q.src) && q.src[i] == ']' {
		return q.close(i)
	}
	for {
		if i = q.value(i, depth); i < 0 {
			return unsure
		}
		if i = q.blanks(i); i >= len(q.src) {
			return unsure
		}
		switch q.src[i] {
		case ']':
			return q.close(i)
		case ',':
			i = q.blanks(i + 1)
		default:
			return unsure
		}
	}
}

func (q *quickJSON) close(i int) int {
	if !q.d.Close() {
		return unsure
	}
	return i + 1
}

// quickDepth is how deep a value may lie. The plain way bears MaxDepth, of
// which the file and its list of records are two.
const quickDepth = MaxDepth - 4

// isPlainByte tells the bytes that stand for themselves in a text and are a
// letter each.
var isPlainByte = func() (is [256]bool) {
	for c := ' '; c < utf8.RuneSelf; c++ {
		is[c] = c != '"' && c != '\\'
	}
	return is
}()

// plainBytes counts the plain bytes that s begins with. Eight are looked at in
// one go: the high bit of a byte of special is set where the byte is none, and
// perhaps in bytes behind it, never before it.
func plainBytes(s string) int {
	const ones, highs = 0x0101010101010101, 0x8080808080808080
	n := 0
	for ; n+8 <= len(s); n += 8 {
		p := s[n : n+8]
		w := uint64(p[0]) | uint64(p[1])<<8 | uint64(p[2])<<16 | uint64(p[3])<<24 |
			uint64(p[4])<<32 | uint64(p[5])<<40 | uint64(p[6])<<48 | uint64(p[7])<<56
		quote, slash := w^ones*'"', w^ones*'\\'
		special := (w | (w - ones*' ') | (quote - ones) | (slash - ones)) & highs
		if special != 0 {
			return n + bits.TrailingZeros64(special)/8
		}
	}
	for n < len(s) && isPlainByte[s[n]] {
		n++
	}
	return n
}

// text reads a text behind its quotation mark.
func (q *quickJSON) text(i int) (s string, end int) {
	src := q.src
	for j := i; j < len(src); {
		j += plainBytes(src[j:])
		if j == len(src) {
			break
		}
		switch c := src[j]; {
		case c == '"':
			return src[i:j], j + 1
		case c >= utf8.RuneSelf:
			r, n := utf8.DecodeRuneInString(src[j:])
			if r == utf8.RuneError && n == 1 {
				return "", unsure
			}
			j += n
		case c == '\\':
			return q.escaped(i, j)
		default:
			return "", unsure
		}
	}
	return "", unsure
}

// escaped reads a text that begins at byte i and has its first escape at j.
func (q *quickJSON) escaped(i, j int) (s string, end int) {
	src := q.src
	if q.unquote.Cap()-q.unquote.Len() < len(src)-i { // what was given out stays where it is
		q.unquote.Reset()
		q.unquote.Grow(max(len(src)-i, 8<<10))
	}
	from := q.unquote.Len()
	q.unquote.WriteString(src[i:j])
	for j < len(src) {
		c := src[j]
		switch {
		case isPlainByte[c]:
			q.unquote.WriteByte(c)
			j++
		case c == '"':
			return q.unquote.String()[from:], j + 1
		case c >= utf8.RuneSelf:
			r, n := utf8.DecodeRuneInString(src[j:])
			if r == utf8.RuneError && n == 1 {
				return "", unsure
			}
			q.unquote.WriteString(src[j : j+n])
			j += n
		case c == '\\':
			r, n := unescapeJSON(src[j:])
			if n == 0 {
				return "", unsure
			}
			q.unquote.WriteRune(r)
			j += n
		default:
			return "", unsure
		}
	}
	return "", unsure
}

// unescapeJSON reads the escape that s begins with; n is 0 where there is none.
func unescapeJSON(s string) (r rune, n int) {
	if len(s) < 2 {
		return 0, 0
	}
	switch s[1] {
	case '"', '\\', '/':
		return rune(s[1]), 2
	case 'b':
		return '\b', 2
	case 'f':
		return '\f', 2
	case 'n':
		return '\n', 2
	case 'r':
		return '\r', 2
	case 't':
		return '\t', 2
	case 'u':
		r, ok := hex(s, 2, 4)
		if !ok {
			return 0, 0
		}
		if !utf16.IsSurrogate(r) {
			return r, 6
		}
		if len(s) < 12 || s[6] != '\\' || s[7] != 'u' {
			return 0, 0
		}
		low, ok := hex(s, 8, 4)
		if r = utf16.DecodeRune(r, low); !ok || r == utf8.RuneError {
			return 0, 0
		}
		return r, 12
	}
	return 0, 0
}

// number reads a number, without an exponent.
func (q *quickJSON) number(i int) int {
	end := i
	for end < len(q.src) && (q.src[end] >= '0' && q.src[end] <= '9' || q.src[end] == '-' || q.src[end] == '.') {
		end++
	}
	if end == i || !q.d.Number(q.src[i:end]) {
		return unsure
	}
	return end
}
