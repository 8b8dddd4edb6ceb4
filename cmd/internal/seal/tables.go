package seal

import (
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"snapgauge/specs/release"
)

// Tables are the tables of a release, each behind those that it refers to.
func Tables(d *release.Document) ([]*Table, error) {
	s := &sheets{state: d.State}
	s.about(d)
	s.machines(d)
	s.records(d)
	s.boxes(d)
	s.figures(d)
	s.answers(d)
	s.lists(d)
	if err := s.details(d); err != nil {
		return nil, err
	}
	return s.tables, nil
}

type sheets struct {
	state  string
	tables []*Table
}

// table begins a table. Key names the columns of its key, in order.
func (s *sheets) table(name, doc string, key string, columns ...Column) *Table {
	t := &Table{Name: name, Doc: doc, Columns: append([]Column{stateColumn}, columns...), Key: strings.Fields(key)}
	s.tables = append(s.tables, t)
	return t
}

func (t *Table) refer(columns, table, to string) *Table {
	t.References = append(t.References, Reference{strings.Fields(columns), table, strings.Fields(to)})
	return t
}

// add adds a row. An empty text is no value, but where the column is required.
func (s *sheets) add(t *Table, cells ...any) {
	row := []any{s.state}
	for i, x := range cells {
		switch y := x.(type) {
		case string:
			if y == "" && !t.Columns[i+1].Required {
				x = nil
			}
		case int:
			x = int64(y)
		case *int64:
			if x = nil; y != nil {
				x = *y
			}
		case *float64:
			if x = nil; y != nil {
				x = *y
			}
		}
		row = append(row, x)
	}
	t.Rows = append(t.Rows, row)
}

var (
	ofRecord  = Column{"record", Whole, true, "The number of the record."}
	ofMachine = Column{"machine", Text, true, "The id of the machine."}
)

func (s *sheets) about(d *release.Document) {
	t := s.table("about", "The release itself, in one row.", "format",
		Column{"format", Text, true, "The form of the release and its version."},
		Column{"edition", Text, false, "What the release is called."},
		Column{"tool", Text, true, "What made it, and its version."},
		Column{"caution", Text, true, "What a figure is worth."})
	s.add(t, d.Format, d.Edition, d.Tool, d.Caution)
}

func (s *sheets) machines(d *release.Document) {
	machines := s.table("machines", "The machines that records are about.", "machine",
		ofMachine, Column{"name", Text, false, "What it is called."})
	variants := s.table("variants", "The variants of each machine.", "machine variant",
		ofMachine, Column{"variant", Text, true, "The name of the variant."},
		Column{"place", Whole, true, "Its place among the variants of the machine, from 1."}).refer("machine", "machines", "machine")
	numberings := s.table("numberings", "The serial numbers that tell machines apart.", "machine numbering",
		ofMachine, Column{"numbering", Text, true, "The name of the numbering."},
		Column{"form", Text, false, "number, or date: days since 1970-01-01."},
		Column{"place", Whole, true, "Its place among the numberings of the machine, from 1."}).refer("machine", "machines", "machine")
	for _, m := range d.Machines {
		s.add(machines, m.ID, m.Name)
		for i, v := range m.Variants {
			s.add(variants, m.ID, v, i+1)
		}
		for i, n := range m.Serials {
			s.add(numberings, m.ID, n.Name, n.Form, i+1)
		}
	}
}

