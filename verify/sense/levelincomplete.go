package sense

import (
	"reflect"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// LevelIncomplete flags a level that leaves out the state of the engine or the
// temperature.
var LevelIncomplete = &rule.Check{
	ID: "level-incomplete", Layer: rule.Sense, Title: "a level without engine state or temperature",
	Doc: doc("level-incomplete.md"), Source: reference.Cite("us-army-tm-9-2320-386-10"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record: func(p *rule.Pass) {
		l := &p.Record.Level
		if reflect.ValueOf(l).Elem().IsZero() {
			return
		}
		warm := !l.At.IsZero() || len(l.Points) > 0 || len(l.Marks) > 0
		f := rule.Finding{Verdict: rule.Query, At: schema.Spot{Path: schema.At("level"), Key: true}}
		switch {
		case l.Engine.IsZero() && !warm:
			f.Message = "the level does not say at which temperature it holds, nor whether the engine runs"
			f.Want = "engine and at, points or marks"
		case l.Engine.IsZero():
			f.Message = "the level does not say whether the engine runs"
			f.Want = "engine: off, idling or a speed"
		case !warm:
			f.Message = "the level does not say at which temperature it holds"
			f.Want = "at, points or marks"
		default:
			return
		}
		p.Report(f)
	},
}
