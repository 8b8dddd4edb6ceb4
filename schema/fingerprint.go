package schema

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"reflect"
	"strconv"
	"strings"

	"github.com/go-json-experiment/json/jsontext"

	"snapgauge/convert"
)

// FingerprintPrefix begins every fingerprint: the version of the canonical form.
const FingerprintPrefix = "f1:"

// Fingerprint is a short name for all that a record says: f1: and the SHA-256 of
// its [Canonical] form, in hexadecimal. It does not depend on the format of the
// file or the order of its fields, nor on how a unit is spelt; it changes with
// every figure and every digit.
func Fingerprint(h *Head, r *Record) (string, error) {
	b, err := Canonical(h, r)
	if err != nil {
		return "", err
	}
	return FingerprintPrefix + shaOf(b, sha256.Size), nil
}

// shaOf is the beginning of the SHA-256 in hexadecimal.
func shaOf(b []byte, bytes int) string {
	sum := sha256.Sum256(b)
	return hex.EncodeToString(sum[:bytes])
}

// Canonical is the canonical form of a record, JSON in the form of RFC 8785.
//
//   - The members are those of the record as the schema names them, and machine,
//     the id of the machine. Answers, entered and what belongs to the user (x-)
//     are left out. What is absent, empty or false is absent, but for
//     prevailing.included, where false says something.
//   - A source is resolved: title, edition, kind and at. One that the head does
//     not list keeps its ref.
//   - A figure is a list of its values, also where it has one. So are the
//     fasteners, the variants of a box and what a step is only for. A value is
//     {"u": unit, "lo": …, "hi": …}: the unit by its UCUM code, as x: and our
//     symbol where it has none, 1 for a plain number. A range has its ends as
//     printed, a limit one of the two, a deviation {"u", "v", "plus", "minus"},
//     a tolerance the same without v; "percent": true marks deviations in per
//     cent of v. "of" keeps what a spelling says beside the unit: gauge,
//     absolute, ac, dc.
//   - A number is one digit, the other digits as printed behind a point, e and
//     the power of ten: 53 is 5.3e1, 53.0 is 5.30e1, 6 is 6e0, for 6 N·m and 6.0
//     N·m differ in what they promise. A fraction is a/b: 4 1/2 is 9/2.
//   - A word in the place of a figure is its text, and so is a figure that could
//     not be read for sure. The misprint stands as printed, with use beside it.
//   - A range of serial numbers is written 1200 to 9999, from 1200, to 1199, 1250.
func Canonical(h *Head, r *Record) ([]byte, error) {
	return canonicalJSON(canonOf(h, r).members(r))
}

func canonicalJSON(x any) ([]byte, error) {
	b, err := json.Marshal(x)
	if err != nil {
		return nil, fmt.Errorf("canonical form: %w", err)
	}
	v := jsontext.Value(b)
	if err := v.Canonicalize(); err != nil {
		return nil, fmt.Errorf("canonical form: %w", err)
	}
	return v, nil
}

// canon writes records in their canonical form, as values for JSON.
type canon struct {
	h    *Head
	mark convert.Mark
}

func canonOf(h *Head, r *Record) canon {
	c := canon{h: h, mark: convert.Point}
	if h != nil && h.Decimal == "comma" {
		c.mark = convert.Comma
	}
	r.walk(func(Path, *Figure, wording) bool { return true }) // sets what each place accepts
	return c
}

// members are the members of the record.
func (c canon) members(r *Record) map[string]any {
	m, _ := c.fields(reflect.ValueOf(r).Elem())
	if m == nil {
		m = map[string]any{}
	}
	for _, name := range []string{"answers", "entered"} {
		delete(m, name)
	}
	if p := r.Misprint.Printed; p != "" {
		m["misprint"].(map[string]any)["printed"] = c.texts(r.misprintWant(), p)
	}
	if c.h != nil && c.h.Machine.ID != "" {
		m["machine"] = c.h.Machine.ID
	}
	return m
}

// fields are the members of a struct by the names of the schema; ok is false
// when it has none.
func (c canon) fields(v reflect.Value) (m map[string]any, ok bool) {
	t := tableOf(v.Type())
	for _, name := range t.names {
		x, ok := c.value(v.FieldByIndex(t.byName[name]))
		if !ok {
			continue
		}
		if m == nil {
			m = map[string]any{}
		}
		m[name] = x
	}
	return m, m != nil
}

// value is one value; ok is false when it is absent.
func (c canon) value(v reflect.Value) (any, bool) {
	switch x := v.Addr().Interface().(type) {
	case *Figure:
		return c.figure(x)
	case *Source:
		return c.source(*x)
	case *Fasteners:
		return c.value(reflect.ValueOf(&x.Items).Elem())
	case *[]Box:
		return boxesCanon(*x), len(*x) > 0
	case *[]PlaceAt:
		m := map[string]any{}
		for _, p := range *x {
			m[strconv.Itoa(p.Place)] = []string{p.X, p.Y}
		}
		return m, len(m) > 0
	case **bool:
		return *x, *x != nil
	}
	switch v.Kind() {
	case reflect.Struct:
		return c.fields(v)
	case reflect.Slice:
		if v.Type().Elem().Kind() != reflect.Struct {
			return v.Interface(), v.Len() > 0
		}
		list := make([]any, v.Len())
		for i := range list {
			list[i] = map[string]any{} // keeps its place when it is empty
			if m, ok := c.fields(v.Index(i)); ok {
				list[i] = m
			}
		}
		return list, len(list) > 0
	}
	return v.Interface(), !v.IsZero()
}

