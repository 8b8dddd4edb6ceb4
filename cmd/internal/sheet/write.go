package sheet

import (
	"bytes"
	"embed"
	"html/template"
	"io"
	"strings"
	"sync"
)

//go:embed page.html page.css.tmpl
var files embed.FS

// page is the template, parsed on first use. Everything that is put into it is
// escaped for the place where it stands.
var page = sync.OnceValue(func() *template.Template {
	return template.Must(template.New("").Funcs(template.FuncMap{
		"running": running,
		"draft":   func() bool { return false },
	}).ParseFS(files, "page.html", "page.css.tmpl"))
})

// Write writes the page. Nothing is written where it cannot be made whole.
func (s *Sheet) Write(w io.Writer) error {
	t, err := page().Clone()
	if err != nil {
		return err
	}
	t.Funcs(template.FuncMap{"draft": func() bool { return s.Draft != "" }})
	var b bytes.Buffer
	if err := t.ExecuteTemplate(&b, "page", s); err != nil {
		return err
	}
	_, err = w.Write(b.Bytes())
	return err
}

// running is what stands at the head of every printed page.
func running(s *Sheet) string {
	text := []rune(joined(" · ", append([]string{s.Machine}, append(append([]string{}, s.Facts...), s.Edition)...)...))
	const most = 90
	if len(text) > most {
		text = append(text[:most-1], '…')
	}
	return strings.TrimSpace(string(text))
}
