package schema

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"snapgauge/convert"
)

// The words live in Go, where checks need them, and in the JSON Schemas, which
// editors read. Both must say the same.
func TestVocabularyIsThatOfTheSchemas(t *testing.T) {
	at := func(file string, way ...string) map[string]any {
		var x any = raw()[file]
		for _, step := range way {
			switch m := x.(type) {
			case map[string]any:
				x = m[step]
			default:
				t.Fatalf("%s %v: no %s", file, way, step)
			}
		}
		m, ok := x.(map[string]any)
		if !ok {
			t.Fatalf("%s %v is no schema", file, way)
		}
		return m
	}
	joint := []string{"properties", "joint", "properties"}
	level := []string{"properties", "level", "properties"}
	places := map[string]map[string]any{
		"kind":        at("common", "$defs", "kind"),
		"type":        at("torque", "$defs", "fastener", "properties", "type"),
		"head":        at("torque", "$defs", "fastener", "properties", "head"),
		"threads":     at("torque", append(joint, "threads")...),
		"into":        at("torque", append(joint, "into")...),
		"seal":        at("torque", append(joint, "seal")...),
		"pattern":     at("torque", "$defs", "step", "properties", "pattern"),
		"when":        at("fill", "properties", "amounts", "items", "properties", "when"),
		"by":          at("fill", append(level, "by")...),
		"engine":      at("fill", append(level, "engine")...),
		"source-kind": at("common", "$defs", "sourceKind"),
		"serials":     at("common", "$defs", "serials", "additionalProperties"),
		"decimal":     at("common", "$defs", "decimal"),
		"of":          at("tolerance", "properties", "of"),
	}
	for _, name := range Vocabularies() {
		place, ok := places[name]
		if !ok {
			t.Errorf("%s: the test knows no place in the schemas", name)
			continue
		}
		words, _ := wordsOf(place)
		if d := cmp.Diff(words, Vocabulary(name)); d != "" {
			t.Errorf("%s (-schema +go):\n%s", name, d)
		}
	}
	if got := Vocabulary("colour"); got != nil {
		t.Errorf("colour has words: %v", got)
	}
	Vocabulary("type")[0] = "changed"
	if Vocabulary("type")[0] != "screw" {
		t.Error("a caller can change the vocabulary")
	}
}

// A description that lists the words must list them all, for editors show it.
func TestDescriptionsListTheWords(t *testing.T) {
	for file, doc := range raw() {
		eachSchema(doc, file, func(at string, s map[string]any) {
			words, open := wordsOf(s)
			description, _ := s["description"].(string)
			if open != ", or other: …" || description == "" || s["title"] == "kind of source" {
				return
			}
			for _, w := range words {
				if !containsWord(description, w) {
					t.Errorf("%s: the description does not name %q", at, w)
				}
			}
		})
	}
}

// Every word that is suggested is one of the format, and is looked up as it is
// written in the table.
func TestMeantTables(t *testing.T) {
	for word, all := range meant {
		if spaced(word) != word {
			t.Errorf("%q is never found: a text is looked up as %q", word, spaced(word))
		}
		for _, to := range all {
			known := false
			for _, name := range Vocabularies() {
				known = known || slices.Contains(vocabulary[name], to)
			}
			if !known {
				t.Errorf("%q is meant to be %q, which is no word of the format", word, to)
			}
		}
	}
	fields := slices.Concat(tableOf(lineType).names, tableOf(headType).names)
	for _, typ := range structTypes() {
		fields = append(fields, tableOf(typ).names...)
	}
	for name, to := range meantField {
		if !slices.Contains(fields, to) {
			t.Errorf("the field %q is meant to be %q, which is no field of the format", name, to)
		}
	}
}

