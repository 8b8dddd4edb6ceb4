package main

import (
	"bytes"
	"crypto/sha256"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"aead.dev/minisign"

	"snapgauge/schema"
	"snapgauge/specs"
	"snapgauge/specs/release"
)

// countersigned copies books of the demo into a new folder and countersigns all
// their records.
func countersigned(t *testing.T, books ...string) (folder string) {
	t.Helper()
	folder = t.TempDir()
	for _, book := range books {
		text, err := os.ReadFile("../../specs/demo/" + book)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(folder, book), text, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	countersignAll(t, folder)
	return folder
}

// countersignAll writes the ledger of a folder at once.
func countersignAll(t *testing.T, folder string) {
	t.Helper()
	for e, err := range specs.ReadFolder(os.DirFS(folder), folder, func(specs.Skipped) {}) {
		if err != nil {
			t.Fatal(err)
		}
		if e.HeadOnly {
			continue
		}
		line, err := schema.NewCountersign(e.Head, e.Record, "JT", "2026-06-05")
		if err != nil {
			t.Fatal(err)
		}
		if err := specs.AppendLedger(ledgerBeside(e.File), line); err != nil {
			t.Fatal(err)
		}
	}
}

// testKey writes a pair of keys, always the same, and returns the names of their
// files.
func testKey(t *testing.T, seed string) (secret, public string) {
	t.Helper()
	random := sha256.Sum256([]byte(seed))
	pub, priv, err := minisign.GenerateKey(bytes.NewReader(bytes.Repeat(random[:], 4)))
	if err != nil {
		t.Fatal(err)
	}
	text, err := priv.MarshalText()
	if err != nil {
		t.Fatal(err)
	}
	folder := t.TempDir()
	secret, public = filepath.Join(folder, "shop.key"), filepath.Join(folder, "shop.pub")
	if err := os.WriteFile(secret, text, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(public, []byte(publicText(pub)), 0o644); err != nil {
		t.Fatal(err)
	}
	return secret, public
}

// mustRun runs the program within the test and wants an exit code.
func mustRun(t *testing.T, want int, args ...string) (stdout, stderr string) {
	t.Helper()
	var out, errs bytes.Buffer
	if code := run(args, strings.NewReader(""), &out, &errs); code != want {
		t.Fatalf("%v: exit code %d, want %d\n%s%s", args, code, want, out.String(), errs.String())
	}
	return out.String(), errs.String()
}

// The same input makes the same bytes: from whatever folder, in whatever order,
// as a folder or as a .zip, signed or not.
func TestReleaseSameBytes(t *testing.T) {
	folder := countersigned(t, "kedge-5.yaml", "wrackline-40.yaml")
	secret, public := testKey(t, "shop")
	out := t.TempDir()
	a, b, c := filepath.Join(out, "a.zip"), filepath.Join(out, "b.zip"), filepath.Join(out, "c")
	more := []string{"--edition", "2026-06", "--key", secret}
	mustRun(t, exitGoes, append([]string{"release", folder, "-o", a}, more...)...)
	t.Chdir(folder)
	mustRun(t, exitGoes, append([]string{"release", "wrackline-40.yaml", "kedge-5.yaml", "-o", b}, more...)...)
	mustRun(t, exitGoes, append([]string{"release", ".", "-o", c}, more...)...)
	first, err := os.ReadFile(a)
	if err != nil {
		t.Fatal(err)
	}
	second, err := os.ReadFile(b)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(first, second) {
		t.Error("the same files from another folder and in another order make another .zip")
	}
	inFolder := map[string][]byte{}
	err = filepath.WalkDir(c, func(name string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		rel, _ := filepath.Rel(c, name)
		inFolder[filepath.ToSlash(rel)], err = os.ReadFile(name)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	var zipped bytes.Buffer
	if _, err := release.Zip(&zipped, inFolder); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(first, zipped.Bytes()) {
		t.Error("folder and .zip hold different files")
	}
	if strings.Contains(zipped.String(), folder) || strings.Contains(zipped.String(), out) {
		t.Error("the release tells where it was made")
	}
	for _, name := range []string{a, c} {
		r, err := release.Open(name)
		if err != nil {
			t.Fatal(err)
		}
		key, err := os.ReadFile(public)
		if err != nil {
			t.Fatal(err)
		}
		if err := r.Verify(string(key)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		r.Close()
	}
}

// A draft says so in every file.
func TestReleaseDraft(t *testing.T) {
	out := filepath.Join(t.TempDir(), "draft")
	secret, _ := testKey(t, "shop")
	mustRun(t, exitGoes, "release", "../../specs/demo/kedge-5.yaml", "../../specs/faulty/kedge-7.yaml", "-o", out, "--draft", "--key", secret)
	names := 0
	err := filepath.WalkDir(out, func(name string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		names++
		text, err := os.ReadFile(name)
		if err != nil {
			return err
		}
		rel, _ := filepath.Rel(out, name)
		switch {
		case strings.HasPrefix(rel, release.DraftFolder), rel == release.KeyFile: // as they were
		case strings.HasSuffix(rel, ".csv"):
			if !strings.HasSuffix(rel, "-DRAFT.csv") { // a table without rows has no other place for it
				t.Errorf("%s does not say DRAFT in its name", rel)
			}
			for i, line := range strings.Split(strings.TrimSuffix(string(text), "\r\n"), "\r\n") {
				if i > 0 && !strings.HasPrefix(line, "DRAFT,") {
					t.Errorf("%s: line %d does not say DRAFT", rel, i+1)
				}
			}
		case !bytes.Contains(text, []byte("DRAFT")):
			t.Errorf("%s does not say DRAFT", rel)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if names < 20 {
		t.Errorf("only %d files", names)
	}
	stdout, _ := mustRun(t, exitRejected, "audit", out)
	for _, want := range []string{"DRAFT, not vetted", "intact: made anew", "judged today: 1 reject"} {
		if !strings.Contains(stdout, want) {
			t.Errorf("audit does not say %q:\n%s", want, stdout)
		}
	}
	r, err := release.Open(out)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	if !r.Draft() {
		t.Error("no draft")
	}
	// --draft makes a draft, even where nothing stands in the way.
	good := filepath.Join(t.TempDir(), "good")
	stdout, _ = mustRun(t, exitGoes, "release", countersigned(t, "kedge-5.yaml"), "-o", good, "--draft")
	if want := "DRAFT, not vetted (nothing stands in the way)"; !strings.Contains(stdout, want) {
		t.Errorf("release does not say %q:\n%s", want, stdout)
	}
	g, err := release.Open(good)
	if err != nil {
		t.Fatal(err)
	}
	defer g.Close()
	if !g.Draft() {
		t.Error("--draft made a release")
	}
	readme, err := os.ReadFile(filepath.Join(good, "README.txt"))
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Contains(readme, []byte("DRAFT")) || !bytes.Contains(readme, []byte("Nothing was found to stand in the way of a release.")) {
		t.Errorf("README.txt:\n%.600s", readme)
	}
	if stdout, _ = mustRun(t, exitRejected, "audit", good); !strings.Contains(stdout, "DRAFT, not vetted") || !strings.Contains(stdout, "intact: made anew") {
		t.Errorf("audit:\n%s", stdout)
	}
}

// What is no release of ours is never written over.
func TestReleaseLeavesAlone(t *testing.T) {
	folder := countersigned(t, "kedge-5.yaml")
	dir := t.TempDir()
	write := func(name, text string) string {
		t.Helper()
		name = filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		return name
	}
	write("photos/cat.jpg", "cat")
	write("other.zip", "PK")
	mustRun(t, exitGoes, "release", folder, "-o", filepath.Join(dir, "mine"))
	write("mine/notes.txt", "bay 2")
	write("thing", "x")
	if err := os.Mkdir(filepath.Join(dir, "folder.zip"), 0o755); err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct{ out, want string }{
		{"photos", "left alone"},
		{"other.zip", "left alone"},
		{"mine", "holds notes.txt, which is no part of the release"},
		{"thing", "is a file; name a folder"},
		{"folder.zip", "is a folder; name a file"},
		{"no/such", "no such file"},
	} {
		_, stderr := mustRun(t, exitUnreadable, "release", folder, "-o", filepath.Join(dir, tt.out))
		if !strings.Contains(stderr, tt.want) {
			t.Errorf("%s: %q, want %q", tt.out, stderr, tt.want)
		}
	}
	for _, in := range []string{folder + "/out", folder, filepath.Dir(folder)} {
		if _, stderr := mustRun(t, exitUnreadable, "release", folder, "-o", in); !strings.Contains(stderr, "name a folder elsewhere") && !strings.Contains(stderr, "left alone") {
			t.Errorf("-o %s: %q", in, stderr)
		}
	}
	// An empty folder and an older release may be replaced, also through a link.
	if err := os.Mkdir(filepath.Join(dir, "empty"), 0o755); err != nil {
		t.Fatal(err)
	}
	link := filepath.Join(dir, "current")
	if err := os.Symlink("empty", link); err != nil {
		t.Skip(err)
	}
	for _, edition := range []string{"1", "2"} {
		mustRun(t, exitGoes, "release", folder, "-o", link, "--edition", edition)
		r, err := release.Open(filepath.Join(dir, "empty"))
		if err != nil {
			t.Fatal(err)
		}
		if r.Manifest.Edition != edition {
			t.Errorf("edition %q, want %q", r.Manifest.Edition, edition)
		}
		r.Close()
	}
	if entries, _ := filepath.Glob(filepath.Join(dir, ".*")); len(entries) > 0 {
		t.Errorf("left behind: %v", entries)
	}
}

// Files keep their places to each other, whatever is named on the command line.
func TestReleaseNames(t *testing.T) {
	dir := t.TempDir()
	text, err := os.ReadFile("../../specs/demo/kedge-5.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for i, name := range []string{"a/one.yaml", "a/deep/two.yaml", "b/three.yaml"} {
		at := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(at), 0o755); err != nil {
			t.Fatal(err)
		}
		own := strings.ReplaceAll(string(text), "kedge-5", "kedge-"+string(rune('5'+i)))
		if err := os.WriteFile(at, []byte(own), 0o644); err != nil {
			t.Fatal(err)
		}
		countersignAll(t, filepath.Dir(at))
	}
	if err := os.Symlink(filepath.Join(dir, "b/three.yaml"), filepath.Join(dir, "a/again.yaml")); err != nil {
		t.Skip(err)
	}
	tests := []struct {
		paths []string
		want  []string
	}{
		{[]string{"a", "b"}, []string{"a/countersigned.ndjson", "a/deep/countersigned.ndjson", "a/deep/two.yaml", "a/one.yaml", "b/countersigned.ndjson", "b/three.yaml"}},
		{[]string{"a/again.yaml", "b/three.yaml"}, []string{"again.yaml", "countersigned.ndjson"}},
		{[]string{"b/three.yaml"}, []string{"countersigned.ndjson", "three.yaml"}},
		{[]string{"a/deep/two.yaml", "a/one.yaml", "a/one.yaml"}, []string{"countersigned.ndjson", "deep/countersigned.ndjson", "deep/two.yaml", "one.yaml"}},
	}
	t.Chdir(dir)
	for _, tt := range tests {
		g, err := gather(tt.paths)
		if err != nil || len(g.faults) > 0 {
			t.Fatal(err, g.faults)
		}
		var got []string
		for name := range g.content {
			got = append(got, name)
		}
		slices.Sort(got)
		if !slices.Equal(got, tt.want) {
			t.Errorf("%v: %v, want %v", tt.paths, got, tt.want)
		}
	}
}

// A password-protected key works with the password in the environment, and with
// no other.
func TestReleasePassword(t *testing.T) {
	if os.Getenv("SNAPGAUGE_WHOLE") == "" {
		t.Skip("deriving keys from passwords takes seconds and gigabytes; with SNAPGAUGE_WHOLE=1 it is done")
	}
	_, priv, err := minisign.GenerateKey(nil)
	if err != nil {
		t.Fatal(err)
	}
	text, err := minisign.EncryptKey("linseed", priv)
	if err != nil {
		t.Fatal(err)
	}
	secret := filepath.Join(t.TempDir(), "shop.key")
	if err := os.WriteFile(secret, text, 0o600); err != nil {
		t.Fatal(err)
	}
	s := streams{strings.NewReader(""), io.Discard, io.Discard}
	if _, err := secretKey(secret, s); err == nil || !strings.Contains(err.Error(), keyPassword) {
		t.Errorf("without a password: %v", err)
	}
	t.Setenv(keyPassword, "tallow")
	if _, err := secretKey(secret, s); err == nil || !strings.Contains(err.Error(), "does not fit") {
		t.Errorf("with a wrong password: %v", err)
	}
	t.Setenv(keyPassword, "linseed")
	got, err := secretKey(secret, s)
	if err != nil || !got.Equal(priv) {
		t.Errorf("with the password: %v", err)
	}
}
