package sheet

import (
	"slices"
	"strings"

	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// Input is what a sheet is made of.
type Input struct {
	// Records are those to show, in their order: of one machine, each read
	// without a fault, none of them rejected, none replaced by another.
	Records []schema.Entry
	// Facts are those of the machine in hand, as given: "variant=B gear=1250".
	Facts []string
	// Queries are what the checks ask about the records, or about their book.
	Queries []rule.Finding
	// Draft says why the sheet is a draft; "" where it is none.
	Draft string
	// Edition names the release that the records come from, "" where there is
	// none.
	Edition string
	// Seal tells the release from every other, for the foot of the sheet.
	Seal string
	// Version is that of the program.
	Version string
}

// Sheet is what stands on the page.
type Sheet struct {
	Machine   string // name
	ID        string
	Facts     []string
	Draft     string
	Edition   string
	Seal      string
	Version   string
	Counts    []Count
	Cautions  []Caution
	Questions []Question // about the book
	Sections  []Section
	Sources   []string
	Wrenches  []string // those that are set on the sheet
	Records   int
}

// Count is how many there are of something.
type Count struct {
	N    int
	What string
}

// Section holds the records of one kind.
type Section struct {
	Title  string
	ID     string
	Blocks []Block
}

// Block is one card, or a run of plain tolerances that share a table.
type Block struct {
	Card *Card
	Rows []*Card
}

// Make puts a sheet together. The error is of a record whose fingerprint cannot
// be formed.
func Make(in Input) (*Sheet, error) {
	s := &Sheet{Draft: clean(in.Draft), Edition: clean(in.Edition), Seal: clean(in.Seal), Version: in.Version, Records: len(in.Records)}
	s.Facts = factsOf(in)
	marks := numberCautions(in.Records)
	s.Cautions = marks.list
	s.Sources = sourcesOf(in.Records)
	for _, q := range in.Queries {
		if q.Place.Record == "" {
			s.Questions = append(s.Questions, Question{Text: clean(q.Message), Check: q.Check})
		}
	}
	var all []*Card
	for i := range in.Records {
		e := &in.Records[i]
		if s.ID == "" {
			s.ID, s.Machine = e.Head.Machine.ID, clean(e.Head.Machine.Name)
		}
		card, err := newCard(e, in, marks)
		if err != nil {
			return nil, err
		}
		all = append(all, card)
	}
	if s.Machine == "" {
		s.Machine = s.ID
	}
	s.Sections = sections(all)
	s.Counts = counts(s, all)
	s.Wrenches = wrenchesOf(in.Records, all)
	return s, nil
}

// factsOf are the facts as they are read. Where the machine has variants and none
// was named, every record holds for all of them, and that is said.
func factsOf(in Input) []string {
	var out []string
	variant := len(in.Records) == 0 || len(in.Records[0].Head.Variants) == 0
	for _, f := range in.Facts {
		name, value, _ := strings.Cut(f, "=")
		variant = variant || strings.TrimSpace(name) == "variant"
		out = append(out, clean(strings.TrimSpace(name)+" "+strings.TrimSpace(value)))
	}
	if !variant {
		out = append([]string{"any variant"}, out...)
	}
	return out
}

// sections sorts the cards by kind. Those that only say that nothing is
// published stand last.
func sections(all []*Card) []Section {
	var out []Section
	for _, kind := range []struct{ kind, title, id string }{
		{schema.KindTorque, "Torques", "torques"},
		{schema.KindFill, "Fills and levels", "fills"},
		{schema.KindTolerance, "Clearances and tolerances", "tolerances"},
		{"", "Not published", "unpublished"},
	} {
		var cards []*Card
		for _, c := range all {
			if c.section() == kind.kind {
				cards = append(cards, c)
			}
		}
		if len(cards) > 0 {
			out = append(out, Section{Title: kind.title, ID: kind.id, Blocks: blocks(byPlace(cards))})
		}
	}
	return out
}

// byPlace puts the records of one place together, where the first of them
// stands.
func byPlace(cards []*Card) []*Card {
	var out []*Card
	for i, c := range cards {
		if slices.ContainsFunc(cards[:i], func(before *Card) bool { return before.Where == c.Where }) {
			continue
		}
		for _, d := range cards[i:] {
			if d.Where == c.Where {
				out = append(out, d)
			}
		}
	}
	return out
}

// blocks lets tolerances without a table of their own share one.
func blocks(cards []*Card) []Block {
	var out []Block
	for _, c := range cards {
		switch last := len(out) - 1; {
		case c.Tolerance == nil || c.Tolerance.Select != nil || len(c.Tolerance.Rows) == 0:
			out = append(out, Block{Card: c})
		case last >= 0 && out[last].Rows != nil:
			out[last].Rows = append(out[last].Rows, c)
		default:
			out = append(out, Block{Rows: []*Card{c}})
		}
	}
	return out
}

// counts tells what to expect on the sheet.
func counts(s *Sheet, all []*Card) []Count {
	kinds, unpublished, misprints, asked, unsigned := map[string]int{}, 0, 0, len(s.Questions), 0
	for _, c := range all {
		kinds[c.section()]++
		if c.Unpublished != nil {
			unpublished++
		}
		if c.Misprint != nil {
			misprints++
		}
		asked += len(c.Questions)
		if !c.Foot.Signed {
			unsigned++
		}
	}
	var out []Count
	add := func(n int, one, many string) {
		if n == 1 {
			out = append(out, Count{n, one})
		} else if n > 1 {
			out = append(out, Count{n, many})
		}
	}
	add(kinds[schema.KindTorque], "torque", "torques")
	add(kinds[schema.KindFill], "fill", "fills")
	add(kinds[schema.KindTolerance], "tolerance", "tolerances")
	add(unpublished, "not published", "not published")
	add(misprints, "misprint", "misprints")
	add(asked, "open question", "open questions")
	add(unsigned, "not countersigned", "not countersigned")
	return out
}
