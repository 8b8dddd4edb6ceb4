package main

import "testing"

// Spellings met on gauges and in manuals; the symbols themselves say nothing.
func TestPressureKind(t *testing.T) {
	for spelling, want := range map[string]pressure{
		"psi": noKind, "bar": noKind, "at": noKind, "kPa": noKind, "kgf/cm²": noKind, "inHg": noKind, "mmHg": noKind, "Pa": noKind,
		"psig": gauge, "PSIG": gauge, "psi(g)": gauge, "psi (g)": gauge, "psi gauge": gauge, "psi gage": gauge, "psi.g.": gauge,
		"barg": gauge, "bar(g)": gauge, "bar-g": gauge, "kPag": gauge, "kPa(g)": gauge, "atü": gauge, "atg": gauge, "Atü": gauge,
		"psia": absolute, "psi(a)": absolute, "psi abs": absolute, "psi abs.": absolute, "psi absolute": absolute,
		"bara": absolute, "bar(a)": absolute, "bar abs": absolute, "mbar(a)": absolute, "kPa(abs)": absolute, "ata": absolute,
	} {
		if got := pressureKind(spelling); got != want {
			t.Errorf("%q: %q, want %q", spelling, got, want)
		}
	}
}
