package schema

import (
	"fmt"
	"slices"
	"strings"
)

// Facts is what is known of the machine in hand. What is not known is absent.
type Facts struct {
	Variant string
	Serials map[string]int64 // a date as days since 1970-01-01
}

// ParseFacts reads facts as a person gives them: "variant=B", "gear=1250",
// "built=2019-03-01". The head, and the boxes of all records of the machine, tell
// which names there are and what form a numbering has. A variant that the head does
// not declare, or where it declares none that no box names, is an error; so is a
// numbering that neither has, and a fact that is told twice.
func ParseFacts(h *Head, boxes []Box, texts []string) (Facts, error) {
	f := Facts{Serials: map[string]int64{}}
	axes, variants := axesOf(h, boxes), knownVariants(h, boxes)
	told := map[string]string{}
	for _, text := range texts {
		name, value, ok := strings.Cut(text, "=")
		name, value = strings.TrimSpace(name), strings.TrimSpace(value)
		if !ok || name == "" || value == "" {
			return Facts{}, fmt.Errorf("%q is no fact, such as variant=B or gear=1250", text)
		}
		if before, twice := told[name]; twice {
			return Facts{}, fmt.Errorf("%s is told twice, %s and %s; tell it once", name, before, value)
		}
		told[name] = value
		if name == "variant" {
			switch {
			case len(variants) == 0:
				return Facts{}, fmt.Errorf("no variants are known, so that variant=%s says nothing; leave it out", value)
			case !slices.Contains(variants, value):
				return Facts{}, fmt.Errorf("no variant %q; known: %s", value, strings.Join(variants, ", "))
			}
			f.Variant = value
			continue
		}
		i := slices.IndexFunc(axes, func(a axis) bool { return a.name == name })
		if i < 0 {
			return Facts{}, noNumbering(name, value, variants, axes)
		}
		form := axes[i].form
		r := ParseSerialRange(name, value, form)
		if r.Bad != "" {
			return Facts{}, fmt.Errorf("%s: %s", name, r.Bad)
		}
		if !r.HasFrom || !r.HasTo || r.From != r.To {
			return Facts{}, fmt.Errorf("%s: %q is not one number", name, value)
		}
		if r.Form == FormNumber && r.From < 1 {
			return Facts{}, fmt.Errorf("%s: there is no %d, for numbers begin with 1", name, r.From)
		}
		f.Serials[name] = r.From
	}
	return f, nil
}

// SerialForm returns the form of a numbering that the head declares.
func (h *Head) SerialForm(name string) (form string, declared bool) {
	if h == nil {
		return "", false
	}
	for _, s := range h.Serials {
		if s.Name == name {
			return s.Form, true
		}
	}
	return "", false
}

// knownVariants are those of the head, or, where it declares none, those that the
// boxes name.
func knownVariants(h *Head, boxes []Box) []string {
	if h != nil && len(h.Variants) > 0 {
		return h.Variants
	}
	all := variantsOf(nil, boxes)
	return all[:len(all)-1] // without any other
}

// noNumbering says which names there are.
func noNumbering(name, value string, variants []string, axes []axis) error {
	var known []string
	if len(variants) > 0 {
		known = append(known, "variant")
	}
	for _, a := range axes {
		known = append(known, a.name)
	}
	if len(known) == 0 {
		return fmt.Errorf("neither variants nor numberings are known, so that %s=%s says nothing; leave it out", name, value)
	}
	return fmt.Errorf("no numbering %q; known: %s", name, strings.Join(known, ", "))
}

// Choice tells which of several lists of boxes apply to a machine.
type Choice struct {
	Sure []int  // those that apply, whatever else may be true
	May  []int  // those that apply or not, as facts not given decide
	Ask  string // the fact to ask for first: "variant", or the name of a numbering; "" when none would help
}

// Pick tells which of the lists apply under the facts. Each list is what one
// record applies to (see [Record.Boxes]).
func Pick(h *Head, applies [][]Box, facts Facts) Choice {
	var all []Box
	for _, boxes := range applies {
		all = append(all, boxes...)
	}
	axes := axesOf(h, all)
	region := newCell(axes)
	for i, a := range axes {
		if n, known := facts.Serials[a.name]; known {
			region[i] = interval{n, n}
		}
	}
	var variants []string
	switch {
	case facts.Variant != "":
		variants = []string{facts.Variant}
	case h != nil:
		variants = variantsOf(h.Variants, all)
	default:
		variants = variantsOf(nil, all)
	}

	var c Choice
	for i, boxes := range applies {
		sure, may := true, false
		for _, v := range variants {
			cells := cellsOf(boxes, v, axes)
			if len(subtract(region, cells)) > 0 {
				sure = false
			}
			for _, d := range cells {
				if _, meets := region.and(d); meets {
					may = true
				}
			}
		}
		bad := slices.ContainsFunc(boxes, Box.Bad)
		switch {
		case sure:
			c.Sure = append(c.Sure, i)
		case may || bad:
			c.May = append(c.May, i)
		}
	}

	matters := func(drop func(b Box) Box) bool {
		for _, i := range c.May {
			if dependsOn(applies[i], drop, region, variants, axes) {
				return true
			}
		}
		return false
	}
	if facts.Variant == "" && matters(func(b Box) Box { b.Variants = nil; return b }) {
		c.Ask = "variant"
		return c
	}
	for k, a := range axes {
		if region[k] != a.whole() {
			continue
		}
		if matters(func(b Box) Box {
			b.Serials = slices.DeleteFunc(slices.Clone(b.Serials), func(r SerialRange) bool { return r.Name == a.name })
			return b
		}) {
			c.Ask = a.name
			return c
		}
	}
	return c
}

// dependsOn reports whether, within the region, the boxes apply to more once a
// fact is dropped from them: then the fact decides something.
func dependsOn(boxes []Box, drop func(Box) Box, region cell, variants []string, axes []axis) bool {
	var dropped []Box
	for _, b := range boxes {
		if c, ok := cellOf(b, axes); ok && slices.ContainsFunc(variants, b.appliesTo) {
			if _, meets := region.and(c); meets {
				dropped = append(dropped, drop(b))
			}
		}
	}
	for _, v := range variants {
		cells := cellsOf(boxes, v, axes)
		for _, d := range cellsOf(dropped, v, axes) {
			if both, ok := region.and(d); ok && len(subtract(both, cells)) > 0 {
				return true
			}
		}
	}
	return false
}