func (s *sheets) records(d *release.Document) {
	t := s.table("records", "The records: torques, fills and tolerances.", "record",
		ofRecord, ofMachine,
		Column{"item", Text, true, "The joint, filling place or measure. Records of one item are one thing on different machines."},
		Column{"id", Text, true, "The id of the record, unique within the machine."},
		Column{"kind", Text, false, "torque, fill or tolerance."},
		Column{"location", Text, false, "What the record is about, in words (its member where)."},
		Column{"applies_to", Text, true, "The machines that it applies to, in words; the tables boxes, box_variants and box_ranges say it exactly."},
		Column{"supersedes", Text, false, "The id of the record that it replaces."},
		Column{"source_title", Text, false, "Where its figures were printed."},
		Column{"source_edition", Text, false, "The edition of the source."},
		Column{"source_kind", Text, false, "maker, supplier, standard, handbook, government, shop, measured, or other: …"},
		Column{"source_at", Text, false, "Where in the source: a page, a table."},
		Column{"entered_by", Text, false, "Who wrote the record down."},
		Column{"entered_date", Text, false, "When, the year first."},
		Column{"fingerprint", Text, true, "f1: and the SHA-256 of the canonical form of the record."},
		Column{"countersigned_by", Text, false, "Who read it against its source; only a draft lacks it."},
		Column{"countersigned_date", Text, false, "When, the year first."},
		Column{"countersigned_fingerprint", Text, false, "The fingerprint of what was read."},
		Column{"unpublished_why", Text, false, "Why there is no figure: the maker prints none."},
		Column{"unpublished_do", Text, false, "What to do where there is none."},
		Column{"misprint_printed", Text, false, "The text that the source prints wrong; the figure that holds is /misprint/use."},
		Column{"misprint_because", Text, false, "Why it is known to be wrong."},
		Column{"misprint_source_title", Text, false, "The second source, which tells it."},
		Column{"misprint_source_edition", Text, false, "The edition of the second source."},
		Column{"misprint_source_kind", Text, false, "The kind of the second source."},
		Column{"misprint_source_at", Text, false, "Where in the second source."},
		Column{"misprint_by", Text, false, "Who says so."},
		Column{"misprint_date", Text, false, "When, the year first."},
		Column{"file", Text, true, "The authored file, as it is named in the release."},
		Column{"line", Whole, true, "The line of the id there."},
		Column{"pointer", Text, false, "JSON Pointer of the record within that file; none for a line of NDJSON."},
	).refer("machine", "machines", "machine")
	for _, r := range d.Records {
		countersign, unpublished, misprint := release.Countersign{}, release.Unpublished{}, release.Misprint{}
		if r.Countersign != nil {
			countersign = *r.Countersign
		}
		if r.Unpublished != nil {
			unpublished = *r.Unpublished
		}
		if r.Misprint != nil {
			misprint = *r.Misprint
		}
		s.add(t, r.Number, r.Machine, r.Item, r.ID, r.Kind, r.Where, r.AppliesTo, r.Supersedes,
			r.Source.Title, r.Source.Edition, r.Source.Kind, r.Source.At, r.Entered.By, r.Entered.Date, r.Fingerprint,
			countersign.By, countersign.Date, countersign.Fingerprint, unpublished.Why, unpublished.Do,
			misprint.Printed, misprint.Because, misprint.Source.Title, misprint.Source.Edition, misprint.Source.Kind, misprint.Source.At,
			misprint.By, misprint.Date, r.File, r.Line, r.Pointer)
	}
}

func (s *sheets) boxes(d *release.Document) {
	box := Column{"box", Whole, true, "The number of the box in the record, from 1."}
	boxes := s.table("boxes", "The alternatives that a record applies to: any box may hold, and within a box all its rows of box_variants (any of them) and of box_ranges (all of them) must. A box without such rows is everything.",
		"record box", ofRecord, box).refer("record", "records", "record")
	variants := s.table("box_variants", "The variants of a box, any of which may hold; without a row all do.", "record box place",
		ofRecord, box, Column{"place", Whole, true, "Its place in the box, from 1."},
		Column{"variant", Text, true, "The name of the variant."}).refer("record box", "boxes", "record box")
	ranges := s.table("box_ranges", "The stretches of numberings of a box, all of which must hold; ends inclusive.", "record box place",
		ofRecord, box, Column{"place", Whole, true, "Its place in the box, from 1."},
		Column{"numbering", Text, true, "The name of the numbering."},
		Column{"form", Text, false, "number or date."},
		Column{"text", Text, true, "In words: 1200 to 9999."},
		Column{"low", Whole, false, "The first; none where it is open. A date as days since 1970-01-01."},
		Column{"high", Whole, false, "The last; none where it is open. A date as days since 1970-01-01."}).refer("record box", "boxes", "record box")
	for _, r := range d.Records {
		for i, b := range r.Applies {
			s.add(boxes, r.Number, i+1)
			for j, v := range b.Variants {
				s.add(variants, r.Number, i+1, j+1, v)
			}
			for j, x := range b.Serials {
				s.add(ranges, r.Number, i+1, j+1, x.Name, x.Form, x.Text, x.From, x.To)
			}
		}
	}
}

