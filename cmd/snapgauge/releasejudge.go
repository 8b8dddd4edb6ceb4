package main

import (
	"fmt"
	"slices"

	"snapgauge/cmd/internal/seal"
	"snapgauge/cmd/internal/seal/database"
	"snapgauge/schema"
	"snapgauge/specs"
	"snapgauge/specs/release"
	"snapgauge/verify"
	"snapgauge/verify/rule"
)

// judged is what stands in the way of a release.
type judged struct {
	unreadable []*specs.Unreadable
	findings   []rule.Finding // rejects and queries
	rejects    int
	queries    int
	waiting    []waiting // records that are not countersigned, beside those that a finding tells of
}

// waiting is a record that is not countersigned.
type waiting struct {
	place rule.Place
	why   string
}

func (j *judged) goes() bool { return len(j.unreadable)+len(j.findings)+len(j.waiting) == 0 }

// judgeBook runs the checks over a book and sees who countersigned it.
func judgeBook(b *seal.Book) (*judged, error) {
	j := &judged{unreadable: b.Unreadable}
	void := map[rule.Place]bool{}
	err := verify.Run(slices.Values(b.Entries), verify.Options{}, func(f rule.Finding) bool {
		switch f.Verdict {
		case rule.Reject:
			j.rejects++
		case rule.Query:
			j.queries++
		default:
			return true
		}
		if f.Check == "countersign-void" {
			void[rule.Place{File: f.Place.File, Record: f.Place.Record}] = true
		}
		j.findings = append(j.findings, f)
		return true
	})
	if err != nil {
		return nil, err
	}
	for _, e := range b.Records() {
		if void[rule.Place{File: e.File, Record: e.Record.ID}] {
			continue
		}
		why, err := waits(e)
		if err != nil {
			return nil, err
		}
		if why != "" {
			j.waiting = append(j.waiting, waiting{rule.Resolve(&e, schema.Spot{Path: schema.At("id")}), legible(e.Record.ID + ": " + why)})
		}
	}
	return j, nil
}

// lines tells what stands in the way, a line each.
func (j *judged) lines() []string {
	var out []string
	for _, f := range j.findings {
		out = append(out, fmt.Sprintf("%s:%s: %s: %s [%s]", f.Place.File, f.Place.Span.Start, f.Verdict, legible(f.Message), f.Check))
	}
	for _, w := range j.waiting {
		out = append(out, fmt.Sprintf("%s:%s: %s", w.place.File, w.place.Span.Start, w.why))
	}
	return out
}

// checksOf is what a manifest says of the checks of this version.
func checksOf() []release.Check {
	var out []release.Check
	for _, c := range checks() {
		out = append(out, release.Check{ID: c.ID, Verdict: c.Verdict.String(), Since: c.Since, SHA256: release.FileOf("", []byte(c.Doc)).SHA256})
	}
	return out
}

// ownTool is this program.
var ownTool = release.Tool{Name: "snapgauge", Version: version}

// derived is a release that is made of authored files, but for its signature.
type derived struct {
	*judged
	authored map[string][]byte
	book     *seal.Book
}

// derive reads and judges authored files.
func derive(authored map[string][]byte) (*derived, error) {
	b := seal.Read(authored)
	j, err := judgeBook(b)
	return &derived{j, authored, b}, err
}

// files makes the files of the release. Where something could not be read there
// are none. Of a draft the options may leave out what is in the way.
func (d *derived) files(opt seal.Options) (map[string][]byte, error) {
	if len(d.book.Unreadable) > 0 {
		return nil, nil
	}
	if opt.State == release.StateDraft {
		opt.InTheWay = d.lines()
	}
	return seal.Files(d.authored, d.book, opt, database.Write)
}
