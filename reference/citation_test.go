package reference

import "testing"

func TestCitationString(t *testing.T) {
	for _, c := range []struct {
		in   Citation
		want string
	}{
		{Citation{"a", "ISO 898-1:2013 Table 3", SeenTwice}, "ISO 898-1:2013 Table 3"},
		{Citation{"a", "ISO 898-1:2013 Table 3", SeenOnce}, "ISO 898-1:2013 Table 3"},
		{Citation{"a", "ISO 261:1998", Memory}, "ISO 261:1998 (from memory)"},
		{Citation{"a", "ISO 68-1", Computed}, "ISO 68-1 (computed)"},
		{Cite("common-practice"), "common practice, no source"},
		{Citation{}, ""},
	} {
		if got := c.in.String(); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
	if !Cite("no such document").IsZero() || Cite("iso-898-1").IsZero() {
		t.Error("Cite must know iso-898-1 and nothing it was not given")
	}
}

// The documents that checks of other rooms name.
func TestDocumentsThatChecksCite(t *testing.T) {
	for _, id := range []string{
		"vdi-2230", "iso-898-1", "iso-898-2", "iso-3506-1", "sae-j429", "astm-a574", "iso-261", "iso-262", "iso-965-1", "asme-b1.1",
		"iso-4014", "iso-273", "iso-286", "iso-2768-1", "iso-6789", "nist-sp-811", "ucum", "json-schema-2020-12", "yaml-1.2",
		"rfc-8259", "rfc-8785", "astm-d1250", "iso-16047", "fed-std-h28", "iec-60028", "us-army-torque", "shigley", "iso-80000-1",
		"snapgauge-format", "common-practice",
	} {
		c := Cite(id)
		if c.ID != id || c.Text == "" {
			t.Errorf("Cite(%q) = %+v", id, c)
		}
	}
}

// Names used in the code itself must stand in citations.csv.
func TestNamesInCodeResolve(t *testing.T) {
	ids := []string{"iso-68-1", "iso-898-2", "hazards", "rules-of-practice", "ansi-z535.4"}
	for _, p := range proportions {
		ids = append(ids, p.source)
	}
	for _, m := range []map[string]named{namedWords, namedPrefixes} {
		for _, n := range m {
			if n.source != "" {
				ids = append(ids, n.source)
			}
		}
	}
	for _, id := range ids {
		if Cite(id).IsZero() {
			t.Errorf("citations.csv lacks %q", id)
		}
	}
}

func TestSeenWords(t *testing.T) {
	for s, want := range map[Seen]string{
		SeenTwice: "seen in two sources", SeenOnce: "seen in one source", Memory: "from memory",
		Computed: "computed", Practice: "common practice, no source",
	} {
		if s.String() != want {
			t.Errorf("Seen(%d) is %q, want %q", s, s, want)
		}
	}
}
