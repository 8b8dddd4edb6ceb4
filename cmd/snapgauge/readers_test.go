package main

import (
	"encoding/csv"
	"encoding/json"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"snapgauge/specs/release"
)

// What others read of a release is what records.json says: the command sqlite3 of
// the database, LibreOffice of the tables, ajv of the JSON by the schema that is
// released with it. .ci/run installs them; without them their tests are skipped.

// allBooks are the demo books, all of which are released.
var allBooks = []string{
	"bailer-22.ndjson", "kedge-5.yaml", "pintle-8.json", "tarrock-3-systems.yaml", "tarrock-3.yaml", "warphead-12.yaml", "wrackline-40.yaml",
}

// releasedDemo makes a release of all demo books and reads its records.
func releasedDemo(t *testing.T) (folder string, d *release.Document) {
	t.Helper()
	folder = filepath.Join(t.TempDir(), "demo")
	mustRun(t, exitGoes, "release", countersigned(t, allBooks...), "-o", folder, "--edition", "2026-06")
	r, err := release.Open(folder)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	if d, err = r.Document(); err != nil {
		t.Fatal(err)
	}
	if len(d.Records) < 150 {
		t.Fatalf("only %d records", len(d.Records))
	}
	return folder, d
}

// row is a value as the readers must give it: text as it is, numbers as the
// float64 that they are.
type row struct {
	Record          int64
	Pointer         string
	Place           int64
	Text, Form      string
	UCUM, SIUCUM    string
	First, Second   string
	Digits          int64
	Low, High       digits17
	LowExact        string
	RoundLow        digits17
	RoundHigh       digits17
	Misprint        bool
	ID, Fingerprint string
	SignedBy        string
}

// digits17 is a float64, as exactly writes it; "" for none.
type digits17 string

func exactly(f *float64) digits17 {
	if f == nil {
		return ""
	}
	return digits17(strconv.FormatFloat(*f, 'g', -1, 64))
}

// valuesOf are all values of a document.
func valuesOf(d *release.Document) []row {
	var out []row
	for _, r := range d.Records {
		figures := slices.Clone(r.Figures)
		if r.Misprint != nil {
			figures = append(figures, r.Misprint.Use)
		}
		for _, f := range figures {
			for i, v := range f.Values {
				out = append(out, row{
					int64(r.Number), f.Pointer, int64(i + 1), v.Text, v.Form, v.UCUM, v.SIUCUM, v.First, v.Second, int64(v.Digits),
					exactly(v.Low), exactly(v.High), v.LowExact, exactly(v.RoundingLow), exactly(v.RoundingHigh), v.Misprint,
					r.ID, r.Fingerprint, r.Countersign.By,
				})
			}
		}
	}
	return out
}

// asNumber reads a number that a reader gives, and writes it as exactly does.
func asNumber(t *testing.T, text string) digits17 {
	t.Helper()
	if text == "" {
		return ""
	}
	f, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return exactly(&f)
}

func asWhole(t *testing.T, text string) int64 {
	t.Helper()
	if text == "" {
		return 0
	}
	f, err := strconv.ParseFloat(text, 64)
	if err != nil || f != math.Trunc(f) {
		t.Fatalf("%q is no whole number: %v", text, err)
	}
	return int64(f)
}

// rowsOf joins the tables that a reader gives, each a list of rows by column.
func rowsOf(t *testing.T, values, records []map[string]string) []row {
	t.Helper()
	byNumber := map[string]map[string]string{}
	for _, r := range records {
		byNumber[r["record"]] = r
	}
	var out []row
	for _, v := range values {
		r := byNumber[v["record"]]
		out = append(out, row{
			asWhole(t, v["record"]), v["pointer"], asWhole(t, v["place"]), v["text"], v["form"], v["ucum"], v["si_ucum"],
			v["first_printed"], v["second_printed"], asWhole(t, v["digits"]), asNumber(t, v["low"]), asNumber(t, v["high"]), v["low_exact"],
			asNumber(t, v["rounding_low"]), asNumber(t, v["rounding_high"]), v["misprint"] == "true" || v["misprint"] == "1",
			r["id"], r["fingerprint"], r["countersigned_by"],
		})
	}
	return out
}

func needsProgram(t *testing.T, names ...string) string {
	t.Helper()
	for _, name := range names {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	t.Skipf("%s is not installed here; .ci/run installs it", names[0])
	return ""
}

func output(t *testing.T, dir, name string, args ...string) string {
	t.Helper()
	cmd := exec.Command(name, args...)
	cmd.Dir = dir
	var errs strings.Builder
	cmd.Stderr = &errs
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%s: %v\n%s%s", name, err, out, errs.String())
	}
	return string(out)
}

