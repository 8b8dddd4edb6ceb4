package seal

import (
	"bytes"
	"encoding/json"
	"maps"
	"slices"

	"snapgauge/specs/release"
)

// Database writes tables as one file. It is handed in, so that this package does
// without SQLite.
type Database func(tables []*Table, state string) ([]byte, error)

// Files makes every file of a release but its signature, by name: the authored
// ones as they were, the records in normal form, and the manifest.
func Files(authored map[string][]byte, b *Book, opt Options, database Database) (map[string][]byte, error) {
	d, err := Document(b, opt)
	if err != nil {
		return nil, err
	}
	folder := release.AuthoredIn(opt.State) + "/"
	for i := range d.Records {
		d.Records[i].File = folder + d.Records[i].File
	}
	files := map[string][]byte{}
	for name, content := range authored {
		files[folder+name] = content
	}
	if files[release.RecordsFile], err = release.Indented(d); err != nil {
		return nil, err
	}
	if files["records.ndjson"], err = lines(d); err != nil {
		return nil, err
	}
	for _, name := range []string{"records", "record"} {
		if files[name+".schema.json"], err = release.Schema(name, opt.State); err != nil {
			return nil, err
		}
	}
	if err := putTables(files, d, opt, database); err != nil {
		return nil, err
	}
	files["README.txt"] = readme(d, opt)
	if opt.Key != "" {
		files[release.KeyFile] = []byte(opt.Key)
	}
	files[release.ManifestFile], err = Manifest(files, opt)
	return files, err
}

// lines are the records, one a line.
func lines(d *release.Document) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	for i := range d.Records {
		if err := e.Encode(&d.Records[i]); err != nil {
			return nil, err
		}
	}
	return b.Bytes(), nil
}

func putTables(files map[string][]byte, d *release.Document, opt Options, database Database) error {
	tables, err := Tables(d)
	if err != nil {
		return err
	}
	texts, sums := map[string][]byte{}, map[string]string{}
	for _, t := range tables {
		var b bytes.Buffer
		if err := t.CSV(&b); err != nil {
			return err
		}
		texts[t.Name] = b.Bytes()
		sums[t.Name] = release.FileOf(t.Name, b.Bytes()).SHA256
		files["tables/"+csvFile(t, opt)] = b.Bytes()
	}
	if files["tables/datapackage.json"], err = release.Indented(describe(tables, texts, sums, opt)); err != nil {
		return err
	}
	files["records.sqlite"], err = database(tables, d.State)
	return err
}

// csvFile is the file of a table. In a draft its name says so, for a table
// without rows has no cell that could.
func csvFile(t *Table, opt Options) string {
	if opt.draft() {
		return t.Name + "-" + release.StateDraft + ".csv"
	}
	return t.Name + ".csv"
}

// Manifest is the manifest of files, but for itself and the signature.
func Manifest(files map[string][]byte, opt Options) ([]byte, error) {
	m := release.Manifest{
		Format: release.Format, State: opt.State, Edition: opt.Edition, Tool: opt.Tool, Caution: opt.caution(),
		Checks: opt.Checks, Files: []release.File{},
	}
	for _, name := range slices.Sorted(maps.Keys(files)) {
		if name != release.ManifestFile && name != release.SignatureFile {
			m.Files = append(m.Files, release.FileOf(name, files[name]))
		}
	}
	return release.Indented(m)
}
