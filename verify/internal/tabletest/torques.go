package tabletest

import (
	"path/filepath"
	"strings"
	"testing"

	"snapgauge/convert"
	"snapgauge/schema"
)

// Torque is a row of a published torque table, and the record that it makes.
type Torque struct {
	File, Grade, Condition, Thread, Text string
	Record                               *schema.Record
}

// Torques reads every row of the published torque tables in a folder. Its
// facts.csv says what kind of fastener a row is about, and why one is left out.
func Torques(t testing.TB, folder string) []Torque {
	t.Helper()
	type key struct{ file, grade, condition string }
	facts := map[key]map[string]string{}
	for _, f := range Rows(t, filepath.Join(folder, "facts.csv")) {
		facts[key{f["file"], f["grade"], f["condition"]}] = f
	}
	files, err := filepath.Glob(filepath.Join(folder, "*.csv"))
	if err != nil || len(files) == 0 {
		t.Fatal(files, err)
	}
	var out []Torque
	add := func(k key, thread, text string) {
		f := facts[k]
		if f == nil {
			t.Fatalf("no facts for %q", k)
		}
		if f["left_out"] == "" {
			out = append(out, Torque{k.file, k.grade, k.condition, thread, text, Record(t, thread, f, text)})
		}
	}
	for _, file := range files {
		name := filepath.Base(file)
		switch name {
		case "facts.csv", "joints-in-service.csv":
		case "check-torque-tables.csv":
			for _, r := range Rows(t, file) {
				add(key{name + "#" + r["table"], r["strength"], r["condition"]}, r["thread"], r["torque_Nm"]+" N·m")
			}
		default:
			for _, r := range Rows(t, file) {
				thread, _, _ := strings.Cut(r["thread"], " (")
				add(key{name, r["grade_or_class"], r["condition"]}, thread, Printed(r))
			}
		}
	}
	return out
}

// Printed is the torque of a row as a figure.
func Printed(r map[string]string) string {
	u := r["unit"]
	switch u {
	case "lb-ft":
		u = "lbf·ft"
	case "lb-in":
		u = "lbf·in"
	}
	switch lo, hi := r["torque_min"], r["torque_max"]; {
	case lo != "" && hi != "":
		return lo + " to " + hi + " " + u
	case hi != "":
		return "max " + hi + " " + u
	case lo != "":
		return "min " + lo + " " + u
	}
	return r["torque"] + " " + u
}

// Record makes a record of one fastener and one torque. The facts are the
// columns of facts.csv: type, class, head, threads, into, seal, friction.
func Record(t testing.TB, thread string, facts map[string]string, torque string) *schema.Record {
	t.Helper()
	r := &schema.Record{ID: "row", Kind: schema.KindTorque, Where: "row"}
	r.Fasteners.Items = []schema.Fastener{{
		Type: facts["type"], Thread: thread, Class: facts["class"], Head: schema.Word(facts["head"]),
	}}
	r.Joint.Threads, r.Joint.Into = schema.Word(facts["threads"]), schema.Word(facts["into"])
	r.Joint.Seal = schema.Word(facts["seal"])
	if facts["friction"] != "" {
		r.Joint.Friction = Figure(t, convert.Number, facts["friction"])
	}
	r.Tighten = []schema.Step{{To: Figure(t, convert.Torque, torque)}}
	return r
}

// Figure reads a figure of one dimension from its texts.
func Figure(t testing.TB, d convert.Dimension, texts ...string) schema.Figure {
	t.Helper()
	f := schema.Figure{Want: convert.Of(d), List: len(texts) > 1}
	for _, text := range texts {
		q, problem := convert.Parse(text, f.Want, convert.Point)
		if problem != nil {
			t.Fatalf("%q: %v", text, problem)
		}
		f.Values = append(f.Values, convert.Value{Text: text, Quantity: q})
	}
	return f
}