func TestReadBySQLite(t *testing.T) {
	sqlite := needsProgram(t, "sqlite3")
	folder, d := releasedDemo(t)
	ask := func(query string) string { return output(t, folder, sqlite, "-readonly", "records.sqlite", query) }
	if got := ask("PRAGMA integrity_check; PRAGMA foreign_key_check"); got != "ok\n" {
		t.Errorf("integrity: %s", got)
	}
	// Every table and every column is documented, and nothing else.
	if got := ask(`SELECT m.name, c.name FROM sqlite_schema m JOIN pragma_table_info(m.name) c WHERE m.type = 'table'
		EXCEPT SELECT table_name, column_name FROM documentation`); got != "" {
		t.Errorf("not documented:\n%s", got)
	}
	if got := ask(`SELECT table_name, column_name FROM documentation WHERE place > 0
		EXCEPT SELECT m.name, c.name FROM sqlite_schema m JOIN pragma_table_info(m.name) c WHERE m.type = 'table'`); got != "" {
		t.Errorf("documented, and not there:\n%s", got)
	}
	if got := ask("SELECT count(*) FROM documentation WHERE length(description) < 8"); got != "0\n" {
		t.Errorf("%s descriptions say nothing", got)
	}
	if got := ask("SELECT group_concat(DISTINCT state) FROM figure_values"); got != "release\n" {
		t.Errorf("states %s", got)
	}
	read := func(table string) (rows []map[string]string) {
		dec := json.NewDecoder(strings.NewReader(output(t, folder, sqlite, "-readonly", "-json", "records.sqlite", "SELECT * FROM "+table)))
		dec.UseNumber()
		var all []map[string]any
		if err := dec.Decode(&all); err != nil {
			t.Fatal(err)
		}
		for _, x := range all {
			cells := map[string]string{}
			for name, cell := range x {
				if cell != nil {
					cells[name] = fmt.Sprint(cell)
				}
			}
			rows = append(rows, cells)
		}
		return rows
	}
	// The program prints 15 digits of a number; 17 tell every float64.
	values := read(`(SELECT record, pointer, place, text, form, ucum, si_ucum, first_printed, second_printed, digits, low_exact, misprint,
		printf('%!.17g', low) low, printf('%!.17g', high) high, printf('%!.17g', rounding_low) rounding_low, printf('%!.17g', rounding_high) rounding_high,
		low IS NULL no_low, high IS NULL no_high, rounding_low IS NULL no_rounding_low, rounding_high IS NULL no_rounding_high FROM figure_values ORDER BY rowid)`)
	for _, v := range values {
		for _, name := range []string{"low", "high", "rounding_low", "rounding_high"} {
			if v["no_"+name] == "1" {
				v[name] = ""
			}
		}
	}
	if diff := cmp.Diff(valuesOf(d), rowsOf(t, values, read("records"))); diff != "" {
		t.Errorf("records.json and sqlite3 (-json +sqlite3):\n%s", diff)
	}
}

