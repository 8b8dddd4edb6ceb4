package cited

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/measure"
	"snapgauge/verify/rule"
)

// GeneralTolerance compares printed deviations with the general tolerance of ISO
// 2768 that the record names.
var GeneralTolerance = &rule.Check{
	ID: "general-tolerance", Layer: rule.Cited, Title: "deviations that are not the general tolerance",
	Doc: doc("general-tolerance.md"), Source: reference.Cite("iso-2768-1"), Since: "v0.1.0",
	Verdict: rule.Query,
	Record: func(p *rule.Pass) {
		r := p.Record
		if r == nil || !linear[r.Of] {
			return
		}
		named := iso2768.FindStringSubmatch(r.How)
		printed, ok := measure.Read(&r.New, schema.At("new"), convert.Length)
		if named == nil || !ok {
			return
		}
		nominal := printed.Nominal()
		switch printed.Form {
		case convert.Deviation:
		case convert.Range:
			size, ok := measure.Read(&r.Size, schema.At("size"), convert.Length)
			if !ok || size.Form != convert.Single {
				return
			}
			nominal = size.Nominal()
		default:
			return
		}
		class := strings.ToLower(named[1])
		mm := math.Round(nominal*1e9) / 1e6 // without the noise of binary arithmetic
		allowed, source, err := reference.GeneralTolerance("linear", class, mm)
		if err != nil || printed.Off(nominal-allowed/1000, nominal+allowed/1000) <= 0.501 {
			return
		}
		want := fmt.Sprintf("±%s mm", strconv.FormatFloat(allowed, 'g', -1, 64))
		p.Report(rule.Finding{
			Verdict: rule.Query, At: printed.At, Read: printed.Text, Want: want, Source: source,
			Message: fmt.Sprintf("%s does not go with ISO 2768-%s, whose general tolerance for %s mm is %s", printed.Text, class, strconv.FormatFloat(mm, 'g', 7, 64), want),
			Related: []rule.Related{{At: schema.Spot{Path: schema.At("how")}, Message: "the record names ISO 2768 here"}},
		})
	},
}

// linear are the measures that the linear tolerances of ISO 2768-1 are for.
var linear = map[string]bool{
	"diameter": true, "bore": true, "thickness": true, "width": true, "height": true, "depth": true, "length": true,
}

// iso2768 finds the class that a text names: ISO 2768-m, ISO 2768-1 mK, DIN ISO 2768 c.
var iso2768 = regexp.MustCompile(`(?i)\bISO ?2768(?:-1)?(?: ?- ?| class | )([fmcv])[HKL]?\b`)
