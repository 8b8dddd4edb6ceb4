package convert

import (
	"strconv"

	"github.com/martinlindhe/unit"
)

// The unit table. Factors are exact: defined values of NIST SP 811 Appendix B
// (bold there) and products of them, with gn = 9.80665 m/s², lb = 0.45359237
// kg, in = 0.0254 m, US gal = 231 in³ and imperial gal = 4.54609 L.
//
// Where a constant of martinlindhe/unit is the defined value it is taken from
// there, see lib. Its psi, lbf, torr, inch of mercury, km/h and knot are
// rounded, and its foot, yard, pound and gallons lie a float step off: for these the
// exact factor stands here, and TestLibraryConstants says so constant by
// constant.
var table = []row{
	{dimension: Number, factor: "1"}, // the plain number
	{symbol: "%", ucum: "%", dimension: Ratio, factor: "1/100", spellings: "percent|per cent|pct|p.c."},

	{symbol: "N·m", ucum: "N.m", dimension: Torque, factor: "1", spellings: "Nm|nm|NM|newton metre|newton metres|newton meter|newton meters"},
	{symbol: "N·cm", ucum: "N.cm", dimension: Torque, factor: "0.01", spellings: "newton centimetre|newton centimeter|newton centimetres"},
	{symbol: "N·mm", ucum: "N.mm", dimension: Torque, factor: "0.001", spellings: "newton millimetre|newton millimeter"},
	{symbol: "cN·m", ucum: "cN.m", dimension: Torque, factor: "0.01", spellings: "centinewton metre|centinewton meter"},
	{symbol: "mN·m", ucum: "mN.m", dimension: Torque, factor: "0.001", spellings: "millinewton metre|millinewton meter"},
	{symbol: "daN·m", ucum: "daN.m", dimension: Torque, factor: "10", spellings: "m·daN|decanewton metre|dekanewton metre|decanewton meter|dekanewton meter"},
	{symbol: "kN·m", ucum: "kN.m", dimension: Torque, factor: "1000", spellings: "kilonewton metre|kilonewton meter"},
	{symbol: "kgf·m", ucum: "kgf.m", dimension: Torque, factor: "9.80665", spellings: "kg·m|m·kg|m·kgf|kp·m|m·kp|kilogram meter|kilogram metre|kilogram meters|kilogram metres|kilogram-force metre|kilogram-force meter|kilopond metre|kilopond meter|meter kilogram|metre kilogram"},
	{symbol: "kgf·cm", ucum: "kgf.cm", dimension: Torque, factor: "0.0980665", spellings: "kg·cm|cm·kg|cm·kgf|kp·cm|cm·kp|kilogram centimetre|kilogram centimeter"},
	{symbol: "gf·cm", ucum: "gf.cm", dimension: Torque, factor: "0.0000980665", spellings: "g·cm|cm·g|p·cm|gram centimetre|gram centimeter|centimeter gram|centimetre gram"},
	{symbol: "lbf·ft", ucum: "[lbf_av].[ft_i]", dimension: Torque, factor: "1.3558179483314004", spellings: "lb·ft|lbs·ft|ft·lbf|ft·lb|ft·lbs|ft·lbsf|lbsf·ft|foot pound|foot pounds|feet pounds|foot lb|foot lbs|pound foot|pounds foot|pound feet|pounds feet|pound-force foot|pound-force feet|foot pound-force|foot pounds-force|#ft|ft#"},
	{symbol: "lbf·in", ucum: "[lbf_av].[in_i]", dimension: Torque, factor: "0.1129848290276167", spellings: "lb·in|lbs·in|in·lbf|in·lb|in·lbs|in·lbsf|lbsf·in|inch pound|inch pounds|inch lb|inch lbs|lb inch|lbs inch|pound inch|pounds inch|pound inches|pounds inches|pound-force inch|inch pound-force|inch pounds-force|#in|in#"},
	{symbol: "ozf·in", ucum: "[oz_av].[g].[in_i]", dimension: Torque, factor: "0.00706155181422604375", spellings: "oz·in|in·oz|in·ozf|inch ounce|inch ounces|ounce inch|ounce inches|ounces inch|ounce-force inch"},
	{symbol: "ozf·ft", ucum: "[oz_av].[g].[ft_i]", dimension: Torque, factor: "0.084738621770712525", spellings: "oz·ft|ft·oz|ft·ozf|foot ounce|foot ounces"},
	{symbol: "dyn·cm", ucum: "dyn.cm", dimension: Torque, factor: "0.0000001", spellings: "dyne·cm|dynes·cm|dyne centimetre|dyne centimeter"},

	{symbol: "N", ucum: "N", dimension: Force, factor: lib(unit.Newton), spellings: "newton|newtons"},
	{symbol: "kN", ucum: "kN", dimension: Force, factor: "1000", spellings: "kilonewton|kilonewtons"},
	{symbol: "daN", ucum: "daN", dimension: Force, factor: "10", spellings: "decanewton|dekanewton"},
	{symbol: "kgf", ucum: "kgf", dimension: Force, factor: lib(unit.KilogramForce), spellings: "kp|kilopond|kiloponds|kilogram-force|kilograms-force|kg|kgs"},
	{symbol: "gf", ucum: "gf", dimension: Force, factor: "0.00980665", spellings: "gram-force|grams-force|p|pond|g"},
	{symbol: "tf", ucum: "t.[g]", dimension: Force, factor: "9806.65", spellings: "tonne-force"},
	{symbol: "lbf", ucum: "[lbf_av]", dimension: Force, factor: "4.4482216152605", spellings: "lbsf|lb|lbs|pound-force|pounds-force|pound|pounds|#"},
	{symbol: "ozf", ucum: "[oz_av].[g]", dimension: Force, factor: "0.27801385095378125", spellings: "oz|ozs|ounce-force|ounces-force|ounce|ounces"},
	{symbol: "dyn", ucum: "dyn", dimension: Force, factor: lib(unit.Dyne), spellings: "dyne|dynes"},

	{symbol: "Pa", ucum: "Pa", dimension: Pressure, factor: lib(unit.Pascal), spellings: "pascal|pascals|N/m²"},
	{symbol: "hPa", ucum: "hPa", dimension: Pressure, factor: lib(unit.Hectopascal), spellings: "hectopascal"},
	{symbol: "kPa", ucum: "kPa", dimension: Pressure, factor: lib(unit.Kilopascal), spellings: "kilopascal|kilopascals|kN/m²"},
	{symbol: "MPa", ucum: "MPa", dimension: Pressure, factor: lib(unit.Megapascal), spellings: "Mpa|megapascal|megapascals|N/mm²|MN/m²"},
	{symbol: "bar", ucum: "bar", dimension: Pressure, factor: lib(unit.Bar), spellings: "bars|barg|bar(g)|bar gauge|bara|bar(a)|bar abs|bar absolute"},
	{symbol: "mbar", ucum: "mbar", dimension: Pressure, factor: lib(unit.Millibar), spellings: "mb|millibar|millibars"},
	{symbol: "psi", ucum: "[psi]", dimension: Pressure, factor: "8896443230521/1290320000", spellings: "psig|psia|psi(g)|psi(a)|psi gauge|psi absolute|lbf/in²|lb/in²|lbs/in²|lbf/sq in|lb/sq in|lbs/sq in|lb per sq in|lbs per sq in|pound per square inch|pounds per square inch|lb/square inch"},
	{symbol: "ksi", ucum: "k[psi]", dimension: Pressure, factor: "8896443230521/1290320", spellings: "kip/in²|kpsi"},
	{symbol: "inHg", ucum: "[in_i'Hg]", dimension: Pressure, factor: "3386.388640341", spellings: `"Hg|inches of mercury|inch of mercury|inch Hg|inches Hg`},
	{symbol: "mmHg", ucum: "mm[Hg]", dimension: Pressure, factor: "133.322387415", spellings: "millimetres of mercury|millimeters of mercury"},
	{symbol: "Torr", ucum: "", dimension: Pressure, factor: "20265/152", spellings: "torr"},
	{symbol: "inH2O", ucum: "[in_i'H2O]", dimension: Pressure, factor: "249.08891", spellings: `"H2O|inWC|inches of water|inch of water|inches H2O|iwg|inwg`},
	{symbol: "mmH2O", ucum: "mm[H2O]", dimension: Pressure, factor: "9.80665", spellings: "mmWC|mmCE|mmWS|millimetres of water"},
	{symbol: "ftH2O", ucum: "", dimension: Pressure, factor: "2989.06692", spellings: "feet of water|foot of water"},
	{symbol: "kgf/cm²", ucum: "kgf/cm2", dimension: Pressure, factor: "98066.5", spellings: "kg/cm²|kgs/cm²|kg/sq cm|kgf/sq cm|kp/cm²|kgs"},
	{symbol: "kgf/mm²", ucum: "kgf/mm2", dimension: Pressure, factor: "9806650", spellings: "kg/mm²|kp/mm²"},
	{symbol: "at", ucum: "att", dimension: Pressure, factor: "98066.5", spellings: "ata|atü|atg|technical atmosphere|technical atmospheres"},
	{symbol: "atm", ucum: "atm", dimension: Pressure, factor: lib(unit.Atmosphere), spellings: "atmosphere|atmospheres|standard atmosphere"},

	{symbol: "m³", ucum: "m3", dimension: Volume, factor: lib(unit.CubicMeter), spellings: "cubic metre|cubic meter|cubic metres|cubic meters|cu m"},
	{symbol: "L", ucum: "L", dimension: Volume, factor: lib(unit.Liter), spellings: "l|ltr|ltrs|lit|lt|lts|litre|litres|liter|liters|dm³"},
	{symbol: "dL", ucum: "dL", dimension: Volume, factor: "0.0001", spellings: "dl|decilitre|deciliter"},
	{symbol: "cL", ucum: "cL", dimension: Volume, factor: "0.00001", spellings: "cl|centilitre|centiliter"},
	{symbol: "mL", ucum: "mL", dimension: Volume, factor: "0.000001", spellings: "ml|millilitre|milliliter|millilitres|milliliters|cc|ccm|cm³|cu cm|cubic centimetre|cubic centimeter|cubic centimetres|cubic centimeters"},
	{symbol: "mm³", ucum: "mm3", dimension: Volume, factor: "0.000000001", spellings: "cu mm|µL|µl|cubic millimetre"},
	{symbol: "in³", ucum: "[in_i]3", dimension: Volume, factor: "0.000016387064", spellings: "cu in|cubic inch|cubic inches|ci|CID|cid"},
	{symbol: "ft³", ucum: "[ft_i]3", dimension: Volume, factor: "0.028316846592", spellings: "cu ft|cubic foot|cubic feet"},
	{symbol: "US gal", ucum: "[gal_us]", dimension: Volume, factor: "0.003785411784", spellings: "US gals|US gallon|US gallons|gal (US)|gal US|gallons (US)|USG"},
	{symbol: "US qt", ucum: "[qt_us]", dimension: Volume, factor: "0.000946352946", spellings: "US qts|US quart|US quarts|qt (US)|qts (US)|quarts (US)|qt US"},
	{symbol: "US pt", ucum: "[pt_us]", dimension: Volume, factor: "0.000473176473", spellings: "US pts|US pint|US pints|pt (US)|pints (US)|pt US"},
	{symbol: "US cup", ucum: "[cup_us]", dimension: Volume, factor: "0.0002365882365", spellings: "US cups|cup (US)"},
	{symbol: "US fl oz", ucum: "[foz_us]", dimension: Volume, factor: "0.0000295735295625", spellings: "US oz|fl oz (US)|oz (US)|US fluid ounce|US fluid ounces"},
	{symbol: "imp gal", ucum: "[gal_br]", dimension: Volume, factor: "0.00454609", spellings: "imp gals|imperial gal|imperial gallon|imperial gallons|UK gal|UK gals|UK gallon|UK gallons|gal (UK)|gal (imp)|gallons (imp)"},
	{symbol: "imp qt", ucum: "[qt_br]", dimension: Volume, factor: "0.0011365225", spellings: "imp qts|imperial qt|imperial quart|imperial quarts|UK qt|UK qts|qt (UK)|qt (imp)"},
	{symbol: "imp pt", ucum: "[pt_br]", dimension: Volume, factor: "0.00056826125", spellings: "imp pts|imperial pt|imperial pint|imperial pints|UK pt|UK pts|pt (UK)|pt (imp)"},
	{symbol: "imp cup", ucum: "", dimension: Volume, factor: "0.000284130625", spellings: "imperial cup|UK cup"},
	{symbol: "imp fl oz", ucum: "[foz_br]", dimension: Volume, factor: "0.0000284130625", spellings: "imp oz|imperial fluid ounce|imperial fluid ounces|UK fl oz|fl oz (imp)|fl oz (UK)"},
	{symbol: "bbl", ucum: "[bbl_us]", dimension: Volume, factor: "0.158987294928", spellings: "bbls|barrel|barrels|oil barrel|oil barrels"},

	{symbol: "m", ucum: "m", dimension: Length, factor: lib(unit.Meter), spellings: "metre|meter|metres|meters"},
	{symbol: "km", ucum: "km", dimension: Length, factor: lib(unit.Kilometer), spellings: "kms|kilometre|kilometer|kilometres|kilometers"},
	{symbol: "cm", ucum: "cm", dimension: Length, factor: lib(unit.Centimeter), spellings: "centimetre|centimeter|centimetres|centimeters"},
	{symbol: "mm", ucum: "mm", dimension: Length, factor: lib(unit.Millimeter), spellings: "MM|m/m|mms|millimetre|millimeter|millimetres|millimeters"},
	{symbol: "µm", ucum: "um", dimension: Length, factor: lib(unit.Micrometer), spellings: "um|micron|microns|micrometre|micrometer|mu|µ"},
	{symbol: "in", ucum: "[in_i]", dimension: Length, factor: lib(unit.Inch), spellings: `inch|inches|ins|"|''`},
	{symbol: "thou", ucum: "[mil_i]", dimension: Length, factor: "0.0000254", spellings: "mil|mils|thous|thousandth|thousandths"},
	{symbol: "µin", ucum: "u[in_i]", dimension: Length, factor: "0.0000000254", spellings: "uin|microinch|microinches"},
	{symbol: "in/64", ucum: "[in_i]/64", dimension: Length, factor: "0.000396875", spellings: "64ths|64th|64ths in|64ths of an inch|x/64"},
	{symbol: "ft", ucum: "[ft_i]", dimension: Length, factor: "0.3048", spellings: "foot|feet|'"},
	{symbol: "yd", ucum: "[yd_i]", dimension: Length, factor: "0.9144", spellings: "yds|yard|yards"},
	{symbol: "mi", ucum: "[mi_i]", dimension: Length, factor: "1609.344", spellings: "mile|miles"},

	{symbol: "kg", ucum: "kg", dimension: Mass, factor: lib(unit.Kilogram), spellings: "kgs|KG|kilo|kilos|kilogram|kilograms|kilogramme|kilogrammes"},
	{symbol: "g", ucum: "g", dimension: Mass, factor: lib(unit.Gram), spellings: "gm|gms|grm|gram|grams|gramme|grammes"},
	{symbol: "mg", ucum: "mg", dimension: Mass, factor: lib(unit.Milligram), spellings: "milligram|milligrams|milligramme"},
	{symbol: "t", ucum: "t", dimension: Mass, factor: lib(unit.Tonne), spellings: "tonne|tonnes|metric ton|metric tons|te"},
	{symbol: "lb", ucum: "[lb_av]", dimension: Mass, factor: "0.45359237", spellings: "lbs|lbm|pound|pounds|#"},
	{symbol: "oz", ucum: "[oz_av]", dimension: Mass, factor: "0.028349523125", spellings: "ozs|ounce|ounces"},
	{symbol: "grain", ucum: "[gr]", dimension: Mass, factor: "0.00006479891", spellings: "grains"},
	{symbol: "short ton", ucum: "[ston_av]", dimension: Mass, factor: "907.18474", spellings: "short tons|US ton|US tons"},
	{symbol: "long ton", ucum: "[lton_av]", dimension: Mass, factor: "1016.0469088", spellings: "long tons|imperial ton|UK ton"},

	{symbol: "K", ucum: "K", dimension: Temperature, factor: "1", spellings: "°K|kelvin|kelvins"},
	{symbol: "°C", ucum: "Cel", dimension: Temperature, factor: "1", offset: "273.15", spellings: "C|C°|deg C|degs C|degree C|degrees C|celsius|degrees celsius|centigrade|degrees centigrade"},
	{symbol: "°F", ucum: "[degF]", dimension: Temperature, factor: "5/9", offset: "459.67", spellings: "F|F°|deg F|degs F|degree F|degrees F|fahrenheit|degrees fahrenheit"},
	{symbol: "K", ucum: "K", dimension: TemperatureDifference, factor: "1", spellings: "°K|kelvin|kelvins"},
	{symbol: "°C", ucum: "K", dimension: TemperatureDifference, factor: "1", spellings: "C|C°|deg C|degs C|degree C|degrees C|celsius|degrees celsius|centigrade|degrees centigrade"},
	{symbol: "°F", ucum: "[degF]", dimension: TemperatureDifference, factor: "5/9", spellings: "F|F°|deg F|degs F|degree F|degrees F|fahrenheit|degrees fahrenheit"},

	{symbol: "rad", ucum: "rad", dimension: Angle, factor: "1", spellings: "radian|radians"},
	{symbol: "°", ucum: "deg", dimension: Angle, factor: "1/180", pi: 1, spellings: "deg|degs|degree|degrees"},
	{symbol: "′", ucum: "'", dimension: Angle, factor: "1/10800", pi: 1, spellings: "arcmin|minute of arc|minutes of arc|minute|minutes"},
	{symbol: "turn", ucum: "circ", dimension: Angle, factor: "2", pi: 1, spellings: "turns|rev|revs|revolution|revolutions|r|tr"},
	{symbol: "flat", ucum: "", dimension: Angle, factor: "1/3", pi: 1, spellings: "flats|hex flat|hex flats"},

	{symbol: "Ω", ucum: "Ohm", dimension: Resistance, factor: "1", spellings: "ohm|ohms|R|W"},
	{symbol: "mΩ", ucum: "mOhm", dimension: Resistance, factor: "0.001", spellings: "milliohm|milliohms|mohm|mohms"},
	{symbol: "kΩ", ucum: "kOhm", dimension: Resistance, factor: "1000", spellings: "kohm|kohms|kilohm|kilohms|kiloohm|k|K"},
	{symbol: "MΩ", ucum: "MOhm", dimension: Resistance, factor: "1000000", spellings: "Mohm|Mohms|megohm|megohms|megaohm|meg"},

	{symbol: "V", ucum: "V", dimension: Voltage, factor: lib(unit.Volt), spellings: "v|volt|volts|VDC|Vdc|V DC|DC V|volts DC|VAC|Vac|volts AC"},
	{symbol: "mV", ucum: "mV", dimension: Voltage, factor: lib(unit.Millivolt), spellings: "mv|millivolt|millivolts|mVDC|mVAC"},
	{symbol: "kV", ucum: "kV", dimension: Voltage, factor: lib(unit.Kilovolt), spellings: "kilovolt|kilovolts"},
	{symbol: "A", ucum: "A", dimension: Current, factor: lib(unit.Ampere), spellings: "amp|amps|ampere|amperes"},
	{symbol: "mA", ucum: "mA", dimension: Current, factor: lib(unit.Milliampere), spellings: "ma|milliamp|milliamps|milliampere|milliamperes"},
	{symbol: "C", ucum: "C", dimension: Charge, factor: "1", spellings: "coulomb|coulombs"},
	{symbol: "A·h", ucum: "A.h", dimension: Charge, factor: "3600", spellings: "Ah|AH|amp hour|amp hours|ampere hour|ampere hours|amp hr"},

	{symbol: "W", ucum: "W", dimension: Power, factor: lib(unit.Watt), spellings: "watt|watts"},
	{symbol: "kW", ucum: "kW", dimension: Power, factor: lib(unit.Kilowatt), spellings: "kilowatt|kilowatts"},
	{symbol: "hp", ucum: "[HP]", dimension: Power, factor: "745.69987158227022", spellings: "bhp|horsepower"},
	{symbol: "PS", ucum: "", dimension: Power, factor: "735.49875", spellings: "cv|ch|pk|metric hp|metric horsepower|DIN hp"},

	{symbol: "s", ucum: "s", dimension: Time, factor: lib(unit.Second), spellings: `sec|secs|second|seconds|"`},
	{symbol: "ms", ucum: "ms", dimension: Time, factor: lib(unit.Millisecond), spellings: "msec|msecs|millisecond|milliseconds"},
	{symbol: "min", ucum: "min", dimension: Time, factor: lib(unit.Minute), spellings: "mins|minute|minutes|'"},
	{symbol: "h", ucum: "h", dimension: Time, factor: lib(unit.Hour), spellings: "hr|hrs|hour|hours"},

	{symbol: "rad/s", ucum: "rad/s", dimension: RotationalSpeed, factor: "1", spellings: "radian per second|radians per second"},
	{symbol: "rpm", ucum: "{rev}/min", dimension: RotationalSpeed, factor: "1/30", pi: 1, spellings: "r/min|rev/min|revs/min|revs per minute|revolutions per minute|turns per minute|min-1|1/min|/min|tr/min|U/min"},

	{symbol: "m/s", ucum: "m/s", dimension: Speed, factor: lib(unit.MetersPerSecond), spellings: "metres per second|meters per second"},
	{symbol: "km/h", ucum: "km/h", dimension: Speed, factor: "5/18", spellings: "kph|km/hr|kmh|kmph|kilometres per hour|kilometers per hour"},
	{symbol: "mph", ucum: "[mi_i]/h", dimension: Speed, factor: lib(unit.MilesPerHour), spellings: "mi/h|miles/h|miles per hour"},

	{symbol: "m³/s", ucum: "m3/s", dimension: Flow, factor: "1", spellings: "cubic metres per second|cubic meters per second"},
	{symbol: "L/min", ucum: "L/min", dimension: Flow, factor: "1/60000", spellings: "l/min|lpm|ltr/min|lit/min|litre/min|litres/min|liters/min|litres per minute|liters per minute"},
	{symbol: "mL/min", ucum: "mL/min", dimension: Flow, factor: "1/60000000", spellings: "ml/min|cc/min|ccm/min|cm³/min|millilitres per minute|milliliters per minute"},
	{symbol: "US gpm", ucum: "[gal_us]/min", dimension: Flow, factor: "0.0000630901964", spellings: "USGPM|US gal/min|US gallons per minute"},
	{symbol: "imp gpm", ucum: "[gal_br]/min", dimension: Flow, factor: "454609/6000000000", spellings: "UK gpm|igpm|imp gal/min|UK gal/min"},
	{symbol: "cfm", ucum: "[ft_i]3/min", dimension: Flow, factor: "0.0004719474432", spellings: "scfm|ft³/min|cu ft/min|cubic feet per minute"},

	{symbol: "m²/s", ucum: "m2/s", dimension: KinematicViscosity, factor: "1", spellings: "square metres per second"},
	{symbol: "mm²/s", ucum: "mm2/s", dimension: KinematicViscosity, factor: "0.000001", spellings: "cSt|cs|centistokes|centistoke"},
	{symbol: "St", ucum: "St", dimension: KinematicViscosity, factor: "0.0001", spellings: "stokes|stoke"},
	{symbol: "Pa·s", ucum: "Pa.s", dimension: DynamicViscosity, factor: "1", spellings: "pascal second|pascal seconds"},
	{symbol: "mPa·s", ucum: "mPa.s", dimension: DynamicViscosity, factor: "0.001", spellings: "cP|cps|centipoise"},

	{symbol: "N/m", ucum: "N/m", dimension: SpringRate, factor: "1", spellings: "newtons per metre|newtons per meter"},
	{symbol: "N/cm", ucum: "N/cm", dimension: SpringRate, factor: "100", spellings: "newtons per centimetre"},
	{symbol: "N/mm", ucum: "N/mm", dimension: SpringRate, factor: "1000", spellings: "kN/m|newtons per millimetre|newtons per millimeter"},
	{symbol: "lbf/in", ucum: "[lbf_av]/[in_i]", dimension: SpringRate, factor: "8896443230521/50800000000", spellings: "lb/in|lbs/in|lb/inch|lbs/inch|lb per in|lbs per in|lb per inch|lbs per inch|pounds/inch|pound per inch|pounds per inch|#/in"},
	{symbol: "kgf/mm", ucum: "kgf/mm", dimension: SpringRate, factor: "9806.65", spellings: "kg/mm|kp/mm"},
	{symbol: "kgf/cm", ucum: "kgf/cm", dimension: SpringRate, factor: "980.665", spellings: "kg/cm|kp/cm"},

	{symbol: "kg/m³", ucum: "kg/m3", dimension: Density, factor: "1", spellings: "g/L|g/dm³|kg per cubic metre"},
	{symbol: "g/cm³", ucum: "g/cm3", dimension: Density, factor: "1000", spellings: "g/cc|g/ml|kg/L|kg/dm³|t/m³"},
	{symbol: "lb/US gal", ucum: "[lb_av]/[gal_us]", dimension: Density, factor: "736351250/6145149", spellings: "lb/gal (US)|lbs/US gal|ppg"},
	{symbol: "lb/imp gal", ucum: "[lb_av]/[gal_br]", dimension: Density, factor: "45359237/454609", spellings: "lb/gal (imp)|lb/gal (UK)|lb/UK gal|lbs/imp gal"},

	{symbol: "m", ucum: "m", dimension: ThreadPitch, factor: "1", spellings: "metre|meter"},
	{symbol: "mm", ucum: "mm", dimension: ThreadPitch, factor: "0.001", spellings: "P|mm pitch|millimetre|millimeter|mm/rev"},
	{symbol: "TPI", ucum: "/[in_i]", dimension: ThreadPitch, factor: "5000/127", spellings: "threads per inch|threads/inch|threads/in"},
}

// lib takes a constant of martinlindhe/unit into the table. The shortest
// decimal that stands for the float is the defined value; the library keeps
// floats only.
func lib[F ~float64](f F) string { return strconv.FormatFloat(float64(f), 'f', -1, 64) }
