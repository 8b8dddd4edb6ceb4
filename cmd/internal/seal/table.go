package seal

import (
	"encoding/csv"
	"io"
	"math"
	"strconv"
)

// Type is what the cells of a column hold, by the names of Frictionless Table
// Schema.
type Type string

// The types. A cell is a string, an int64, a float64 or a bool, or nil where
// nothing stands.
const (
	Text    Type = "string"
	Whole   Type = "integer"
	Number  Type = "number"
	Boolean Type = "boolean"
)

// Column is one column of a table.
type Column struct {
	Name     string
	Type     Type
	Required bool
	Doc      string
}

// Reference says that columns name a row of another table.
type Reference struct {
	Columns []string
	Table   string
	To      []string
}

// Table is one table of a release, the same as CSV and in SQLite.
type Table struct {
	Name       string
	Doc        string
	Columns    []Column
	Key        []string
	References []Reference
	Rows       [][]any // in the order of the key
}

// stateColumn is the first of every table, so that no row of a draft can be taken
// for one of a release.
var stateColumn = Column{"state", Text, true, "release, or DRAFT: not vetted, not to be worked by."}

// CSV writes a table as RFC 4180 has it: a line of names, lines that end with
// CRLF, nothing between two commas where there is no value.
func (t *Table) CSV(w io.Writer) error {
	out := csv.NewWriter(w)
	out.UseCRLF = true
	line := make([]string, len(t.Columns))
	for i, c := range t.Columns {
		line[i] = c.Name
	}
	if err := out.Write(line); err != nil {
		return err
	}
	for _, row := range t.Rows {
		for i, x := range row {
			line[i] = cell(x)
		}
		if err := out.Write(line); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

func cell(x any) string {
	switch x := x.(type) {
	case string:
		return x
	case int64:
		return strconv.FormatInt(x, 10)
	case bool:
		return strconv.FormatBool(x)
	case float64:
		return number(x)
	}
	return ""
}

// number writes the shortest decimal that reads back as the same float64, without
// an exponent where that is short.
func number(x float64) string {
	if a := math.Abs(x); a != 0 && (a < 1e-9 || a >= 1e15) {
		return strconv.FormatFloat(x, 'E', -1, 64)
	}
	return strconv.FormatFloat(x, 'f', -1, 64)
}
