// Gen writes a book of NDJSON for measurements to standard output:
//
//	go run ./cmd/internal/gen -records 200000 -faulty 1% > book.ndjson
package main

import (
	"flag"
	"fmt"
	"os"
	"strconv"
	"strings"

	"snapgauge/cmd/internal/sample"
)

func main() {
	opt := sample.Options{}
	flag.IntVar(&opt.Records, "records", 200_000, "how many records")
	flag.Uint64Var(&opt.Seed, "seed", 1, "seed; one seed gives one book")
	flag.Func("faulty", "share of the records that have a fault each: 1%", func(s string) (err error) {
		opt.Faulty, err = share(s)
		return err
	})
	flag.Parse()
	if flag.NArg() > 0 {
		fmt.Fprintln(os.Stderr, "gen: takes flags only; the book goes to standard output")
		os.Exit(2)
	}
	if err := sample.Write(os.Stdout, opt); err != nil {
		fmt.Fprintln(os.Stderr, "gen:", err)
		os.Exit(1)
	}
}

// share reads a part of all, as 1% or 0.01.
func share(s string) (float64, error) {
	digits, percent := strings.CutSuffix(s, "%")
	x, err := strconv.ParseFloat(digits, 64)
	if percent {
		x /= 100
	}
	if err != nil || !(x >= 0 && x <= 1) {
		return 0, fmt.Errorf("%q is no share; write 1%% or 0.01", s)
	}
	return x, nil
}
