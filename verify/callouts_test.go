package verify_test

import (
	"fmt"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"snapgauge/verify"
	"snapgauge/verify/internal/tabletest"
	"snapgauge/verify/rule"
)

// A call-out in print: a figure, and in brackets the same in another unit.
const numbers = `[-+]?[\d.,/ ]+(?:\s*(?:-+|–|to|and|±|\+|\*)\s*[\d.,/]+)?`

var (
	bracketed = regexp.MustCompile(`^\s*` + numbers + `[\s-]*([^\d(\[]*?)\s*\(\s*` + numbers + `[\s-]*([^\d)]+?)\s*\)\s*$`)
	realError = map[string]bool{
		"conversion wrong: other": true, "decimal slipped": true, "digit wrong or transposed": true,
		"quantity mistyped (force as torque or the reverse)": true, "unit missing or cut short": true,
		"unit symbol wrong (kg/m for kg·m)": true,
	}
	left = map[string]bool{"OCR noise only": true, "leading decimal point lost (scan)": true}
)

// TestCallOuts writes the call-outs printed in two units in US government
// manuals (convert/testdata/callouts, each row with its document) as records,
// with the unit as printed where it can be cut out of the text, and runs every
// check. Of those that agree or are rounded, at most 1 % is queried and none
// rejected; of the real errors at least 90 % are flagged.
func TestCallOuts(t *testing.T) {
	var good, queried, bad, flagged int
	for _, name := range []string{"torque", "tolerances", "fills"} {
		for _, row := range tabletest.Rows(t, filepath.Join("..", "convert", "testdata", "callouts", name+".csv")) {
			if left[row["error_class"]] {
				continue
			}
			var worst rule.Verdict
			var said []string
			for _, f := range run(t, verify.All(), "callout.yaml", callOut(name, row)) {
				if f.Verdict >= rule.Query {
					worst = max(worst, f.Verdict)
					said = append(said, fmt.Sprintf("%s: %s [%s]", f.Verdict, f.Message, f.Check))
				}
			}
			if realError[row["error_class"]] {
				bad++
				if worst > rule.Note {
					flagged++
				} else {
					t.Logf("missed: %s %s (%s)", row["id"], row["printed"], row["error_class"])
				}
				continue
			}
			good++
			switch worst {
			case rule.Query:
				queried++
				t.Logf("queried: %s %s (%s): %s", row["id"], row["printed"], row["error_class"], said)
			case rule.Reject:
				t.Errorf("rejected: %s %s (%s): %s", row["id"], row["printed"], row["error_class"], said)
			}
		}
	}
	t.Logf("%d good call-outs, %d queried; %d real errors, %d flagged", good, queried, bad, flagged)
	if queried*100 > good {
		t.Errorf("%d of %d good call-outs are queried, want at most 1 %%", queried, good)
	}
	if flagged*10 < bad*9 {
		t.Errorf("%d of %d real errors are flagged, want at least 90 %%", flagged, bad)
	}
}

// callOut writes a call-out as a spec file of one record.
func callOut(kind string, row map[string]string) string {
	first, second := row["first_unit"], row["second_unit"]
	if m := bracketed.FindStringSubmatch(row["printed"]); m != nil {
		first, second = m[1], m[2]
	}
	first, second = asPrinted(first), asPrinted(second)
	value := func(lo, hi, unit string) string {
		if lo == hi {
			return fmt.Sprintf("%q", lo+" "+unit)
		}
		return fmt.Sprintf("%q", lo+" to "+hi+" "+unit)
	}
	figure := "[" + value(row["first_min"], row["first_max"], first) + ", " +
		value(row["second_min"], row["second_max"], second) + "]"
	if first == "" {
		figure = "[" + fmt.Sprintf("%q", strings.TrimSpace(row["first_min"])) + ", " + value(row["second_min"], row["second_max"], second) + "]"
	}
	body := map[string]string{
		"torque":     "kind: torque, tighten: [{to: " + figure + "}]",
		"fills":      "kind: fill, amounts: [{when: dry fill, volume: " + figure + "}]",
		"tolerances": "kind: tolerance, of: " + measureFor(row) + ", new: " + figure,
	}[kind]
	return "format: snapgauge/1.0\nmachine: {id: call-outs, name: call-outs in print}\n" +
		"sources: {print: {title: " + fmt.Sprintf("%q", row["document"]) + ", kind: government}}\n" +
		"records:\n  - {id: call-out, where: somewhere, " + body + ", source: {ref: print, at: there}}\n"
}

// asPrinted spells the columns' short names of units as print does.
func asPrinted(unit string) string {
	unit = strings.TrimSpace(unit)
	switch unit {
	case "degF":
		return "°F"
	case "degC":
		return "°C"
	}
	return unit
}

// measureFor chooses the measure that a row's units speak of.
func measureFor(row map[string]string) string {
	switch row["first_unit"] {
	case "psi", "kg/cm2", "mmHg":
		return "pressure"
	case "lb":
		return "spring load"
	case "degF", "degC":
		return "temperature"
	case "mph":
		return "speed"
	}
	return "width"
}
