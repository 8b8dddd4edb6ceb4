package schema

import (
	"bytes"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v5"
)

// soundTorque is the first record of the format's own example.
const soundTorque = `{"id": "control-cover-screws", "kind": "torque", "where": "control block cover to gearcase",
	"applies": [{"variant": ["A"], "gear": "1200 to 9999"}, {"variant": ["B"]}],
	"fastener": {"type": "screw", "thread": "M6x1", "class": "8.8", "head": "hex flange", "length": "25 mm", "count": 16},
	"joint": {"into": "cast aluminium", "engagement": "12 mm", "threads": "dry", "seal": "gasket"},
	"tighten": [{"to": ["71 lbf·in", "8 N·m"], "tolerance": "±10 %", "pattern": "criss-cross"}],
	"source": {"ref": "manual", "at": "page 4-12"},
	"caution": ["hot-oil", "stored-energy"]}`

var benchHead = &Head{Variants: []string{"A", "B"}, Serials: []Serial{{"gear", "number"}}}

func BenchmarkCompile(b *testing.B) {
	for b.Loop() {
		c := jsonschema.NewCompiler()
		c.AssertFormat = true
		for name := range raw() {
			text, err := schemaFiles.ReadFile("json/" + name + ".json")
			if err != nil {
				b.Fatal(err)
			}
			if err := c.AddResource(schemaBase+name, bytes.NewReader(text)); err != nil {
				b.Fatal(err)
			}
		}
		for _, name := range []string{specfileSchema, recordSchema, lineSchema} {
			if _, err := c.Compile(schemaBase + name); err != nil {
				b.Fatal(err)
			}
		}
	}
}

func BenchmarkDecodeSound(b *testing.B) {
	n := mustNode(b, soundTorque, true)
	b.ReportAllocs()
	for b.Loop() {
		if _, problems := DecodeRecord(n, benchHead); len(problems) > 0 {
			b.Fatal(problems)
		}
	}
}

// BenchmarkDecoder makes the record of BenchmarkDecodeSound the quick way.
func BenchmarkDecoder(b *testing.B) {
	n := mustNode(b, soundTorque, true)
	d := &Decoder{}
	b.ReportAllocs()
	for b.Loop() {
		if d.Record(benchHead); !d.Tree(n) {
			b.Fatal("not sure")
		}
		d.Done()
	}
}

func BenchmarkDecodeBroken(b *testing.B) {
	n := mustNode(b, torque(`"tighten": [{"to": "8 N·m", "tolerence": "±10 %"}], "fastener": {"type": "bolt"}`), true)
	b.ReportAllocs()
	for b.Loop() {
		if _, problems := DecodeRecord(n, benchHead); len(problems) != 2 {
			b.Fatal(problems)
		}
	}
}

func BenchmarkFigures(b *testing.B) {
	r, _ := DecodeRecord(mustNode(b, soundTorque, true), benchHead)
	b.ReportAllocs()
	for b.Loop() {
		n := 0
		for range r.Figures() {
			n++
		}
		if n != 4 {
			b.Fatal(n)
		}
	}
}
