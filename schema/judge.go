package schema

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// judge puts together what the walk and the validator found, one cause once:
// a misspelt field and not the missing one that it leaves behind; nothing more
// of a value that the walk has reported; nothing but the kind, when that is
// wrong. The table holds the fields of the root for every kind of record, and
// kind is the one in hand. The order is that of paths, then faults.
func (w *walker) judge(schema string, value any, fields *table, kind string) []Problem {
	causes, err := validate(schema, value)
	if err != nil {
		w.report(Problem{Fault: WrongValue, Message: "the shape could not be checked: " + err.Error()})
		return w.problems
	}
	if len(causes) == 0 && len(w.problems) == 0 {
		return nil
	}
	j := judgement{walker: w, said: map[Path]int{}, meant: map[Path][]string{}}
	j.unknownFields(fieldsOfKind(kind, fields))
	slices.SortFunc(causes, func(a, b cause) int { return cmp.Or(cmp.Compare(rank(a), rank(b)), cmp.Compare(a.message, b.message)) })
	for _, c := range causes {
		j.cause(c)
	}
	if len(w.problems) == 0 { // a value was refused and no sentence found
		w.report(Problem{Fault: WrongValue, Message: "the shape of the " + w.what + " is wrong: " + causes[0].message})
	}
	if kind := j.ofKind(); kind != nil {
		return kind
	}
	slices.SortStableFunc(w.problems, func(a, b Problem) int {
		return cmp.Or(comparePaths(a.At.Path, b.At.Path), cmp.Compare(a.Fault, b.Fault), cmp.Compare(a.Want, b.Want), cmp.Compare(a.Message, b.Message))
	})
	return w.problems
}

// rank puts the most telling cause of a place first.
func rank(c cause) int {
	order := []string{"required", "type", "enum", "anyOf", "not", "pattern", "format", "minimum", "maximum", "minItems", "maxItems", "minProperties"}
	if i := slices.Index(order, c.keyword); i >= 0 {
		return i
	}
	return len(order)
}

type judgement struct {
	*walker
	said  map[Path]int      // wrong values reported, by place
	meant map[Path][]string // what misspelt fields were meant to be, by the mapping they stand in

	foreign bool // the record has fields of another kind, which explains that its own are missing
}

// unknownFields reports the members that no field is named for.
func (j *judgement) unknownFields(allowed []string) {
	unknown := j.unknown
	// The walk knows the fields of all kinds; the kind of the record leaves
	// some of them out.
	if j.root != nil && j.root.Kind == MapNode {
		for _, key := range j.root.Keys {
			if k := kindOfField(key.Text); k != "" && j.what != "spec file" && !slices.Contains(allowed, key.Text) {
				unknown = append(unknown, member{Path{}, key.Text, allowed})
			}
		}
	}
	for _, u := range unknown {
		if u.of.Len() == 0 {
			u.known = allowed
			if j.what == "spec file" {
				u.known = append(slices.Clone(allowed), "records")
			}
		}
		j.unknownField(u)
	}
}

func (j *judgement) unknownField(u member) {
	p := u.of.Field(u.name)
	node, whole := j.root.Follow(u.of, false)
	var absent []string
	for _, k := range u.known {
		if v, _ := node.Member(k); v == nil || !whole {
			absent = append(absent, k)
		}
	}
	message := fmt.Sprintf("unknown field %s in %s", short(u.name), j.container(u.of))
	want := strings.Join(absent, ", ")
	kind := ""
	if u.of.Len() == 0 && j.what != "spec file" {
		kind = kindOfField(u.name)
	}
	near := Nearest(u.name, absent)
	if near == "" {
		if m := meantField[strings.ToLower(u.name)]; slices.Contains(absent, m) {
			near = m
		}
	}
	switch {
	case kind != "":
		j.foreign = true
		message = fmt.Sprintf("%s belongs to a %s record, and this is a %s record", u.name, kind, j.kind())
	case near != "":
		message += fmt.Sprintf("; did you mean %q?", near)
		want = near
		j.meant[u.of] = append(j.meant[u.of], near)
	default:
		message += "; the name of a field of your own begins with x-"
	}
	j.report(Problem{Fault: UnknownField, At: Spot{Path: p, Key: true}, Read: clip(u.name, 200), Want: want, Message: message})
}

// kind is the kind that the record names, "" when it names none that there is.
func (j *judgement) kind() string {
	v, _ := j.root.Member("kind")
	if v == nil || v.Kind != TextNode || kindTypes[v.Text] == nil {
		return ""
	}
	return v.Text
}

// ofKind returns the problem of the kind alone, when it has one.
func (j *judgement) ofKind() []Problem {
	if j.what == "spec file" || j.root == nil || j.root.Kind != MapNode || j.kind() != "" {
		return nil
	}
	for _, p := range j.problems {
		switch {
		case p.At.Path == At("kind"), p.Fault == MissingField && p.Want == "kind", p.Fault == UnknownField && p.Want == "kind":
			return []Problem{p}
		}
	}
	return nil
}

