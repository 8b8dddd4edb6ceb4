package slip

import (
	"bytes"
	_ "embed"
	"encoding/csv"
	"fmt"
	"strconv"
	"sync"
)

//go:embed data/error-frequencies.csv
var frequencies []byte

// counts are the documents that hold an error of each class. The file is part
// of the program, so a fault in it is a fault of the program and panics.
var counts = sync.OnceValue(func() map[string]float64 {
	r := csv.NewReader(bytes.NewReader(frequencies))
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		panic(fmt.Sprintf("slip: error frequencies: %v", err))
	}
	out := make(map[string]float64)
	for _, row := range rows[1:] {
		n, err := strconv.ParseFloat(row[2], 64)
		if err != nil {
			panic(fmt.Sprintf("slip: error frequencies: %q: %v", row[0], err))
		}
		out[row[0]] = n
	}
	return out
})

// priors are the weights of the kinds, in documents.
var priors = sync.OnceValue(func() map[*Kind]float64 {
	shared := make(map[string]float64)
	for _, k := range kinds {
		for _, c := range k.classes {
			shared[c]++
		}
	}
	out := make(map[*Kind]float64)
	smallest := 0.0
	for _, k := range kinds {
		for _, c := range k.classes {
			n := counts()[c]
			if n == 0 {
				panic("slip: no count of " + c)
			}
			out[k] += n / shared[c]
			if smallest == 0 || n < smallest {
				smallest = n
			}
		}
	}
	for _, k := range kinds {
		if len(k.classes) == 0 {
			out[k] = smallest / 2
		}
	}
	return out
})

// Prior is the weight of a kind: the documents in which it was counted. Assumed
// says that it was not counted.
func (k *Kind) Prior() (documents float64, assumed bool) {
	return priors()[k], len(k.classes) == 0
}
