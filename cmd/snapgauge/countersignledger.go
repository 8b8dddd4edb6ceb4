package main

import (
	"errors"
	"io/fs"
	"os"

	"snapgauge/schema"
	"snapgauge/specs"
)

// ledgers reads the ledgers that stand beside spec files, each once.
type ledgers struct {
	read map[string]map[string][]schema.Countersign // by name of the ledger, then by id
}

// ledgerBeside is the name of the ledger of a file.
func ledgerBeside(file string) string {
	i := len(file)
	for i > 0 && !os.IsPathSeparator(file[i-1]) {
		i--
	}
	return file[:i] + specs.Ledger
}

// beside returns the lines of the ledger of a file by id. What cannot be read of
// it is told with the first file of its folder. A nil receiver reads none.
func (l *ledgers) beside(file string) (signed map[string][]schema.Countersign, faults []*specs.Unreadable) {
	if l == nil {
		return nil, nil
	}
	name := ledgerBeside(file)
	if signed, ok := l.read[name]; ok {
		return signed, nil
	}
	signed = map[string][]schema.Countersign{}
	if l.read == nil {
		l.read = map[string]map[string][]schema.Countersign{}
	}
	l.read[name] = signed
	f, err := os.Open(name)
	if errors.Is(err, fs.ErrNotExist) {
		return signed, nil
	}
	var lines []schema.Countersign
	if err == nil {
		defer f.Close()
		lines, faults, err = specs.ReadLedger(name, f)
	}
	if err != nil {
		var in *fs.PathError
		if errors.As(err, &in) {
			err = in.Err
		}
		faults = append(faults, specs.Whole(name, "could not be read: "+err.Error()))
	}
	for _, c := range lines {
		signed[c.ID] = append(signed[c.ID], c)
	}
	return signed, faults
}
