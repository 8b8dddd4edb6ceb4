package schema

import (
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strconv"
)

// Plain is a record as a line of NDJSON has it, as values for JSON: its figures
// as authored, its head with it, its source and its author resolved. What is
// absent is absent. A line made of it has the same fingerprint. Members that
// belong to the user (x-) are not kept.
func Plain(h *Head, r *Record) map[string]any {
	m := plainFields(reflect.ValueOf(r).Elem())
	if h == nil {
		h = &Head{}
	}
	put := func(name string, x any) {
		if v := reflect.ValueOf(x); !v.IsZero() {
			m[name] = x
		}
	}
	put("format", h.Format)
	put("machine", plainFields(reflect.ValueOf(&h.Machine).Elem()))
	put("variants", h.Variants)
	put("decimal", h.Decimal)
	if len(h.Serials) > 0 {
		serials := map[string]any{}
		for _, s := range h.Serials {
			serials[s.Name] = s.Form
		}
		m["serials"] = serials
	}
	source := r.Source
	if d, known := h.SourceOf(source); known {
		source.Ref, source.Document = "", d
	}
	put("source", plainFields(reflect.ValueOf(&source).Elem()))
	entered := r.EnteredBy(h)
	put("entered", plainFields(reflect.ValueOf(&entered).Elem()))
	if source := r.Misprint.Source; source != (Source{}) {
		if d, known := h.SourceOf(source); known {
			source.Ref, source.Document = "", d
		}
		m["misprint"].(map[string]any)["source"] = plainFields(reflect.ValueOf(&source).Elem())
	}
	return m
}

// plainFields are the members of a struct; nil when it has none.
func plainFields(v reflect.Value) map[string]any {
	var m map[string]any
	t := tableOf(v.Type())
	for _, name := range t.names {
		x := plainValue(v.FieldByIndex(t.byName[name]))
		if x == nil {
			continue
		}
		if m == nil {
			m = map[string]any{}
		}
		m[name] = x
	}
	if s, ok := v.Addr().Interface().(*Step); ok && s.OnlyOne && len(s.Only) == 1 {
		m["only"] = s.Only[0]
	}
	return m
}

// plainValue is one value; nil when it is absent.
func plainValue(v reflect.Value) any {
	switch x := v.Addr().Interface().(type) {
	case *Figure:
		return plainFigure(x)
	case *Fasteners:
		items := plainList(reflect.ValueOf(&x.Items).Elem())
		if len(items) == 1 && !x.List {
			return items[0]
		}
		return orNil(items)
	case *[]Box:
		list := make([]any, len(*x))
		for i, b := range *x {
			box := map[string]any{}
			if len(b.Variants) > 0 {
				box["variant"] = b.Variants
			}
			for _, r := range b.Serials {
				box[r.Name] = r.Text
			}
			list[i] = box
		}
		return orNil(list)
	case *[]PlaceAt:
		places := map[string]any{}
		for _, p := range *x {
			places[strconv.Itoa(p.Place)] = []string{p.X, p.Y}
		}
		if len(places) == 0 {
			return nil
		}
		return places
	case **bool:
		if *x == nil {
			return nil
		}
		return **x
	}
	switch v.Kind() {
	case reflect.Struct:
		if m := plainFields(v); m != nil {
			return m
		}
		return nil
	case reflect.Slice:
		if v.Type().Elem().Kind() == reflect.Struct {
			return orNil(plainList(v))
		}
		if v.Len() == 0 {
			return nil
		}
		return v.Interface()
	}
	if v.IsZero() {
		return nil
	}
	return v.Interface()
}

func orNil(list []any) any {
	if len(list) == 0 {
		return nil
	}
	return list
}

// plainList keeps the place of an item that has nothing.
func plainList(v reflect.Value) []any {
	list := make([]any, v.Len())
	for i := range list {
		m := plainFields(v.Index(i))
		if m == nil {
			m = map[string]any{}
		}
		list[i] = m
	}
	return list
}

func plainFigure(f *Figure) any {
	if f.IsZero() {
		return nil
	}
	texts := make([]string, len(f.Values))
	for i := range f.Values {
		texts[i] = f.Values[i].Text
	}
	if !f.List && len(texts) == 1 {
		return texts[0]
	}
	return texts
}

// NodeOf makes a node of a value as [Plain] and package json make them: maps
// with names in order, lists, text, numbers, true and false. It knows no places.
func NodeOf(x any) *Node {
	v := reflect.ValueOf(x)
	switch {
	case !v.IsValid():
		return &Node{Kind: NullNode}
	case v.Kind() == reflect.Map:
		n := &Node{Kind: MapNode}
		members := map[string]any{}
		for _, key := range v.MapKeys() {
			members[key.String()] = v.MapIndex(key).Interface()
		}
		for _, name := range slices.Sorted(maps.Keys(members)) {
			n.Keys = append(n.Keys, &Node{Kind: TextNode, Text: name})
			n.Items = append(n.Items, NodeOf(members[name]))
		}
		return n
	case v.Kind() == reflect.Slice:
		n := &Node{Kind: ListNode}
		for i := range v.Len() {
			n.Items = append(n.Items, NodeOf(v.Index(i).Interface()))
		}
		return n
	case v.Kind() == reflect.Bool:
		return &Node{Kind: BoolNode, Text: strconv.FormatBool(v.Bool())}
	case v.Kind() == reflect.String && v.Type().PkgPath() != "encoding/json":
		return &Node{Kind: TextNode, Text: v.String()}
	}
	return &Node{Kind: NumberNode, Text: fmt.Sprint(x)}
}
