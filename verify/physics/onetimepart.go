package physics

import (
	"fmt"
	"strings"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// OneTimePart notes a seal or a locking nut that serves once and is not named
// under renew.
var OneTimePart = &rule.Check{
	ID: "one-time-part", Layer: rule.Physics, Title: "one-time part without renewal",
	Doc: doc("one-time-part.md"), Source: reference.Cite("common-practice"), Since: "v0.1.0",
	Verdict: rule.Note,
	Record:  oneTimePart,
}

func oneTimePart(p *rule.Pass) {
	r := p.Record
	if r == nil || len(r.Tighten) == 0 {
		return
	}
	switch s := string(r.Joint.Seal); s {
	case "gasket", "O-ring", "crush washer", "bonded seal":
		if !reusable(r) {
			noteOneTime(p, s, schema.At("joint", "seal"), s)
		}
	}
	for i := range r.Fasteners.Items {
		if r.Fasteners.Items[i].Type == "prevailing nut" {
			noteOneTime(p, "self-locking nut", r.Fasteners.At(i).Field("type"), "prevailing nut")
			return
		}
	}
}

// reusable: the gasket of a spark plug serves again (makers; see the table of
// one-time parts).
func reusable(r *schema.Record) bool {
	return len(r.Fasteners.Items) > 0 && r.Fasteners.Items[0].Type == "spark plug"
}

func noteOneTime(p *rule.Pass, part string, at schema.Path, read string) {
	for _, item := range p.Record.Renew {
		if strings.Contains(item, part) {
			return // the usual case, without reading the words
		}
	}
	if reference.RenewCovers(p.Record.Renew, part) {
		return
	}
	rows := reference.OneUse(part)
	if len(rows) == 0 {
		return
	}
	row := rows[0]
	for _, other := range rows {
		if other.Always() {
			row = other
			break
		}
	}
	f := rule.Finding{
		Verdict: rule.Note, At: schema.Spot{Path: at}, Read: read, Want: "renew: [" + part + "]", Source: row.Source,
		Message: fmt.Sprintf("%s %s serves once (%s), and renew does not name it", article(part), part, row.Rule),
	}
	if f.Source.ID == "" {
		f.Source.ID = "common-practice"
	}
	p.Report(f)
}

func article(noun string) string {
	if strings.ContainsRune("AEIOUaeiou", rune(noun[0])) {
		return "an"
	}
	return "a"
}
