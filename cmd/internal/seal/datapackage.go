package seal

// The descriptor of the tables: a Data Package with a Table Schema for each
// (Frictionless Data, Data Package 1.0 and Table Schema 1.0).

type dataPackage struct {
	Profile     string     `json:"profile"`
	Name        string     `json:"name"`
	Title       string     `json:"title"`
	Description string     `json:"description"`
	State       string     `json:"state"`
	Edition     string     `json:"edition,omitempty"`
	Resources   []resource `json:"resources"`
}

type resource struct {
	Profile     string      `json:"profile"`
	Name        string      `json:"name"`
	Description string      `json:"description"`
	Path        string      `json:"path"`
	Format      string      `json:"format"`
	MediaType   string      `json:"mediatype"`
	Encoding    string      `json:"encoding"`
	Bytes       int         `json:"bytes"`
	Hash        string      `json:"hash"`
	Dialect     dialect     `json:"dialect"`
	Schema      tableSchema `json:"schema"`
}

type dialect struct {
	Delimiter        string `json:"delimiter"`
	LineTerminator   string `json:"lineTerminator"`
	QuoteChar        string `json:"quoteChar"`
	DoubleQuote      bool   `json:"doubleQuote"`
	SkipInitialSpace bool   `json:"skipInitialSpace"`
	Header           bool   `json:"header"`
}

type tableSchema struct {
	Fields        []field      `json:"fields"`
	MissingValues []string     `json:"missingValues"`
	PrimaryKey    []string     `json:"primaryKey"`
	ForeignKeys   []foreignKey `json:"foreignKeys,omitempty"`
}

type field struct {
	Name        string       `json:"name"`
	Type        Type         `json:"type"`
	Description string       `json:"description"`
	Constraints *constraints `json:"constraints,omitempty"`
}

type constraints struct {
	Required bool `json:"required"`
}

type foreignKey struct {
	Fields    []string  `json:"fields"`
	Reference reference `json:"reference"`
}

type reference struct {
	Resource string   `json:"resource"`
	Fields   []string `json:"fields"`
}

// describe makes the descriptor of tables and of the files that they were
// written to, by the name of the table.
func describe(tables []*Table, files map[string][]byte, sums map[string]string, opt Options) dataPackage {
	p := dataPackage{
		Profile: "tabular-data-package", Name: "snapgauge-release", Title: title(opt), Description: opt.caution(),
		State: opt.State, Edition: opt.Edition,
	}
	for _, t := range tables {
		r := resource{
			Profile: "tabular-data-resource", Name: t.Name, Description: t.Doc, Path: csvFile(t, opt), Format: "csv", MediaType: "text/csv",
			Encoding: "utf-8", Bytes: len(files[t.Name]), Hash: "sha256:" + sums[t.Name],
			Dialect: dialect{Delimiter: ",", LineTerminator: "\r\n", QuoteChar: `"`, DoubleQuote: true, Header: true},
			Schema:  tableSchema{MissingValues: []string{""}, PrimaryKey: t.Key},
		}
		for _, c := range t.Columns {
			f := field{Name: c.Name, Type: c.Type, Description: c.Doc}
			if c.Required {
				f.Constraints = &constraints{Required: true}
			}
			r.Schema.Fields = append(r.Schema.Fields, f)
		}
		for _, x := range t.References {
			r.Schema.ForeignKeys = append(r.Schema.ForeignKeys, foreignKey{x.Columns, reference{x.Table, x.To}})
		}
		p.Resources = append(p.Resources, r)
	}
	return p
}

// title is what a release is called.
func title(opt Options) string {
	text := "Release of vetted spec records"
	if opt.draft() {
		text = "DRAFT of spec records, not vetted"
	}
	if opt.Edition != "" {
		text += ", edition " + opt.Edition
	}
	return text
}
