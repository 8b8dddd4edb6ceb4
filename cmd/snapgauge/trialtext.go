package main

import (
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strings"

	"snapgauge/verify/trial"
)

// writeTrialText prints a trial for people.
func writeTrialText(w io.Writer, r trial.Report) error {
	var b strings.Builder
	fmt.Fprintf(&b, "%s with %s; seed %d\n", count(r.Records, "record", "records"), count(r.Figures, "figure", "figures"), r.Seed)
	fmt.Fprintf(&b, "untouched: %s rejected, %d queried", count(r.Rejected, "record", "records"), r.Queried)
	if r.Rejected+r.Queried > 0 {
		b.WriteString("; no slips are planted in those")
	}
	b.WriteByte('\n')
	fmt.Fprintf(&b, "\n%-38s %5s %7s  %-18s %8s  %s\n", "", "", "", "", "", "what was meant is named")
	fmt.Fprintf(&b, "%-38s %5s %7s  %-18s %8s  %5s  %s\n", "slip", "units", "planted", "caught", "rejected", "first", "among three")
	for _, c := range r.Counts {
		trialRow(&b, c)
	}
	b.WriteByte('\n')
	for _, c := range totals(r.Counts) {
		trialRow(&b, c)
	}
	if len(r.Holes) > 0 {
		b.WriteString("\nrecords that slips pass through, worst first:\n")
	}
	for _, h := range r.Holes {
		fmt.Fprintf(&b, "%s: %s: %d of %s pass, such as %s: %s for %s\n",
			h.File, h.Record, h.Passed, count(h.Planted, "slip", "slips"), h.Example.Kind, h.Example.Reads, h.Example.Was)
		for _, a := range h.Add {
			fmt.Fprintf(&b, "    add %s: %d of the %d are caught\n", a.What, a.Closes, h.Passed)
		}
		switch {
		case len(h.Add) == 0:
			b.WriteString("    nothing that was tried closes it; have a second person compare it with its source\n")
		case 2*h.Add[0].Closes < h.Passed:
			b.WriteString("    that leaves most of them; have a second person compare it with its source\n")
		}
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// trialRow prints the counts of one kind of slip.
func trialRow(b *strings.Builder, c trial.Count) {
	units := ""
	if c.Units > 0 {
		units = fmt.Sprint(c.Units)
	}
	lo, hi := trial.Interval(c.Caught, c.Planted)
	caught := fmt.Sprintf("%s (%.0f to %.0f)", share(c.Caught, c.Planted), 100*lo, 100*hi)
	fmt.Fprintf(b, "%-38s %5s %7d  %-18s %8s  %5s  %s\n", c.Name, units, c.Planted, caught,
		share(c.Rejected, c.Planted), share(c.First, c.Caught), share(c.Named, c.Caught))
}

// share is k of n in per cent; of nothing it is a dash.
func share(k, n int) string {
	if n == 0 {
		return "-"
	}
	return fmt.Sprintf("%.0f %%", 100*float64(k)/float64(n))
}

// The line of a trial in the form json. Names and order are fixed.
type (
	trialJSON struct {
		Seed      uint64           `json:"seed"`
		Records   int              `json:"records"`
		Figures   int              `json:"figures"`
		Untouched trialUntouched   `json:"untouched"`
		Kinds     []trialCountJSON `json:"kinds"`
		Totals    []trialCountJSON `json:"totals"`
		Holes     []trialHoleJSON  `json:"holes"`
	}
	trialUntouched struct {
		Rejected int `json:"rejected"`
		Queried  int `json:"queried"`
	}
	// A count; units is 0 for a total of both. The interval is that in which the
	// share caught lies with 95 %.
	trialCountJSON struct {
		Kind     string     `json:"kind"`
		Name     string     `json:"name"`
		Units    int        `json:"units"`
		Planted  int        `json:"planted"`
		Caught   int        `json:"caught"`
		Rejected int        `json:"rejected"`
		Named    int        `json:"named"`
		First    int        `json:"first"`
		Interval [2]float64 `json:"interval"`
	}
	trialHoleJSON struct {
		File    string              `json:"file"`
		Pointer string              `json:"pointer"`
		Record  string              `json:"record"`
		Planted int                 `json:"planted"`
		Passed  int                 `json:"passed"`
		Example trialExampleJSON    `json:"example"`
		Add     []trialAdditionJSON `json:"add"`
	}
	trialExampleJSON struct {
		Slip  string `json:"slip"`
		Was   string `json:"was"`
		Reads string `json:"reads"`
	}
	trialAdditionJSON struct {
		What   string `json:"what"`
		Closes int    `json:"closes"`
	}
)

// writeTrialJSON prints a trial as one object on one line.
func writeTrialJSON(w io.Writer, r trial.Report) error {
	out := trialJSON{
		Seed: r.Seed, Records: r.Records, Figures: r.Figures, Untouched: trialUntouched{r.Rejected, r.Queried},
		Kinds: countsJSON(r.Counts), Totals: countsJSON(totals(r.Counts)), Holes: []trialHoleJSON{},
	}
	for _, h := range r.Holes {
		x := trialHoleJSON{
			File: h.File, Pointer: h.Pointer, Record: h.Record, Planted: h.Planted, Passed: h.Passed,
			Example: trialExampleJSON{h.Example.Kind, h.Example.Was, h.Example.Reads}, Add: []trialAdditionJSON{},
		}
		for _, a := range h.Add {
			x.Add = append(x.Add, trialAdditionJSON(a))
		}
		out.Holes = append(out.Holes, x)
	}
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	return enc.Encode(out)
}

func countsJSON(counts []trial.Count) []trialCountJSON {
	out := []trialCountJSON{}
	for _, c := range counts {
		lo, hi := trial.Interval(c.Caught, c.Planted)
		out = append(out, trialCountJSON{c.Kind, c.Name, c.Units, c.Planted, c.Caught, c.Rejected, c.Named, c.First, [2]float64{tenThousandths(lo), tenThousandths(hi)}})
	}
	return out
}

func tenThousandths(x float64) float64 { return math.Round(x*1e4) / 1e4 }
