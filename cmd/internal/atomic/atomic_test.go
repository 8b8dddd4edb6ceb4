package atomic

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
)

func anybody(string) error { return nil }

func files(edition string) map[string][]byte {
	return map[string][]byte{"a": []byte(edition), "deep/er/b": []byte(edition), "deep/c": nil}
}

// holds wants the files of one edition in a folder, and nothing beside it.
func holds(t *testing.T, folder, edition string) {
	t.Helper()
	for name, want := range files(edition) {
		got, err := os.ReadFile(filepath.Join(folder, name))
		if err != nil || string(got) != string(want) {
			t.Errorf("%s: %q %v, want %q", name, got, err, want)
		}
	}
	alone(t, folder)
}

func alone(t *testing.T, name string) {
	t.Helper()
	entries, err := os.ReadDir(filepath.Dir(name))
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if strings.HasPrefix(e.Name(), ".") {
			t.Errorf("left behind: %s", e.Name())
		}
	}
}

func TestFolder(t *testing.T) {
	out := filepath.Join(t.TempDir(), "out")
	for _, edition := range []string{"1", "2", "3"} {
		if err := Folder(out, files(edition), anybody); err != nil {
			t.Fatal(err)
		}
		holds(t, out, edition)
	}
	if err := Folder(filepath.Join(t.TempDir(), "no", "out"), files("1"), anybody); err == nil {
		t.Error("written into a folder that is not there")
	}
}

// A link is neither replaced nor written through: who means what it leads to names
// that.
func TestLink(t *testing.T) {
	dir := t.TempDir()
	for _, tt := range []struct {
		name  string
		write func(name string) error
	}{
		{"file", func(name string) error {
			return File(name, func(w io.Writer) error { _, err := io.WriteString(w, "new"); return err })
		}},
		{"folder", func(name string) error { return Folder(name, files("1"), anybody) }},
	} {
		t.Run(tt.name, func(t *testing.T) {
			kept, link := filepath.Join(dir, tt.name), filepath.Join(dir, tt.name+" by link")
			if err := os.WriteFile(kept, []byte("old"), 0o644); err != nil {
				t.Fatal(err)
			}
			if err := os.Symlink(tt.name, link); err != nil {
				t.Skip(err)
			}
			if err := tt.write(link); !errors.Is(err, ErrLink) {
				t.Errorf("error %v, want %v", err, ErrLink)
			}
			if to, err := os.Readlink(link); err != nil || to != tt.name {
				t.Errorf("the link leads to %q: %v", to, err)
			}
			if got, err := os.ReadFile(kept); err != nil || string(got) != "old" {
				t.Errorf("%q %v, want what was there", got, err)
			}
			alone(t, link)
		})
	}
}

// What may not be replaced stays, also when it is put there at the last moment.
func TestFolderNotOurs(t *testing.T) {
	out := filepath.Join(t.TempDir(), "out")
	if err := Folder(out, files("1"), anybody); err != nil {
		t.Fatal(err)
	}
	not := errors.New("not ours")
	if err := Folder(out, files("2"), func(string) error { return not }); !errors.Is(err, not) {
		t.Errorf("error %v", err)
	}
	holds(t, out, "1")
	asked := 0
	late := func(string) error {
		if asked++; asked > 1 {
			return not
		}
		return nil
	}
	if err := Folder(out, files("2"), late); !errors.Is(err, not) {
		t.Errorf("error %v", err)
	}
	holds(t, out, "1")
}

