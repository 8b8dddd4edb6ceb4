package reference

import (
	"math"
	"slices"
	"strconv"
	"strings"
)

// general marks what is printed for no machine in particular.
var general = [2]string{"note", "general, not a specification for any machine"}

// lookThreadMore shows what else is known under a size: limits of size, locking
// nuts, and the fittings on that thread. A full designation asks for the thread
// alone, with its tolerance for the limits of size.
func lookThreadMore(term string) []Entry {
	t, p := ParseThread(term)
	if p != nil || t.Family == NoFamily || t.PitchGiven && t.Tolerance == "" && t.Family == Unified {
		return nil
	}
	if t.PitchGiven && t.Tolerance == "" && t.Family == Metric {
		return nil
	}
	var out []Entry
	if t.Pitch > 0 && (t.Family == Metric || t.Family == Unified) {
		out = append(out, limitEntries(t)...)
	}
	if t.PitchGiven && (t.Family == Metric || t.Family == Unified) {
		return out
	}
	out = append(out, prevailingEntries(Prevailing(t))...)
	// Rows that hold for every size are found under their own names.
	own := slices.DeleteFunc(JointRows("", term, "", ""), func(j JointRow) bool { return j.sizes.any })
	return append(out, jointEntries(own)...)
}

// limitEntries are the limits of size of a thread, of the tolerance printed or
// of the usual one.
func limitEntries(t Thread) []Entry {
	external, internal := "", ""
	for part := range strings.FieldsFuncSeq(t.Tolerance, func(r rune) bool { return r == ' ' || r == '/' }) {
		if strings.ContainsAny(part, "GHB") {
			internal = part
		} else {
			external = part
		}
	}
	l, err := Limits(t, external, internal)
	if err != nil {
		return nil
	}
	return []Entry{{Title: "limits of size of " + t.Designation, Source: l.Source, Lines: [][2]string{
		{"screw " + l.External.Class + ", major diameter", spanMM(l.External.MajorMin, l.External.MajorMax)},
		{"screw " + l.External.Class + ", pitch diameter", spanMM(l.External.PitchMin, l.External.PitchMax)},
		{"nut " + l.Internal.Class + ", minor diameter", spanMM(l.Internal.MinorMin, l.Internal.MinorMax)},
		{"nut " + l.Internal.Class + ", pitch diameter", spanMM(l.Internal.PitchMin, l.Internal.PitchMax)},
	}}}
}

func spanMM(lo, hi float64) string { return span(Interval{Lo: lo, Hi: hi}, 3) + " mm" }

// entryFor finds or makes the entry of a title and source.
func entryFor(list *[]Entry, title string, source Citation) *Entry {
	for i := range *list {
		if e := &(*list)[i]; e.Title == title && e.Source == source {
			return e
		}
	}
	*list = append(*list, Entry{Title: title, Source: source})
	return &(*list)[len(*list)-1]
}

func (e *Entry) add(label, value string) {
	if value != "" {
		e.Lines = append(e.Lines, [2]string{label, value})
	}
}

// asGeneral marks all entries.
func asGeneral(list []Entry) []Entry {
	for i := range list {
		list[i].Lines = append(list[i].Lines, general)
	}
	return list
}

// converted is a torque in N·m behind the one printed, marked as such.
func converted(lo, hi float64) string {
	round := func(v float64) float64 {
		s, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 3, 64), 64)
		if err != nil {
			return v
		}
		return s
	}
	return " (converted: " + ends(round(lo), round(hi), "N·m") + ")"
}

// ends prints an interval with its unit, either end may be open.
func ends(lo, hi float64, unit string) string {
	switch {
	case math.IsNaN(lo) || lo == 0 && hi > 0:
		return "max " + digits4(hi) + " " + unit
	case math.IsNaN(hi) || hi == 0:
		return "min " + digits4(lo) + " " + unit
	case lo == hi:
		return digits4(lo) + " " + unit
	}
	return digits4(lo) + " to " + digits4(hi) + " " + unit
}

func prevailingEntries(rows []PrevailingRow) []Entry {
	var out []Entry
	for _, p := range rows {
		e := entryFor(&out, "locking nuts on "+p.Thread, p.Source)
		switch {
		case p.Printed == "":
			e.add(p.Nut+", "+p.Quantity, p.Note)
		case strings.HasSuffix(p.Printed, "N·m"):
			e.add(p.Nut+", "+p.Quantity, p.Printed)
		default:
			e.add(p.Nut+", "+p.Quantity, p.Printed+converted(p.Min, p.Max))
		}
	}
	return asGeneral(out)
}

func jointEntries(rows []JointRow) []Entry {
	var out []Entry
	for _, j := range rows {
		e := entryFor(&out, j.Kind, j.Source)
		label := j.Thread
		if label == "any" || label == "not stated" {
			label = ""
		}
		if j.Detail != "" {
			label = strings.TrimPrefix(label+", "+j.Detail, ", ")
		}
		switch j.Into {
		case "", "any", "not stated":
		default:
			label += ", in " + j.Into
		}
		value := j.Printed
		if j.Unit == "N·m" && !strings.HasSuffix(value, "N·m") {
			value += converted(max(j.Min, j.Typical), max(j.Max, j.Typical))
		}
		if value == "" {
			value = j.Note
		}
		e.add(label, value)
	}
	return asGeneral(out)
}

