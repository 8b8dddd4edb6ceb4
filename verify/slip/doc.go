// Package slip knows the single slips that people make when they copy figures:
// how to plant each in a good record and how to undo it in a bad one.
//
// # The likelihood
//
// [Undo] takes back every single slip that may have led to what stands there,
// and ranks what comes out by
//
//		prior × share × usualness × plausibility
//
//	  - prior: how often the kind of slip was counted in print, in documents
//	    (data/error-frequencies.csv); a kind that was not counted takes half of
//	    the smallest count and is marked as assumed.
//	  - share: how likely this very slip is among those of its kind that can
//	    befall the figure. A number of three digits can lose one of three; a
//	    point moves by one place more often than by three.
//	  - usualness: how often such a figure is printed, divided by the same of the
//	    figure as it stands: its digits, the width of its range, its unit beside
//	    those of the record, of the book and of the thread, and how its values
//	    agree, which is 0 where they do not. Since it is a share of all figures,
//	    the many restorations of a lost digit have no more together than the few
//	    of a swapped unit.
//	  - plausibility: from 0 (cannot be) to 1, told by the caller: what the
//	    mechanics and the other checks say of the figure restored.
//
// What a check still asks about stands behind all that nothing is asked about. A
// third restoration of one kind makes way for another kind that is little less
// likely.
//
// Of two slips that lead to one figure the likelier gives its name. Scores are
// rounded to an eighth of a power of two before they are ranked, so that noise in
// the last bits decides nothing; ties go by the order of [Kinds], then by text.
package slip
