package physics

import (
	"fmt"
	"strings"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/joint"
	"snapgauge/verify/rule"
)

// runningMargin: what is printed are limits for one kind of nut each; others
// lie within twice of them (7/16-20 has 8 and 14 lbf·in as its least in two
// documents).
const runningMargin = 2

// PrevailingTorqueOutside queries a running torque that is far from what is
// printed for lock nuts of its thread, or that leaves nothing to clamp with.
var PrevailingTorqueOutside = &rule.Check{
	ID: "prevailing-torque-outside", Layer: rule.Physics, Title: "running torque outside what is printed",
	Doc: doc("prevailing-torque-outside.md"), Source: prevailingSource(), Since: "v0.1.0",
	Verdict: rule.Query,
	Record:  prevailingTorqueOutside,
}

func prevailingSource() reference.Citation {
	return reference.Citation{
		ID: "ac-43.13-1b", Seen: reference.SeenTwice,
		Text: "US Army TM 1-1500-204-23-6 table 2-8, FAA AC 43.13-1B table 7-2 and ISO 2320, running torque of lock nuts",
	}
}

func prevailingTorqueOutside(p *rule.Pass) {
	if p.Record == nil || p.Record.Prevailing.Torque.IsZero() {
		return
	}
	figure, path := &p.Record.Prevailing.Torque, schema.At("prevailing", "torque")
	v, i, ok := figure.First()
	if !ok {
		return
	}
	lo, hi, ok := joint.Ends(v)
	if !ok {
		return
	}
	if drags(p, v, rule.NumberAt(figure, path, i), lo) {
		return
	}
	n := lockNut(p.Record)
	if n < 0 {
		return
	}
	thread := p.Record.Fasteners.Items[n].Thread
	t, problem := reference.ParseThread(thread)
	if thread == "" || problem != nil {
		return
	}
	usual, source, ok := runningOf(t)
	if !ok {
		return
	}
	// A range is judged by its middle, a single figure as widely as its digits allow.
	switch v.Quantity.Form {
	case convert.Range, convert.Deviation:
		lo = (lo + hi) / 2
		hi = lo
	}
	low, high := usual.Lo/runningMargin, usual.Hi*runningMargin
	side := ""
	switch {
	case hi < low && v.Quantity.Form != convert.AtLeast:
		side = "low"
	case lo > high:
		side = "high"
	default:
		return
	}
	u := v.Quantity.Unit
	want := span(low, high, middleOf(v), u)
	p.Report(rule.Finding{
		Verdict: rule.Query, At: rule.NumberAt(figure, path, i), Read: v.Text, Want: want, Source: source,
		Message: fmt.Sprintf("%s is unusually %s for the running torque of a lock nut %s; usual are %s, half of the least to twice the most that is printed", v.Text, side, thread, want),
		Related: []rule.Related{{At: schema.Spot{Path: p.Record.Fasteners.At(n).Field("thread")}, Message: "this thread"}},
	})
}

// drags reports a tightening torque that does not exceed the running torque it
// is said to include.
func drags(p *rule.Pass, running *convert.Value, at schema.Spot, leastRunning float64) bool {
	inc := p.Record.Prevailing.Included
	if inc == nil || !*inc || running.Quantity.Form == convert.AtMost {
		return false
	}
	for i := range p.Record.Fasteners.Items {
		for k := range p.Record.Tighten {
			if joint.RoleOf(p.Record, i, k) != joint.Final {
				continue
			}
			v, n, ok := p.Record.Tighten[k].To.First()
			if !ok {
				continue
			}
			if _, most, ok := joint.Ends(v); !ok || v.Quantity.Form == convert.AtLeast || most >= leastRunning {
				continue
			}
			p.Report(rule.Finding{
				Verdict: rule.Query, At: at, Read: running.Text, Want: "less than " + v.Text,
				Message: fmt.Sprintf("a running torque of %s leaves nothing of %s to clamp with", running.Text, v.Text),
				Related: []rule.Related{{
					At: rule.NumberAt(&p.Record.Tighten[k].To, schema.At("tighten", k, "to"), n), Message: "the torque that includes it",
				}},
			})
			return true
		}
	}
	return false
}

// lockNut is the fastener that a running torque speaks of: the only prevailing
// nut, or the only fastener; -1 where that is open.
func lockNut(r *schema.Record) int {
	found := -1
	for i := range r.Fasteners.Items {
		if r.Fasteners.Items[i].Type != "prevailing nut" {
			continue
		}
		if found >= 0 && r.Fasteners.Items[i].Thread != r.Fasteners.Items[found].Thread {
			return -1
		}
		found = i
	}
	if found < 0 && len(r.Fasteners.Items) == 1 {
		return 0
	}
	return found
}

// runningOf is the span of running torques (N·m) that the rows of a thread
// print or imply.
func runningOf(t reference.Thread) (joint.Span, reference.Citation, bool) {
	least, most := 0.0, 0.0
	var source reference.Citation
	for _, row := range reference.Prevailing(t) {
		q := row.Quantity
		switch {
		case strings.Contains(q, "least allowed") && row.Min > 0:
			if least == 0 || row.Min < least {
				least = row.Min
			}
		case strings.Contains(q, "most allowed") && row.Max > 0:
			most = max(most, row.Max)
		default:
			continue
		}
		if source.IsZero() {
			source = row.Source
		}
	}
	span, ok := joint.RunningSpanNm(least, most)
	return span, source, ok
}
