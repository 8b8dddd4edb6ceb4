package specs

import (
	"bufio"
	"io"
	"io/fs"
	"iter"
	"path"
	"regexp"
	"strings"

	"github.com/go-json-experiment/json/jsontext"

	"snapgauge/schema"
)

// Skipped is a file or folder that [Walk] left alone.
type Skipped struct {
	Name string // below the root of the file system
	Why  string // in a few words
}

// Walk finds the spec files below a folder of a file system, sorted by name:
// files .yaml, .yml, .json and .ndjson whose format begins with snapgauge/.
// Hidden files and folders, links, the ledger of countersigned records, releases
// below the root and all other files are told to skipped, which may be nil. An error is an
// [*Unreadable] about a folder or file that could not be opened; the walk goes
// on.
func Walk(fsys fs.FS, root string, skipped func(Skipped)) iter.Seq2[string, error] {
	if skipped == nil {
		skipped = func(Skipped) {}
	}
	return func(yield func(string, error) bool) {
		// The errors of WalkDir are all handled within.
		_ = fs.WalkDir(fsys, root, func(name string, d fs.DirEntry, err error) error {
			if err != nil {
				if !yield(name, ioFault(name, err)) {
					return fs.SkipAll
				}
				if d != nil && d.IsDir() {
					return fs.SkipDir
				}
				return nil
			}
			if name != root && strings.HasPrefix(d.Name(), ".") {
				skipped(Skipped{name, "hidden"})
				if d.IsDir() {
					return fs.SkipDir
				}
				return nil
			}
			if d.IsDir() {
				if name != root && isRelease(fsys, name) {
					skipped(Skipped{name, "a release"})
					return fs.SkipDir
				}
				return nil
			}
			why, err := left(fsys, name, d)
			if err == nil && why != "" {
				skipped(Skipped{name, why})
				return nil
			}
			if !yield(name, err) {
				return fs.SkipAll
			}
			return nil
		})
	}
}

// left tells why a file is left alone; "" when it is a spec file.
func left(fsys fs.FS, name string, d fs.DirEntry) (string, error) {
	switch ext := strings.ToLower(path.Ext(name)); {
	case d.Type()&fs.ModeSymlink != 0:
		return "a link", nil
	case !d.Type().IsRegular():
		return "not a regular file", nil
	case d.Name() == Ledger:
		return "the ledger of countersigned records", nil
	case layoutOf(name) == unknownLayout || ext == ".jsonl":
		return "not named as a spec file", nil
	}
	f, err := fsys.Open(name)
	if err != nil {
		return "", ioFault(name, err)
	}
	defer f.Close()
	if !IsSpec(name, f) {
		return "its format is not snapgauge", nil
	}
	return "", nil
}

// isRelease reports whether a folder is a release: by its manifest, and the authored
// files beside that. What it holds is a copy of records that are judged where they
// were made. See package specs/release.
func isRelease(fsys fs.FS, name string) bool {
	isDir := func(file string) bool {
		info, err := fs.Stat(fsys, path.Join(name, file))
		return err == nil && info.IsDir()
	}
	if !isDir("authored") && !isDir("authored-DRAFT") {
		return false
	}
	manifest := path.Join(name, "manifest.json")
	if info, err := fs.Stat(fsys, manifest); err != nil || !info.Mode().IsRegular() {
		return false
	}
	f, err := fsys.Open(manifest)
	if err != nil {
		return false
	}
	defer f.Close()
	return jsonSays(bufio.NewReader(f), "", "snapgauge-release/")
}

// IsSpec reports whether a file says that it is a spec file, of whatever
// version: whether its format begins with snapgauge/. A file that is broken
// further on is one all the same, so that its fault is told.
func IsSpec(name string, r io.Reader) bool {
	b := bufio.NewReaderSize(r, 64<<10)
	peek, _ := b.Peek(64 << 10)
	begin := strings.TrimLeft(strings.TrimPrefix(string(peek), bom), " \t\r\n")
	switch layoutOf(name) {
	case jsonLayout:
		return jsonSays(b, begin, "snapgauge/")
	case linesLayout:
		line, _, _ := strings.Cut(begin, "\n")
		return jsonSays(b, line, "snapgauge/")
	}
	if strings.HasPrefix(begin, "{") {
		return quotedFormat.MatchString(begin)
	}
	return yamlSays(b)
}

