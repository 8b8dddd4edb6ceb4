package convert

import "strings"

// doubt is a spelling that is refused in one dimension although it is known
// what it may have been.
type doubt struct {
	dimension Dimension
	kind      Kind // Ambiguous, CutShort or WrongForm
	spellings string
	readings  string // symbols of the units it may stand for, likeliest first
	because   string // after the spelling: "is a weight or a force and no torque"

	units []Unit
}

func (d *doubt) resolve() {
	if d.units != nil {
		return
	}
	for s := range strings.SplitSeq(d.readings, "|") {
		if u, ok := unitIn(s, d.dimension); ok {
			d.units = append(d.units, u)
		}
	}
}

// message says what the spelling is and what to write instead. text is the
// whole figure, "" when there is only the unit.
func (d *doubt) message(spelling, text string, readings []Quantity, mark Mark) string {
	var b strings.Builder
	if text != "" {
		b.WriteString(quote(text))
		b.WriteString(": ")
	}
	b.WriteString(quote(spelling))
	b.WriteByte(' ')
	b.WriteString(d.because)
	b.WriteString("; write ")
	b.WriteString(or(texts(readings, mark)))
	return b.String()
}

// texts prints readings with the decimal mark of the file; of a unit alone its
// symbol.
func texts(qs []Quantity, mark Mark) []string {
	var ts []string
	for _, q := range qs {
		t := q.Unit.Symbol()
		if q != (Quantity{Unit: q.Unit}) {
			t = q.String()
		}
		if mark == Comma {
			t = strings.ReplaceAll(t, ".", ",")
		}
		ts = append(ts, t)
	}
	return ts
}

