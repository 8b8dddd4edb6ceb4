package main

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"snapgauge/cmd/internal/atomic"
	"snapgauge/cmd/internal/report"
	"snapgauge/cmd/internal/sheet"
	"snapgauge/schema"
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
			if cmd.Flags().Changed("for") && len(schema.SplitFacts(opt.facts)) == 0 {
				return errors.New("--for needs facts, such as --for 'variant=B gear=1250'")
			}
			if cmd.Flags().Changed("output") && !isPage(opt.out) {
				return fmt.Errorf("-o: %q is no name of a page; write one that ends with .html", opt.out)
			}
			opt.paths = args
			return makeSheet(cmd.Context(), s, opt)
		},
	}
	cmd.Flags().Var((*factsFlag)(&opt.facts), "for", "the machine in hand, as `facts`: 'variant=B gear=1250'")
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
	book, err := openSheetBook(ctx, s.in, opt.paths)
	if err != nil {
		return err
	}
	lines := &report.Lines{Open: book.open}
	defer func() {
		lines.Close()
		err = errors.Join(err, book.close())
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

	if len(book.unread) > 0 {
		return refuse(book.unread, "no sheet is made of what could not be read", errUnreadable)
	}
	if err := mayWrite(opt.out, book.took); err != nil {
		return err
	}
	p := sheetPage{opt: opt, book: book.entries}
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
		Records: p.records, Facts: schema.SplitFacts(opt.facts), Queries: p.queries, Version: version,
		Draft: book.draft, Edition: book.edition, Seal: book.seal,
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

func isPage(name string) bool {
	ext := strings.ToLower(filepath.Ext(name))
	return ext == ".html" || ext == ".htm"
}

// mayWrite refuses to write over what was read, and through a link over what is no
// page.
func mayWrite(out string, took func(fs.FileInfo) bool) error {
	if err := notRead("-o", out, took); err != nil {
		return err
	}
	if to, ok := linked(out); ok && !isPage(to) {
		return fmt.Errorf("-o: %s leads to %s, which is no page; name a file that ends with .html", out, to)
	}
	return nil
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
	out, err := outputOf(p.opt.out)
	if err != nil {
		return err
	}
	if info, err := os.Stat(out); err == nil && !info.Mode().IsRegular() {
		return fmt.Errorf("-o: %s is there and is no file", out)
	}
	if err := atomic.File(out, func(w io.Writer) error { _, err := w.Write(page); return err }); err != nil {
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
	if facts := schema.SplitFacts(p.opt.facts); len(facts) > 0 {
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
