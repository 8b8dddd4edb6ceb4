package verify

import (
	_ "embed"
	"slices"

	"snapgauge/verify/book"
	"snapgauge/verify/cited"
	"snapgauge/verify/physics"
	"snapgauge/verify/rule"
	"snapgauge/verify/sense"
	"snapgauge/verify/shape"
	"snapgauge/verify/units"
)

//go:embed answer-to-nothing.md
var answerDoc string

// All returns every check, in the order in which they judge: of two findings
// of one verdict on one figure, the check that stands first speaks.
func All() []*rule.Check {
	return slices.Clone(all)
}

var all = []*rule.Check{
	// shape
	shape.SplitNumber,
	shape.EmptiedField,
	shape.UnknownField,
	shape.WrongValue,
	shape.MissingField,

	// units
	units.NumberUnreadable,
	units.UnitDimension,
	units.ValuesDisagree,
	units.UnitMissing,
	units.UnitUnknown,
	units.UnitWrongForm,
	units.UnitAmbiguous,
	units.NumberUnclear,
	units.SameUnitTwice,

	// sense
	sense.NegativeValue,
	sense.BelowAbsoluteZero,
	sense.EndsSwapped,
	sense.EndsEqual,
	sense.RangeTooWide,
	sense.DeviationTooWide,
	sense.ToleranceTooWide,
	sense.CountMismatch,
	sense.PlacesDoubled,
	sense.OnlyUnknown,
	sense.StepsFall,
	sense.AngleWithoutSnug,
	sense.AngleSize,
	sense.FrictionImplausible,
	sense.LowAboveHigh,
	sense.LevelFalls,
	sense.LevelPointsOrder,
	sense.LevelOffLine,
	sense.LevelIncomplete,
	sense.MarksOverlap,
	sense.WearLimitInside,
	sense.RowsAtOdds,
	sense.ShimOrder,
	sense.ShimOverlap,
	sense.ShimGap,
	sense.ShimOutsideFloat,
	sense.FillServiceAboveDry,
	sense.FillStepsSum,
	sense.UnpublishedWithFigure,
	sense.FitUnreadable,
	sense.CautionUnknown,
	sense.MisprintMatchesNothing,
	sense.MisprintNoSecondSource,
	sense.MisprintSamePerson,
	sense.WrenchList,

	// physics
	physics.ThreadUnknown,
	physics.ClassUnknown,
	physics.ClassNotInSize,
	physics.TorqueAboveYield,
	physics.TorqueAboveSolid,
	physics.TorqueStripsThread,
	physics.TorqueOutsideBand,
	physics.OtherGradeTable,
	physics.FittingOutsideTable,
	physics.PrevailingTorqueOutside,
	physics.NutClassBelowScrew,
	physics.LightAlloyEngagement,
	physics.YieldWithoutRenewal,
	physics.OneTimePart,
	physics.FitLimits,
	physics.FitNotInTables,
	physics.OilExpansion,
	physics.BetweenMarksAboveFill,
	physics.ResistanceTemperature,
	physics.SlipLikely,

	// cited
	cited.FluidGradeUnknown,
	cited.LevelTooHot,
	cited.MarkAgainstTemperature,
	cited.BearingClearance,
	cited.RingGap,
	cited.CrankEndFloat,
	cited.ThreadLimits,
	cited.GeneralTolerance,
	cited.ToleranceOfWrench,
	cited.WrenchMissing,
	cited.MovedSince,

	// book
	book.UndeclaredName,
	book.SerialRange,
	book.BoxEmpty,
	book.SourceMissing,
	book.SourceUnused,
	book.DoubledID,
	book.SupersedesUnknown,
	book.ItemContradicts,
	book.VariantMissing,
	book.CountersignVoid,
	book.TorqueOffLine,
	book.ColumnsAtOdds,
	AnswerToNothing,
}
