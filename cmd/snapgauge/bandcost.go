package main

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/joint"
)

// cost is what a fact that is not known costs: the usual band as it would be
// with the word that narrows it most, and with the one that narrows it least.
type cost struct {
	flag        string
	best, worst costWith
}

type costWith struct {
	word string
	band joint.Band
}

// factor is how many times the least of the usual band goes into the most.
func (c costWith) factor() float64 { return c.band.UsualHiNm / c.band.UsualLoNm }

// costList tries every word of every fact that is missing, the dearest fact first.
func (q *question) costList() []cost {
	f := &q.facts
	var out []cost
	try := func(missing bool, flag string, words []string, set func(*joint.Words, string)) {
		if !missing {
			return
		}
		var c cost
		for _, word := range words {
			w := q.words
			set(&w, word)
			facts, ok := joint.Read(w)
			if !ok {
				continue
			}
			with := costWith{word, joint.BandOf(facts)}
			if c.flag == "" {
				c = cost{flag, with, with}
			}
			if with.factor() < c.best.factor()*(1-1e-9) {
				c.best = with
			}
			if with.factor() > c.worst.factor()*(1+1e-9) {
				c.worst = with
			}
		}
		if c.flag != "" {
			out = append(out, c)
		}
	}
	var pitches []string
	for _, t := range f.Threads {
		pitches = append(pitches, t.Designation)
	}
	try(len(f.Threads) > 1, "the pitch", pitches, func(w *joint.Words, s string) { w.Thread = s })
	try(len(f.Strengths) == 0, "--class", q.classesThatFit(), func(w *joint.Words, s string) { w.Class = s })
	try(f.Condition == "" && f.MuLo == 0, "--threads", schema.Vocabulary("threads"), func(w *joint.Words, s string) { w.Threads = s })
	try(f.Head == "", "--head", schema.Vocabulary("head"), func(w *joint.Words, s string) { w.Head = s })
	// Plastic is no gap of knowledge: who screws into it says so.
	solid := slices.DeleteFunc(slices.Clone(schema.Vocabulary("into")), func(s string) bool { return s == "plastic" })
	try(f.Into == "", "--into", solid, func(w *joint.Words, s string) { w.Into = s })
	slices.SortStableFunc(out, func(a, b cost) int {
		return cmp.Compare(a.best.factor()*a.worst.factor(), b.best.factor()*b.worst.factor())
	})
	return out
}

// classesThatFit are the classes of the tables that the thread may have.
func (q *question) classesThatFit() []string {
	var all, own []string
	t := q.facts.Thread
	for _, s := range reference.Strengths() {
		r := reference.ReadClass(s.Designation, t.D, t.Family == reference.Metric)
		if !r.Known || !r.Exists || !r.InTables || r.Foreign || !r.SizeFits || slices.Contains(all, s.Designation) {
			continue
		}
		all = append(all, s.Designation)
		if (s.Part == "nut") == (q.facts.Part == joint.NutPart) {
			own = append(own, s.Designation)
		}
	}
	if len(own) > 0 {
		return own
	}
	return all
}

func (p *bandPage) costs() {
	list := p.costList()
	if len(list) == 0 {
		return
	}
	u := p.torque.first
	fmt.Fprintf(&p.b, "\nwhat each missing fact costs: the usual band is now %s, a factor of %s\n",
		span(p.band.UsualLoNm, p.band.UsualHiNm, u, 2), times(costWith{band: p.band}))
	p.row("  if known", "narrowest (factor)", "widest (factor)")
	for _, c := range list {
		show := func(w costWith) string {
			return fmt.Sprintf("%s: %s (%s)", w.word, strings.TrimSuffix(span(w.band.UsualLoNm, w.band.UsualHiNm, u, 2), " "+u.Symbol()), times(w))
		}
		p.row("  "+c.flag, show(c.best), show(c.worst))
	}
}

func times(w costWith) string {
	if f := w.factor(); f >= 10 {
		return fmt.Sprintf("%.0f", f)
	}
	return fmt.Sprintf("%.1f", w.factor())
}
