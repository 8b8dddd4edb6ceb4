package main

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"snapgauge/cmd/internal/report"
	"snapgauge/cmd/internal/sheet"
	"snapgauge/schema"
	"snapgauge/verify"
	"snapgauge/verify/rule"
)

type sheetOptions struct {
	paths   []string
	facts   string
	machine string
	items   []string
	out     string
}

func newSheet(s streams) *cobra.Command {
	var opt sheetOptions
	cmd := &cobra.Command{
		Use:   "sheet RELEASE|PATH… --for FACTS [-o FILE.html]",
		Short: "make the page that a tech takes to the machine",
		Long: `Sheet makes one page of the records that apply to the machine in hand: cautions
first, torques large, fills and levels, tolerances with a column for the reading,
and what is not published or misprinted, said plainly. It is one HTML file that
needs nothing else and prints on A4 and on Letter.

Figures stand as they are printed. What is worked out in another unit is smaller
and marked as converted; an order or a picture stands there only where the record
has it. A query that is open stands beside its figure.

Where the checks reject a record that would stand on the sheet, no sheet is made
and the findings are shown; likewise where something could not be read, or where
a fact is missing that decides which record applies. What is made from spec files
and not from a release is marked as a draft.`,
		Example: "  snapgauge sheet specs/demo/wrackline-40.yaml --for 'variant=B gear=1250' -o sheet.html\n" +
			"  snapgauge sheet specs/demo --machine kedge-5 -o kedge.html\n" +
			"  snapgauge sheet specs/demo/kedge-5.yaml --item gearbox-oil > oil.html",
		Args: needs(1, -1, "a release or a path"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if cmd.Flags().Changed("for") && len(factsOf(opt.facts)) == 0 {
				return errors.New("--for needs facts, such as --for 'variant=B gear=1250'")
			}
			if ext := strings.ToLower(filepath.Ext(opt.out)); cmd.Flags().Changed("output") && ext != ".html" && ext != ".htm" {
				return fmt.Errorf("-o: %q is no name of a page; write one that ends with .html", opt.out)
			}
			opt.paths = args
			return makeSheet(cmd.Context(), s, opt)
		},
	}
	cmd.Flags().StringVar(&opt.facts, "for", "", "the machine in hand, as `facts`: 'variant=B gear=1250'")
	cmd.Flags().StringVar(&opt.machine, "machine", "", "`id` of the machine, where there are books of several")
	cmd.Flags().StringSliceVar(&opt.items, "item", nil, "`id` of an item or record to show, and no others; may be given again")
	cmd.Flags().StringVarP(&opt.out, "output", "o", "", "`file` to write; standard output otherwise")
	complete(cmd, "for", nil)
	complete(cmd, "machine", nil)
	complete(cmd, "item", nil)
	return cmd
}

// makeSheet reads the book, settles what applies and that it goes, and writes the
// page, whole or not at all.
func makeSheet(ctx context.Context, s streams, opt sheetOptions) (err error) {
	f := &files{stdin: s.in, as: "auto", keep: true, ledgers: &ledgers{}}
	lines := &report.Lines{Open: f.reopen}
	defer func() {
		lines.Close()
		err = errors.Join(err, f.close())
	}()
	findings := &bytes.Buffer{}
	w, err := report.New("text", findings, report.Options{Lines: lines, Checks: checks(), Version: version})
	if err != nil {
		return err
	}
	refuse := func(found []rule.Finding, say string, as error) error {
		for _, x := range found {
			if err := w.Finding(x); err != nil {
				return err
			}
		}
		if err := w.Close(false); err != nil {
			return err
		}
		if _, err := fmt.Fprintf(s.err, "%ssnapgauge: %s\n", findings, say); err != nil {
			return err
		}
		return as
	}

	p := sheetPage{opt: opt}
	var unread []rule.Finding
	for e, bad := range f.entries(opt.paths) {
		if ctx.Err() != nil {
			return errors.New("interrupted")
		}
		if bad != nil {
			unread = append(unread, unreadableFinding(e, bad))
			continue
		}
		p.book = append(p.book, e)
	}
	if len(unread) > 0 {
		return refuse(unread, "no sheet is made of what could not be read", errUnreadable)
	}
	if err := p.choose(); err != nil {
		return err
	}
	if err := p.judge(); err != nil {
		return err
	}
	if len(p.rejects) > 0 {
		return refuse(p.rejects, "no sheet is made of what is rejected; put it right first", errRejected)
	}
	made, err := sheet.Make(sheet.Input{
		Records: p.records, Facts: factsOf(opt.facts), Queries: p.queries, Version: version,
		Draft: "Made from spec files, not from a release.",
	})
	if err != nil {
		return err
	}
	var page bytes.Buffer
	if err := made.Write(&page); err != nil {
		return err
	}
	if err := p.write(s, page.Bytes()); err != nil {
		return err
	}
	fmt.Fprintf(s.err, "%s for %s: %s\n", count(len(p.records), "record", "records"), p.machineInHand(), p.summary())
	warn(s.err)
	return nil
}

// sheetPage is one run.
type sheetPage struct {
	opt     sheetOptions
	book    []schema.Entry // of the machine
	chosen  *chosen
	records []schema.Entry // that stand on the sheet
	rejects []rule.Finding
	queries []rule.Finding
}

