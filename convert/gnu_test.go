package convert

import (
	"math"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"
)

const gnuFile = "testdata/gnu-units.txt"

// gnuRow is one line of the file: our symbol, what GNU units was asked, and its
// answer.
type gnuRow struct{ symbol, expression, si, factor string }

func gnuRows(tb testing.TB) (comment string, rows []gnuRow) {
	tb.Helper()
	b, err := os.ReadFile(gnuFile)
	if err != nil {
		tb.Fatal(err)
	}
	for line := range strings.Lines(string(b)) {
		if strings.HasPrefix(line, "#") {
			comment += line
			continue
		}
		f := strings.Split(strings.TrimSuffix(line, "\n"), "\t")
		if len(f) != 4 {
			tb.Fatalf("line %q", line)
		}
		rows = append(rows, gnuRow{f[0], f[1], f[2], f[3]})
	}
	return comment, rows
}

// Each factor against that of GNU units 2.22, which prints floats: equal to
// 1e-12.
func TestGNUUnits(t *testing.T) {
	if os.Getenv("SNAPGAUGE_RENEW") != "" {
		renewGNU(t)
	}
	_, rows := gnuRows(t)
	seen := map[string]bool{}
	for _, r := range rows {
		u, ok := UnitBySymbol(r.symbol)
		if !ok {
			t.Errorf("no unit %s", r.symbol)
			continue
		}
		theirs, err := strconv.ParseFloat(r.factor, 64)
		if err != nil {
			t.Errorf("%s: %v", r.symbol, err)
			continue
		}
		f, pi := u.Factor()
		ours, _ := f.Float64()
		ours *= math.Pow(math.Pi, float64(pi))
		if abs(ours-theirs) > 1e-12*abs(theirs) {
			t.Errorf("%s: %v, GNU units has %v for %s in %s", r.symbol, ours, theirs, r.expression, r.si)
		}
		seen[r.symbol] = true
	}
	for u := range Units() {
		if !seen[u.Symbol()] {
			t.Errorf("%s is not in %s", u, gnuFile)
		}
	}
}

// renewGNU asks GNU units again, if it is installed.
func renewGNU(t *testing.T) {
	path, err := exec.LookPath("units")
	if err != nil {
		t.Skip("GNU units is not installed; the stored answers were not renewed")
	}
	comment, rows := gnuRows(t)
	var b strings.Builder
	b.WriteString(comment)
	for _, r := range rows {
		out, err := exec.Command(path, "-o", "%.17g", "-t", r.expression, r.si).Output()
		if err != nil {
			t.Fatalf("units -t %q %q: %v: %s", r.expression, r.si, err, out)
		}
		b.WriteString(strings.Join([]string{r.symbol, r.expression, r.si, strings.TrimSpace(string(out))}, "\t") + "\n")
	}
	if err := os.WriteFile(gnuFile, []byte(b.String()), 0o644); err != nil {
		t.Fatal(err)
	}
}
