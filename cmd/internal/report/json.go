package report

import (
	"encoding/json"
	"io"

	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// finding is the line of a finding in the form json. The names, their order
// and that none is ever left out are fixed.
type finding struct {
	File string `json:"file"`
	region
	Pointer string    `json:"pointer"`
	Record  string    `json:"record"`
	Check   string    `json:"check"`
	Verdict string    `json:"verdict"`
	Message string    `json:"message"`
	Read    string    `json:"read"`
	Want    string    `json:"want"`
	Source  string    `json:"source"`
	Related []related `json:"related"`
	Slips   []slip    `json:"slips"`
}

// region counts lines and columns (code points) from 1; the end is exclusive.
// All are 0 where there is no place.
type region struct {
	Line      int `json:"line"`
	Column    int `json:"column"`
	EndLine   int `json:"endLine"`
	EndColumn int `json:"endColumn"`
}

type related struct {
	File string `json:"file"`
	region
	Pointer string `json:"pointer"`
	Message string `json:"message"`
}

type slip struct {
	Slip    string `json:"slip"`
	Reads   string `json:"reads"`
	Because string `json:"because"`
}

func regionOf(s schema.Span) region {
	return region{s.Start.Line, s.Start.Column, s.End.Line, s.End.Column}
}

func slipsOf(f rule.Finding) []slip {
	out := make([]slip, len(f.Slips))
	for i, s := range f.Slips {
		out[i] = slip(s)
	}
	return out
}

type jsonWriter struct{ enc *json.Encoder }

func newJSON(w io.Writer, _ Options) Writer {
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	return jsonWriter{enc}
}

func (w jsonWriter) Finding(f rule.Finding) error {
	out := finding{
		File: f.Place.File, region: regionOf(f.Place.Span), Pointer: f.Place.Pointer, Record: f.Place.Record,
		Check: f.Check, Verdict: f.Verdict.String(), Message: f.Message,
		Read: f.Read, Want: f.Want, Source: f.Source.String(),
		Related: make([]related, len(f.Related)), Slips: slipsOf(f),
	}
	for i, r := range f.Related {
		out.Related[i] = related{r.Place.File, regionOf(r.Place.Span), r.Place.Pointer, r.Message}
	}
	return w.enc.Encode(out)
}

func (jsonWriter) Close(bool) error { return nil }