// The spellings that have two readings in a dimension, or none by their form.
// Form: a torque is force times length, so a quotient is none (rule of form).
// Country: NIST SP 811 Appendix B lists US and imperial measures apart; the dry
// measures are left out, nothing in a workshop is filled by them.
var doubts = []doubt{
	{dimension: Torque, kind: CutShort, spellings: "lb|lbs|lbf|pound|pounds|#", readings: "lbf·ft|lbf·in", because: "is a weight or a force and no torque, its lever is cut off"},
	{dimension: Torque, kind: CutShort, spellings: "kg|kgs|kgf|kp|kilo|kilogram|kilograms", readings: "kgf·m|kgf·cm", because: "is a weight or a force and no torque, its lever is cut off"},
	{dimension: Torque, kind: CutShort, spellings: "N|newton|newtons", readings: "N·m|N·cm", because: "is a force and no torque, its lever is cut off"},
	{dimension: Torque, kind: CutShort, spellings: "kN", readings: "kN·m", because: "is a force and no torque, its lever is cut off"},
	{dimension: Torque, kind: CutShort, spellings: "daN", readings: "daN·m", because: "is a force and no torque, its lever is cut off"},
	{dimension: Torque, kind: CutShort, spellings: "mN", readings: "mN·m", because: "is a force and no torque, its lever is cut off"},
	{dimension: Torque, kind: CutShort, spellings: "cN", readings: "cN·m", because: "is a force and no torque, its lever is cut off"},
	{dimension: Torque, kind: CutShort, spellings: "g|gf", readings: "gf·cm", because: "is a weight or a force and no torque, its lever is cut off"},
	{dimension: Torque, kind: CutShort, spellings: "oz|ozf|ozs", readings: "ozf·in|ozf·ft", because: "is a weight or a force and no torque, its lever is cut off"},
	{dimension: Torque, kind: CutShort, spellings: "ft|foot|feet", readings: "lbf·ft", because: "is a length and no torque, its force is cut off"},
	{dimension: Torque, kind: CutShort, spellings: "in|inch|inches", readings: "lbf·in", because: "is a length and no torque, its force is cut off"},
	{dimension: Torque, kind: CutShort, spellings: "m", readings: "N·m|kgf·m", because: "is a length and no torque, its force is cut off"},
	{dimension: Torque, kind: CutShort, spellings: "cm", readings: "kgf·cm|N·cm", because: "is a length and no torque, its force is cut off"},

	{dimension: Torque, kind: WrongForm, spellings: "in/lb|in/lbs|in/lbf|inch/lb|inch/lbs|inch/pound|inch/pounds|inches/pound|lb/in|lbs/in|lbf/in|lb/inch|lbs/inch|lb per in|lbs per in|lb per inch|pound per inch|pounds per inch|pounds/inch|#/in", readings: "lbf·in", because: "is a quotient and no torque"},
	{dimension: Torque, kind: WrongForm, spellings: "ft/lb|ft/lbs|ft/lbf|foot/lb|foot/lbs|foot/pound|foot/pounds|feet/pound|lb/ft|lbs/ft|lbf/ft|lb/foot|lbs/foot|lb per ft|lbs per ft|pound per foot|pounds per foot|pounds/foot|#/ft", readings: "lbf·ft", because: "is a quotient and no torque"},
	{dimension: Torque, kind: WrongForm, spellings: "kg/m|kgf/m|kp/m|kgs/m|m/kg|m/kgf", readings: "kgf·m", because: "is a quotient and no torque"},
	{dimension: Torque, kind: WrongForm, spellings: "kg/cm|kgf/cm|kp/cm|kgs/cm|cm/kg|kg/cm²|kgf/cm²", readings: "kgf·cm", because: "is a quotient and no torque"},
	{dimension: Torque, kind: WrongForm, spellings: "g/cm|gf/cm|cm/g", readings: "gf·cm", because: "is a quotient and no torque"},
	{dimension: Torque, kind: WrongForm, spellings: "N/m|Nm/m|m/N|newton/metre|newton/meter|newtons per metre|newtons per meter", readings: "N·m", because: "is a quotient and no torque"},
	{dimension: Torque, kind: WrongForm, spellings: "N/cm|Ncm/cm", readings: "N·cm", because: "is a quotient and no torque"},
	{dimension: Torque, kind: WrongForm, spellings: "N/mm", readings: "N·mm", because: "is a quotient and no torque"},
	{dimension: Torque, kind: WrongForm, spellings: "daN/m", readings: "daN·m", because: "is a quotient and no torque"},
	{dimension: Torque, kind: WrongForm, spellings: "kN/m", readings: "kN·m", because: "is a quotient and no torque"},
	{dimension: Torque, kind: WrongForm, spellings: "oz/in|ozf/in|in/oz", readings: "ozf·in", because: "is a quotient and no torque"},
	{dimension: Torque, kind: WrongForm, spellings: "oz/ft|ft/oz", readings: "ozf·ft", because: "is a quotient and no torque"},
	{dimension: Torque, kind: Ambiguous, spellings: "MNm", readings: "N·m|mN·m", because: "is the meganewton metre, which no joint is tightened to"},

	{dimension: Force, kind: CutShort, spellings: "t|ton|tons|tonne|tonnes", readings: "tf", because: "is a mass and no force"},

	{dimension: Pressure, kind: CutShort, spellings: "lb|lbs|lbf|pound|pounds|#", readings: "psi", because: "is a weight or a force and no pressure, its area is cut off"},
	{dimension: Pressure, kind: CutShort, spellings: "kg|kgf|kp|kilo|kilos", readings: "kgf/cm²", because: "is a weight or a force and no pressure, its area is cut off"},
	{dimension: Pressure, kind: CutShort, spellings: "in|inch|inches", readings: "inHg|inH2O", because: "is a length and no pressure, its liquid is cut off"},
	{dimension: Pressure, kind: CutShort, spellings: "mm", readings: "mmHg|mmH2O", because: "is a length and no pressure, its liquid is cut off"},
	{dimension: Pressure, kind: WrongForm, spellings: "lb/in|lbs/in|lbf/in|lb per inch|pounds per inch", readings: "psi", because: "is a spring rate and no pressure"},
	{dimension: Pressure, kind: WrongForm, spellings: "kg/cm|kgf/cm", readings: "kgf/cm²", because: "is a spring rate and no pressure"},
	{dimension: Pressure, kind: WrongForm, spellings: "N/mm", readings: "MPa", because: "is a spring rate and no pressure"},

	{dimension: Volume, kind: Ambiguous, spellings: "gal|gals|gall|galls|gallon|gallons", readings: "US gal|imp gal", because: "is a US or an imperial measure"},
	{dimension: Volume, kind: Ambiguous, spellings: "qt|qts|quart|quarts", readings: "US qt|imp qt", because: "is a US or an imperial measure"},
	{dimension: Volume, kind: Ambiguous, spellings: "pt|pts|pint|pints", readings: "US pt|imp pt", because: "is a US or an imperial measure"},
	{dimension: Volume, kind: Ambiguous, spellings: "cup|cups", readings: "US cup|imp cup", because: "is a US or an imperial measure"},
	{dimension: Volume, kind: Ambiguous, spellings: "fl oz|fl ozs|fluid oz|fluid ounce|fluid ounces|oz|ozs|ounce|ounces", readings: "US fl oz|imp fl oz", because: "is a US or an imperial measure"},
	{dimension: Flow, kind: Ambiguous, spellings: "gpm|gal/min|gals/min|gallons/min|gallons per minute", readings: "US gpm|imp gpm", because: "is in US or imperial gallons"},
	{dimension: Flow, kind: CutShort, spellings: "L|l|litre|litres|liter|liters", readings: "L/min", because: "is a volume and no flow, its time is cut off"},
	{dimension: Flow, kind: CutShort, spellings: "mL|cc", readings: "mL/min", because: "is a volume and no flow, its time is cut off"},
	{dimension: Density, kind: Ambiguous, spellings: "lb/gal|lbs/gal|pounds per gallon", readings: "lb/US gal|lb/imp gal", because: "is in US or imperial gallons"},
	{dimension: Mass, kind: Ambiguous, spellings: "gr|grs", readings: "g|grain", because: "is a gram in some books and the grain by its symbol"},
	{dimension: Mass, kind: Ambiguous, spellings: "ton|tons", readings: "short ton|t|long ton", because: "is a short, a metric or a long ton"},

	{dimension: Temperature, kind: CutShort, spellings: "°|deg|degs|degree|degrees", readings: "°C|°F", because: "does not name the scale"},
	{dimension: TemperatureDifference, kind: CutShort, spellings: "°|deg|degs|degree|degrees", readings: "°C|°F", because: "does not name the scale"},
	{dimension: RotationalSpeed, kind: CutShort, spellings: "rev|revs|r|turn|turns|revolutions", readings: "rpm", because: "is a number of turns and no speed, its time is cut off"},
	{dimension: Speed, kind: CutShort, spellings: "km|kilometres|kilometers", readings: "km/h", because: "is a length and no speed, its time is cut off"},
	{dimension: Speed, kind: CutShort, spellings: "mi|mile|miles", readings: "mph", because: "is a length and no speed, its time is cut off"},
	{dimension: Charge, kind: CutShort, spellings: "A|amp|amps|ampere|amperes", readings: "A·h", because: "is a current and no charge, its time is cut off"},
	{dimension: Time, kind: CutShort, spellings: "m", readings: "min", because: "is the metre"},
	{dimension: SpringRate, kind: CutShort, spellings: "lb|lbs|lbf|pound|pounds", readings: "lbf/in", because: "is a weight or a force and no spring rate, its length is cut off"},
	{dimension: SpringRate, kind: CutShort, spellings: "N|newton|newtons", readings: "N/mm|N/m", because: "is a force and no spring rate, its length is cut off"},
	{dimension: SpringRate, kind: CutShort, spellings: "kg|kgf|kp", readings: "kgf/mm|kgf/cm", because: "is a weight or a force and no spring rate, its length is cut off"},
	{dimension: SpringRate, kind: WrongForm, spellings: "lb·in|lbf·in|lbs·in|in·lb|in·lbs", readings: "lbf/in", because: "is a torque and no spring rate"},
	{dimension: SpringRate, kind: WrongForm, spellings: "N·mm", readings: "N/mm", because: "is a torque and no spring rate"},
}
