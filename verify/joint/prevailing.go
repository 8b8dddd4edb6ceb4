package joint

// TorqueWithRunning is a table's torque with the running torque of a locking
// thread added, for the tension in the screw comes from what is left after it.
// Both are in one unit. Source: FAA AC 43.13-1B paragraph 7-40; US Army TM
// 1-1500-204-23-6.
func TorqueWithRunning(table, running float64) (float64, error) {
	if !positive(table) || running < 0 || running != 0 && !positive(running) {
		return 0, ErrRange
	}
	return finite(table + running)
}

// runningShare: one rule adds the running torque only from this share of the
// table's torque on (US Army TB 43-0218 paragraph 7c).
const runningShare = 1.0 / 3

// RunningCounts reports whether a running torque is to be added by the rule of
// US Army TB 43-0218, which leaves out one below a third of the table's torque;
// FAA AC 43.13-1B always adds it. Both are in one unit.
func RunningCounts(table, running float64) bool {
	return positive(table) && positive(running) && running >= runningShare*table
}

// RunningSpanNm is what a running torque can be by the printed rows of a
// thread, in N·m: the least that a re-used nut must still have and the most
// that a new one may. Where only one of them is printed, the other follows from
// the ratio of the two in the rows of ISO 2320 (7.4 to 7.7). ok is false where no
// row speaks of the thread.
func RunningSpanNm(leastNm, mostNm float64) (span Span, ok bool) {
	switch {
	case positive(leastNm) && positive(mostNm):
		return Span{min(leastNm, mostNm), max(leastNm, mostNm)}, true
	case positive(leastNm):
		return Span{leastNm, leastNm * runningRatio}, true
	case positive(mostNm):
		return Span{mostNm / runningRatio, mostNm}, true
	}
	return Span{}, false
}

// runningRatio: ISO 2320 allows 10.5, 15.5, 32, 54 and 80 N·m at the first
// assembly of class 8 nuts M10 to M24 (from memory) and asks 1.4, 2.1, 4.2, 7.0 and
// 10.5 N·m at a removal: 7.4 to 7.7 times.
const runningRatio = 7.6