// Where there is no sqlite3, the tables as CSV are read all the same.
func TestReadCSV(t *testing.T) {
	folder, d := releasedDemo(t)
	var p struct {
		Resources []struct {
			Name, Path, Hash string
			Bytes            int
			Schema           struct {
				Fields      []struct{ Name, Type string }
				PrimaryKey  []string
				ForeignKeys []struct {
					Fields    []string
					Reference struct {
						Resource string
						Fields   []string
					}
				}
			}
		}
	}
	text, err := os.ReadFile(filepath.Join(folder, "tables", "datapackage.json"))
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(text, &p); err != nil {
		t.Fatal(err)
	}
	tables := map[string][]map[string]string{}
	keyOf := func(cells map[string]string, names []string) string {
		var key []string
		for _, name := range names {
			key = append(key, cells[name])
		}
		return strings.Join(key, "\x00")
	}
	for _, r := range p.Resources {
		content, err := os.ReadFile(filepath.Join(folder, "tables", r.Path))
		if err != nil {
			t.Fatal(err)
		}
		if f := release.FileOf("", content); r.Hash != "sha256:"+f.SHA256 || int64(r.Bytes) != f.Size {
			t.Errorf("%s: hash or size is another", r.Name)
		}
		lines, err := csv.NewReader(strings.NewReader(string(content))).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		var names []string
		for _, f := range r.Schema.Fields {
			names = append(names, f.Name)
		}
		if diff := cmp.Diff(names, lines[0]); diff != "" {
			t.Errorf("%s: columns (-descriptor +file):\n%s", r.Name, diff)
		}
		seen := map[string]bool{}
		for _, line := range lines[1:] {
			cells := map[string]string{}
			for i, f := range r.Schema.Fields {
				cells[f.Name] = line[i]
				switch {
				case line[i] == "":
				case f.Type == "integer":
					asWhole(t, line[i])
				case f.Type == "number":
					asNumber(t, line[i])
				case f.Type == "boolean" && line[i] != "true" && line[i] != "false":
					t.Errorf("%s: %s is %q", r.Name, f.Name, line[i])
				}
			}
			key := keyOf(cells, r.Schema.PrimaryKey)
			if seen[key] {
				t.Errorf("%s: the key %q is there twice", r.Name, key)
			}
			seen[key] = true
			tables[r.Name] = append(tables[r.Name], cells)
			for _, fk := range r.Schema.ForeignKeys {
				if !slices.ContainsFunc(tables[fk.Reference.Resource], func(to map[string]string) bool {
					return keyOf(to, fk.Reference.Fields) == keyOf(cells, fk.Fields)
				}) {
					t.Errorf("%s: %q names no row of %s", r.Name, keyOf(cells, fk.Fields), fk.Reference.Resource)
				}
			}
		}
	}
	if diff := cmp.Diff(valuesOf(d), rowsOf(t, tables["figure_values"], tables["records"])); diff != "" {
		t.Errorf("records.json and CSV (-json +csv):\n%s", diff)
	}
}

// readFlat reads the first sheet of a flat OpenDocument file.
func readFlat(t *testing.T, name string) (rows [][]string) {
	t.Helper()
	f, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	dec := xml.NewDecoder(f)
	attr := func(e xml.StartElement, name string) string {
		for _, a := range e.Attr {
			if a.Name.Local == name {
				return a.Value
			}
		}
		return ""
	}
	times := func(e xml.StartElement, name string) int {
		n, err := strconv.Atoi(attr(e, name))
		return max(1, n*btoi(err == nil))
	}
	var line []string
	var text strings.Builder
	value, repeat, within := "", 1, 0
	for {
		tok, err := dec.Token()
		if err == io.EOF {
			return rows
		}
		if err != nil {
			t.Fatal(err)
		}
		switch e := tok.(type) {
		case xml.StartElement:
			switch e.Name.Local {
			case "table-row":
				line = nil
			case "table-cell":
				text.Reset()
				if value, repeat = "", times(e, "number-columns-repeated"); attr(e, "value-type") == "float" || attr(e, "value-type") == "percentage" {
					value = attr(e, "value")
				}
				if attr(e, "value-type") == "boolean" {
					value = attr(e, "boolean-value")
				}
			case "p":
				within++
			case "s": // blanks
				text.WriteString(strings.Repeat(" ", times(e, "c")))
			}
		case xml.CharData:
			if within > 0 {
				text.Write(e)
			}
		case xml.EndElement:
			switch e.Name.Local {
			case "p":
				within--
			case "table-cell":
				if value == "" {
					value = text.String()
				}
				for range min(repeat, 100) {
					line = append(line, value)
				}
			case "table-row":
				rows = append(rows, line)
			}
		}
	}
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}

func TestReadByLibreOffice(t *testing.T) {
	t.Parallel()
	if testing.Short() {
		t.Skip("starting LibreOffice takes seconds")
	}
	office := needsProgram(t, "soffice", "libreoffice")
	folder, d := releasedDemo(t)
	out := t.TempDir()
	read := func(table string, texts ...int) (rows []map[string]string) {
		// Comma, double quotes, UTF-8, from line 1; the columns named are text and
		// not for the program to guess at, as the descriptor says.
		var columns []string
		for _, c := range texts {
			columns = append(columns, fmt.Sprintf("%d/2", c))
		}
		filter := "CSV:44,34,76,1," + strings.Join(columns, "/") + ",1033,false,true"
		cmd := exec.Command(office, "--headless", "-env:UserInstallation=file://"+filepath.ToSlash(filepath.Join(out, "profile")),
			"--infilter="+filter, "--convert-to", "fods", "--outdir", out, filepath.Join(folder, "tables", table+".csv"))
		cmd.Env = append(os.Environ(), "HOME="+out)
		if said, err := cmd.CombinedOutput(); err != nil {
			t.Fatalf("%v\n%s", err, said)
		}
		lines := readFlat(t, filepath.Join(out, table+".fods"))
		for _, line := range lines[1:] {
			cells := map[string]string{}
			for i, name := range lines[0] {
				if name != "" && i < len(line) {
					cells[name] = line[i]
				}
			}
			if cells["record"] != "" {
				rows = append(rows, cells)
			}
		}
		return rows
	}
	// The text columns of the two tables, from 1.
	values := read("figure_values", textColumns(t, folder, "figure_values")...)
	records := read("records", textColumns(t, folder, "records")...)
	// LibreOffice holds a float64, and writes 15 digits of it.
	if diff := cmp.Diff(valuesOf(d), rowsOf(t, values, records), in15); diff != "" {
		t.Errorf("records.json and LibreOffice (-json +calc):\n%s", diff)
	}
}

