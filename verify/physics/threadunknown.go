package physics

import (
	"fmt"
	"slices"
	"strings"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// ThreadUnknown rejects a thread that cannot exist, queries one that cannot be
// read, and notes one that no standard lists.
var ThreadUnknown = &rule.Check{
	ID: "thread-unknown", Layer: rule.Physics, Title: "thread that does not exist",
	Doc: doc("thread-unknown.md"), Source: reference.Cite("iso-261"), Since: "v0.1.0",
	Verdict: rule.Reject,
	Record:  threadUnknown,
}

func threadUnknown(p *rule.Pass) {
	if p.Record == nil {
		return
	}
	for i := range p.Record.Fasteners.Items {
		text := p.Record.Fasteners.Items[i].Thread
		if text == "" {
			continue
		}
		at := schema.Spot{Path: p.Record.Fasteners.At(i).Field("thread")}
		t, problem := reference.ParseThread(text)
		switch {
		case problem != nil:
			f := rule.Finding{Verdict: rule.Query, At: at, Read: text, Message: problem.Message}
			switch {
			case problem.Certain:
				f.Verdict = rule.Reject
			case problem.Kind == reference.NotAThread && namesSize(p.Record.Fasteners.Items[i].Type):
				if _, known := printedFor(&p.Record.Fasteners.Items[i]); known {
					continue // its torque is checked by that size
				}
				f.Verdict = rule.Note
				f.Message = fmt.Sprintf("%q names no thread, so its torque is not checked", text)
			}
			if 0 <= problem.Start && problem.Start < problem.End && problem.End <= len(text) {
				f.At.From, f.At.To = problem.Start, problem.End
			}
			f.Want = strings.Join(problem.Near, ", ")
			if t.Family == reference.Unified {
				f.Source = reference.Cite("asme-b1.1")
			}
			p.Report(f)
		case !t.Listed && (t.Family == reference.Metric || t.Family == reference.Unified):
			f := rule.Finding{
				Verdict: rule.Note, At: at, Read: text, Want: strings.Join(reference.Nearest(t), ", "),
				Message: fmt.Sprintf("%s is not listed for its diameter by ISO 261; a special thread, or another was meant", t.Designation),
			}
			if t.Family == reference.Unified {
				f.Message = strings.Replace(f.Message, "ISO 261", "ASME B1.1", 1)
				f.Source = reference.Cite("asme-b1.1")
			}
			if coarser(t) {
				f.Verdict = rule.Query
				f.Message = fmt.Sprintf("%s is coarser than the coarse thread of its diameter; the pitch, or the diameter, is another row's", t.Designation)
			}
			p.Report(f)
		}
	}
}

// coarser reports a pitch beyond the coarsest that is listed for the diameter.
func coarser(t reference.Thread) bool {
	listed := reference.ThreadsOfSize(t)
	return len(listed) > 0 && !slices.ContainsFunc(listed, func(l reference.Thread) bool { return l.Pitch >= t.Pitch*0.999 })
}

// namesSize reports that print names such a fastener by something else than its
// thread: a tube by its diameter, a clamp by its band, a spark plug by its size.
func namesSize(kind string) bool {
	switch kind {
	case "plug", "banjo", "pipe fitting", "tube nut", "spark plug", "set screw", "adjusting nut", "clamp":
		return true
	}
	return false
}
