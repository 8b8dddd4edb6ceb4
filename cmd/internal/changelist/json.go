package changelist

import (
	"encoding/json"
	"io"

	"snapgauge/verify/edition"
	"snapgauge/verify/rule"
)

// line is a change in the form json. The names, their order and that none is ever left
// out are fixed.
type line struct {
	Kind    string `json:"kind"`
	Machine string `json:"machine"`
	Item    string `json:"item"`
	Record  string `json:"record"`
	Where   string `json:"where"`
	Field   string `json:"field"` // JSON Pointer within the record; "" is the record
	Was     string `json:"was"`
	Now     string `json:"now"`
	Means   string `json:"means"`
	spot
	Old     spot     `json:"old"`
	Records []string `json:"records"`
}

// spot is a place in a file. Lines and columns (code points) are counted from 1; all are
// 0 where there is no place.
type spot struct {
	File      string `json:"file"`
	Line      int    `json:"line"`
	Column    int    `json:"column"`
	EndLine   int    `json:"endLine"`
	EndColumn int    `json:"endColumn"`
	Pointer   string `json:"pointer"`
}

func spotOf(p rule.Place) spot {
	s := p.Span
	return spot{p.File, s.Start.Line, s.Start.Column, s.End.Line, s.End.Column, p.Pointer}
}

func (l *List) json(w io.Writer) error {
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	for _, u := range l.Unread {
		x := line{Kind: string(edition.Unreadable), Machine: u.Machine, Record: u.Place.Record, Means: u.Message, Records: []string{}}
		if u.Old {
			x.Old = spotOf(u.Place)
		} else {
			x.spot = spotOf(u.Place)
		}
		if err := enc.Encode(x); err != nil {
			return err
		}
	}
	for c := range l.shown {
		x := line{
			Kind: string(c.Kind), Machine: c.Machine, Item: c.Item, Record: c.Record, Where: c.Where,
			Field: c.Field.String(), Was: c.Was, Now: c.Now, Means: c.Means,
			spot: spotOf(c.At), Old: spotOf(c.WasAt), Records: c.Records,
		}
		if x.Records == nil {
			x.Records = []string{}
		}
		if err := enc.Encode(x); err != nil {
			return err
		}
	}
	return nil
}
