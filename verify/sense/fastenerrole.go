package sense

import (
	"snapgauge/reference"
	"snapgauge/schema"
)

// role is how a fastener is brought to its angle.
type role uint8

const (
	bolted    role = iota // clamps parts: screw, stud, nut
	adjusting             // sets a play or a preload
	fitting               // seals or stops on its own thread or seat
)

// roleOf tells screws, studs and nuts from fittings. A fastener whose type is
// left out is told by its thread.
func roleOf(f *schema.Fastener) role {
	switch f.Type {
	case "screw", "stud", "nut", "prevailing nut":
		return bolted
	case "adjusting nut":
		return adjusting
	case "":
		t, problem := reference.ParseThread(f.Thread)
		if f.Thread == "" || problem != nil || t.Family == reference.Metric || t.Family == reference.Unified {
			return bolted
		}
	}
	return fitting
}
