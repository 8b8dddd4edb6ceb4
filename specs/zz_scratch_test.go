package specs

import (
	"bytes"
	"strings"
	"testing"

	"github.com/go-json-experiment/json/jsontext"

	"snapgauge/schema"
)

func feedTokens(d *schema.Decoder, dec *jsontext.Decoder) bool {
	depth := 0
	for {
		key := false
		if k, n := dec.StackIndex(dec.StackDepth()); k == '{' && n%2 == 0 {
			key = true
		}
		t, err := dec.ReadToken()
		if err != nil {
			return false
		}
		ok := true
		switch t.Kind() {
		case '{', '[':
			depth++
			ok = d.Open(t.Kind() == '[')
		case '}', ']':
			depth--
			ok = d.Close()
		case '"':
			if key {
				ok = d.Member(t.String())
			} else {
				ok = d.Text(t.String(), false)
			}
		case '0':
			ok = d.Number(t.String())
		case 't':
			ok = d.Truth(true)
		case 'f':
			ok = d.Truth(false)
		}
		if !ok {
			return false
		}
		if depth == 0 {
			return true
		}
	}
}

func BenchmarkTokensFeed(b *testing.B) {
	lines := mixedLines(b)
	var in bytes.Buffer
	dec := jsontext.NewDecoder(&in)
	var d schema.Decoder
	b.ReportAllocs()
	for b.Loop() {
		for _, l := range lines {
			in = *bytes.NewBuffer(l)
			dec.Reset(&in)
			d.Line()
			if !feedTokens(&d, dec) {
				b.Fatal("x")
			}
		}
	}
}

func BenchmarkTokensOnly(b *testing.B) {
	lines := mixedLines(b)
	var in bytes.Buffer
	dec := jsontext.NewDecoder(&in)
	b.ReportAllocs()
	for b.Loop() {
		for _, l := range lines {
			in = *bytes.NewBuffer(l)
			dec.Reset(&in)
			for {
				_, err := dec.ReadToken()
				if err != nil {
					break
				}
			}
		}
	}
}

func BenchmarkCursorFeed(b *testing.B) {
	lines := strings.Split(string(bytes.Join(mixedLines(b), []byte("\n"))), "\n")
	var q quickJSON
	var d schema.Decoder
	b.ReportAllocs()
	for b.Loop() {
		for _, l := range lines {
			d.Line()
			if !q.read(&d, l) {
				b.Fatal("x")
			}
		}
	}
}

func BenchmarkFinish(b *testing.B) {
	lines := strings.Split(string(bytes.Join(mixedLines(b), []byte("\n"))), "\n")
	var q quickJSON
	var d schema.Decoder
	b.ReportAllocs()
	for b.Loop() {
		for _, l := range lines {
			d.Line()
			if !q.read(&d, l) {
				b.Fatal("x")
			}
			d.Done()
		}
	}
}
