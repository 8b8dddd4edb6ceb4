package reference

// Interval is a closed interval of a value.
type Interval struct {
	Lo, Hi float64
	Source Citation
}

// Friction returns the friction coefficients of thread and head that a
// condition of the threads allows.
func Friction(condition string) (mu Interval, known bool) { return Interval{}, false }

// UsualFriction is the narrower interval usual for plain steel.
func UsualFriction(condition string) (mu Interval, known bool) { return Interval{}, false }

// NutFactor returns the nut factors K of T = K·F·d for a condition.
func NutFactor(condition string) Interval { return Interval{} }

// OutermostNutFactor is the widest spread of measured nut factors.
func OutermostNutFactor() Interval { return Interval{} }