// The dimension and the direction of wear of each measure, as the format fixes
// them: what is clear between parts grows as they wear, what is solid shrinks.
func TestMeasureOf(t *testing.T) {
	tests := []struct {
		of   string
		dims convert.Dimensions
		wear Wear
	}{
		{"clearance", convert.Of(convert.Length), Grows},
		{"backlash", convert.Of(convert.Length, convert.Angle), Grows},
		{"bore", convert.Of(convert.Length), Grows},
		{"diameter", convert.Of(convert.Length), Shrinks},
		{"thickness", convert.Of(convert.Length), Shrinks},
		{"free length", convert.Of(convert.Length), Shrinks},
		{"length", convert.Of(convert.Length), NoWear},
		{"spring load", convert.Of(convert.Force), Shrinks},
		{"rolling torque", convert.Of(convert.Torque, convert.Force), Shrinks},
		{"preload", convert.Of(convert.Force, convert.Torque, convert.Length), NoWear},
		{"insulation resistance", convert.Of(convert.Resistance), Shrinks},
		{"coil resistance", convert.Of(convert.Resistance), NoWear},
		{"pressure", convert.Of(convert.Pressure), NoWear},
	}
	for _, tt := range tests {
		dims, wear, ok := MeasureOf(tt.of)
		if dims != tt.dims || wear != tt.wear || !ok {
			t.Errorf("%s: got %v, %v, %v, want %v, %v", tt.of, dims, wear, ok, tt.dims, tt.wear)
		}
	}
	dims, wear, ok := MeasureOf("charm")
	if ok || wear != NoWear || !dims.Has(convert.Length) || !dims.Has(convert.Pressure) || dims.Has(convert.Ratio) {
		t.Errorf("an unknown measure: got %v, %v, %v", dims, wear, ok)
	}
	for _, name := range Vocabulary("of") {
		if dims, _, ok := MeasureOf(name); !ok || dims == 0 {
			t.Errorf("%s has no dimension", name)
		}
	}
	if got := Grows.String() + Shrinks.String() + NoWear.String(); got != "growsshrinksno direction" {
		t.Error(got)
	}
}

// What is suggested for a word, and above all what is not: each line marked with
// ! once suggested, or would by likeness of letters, a word that makes a sound
// record wrong in a dangerous way.
func TestMeant(t *testing.T) {
	tests := []struct{ of, word, want string }{
		{"when", "refill", "drain and refill"},     // ! dry fill
		{"when", "oil refill", "drain and refill"}, // ! dry fill
		{"when", "Re-fill", "drain and refill"},    // ! dry fill
		{"when", "refil", "drain and refill"},      // misspelt
		{"when", "fill", ""},                       // ! dry fill
		{"when", "initial fill", "dry fill"},       //
		{"when", "change", "drain and refill, filter change"},
		{"when", "oil and filter change", "filter change"},
		{"when", "without filter change", ""}, // ! filter change
		{"when", "overhaul", "after overhaul"},
		{"into", "aluminium", "cast aluminium, wrought aluminium"}, // ! cast aluminium alone
		{"into", "aluminum", "cast aluminium, wrought aluminium"},
		{"into", "aluminium alloy", "cast aluminium, wrought aluminium"},
		{"into", "aluminim", "cast aluminium, wrought aluminium"}, // misspelt
		{"into", "Cast aluminum", "cast aluminium"},
		{"into", "die-cast aluminium", "cast aluminium"},
		{"into", "iron", "cast iron, ductile iron"},
		{"into", "cast", "cast iron, cast aluminium"},
		{"into", "stainless", "stainless steel"},
		{"into", "mild steel", "steel"},
		{"into", "aluminium bronze", ""}, // ! cast aluminium
		{"into", "bronze", ""},
		{"threads", "oild", "oiled"},
		{"threads", "lubricated", "oiled, moly, anti-seize"}, // ! oiled alone
		{"threads", "unplated", ""},                          // ! plated
		{"threads", "non-plated", ""},                        // ! plated
		{"threads", "not oiled", "dry"},                      // ! oiled
		{"threads", "unoiled", "dry"},                        // ! oiled
		{"threads", "without threadlocker", ""},              // ! threadlocker
		{"threads", "oil-free", "dry"},                       // ! oiled
		{"threads", "dry film lubricant", ""},                // ! dry
		{"threads", "clean and oiled", "oiled"},              // ! dry
		{"threads", "greased", ""},
		{"threads", "clean", "dry, as received"}, // ! dry alone
		{"threads", "AntiSeize", "anti-seize"},
		{"type", "bolt", "screw"},
		{"type", "cylinder head bolt", "screw"},
		{"type", "banjo bolt", "banjo"},
		{"type", "lock nut", "prevailing nut"},
		{"type", "nylon lock nut", "prevailing nut"}, // ! nut
		{"type", "flare nut", "tube nut"},            // ! nut
		{"type", "adjusting screw", ""},              // ! screw
		{"type", "wheel nut", "nut"},
		{"type", "drain plug", "plug"},
		{"type", "stud nut", "stud, nut"},
		{"head", "hex socket", "socket cap"}, // ! hex
		{"head", "cap", "hex, socket cap"},   // ! socket cap
		{"seal", "liquid gasket", "sealant"}, // ! gasket
		{"seal", "no gasket", ""},            // ! gasket
		{"pattern", "centre inwards", ""},    // ! centre outwards
		{"pattern", "center outwards", "centre outwards"},
		{"engine", "idle", "idling"},
		{"engine", "running", ""}, // ! idling
		{"engine", "not running", "off"},
		{"of", "clearence", "clearance"},
		{"of", "piston clearance", "clearance"},
		{"of", "bearing preload", "preload"},
		{"of", "tolerance", ""},                  // ! clearance
		{"of", "weight", "mass"},                 // ! height
		{"of", "valve lash", "clearance"},        // ! backlash
		{"of", "cylinder bore diameter", "bore"}, // ! diameter, which wears the other way
		{"of", "inside diameter", "bore"},        // ! diameter
		{"of", "resistance", "coil resistance, sensor resistance, insulation resistance"},
		{"of", "speed sensor resistance", "speed, sensor resistance"},
		{"of", "torque", "rolling torque, preload"},
		{"of", "axial play", "end float"},
		{"of", "slop", ""},
		{"source-kind", "shop manual", "maker"}, // ! shop
		{"by", "dip stick", "dipstick"},
		{"kind", "", ""},
	}
	for _, tt := range tests {
		if got := strings.Join(Meant(tt.word, Vocabulary(tt.of)), ", "); got != tt.want {
			t.Errorf("%s: %q: got %q, want %q", tt.of, tt.word, got, tt.want)
		}
	}
	for _, name := range Vocabularies() {
		for _, w := range Vocabulary(name) {
			if got := Meant(w, Vocabulary(name)); len(got) != 1 || got[0] != w {
				t.Errorf("%s: %q is meant to be %q", name, w, got)
			}
		}
	}
}

