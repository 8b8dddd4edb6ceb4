// Package database writes the tables of a release as an SQLite file.
//
// It is a package of its own because SQLite is large: what does not write a
// release does not come near it.
package database

import (
	"context"
	"database/sql"
	"fmt"
	"strings"

	_ "modernc.org/sqlite" // the driver "sqlite"

	"snapgauge/cmd/internal/seal"
)

// types are the declared types of columns.
var types = map[seal.Type]string{seal.Text: "TEXT", seal.Whole: "INTEGER", seal.Number: "REAL", seal.Boolean: "INTEGER"}

// Write returns the bytes of an SQLite database that holds the tables, and the
// table documentation, which says what each table and column holds. The same
// tables make the same bytes: all is written in one transaction, in the order
// given, to pages that were never used before.
func Write(tables []*seal.Table, state string) (out []byte, err error) {
	db, err := sql.Open("sqlite", "file:release?mode=memory")
	if err != nil {
		return nil, err
	}
	defer db.Close()
	ctx := context.Background()
	conn, err := db.Conn(ctx)
	if err != nil {
		return nil, err
	}
	defer conn.Close()
	if err := fill(ctx, conn, append(tables[:len(tables):len(tables)], documentation(tables, state))); err != nil {
		return nil, fmt.Errorf("write the SQLite file: %w", err)
	}
	err = conn.Raw(func(driver any) (err error) {
		s, ok := driver.(interface{ Serialize() ([]byte, error) })
		if !ok {
			return fmt.Errorf("the driver cannot give the database as bytes")
		}
		out, err = s.Serialize()
		return err
	})
	return out, err
}

func fill(ctx context.Context, conn *sql.Conn, tables []*seal.Table) error {
	exec := func(query string) error {
		_, err := conn.ExecContext(ctx, query)
		return err
	}
	for _, pragma := range []string{"encoding = 'UTF-8'", "page_size = 4096", "auto_vacuum = NONE", "foreign_keys = ON", "application_id = 1397770053", "user_version = 1"} {
		if err := exec("PRAGMA " + pragma); err != nil {
			return err
		}
	}
	tx, err := conn.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer tx.Rollback() //nolint:errcheck // nothing to roll back after a commit
	for _, t := range tables {
		if _, err := tx.ExecContext(ctx, create(t)); err != nil {
			return fmt.Errorf("%s: %w", t.Name, err)
		}
		insert, err := tx.PrepareContext(ctx, "INSERT INTO "+quoted(t.Name)+" VALUES (?"+strings.Repeat(", ?", len(t.Columns)-1)+")")
		if err != nil {
			return fmt.Errorf("%s: %w", t.Name, err)
		}
		for _, row := range t.Rows {
			if _, err := insert.ExecContext(ctx, row...); err != nil {
				insert.Close()
				return fmt.Errorf("%s: %w", t.Name, err)
			}
		}
		if err := insert.Close(); err != nil {
			return err
		}
	}
	if err := tx.Commit(); err != nil {
		return err
	}
	return exec("VACUUM")
}

// create is the statement that makes a table. Its comments stay in the file, so
// that .schema tells what stands where.
func create(t *seal.Table) string {
	var b strings.Builder
	fmt.Fprintf(&b, "CREATE TABLE %s ( -- %s", quoted(t.Name), t.Doc)
	for _, c := range t.Columns {
		fmt.Fprintf(&b, "\n  %s %s", quoted(c.Name), types[c.Type])
		if c.Required {
			b.WriteString(" NOT NULL")
		}
		if c.Type == seal.Boolean {
			fmt.Fprintf(&b, " CHECK (%s IN (0, 1))", quoted(c.Name))
		}
		fmt.Fprintf(&b, ", -- %s", c.Doc)
	}
	for _, r := range t.References {
		fmt.Fprintf(&b, "\n  FOREIGN KEY (%s) REFERENCES %s (%s),", list(r.Columns), quoted(r.Table), list(r.To))
	}
	fmt.Fprintf(&b, "\n  PRIMARY KEY (%s)\n)", list(t.Key))
	return b.String()
}

func quoted(name string) string { return `"` + name + `"` }

func list(names []string) string {
	all := make([]string, len(names))
	for i, name := range names {
		all[i] = quoted(name)
	}
	return strings.Join(all, ", ")
}

// documentation is a table of all tables and columns.
func documentation(tables []*seal.Table, state string) *seal.Table {
	t := &seal.Table{
		Name: "documentation", Doc: "What each table and column holds.",
		Columns: []seal.Column{
			{Name: "state", Type: seal.Text, Required: true, Doc: "As in every table."},
			{Name: "table_name", Type: seal.Text, Required: true, Doc: "The table."},
			{Name: "place", Type: seal.Whole, Required: true, Doc: "0 for the table itself, else the place of the column, from 1."},
			{Name: "column_name", Type: seal.Text, Doc: "The column; none where the row is about the table."},
			{Name: "type", Type: seal.Text, Doc: "string, integer, number or boolean (0 or 1)."},
			{Name: "description", Type: seal.Text, Required: true, Doc: "What it holds."},
		},
		Key: []string{"table_name", "place"},
	}
	for _, x := range append(tables[:len(tables):len(tables)], t) {
		t.Rows = append(t.Rows, []any{state, x.Name, int64(0), nil, nil, x.Doc})
		for i, c := range x.Columns {
			t.Rows = append(t.Rows, []any{state, x.Name, int64(i + 1), c.Name, string(c.Type), c.Doc})
		}
	}
	return t
}
