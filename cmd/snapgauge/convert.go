package main

import (
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"snapgauge/convert"
	"snapgauge/schema"
)

// counterparts are the units that the trade prints beside one another, the
// usual ones of each dimension first.
var counterparts = map[convert.Dimension][]string{
	convert.Torque:                {"N·m", "lbf·ft", "lbf·in", "kgf·m", "kgf·cm"},
	convert.Force:                 {"N", "kN", "lbf", "kgf"},
	convert.Pressure:              {"kPa", "bar", "psi", "kgf/cm²"},
	convert.Volume:                {"L", "mL", "US qt", "US fl oz", "imp pt"},
	convert.Length:                {"mm", "in"},
	convert.Mass:                  {"kg", "g", "lb", "oz"},
	convert.Temperature:           {"°C", "°F"},
	convert.TemperatureDifference: {"K", "°F"},
	convert.Angle:                 {"°", "turn"},
	convert.Resistance:            {"Ω", "kΩ"},
	convert.Voltage:               {"V", "mV"},
	convert.Current:               {"A", "mA"},
	convert.Charge:                {"A·h"},
	convert.Power:                 {"kW", "hp", "PS"},
	convert.Time:                  {"s", "min", "h"},
	convert.RotationalSpeed:       {"rpm"},
	convert.Speed:                 {"km/h", "mph"},
	convert.Flow:                  {"L/min", "US gpm"},
	convert.KinematicViscosity:    {"mm²/s", "St"},
	convert.DynamicViscosity:      {"mPa·s", "Pa·s"},
	convert.SpringRate:            {"N/mm", "lbf/in", "kgf/mm"},
	convert.Density:               {"kg/m³", "g/cm³", "lb/US gal"},
	convert.ThreadPitch:           {"mm", "TPI"},
}

type convertOptions struct {
	figure, unit string
	as           string // name of a dimension, "" for any
	limits       bool
	comma        bool
}

func newConvert(s streams) *cobra.Command {
	var opt convertOptions
	cmd := &cobra.Command{
		Use:   "convert FIGURE [UNIT]",
		Short: "convert a figure as printed, keeping as many digits as it supports",
		Long: `Convert reads a figure as it is printed and shows it in another unit, or in the
units that the trade prints beside its own. The value is formed exactly and
rounded once, to the fewest digits whose rounding error is relatively no larger
than that of the figure (NIST SP 811 B.7); --limits rounds the ends of a range,
a maximum or a minimum inwards, so that no value is let in that the original
keeps out. A converted value is always marked as converted.

A spelling that has two readings is refused with the readings named. A pressure
said to be gauge or absolute stays so: from one to the other the air pressure of
the day would be wanted.`,
		Example: "  snapgauge convert '71 lbf·in'\n" +
			"  snapgauge convert '71 lbf·in' N·m\n" +
			"  snapgauge convert --limits '8 to 10 N·m' lbf·in",
		Args: needs(1, 2, "a figure and a unit"),
		ValidArgsFunction: func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
			var out []string
			if len(args) == 1 {
				for u := range convert.Units() {
					out = append(out, u.Symbol())
				}
			}
			return out, cobra.ShellCompDirectiveNoFileComp
		},
		RunE: func(_ *cobra.Command, args []string) error {
			opt.figure = args[0]
			if len(args) > 1 {
				opt.unit = args[1]
			}
			if err := convertFigure(s.out, opt); err != nil {
				return err
			}
			warn(s.err)
			return nil
		},
	}
	cmd.Flags().StringVar(&opt.as, "as", "", "read the figure as this `quantity`: torque, length, …")
	cmd.Flags().BoolVar(&opt.limits, "limits", false, "round limits inwards")
	cmd.Flags().BoolVar(&opt.comma, "comma", false, "the comma is the decimal mark: 6,5 is six and a half")
	var names []string
	for _, d := range dimensions() {
		names = append(names, d.String())
	}
	complete(cmd, "as", names)
	return cmd
}

// dimensions are those that have units, in the order in which a figure is
// tried: a torque first, a bare share last.
func dimensions() []convert.Dimension {
	var out []convert.Dimension
	for u := range convert.Units() {
		if d := u.Dimension(); d != convert.Ratio && !slices.Contains(out, d) {
			out = append(out, d)
		}
	}
	slices.Sort(out)
	return append(out, convert.Ratio)
}