// cause turns one cause into a problem, or drops it as said already.
func (j *judgement) cause(c cause) {
	p, node := j.place(c.at)
	if j.silenced(p) {
		return
	}
	switch c.keyword {
	case "additionalProperties", "unevaluatedProperties":
		return // see unknownFields
	case "required":
		j.missing(c, p, node)
		return
	case "anyOf":
		if names := requiredBy(c.schema[c.keyword]); names != nil {
			j.oneMissing(c, p, node, names)
			return
		}
	case "not":
		never, _ := c.schema[c.keyword].(map[string]any)
		if names := requiredBy(never["anyOf"]); names != nil {
			j.oneMissing(c, p, node, names)
			return
		}
	}
	if j.said[p] > 0 {
		return
	}
	j.said[p]++
	problem := j.wrong(c, p, node)
	problem.Fault, problem.At = WrongValue, spot(p)
	if c.ofName {
		problem.At.Key = true
	}
	j.problems = append(j.problems, problem)
}

// place turns the steps of the validator into a path.
func (j *judgement) place(at []string) (Path, *Node) {
	var p Path
	n := j.root
	for _, s := range at {
		if i, err := strconv.Atoi(s); err == nil && n != nil && n.Kind == ListNode && i >= 0 && i < len(n.Items) {
			p, n = p.Index(i), n.Items[i]
			continue
		}
		p = p.Field(s)
		n, _ = n.Member(s)
	}
	return p, n
}

// missing reports the required fields that a mapping does not have.
func (j *judgement) missing(c cause, p Path, node *Node) {
	list, _ := c.schema["required"].([]any)
	fields, _ := c.schema["properties"].(map[string]any)
	for _, r := range list {
		name, _ := r.(string)
		if v, _ := node.Member(name); v != nil || slices.Contains(j.meant[p], name) {
			continue
		}
		message := fmt.Sprintf("%s needs %s", j.subject(p), name)
		if d, _ := c.schema["description"].(string); fields == nil && strings.Contains(d, " needs ") {
			message = d
		}
		field, _ := fields[name].(map[string]any)
		if examples, _ := field["examples"].([]any); len(examples) > 0 {
			if e := j.style().member(name, examples[0]); len(e) <= longExample {
				message += ", such as " + e
			}
		}
		j.problems = append(j.problems, Problem{Fault: MissingField, At: keySpot(p), Want: name, Message: message})
	}
}

// longExample is how many bytes of an example a sentence bears that says what is
// missing.
const longExample = 100

// requiredBy returns the fields that the branches of anyOf ask for, nil when
// they ask for anything else.
func requiredBy(branches any) []string {
	list, _ := branches.([]any)
	var names []string
	for _, b := range list {
		m, _ := b.(map[string]any)
		required, _ := m["required"].([]any)
		if len(m) != 1 || len(required) == 0 {
			return nil
		}
		for _, r := range required {
			if name, _ := r.(string); !slices.Contains(names, name) {
				names = append(names, name)
			}
		}
	}
	return names
}

// oneMissing reports that none of several fields is there, or too many.
func (j *judgement) oneMissing(c cause, p Path, node *Node, names []string) {
	var has []string
	if j.foreign && p.Len() == 0 {
		return
	}
	for _, name := range names {
		if slices.Contains(j.meant[p], name) {
			return
		}
		if v, _ := node.Member(name); v != nil {
			has = append(has, name)
		}
	}
	message, _ := c.schema["description"].(string)
	problem := Problem{Fault: MissingField, At: keySpot(p), Want: orList(names), Message: message}
	if len(has) > 0 {
		problem.Fault = WrongValue
		problem.Read = strings.Join(has, ", ")
		problem.Message += "; this one has " + andList(has)
	}
	j.problems = append(j.problems, problem)
}

// spot is the spot of a value.
func spot(p Path) Spot { return Spot{Path: p} }

// keySpot is the spot of the name of a member, where the value is not there or
// begins somewhere below; of an item it is the item.
func keySpot(p Path) Spot {
	s := Spot{Path: p}
	if p.Len() > 0 {
		name, _ := p.Step(p.Len() - 1)
		s.Key = name != ""
	}
	return s
}

// comparePaths orders paths step by step, item numbers as numbers.
func comparePaths(a, b Path) int {
	for i := range min(a.n, b.n) {
		x, y := a.steps[i], b.steps[i]
		if c := cmp.Or(cmp.Compare(x.name, y.name), cmp.Compare(x.index, y.index)); c != 0 {
			return c
		}
	}
	return cmp.Compare(a.n, b.n)
}

func andList(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	n := len(words) - 1
	return strings.Join(words[:n], ", ") + " and " + words[n]
}
