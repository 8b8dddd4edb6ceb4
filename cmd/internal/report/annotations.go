package report

import (
	"crypto/sha256"
	"fmt"
	"hash"
	"io"
	"strconv"
	"strings"

	"snapgauge/verify/rule"
)

// Annotations follow the Web Annotation Data Model (W3C Recommendation,
// 23 February 2017): one page of annotations, each with a comment, the name of
// the check as a tag, and the place it is about. Lines are chosen by RFC 5147,
// which counts the gaps between lines from 0, so that line 14 is line=13,14;
// within the line a text position counts code points from 0.
type annotationWriter struct {
	w    io.Writer
	sum  hash.Hash // over the ids of the annotations
	head string
	some bool
}

type annotation struct {
	ID         string           `json:"id"`
	Type       string           `json:"type"`
	Motivation string           `json:"motivation"`
	Body       []annotationBody `json:"body"`
	Target     annotationTarget `json:"target"`
}

type annotationBody struct {
	Type    string `json:"type"`
	Value   string `json:"value"`
	Format  string `json:"format,omitempty"`
	Lang    string `json:"language,omitempty"`
	Purpose string `json:"purpose"`
}

type annotationTarget struct {
	Source   string              `json:"source"`
	Selector *annotationFragment `json:"selector,omitempty"`
}

type annotationFragment struct {
	Type     string              `json:"type"`
	Conforms string              `json:"conformsTo"`
	Value    string              `json:"value"`
	Refined  *annotationPosition `json:"refinedBy,omitempty"`
}

type annotationPosition struct {
	Type  string `json:"type"`
	Start int    `json:"start"`
	End   int    `json:"end"`
}

func newAnnotations(w io.Writer, _ Options) Writer {
	return &annotationWriter{w: w, sum: sha256.New(),
		head: `{"@context":"http://www.w3.org/ns/anno.jsonld","type":"AnnotationPage","startIndex":0,"items":[`}
}

// motivation maps a verdict to a motivation of the model (3.3.5).
func motivation(v rule.Verdict) string {
	switch v {
	case rule.Reject:
		return "assessing"
	case rule.Query:
		return "questioning"
	}
	return "commenting"
}

func (a *annotationWriter) Finding(f rule.Finding) error {
	out := annotation{
		Type: "Annotation", Motivation: motivation(f.Verdict),
		Body: []annotationBody{
			{"TextualBody", comment(f), "text/plain", "en", "commenting"},
			{"TextualBody", f.Check, "text/plain", "", "tagging"},
		},
		Target: target(f.Place),
	}
	line := encode(out)
	out.ID = name(sha256.Sum256(line))
	a.sum.Write([]byte(out.ID))

	text := a.start()
	if a.some {
		text += ","
	}
	a.some = true
	_, err := io.WriteString(a.w, text+"\n"+string(encode(out)))
	return err
}

func (a *annotationWriter) Close(bool) error {
	id := name([32]byte(a.sum.Sum(nil)))
	_, err := io.WriteString(a.w, a.start()+"\n],\"id\":"+strconv.Quote(id)+"}\n")
	return err
}

// start returns what must stand before the next line.
func (a *annotationWriter) start() string {
	head := a.head
	a.head = ""
	return head
}

// comment is the finding as one text.
func comment(f rule.Finding) string {
	lines := []string{f.Verdict.String() + ": " + f.Message}
	for _, r := range f.Related {
		line := r.Message
		if r.Place.File != "" {
			line = where(r.Place) + ": " + line
		}
		lines = append(lines, line)
	}
	for _, s := range f.Slips {
		line := "perhaps " + s.Reads + " (" + s.Slip + ")"
		if s.Because != "" {
			line += ": " + s.Because
		}
		lines = append(lines, line)
	}
	if !f.Source.IsZero() {
		lines = append(lines, "source: "+f.Source.String())
	}
	return strings.Join(lines, "\n")
}

func target(p rule.Place) annotationTarget {
	t := annotationTarget{Source: uri(p.File)}
	s := p.Span
	if s.IsZero() {
		return t
	}
	t.Selector = &annotationFragment{
		Type:     "FragmentSelector",
		Conforms: "http://tools.ietf.org/rfc/rfc5147",
		Value:    fmt.Sprintf("line=%d,%d", s.Start.Line-1, s.End.Line),
	}
	// The end of a stretch over several lines would need the lengths of its
	// lines; the lines alone must do.
	if s.Start.Line == s.End.Line {
		t.Selector.Refined = &annotationPosition{"TextPositionSelector", s.Start.Column - 1, s.End.Column - 1}
	}
	return t
}

// name makes a URN from a hash: a UUID of version 8 (RFC 9562, 5.8), so that
// the same finding has the same name in every run.
func name(sum [32]byte) string {
	u := sum[:16]
	u[6] = u[6]&0x0f | 0x80
	u[8] = u[8]&0x3f | 0x80
	return fmt.Sprintf("urn:uuid:%x-%x-%x-%x-%x", u[:4], u[4:6], u[6:8], u[8:10], u[10:])
}
