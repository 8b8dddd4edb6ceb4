package physics

import (
	"fmt"
	"regexp"
	"strings"

	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/joint"
	"snapgauge/verify/rule"
)

// ClassUnknown rejects a class or grade that cannot exist and notes one that
// our tables do not hold.
var ClassUnknown = &rule.Check{
	ID: "class-unknown", Layer: rule.Physics, Title: "class or grade that does not exist",
	Doc: doc("class-unknown.md"), Source: reference.Cite("iso-898-1"), Since: "v0.1.0",
	Verdict: rule.Reject,
	Record:  classUnknown,
}

// setScrewClass is a class of ISO 898-5.
var setScrewClass = regexp.MustCompile(`(?i)\b(?:14|22|33|45)H\b`)

func classUnknown(p *rule.Pass) {
	eachClass(p.Record, func(at schema.Spot, kind string, c reference.ClassReading) {
		f := rule.Finding{At: at, Read: c.Text, Want: strings.Join(c.Near, ", ")}
		switch {
		case !c.Exists:
			f.Verdict, f.Message = rule.Reject, c.Message
			if f.Message == "" {
				f.Message = fmt.Sprintf("class %q does not exist", c.Text)
			}
		case !c.Known || !c.InTables:
			if kind == "set screw" && setScrewClass.MatchString(c.Text) {
				return // set screws have rows of their own
			}
			f.Verdict = rule.Note
			f.Message = fmt.Sprintf("class %q is not in the tables", c.Text)
			switch {
			case !c.Known && reference.NotSteel(c.Text):
				f.Message = fmt.Sprintf("class %q is no steel that the tables have", c.Text)
				if joint.Clamps(kind) {
					f.Message += ", so its torque is not checked"
				}
			case c.Between && !c.Foreign && joint.Clamps(kind):
				f.Message += fmt.Sprintf(", so a torque is checked by its neighbours, %s to %s", c.Rows[0].Designation, c.Rows[len(c.Rows)-1].Designation)
			case joint.Clamps(kind):
				f.Message += ", so a torque is checked by the strongest class"
			}
		default:
			return
		}
		p.Report(f)
	})
}

// eachClass reads the class of every fastener, and tells its type. Where the thread does not say
// which family it is, the reading that exists is taken.
func eachClass(r *schema.Record, yield func(at schema.Spot, kind string, c reference.ClassReading)) {
	if r == nil {
		return
	}
	for i := range r.Fasteners.Items {
		f := &r.Fasteners.Items[i]
		if f.Class == "" {
			continue
		}
		at := schema.Spot{Path: r.Fasteners.At(i).Field("class")}
		t, problem := reference.ParseThread(f.Thread)
		if problem == nil && (t.Family == reference.Metric || t.Family == reference.Unified) {
			yield(at, f.Type, reference.ReadClass(f.Class, t.D, t.Family == reference.Metric))
			continue
		}
		c := reference.ReadClass(f.Class, 0, true)
		if !c.Exists || !c.InTables || c.Foreign {
			if u := reference.ReadClass(f.Class, 0, false); u.Exists && !u.Foreign && (u.InTables || !c.Exists) {
				c = u
			}
		}
		// Of a size that is not known nothing is said.
		c.SizeFits, c.Foreign = true, false
		yield(at, f.Type, c)
	}
}