func (s *sheets) figures(d *release.Document) {
	pointer := Column{"pointer", Text, true, "JSON Pointer of the figure within the record: /tighten/0/to."}
	figures := s.table("figures", "Every figure of every record.", "record pointer",
		ofRecord, pointer,
		Column{"place", Whole, true, "Its place in the record, from 1, in the order of the format."},
		Column{"word", Text, false, "A word in place of a figure: idling."}).refer("record", "records", "record")
	values := s.table("figure_values", "The values of each figure, in as many units as it is printed in.", "record pointer place",
		ofRecord, pointer,
		Column{"place", Whole, true, "1 for the source's own unit, 2 and 3 for the others."},
		Column{"text", Text, true, "As printed."},
		Column{"form", Text, false, "single, range, deviation, at most, at least, tolerance; none where it could not be read."},
		Column{"dimension", Text, false, "The kind of quantity: torque, length."},
		Column{"unit", Text, false, "The symbol of the unit; none of a plain number."},
		Column{"ucum", Text, false, "The code of the unit in the Unified Code for Units of Measure; none where it has none."},
		Column{"first_printed", Text, false, "The first number with its digits as printed."},
		Column{"second_printed", Text, false, "The second number of a range, or the number of an upper limit."},
		Column{"plus_printed", Text, false, "The upper deviation."},
		Column{"minus_printed", Text, false, "The lower deviation, as a magnitude."},
		Column{"percent", Boolean, true, "The deviations are per cent of the first number."},
		Column{"digits", Whole, false, "Significant digits printed, of the number that has the most."},
		Column{"si_unit", Text, false, "The symbol of the SI unit; 1 of a plain number and of a share."},
		Column{"si_ucum", Text, false, "The code of the SI unit."},
		Column{"low", Number, false, "The lower end in the SI unit, deviations worked in; of a tolerance the lower deviation. The float64 nearest to the exact value."},
		Column{"high", Number, false, "The upper end likewise."},
		Column{"low_exact", Text, false, "The exact lower end, where it ends as a decimal."},
		Column{"high_exact", Text, false, "The exact upper end, where it ends as a decimal."},
		Column{"rounding_low", Number, false, "The lower end moved out by half a unit of its last printed digit."},
		Column{"rounding_high", Number, false, "The upper end likewise."},
		Column{"misprint", Boolean, true, "The text is the misprint; the numbers are those of /misprint/use."},
		Column{"problem", Text, false, "How it was read where that was in doubt, or why it could not be."},
	).refer("record pointer", "figures", "record pointer")
	for _, r := range d.Records {
		all := slices.Clone(r.Figures)
		if r.Misprint != nil {
			all = append(all, r.Misprint.Use)
		}
		for i, f := range all {
			s.add(figures, r.Number, f.Pointer, i+1, f.Word)
			for j, v := range f.Values {
				var digits any
				if v.Digits > 0 {
					digits = int64(v.Digits)
				}
				s.add(values, r.Number, f.Pointer, j+1, v.Text, v.Form, v.Dimension, v.Unit, v.UCUM, v.First, v.Second, v.Plus, v.Minus,
					v.Percent, digits, v.SI, v.SIUCUM, v.Low, v.High, v.LowExact, v.HighExact, v.RoundingLow, v.RoundingHigh, v.Misprint, v.Problem)
			}
		}
	}
}

