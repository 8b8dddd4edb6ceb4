//go:build unix

package main

import (
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"

	"snapgauge/cmd/internal/sample"
)

const few = 10 // records of a small file

// prepare builds the program, writes the books and lists what is measured.
func prepare(opt options, dir string) ([]*run, error) {
	snapgauge := filepath.Join(dir, "snapgauge")
	if out, err := exec.Command("go", "build", "-o", snapgauge, "./cmd/snapgauge").CombinedOutput(); err != nil {
		return nil, fmt.Errorf("build: %w\n%s", err, out)
	}
	self, err := os.Executable()
	if err != nil {
		return nil, err
	}
	script, err := filepath.Abs("cmd/internal/compare/shape.js")
	if err != nil {
		return nil, err
	}
	help, err := exec.Command(snapgauge, "check", "--help").Output()
	if err != nil {
		return nil, err
	}
	hasPlain := strings.Contains(string(help), "--plain")
	node := func(how, book string) *run {
		return &run{what: "node JSON.parse" + map[string]string{"first": " and ajv", "all": " and ajv, all errors"}[how],
			args: []string{"node", script, how, book, opt.schemas}, env: []string{"NODE_PATH=" + opt.modules}}
	}
	var runs []*run
	for _, f := range []struct {
		name   string
		size   int
		faulty float64
		others string
	}{
		{"all valid", opt.records, 0, "first"},
		{"1 % faulty", opt.records, 0.01, "all"},
		{"10 % faulty", opt.records, 0.1, "all"},
	} {
		b, err := book(dir, strings.ReplaceAll(f.name, " ", "-")+".ndjson", f.size, f.faulty)
		if err != nil {
			return nil, err
		}
		add := func(r *run) *run {
			r.of, r.size = fmt.Sprintf("%d records, %s, one core", f.size, f.name), f.size
			runs = append(runs, r)
			return r
		}
		check := []string{snapgauge, "check", "--format", "json", b}
		add(&run{what: "snapgauge check", args: check, fail: true}).base = true
		if hasPlain && f.faulty == 0 {
			add(&run{what: "snapgauge check --plain", args: append(check, "--plain"), fail: true})
		}
		if opt.modules != "" {
			add(node("parse", b))
			add(node(f.others, b))
		}
		if f.faulty == 0 {
			add(&run{what: "encoding/json and jsonschema/v5", args: []string{self, "-schemas", opt.schemas, "-bare", b}})
			runs = append(runs, cores(fmt.Sprintf("%d records, all valid, two cores", f.size), check, f.size)...)
		}
	}
	yaml, size := filepath.Join(dir, "yaml"), max(opt.records/10, 1)
	if err := folder(yaml, size); err != nil {
		return nil, err
	}
	runs = append(runs, cores(fmt.Sprintf("%d records, a folder of YAML, two cores", size), []string{snapgauge, "check", yaml}, size)...)
	small, err := book(dir, "small.ndjson", few, 0)
	if err != nil {
		return nil, err
	}
	whole := func(r *run) *run {
		r.of, r.size, r.times = fmt.Sprintf("one file of %d records, whole process, one core", few), few, 10
		runs = append(runs, r)
		return r
	}
	whole(&run{what: "snapgauge check", args: []string{snapgauge, "check", small}}).base = true
	if opt.modules != "" {
		whole(node("first", small))
	}
	hello := filepath.Join(dir, "hello")
	if out, err := exec.Command("go", "build", "-o", hello, "./cmd/internal/compare/hello").CombinedOutput(); err != nil {
		return nil, fmt.Errorf("build: %w\n%s", err, out)
	}
	for _, program := range []string{hello, snapgauge} {
		runs = append(runs, &run{of: "--version, whole process, one core", what: filepath.Base(program) + " --version",
			args: []string{program, "--version"}, size: 1, times: 20, base: program == hello})
	}
	return runs, nil
}

// cores is a command on one core and on two.
func cores(of string, args []string, size int) (runs []*run) {
	for _, n := range []string{"1", "2"} {
		runs = append(runs, &run{of: of, what: "snapgauge check, GOMAXPROCS=" + n, args: args, two: true,
			base: n == "1", env: []string{"GOMAXPROCS=" + n}, size: size})
	}
	return runs
}

// folder writes a folder of YAML files.
func folder(name string, records int) error {
	if err := os.Mkdir(name, 0o700); err != nil {
		return err
	}
	return sample.WriteFiles(func(file string) (io.WriteCloser, error) {
		return os.Create(filepath.Join(name, file))
	}, sample.Options{Records: records, Seed: 1})
}
