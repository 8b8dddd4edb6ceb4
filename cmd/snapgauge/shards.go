package main

import (
	"errors"
	"fmt"
	"slices"

	"snapgauge/cmd/internal/spill"
	"snapgauge/specs"
	"snapgauge/verify"
)

// settle refuses options that do not go together.
func (opt *checkOptions) settle(from bool) error {
	switch {
	case opt.workers < 0:
		return fmt.Errorf("--workers %d: say how many, or 0 for as many as there are cores", opt.workers)
	case opt.facts != "" && opt.rows != "":
		return errors.New("--rows leaves the book unjudged, and --for judges it; say one of the two")
	case from && opt.of == "":
		return errors.New("--from tells which line of a file a shard begins with; say of which file: --of book.ndjson")
	case opt.from < 1:
		return fmt.Errorf("--from %d: lines are counted from 1", opt.from)
	case opt.of != "" && !specs.IsLines(opt.of):
		return fmt.Errorf("--of %s: only NDJSON can be sharded, and its name ends in .ndjson", opt.of)
	case opt.of != "" && len(opt.paths) != 1:
		return fmt.Errorf("--of %s: name the one shard of it that is to be read", opt.of)
	case opt.of != "" && opt.rows == "":
		return fmt.Errorf("--of %s: a shard is not judged as a book; say where its rows go: --rows shard.rows", opt.of)
	}
	return nil
}

// rowHead is what a row file says of itself.
type rowHead struct {
	Version string         `json:"version"`
	Checks  []string       `json:"checks"` // whose place the rows are numbered by
	Of      string         `json:"of,omitempty"`
	From    int            `json:"from,omitempty"`
	Asked   []verify.Asked `json:"asked,omitempty"`
}

func orderOfChecks() (ids []string) {
	for _, c := range verify.All() {
		ids = append(ids, c.ID)
	}
	return ids
}

// writeRows leaves the book to merge.
func writeRows(opt checkOptions, sorter *spill.Sorter, book *verify.Book) error {
	head := rowHead{Version: version, Checks: orderOfChecks(), Of: opt.of, Asked: book.Asked()}
	if opt.of != "" {
		head.From = opt.from
	}
	if err := sorter.WriteFile(opt.rows, head); err != nil {
		return spill.Explain(opt.rows, err)
	}
	return nil
}

// shard is a row file and what it says of itself.
type shard struct {
	name string
	head rowHead
	rows *spill.RowFile
}

// openShards opens row files and puts them in the order of what they are of:
// the shards of a file by their first lines, others as they are named.
func openShards(names []string) (shards []*shard, err error) {
	defer func() {
		if err != nil {
			closeShards(shards)
		}
	}()
	first := map[string]int{} // of a file, among the names
	place := map[*shard]int{}
	for i, name := range names {
		s := &shard{name: name}
		if s.rows, err = spill.OpenRows(name, &s.head); err != nil {
			return shards, spill.Explain(name, err)
		}
		shards = append(shards, s)
		if s.head.Version != version || !slices.Equal(s.head.Checks, orderOfChecks()) {
			return shards, fmt.Errorf("%s was written by version %s, and this is %s; check its shard again", name, s.head.Version, version)
		}
		place[s] = i
		if of := s.head.Of; of != "" {
			if _, known := first[of]; !known {
				first[of] = i
			}
			place[s] = first[of]
		}
	}
	slices.SortStableFunc(shards, func(a, b *shard) int {
		if place[a] != place[b] {
			return place[a] - place[b]
		}
		return a.head.From - b.head.From
	})
	for i, s := range shards[1:] {
		if before := shards[i]; s.head.Of != "" && s.head.Of == before.head.Of && s.head.From == before.head.From {
			return shards, fmt.Errorf("%s and %s are both of the shard of %s that begins with line %d; name one", before.name, s.name, s.head.Of, s.head.From)
		}
	}
	return shards, nil
}

func closeShards(shards []*shard) {
	for _, s := range shards {
		s.rows.Close()
	}
}
