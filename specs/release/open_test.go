package release_test

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"errors"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"aead.dev/minisign"
	"github.com/google/go-cmp/cmp"

	"snapgauge/specs/release"
)

// document are three records of two items, for look-ups.
func document(state string) *release.Document {
	n := func(i int64) *int64 { return &i }
	gear := func(from, to *int64) []release.Range {
		return []release.Range{{Name: "gear", Form: "number", Text: "…", From: from, To: to}}
	}
	return &release.Document{
		Format: release.Format, State: state, Tool: "snapgauge 0.1.0",
		Machines: []release.Machine{{ID: "m", Name: "M", Variants: []string{"A", "B"}, Serials: []release.Serial{{Name: "gear", Form: "number"}}}, {ID: "bare", Name: "Bare"}},
		Records: []release.Record{
			{State: state, Number: 1, Machine: "m", Item: "cover", ID: "early", Applies: []release.Box{{Variants: []string{"A"}, Serials: gear(nil, n(1199))}}},
			{State: state, Number: 2, Machine: "m", Item: "cover", ID: "late", Applies: []release.Box{{Variants: []string{"A"}, Serials: gear(n(1200), nil)}}},
			{State: state, Number: 3, Machine: "m", Item: "drain", ID: "drain", Applies: []release.Box{{}}, Figures: []release.Figure{{Pointer: "/tighten/0/to"}}},
			{State: state, Number: 4, Machine: "m", Item: "plug", ID: "plug", Applies: []release.Box{{}}},
			{State: state, Number: 5, Machine: "m", Item: "plug", ID: "plug-2", Applies: []release.Box{{}}},
			{State: state, Number: 6, Machine: "bare", Item: "drain", ID: "bare-drain", Applies: []release.Box{{}}},
		},
	}
}

// made are the files of a small release; sign is nil for none.
func made(t *testing.T, sign *minisign.PrivateKey) map[string][]byte {
	t.Helper()
	return madeOf(t, sign, release.StateRelease, nil)
}

func madeOf(t *testing.T, sign *minisign.PrivateKey, state string, change func(*release.Manifest)) map[string][]byte {
	t.Helper()
	records, err := json.Marshal(document(state))
	if err != nil {
		t.Fatal(err)
	}
	files := map[string][]byte{release.RecordsFile: records, "authored/m.yaml": []byte("format: snapgauge/1.0\n"), "README.txt": []byte("read me\n")}
	if sign != nil {
		text, err := sign.Public().(minisign.PublicKey).MarshalText()
		if err != nil {
			t.Fatal(err)
		}
		files[release.KeyFile] = text
	}
	m := release.Manifest{Format: release.Format, State: state, Tool: release.Tool{Name: "snapgauge", Version: "0.1.0"}}
	for name, content := range files {
		m.Files = append(m.Files, release.FileOf(name, content))
	}
	if change != nil {
		change(&m)
	}
	if files[release.ManifestFile], err = json.Marshal(m); err != nil {
		t.Fatal(err)
	}
	if sign != nil {
		r := minisign.NewReader(bytes.NewReader(files[release.ManifestFile]))
		if _, err := r.Read(make([]byte, len(files[release.ManifestFile]))); err != nil {
			t.Fatal(err)
		}
		files[release.SignatureFile] = r.SignWithComments(*sign, "release", "signature")
	}
	return files
}

func keys(t *testing.T, seed byte) (minisign.PrivateKey, string) {
	t.Helper()
	public, private, err := minisign.GenerateKey(bytes.NewReader(bytes.Repeat([]byte{seed}, 64)))
	if err != nil {
		t.Fatal(err)
	}
	return private, public.String()
}

