package release

import (
	"bytes"
	"embed"
	"encoding/json"
	"io/fs"
	"path"

	"snapgauge/schema"
)

//go:embed json/*.json
var schemaFiles embed.FS

// Schema returns the JSON Schema of records.json ("records") or of one record, a
// line of records.ndjson ("record"): draft 2020-12, whole, with those of the
// format of spec files within it. State marks the schemas of a draft.
func Schema(name, state string) ([]byte, error) {
	root, err := bundle(name, state)
	if err != nil {
		return nil, err
	}
	strict(root, "")
	return Indented(root)
}

// bundle is a schema with all that it refers to, as they are written.
func bundle(name, state string) (map[string]any, error) {
	root, err := schemaOf(schemaFiles, "json/"+name+".json")
	if err != nil {
		return nil, err
	}
	defs, _ := root["$defs"].(map[string]any)
	if defs == nil {
		defs = map[string]any{}
	}
	root["$defs"] = defs
	if state != StateRelease {
		text, _ := root["description"].(string)
		root["description"] = state + ". " + text
	}
	if name != "record" {
		if defs["urn:snapgauge:release:1.0:record"], err = schemaOf(schemaFiles, "json/record.json"); err != nil {
			return nil, err
		}
	}
	format := schema.Files()
	names, err := fs.Glob(format, "*.json")
	if err != nil {
		return nil, err
	}
	for _, file := range names {
		if file == "specfile.json" {
			continue // a release holds lines
		}
		s, err := schemaOf(format, file)
		if err != nil {
			return nil, err
		}
		defs["urn:snapgauge:schema:1.0:"+file[:len(file)-len(path.Ext(file))]] = s
	}
	return root, nil
}

func schemaOf(fsys fs.FS, name string) (map[string]any, error) {
	text, err := fs.ReadFile(fsys, name)
	if err != nil {
		return nil, err
	}
	dec := json.NewDecoder(bytes.NewReader(text))
	dec.UseNumber()
	var s map[string]any
	return s, dec.Decode(&s)
}

// Indented is a value as the JSON of a release is written: indented, for people,
// and without escapes that only HTML needs.
func Indented(x any) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", " ")
	err := e.Encode(x)
	return b.Bytes(), err
}
