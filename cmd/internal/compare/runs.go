//go:build unix

package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
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
		if hasPlain {
			add(&run{what: "snapgauge check --plain", args: append(check, "--plain"), fail: true})
		}
		if opt.modules != "" {
			add(node("parse", b))
			add(node(f.others, b))
		}
		if f.faulty == 0 {
			add(&run{what: "encoding/json and jsonschema/v5", args: []string{self, "-schemas", opt.schemas, "-bare", b}})
			cores := fmt.Sprintf("%d records, all valid, two cores", f.size)
			for _, n := range []string{"1", "2"} {
				runs = append(runs, &run{of: cores, what: "snapgauge check, GOMAXPROCS=" + n, args: check, two: true,
					base: n == "1", env: []string{"GOMAXPROCS=" + n}, size: f.size})
			}
		}
	}
	small, err := book(dir, "small.ndjson", few, 0)
	if err != nil {
		return nil, err
	}
	whole := func(r *run) *run {
		r.of, r.size = fmt.Sprintf("one file of %d records, whole process, one core", few), few
		runs = append(runs, r)
		return r
	}
	whole(&run{what: "snapgauge check", args: []string{snapgauge, "check", small}}).base = true
	if opt.modules != "" {
		whole(node("first", small))
	}
	return runs, nil
}
