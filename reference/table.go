package reference

import (
	"embed"
	"encoding/csv"
	"fmt"
	"math"
	"strconv"
	"strings"
)

//go:embed data/*.csv
var files embed.FS

// row is one line of a table, by column name.
type row struct {
	file  string
	line  int
	index map[string]int
	cells []string
}

// mustTable reads an embedded table. The files are part of the program, so a fault
// in one is a fault of the program and panics; a test reads every table.
func mustTable(name string) []row {
	f, err := files.Open("data/" + name)
	if err != nil {
		panic(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	head, err := r.Read()
	if err != nil {
		panic(fmt.Errorf("reference: %s: %w", name, err))
	}
	index := make(map[string]int, len(head))
	for i, h := range head {
		index[h] = i
	}
	all, err := r.ReadAll()
	if err != nil {
		panic(fmt.Errorf("reference: %s: %w", name, err))
	}
	rows := make([]row, len(all))
	for i, cells := range all {
		rows[i] = row{file: name, line: i + 1, index: index, cells: cells}
	}
	return rows
}

// text is a cell; a column that does not exist is a fault of the program.
func (r row) text(column string) string {
	i, ok := r.index[column]
	if !ok {
		panic(fmt.Sprintf("reference: %s has no column %q", r.file, column))
	}
	return r.cells[i]
}

// number is a cell as a number, 0 where it is empty.
func (r row) number(column string) float64 {
	s := r.text(column)
	if s == "" {
		return 0
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		panic(fmt.Sprintf("reference: %s row %d, %s: %v", r.file, r.line, column, err))
	}
	return v
}

// citation is the source of a row.
func (r row) citation(id string) Citation {
	return Citation{ID: id, Text: r.text("source"), Seen: seenOf(r.text("seen"))}
}

// cite is the source of a row whose table names the document in a column.
func (r row) cite() Citation { return r.citation(r.text("cite")) }

func seenOf(mark string) Seen {
	switch mark {
	case "seen-2":
		return SeenTwice
	case "seen-1":
		return SeenOnce
	case "computed":
		return Computed
	case "practice":
		return Practice
	}
	return Memory
}

const inch = 25.4 // mm, exact

// same compares two lengths in mm; the tables carry at most four decimals.
func same(a, b float64) bool { return math.Abs(a-b) < 5e-4 }

// plain prints a number with the digits it needs.
func plain(v float64) string {
	// Six decimals hide what binary arithmetic leaves behind.
	s := strconv.FormatFloat(v, 'f', 6, 64)
	s = strings.TrimRight(s, "0")
	return strings.TrimSuffix(s, ".")
}
