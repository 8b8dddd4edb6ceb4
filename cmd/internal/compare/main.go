//go:build unix

// Compare measures snapgauge beside others that do part of its work, on the
// same data in one run: node's JSON.parse, ajv (compiled, the shape alone) and
// jsonschema/v5 alone. It prints a table in Markdown. In the root of the
// repository:
//
//	npm install --prefix DIR ajv ajv-formats
//	go run ./cmd/internal/compare -modules DIR/node_modules
//
// The rounds go round-robin, so that a slow phase of the machine meets all, and
// medians are taken. What runs on one core is pinned to it and told in CPU time;
// what runs on two is told as it took.
package main

import (
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"time"

	"snapgauge/cmd/internal/sample"
)

type options struct {
	records, rounds int
	modules         string // where ajv is installed
	schemas         string
	only            string // names of runs that contain it
}

func main() {
	var opt options
	flag.IntVar(&opt.records, "records", 200_000, "how many records a book has")
	flag.IntVar(&opt.rounds, "rounds", 5, "how often all is measured")
	flag.StringVar(&opt.modules, "modules", "", "the node_modules that hold ajv and ajv-formats; without, node is left out")
	flag.StringVar(&opt.schemas, "schemas", "schema/json", "folder of the JSON Schemas")
	flag.StringVar(&opt.only, "only", "", "measure only what has this in its name")
	alone := flag.String("bare", "", "judge the shape of this book with jsonschema/v5 alone, and measure nothing")
	flag.Parse()
	var err error
	if *alone != "" {
		err = bare(*alone, opt.schemas)
	} else {
		err = compare(opt)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "compare:", err)
		os.Exit(1)
	}
}

// a run is one program over one file.
type run struct {
	what  string
	args  []string
	of    string   // heading of the table it belongs to
	base  bool     // the others of its table are told as multiples of this
	two   bool     // not pinned to one core
	env   []string // beside that of the process
	fail  bool     // it may end with exit code 1: something is rejected
	size  int      // records
	times int      // it is done so often, and told of one; 0 means once

	took []time.Duration
	peak int64 // KiB, the most of all rounds
}

func compare(opt options) error {
	dir, err := os.MkdirTemp("", "snapgauge-compare-*")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	runs, err := prepare(opt, dir)
	if err != nil {
		return err
	}
	runs = slices.DeleteFunc(runs, func(r *run) bool { return !strings.Contains(r.of+": "+r.what, opt.only) })
	for round := range opt.rounds {
		for _, r := range runs {
			if err := r.measure(filepath.Join(dir, "out")); err != nil {
				return err
			}
		}
		fmt.Fprintf(os.Stderr, "round %d of %d\n", round+1, opt.rounds)
	}
	table(os.Stdout, runs)
	return nil
}

// measure is one round.
func (r *run) measure(out string) error {
	var sum time.Duration
	n := max(r.times, 1)
	for range n {
		took, err := r.once(out)
		if err != nil {
			return err
		}
		sum += took
	}
	r.took = append(r.took, sum/time.Duration(n))
	return nil
}

// once runs once. What is printed goes to a file, as it would in use.
func (r *run) once(out string) (took time.Duration, err error) {
	args := r.args
	if !r.two {
		if pin, err := exec.LookPath("taskset"); err == nil {
			args = append([]string{pin, "-c", "0"}, args...)
		}
	}
	cmd := exec.Command(args[0], args[1:]...)
	cmd.Env = append(os.Environ(), r.env...)
	f, err := os.Create(out)
	if err != nil {
		return 0, err
	}
	defer f.Close()
	var said strings.Builder
	cmd.Stdout, cmd.Stderr = f, &said
	start := time.Now()
	err = cmd.Run()
	took = time.Since(start)
	if code := cmd.ProcessState.ExitCode(); err != nil && !(r.fail && code == 1) {
		return 0, fmt.Errorf("%s: %w\n%s", strings.Join(r.args, " "), err, said.String())
	}
	if !r.two {
		took = cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime()
	}
	if use, ok := cmd.ProcessState.SysUsage().(*syscall.Rusage); ok {
		r.peak = max(r.peak, use.Maxrss)
	}
	return took, nil
}

// book writes a book for measurements.
func book(dir, name string, records int, faulty float64) (string, error) {
	name = filepath.Join(dir, name)
	f, err := os.Create(name)
	if err != nil {
		return "", err
	}
	defer f.Close()
	return name, sample.Write(f, sample.Options{Records: records, Faulty: faulty, Seed: 1})
}
