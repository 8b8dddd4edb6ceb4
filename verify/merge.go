package verify

import (
	"slices"

	"snapgauge/schema"
	"snapgauge/verify/rule"
)

// causes leaves out what follows from a value of the wrong shape: where places
// are no numbers, no count is wrong. What stands elsewhere in the record stays.
func (r *Records) causes(e *schema.Entry, found []rule.Finding) []rule.Finding {
	if len(e.Problems) == 0 {
		return found
	}
	shape := map[string]bool{}
	for _, c := range r.checks {
		shape[c.ID] = c.Layer == rule.Shape
	}
	return slices.DeleteFunc(found, func(f rule.Finding) bool {
		if shape[f.Check] {
			return false
		}
		return slices.ContainsFunc(e.Problems, func(p schema.Problem) bool {
			switch p.Fault {
			case schema.WrongValue, schema.EmptiedField, schema.SplitNumber:
			default:
				return false
			}
			at := p.At.Path
			return at.Len() > 0 && (at.Has(f.At.Path) || f.At.Path.Len() > 0 && f.At.Path.Has(at))
		})
	})
}

// merge leaves one finding a figure: the most certain, and of equals the one
// whose check stands first. The others become its evidence.
func merge(e *schema.Entry, found []rule.Finding) []rule.Finding {
	if len(found) < 2 || e.Record == nil {
		return found
	}
	figureOf := func(f rule.Finding) (schema.Path, bool) {
		if f.At.Key {
			return schema.Path{}, false
		}
		for p := range e.Record.Figures() {
			if p.Has(f.At.Path) {
				return p, true
			}
		}
		return schema.Path{}, false
	}
	var out []rule.Finding
	at := map[schema.Path]int{} // of the finding that stands for a figure
	for _, f := range found {
		p, ok := figureOf(f)
		if !ok {
			out = append(out, f)
			continue
		}
		i, ok := at[p]
		if !ok {
			at[p] = len(out)
			out = append(out, f)
			continue
		}
		first, other := out[i], f
		if other.Verdict > first.Verdict {
			first, other = other, first
		}
		first.Related = append(slices.Clone(first.Related), rule.Related{At: other.At, Message: other.Message})
		first.Related = append(first.Related, other.Related...)
		if first.Want == "" {
			first.Want = other.Want
		}
		out[i] = first
	}
	return out
}
