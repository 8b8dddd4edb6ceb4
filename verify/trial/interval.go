package trial

import "math"

// Interval is the range in which a share lies with a probability of 95 %, seen k
// of n times: the score interval of Wilson (NIST/SEMATECH e-Handbook 7.2.4.1).
// Of nothing it is 0 to 1.
func Interval(k, n int) (lo, hi float64) {
	if n == 0 {
		return 0, 1
	}
	const z = 1.959963984540054 // 97.5 % of the normal distribution
	share, size := float64(k)/float64(n), float64(n)
	middle := (share + z*z/(2*size)) / (1 + z*z/size)
	half := z * math.Sqrt(share*(1-share)/size+z*z/(4*size*size)) / (1 + z*z/size)
	return max(0, middle-half), min(1, middle+half)
}
