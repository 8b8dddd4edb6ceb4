package release

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"slices"
	"sync"
)

// Release is an opened release. It may be used by several at once.
type Release struct {
	Manifest *Manifest

	manifest []byte
	store    store
	names    []string // of all files that are there

	once sync.Once
	doc  *Document
	err  error
}

// store holds the files of a release: a folder or an archive.
type store interface {
	list() (names []string, err error)
	open(name string) (f io.ReadCloser, size int64, err error)
	Close() error
}

// Open opens a release, a folder or a .zip, and reads its manifest. Close it
// when it is no longer read. Whether it is as it was made, [Release.Verify]
// tells; what is read of it is held against the manifest in any case.
func Open(name string) (*Release, error) {
	s, err := storeOf(name)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	r := &Release{store: s}
	if err := r.begin(); err != nil {
		s.Close()
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return r, nil
}

func storeOf(name string) (store, error) {
	info, err := os.Stat(name)
	switch {
	case err != nil:
		return nil, plain(err)
	case info.IsDir():
		root, err := os.OpenRoot(name)
		if err != nil {
			return nil, plain(err)
		}
		return &folder{root}, nil
	case !info.Mode().IsRegular():
		return nil, errors.New("is neither a folder nor a file")
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, plain(err)
	}
	entries, err := readZip(f, info.Size())
	if err != nil {
		f.Close()
		return nil, err
	}
	return &archive{f, entries}, nil
}

// plain is an error of the system without the name of the file.
func plain(err error) error {
	var in *fs.PathError
	if errors.As(err, &in) {
		return in.Err
	}
	return err
}

func (r *Release) begin() (err error) {
	if r.names, err = r.store.list(); err != nil {
		return err
	}
	if !slices.Contains(r.names, ManifestFile) {
		return fmt.Errorf("is no release: it has no %s", ManifestFile)
	}
	if r.manifest, err = r.read(ManifestFile, MaxManifest); err != nil {
		return err
	}
	r.Manifest, err = ReadManifest(r.manifest)
	return err
}

// Close closes what was opened.
func (r *Release) Close() error { return r.store.Close() }

// Files lists the files that are there, by name, whether the manifest knows them
// or not.
func (r *Release) Files() []string { return slices.Clone(r.names) }

// Draft reports a release that was made as a draft, whatever stood in the way: it is
// not vetted, and not to be worked by.
func (r *Release) Draft() bool { return r.Manifest.State != StateRelease }

// read reads a file of at most so many bytes.
func (r *Release) read(name string, most int64) ([]byte, error) {
	f, size, err := r.store.open(name)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, plain(err))
	}
	defer f.Close()
	if size > most {
		return nil, fmt.Errorf("%s: %d bytes, and at most %d are read", name, size, most)
	}
	b, err := io.ReadAll(io.LimitReader(f, most+1))
	if err == nil && int64(len(b)) > most {
		err = fmt.Errorf("more than the %d bytes that are read", most)
	}
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return b, nil
}

// ReadFile reads a file that the manifest lists. It is an error when the file is
// not as the manifest says.
func (r *Release) ReadFile(name string) ([]byte, error) {
	want, ok := r.Manifest.File(name)
	if !ok {
		return nil, fmt.Errorf("%s: %w", name, fs.ErrNotExist)
	}
	b, err := r.read(name, want.Size)
	if err != nil {
		return nil, err
	}
	if sum(b) != want.SHA256 {
		return nil, fmt.Errorf("%s: is not as it was released", name)
	}
	return b, nil
}

// compare holds a file against the manifest without keeping it.
func (r *Release) compare(want File) error {
	f, size, err := r.store.open(want.Path)
	if err != nil {
		return fmt.Errorf("%s: %w", want.Path, plain(err))
	}
	defer f.Close()
	if size != want.Size {
		unit := "bytes"
		if size == 1 {
			unit = "byte"
		}
		return fmt.Errorf("%s: has %d %s, and was released with %d", want.Path, size, unit, want.Size)
	}
	h := sha256.New()
	if _, err := io.Copy(h, io.LimitReader(f, want.Size+1)); err != nil {
		return fmt.Errorf("%s: %w", want.Path, err)
	}
	if hex.EncodeToString(h.Sum(nil)) != want.SHA256 {
		return fmt.Errorf("%s: is not as it was released", want.Path)
	}
	return nil
}

// Document reads all records. They are read once and shared: do not change them.
func (r *Release) Document() (*Document, error) {
	r.once.Do(func() {
		var b []byte
		if b, r.err = r.ReadFile(RecordsFile); r.err != nil {
			return
		}
		var d Document
		if err := json.Unmarshal(b, &d); err != nil {
			r.err = fmt.Errorf("%s: %w", RecordsFile, err)
			return
		}
		if d.State != r.Manifest.State {
			r.err = fmt.Errorf("%s: says %q, and the manifest %q", RecordsFile, d.State, r.Manifest.State)
			return
		}
		r.doc = &d
	})
	return r.doc, r.err
}

// folder is a release in a folder. Nothing is opened outside of it.
type folder struct{ root *os.Root }

func (f *folder) list() (names []string, err error) {
	var total int64
	err = fs.WalkDir(f.root.FS(), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		if !d.Type().IsRegular() {
			return fmt.Errorf("%s is a link or a device, and no file", name)
		}
		info, err := d.Info()
		if err != nil {
			return err
		}
		if total += info.Size(); total > MaxSize+MaxManifest {
			return fmt.Errorf("a release is at most %d MiB", MaxSize>>20)
		}
		if names = append(names, name); len(names) > MaxFiles+2 {
			return fmt.Errorf("a release has at most %d files", MaxFiles)
		}
		return nil
	})
	slices.Sort(names)
	return names, err
}

func (f *folder) open(name string) (io.ReadCloser, int64, error) {
	info, err := f.root.Lstat(name)
	if err != nil {
		return nil, 0, err
	}
	if !info.Mode().IsRegular() {
		return nil, 0, errors.New("is a link or a device, and no file")
	}
	file, err := f.root.Open(name)
	if err != nil {
		return nil, 0, err
	}
	return file, info.Size(), nil
}

func (f *folder) Close() error { return f.root.Close() }

// archive is a release in a .zip.
type archive struct {
	file    *os.File
	entries []zipEntry
}

func (a *archive) list() (names []string, err error) {
	for _, e := range a.entries {
		names = append(names, e.name)
	}
	return names, nil
}

func (a *archive) open(name string) (io.ReadCloser, int64, error) {
	for i := range a.entries {
		if e := &a.entries[i]; e.name == name {
			return io.NopCloser(io.NewSectionReader(a.file, e.data(), int64(e.size))), int64(e.size), nil
		}
	}
	return nil, 0, fs.ErrNotExist
}

func (a *archive) Close() error { return a.file.Close() }
