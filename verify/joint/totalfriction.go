package joint

import "math"

// TotalFriction is the coefficient of friction, one for thread and head, that
// a measured torque (N·m) and preload (N) belong to:
//
//	mu = (T/F - P/(2 pi)) / (0.577 d2 + Db/2)
//
// with the mean bearing diameter Db = (dw + dh)/2 of the head (mm). Source: ISO
// 16047 and DIN 946, total coefficient of friction (the formula from memory). It
// is an error if the torque is less than the slope of the thread alone needs.
func TotalFriction(s Screw, meanBearingMM, torqueNm, preloadN float64) (float64, error) {
	if !s.valid() || !positive(meanBearingMM) || !positive(torqueNm) || !positive(preloadN) {
		return 0, ErrRange
	}
	return finite((torqueNm*1000/preloadN - s.PitchMM/(2*math.Pi)) / (0.577*s.PitchDiameterMM + meanBearingMM/2))
}
