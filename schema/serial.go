package schema

import (
	"fmt"
	"strconv"
	"strings"
	"time"
)

// The forms of a numbering.
const (
	FormNumber = "number"
	FormDate   = "date"
)

// ParseSerialRange reads a stretch of a numbering: "1200 to 9999", "1200-9999",
// "1250", "from 1200" (also "min 1200", "1200 and up"), "to 1199" (also "max
// 1199"), and the same with dates (2019-03-01). Form is that of the head,
// "number" or "date"; "" takes the form from the text. What cannot be read has
// Bad set; a range whose ends are swapped is read as it stands and holds
// nothing.
func ParseSerialRange(name, text, form string) SerialRange {
	r := SerialRange{Name: name, Text: text}
	low, high, single, ok := splitRange(strings.ToLower(strings.TrimSpace(text)))
	if !ok {
		r.Bad = fmt.Sprintf("%q is no range of serial numbers, such as 1200 to 9999", clip(text, 60))
		return r
	}
	if form != FormNumber && form != FormDate {
		form = FormNumber
		if isDate(low) || isDate(high) {
			form = FormDate
		}
	}
	r.Form = form
	read := func(s string) (n int64, has bool) {
		if s == "" || r.Bad != "" {
			return 0, false
		}
		n, err := serialNumber(s, form)
		if err != "" {
			r.Bad = err
			return 0, false
		}
		return n, true
	}
	r.From, r.HasFrom = read(low)
	r.To, r.HasTo = read(high)
	if single {
		r.To, r.HasTo = r.From, r.HasFrom
	}
	if r.Bad != "" {
		r.From, r.To, r.HasFrom, r.HasTo = 0, 0, false, false
	}
	return r
}

// splitRange takes the ends of a range apart; an open end is "".
func splitRange(s string) (low, high string, single, ok bool) {
	for _, word := range []string{"from ", "min ", "min. ", "≥", ">="} {
		if rest, found := strings.CutPrefix(s, word); found {
			rest = strings.TrimSpace(rest)
			if low, high, cut := strings.Cut(rest, " to "); cut {
				low, high = strings.TrimSpace(low), strings.TrimSpace(high)
				return low, high, false, low != "" && high != ""
			}
			return rest, "", false, rest != ""
		}
	}
	for _, word := range []string{"to ", "up to ", "max ", "max. ", "≤", "<="} {
		if rest, found := strings.CutPrefix(s, word); found {
			rest = strings.TrimSpace(rest)
			return "", rest, false, rest != ""
		}
	}
	for _, word := range []string{" and up", " onwards", " on"} {
		if rest, found := strings.CutSuffix(s, word); found {
			return strings.TrimSpace(rest), "", false, true
		}
	}
	for _, dash := range []string{" to ", "–", "—", " - ", "..."} {
		if low, high, cut := strings.Cut(s, dash); cut {
			low, high = strings.TrimSpace(low), strings.TrimSpace(high)
			return low, high, false, low != "" && high != ""
		}
	}
	// A hyphen stands within dates too.
	switch low, high, cut := strings.Cut(s, "-"); {
	case cut && strings.Count(s, "-") == 1:
		low, high = strings.TrimSpace(low), strings.TrimSpace(high)
		return low, high, false, low != "" && high != ""
	case cut && strings.Count(s, "-") == 5 && len(s) == 21 && s[10] == '-':
		return s[:10], s[11:], false, true
	}
	return s, "", true, s != ""
}

// isDate reports whether a text has the form of a date.
func isDate(s string) bool {
	return len(s) == 10 && s[4] == '-' && s[7] == '-'
}

// serialNumber reads one end; err says why it could not.
func serialNumber(s, form string) (n int64, err string) {
	if form == FormDate {
		t, e := time.Parse(time.DateOnly, s)
		if e != nil {
			return 0, fmt.Sprintf("%q is no date, such as 2019-03-01", clip(s, 60))
		}
		return t.Unix() / 86400, ""
	}
	if len(s) > 18 {
		return 0, fmt.Sprintf("%q is too long for a serial number", clip(s, 60))
	}
	for _, c := range s {
		if c < '0' || c > '9' {
			return 0, fmt.Sprintf("%q is no plain number, such as 1250", clip(s, 60))
		}
	}
	n, e := strconv.ParseInt(s, 10, 64)
	if e != nil {
		return 0, fmt.Sprintf("%q is no plain number, such as 1250", clip(s, 60))
	}
	return n, ""
}

// String is the range in its normal form: "1200 to 9999", "from 1200", "to
// 1199", "1250", "all"; the text as authored when it could not be read.
func (r SerialRange) String() string {
	if r.Bad != "" {
		return r.Text
	}
	switch {
	case r.HasFrom && r.HasTo && r.From == r.To:
		return showSerial(r.From, r.Form)
	case r.HasFrom && r.HasTo:
		return showSerial(r.From, r.Form) + " to " + showSerial(r.To, r.Form)
	case r.HasFrom:
		return "from " + showSerial(r.From, r.Form)
	case r.HasTo:
		return "to " + showSerial(r.To, r.Form)
	}
	return "all"
}

func showSerial(n int64, form string) string {
	if form == FormDate {
		return time.Unix(n*86400, 0).UTC().Format(time.DateOnly)
	}
	return strconv.FormatInt(n, 10)
}