// lookJoint finds the rows of a kind: spark plug, hose clamp, drain plug.
func lookJoint(term string) []Entry {
	low := strings.TrimSuffix(strings.ToLower(term), "s")
	if len(low) < 4 || low == "screw" || low == "stud" {
		return nil
	}
	if _, ok := typeKinds[low]; ok {
		return jointEntries(JointRows(low, "", "", ""))
	}
	var rows []JointRow
	for _, j := range jointRows() {
		if strings.Contains(strings.ToLower(j.Kind), low) {
			rows = append(rows, j)
		}
	}
	return jointEntries(rows)
}

// lookLockingNut shows how drag is added.
func lookLockingNut(term string) []Entry {
	if !slices.ContainsFunc([]string{"lock", "prevailing", "drag", "running torque", "breakaway"}, func(w string) bool {
		return strings.Contains(strings.ToLower(term), w)
	}) || !slices.ContainsFunc([]string{"nut", "torque", "drag"}, func(w string) bool { return strings.Contains(strings.ToLower(term), w) }) {
		return nil
	}
	var out []Entry
	for _, r := range dragRules() {
		e := entryFor(&out, r.Area, r.Source)
		e.add("rule", r.Text)
		e.add("note", r.Note)
	}
	return asGeneral(out)
}

// lookOneUse shows parts renewed at assembly. A general word for a screw is
// looked up as a thread or class, not as a part.
func lookOneUse(term string) []Entry {
	if len(term) < 4 {
		return nil
	}
	var out []Entry
	for _, p := range OneUse(term) {
		e := Entry{Title: p.Part, Source: p.Source}
		e.add("renew", p.Renew)
		e.add("rule", p.Rule)
		e.add("remark", p.Note)
		out = append(out, e)
	}
	return asGeneral(out)
}

func lookFluid(term string) []Entry {
	f, known := FluidByGrade(term)
	if !known || len(f.Properties) == 0 {
		return nil
	}
	title := strings.TrimPrefix(f.Grade+", "+f.Class, ", ")
	var out []Entry
	for _, p := range f.Properties {
		e := entryFor(&out, title, p.Source)
		label := p.Quantity
		if !math.IsNaN(p.AtC) {
			label += " at " + plain(p.AtC) + " °C"
		}
		value := ends(p.Lo, p.Hi, p.Unit)
		if p.Note != "" {
			value += " (" + p.Note + ")"
		}
		e.add(label, value)
	}
	if c := f.Alpha15.Source; c.ID == "astm-d1250" {
		e := entryFor(&out, title, c)
		e.add("volume coefficient at 15 °C", ends(f.Alpha15.Lo, f.Alpha15.Hi, "1/K"))
	}
	return asGeneral(out)
}

func lookElectrical(term string) []Entry {
	low := strings.ToLower(term)
	if len(low) < 4 {
		return nil
	}
	var out []Entry
	for _, c := range electrical() {
		if strings.Contains(strings.ToLower(c.Item), low) {
			e := Entry{Title: c.Item, Source: c.Source}
			e.add("value", c.Value+" "+c.Unit)
			e.add("remark", c.Note)
			out = append(out, e)
		}
	}
	return out
}

// lookPractice shows patterns and wrenches.
func lookPractice(term string) []Entry {
	low := strings.ToLower(term)
	if len(low) < 4 {
		return nil
	}
	var out []Entry
	pattern, wrench := strings.Contains(low, "pattern"), strings.Contains(low, "wrench")
	for _, p := range patternRows() {
		if !pattern && !strings.Contains(strings.ToLower(p.Joint), low) && !inPattern(p.Rule, low) {
			continue
		}
		e := Entry{Title: "pattern: " + p.Joint, Source: p.Source}
		e.add("rule", p.Rule)
		e.add("passes", p.Passes)
		e.add("part of the final torque", p.Percent+percentSign(p.Percent))
		e.add("remark", p.Note)
		out = append(out, e)
	}
	for _, w := range wrenchRows() {
		if !wrench && !strings.Contains(strings.ToLower(w.Item), low) {
			continue
		}
		e := entryFor(&out, "torque wrench: "+w.Item, w.Source)
		label := strings.Join(slices.DeleteFunc([]string{prefixed("type ", w.Type), prefixed("class ", w.Class), w.Range}, func(s string) bool { return s == "" }), ", ")
		value := w.Low
		switch {
		case w.Low != "" && w.High != "":
			value += " to " + w.High
		case w.High != "":
			value = "up to " + w.High
		}
		value = strings.TrimSpace(value + " " + w.Unit)
		if value == "" {
			value = w.Note
		} else if w.Note != "" {
			value += " (" + w.Note + ")"
		}
		e.add(or(label, "rule"), value)
	}
	return asGeneral(out)
}

// patternWords are what the rules say for the words of a spec file.
var patternWords = map[string][]string{
	"criss-cross": {"cross", "opposite"}, "circular": {"round the circle"}, "spiral": {"spiral"},
	"centre outwards": {"outwards"}, "in order": {"order by place"},
}

// inPattern reports a rule of that pattern.
func inPattern(rule, word string) bool {
	return slices.ContainsFunc(patternWords[word], func(w string) bool { return strings.Contains(rule, w) })
}

func prefixed(prefix, s string) string {
	if s == "" {
		return ""
	}
	return prefix + s
}

// percentSign follows what ends in a figure.
func percentSign(s string) string {
	if s == "" || !isDigit(s[len(s)-1]) {
		return ""
	}
	return " %"
}