func convertFigure(w io.Writer, opt convertOptions) error {
	if err := noFigure(opt.figure); err != nil {
		return err
	}
	dims := dimensions()
	if opt.as != "" {
		i := slices.IndexFunc(dims, func(d convert.Dimension) bool { return d.String() == opt.as })
		if i < 0 {
			return unknownQuantity(opt.as, dims)
		}
		dims = dims[i : i+1]
	}
	var to []convert.Unit
	if opt.unit != "" {
		if to = unitsSpelt(opt.unit, dims); len(to) == 0 {
			return unknownUnit(opt.unit, dims)
		}
		dims = nil
		for _, u := range to {
			dims = append(dims, u.Dimension())
		}
	}
	q, err := readFigure(opt.figure, dims, opt.comma)
	if err != nil {
		return err
	}
	kind := noKind
	if q.Unit.Dimension() == convert.Pressure {
		kind = pressureKind(opt.figure[q.UnitAt.Start:q.UnitAt.End])
	}
	if opt.unit == "" {
		return showCounterparts(w, q, kind, opt.limits)
	}
	// One unit of each dimension was found, and the figure is of one of them.
	i := slices.IndexFunc(to, func(u convert.Unit) bool { return u.Dimension() == q.Unit.Dimension() })
	result, unsaid := kind, ""
	if q.Unit.Dimension() == convert.Pressure {
		wanted := pressureKind(opt.unit)
		switch {
		case wanted == noKind || wanted == kind:
		case kind == noKind:
			result = wanted
			unsaid = fmt.Sprintf("%q does not say gauge or absolute; it was taken for %s\n", opt.figure, wanted)
		default:
			return otherKind(opt, kind, wanted, to[i])
		}
	}
	c, err := q.To(to[i], opt.limits)
	if err != nil {
		return err
	}
	about := ""
	switch {
	case c.Digits > 0:
		about = "; the original supports " + digits(c)
	case c.ExactLo != "0":
		about = "; rounded to the decimals of the original"
	}
	_, err = fmt.Fprintf(w, "%s (converted from %s)\nexactly %s%s\n%s",
		result.of(c.Quantity.String()), kind.of(q.String()), result.of(exact(c)), about, unsaid)
	return err
}

func showCounterparts(w io.Writer, q convert.Quantity, kind pressure, limits bool) error {
	var lines []string
	d := q.Unit.Dimension()
	open := ""
	for _, symbol := range counterparts[d] {
		u, ok := unitOf(symbol, d)
		if !ok || u == q.Unit || d != convert.Temperature && !handy(u.FromSI(q.Nominal())) {
			continue
		}
		c, err := q.To(u, limits)
		if err != nil {
			return err
		}
		if c.OpenZeros {
			open = openZeros
		}
		kept := ""
		if c.Digits > 0 { // zero has none that count
			kept = count(c.Digits, "digit", "digits") + "; "
		}
		lines = append(lines, fmt.Sprintf("  %s (converted; %sexactly %s)\n",
			kind.of(c.Quantity.String()), kept, kind.of(exact(c))))
	}
	printed := kind.of(q.String())
	head := fmt.Sprintf("%s is %s; in other units, with as many digits as it supports%s:\n", printed, convert.Of(d), open)
	if len(lines) == 0 {
		head = fmt.Sprintf("%s is %s; no other unit is usual beside it, name one to convert to\n", printed, convert.Of(d))
	}
	_, err := io.WriteString(w, head+strings.Join(lines, ""))
	return err
}

// handy reports that a number is of a size in which people print it.
func handy(x float64) bool {
	x = math.Abs(x)
	return x == 0 || x >= 0.01 && x < 100_000
}

// exact is the exact value, both ends of it where it has two.
func exact(c convert.Converted) string {
	unit := " " + c.Quantity.Unit.Symbol()
	if strings.HasPrefix(unit, " °") && c.Quantity.Unit.Dimension() == convert.Angle {
		unit = unit[1:]
	}
	switch {
	case c.ExactHi == "" || c.ExactHi == c.ExactLo:
		return c.ExactLo + unit
	case c.ExactLo == "":
		return c.ExactHi + unit
	}
	return c.ExactLo + " to " + c.ExactHi + unit
}

// openZeros is said of a number such as 300, whose last digits may have been
// read or rounded.
const openZeros = ", if its zeros at the end were read and not rounded"

// digits says how many digits of the converted value the original supports.
func digits(c convert.Converted) string {
	out := count(c.Digits, "digit", "digits")
	if c.OpenZeros {
		out += openZeros
	}
	return out
}