func TestNearest(t *testing.T) {
	fields := []string{"to", "turn", "loosen", "wait", "tolerance", "pattern", "order", "wear-limit", "between-marks"}
	tests := []struct {
		word  string
		known []string
		want  string
	}{
		{"tolerence", fields, "tolerance"},   // one letter replaced
		{"tolerrance", fields, "tolerance"},  // one too many
		{"tolerane", fields, "tolerance"},    // one missing
		{"tolreance", fields, "tolerance"},   // two neighbours exchanged
		{"tollerence", fields, "tolerance"},  // two mistakes
		{"tollerenze", fields, "tolerance"},  // three in a long word
		{"wear_limit", fields, "wear-limit"}, // separators count for nothing
		{"Wear Limit", fields, "wear-limit"}, // nor does case
		{"betweenMarks", fields, "between-marks"},
		{"too", fields, "to"},
		{"trun", fields, "turn"},
		{"tn", fields, ""},   // two mistakes in a short word
		{"note", fields, ""}, // nothing like it
		{"", fields, ""},
		{"x", []string{"a"}, ""}, // nothing would stay of it
		{"oild", Vocabulary("threads"), "oiled"},
		{"o-ring", Vocabulary("seal"), "O-ring"},
		{"aluminum", []string{"aluminium"}, "aluminium"},
		{"schraube", Vocabulary("type"), ""},
		{"hexx", []string{"hex", "hexa"}, "hex"}, // both as near: the first
	}
	for _, tt := range tests {
		if got := Nearest(tt.word, tt.known); got != tt.want {
			t.Errorf("%q: got %q, want %q", tt.word, got, tt.want)
		}
	}
}

// The distances are those of the textbook examples of edit distance; CA to ABC
// is 3 where no letter may be touched twice.
func TestDistance(t *testing.T) {
	for _, tt := range []struct {
		a, b string
		want int
	}{
		{"kitten", "sitting", 3}, {"saturday", "sunday", 3}, {"ca", "abc", 3}, {"ab", "ba", 1}, {"", "abc", 3}, {"abc", "", 3}, {"µm", "mm", 1},
	} {
		if got := distance([]rune(tt.a), []rune(tt.b)); got != tt.want {
			t.Errorf("%s, %s: got %d, want %d", tt.a, tt.b, got, tt.want)
		}
	}
}
