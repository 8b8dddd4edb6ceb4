package sense

import (
	"fmt"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// WearLimitInside flags a wear limit that a new part already passes.
var WearLimitInside = &rule.Check{
	ID: "wear-limit-inside", Layer: rule.Sense, Title: "the wear limit lies within the limits for new parts",
	Doc: doc("wear-limit-inside.md"), Source: reference.Cite("common-practice"), Since: "v0.1.0",
	Verdict: rule.Reject,
	Record: func(p *rule.Pass) {
		r := p.Record
		_, wear, ok := schema.MeasureOf(r.Of)
		if !ok {
			return
		}
		if limit, fresh, ok := pair(&r.WearLimit, schema.At("wear-limit"), &r.New, schema.At("new")); ok {
			least, greatest := spread(fresh.quantity())
			worn := wornEnd(limit.quantity(), wear)
			switch {
			case wear == schema.Grows && worn.surelyBelow(greatest):
				p.Report(wearFinding(limit, fresh, "below", "above", worn.surelyBelow(least), r.Of))
				return
			case wear == schema.Shrinks && least.surelyBelow(worn):
				p.Report(wearFinding(limit, fresh, "above", "below", greatest.surelyBelow(worn), r.Of))
				return
			case wear == schema.NoWear && insideEitherWay(limit.quantity(), fresh.quantity()):
				p.Report(rule.Finding{
					Verdict: rule.Query, At: limit.number(), Read: limit.text(),
					Message: fmt.Sprintf("the wear limit %s lies within %s for new parts; whichever way a %s wears, a new part may be worn out",
						limit.text(), fresh.text(), r.Of),
					Related: []rule.Related{{At: fresh.number(), Message: "the limits for new parts are here"}},
				})
				return
			}
		}
		againstWear(p, wear)
	},
}

// insideEitherWay reports that a limit lies surely between both ends for new
// parts.
func insideEitherWay(limit, fresh convert.Quantity) bool {
	least, greatest := spread(fresh)
	from, to := spread(limit)
	return least.surelyBelow(from) && to.surelyBelow(greatest)
}

// againstWear reports a limit whose word runs against the way of wear: a least
// clearance, a greatest thickness.
func againstWear(p *rule.Pass, wear schema.Wear) {
	limit, ok := at(&p.Record.WearLimit, schema.At("wear-limit"))
	if !ok {
		return
	}
	q := limit.quantity()
	is, other := "least", q
	switch {
	case wear == schema.Grows && q.Form == convert.AtLeast:
		other.Form, other.First, other.Second = convert.AtMost, convert.Decimal{}, q.First
	case wear == schema.Shrinks && q.Form == convert.AtMost:
		is = "greatest"
		other.Form, other.First, other.Second = convert.AtLeast, q.Second, convert.Decimal{}
	default:
		return
	}
	f := rule.Finding{
		Verdict: rule.Query, At: limit.number(), Read: limit.text(), Want: other.String(),
		Message: fmt.Sprintf("the wear limit %s is a %s value, but %s %s as parts wear; %s", limit.text(), is, p.Record.Of, wear, other),
		Slips:   []rule.Slip{{Slip: "min and max mixed up", Reads: other.String(), Because: fmt.Sprintf("%s %s as parts wear", p.Record.Of, wear)}},
	}
	if otherWay[p.Record.Of] {
		f.Message += ", unless it wears the other way here"
	}
	p.Report(f)
}

// otherWay are the measures that mostly wear one way and sometimes the other: the
// bore of a drum is printed as a diameter, a breaker gap and a valve clearance
// close.
var otherWay = map[string]bool{"diameter": true, "gap": true, "clearance": true, "taper": true}

// wearFinding words a wear limit that lies on the wrong side of the limits for new
// parts. Where it lies wholly beyond them, the measure may wear the other way.
func wearFinding(limit, fresh spotted, side, should string, beyond bool, of string) rule.Finding {
	f := rule.Finding{
		Verdict: rule.Reject, At: limit.number(), Read: limit.text(),
		Message: fmt.Sprintf("the wear limit %s lies within %s for new parts, so that a new part may be worn out; for %s it lies %s them",
			limit.text(), fresh.text(), of, should),
		Related: []rule.Related{{At: fresh.number(), Message: "the limits for new parts are here"}},
	}
	if beyond {
		f.Message = fmt.Sprintf("the wear limit %s lies %s %s for new parts; for %s it lies %s them",
			limit.text(), side, fresh.text(), of, should)
		if otherWay[of] {
			f.Verdict = rule.Query
			f.Message += ", unless it wears the other way here"
		}
	}
	return f
}

// spread is the ends of a figure; where one is open, both are the other.
func spread(q convert.Quantity) (least, greatest end) {
	least, okLow := low(q)
	greatest, okHigh := high(q)
	if !okLow {
		least = greatest
	}
	if !okHigh {
		greatest = least
	}
	return least, greatest
}

// wornEnd is the end of a wear limit that forgives most.
func wornEnd(q convert.Quantity, wear schema.Wear) end {
	least, greatest := spread(q)
	if wear == schema.Grows {
		return greatest
	}
	return least
}