var (
	quotedFormat = regexp.MustCompile(`["']?\bformat["']?\s*:\s*["']?snapgauge/`)
	plainFormat  = regexp.MustCompile(`^["']?format["']?[ \t]*:[ \t]+["']?snapgauge/`)
)

// jsonSays looks for the member format of the root and whether it begins so.
// Where the text is broken before it, the beginning of the file decides.
func jsonSays(b *bufio.Reader, begin, format string) bool {
	if peek, _ := b.Peek(len(bom)); string(peek) == bom {
		_, _ = b.Discard(len(bom))
	}
	dec := jsontext.NewDecoder(io.LimitReader(b, MaxFile), jsontext.AllowDuplicateNames(true))
	if t, err := dec.ReadToken(); err != nil || t.Kind() != jsontext.KindBeginObject {
		return false
	}
	for {
		name, err := dec.ReadToken()
		if err != nil {
			return quotedFormat.MatchString(begin)
		}
		if name.Kind() == jsontext.KindEndObject {
			return false
		}
		found := name.String() == "format"
		if found && dec.PeekKind() == jsontext.KindString {
			v, err := dec.ReadToken()
			return err == nil && strings.HasPrefix(v.String(), format)
		}
		if err := dec.SkipValue(); err != nil {
			return quotedFormat.MatchString(begin)
		}
		if found {
			return false
		}
	}
}

// yamlSays looks for the field format with the indentation of the first line.
func yamlSays(b *bufio.Reader) bool {
	indent := -1
	for read := 0; read <= MaxFile; {
		part, more, err := b.ReadLine()
		if err != nil {
			return false
		}
		read += len(part) + 1
		line := strings.TrimPrefix(string(part), bom)
		for more && err == nil { // of a long line the beginning is enough
			part, more, err = b.ReadLine()
			read += len(part)
		}
		field := strings.TrimLeft(line, " ")
		if field == "" || strings.ContainsAny(field[:1], "#%\r") || strings.HasPrefix(field, "---") {
			continue
		}
		if indent < 0 {
			indent = len(line) - len(field)
		}
		if len(line)-len(field) == indent && plainFormat.MatchString(field) {
			return true
		}
	}
	return false
}

// Join names a file below a folder as the user would: the folder as it was
// typed, and what the walk added.
func Join(typed, walked string) string {
	switch {
	case walked == ".":
		return typed
	case typed == ".":
		return walked
	}
	return strings.TrimRight(typed, `/\`) + "/" + walked
}

// ReadFolder reads the spec files of a folder as the zero [Reader] does.
func ReadFolder(fsys fs.FS, typed string, skipped func(Skipped)) iter.Seq2[schema.Entry, error] {
	return Reader{}.ReadFolder(fsys, typed, skipped)
}

// ReadFolder walks a folder and reads the spec files in it, one behind the
// other. Its path as typed begins the names of the files.
func (r Reader) ReadFolder(fsys fs.FS, typed string, skipped func(Skipped)) iter.Seq2[schema.Entry, error] {
	return func(yield func(schema.Entry, error) bool) {
		for name, err := range Walk(fsys, ".", skipped) {
			file := Join(typed, name)
			if err != nil {
				bad := *err.(*Unreadable)
				bad.File = file
				if !yield(schema.Entry{File: file}, &bad) {
					return
				}
				continue
			}
			for e, err := range r.ReadFile(fsys, name, file) {
				if !yield(e, err) {
					return
				}
			}
		}
	}
}

// ReadFile reads one file of a file system as the zero [Reader] does.
func ReadFile(fsys fs.FS, name, as string) iter.Seq2[schema.Entry, error] {
	return Reader{}.ReadFile(fsys, name, as)
}

// ReadFile opens a file and reads it, see [Read]. Its entries say that they
// come from the file called as.
func (r Reader) ReadFile(fsys fs.FS, name, as string) iter.Seq2[schema.Entry, error] {
	return func(yield func(schema.Entry, error) bool) {
		f, err := fsys.Open(name)
		if err != nil {
			yield(schema.Entry{File: as}, ioFault(as, err))
			return
		}
		defer f.Close()
		for e, err := range r.Read(as, f) {
			if !yield(e, err) {
				return
			}
		}
	}
}