// readFigure reads a figure in whichever of the dimensions it can be read. A
// spelling that is a unit's own symbol goes before one that is only met in
// print: "kg" is a mass before it is a force. A difference of temperatures is
// spelt as a temperature is, and a pitch as a length: those are taken.
func readFigure(text string, dims []convert.Dimension, comma bool) (convert.Quantity, error) {
	mark := convert.Point
	if comma {
		mark = convert.Comma
	}
	var sure, loose []convert.Quantity
	var refused *convert.Problem
	for _, d := range dims {
		q, p := convert.Parse(text, convert.Of(d), mark)
		switch {
		case p != nil:
			if refused == nil || worth(p) > worth(refused) {
				refused = p
			}
		case text[q.UnitAt.Start:q.UnitAt.End] == q.Unit.Symbol():
			sure = append(sure, q)
		default:
			loose = append(loose, q)
		}
	}
	read := sure
	if len(read) == 0 {
		read = loose
	}
	if len(read) > 1 {
		read = slices.DeleteFunc(read, func(q convert.Quantity) bool {
			d := q.Unit.Dimension()
			return d == convert.TemperatureDifference || d == convert.ThreadPitch
		})
	}
	switch {
	case len(read) == 1:
		return read[0], nil
	case len(read) > 1:
		var readings []string
		for _, q := range read {
			d := q.Unit.Dimension()
			readings = append(readings, fmt.Sprintf("%s (--as '%s')", q, d))
		}
		return convert.Quantity{}, fmt.Errorf("%q can be read as %s", text, orList(readings))
	case refused == nil:
		return convert.Quantity{}, fmt.Errorf("%q cannot be read", text)
	}
	return convert.Quantity{}, refusal(text, refused)
}

// worth ranks problems by how much they tell: one that names readings above
// one that only knows that the dimension is another.
func worth(p *convert.Problem) int {
	switch {
	case len(p.Readings) > 0:
		return 3
	case p.Kind == convert.WrongDimension:
		return 0
	case p.Kind == convert.UnknownUnit:
		return 1
	}
	return 2
}

func refusal(text string, p *convert.Problem) error {
	if p.Kind == convert.CommaDoubt {
		var readings []string
		for _, q := range p.Readings {
			readings = append(readings, q.String())
		}
		return fmt.Errorf("%q: the comma marks thousands or decimals; write %s, or say --comma if it is the decimal mark",
			text, orList(readings))
	}
	message := p.Message
	var readings []string
	for _, q := range p.Readings {
		if s := q.String(); !strings.Contains(message, s) {
			readings = append(readings, s)
		}
	}
	if len(readings) > 0 {
		message += ": " + orList(readings)
	}
	if strings.Contains(message, text) {
		return errors.New(message)
	}
	return fmt.Errorf("%q: %s", text, message)
}

// unitsSpelt are the units that a spelling may mean.
func unitsSpelt(spelling string, dims []convert.Dimension) []convert.Unit {
	var sure, loose []convert.Unit
	for _, d := range dims {
		if u, ok := unitOf(spelling, d); ok {
			sure = append(sure, u)
		} else if u, p := convert.ReadUnit(spelling, convert.Of(d)); p == nil {
			loose = append(loose, u)
		}
	}
	if len(sure) > 0 {
		return sure
	}
	return loose
}

// unitOf finds a unit of a dimension by its symbol.
func unitOf(symbol string, d convert.Dimension) (convert.Unit, bool) {
	for u := range convert.Units() {
		if u.Dimension() == d && u.Symbol() == symbol {
			return u, true
		}
	}
	return 0, false
}

func unknownUnit(spelling string, dims []convert.Dimension) error {
	for _, d := range dims {
		// What it may be a misreading of is the nearest unit, and rarely near.
		if _, p := convert.ReadUnit(spelling, convert.Of(d)); p != nil && p.Kind != convert.UnknownUnit && len(p.Readings) > 0 {
			return p
		}
	}
	var all []string
	for u := range convert.Units() {
		all = append(all, u.Symbol())
	}
	if near := schema.Nearest(spelling, all); near != "" {
		return fmt.Errorf("no unit is spelt %q; did you mean %q?", spelling, near)
	}
	return fmt.Errorf("no unit is spelt %q", spelling)
}

func unknownQuantity(name string, dims []convert.Dimension) error {
	var all []string
	for _, d := range dims {
		all = append(all, d.String())
	}
	if near := schema.Nearest(name, all); near != "" {
		return fmt.Errorf("no quantity is named %q; did you mean %q?", name, near)
	}
	return errors.New("no quantity is named " + fmt.Sprintf("%q", name) + "; there are " + strings.Join(all, ", "))
}

func orList(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " or " + words[last]
}
