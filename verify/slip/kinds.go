package slip

import (
	"slices"
)

// Kind is a kind of slip.
type Kind struct {
	ID   string // kebab words
	Name string // in a finding: "unit swapped"
	// classes of data/error-frequencies.csv that count it, each divided by how
	// many kinds it is shared with.
	classes []string

	undo  func(*undoing)
	plant func(*planting)
}

// The classes that count several kinds.
const (
	countedDigit   = "digit wrong or transposed"
	countedPoint   = "decimal slipped"
	countedScan    = "scan noise only"
	countedForm    = "unit symbol wrong"
	countedCut     = "unit missing or cut short"
	countedLeading = "leading decimal point lost"
	countedForce   = "force typed as torque or the reverse"
	countedFactor  = "factor 1.4 used for 1.356"
	countedTwelve  = "factor 12 (lb-ft converted as lb-in)"
)

// kinds in their fixed order, which breaks ties.
var kinds = []*Kind{
	{ID: "unit-swapped", Name: "unit swapped", undo: undoUnit, plant: plantUnit},
	{ID: "point-moved", Name: "decimal point moved", classes: []string{countedPoint}, undo: undoPoint, plant: plantPoint},
	{ID: "point-lost", Name: "leading decimal point lost", classes: []string{countedLeading}, undo: undoLeadingPoint, plant: plantLeadingPoint},
	{ID: "digits-transposed", Name: "digits transposed", classes: []string{countedDigit}, undo: undoTransposed, plant: plantTransposed},
	{ID: "digit-wrong", Name: "digit mistyped", classes: []string{countedDigit}, undo: undoDigit, plant: plantDigit},
	{ID: "digit-lost", Name: "digit lost", classes: []string{countedDigit}, undo: undoLost, plant: plantLost},
	{ID: "digit-doubled", Name: "digit doubled", classes: []string{countedDigit}, undo: undoDoubled, plant: plantDoubled},
	{ID: "ends-swapped", Name: "ends of the range swapped", undo: undoEnds, plant: plantEnds},
	{ID: "dash-lost", Name: "dash of the range lost", classes: []string{countedScan}, undo: undoDash, plant: plantDash},
	{ID: "sign-lost", Name: "sign lost", classes: []string{countedScan}, undo: undoSign, plant: plantSign},
	{ID: "scan-noise", Name: "scan noise", classes: []string{countedScan}, undo: undoNoise, plant: plantNoise},
	{ID: "unit-cut-short", Name: "unit cut short", classes: []string{countedCut}, undo: undoCut, plant: plantCut},
	{ID: "unit-wrong-form", Name: "unit in a wrong form", classes: []string{countedForm}, undo: undoForm, plant: plantForm},
	{ID: "factor-wrong", Name: "second unit made with a wrong factor", classes: []string{countedFactor, countedTwelve}, undo: undoFactor, plant: plantFactor},
	{ID: "wrong-end", Name: "second unit made from the wrong end", undo: undoWrongEnd, plant: plantWrongEnd},
	{ID: "force-for-torque", Name: "force and torque mixed up", classes: []string{countedForce}, undo: undoForce, plant: plantForce},
	{ID: "fahrenheit", Name: "°F under °C", undo: undoFahrenheit, plant: plantFahrenheit},
	{ID: "figures-exchanged", Name: "figures of two rows exchanged", undo: undoExchanged, plant: plantExchanged},
	{ID: "row-copied", Name: "row copied from its neighbour", plant: plantCopied},
	{ID: "thread-wrong", Name: "wrong thread", undo: undoThread, plant: plantThread},
	{ID: "class-wrong", Name: "wrong class", undo: undoClass, plant: plantClass},
}

// Kinds lists the kinds of slip in their fixed order.
func Kinds() []*Kind { return slices.Clone(kinds) }

// KindOf finds a kind by its id.
func KindOf(id string) (*Kind, bool) {
	i := slices.IndexFunc(kinds, func(k *Kind) bool { return k.ID == id })
	if i < 0 {
		return nil, false
	}
	return kinds[i], true
}