func (c canon) source(s Source) (any, bool) {
	m := map[string]string{}
	d, known := c.h.SourceOf(s)
	if !known {
		d = s.Document
		m["ref"] = s.Ref
	}
	m["title"], m["edition"], m["kind"], m["at"] = d.Title, d.Edition, d.Kind, s.At
	for name, text := range m {
		if text == "" {
			delete(m, name)
		}
	}
	return m, len(m) > 0
}

func boxesCanon(boxes []Box) []any {
	list := make([]any, len(boxes))
	for i, b := range boxes {
		m := map[string]any{}
		if len(b.Variants) > 0 {
			m["variant"] = b.Variants
		}
		for _, r := range b.Serials {
			m[r.Name] = r.String()
		}
		list[i] = m
	}
	return list
}

func (c canon) figure(f *Figure) (any, bool) {
	if f.IsZero() {
		return nil, false
	}
	if f.Word {
		return []string{strings.TrimSpace(f.Text())}, true
	}
	texts := make([]string, len(f.Values))
	for i := range f.Values {
		texts[i] = f.Values[i].Text
	}
	return c.texts(f.Want, texts...), true
}

// texts reads texts as one figure, as they are printed.
func (c canon) texts(want convert.Dimensions, texts ...string) []any {
	values := make([]convert.Value, len(texts))
	for i, text := range texts {
		values[i].Text = text
		values[i].Quantity, values[i].Problem = convert.Parse(text, want, c.mark)
	}
	convert.Settle(values)
	list := make([]any, len(values))
	for i := range values {
		v := &values[i]
		if v.Problem != nil && !v.Problem.Settled {
			list[i] = map[string]any{"text": strings.TrimSpace(v.Text)}
			continue
		}
		list[i] = quantityCanon(v)
	}
	return list
}

func quantityCanon(v *convert.Value) map[string]any {
	q := v.Quantity
	m := map[string]any{"u": unitCanon(q.Unit)}
	switch q.Form {
	case convert.Range:
		m["lo"], m["hi"] = numberCanon(q.First), numberCanon(q.Second)
	case convert.AtMost:
		m["hi"] = numberCanon(q.Second)
	case convert.AtLeast:
		m["lo"] = numberCanon(q.First)
	case convert.Deviation:
		m["v"] = numberCanon(q.First)
		fallthrough
	case convert.Tolerance:
		m["plus"], m["minus"] = numberCanon(q.Plus), numberCanon(q.Minus)
	default:
		m["lo"], m["hi"] = numberCanon(q.First), numberCanon(q.First)
	}
	if q.Percent {
		m["percent"] = true
	}
	if q.UnitAt.End <= len(v.Text) {
		if of := spelling(v.Text[q.UnitAt.Start:q.UnitAt.End], q.Unit.Dimension()); of != "" {
			m["of"] = of
		}
	}
	return m
}

func unitCanon(u convert.Unit) string {
	switch {
	case u == 0:
		return "1"
	case u.UCUM() == "":
		return "x:" + u.Symbol()
	}
	return u.UCUM()
}

// The spellings that say what a pressure is measured from, without blanks.
var measuredFrom = map[string]string{
	"psig": "gauge", "psi(g)": "gauge", "psigauge": "gauge", "barg": "gauge", "bar(g)": "gauge", "bargauge": "gauge",
	"atü": "gauge", "atg": "gauge",
	"psia": "absolute", "psi(a)": "absolute", "psiabsolute": "absolute", "bara": "absolute", "bar(a)": "absolute",
	"barabs": "absolute", "barabsolute": "absolute", "ata": "absolute",
}

var currents = map[string]string{
	"vdc": "dc", "dcv": "dc", "voltsdc": "dc", "mvdc": "dc", "vac": "ac", "acv": "ac", "voltsac": "ac", "mvac": "ac",
}

// spelling is what the spelling of a unit says beside the unit: what a pressure
// is measured from, and whether a voltage is direct or alternating.
func spelling(unit string, d convert.Dimension) string {
	switch d {
	case convert.Pressure:
		return measuredFrom[bareUnit(unit)]
	case convert.Voltage:
		return currents[bareUnit(unit)]
	}
	return ""
}

func bareUnit(unit string) string {
	return strings.ToLower(strings.NewReplacer(" ", "", ".", "", "-", "", "\u00a0", "").Replace(unit))
}

// numberCanon writes a number with its printed digits.
func numberCanon(d convert.Decimal) string {
	if d.Den > 1 {
		return strconv.FormatInt(d.Mant, 10) + "/" + strconv.FormatInt(int64(d.Den), 10)
	}
	sign, digits := "", strconv.FormatInt(d.Mant, 10)
	if d.Mant < 0 {
		sign, digits = "-", digits[1:]
	}
	exp := int(d.Exp) + len(digits) - 1
	if len(digits) > 1 {
		digits = digits[:1] + "." + digits[1:]
	}
	return sign + digits + "e" + strconv.Itoa(exp)
}