// inFolder writes files as a folder.
func inFolder(t *testing.T, files map[string][]byte) string {
	t.Helper()
	folder := t.TempDir()
	for name, content := range files {
		at := filepath.Join(folder, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(at), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(at, content, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return folder
}

// inZip writes files as a .zip.
func inZip(t *testing.T, files map[string][]byte) string {
	t.Helper()
	var b bytes.Buffer
	if _, err := release.Zip(&b, files); err != nil {
		t.Fatal(err)
	}
	return inFile(t, b.Bytes())
}

func inFile(t *testing.T, content []byte) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "r.zip")
	if err := os.WriteFile(name, content, 0o644); err != nil {
		t.Fatal(err)
	}
	return name
}

// verify opens and verifies, and returns what is wrong, "" for nothing. The key ""
// is none given.
func verify(name, key string) string {
	r, err := release.Open(name)
	if err != nil {
		return err.Error()
	}
	defer r.Close()
	var trusted []string
	if key != "" {
		trusted = []string{key}
	}
	if err := r.Verify(trusted...); err != nil {
		return err.Error()
	}
	return ""
}

func TestVerify(t *testing.T) {
	ours, key := keys(t, 1)
	theirs, other := keys(t, 2)
	with := func(files map[string][]byte, change func(map[string][]byte)) map[string][]byte {
		files = maps.Clone(files)
		change(files)
		return files
	}
	signed, unsigned := made(t, &ours), made(t, nil)
	tests := []struct {
		name  string
		files map[string][]byte
		key   string
		want  string // part of the error; "" for none
	}{
		{"signed, by a key that is trusted", signed, key, ""},
		{"signed, whoever did it", signed, "", ""},
		{"the key as a file", signed, "untrusted comment: x\n" + key + "\n", ""},
		{"signed by another", made(t, &theirs), key, "is by the key"},
		{"not by this key", signed, other, "is by the key"},
		{"not signed, and nobody asks", unsigned, "", ""},
		{"not signed", unsigned, key, "is not signed"},
		{"a key that is none", signed, "RWRUBBISH", "is no public key of minisign"},
		{"a file changed", with(signed, func(f map[string][]byte) { f["README.txt"] = []byte("read it\n") }), key, "README.txt: is not as it was released"},
		{"a file longer", with(signed, func(f map[string][]byte) { f["README.txt"] = []byte("read me twice\n") }), key, "README.txt: has 14 bytes, and was released with 8"},
		{"a file of one byte", with(signed, func(f map[string][]byte) { f["README.txt"] = []byte("r") }), key, "README.txt: has 1 byte, and was released with 8"},
		{"a file missing", with(signed, func(f map[string][]byte) { delete(f, "README.txt") }), key, "README.txt: file does not exist|README.txt: no such file"},
		{"a file added", with(signed, func(f map[string][]byte) { f["more.txt"] = nil }), key, "more.txt: is no part of the release"},
		{"the signature missing", with(signed, func(f map[string][]byte) { delete(f, release.SignatureFile) }), "", "is missing"},
		{"a signature put there", with(unsigned, func(f map[string][]byte) { f[release.SignatureFile] = signed[release.SignatureFile] }), "", "lists no release.pub"},
		{"the signature of another manifest", with(made(t, &ours), func(f map[string][]byte) {
			f[release.SignatureFile] = madeOf(t, &ours, release.StateDraft, nil)[release.SignatureFile]
		}), key, "does not hold"},
		{"no signature", with(signed, func(f map[string][]byte) { f[release.SignatureFile] = []byte("x") }), key, "is no signature"},
		{"signed in the form that is not hashed first", with(signed, func(f map[string][]byte) {
			f[release.SignatureFile] = minisign.SignWithComments(ours, f[release.ManifestFile], "t", "u")
		}), key, "is not of the prehashed form"},
		{"the manifest changed", with(signed, func(f map[string][]byte) {
			f[release.ManifestFile] = bytes.Replace(f[release.ManifestFile], []byte(`"version":"0.1.0"`), []byte(`"version":"0.1.1"`), 1)
		}), key, "does not hold"},
	}
	for _, tt := range tests {
		for form, name := range map[string]string{"folder": inFolder(t, tt.files), ".zip": inZip(t, tt.files)} {
			got := verify(name, tt.key)
			ok := tt.want == "" && got == ""
			for want := range strings.SplitSeq(tt.want, "|") {
				ok = ok || tt.want != "" && strings.Contains(got, want)
			}
			if !ok {
				t.Errorf("%s, %s: %q, want %q", tt.name, form, got, tt.want)
			}
		}
	}
}

// What is not as a release is, is not opened.
func TestOpenRefuses(t *testing.T) {
	files := made(t, nil)
	var sound bytes.Buffer
	if _, err := release.Zip(&sound, files); err != nil {
		t.Fatal(err)
	}
	// byOther writes a .zip with the standard library.
	byOther := func(change func(*zip.FileHeader)) []byte {
		var b bytes.Buffer
		w := zip.NewWriter(&b)
		for _, name := range []string{"README.txt", release.ManifestFile, release.RecordsFile} {
			h := &zip.FileHeader{Name: name}
			h.SetMode(0o644)
			change(h)
			f, err := w.CreateHeader(h)
			if err != nil {
				t.Fatal(err)
			}
			if _, err := f.Write(files[name]); err != nil {
				t.Fatal(err)
			}
		}
		if err := w.Close(); err != nil {
			t.Fatal(err)
		}
		return b.Bytes()
	}
	changed := func(change func(b []byte) []byte) []byte { return change(bytes.Clone(sound.Bytes())) }
	named := func(name string) []byte { // an entry of another name, in the form of releases
		var b bytes.Buffer
		if _, err := release.Zip(&b, map[string][]byte{name: []byte("x"), release.ManifestFile: files[release.ManifestFile]}); err != nil {
			t.Fatal(err)
		}
		return b.Bytes()
	}
	const notOurs = "not of the form that releases have"
	tests := []struct {
		name string
		zip  []byte
		want string
	}{
		{"nothing", nil, "at least 22 bytes"},
		{"text", bytes.Repeat([]byte("x"), 100), notOurs},
		{"stored by another program", byOther(func(h *zip.FileHeader) { h.Method = zip.Store }), notOurs},
		{"compressed", byOther(func(h *zip.FileHeader) { h.Method = zip.Deflate }), notOurs},
		{"a link", byOther(func(h *zip.FileHeader) { h.SetMode(fs.ModeSymlink | 0o777) }), notOurs},
		{"doubled", byOther(func(h *zip.FileHeader) { h.Name = release.ManifestFile }), notOurs},
		{"cut off", changed(func(b []byte) []byte { return b[:len(b)-1] }), notOurs},
		{"something behind", changed(func(b []byte) []byte { return append(b, 'x') }), notOurs},
		{"something before", changed(func(b []byte) []byte { return append([]byte("x"), b...) }), notOurs},
		{"another count", changed(func(b []byte) []byte { b[len(b)-12]++; return b }), notOurs},
		{"a directory of 4 GiB", changed(func(b []byte) []byte { copy(b[len(b)-10:], "\xff\xff\xff\xff"); return b }), notOurs},
		{"out of the folder", named("../evil"), "is no plain path"},
		{"from the root", named("/etc/passwd"), "is no plain path"},
		{"with a detour", named("a/../../evil"), "is no plain path"},
		{"with a backslash", named(`..\evil`), "not every system"},
		{"on a drive", named("c:evil"), "not every system"},
		{"with a control character", named("a\x00b"), "not every system"},
		{"not UTF-8", named("\xff"), "is not UTF-8"},
		{"with a blank at its end", named("a /b"), "a blank or a dot"},
	}
	for _, tt := range tests {
		if got := verify(inFile(t, tt.zip), ""); !strings.Contains(got, tt.want) {
			t.Errorf("%s: %q, want %q", tt.name, got, tt.want)
		}
	}
	manifests := []struct {
		name   string
		change func(*release.Manifest)
		want   string
	}{
		{"another format", func(m *release.Manifest) { m.Format = "snapgauge-release/2.0" }, `the format is "snapgauge-release/2.0"`},
		{"a later minor version", func(m *release.Manifest) { m.Format = "snapgauge-release/1.7" }, ""},
		{"no format", func(m *release.Manifest) { m.Format = "" }, "the format is"},
		{"another state", func(m *release.Manifest) { m.State = "vetted" }, `the state is "vetted"`},
		{"a file twice", func(m *release.Manifest) { m.Files = append(m.Files, m.Files[0]) }, "is listed twice"},
		{"itself", func(m *release.Manifest) { m.Files[0].Path = release.ManifestFile }, "is listed twice, or is no file to be listed"},
		{"out of the folder", func(m *release.Manifest) { m.Files[0].Path = "../x" }, "is no plain path"},
		{"too large", func(m *release.Manifest) { m.Files[0].Size = release.MaxSize + 1 }, "larger than the 1024 MiB"},
		{"together too large", func(m *release.Manifest) { m.Files[0].Size, m.Files[1].Size = release.MaxSize-5, release.MaxSize-5 }, "larger than the 1024 MiB"},
		{"less than nothing", func(m *release.Manifest) { m.Files[0].Size = -1 }, "larger than"},
		{"too many", func(m *release.Manifest) { m.Files = make([]release.File, release.MaxFiles+1) }, "10001 files"},
	}
	for _, tt := range manifests {
		got := verify(inFolder(t, madeOf(t, nil, release.StateRelease, tt.change)), "")
		if tt.want == "" && got != "" || !strings.Contains(got, tt.want) {
			t.Errorf("manifest with %s: %q, want %q", tt.name, got, tt.want)
		}
	}
	noManifest := maps.Clone(files)
	delete(noManifest, release.ManifestFile)
	for name, want := range map[string]string{
		inFolder(t, noManifest): "is no release", inZip(t, noManifest): "is no release",
		filepath.Join(t.TempDir(), "no"): "no such file", os.DevNull: "neither a folder nor a file",
	} {
		if got := verify(name, ""); !strings.Contains(got, want) {
			t.Errorf("%s: %q, want %q", name, got, want)
		}
	}
}

// Links in a folder are not followed, whenever they are put there.
func TestOpenLinks(t *testing.T) {
	files := made(t, nil)
	folder := inFolder(t, files)
	outside := filepath.Join(t.TempDir(), "records.json")
	if err := os.WriteFile(outside, files[release.RecordsFile], 0o644); err != nil {
		t.Fatal(err)
	}
	r, err := release.Open(folder)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	at := filepath.Join(folder, release.RecordsFile)
	if err := os.Remove(at); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(outside, at); err != nil {
		t.Skip(err)
	}
	if _, err := r.ReadFile(release.RecordsFile); err == nil || !strings.Contains(err.Error(), "link") {
		t.Errorf("read through a link put there later: %v", err)
	}
	if got := verify(folder, ""); !strings.Contains(got, "is a link") {
		t.Errorf("opened with a link: %q", got)
	}
}

func TestReadFile(t *testing.T) {
	files := made(t, nil)
	folder := inFolder(t, files)
	r, err := release.Open(folder)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	if b, err := r.ReadFile("README.txt"); err != nil || string(b) != "read me\n" {
		t.Errorf("%q %v", b, err)
	}
	if _, err := r.ReadFile("more.txt"); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a file that is not listed: %v", err)
	}
	for _, text := range []string{"read it\n", "read me, and more of it\n"} {
		if err := os.WriteFile(filepath.Join(folder, "README.txt"), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		if b, err := r.ReadFile("README.txt"); err == nil {
			t.Errorf("%q was read", b)
		}
	}
	want := []string{"README.txt", "authored/m.yaml", "manifest.json", "records.json"}
	if diff := cmp.Diff(want, r.Files()); diff != "" {
		t.Errorf("files (-want +got):\n%s", diff)
	}
}

func TestLookUp(t *testing.T) {
	r, err := release.Open(inZip(t, made(t, nil)))
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	tests := []struct {
		machine, item, facts string
		want                 string // id, or part of the error
		missing              string // the fact that is asked for
	}{
		{"m", "cover", "variant=A gear=1199", "early", ""},
		{"m", "cover", "variant=A gear=1200", "late", ""},
		{"m", "cover", "variant=A", "gear decides which record of cover applies to the m; say it too: gear=…", "gear"},
		{"m", "cover", "", "variant decides", "variant"},
		{"m", "cover", "gear=7 variant=B", "none of cover applies to the m with gear=7 variant=B", ""},
		{"m", "drain", "", "drain", ""},
		{"m", "plug", "", "plug", ""},
		{"m", "drian", "", `no item "drian" of the m; did you mean "drain"?`, ""},
		{"m", "drain", "variant=C", `no variant "C"; known: A, B`, ""},
		{"m", "cover", "variant=A gear=1100 gear=1300", "gear is told twice, 1100 and 1300", ""},
		{"bare", "drain", "variant=B", "no variants are known, so that variant=B says nothing; leave it out", ""},
		{"bare", "drain", "", "bare-drain", ""},
		{"m", "drain", "colour=red", "no numbering", ""},
		{"n", "drain", "", `no machine "n"; there are: m, bare`, ""},
	}
	for _, tt := range tests {
		x, err := r.LookUp(tt.machine, tt.item, strings.Fields(tt.facts)...)
		var missing *release.MissingFactError
		switch {
		case err == nil && x.ID != tt.want, err != nil && !strings.Contains(err.Error(), tt.want):
			t.Errorf("%s %s %s: %v %v, want %s", tt.machine, tt.item, tt.facts, x, err, tt.want)
		case errors.As(err, &missing) != (tt.missing != "") || missing != nil && missing.Fact != tt.missing:
			t.Errorf("%s %s %s: asks for %v, want %q", tt.machine, tt.item, tt.facts, missing, tt.missing)
		case err != nil && missing == nil && strings.Contains(tt.want, "no item") && !errors.Is(err, release.ErrNoRecord):
			t.Errorf("%s: not ErrNoRecord", err)
		}
	}
	x, err := r.LookUp("m", "drain")
	if err != nil {
		t.Fatal(err)
	}
	if f, ok := x.Figure("/tighten/0/to"); !ok || f.Pointer != "/tighten/0/to" {
		t.Errorf("figure %v %v", f, ok)
	}
	if _, ok := x.Figure("/tighten/1/to"); ok {
		t.Error("a figure that is not there")
	}
	if _, err := document(release.StateDraft).LookUp("m", "plug"); err == nil || !strings.Contains(err.Error(), "2 records apply") {
		t.Errorf("two records in a draft: %v", err)
	}
}

func TestDocumentFails(t *testing.T) {
	files := made(t, nil)
	files[release.RecordsFile] = bytes.Replace(files[release.RecordsFile], []byte("early"), []byte("later"), 1)
	r, err := release.Open(inFolder(t, files))
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	for range 2 {
		if _, err := r.LookUp("m", "drain"); err == nil || !strings.Contains(err.Error(), "not as it was released") {
			t.Errorf("records that were changed: %v", err)
		}
	}
	for _, text := range []string{"{", `{"state": "DRAFT"}`} {
		files := madeOf(t, nil, release.StateRelease, func(m *release.Manifest) {
			for i := range m.Files {
				if m.Files[i].Path == release.RecordsFile {
					m.Files[i] = release.FileOf(release.RecordsFile, []byte(text))
				}
			}
		})
		files[release.RecordsFile] = []byte(text)
		r, err := release.Open(inFolder(t, files))
		if err != nil {
			t.Fatal(err)
		}
		if _, err := r.Document(); err == nil {
			t.Errorf("%s was read", text)
		}
		r.Close()
	}
}

// A release that was made once stays readable.
func TestKeptRelease(t *testing.T) {
	key, err := os.ReadFile("testdata/shop.pub")
	if err != nil {
		t.Fatal(err)
	}
	if got := verify("testdata/wrackline-40.zip", string(key)); got != "" {
		t.Error(got)
	}
}

// Of several keys that are trusted one must have signed; each must be a key.
func TestVerifySeveralKeys(t *testing.T) {
	ours, key := keys(t, 1)
	_, other := keys(t, 2)
	r, err := release.Open(inFolder(t, made(t, &ours)))
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	if err := r.Verify(other, key); err != nil {
		t.Error(err)
	}
	if err := r.Verify(key, ""); err == nil || !strings.Contains(err.Error(), "is no public key") {
		t.Errorf("one is empty: %v", err)
	}
	if err := r.Verify(other, other); err == nil || !strings.Contains(err.Error(), "is by the key") {
		t.Errorf("none has signed: %v", err)
	}
}

// FuzzOpen: a .zip that opens is the one form of its files.
func FuzzOpen(f *testing.F) {
	var b bytes.Buffer
	if _, err := release.Zip(&b, map[string][]byte{
		release.ManifestFile: []byte(`{"format":"snapgauge-release/1.0","state":"release","files":[]}`), "a": nil,
	}); err != nil {
		f.Fatal(err)
	}
	f.Add(b.Bytes())
	f.Add([]byte("PK\x05\x06\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00"))
	f.Add([]byte(""))
	f.Fuzz(func(t *testing.T, content []byte) {
		name := filepath.Join(t.TempDir(), "r.zip")
		if err := os.WriteFile(name, content, 0o644); err != nil {
			t.Fatal(err)
		}
		r, err := release.Open(name)
		if err != nil {
			return
		}
		defer r.Close()
		_ = r.Verify()
		z, err := zip.NewReader(bytes.NewReader(content), int64(len(content)))
		if err != nil {
			t.Fatal(err)
		}
		files := map[string][]byte{}
		for _, f := range z.File {
			in, err := f.Open()
			if err != nil {
				t.Fatal(err)
			}
			var b bytes.Buffer
			if _, err := b.ReadFrom(in); err != nil && !errors.Is(err, zip.ErrChecksum) {
				t.Fatal(err)
			} else if err != nil {
				return // the bytes of a file: Verify tells
			}
			files[f.Name] = b.Bytes()
		}
		var again bytes.Buffer
		if _, err := release.Zip(&again, files); err != nil || !bytes.Equal(again.Bytes(), content) {
			t.Errorf("another form of the same files: %v", err)
		}
	})
}

func BenchmarkOpen(b *testing.B) {
	for b.Loop() {
		r, err := release.Open("testdata/wrackline-40.zip")
		if err != nil {
			b.Fatal(err)
		}
		if err := r.Verify(); err != nil {
			b.Fatal(err)
		}
		r.Close()
	}
}

// A key file that came out empty is no leave to trust anybody; only a key that is
// not given at all is.
func TestVerifyBlankKey(t *testing.T) {
	for _, name := range []string{"testdata/wrackline-40.zip", inFolder(t, madeOf(t, nil, release.StateRelease, nil))} {
		r, err := release.Open(name)
		if err != nil {
			t.Fatal(err)
		}
		defer r.Close()
		for _, key := range []string{"", " ", "\n\r\n\t", "\ufeff"} {
			if err := r.Verify(key); err == nil || !strings.Contains(err.Error(), "is no public key of minisign") {
				t.Errorf("%s, key %q: %v", name, key, err)
			}
		}
	}
}
