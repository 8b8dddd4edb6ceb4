package schema

import (
	"reflect"
	"sync"
)

// table lists the fields of a struct by the names that a spec file has for
// them. The fields of embedded structs count as its own.
type table struct {
	byName map[string][]int // index as reflect has it
	names  []string         // in the order of the struct
}

var (
	headType   = reflect.TypeFor[Head]()
	recordType = reflect.TypeFor[Record]()
	lineType   = reflect.TypeFor[line]()
	kindTypes  = map[string]reflect.Type{
		KindTorque:    reflect.TypeFor[Torque](),
		KindFill:      reflect.TypeFor[Fill](),
		KindTolerance: reflect.TypeFor[Tolerance](),
	}
)

var tables sync.Map // reflect.Type to *table

func tableOf(t reflect.Type) *table {
	if known, ok := tables.Load(t); ok {
		return known.(*table)
	}
	tab := &table{byName: map[string][]int{}}
	tab.add(t, nil)
	known, _ := tables.LoadOrStore(t, tab)
	return known.(*table)
}

func (tab *table) add(t reflect.Type, at []int) {
	for i := range t.NumField() {
		f := t.Field(i)
		index := append(append([]int(nil), at...), i)
		if f.Anonymous {
			tab.add(f.Type, index)
			continue
		}
		if name := f.Tag.Get("spec"); name != "" && name != "-" {
			tab.byName[name] = index
			tab.names = append(tab.names, name)
		}
	}
}

func valueOf[T any](p *T) reflect.Value { return reflect.ValueOf(p).Elem() }
