package specs_test

import (
	"fmt"
	"strings"

	"snapgauge/schema"
	"snapgauge/specs"
)

func ExampleRead() {
	const book = `format: snapgauge/1.0
machine: {id: wrackline-40, name: Wrackline 40 reduction gear}
sources:
  manual: {title: Wrackline 40 workshop manual, kind: maker}
records:
  - id: breather-bracket-screw
    kind: torque
    where: breather pipe bracket to gearcase
    tighten:
      - {to: 21 N·m}
    source: {ref: manual, at: page 4-15}
  - id: control-cover-screws
    id: cover-screws
`
	for e, err := range specs.Read("gear.yaml", strings.NewReader(book)) {
		switch {
		case err != nil:
			fmt.Println(err)
		case e.HeadOnly:
			fmt.Println("head:", e.Head.Machine.Name)
		default:
			unit := schema.Spot{Path: schema.At("tighten", 0, "to"), From: 3, To: 7}
			fmt.Println(e.Pointer, e.Record.ID, "has its unit at", e.Locate(unit).Start)
		}
	}
	// Output:
	// head: Wrackline 40 reduction gear
	// /records/0 breather-bracket-screw has its unit at 10:17
	// gear.yaml:13:5: "id" stands twice in one mapping, first on line 12; keep one of them
}