// in15 holds two numbers for one when they differ by a unit of the 15th digit at
// most.
var in15 = cmp.Comparer(func(a, b digits17) bool {
	x, errX := strconv.ParseFloat(string(a), 64)
	y, errY := strconv.ParseFloat(string(b), 64)
	if errX != nil || errY != nil {
		return a == b
	}
	return math.Abs(x-y) <= 1e-14*math.Abs(x)
})

// textColumns are the numbers of the columns that the descriptor says are text.
func textColumns(t *testing.T, folder, table string) (out []int) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(folder, "tables", "datapackage.json"))
	if err != nil {
		t.Fatal(err)
	}
	var p struct {
		Resources []struct {
			Name   string
			Schema struct{ Fields []struct{ Type string } }
		}
	}
	if err := json.Unmarshal(text, &p); err != nil {
		t.Fatal(err)
	}
	for _, r := range p.Resources {
		for i, f := range r.Schema.Fields {
			if r.Name == table && f.Type == "string" {
				out = append(out, i+1)
			}
		}
	}
	return out
}

// ajvScript validates a document, and lines, each by its schema.
const ajvScript = `
const path = process.argv[2], dir = process.argv[3];
const Ajv = require(path + "/ajv/dist/2020").default, formats = require(path + "/ajv-formats").default, fs = require("fs");
const read = name => fs.readFileSync(dir + "/" + name, "utf8");
const valid = name => {
  const ajv = new Ajv({strict: true});
  formats(ajv);
  return ajv.compile(JSON.parse(read(name)));
};
let bad = 0, seen = 0;
const look = (check, text) => {
  seen++;
  if (!check(JSON.parse(text))) { bad++; console.log(JSON.stringify(check.errors.slice(0, 3))); }
};
look(valid("records.schema.json"), read("records.json"));
const record = valid("record.schema.json");
read("records.ndjson").split("\n").filter(line => line).forEach(line => look(record, line));
console.log(seen + " valid but " + bad);
`

func TestReadByAjv(t *testing.T) {
	node := needsProgram(t, "node")
	modules := os.Getenv("SNAPGAUGE_NODE_MODULES")
	if modules == "" {
		npm := needsProgram(t, "npm")
		modules = strings.TrimSpace(output(t, t.TempDir(), npm, "root", "--global"))
	}
	for _, m := range []string{"ajv", "ajv-formats"} {
		if _, err := os.Stat(filepath.Join(modules, m)); err != nil {
			t.Skipf("the npm package %s is not installed here; .ci/run installs it", m)
		}
	}
	script := filepath.Join(t.TempDir(), "validate.js")
	if err := os.WriteFile(script, []byte(ajvScript), 0o644); err != nil {
		t.Fatal(err)
	}
	folder, d := releasedDemo(t)
	want := fmt.Sprintf("%d valid but 0\n", len(d.Records)+1)
	if got := output(t, folder, node, script, modules, folder); got != want {
		t.Errorf("ajv: %s, want %s", got, want)
	}
	draft := filepath.Join(t.TempDir(), "draft")
	mustRun(t, exitGoes, "release", "../../specs/faulty", "-o", draft, "--draft")
	if got := output(t, draft, node, script, modules, draft); !strings.HasSuffix(got, "valid but 0\n") {
		t.Errorf("ajv, of a draft: %s", got)
	}
	// It does refuse.
	text, err := os.ReadFile(filepath.Join(folder, "records.json"))
	if err != nil {
		t.Fatal(err)
	}
	broken := strings.Replace(string(text), `"form": "single"`, `"form": "about"`, 1)
	if err := os.WriteFile(filepath.Join(folder, "records.json"), []byte(broken), 0o644); err != nil {
		t.Fatal(err)
	}
	if got := output(t, folder, node, script, modules, folder); !strings.HasSuffix(got, "valid but 1\n") {
		t.Errorf("ajv of a broken document: %s", got)
	}
}
