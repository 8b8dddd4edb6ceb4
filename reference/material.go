package reference

// Tapped returns shear and tensile strength (MPa) of a tapped material.
func Tapped(into string) (shear, tensile Interval, known bool) {
	return Interval{}, Interval{}, false
}
