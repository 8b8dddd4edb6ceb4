package changelist

import (
	_ "embed"
	"fmt"
	"html/template"
	"io"
	"strings"

	"snapgauge/cmd/internal/report"
	"snapgauge/verify/edition"
	"snapgauge/verify/rule"
)

//go:embed page.html
var pageText string

var pageTemplate = template.Must(template.New("page").Parse(pageText))

// page is what the template is filled with. It asks for nothing from outside.
type page struct {
	Old, New, Summary string
	Caution           string
	Unread            []row
	Machines          []section
	Same              bool // nothing has changed
}

// section is one machine.
type section struct {
	Machine string
	Groups  []group
}

// group holds the changes of some kinds.
type group struct {
	Title string
	Note  string
	// Figures have columns of their own; otherwise a row is a sentence.
	Figures bool
	Rows    []row
}

type row struct {
	Record, Where string
	Field, Label  string
	Was, Now      string
	Means         string
	Text          string
	At            string
}

// groups are the parts of a section, what a fitter must know first.
var groups = []struct {
	title, note string
	figures     bool
	kinds       []edition.Kind
}{
	{"Not read or not compared", "Nothing is known of these. Mend the files and compare again.", false, []edition.Kind{edition.Unreadable}},
	{"Figures that moved", "", true, []edition.Kind{edition.Figure}},
	{"Gone", "Records of the old edition that the new one does not have.", false, []edition.Kind{edition.Gone}},
	{"New", "", false, []edition.Kind{edition.New}},
	{"Another record in its place", "", false, []edition.Kind{edition.Superseded}},
	{"Renamed", "The same records under other ids.", false, []edition.Kind{edition.Renamed}},
	{"Other machines", "Records that apply to other variants or numbers than before.", true, []edition.Kind{edition.Applies, edition.Machine}},
	{"Other words", "", true, []edition.Kind{edition.Text}},
	{"Other sources", "", false, []edition.Kind{edition.Source}},
	{"Other places in the source", "", true, []edition.Kind{edition.Place}},
	{"Restated", "The same figures in other digits or units.", true, []edition.Kind{edition.Restated}},
}

func (l *List) page(w io.Writer) error {
	p := page{
		Old: report.Plain(l.Old), New: report.Plain(l.New), Summary: l.Summary(),
		Caution: strings.TrimPrefix(strings.Join(strings.Fields(l.Caution), " "), "caution: "),
	}
	for _, u := range l.Unread {
		p.Unread = append(p.Unread, row{Text: report.Plain(u.text()), At: where(u.Place)})
	}
	of := map[string]int{}
	var changes [][]edition.Change
	for c := range l.shown {
		i, met := of[c.Machine]
		if !met {
			i = len(p.Machines)
			of[c.Machine] = i
			name := c.Name
			if name == "" {
				name = c.Machine
			}
			p.Machines = append(p.Machines, section{Machine: report.Plain(name)})
			changes = append(changes, nil)
		}
		changes[i] = append(changes[i], c)
	}
	for i := range p.Machines {
		p.Machines[i].Groups = grouped(changes[i])
	}
	p.Same = len(p.Machines) == 0 && len(p.Unread) == 0
	if err := pageTemplate.Execute(w, p); err != nil {
		return fmt.Errorf("write the page: %w", err)
	}
	return nil
}

func grouped(changes []edition.Change) []group {
	var out []group
	for _, g := range groups {
		x := group{Title: g.title, Note: g.note, Figures: g.figures}
		for _, kind := range g.kinds {
			for _, c := range changes {
				if c.Kind == kind {
					x.Rows = append(x.Rows, rowOf(c))
				}
			}
		}
		if len(x.Rows) > 0 {
			out = append(out, x)
		}
	}
	return out
}

func rowOf(c edition.Change) row {
	at := c.At
	if at == (rule.Place{}) {
		at = c.WasAt
	}
	return row{
		Record: report.Plain(c.Record), Where: report.Plain(c.Where), Field: report.Plain(c.Field.Words()), Label: report.Plain(c.Label),
		Was: report.Plain(orNone(c.Was)), Now: report.Plain(orNone(c.Now)), Means: report.Plain(c.Means),
		Text: report.Plain(Line(c)), At: where(at),
	}
}