func (s *sheets) answers(d *release.Document) {
	t := s.table("answers", "Queries that a person answered.", "record place",
		ofRecord, Column{"place", Whole, true, "Its place in the record, from 1."},
		Column{"check_id", Text, true, "The check that asked."},
		Column{"figure", Text, true, "JSON Pointer of the figure within the record."},
		Column{"read_text", Text, true, "The text that was answered."},
		Column{"because", Text, true, "The answer."},
		Column{"answered_by", Text, true, "Who answered."},
		Column{"answered_date", Text, true, "When, the year first."}).refer("record", "records", "record")
	for _, r := range d.Records {
		for i, a := range r.Answers {
			s.add(t, r.Number, i+1, a.Check, a.Figure, a.Read, a.Because, a.By, a.Date)
		}
	}
}

func (s *sheets) lists(d *release.Document) {
	t := s.table("notes", "Cautions of a record, and what is used once.", "record list place",
		ofRecord, Column{"list", Text, true, "caution or renew."},
		Column{"place", Whole, true, "Its place in the list, from 1."},
		Column{"text", Text, true, "The name of the caution, or the part to renew."}).refer("record", "records", "record")
	for _, r := range d.Records {
		for i, text := range r.Caution {
			s.add(t, r.Number, "caution", i+1, text)
		}
		for i, text := range r.Renew {
			s.add(t, r.Number, "renew", i+1, text)
		}
	}
}

// elsewhere are the members of a record that other tables hold.
var elsewhere = []string{
	"format", "machine", "variants", "serials", "decimal", "id", "kind", "where", "item", "applies", "supersedes", "source",
	"entered", "answers", "misprint", "unpublished", "caution", "renew",
}

func (s *sheets) details(d *release.Document) error {
	t := s.table("details", "All else that a record says: threads, classes, counts, orders, patterns, signs.", "record pointer",
		ofRecord, Column{"pointer", Text, true, "JSON Pointer within the record: /fastener/thread."},
		Column{"place", Whole, true, "Its place in the record, from 1, by name."},
		Column{"text", Text, true, "What stands there."}).refer("record", "records", "record")
	for _, r := range d.Records {
		if len(r.Authored) == 0 {
			continue
		}
		dec := json.NewDecoder(strings.NewReader(string(r.Authored)))
		dec.UseNumber()
		var members map[string]any
		if err := dec.Decode(&members); err != nil {
			return fmt.Errorf("%s: %w", r.ID, err)
		}
		for _, name := range elsewhere {
			delete(members, name)
		}
		figures := map[string]bool{}
		for _, f := range r.Figures {
			figures[f.Pointer] = true
		}
		place := 0
		leaves(members, "", figures, func(pointer, text string) {
			place++
			s.add(t, r.Number, pointer, place, text)
		})
	}
	return nil
}

// pointerEscape is how JSON Pointer writes a name (RFC 6901).
var pointerEscape = strings.NewReplacer("~", "~0", "/", "~1")

// leaves calls add for each text, number and truth that is no figure.
func leaves(x any, pointer string, figures map[string]bool, add func(pointer, text string)) {
	if figures[pointer] {
		return
	}
	switch x := x.(type) {
	case map[string]any:
		for _, name := range slices.Sorted(maps.Keys(x)) {
			leaves(x[name], pointer+"/"+pointerEscape.Replace(name), figures, add)
		}
	case []any:
		for i := range x {
			leaves(x[i], pointer+"/"+strconv.Itoa(i), figures, add)
		}
	default:
		add(pointer, fmt.Sprint(x))
	}
}
