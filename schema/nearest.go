package schema

import (
	"strings"
	"unicode"
)

// Nearest returns the one word of known that word was most likely meant to be,
// or "". Case, spaces, hyphens and underscores count for nothing; beyond them
// at most two letters may differ, one in words of up to four letters, a third
// of the letters in long ones. Of equals the first in known wins.
func Nearest(word string, known []string) string {
	w := letters(word)
	limit := 2
	if len(w) <= 4 {
		limit = 1
	}
	limit = max(limit, len(w)/3)
	best, near := limit+1, ""
	for _, k := range known {
		l := letters(k)
		if d := len(l) - len(w); d >= best || -d >= best {
			continue
		}
		// Where half of the letters differ there is no likeness.
		if d := distance(w, l); d < best && 2*d < max(len(w), len(l)) {
			best, near = d, k
		}
	}
	return near
}

// letters reduces a word to what counts when words are compared.
func letters(word string) []rune {
	return []rune(strings.Map(func(r rune) rune {
		if r == ' ' || r == '-' || r == '_' {
			return -1
		}
		return unicode.ToLower(r)
	}, clip(word, 100)))
}

// clip cuts a text to n bytes, at the start of a letter.
func clip(s string, n int) string {
	if len(s) <= n {
		return s
	}
	for n > 0 && s[n]&0xC0 == 0x80 {
		n--
	}
	return s[:n]
}

// distance is the number of letters to insert, delete, replace or exchange
// with their neighbour to get from a to b (optimal string alignment: no letter
// is touched twice).
func distance(a, b []rune) int {
	before := make([]int, len(b)+1) // row i-2
	last := make([]int, len(b)+1)   // row i-1
	row := make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(b)]
}
