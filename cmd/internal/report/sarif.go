package report

import (
	"bytes"
	"encoding/json"
	"io"

	"snapgauge/verify/rule"
)

// SARIF 2.1.0 is the Static Analysis Results Interchange Format, an OASIS
// standard. The members used here are those of its sections 3.13 (log), 3.14
// (run), 3.19 (toolComponent), 3.27 (result), 3.28 (location), 3.30 (region)
// and 3.49 (reportingDescriptor). Results are written as they come; only the
// list of rules stands in memory.
const sarifSchema = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"

type sarifWriter struct {
	w     io.Writer
	rules map[string]int
	head  []byte // written before the first result
	some  bool
}

type sarifText struct {
	Text     string `json:"text"`
	Markdown string `json:"markdown,omitempty"`
}

type sarifRule struct {
	ID       string     `json:"id"`
	Short    sarifText  `json:"shortDescription"`
	Help     *sarifText `json:"help,omitempty"`
	Defaults struct {
		Level string `json:"level"`
	} `json:"defaultConfiguration"`
	Properties struct {
		Layer  string `json:"layer"`
		Since  string `json:"since"`
		Source string `json:"source,omitempty"`
	} `json:"properties"`
}

type sarifRegion struct {
	StartLine   int `json:"startLine"`
	StartColumn int `json:"startColumn"`
	EndLine     int `json:"endLine"`
	EndColumn   int `json:"endColumn"`
}

type sarifPhysical struct {
	Artifact struct {
		URI string `json:"uri"`
	} `json:"artifactLocation"`
	Region *sarifRegion `json:"region,omitempty"`
}

type sarifLogical struct {
	FullName string `json:"fullyQualifiedName"`
	Kind     string `json:"kind"`
}

type sarifLocation struct {
	ID       *int           `json:"id,omitempty"`
	Physical *sarifPhysical `json:"physicalLocation,omitempty"`
	Logical  []sarifLogical `json:"logicalLocations,omitempty"`
	Message  *sarifText     `json:"message,omitempty"`
}

type sarifResult struct {
	RuleID     string          `json:"ruleId"`
	RuleIndex  *int            `json:"ruleIndex,omitempty"`
	Level      string          `json:"level"`
	Message    sarifText       `json:"message"`
	Locations  []sarifLocation `json:"locations"`
	Related    []sarifLocation `json:"relatedLocations,omitempty"`
	Properties struct {
		Record string `json:"record"`
		Read   string `json:"read"`
		Want   string `json:"want"`
		Source string `json:"source"`
		Slips  []slip `json:"slips"`
	} `json:"properties"`
}

// level maps a verdict to a level of SARIF (3.27.10).
func level(v rule.Verdict) string {
	switch v {
	case rule.Reject:
		return "error"
	case rule.Query:
		return "warning"
	}
	return "note"
}

func newSARIF(w io.Writer, opt Options) Writer {
	s := &sarifWriter{w: w, rules: map[string]int{}}
	rules := make([]sarifRule, len(opt.Checks))
	for i, c := range opt.Checks {
		s.rules[c.ID] = i
		r := sarifRule{ID: c.ID, Short: sarifText{Text: c.Title}}
		if c.Doc != "" {
			r.Help = &sarifText{Text: "run: snapgauge explain " + c.ID, Markdown: c.Doc}
		}
		r.Defaults.Level = level(c.Verdict)
		r.Properties.Layer, r.Properties.Since = string(c.Layer), c.Since
		r.Properties.Source = c.Source.String()
		rules[i] = r
	}
	driver := struct {
		Name    string      `json:"name"`
		Version string      `json:"version"`
		Rules   []sarifRule `json:"rules"`
	}{"snapgauge", opt.Version, rules}
	s.head = []byte(`{"$schema":"` + sarifSchema + `","version":"2.1.0","runs":[{"tool":{"driver":`)
	s.head = append(s.head, encode(driver)...)
	s.head = append(s.head, `},"columnKind":"unicodeCodePoints","results":[`...)
	return s
}

// encode marshals a value of this package, which cannot fail.
func encode(v any) []byte {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	_ = enc.Encode(v)
	return bytes.TrimSuffix(b.Bytes(), []byte("\n"))
}

func (s *sarifWriter) Finding(f rule.Finding) error {
	r := sarifResult{
		RuleID: f.Check, Level: level(f.Verdict), Message: sarifText{Text: f.Message},
		Locations: []sarifLocation{location(f.Place)},
	}
	if i, ok := s.rules[f.Check]; ok {
		r.RuleIndex = &i
	}
	for i, re := range f.Related {
		l := location(re.Place)
		id := i + 1
		l.ID, l.Message = &id, &sarifText{Text: re.Message}
		r.Related = append(r.Related, l)
	}
	r.Properties.Record, r.Properties.Read, r.Properties.Want = f.Place.Record, f.Read, f.Want
	r.Properties.Source, r.Properties.Slips = f.Source.String(), slipsOf(f)

	line := s.start()
	if s.some {
		line = append(line, ',')
	}
	s.some = true
	line = append(append(line, '\n'), encode(r)...)
	_, err := s.w.Write(line)
	return err
}

func (s *sarifWriter) Close(readable bool) error {
	type invocation struct {
		Successful bool `json:"executionSuccessful"`
	}
	line := append(s.start(), "\n],\"invocations\":"...)
	line = append(line, encode([]invocation{{readable}})...)
	_, err := s.w.Write(append(line, "}]}\n"...))
	return err
}

// start returns what must stand before the next line.
func (s *sarifWriter) start() []byte {
	head := s.head
	s.head = nil
	return head
}

func location(p rule.Place) sarifLocation {
	var l sarifLocation
	if p.File != "" {
		l.Physical = &sarifPhysical{}
		l.Physical.Artifact.URI = uri(p.File)
		if s := p.Span; !s.IsZero() {
			l.Physical.Region = &sarifRegion{s.Start.Line, s.Start.Column, s.End.Line, s.End.Column}
		}
	}
	if p.Pointer != "" {
		l.Logical = []sarifLogical{{p.Pointer, "value"}}
	}
	return l
}