// choose narrows the book to the machine and finds the records that apply.
func (p *sheetPage) choose() error {
	if err := p.ofMachine(); err != nil {
		return err
	}
	wanted, err := p.wanted()
	if err != nil {
		return err
	}
	if p.chosen, err = chooseFor(slices.Values(wanted), p.opt.facts); err != nil {
		return err
	}
	gone := p.replaced()
	met := map[string]bool{}
	for _, e := range wanted {
		if e.HeadOnly || !p.chosen.applies[e.Record.ID] || gone[e.Record.ID] {
			continue
		}
		met[e.Record.ItemName()], met[e.Record.ID] = true, true
		p.records = append(p.records, e)
	}
	for _, id := range p.opt.items {
		if !met[id] {
			return fmt.Errorf("--item: %s does not apply to %s", id, p.machineInHand())
		}
	}
	if len(p.records) == 0 {
		return fmt.Errorf("no record applies to %s", p.machineInHand())
	}
	return nil
}

// ofMachine keeps the book of one machine.
func (p *sheetPage) ofMachine() error {
	var ids []string
	for _, e := range p.book {
		if id := e.Head.Machine.ID; !slices.Contains(ids, id) {
			ids = append(ids, id)
		}
	}
	shown := strings.Join(ids[:min(len(ids), 8)], ", ")
	switch want := p.opt.machine; {
	case want == "" && len(ids) > 1:
		return fmt.Errorf("there are books of %d machines: %s; name one with --machine", len(ids), shown)
	case want == "":
		return nil
	case !slices.Contains(ids, want):
		if near := schema.Nearest(want, ids); near != "" {
			return fmt.Errorf("--machine: no book of %q; did you mean %q?", want, near)
		}
		return fmt.Errorf("--machine: no book of %q; there are %s", want, shown)
	}
	p.book = slices.DeleteFunc(p.book, func(e schema.Entry) bool { return e.Head.Machine.ID != p.opt.machine })
	return nil
}

// wanted are the records of the items that were named, or all.
func (p *sheetPage) wanted() ([]schema.Entry, error) {
	if len(p.opt.items) == 0 {
		return p.book, nil
	}
	var known []string
	var out []schema.Entry
	items := map[string]bool{} // of the records that were named
	for _, e := range p.book {
		if !e.HeadOnly {
			known = append(known, e.Record.ItemName(), e.Record.ID)
			if slices.Contains(p.opt.items, e.Record.ID) || slices.Contains(p.opt.items, e.Record.ItemName()) {
				items[e.Record.ItemName()] = true
			}
		}
	}
	for _, id := range p.opt.items {
		if slices.Contains(known, id) {
			continue
		}
		if near := schema.Nearest(id, known); near != "" {
			return nil, fmt.Errorf("--item: nothing is named %q; did you mean %q?", id, near)
		}
		return nil, fmt.Errorf("--item: nothing is named %q", id)
	}
	for _, e := range p.book {
		if e.HeadOnly || items[e.Record.ItemName()] {
			out = append(out, e)
		}
	}
	return out, nil
}

// replaced are the records that another replaces which applies to the machine,
// whatever item they are of.
func (p *sheetPage) replaced() map[string]bool {
	var records []schema.Entry
	var by []int
	for _, e := range p.book {
		if e.HeadOnly {
			continue
		}
		if p.chosen.applies[e.Record.ID] {
			by = append(by, len(records))
		}
		records = append(records, e)
	}
	return replacedBy(records, by)
}

// judge runs the checks over the book and keeps what they say of the records on
// the sheet.
func (p *sheetPage) judge() error {
	shown := map[string]bool{}
	for _, e := range p.records {
		shown[e.Record.ID] = true
	}
	return verify.Run(slices.Values(p.book), verify.Options{}, func(f rule.Finding) bool {
		if !p.chosen.concerns(f) || f.Place.Record != "" && !shown[f.Place.Record] {
			return true
		}
		switch f.Verdict {
		case rule.Reject:
			p.rejects = append(p.rejects, f)
		case rule.Query:
			p.queries = append(p.queries, f)
		}
		return true
	})
}

func (p *sheetPage) write(s streams, page []byte) error {
	if p.opt.out == "" {
		out := bufio.NewWriter(s.out)
		_, err := out.Write(page)
		if err = errors.Join(err, out.Flush()); err != nil {
			return fmt.Errorf("write the sheet: %w", err)
		}
		return nil
	}
	if err := writeWhole(p.opt.out, page); err != nil {
		return fmt.Errorf("write the sheet: %w", err)
	}
	return nil
}

// machineInHand names the machine with the facts that were given.
func (p *sheetPage) machineInHand() string {
	name := p.opt.machine
	if name == "" && len(p.book) > 0 {
		name = p.book[0].Head.Machine.ID
	}
	if facts := factsOf(p.opt.facts); len(facts) > 0 {
		name += " with " + strings.Join(facts, " ")
	}
	return name
}

func (p *sheetPage) summary() string {
	text := count(len(p.queries), "open question", "open questions")
	waiting := 0
	for i := range p.records {
		if how, _, err := p.records[i].Standing(); err != nil || how != schema.Signed {
			waiting++
		}
	}
	return fmt.Sprintf("%s, %d not countersigned", text, waiting)
}
