package reference

import (
	"regexp"
	"strings"
)

// lookRules finds rules of practice. The rows on how printed figures are
// compared are for checks, and left out.
func lookRules(term string) []Entry {
	low := strings.ToLower(term)
	if len(low) < 4 {
		return nil
	}
	var out []Entry
	before := "" // what a row that says "same" goes on with
	for _, r := range rules() {
		title := sameAs(before, r.Text)
		if title == r.Text {
			before = r.Text
		}
		if r.Area == "units" || r.Area != low && !strings.Contains(strings.ToLower(title), low) {
			continue
		}
		e := Entry{Title: r.Area + ": " + title, Source: r.Source}
		switch {
		case e.list(r), e.newAndWorn(r):
		default:
			e.add("value", ruleValue(r))
		}
		e.add("remark", ruleNote(r.Note))
		e.Lines = append(e.Lines, general)
		out = append(out, e)
	}
	return out
}

// sameAs writes out a text that goes on with that of an earlier row.
func sameAs(before, text string) string {
	base, _, _ := strings.Cut(before, ",")
	for _, same := range []string{"same, ", "same tool "} {
		rest, ok := strings.CutPrefix(text, same)
		if !ok {
			continue
		}
		if rest, ok := strings.CutPrefix(rest, "hard upper check: "); ok {
			return base + ", most on a " + rest
		}
		if same == "same, " {
			return base + ", " + rest
		}
		return base + ": " + rest
	}
	return text
}

// list shows a row that is a table in itself, with sizes and figures in the
// same order: M6/M8/M10 and 14/27/54. False where it is none.
func (e *Entry) list(r Rule) bool {
	figures := strings.Split(r.Low, "/")
	title, sizes := "", []string(nil)
	if i := strings.LastIndex(e.Title, ": "); i > strings.Index(e.Title, ": ") {
		title, sizes = e.Title[:i], strings.Fields(e.Title[i+2:])
	} else if i := strings.LastIndexByte(e.Title, ' '); i > 0 {
		title, sizes = e.Title[:i], strings.Split(e.Title[i+1:], "/")
	}
	if len(figures) < 2 || len(figures) != len(sizes) {
		return false
	}
	e.Title = title
	for i, size := range sizes {
		e.add(size, figures[i]+" "+r.Unit)
	}
	return true
}

var twoStates = regexp.MustCompile(`^(.*?):? (new) / (worn limit|max|used)$`)

// newAndWorn shows a row that holds a figure for new parts and one for others.
func (e *Entry) newAndWorn(r Rule) bool {
	m := twoStates.FindStringSubmatch(e.Title)
	if m == nil {
		return false
	}
	first, second := r.Low, r.High
	if second == "" {
		first, second, _ = strings.Cut(r.Low, " / ")
	}
	e.Title = m[1]
	e.add(m[2], withUnit(first, r.Unit))
	e.add(strings.Replace(m[3], "max", "most", 1), withUnit(second, r.Unit))
	return true
}

// ruleValue puts the ends of a rule and its unit into one value.
func ruleValue(r Rule) string {
	limit := strings.HasSuffix(r.Text, " above") || strings.HasSuffix(r.Text, " below")
	value := r.Low
	switch {
	case r.Low == "" && r.High != "" && !limit:
		value = "up to " + r.High
	case r.Low == "" && r.High != "":
		value = r.High
	case r.High != "" && r.High == strings.ReplaceAll(r.Low, "-", "+"):
		value = "±" + strings.ReplaceAll(r.Low, "-", "")
	case r.High != "":
		value += " to " + r.High
	}
	return withUnit(strings.ReplaceAll(value, "..", " to "), r.Unit)
}

// withUnit puts a unit behind what ends in a figure.
func withUnit(value, unit string) string {
	switch {
	case value == "" || unit == "1":
		return value
	case unit == "deg":
		return value + "°"
	case isDigit(value[len(value)-1]):
		return value + " " + unit
	case strings.HasSuffix(value, " or more"):
		return strings.TrimSuffix(value, " or more") + " " + unit + " or more"
	}
	return value
}

// ruleNote keeps what a note says to people: the table also notes what a check
// may make of a row.
func ruleNote(note string) string {
	head, rest, _ := strings.Cut(note, "; ")
	switch head {
	case "hint", "explain", "explain, not check", "example", "warn outside", "as above", "as among the fluids":
		return rest
	case "error below":
		return "never less"
	}
	if outside, ok := strings.CutPrefix(note, "warn outside "); ok {
		return "met from " + outside
	}
	return strings.NewReplacer("warn: ", "", "order-of-magnitude check", "for the order of magnitude only",
		"the TM figure", "the figure of the Army manual").Replace(note)
}
