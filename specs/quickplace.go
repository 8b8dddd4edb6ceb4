package specs

import (
	"strings"
	"unicode/utf8"

	"snapgauge/schema"
)

// quickPlace finds the place of a text in a line of sound JSON, as the locator of
// its tree would, by passing over what stands before it. Where that is not so
// simple (a name, a map, a text with escapes, what is not there) it is not ok.
func quickPlace(t *text, s schema.Spot) (at schema.Span, ok bool) {
	if s.Key {
		return at, false
	}
	src := t.src
	i := afterBlanks(src, t.mark())
	for k := range s.Path.Len() {
		name, index := s.Path.Step(k)
		if name != "" {
			i = memberOf(src, i, name)
		} else {
			i = itemOf(src, i, index)
		}
		if i < 0 {
			return at, false
		}
	}
	if i >= len(src) || src[i] != '"' {
		return at, false
	}
	end := afterText(src, i)
	token := src[i:end]
	if strings.IndexByte(token, '\\') >= 0 {
		return at, false
	}
	if s.From < s.To && s.To <= len(token)-2 {
		i, token = i+1+s.From, token[1+s.From:1+s.To]
	}
	column := 1 + utf8.RuneCountInString(src[t.mark():i])
	at.Start = schema.Position{Line: t.line, Column: column}
	at.End = schema.Position{Line: t.line, Column: column + utf8.RuneCountInString(token)}
	return at, true
}

// memberOf is where the value of a member of the map at byte i begins; -1 where
// there is none, or its name is written with escapes.
func memberOf(src string, i int, name string) int {
	if i >= len(src) || src[i] != '{' {
		return -1
	}
	for i = afterBlanks(src, i+1); i < len(src) && src[i] == '"'; {
		end := afterText(src, i)
		found := src[i+1:end-1] == name
		i = afterBlanks(src, end) // the colon
		i = afterBlanks(src, i+1)
		if found {
			return i
		}
		i = afterBlanks(src, afterValue(src, i))
		if i < len(src) && src[i] == ',' {
			i = afterBlanks(src, i+1)
		}
	}
	return -1
}

// itemOf is where an item of the list at byte i begins; -1 where there is none.
func itemOf(src string, i, index int) int {
	if i >= len(src) || src[i] != '[' {
		return -1
	}
	for i = afterBlanks(src, i+1); i < len(src) && src[i] != ']'; index-- {
		if index == 0 {
			return i
		}
		i = afterBlanks(src, afterValue(src, i))
		if i < len(src) && src[i] == ',' {
			i = afterBlanks(src, i+1)
		}
	}
	return -1
}

func afterBlanks(src string, i int) int {
	for i < len(src) && blank(src[i]) {
		i++
	}
	return i
}

// afterText is where the text that begins at byte i ends.
func afterText(src string, i int) int {
	for i++; i < len(src); i++ {
		switch src[i] {
		case '"':
			return i + 1
		case '\\':
			i++
		}
	}
	return len(src)
}

// afterValue is where the value that begins at byte i ends.
func afterValue(src string, i int) int {
	depth := 0
	for i < len(src) {
		switch src[i] {
		case '"':
			i = afterText(src, i)
			if depth == 0 {
				return i
			}
			continue
		case '{', '[':
			depth++
		case '}', ']':
			if depth--; depth <= 0 {
				if depth < 0 {
					return i // the end of what holds a number or word
				}
				return i + 1
			}
		case ',':
			if depth == 0 {
				return i
			}
		}
		i++
	}
	return i
}