// Where two cannot be exchanged in one step the old one is put aside.
func TestPutAside(t *testing.T) {
	dir := t.TempDir()
	out, half := filepath.Join(dir, "out"), filepath.Join(dir, ".out.new-1")
	for folder, edition := range map[string]string{out: "1", half: "2"} {
		if err := os.Mkdir(folder, 0o777); err != nil {
			t.Fatal(err)
		}
		if err := fill(folder, files(edition)); err != nil {
			t.Fatal(err)
		}
	}
	if err := putAside(half, out, func(string) error { return io.EOF }); !errors.Is(err, io.EOF) {
		t.Errorf("error %v", err)
	}
	if got, err := os.ReadFile(filepath.Join(out, "a")); err != nil || string(got) != "1" {
		t.Errorf("%q %v", got, err)
	}
	if err := putAside(half, out, anybody); err != nil {
		t.Fatal(err)
	}
	holds(t, out, "2")
}

// A run that was ended is put right by the next.
func TestRecover(t *testing.T) {
	dir := t.TempDir()
	out := filepath.Join(dir, "out")
	mk := func(name, edition string) string {
		t.Helper()
		name = filepath.Join(dir, name)
		if err := os.Mkdir(name, 0o777); err != nil {
			t.Fatal(err)
		}
		if err := fill(name, files(edition)); err != nil {
			t.Fatal(err)
		}
		return name
	}
	// Between the two renames: the old one is aside, and nothing has the name.
	mk(".out.old-1", "1")
	mk(".out.new-1", "2")
	if err := Recover(out); err != nil {
		t.Fatal(err)
	}
	holds(t, out, "1")
	// After both, before the old one was taken away; and half a new one.
	mk(".out.old-2", "0")
	mk(".out.new-2", "3")
	if err := os.Remove(filepath.Join(mk(".out.new-3", "3"), "a")); err != nil {
		t.Fatal(err)
	}
	if err := Recover(out); err != nil {
		t.Fatal(err)
	}
	holds(t, out, "1")
	// What another is just writing stays, and so does what only looks alike.
	held := mk(".out.new-4", "4")
	mk(".outer.new-5", "5")
	d, err := os.Open(held)
	if err != nil {
		t.Fatal(err)
	}
	defer d.Close()
	release := hold(d)
	if err := Recover(out); err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(held); err != nil {
		t.Error(err)
	}
	release()
	if err := Recover(out); err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(held); err == nil {
		t.Error("half a folder is still there")
	}
	if _, err := os.Stat(filepath.Join(dir, ".outer.new-5")); err != nil {
		t.Error(err)
	}
}

func TestFile(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "r.zip")
	if err := os.WriteFile(filepath.Join(dir, ".r.zip.new-1"), []byte("ha"), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, text := range []string{"one", "two"} {
		err := File(name, func(w io.Writer) error { _, err := io.WriteString(w, text); return err })
		if err != nil {
			t.Fatal(err)
		}
		if got, err := os.ReadFile(name); err != nil || string(got) != text {
			t.Errorf("%q %v", got, err)
		}
	}
	err := File(name, func(w io.Writer) error {
		if _, err := io.WriteString(w, "thr"); err != nil {
			return err
		}
		return io.ErrShortWrite
	})
	if !errors.Is(err, io.ErrShortWrite) {
		t.Errorf("error %v", err)
	}
	if got, err := os.ReadFile(name); err != nil || string(got) != "two" {
		t.Errorf("%q %v", got, err)
	}
	alone(t, name)
	if err := File(filepath.Join(dir, "no", "r.zip"), func(io.Writer) error { return nil }); err == nil {
		t.Error("written into a folder that is not there")
	}
}

// Several who write at once each write a whole one, and the last of them stays.
func TestTogether(t *testing.T) {
	out := filepath.Join(t.TempDir(), "out")
	if err := Folder(out, files("first"), anybody); err != nil {
		t.Fatal(err)
	}
	var all sync.WaitGroup
	for i := range 4 {
		all.Go(func() {
			for n := range 5 {
				if err := Folder(out, files(fmt.Sprint(i, "-", n)), anybody); err != nil {
					t.Error(err)
				}
			}
		})
	}
	all.Wait()
	got, err := os.ReadFile(filepath.Join(out, "a"))
	if err != nil {
		t.Fatal(err)
	}
	holds(t, out, string(got))
}
