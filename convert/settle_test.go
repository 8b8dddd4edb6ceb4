package convert

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

// values reads the texts of one figure.
func values(want Dimensions, texts ...string) []Value {
	var vs []Value
	for _, t := range texts {
		q, p := Parse(t, want, Point)
		vs = append(vs, Value{Text: t, Quantity: q, Problem: p})
	}
	return vs
}

func TestSettle(t *testing.T) {
	for _, tt := range []struct {
		name  string
		want  Dimension
		texts []string
		read  []string // what each was read as, "" for not read
		state string   // a letter each: clear, settled, query (read, but its problem stands), open
	}{
		{"country", Volume, []string{"6.2 L", "6.6 qt"}, []string{"6.2 L", "6.6 US qt"}, "cs"},
		{"country, the doubtful value first", Volume, []string{"12.7 qt", "12 L"}, []string{"12.7 US qt", "12 L"}, "sc"}, // F0005
		{"imperial", Volume, []string{"7.5 L", "6.6 qt"}, []string{"7.5 L", "6.6 imp qt"}, "cs"},
		{"both countries beside litres", Volume, []string{"4.2 L", "4.4 US qt", "3.7 qt"}, []string{"4.2 L", "4.4 US qt", "3.7 imp qt"}, "ccs"},
		{"no country agrees", Volume, []string{"6.2 L", "9 qt"}, []string{"6.2 L", ""}, "co"},
		{"nothing beside it", Volume, []string{"6.6 qt"}, []string{""}, "o"},
		{"two values without a country", Volume, []string{"6.6 qt", "1.65 gal"}, []string{"", ""}, "oo"},
		{"comma of thousands", Torque, []string{"1,300 N·m", "959 lbf·ft"}, []string{"1300 N·m", "959 lbf·ft"}, "sc"},
		{"decimal comma", Torque, []string{"6,5 N·m", "58 lbf·in"}, []string{"6.5 N·m", "58 lbf·in"}, "sc"},
		{"decimal comma on both sides", Torque, []string{"6,5 N·m", "57,5 lbf·in"}, []string{"6.5 N·m", "57.5 lbf·in"}, "ss"},
		{"decimal comma beside a decimal point", Torque, []string{"6,5 N·m", "57.5 lbf·in"}, []string{"6.5 N·m", "57.5 lbf·in"}, "sc"},
		{"thousands beside a decimal point", Volume, []string{"28,000 gal", "105.992 L"}, []string{"", "105.992 L"}, "oc"}, // F0011
		{"thousands", Volume, []string{"30,000 gal", "114 000 L"}, []string{"30000 US gal", "114000 L"}, "sc"},             // F0024
		{"thousands and country", Volume, []string{"1,200 bbl", "191 m³"}, []string{"1200 bbl", "191 m³"}, "sc"},           // F0020
		{"country, to one digit", Volume, []string{"1 gal", "3.8 L"}, []string{"1 US gal", "3.8 L"}, "sc"},
		{"country, imperial to one digit", Volume, []string{"1 gal", "4.5 L"}, []string{"1 imp gal", "4.5 L"}, "sc"},
		{"country, fluid ounces", Volume, []string{"12 fl oz", "355 mL"}, []string{"12 US fl oz", "355 mL"}, "sc"},
		{"decimal comma beside a point", Length, []string{"0,25 mm", "0.010 in"}, []string{"0.25 mm", "0.010 in"}, "sc"},
		{"three digits beside one", Torque, []string{"1,300 N·m", "11.5 lbf·in"}, []string{"1.300 N·m", "11.5 lbf·in"}, "sc"},
		{"no reading agrees", Volume, []string{"6.6 qt", "70 L"}, []string{"", "70 L"}, "oc"},
		{"either reading of both commas", Volume, []string{"28,000 gal", "105,992 L"}, []string{"", ""}, "oo"},
		{"comma for both", Torque, []string{"1,300 lbf·ft", "1762,6 N·m"}, []string{"", ""}, "oo"},
		{"comma that agrees with nothing", Torque, []string{"1,300 N·m", "100 lbf·ft"}, []string{"", "100 lbf·ft"}, "oc"},
		{"cut short", Torque, []string{"130-167 lb", "176-227 N.m"}, []string{"130 to 167 lbf·ft", "176 to 227 N·m"}, "qc"}, // C0511
		{"cut short, inches", Torque, []string{"8 N·m", "71 lb"}, []string{"8 N·m", "71 lbf·in"}, "cq"},
		{"cut short, N", Torque, []string{"270 ft-lb", "365 N"}, []string{"270 lbf·ft", "365 N·m"}, "cq"}, // C0194
		{"cut short, nothing agrees", Torque, []string{"8 N·m", "30 lb"}, []string{"8 N·m", ""}, "co"},
		{"cut short, alone", Torque, []string{"71 lb"}, []string{""}, "o"},
		{"wrong form", Torque, []string{"110 in-lbs.", "1.3 kg/m"}, []string{"110 lbf·in", "1.3 kgf·m"}, "cq"}, // C0328
		{"wrong form, alone", Torque, []string{"10 in/lb"}, []string{"10 lbf·in"}, "q"},
		{"wrong form, disagreeing", Torque, []string{"8 N·m", "10 in/lb"}, []string{"8 N·m", "10 lbf·in"}, "cq"},
		{"both wrong", Torque, []string{"10 in/lb", "1.13 N"}, []string{"10 lbf·in", "1.13 N·m"}, "qq"},
		{"comma and cut short", Torque, []string{"1,300 lb", "1763 N·m"}, []string{"1300 lbf·ft", "1763 N·m"}, "qc"},
		{"slash", Length, []string{"0.0025/0.0045 in", "0.0064 to 0.0114 cm"}, []string{"0.0025 to 0.0045 in", "0.0064 to 0.0114 cm"}, "sc"}, // D0275
		{"lost ±", Torque, []string{"30 + 3 lb. ft.", "40 ±4 N.m"}, []string{"30 ±3 lbf·ft", "40 ±4 N·m"}, "sc"},                             // C0175
		{"a misread unit that agrees", Torque, []string{"6 Ib-ft", "8 N·m"}, []string{"6 lbf·ft", "8 N·m"}, "sc"},
		{"a misread unit that does not", Torque, []string{"6 Ib-ft", "12 N·m"}, []string{"", "12 N·m"}, "oc"},
		{"an unknown unit stays", Torque, []string{"6 zorks", "8 N·m"}, []string{"", "8 N·m"}, "oc"},
		{"all clear", Torque, []string{"71 lbf·in", "8 N·m"}, []string{"71 lbf·in", "8 N·m"}, "cc"},
	} {
		vs := values(Of(tt.want), tt.texts...)
		Settle(vs)
		var read []string
		state := ""
		for i := range vs {
			v := &vs[i]
			text := ""
			if v.Read() {
				text = v.Quantity.String()
			}
			read = append(read, text)
			switch {
			case v.Problem == nil:
				state += "c"
			case v.Problem.Settled:
				state += "s"
			case v.Read():
				state += "q"
			default:
				state += "o"
			}
		}
		if d := cmp.Diff(tt.read, read); d != "" || state != tt.state {
			t.Errorf("%s: %q: state %s, want %s; -want +got:\n%s", tt.name, tt.texts, state, tt.state, d)
		}
	}
}

func TestSettleSaysWhy(t *testing.T) {
	vs := values(Of(Volume), "6.2 L", "6.6 qt")
	Settle(vs)
	const want = `"6.6 qt": "qt" is a US or an imperial measure; write 6.6 US qt or 6.6 imp qt; read as "6.6 US qt", which agrees with "6.2 L"`
	if got := vs[1].Problem.Message; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	Settle(vs) // a second time nothing is left to settle
	if got := vs[1].Problem.Message; got != want {
		t.Errorf("settled twice: %s", got)
	}
}
