package joint

// AdapterSetting is what a torque wrench must be set to so that an adapter in
// line with it gives a torque at the screw: TW = TA L / (L + A). The torque is
// in whatever unit, and so comes the setting; L is the length of the wrench
// from its square to the middle of the grip, A that of the adapter, both in one
// unit. An adapter that points back is negative. Source: US Army TM
// 1-1500-204-23-9, paragraph 8.
func AdapterSetting(atScrew, wrench, adapter float64) (float64, error) {
	if !positive(atScrew) || !adapterFits(wrench, adapter) {
		return 0, ErrRange
	}
	return finite(atScrew * wrench / (wrench + adapter))
}

// AdapterTorque is the inverse of [AdapterSetting]: the torque at the screw that
// a setting gives. Source: US Army TM 9-254, figure 4-5.
func AdapterTorque(setting, wrench, adapter float64) (float64, error) {
	if !positive(setting) || !adapterFits(wrench, adapter) {
		return 0, ErrRange
	}
	return finite(setting * (wrench + adapter) / wrench)
}

func adapterFits(wrench, adapter float64) bool {
	return positive(wrench) && adapter > -wrench && adapter < largest
}
