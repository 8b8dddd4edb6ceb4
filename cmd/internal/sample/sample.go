// Package sample makes books of any length for measurements: lines of NDJSON
// for the machines of Skerrow Quay, all invented, the same for the same seed.
// What it makes is right, and silent under every check, but for the share that
// is asked to be faulty.
package sample

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"maps"
	"math/rand/v2"
	"slices"
	"strings"
)

// Options for [Write].
type Options struct {
	Records int
	Faulty  float64 // share of the records, from 0 to 1, that have a fault each
	Seed    uint64
}

// The machines take turns, so that what belongs together is spread over a book
// as in one that was merged of many.
const (
	abreast    = 20  // machines that take turns
	perMachine = 200 // records of one machine
)

// record is one line before it is written down.
type record struct {
	id, machine, name    string
	title, edition, page string // of the source
	by, date             string
	kind                 string
	whereName, where     string // the member where, and its value
	before, after        string // what stands around the figure
	first, second        string // the figure in two units
	count                string // the member count of a fastener
}

// Write writes a book of lines of 350 to 600 bytes: 70 % are torques, 15 % fills,
// 15 % tolerances.
func Write(w io.Writer, opt Options) error {
	r := rand.New(rand.NewPCG(opt.Seed, 0))
	out := bufio.NewWriterSize(w, 1<<16)
	for i := range opt.Records {
		rec := makeRecord(r, i)
		if r.Float64() < opt.Faulty {
			spoil(r, &rec, i)
		}
		if _, err := out.WriteString(rec.line()); err != nil {
			return err
		}
	}
	return out.Flush()
}

// WriteFiles writes a book as YAML files, one for each machine, each made by
// create. A record is a flow mapping on a line of its own.
func WriteFiles(create func(name string) (io.WriteCloser, error), opt Options) error {
	r := rand.New(rand.NewPCG(opt.Seed, 0))
	files := map[string]*strings.Builder{}
	for i := range opt.Records {
		rec := makeRecord(r, i)
		if r.Float64() < opt.Faulty {
			spoil(r, &rec, i)
		}
		f := files[rec.machine]
		if f == nil {
			f = &strings.Builder{}
			fmt.Fprintf(f, "format: snapgauge/1.0\nmachine: {id: %s, name: %s}\nrecords:\n", rec.machine, rec.name)
			files[rec.machine] = f
		}
		line := rec.line()
		fmt.Fprintf(f, "  - {%s", line[strings.Index(line, `"id":"item-`):])
	}
	for _, name := range slices.Sorted(maps.Keys(files)) {
		f, err := create(name + ".yaml")
		if err != nil {
			return err
		}
		_, err = io.WriteString(f, files[name].String())
		if err = errors.Join(err, f.Close()); err != nil {
			return err
		}
	}
	return nil
}

// makers of books, machines and people of Skerrow Quay.
var (
	machines = []string{"Bailer", "Kedge", "Pintle", "Tarrock", "Warphead", "Wrackline", "Fathom", "Halyard", "Tideway", "Skerry"}
	titles   = []string{"workshop manual", "overhaul manual", "service book", "leaflet", "setting sheet"}
	editions = []string{"first 2004", "second 2008", "third 2019", "1998", "revised 2015", "sixth 2021"}
	people   = []string{"RM", "TH", "KE", "AJ", "SB"}
	sides    = []string{"port", "starboard", "forward", "aft", "upper", "lower", "inner", "outer", "left", "right"}
)

func pick[T any](r *rand.Rand, of []T) T { return of[r.IntN(len(of))] }

// machineOf is the number of the machine that record i belongs to.
func machineOf(i int) int { return i/(abreast*perMachine)*abreast + i%abreast }

func idOf(i int) string { return fmt.Sprintf("item-%07d", i) }

func makeRecord(r *rand.Rand, i int) record {
	m := machineOf(i)
	name := fmt.Sprintf("%s %d", machines[m%len(machines)], 10+m)
	rec := record{
		id: idOf(i), machine: fmt.Sprintf("gear-%05d", m), name: name,
		title: name + " " + pick(r, titles), edition: pick(r, editions),
		page: fmt.Sprintf("page %d-%d", 1+r.IntN(9), 1+r.IntN(60)),
		by:   pick(r, people), date: fmt.Sprintf("2026-%02d-%02d", 1+r.IntN(9), 1+r.IntN(28)),
		whereName: "where",
	}
	switch kind := r.IntN(20); {
	case kind < 14:
		torque(r, &rec)
	case kind < 17:
		fill(r, &rec)
	default:
		tolerance(r, &rec)
	}
	rec.where = pick(r, sides) + " " + rec.where
	return rec
}

// line writes a record down.
func (r *record) line() string {
	figure := `["` + r.first + `","` + r.second + `"]`
	where := ""
	if r.whereName != "" {
		where = fmt.Sprintf(`"%s":"%s",`, r.whereName, r.where)
	}
	return fmt.Sprintf(`{"format":"snapgauge/1.0","machine":{"id":"%s","name":"%s"},"id":"%s","kind":"%s",%s%s%s%s,`+
		`"source":{"title":"%s","edition":"%s","kind":"maker","at":"%s"},"entered":{"by":"%s","date":"%s"}}`+"\n",
		r.machine, r.name, r.id, r.kind, where, r.before, figure, r.after,
		r.title, r.edition, r.page, r.by, r.date)
}
