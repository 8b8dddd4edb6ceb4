package audit

import (
	"archive/zip"
	"bytes"
	"crypto/sha256"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"aead.dev/minisign"

	"snapgauge/cmd/internal/seal"
	"snapgauge/specs/release"
)

const book = `format: snapgauge/1.0
machine: {id: m, name: M}
entered: {by: RM, date: 2026-03-02}
sources: {manual: {title: Manual, kind: maker}}
records:
  - {id: plug, kind: torque, where: drain, tighten: [{to: 30 N·m}], source: {ref: manual, at: page 13}}
`

var own = release.Tool{Name: "snapgauge", Version: "0.1.0"}

func comments(_ uint64, state, edition string) (string, string) {
	return "trusted " + state + " " + edition, "untrusted"
}

// auditor makes releases without checks and without SQLite. Version is that of
// the program; what it makes tells it in the database.
func auditor(version string) *Auditor {
	return &Auditor{
		Tool: release.Tool{Name: "snapgauge", Version: version}, Checks: []release.Check{{ID: "a-check", Verdict: "query"}}, Comments: comments,
		Make: func(authored map[string][]byte, opt seal.Options) (map[string][]byte, error) {
			b := seal.Read(authored)
			if len(b.Unreadable) > 0 {
				return nil, nil
			}
			return seal.Files(authored, b, opt, func([]*seal.Table, string) ([]byte, error) {
				return []byte("made by " + version), nil
			})
		},
	}
}

func key(t *testing.T, seed string) (minisign.PrivateKey, string) {
	t.Helper()
	random := sha256.Sum256([]byte(seed))
	public, private, err := minisign.GenerateKey(bytes.NewReader(random[:]))
	if err != nil {
		t.Fatal(err)
	}
	return private, "untrusted comment: x\n" + public.String() + "\n"
}

// released makes a release, signed where there is a key.
func released(t *testing.T, a *Auditor, signer *minisign.PrivateKey, public string) map[string][]byte {
	t.Helper()
	opt := seal.Options{State: release.StateRelease, Edition: "7", Tool: a.Tool, Checks: a.Checks, Key: public}
	files, err := a.Make(map[string][]byte{"book.yaml": []byte(book)}, opt)
	if err != nil {
		t.Fatal(err)
	}
	if signer != nil {
		r := minisign.NewReader(bytes.NewReader(files[release.ManifestFile]))
		if _, err := r.Read(make([]byte, len(files[release.ManifestFile]))); err != nil {
			t.Fatal(err)
		}
		trusted, untrusted := comments(0, opt.State, opt.Edition)
		files[release.SignatureFile] = r.SignWithComments(*signer, trusted, untrusted)
	}
	return files
}

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

func inZip(t *testing.T, files map[string][]byte) []byte {
	t.Helper()
	var b bytes.Buffer
	if _, err := release.Zip(&b, files); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func inFile(t *testing.T, content []byte) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "r.zip")
	if err := os.WriteFile(name, content, 0o644); err != nil {
		t.Fatal(err)
	}
	return name
}

func mustAudit(t *testing.T, a *Auditor, name, key string) *Result {
	t.Helper()
	r, err := a.Audit(name, key)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func faultsOf(r *Result) string {
	var out []string
	for _, f := range r.Faults {
		out = append(out, f.String())
	}
	return strings.Join(out, "\n")
}

func TestIntact(t *testing.T) {
	a := auditor("0.1.0")
	signer, public := key(t, "ours")
	_, other := key(t, "theirs")
	signed, plain := released(t, a, &signer, public), released(t, a, nil, "")
	for _, tt := range []struct {
		files map[string][]byte
		key   string
		want  Signed
	}{
		{plain, "", Unsigned}, {plain, public, Unsigned}, {signed, "", SignedOwn}, {signed, public, SignedBy}, {signed, other, SignedElse},
	} {
		for _, name := range []string{inFolder(t, tt.files), inFile(t, inZip(t, tt.files))} {
			r := mustAudit(t, a, name, tt.key)
			if !r.Intact() || r.Signed != tt.want || r.Edition != "7" || r.Tool != own {
				t.Errorf("%+v, want %v\n%s", r, tt.want, faultsOf(r))
			}
		}
	}
}

// What was done to a release is told, and nothing else is.
func TestFaults(t *testing.T) {
	a := auditor("0.1.0")
	signer, public := key(t, "ours")
	_, other := key(t, "theirs")
	replace := func(name, old, new string) func(map[string][]byte) {
		return func(f map[string][]byte) {
			if !bytes.Contains(f[name], []byte(old)) {
				t.Fatalf("%s has no %q", name, old)
			}
			f[name] = bytes.Replace(f[name], []byte(old), []byte(new), 1)
		}
	}
	const authored = "authored/book.yaml"
	sha := release.FileOf("", []byte(book)).SHA256
	flipped := strings.Replace(sha, sha[:1], map[bool]string{true: "e", false: "f"}[sha[0] == 'f'], 1)
	tests := []struct {
		name   string
		change func(map[string][]byte)
		want   []string // beginnings of the faults, of a signed release and of one that is not
	}{
		{"a figure in the records", replace("records.json", `"30 N·m"`, `"33 N·m"`), []string{"records.json: byte "}},
		{"a figure as authored", replace(authored, "30 N·m", "33 N·m"), []string{"authored/book.yaml: is not as it was released: its SHA-256"}},
		{"a comment as authored", replace(authored, "records:", "records: # x"), []string{"authored/book.yaml: is not as it was released"}},
		{"authored so that it cannot be read", replace(authored, "records:", "records: ["), []string{"authored/book.yaml: is not as it was released"}},
		{"authored missing", func(f map[string][]byte) { delete(f, authored) }, []string{"authored/book.yaml: is missing"}},
		{"authored added", func(f map[string][]byte) { f["authored/more.yaml"] = []byte(book) }, []string{"authored/more.yaml: is no part"}},
		{"the edition in the manifest", replace(release.ManifestFile, `"edition": "7"`, `"edition": "8"`), []string{"manifest.json: byte 72: "}},
		{"the version in the manifest", replace(release.ManifestFile, `"version": "0.1.0"`, `"version": "0.1.1"`), []string{"manifest.json: byte "}},
		{"the state in the manifest", replace(release.ManifestFile, `"state": "release"`, `"state": "DRAFT"`), []string{"manifest.json: byte "}},
		{"a check in the manifest", replace(release.ManifestFile, "a-check", "b-check"), []string{"manifest.json: byte "}},
		{"a digest in the manifest", replace(release.ManifestFile, sha, flipped), []string{"manifest.json: byte "}},
		{"the manifest torn", replace(release.ManifestFile, "{", "["), []string{"manifest.json: byte 0: "}},
		{"no manifest", func(f map[string][]byte) { delete(f, release.ManifestFile) }, []string{"manifest.json: is missing"}},
		{"no records", func(f map[string][]byte) { delete(f, "records.json") }, []string{"records.json: is missing"}},
		{"a file added", func(f map[string][]byte) { f["x"] = nil }, []string{"x: is no part of the release"}},
		{"a file cut off", func(f map[string][]byte) { f["README.txt"] = f["README.txt"][:10] }, []string{"README.txt: byte 10: "}},
		{"a file longer", func(f map[string][]byte) { f["README.txt"] = append(slices.Clone(f["README.txt"]), 'x') }, []string{"README.txt: byte "}},
		// The manifest is whole, and is not accused of what it says of files that are
		// missing or cut off.
		{"authored missing, and a table", func(f map[string][]byte) { delete(f, authored); delete(f, "records.sqlite") },
			[]string{"authored/book.yaml: is missing", "records.sqlite: is missing"}},
		{"authored changed, and the page cut off", func(f map[string][]byte) {
			replace(authored, "30 N·m", "33 N·m")(f)
			f["README.txt"] = f["README.txt"][:10]
		}, []string{"README.txt: is not as it was released", "authored/book.yaml: is not as it was released"}},
		{"two files", func(f map[string][]byte) {
			replace("records.json", `"30 N·m"`, `"33 N·m"`)(f)
			replace("tables/about.csv", "snapgauge", "snapgouge")(f)
		}, []string{"records.json: byte ", "tables/about.csv: byte "}},
	}
	signedOnly := []struct {
		name   string
		change func(map[string][]byte)
		want   []string
	}{
		{"no signature", func(f map[string][]byte) { delete(f, release.SignatureFile) }, []string{"manifest.json.minisig: is missing, though release.pub is there"}},
		{"no key", func(f map[string][]byte) { delete(f, release.KeyFile) }, []string{"release.pub: is missing"}},
		{"another key", func(f map[string][]byte) { f[release.KeyFile] = []byte(other) }, []string{"release.pub: is not as it was released"}},
		{"no key at all", func(f map[string][]byte) { f[release.KeyFile] = []byte("x") }, []string{"release.pub: is not as it was released"}},
		{"the comment that is not signed", replace(release.SignatureFile, "untrusted\n", "untrustet\n"), []string{"manifest.json.minisig: byte 27: "}},
		{"the comment that is signed", replace(release.SignatureFile, "trusted release", "trusted relaase"), []string{"manifest.json.minisig: byte "}},
		{"what begins the comment", replace(release.SignatureFile, "untrusted comment", "untrusted camment"), []string{"manifest.json.minisig: byte 11: "}},
		{"rubbish", func(f map[string][]byte) { f[release.SignatureFile] = []byte("x\n") }, []string{"manifest.json.minisig: byte 0: "}},
		{"a blank at its end", func(f map[string][]byte) {
			f[release.SignatureFile] = append(slices.Clone(f[release.SignatureFile]), ' ')
		}, []string{"manifest.json.minisig: "}},
		{"signed by another with our key in place", func(f map[string][]byte) {
			theirs, public := key(t, "theirs")
			f[release.SignatureFile] = released(t, a, &theirs, public)[release.SignatureFile]
		}, []string{"manifest.json.minisig: byte "}},
	}
	for _, signed := range []bool{true, false} {
		files := released(t, a, nil, "")
		all := tests
		if signed {
			files = released(t, a, &signer, public)
			all = append(slices.Clone(tests), signedOnly...)
		}
		for _, tt := range all {
			changed := maps.Clone(files)
			tt.change(changed)
			for form, name := range map[string]string{"folder": inFolder(t, changed), ".zip": inFile(t, inZip(t, changed))} {
				r := mustAudit(t, a, name, "")
				ok := len(r.Faults) == len(tt.want)
				for i := range tt.want {
					ok = ok && strings.HasPrefix(r.Faults[i].String(), tt.want[i])
				}
				if !ok {
					t.Errorf("%s, %s, signed %v: %s\nwant %q", tt.name, form, signed, faultsOf(r), tt.want)
				}
			}
		}
	}
}

// A signature that was put into a release without key is told.
func TestSignaturePutThere(t *testing.T) {
	a := auditor("0.1.0")
	signer, public := key(t, "ours")
	files := released(t, a, nil, "")
	files[release.SignatureFile] = released(t, a, &signer, public)[release.SignatureFile]
	if got := faultsOf(mustAudit(t, a, inFolder(t, files), public)); !strings.HasPrefix(got, "manifest.json.minisig: is no part of the release") {
		t.Error(got)
	}
}

// The parts of a .zip that are no file.
func TestZipFaults(t *testing.T) {
	a := auditor("0.1.0")
	files := released(t, a, nil, "")
	sound := inZip(t, files)
	at := bytes.Index(sound, []byte("PK\x01\x02"))
	for _, tt := range []struct {
		name   string
		change func([]byte) []byte
		want   string
	}{
		{"the header", func(b []byte) []byte { b[4] = 21; return b }, "the header of README.txt: byte 4: 0x15 stands there, and was 0x14"},
		{"the length of a name", func(b []byte) []byte { b[26] = 99; return b }, "the header of README.txt: byte 26: "},
		{"the CRC in the directory", func(b []byte) []byte { b[at+16]++; return b }, "the directory of the .zip, at README.txt: byte "},
		{"the place in the directory", func(b []byte) []byte { b[at+42]++; return b }, "the directory of the .zip, at README.txt: byte "},
		{"the end", func(b []byte) []byte { b[len(b)-1] = 1; return b }, "the end of the .zip: byte "},
		{"something behind", func(b []byte) []byte { return append(b, "more"...) }, "the end of the .zip: byte "},
		{"cut off", func(b []byte) []byte { return b[:len(b)-5] }, "the end of the .zip: byte "},
		{"without its directory", func(b []byte) []byte { return b[:at] }, "the directory of the .zip, at README.txt: byte "},
	} {
		r := mustAudit(t, a, inFile(t, tt.change(bytes.Clone(sound))), "")
		if len(r.Faults) == 0 || !strings.HasPrefix(r.Faults[0].String(), tt.want) {
			t.Errorf("%s: %s, want %s", tt.name, faultsOf(r), tt.want)
		}
	}
	for _, tt := range []struct {
		raw  []byte
		want string
	}{
		{append(bytes.Clone(sound), 'x'), "1 byte too many in all"},
		{append(bytes.Clone(sound), "xy"...), "2 bytes too many in all"},
		{sound[:len(sound)-1], "1 byte too few in all"},
	} {
		if got := faultsOf(mustAudit(t, a, inFile(t, tt.raw), "")); !strings.HasSuffix(got, ": "+tt.want) {
			t.Errorf("%s, want %s", got, tt.want)
		}
	}
}

// A manifest that was changed itself is named beside a file that is missing.
func TestDigestChanged(t *testing.T) {
	a := auditor("0.1.0")
	files := released(t, a, nil, "")
	delete(files, "authored/book.yaml")
	sum := release.FileOf("", files["records.json"]).SHA256
	other := map[bool]string{true: "e", false: "f"}[sum[0] == 'f'] + sum[1:]
	files[release.ManifestFile] = bytes.Replace(files[release.ManifestFile], []byte(sum), []byte(other), 1)
	if got := faultsOf(mustAudit(t, a, inFolder(t, files), "")); !strings.Contains(got, "manifest.json: byte ") {
		t.Error(got)
	}
}

// Of a signed .zip that is cut in half the manifest is whole, though the key and
// what stands behind it are missing.
func TestZipHalf(t *testing.T) {
	a := auditor("0.1.0")
	signer, public := key(t, "ours")
	raw := inZip(t, released(t, a, &signer, public))
	half := raw[:bytes.Index(raw, []byte("release.pubuntrusted"))]
	r := mustAudit(t, a, inFile(t, half), "")
	for _, f := range r.Faults {
		if f.Part == release.ManifestFile {
			t.Errorf("%s", f)
		}
	}
	if !strings.Contains(faultsOf(r), "release.pub: is missing") || !strings.Contains(faultsOf(r), "tables/about.csv: is missing") {
		t.Error(faultsOf(r))
	}
}

// What another version made is intact when the manifest says so; what this one
// makes otherwise is told apart.
func TestOtherVersion(t *testing.T) {
	signer, public := key(t, "ours")
	files := released(t, auditor("0.1.0"), &signer, public)
	later := auditor("0.2.0")
	later.Checks = nil
	r := mustAudit(t, later, inFolder(t, files), public)
	if !r.Intact() || len(r.Differs) != 1 || r.Differs[0].Part != "records.sqlite" && r.Differs[0].Part != "manifest.json" || r.Tool != own || r.Signed != SignedBy {
		var differs []string
		for _, f := range r.Differs {
			differs = append(differs, f.String())
		}
		if len(differs) != 2 { // the database and, with it, its digest in the manifest
			t.Errorf("%+v\nfaults %s\ndiffers %v", r, faultsOf(r), differs)
		}
	}
	for name, change := range map[string]func(map[string][]byte){
		"records.json":   func(f map[string][]byte) { f["records.json"] = append(slices.Clone(f["records.json"]), ' ') },
		"records.sqlite": func(f map[string][]byte) { f["records.sqlite"] = []byte("made by nobody") },
		"manifest.json": func(f map[string][]byte) {
			f["manifest.json"] = bytes.Replace(f["manifest.json"], []byte(`"0.1.0"`), []byte(`"0.1.9"`), 1)
		},
	} {
		changed := maps.Clone(files)
		change(changed)
		r := mustAudit(t, later, inFolder(t, changed), public)
		if r.Intact() || !strings.Contains(faultsOf(r), name+": ") {
			t.Errorf("%s is not named: %s", name, faultsOf(r))
		}
	}
}

// Another build of one version may have other checks. A signature that holds says
// that the list is as it was; without one nothing does.
func TestOtherBuild(t *testing.T) {
	signer, public := key(t, "ours")
	signed, plain := released(t, auditor("0.1.0"), &signer, public), released(t, auditor("0.1.0"), nil, "")
	other := auditor("0.1.0")
	other.Checks = append(slices.Clone(other.Checks), release.Check{ID: "b-check"})
	if r := mustAudit(t, other, inFolder(t, signed), ""); !r.Intact() || len(r.Differs) != 1 || r.Signed != SignedOwn {
		t.Errorf("signed: %s %v", faultsOf(r), r.Differs)
	}
	if r := mustAudit(t, other, inFolder(t, plain), ""); !strings.HasPrefix(faultsOf(r), "manifest.json: byte ") {
		t.Errorf("not signed: %s", faultsOf(r))
	}
	signed["records.json"] = append(signed["records.json"], ' ')
	if r := mustAudit(t, other, inFolder(t, signed), ""); !strings.HasPrefix(faultsOf(r), "records.json: byte ") {
		t.Errorf("changed: %s", faultsOf(r))
	}
}

func TestNoRelease(t *testing.T) {
	a := auditor("0.1.0")
	link := inFolder(t, released(t, a, nil, ""))
	if err := os.Mkdir(filepath.Join(link, "empty"), 0o755); err != nil {
		t.Fatal(err)
	}
	want := []string{"empty/: is an empty folder"}
	if err := os.Symlink("README.txt", filepath.Join(link, "link")); err == nil {
		want = append(want, "link: is a link or a device")
	}
	r := mustAudit(t, a, link, "")
	for i := range want {
		if len(r.Faults) != len(want) || !strings.HasPrefix(r.Faults[i].String(), want[i]) {
			t.Errorf("%s, want %v", faultsOf(r), want)
		}
	}
	for name, text := range map[string]string{
		inFolder(t, map[string][]byte{"a": nil}):  "is no release",
		inFile(t, nil):                            "is no release",
		inFile(t, []byte("PK\x03\x04PK\x03\x04")): "is no release",
		os.DevNull:                         "neither a folder nor a file",
		filepath.Join(t.TempDir(), "none"): "no such file",
	} {
		if _, err := a.Audit(name, ""); err == nil || !strings.Contains(err.Error(), text) {
			t.Errorf("%s: %v, want %s", name, err, text)
		}
	}
}

// A .zip of the right files that another program wrote is not taken for one
// without them: what to do is said.
func TestZipOfAnother(t *testing.T) {
	a := auditor("0.1.0")
	files := released(t, a, nil, "")
	for _, tt := range []struct {
		name, below string
		method      uint16
		extra       []byte
	}{
		{"compressed", "", zip.Deflate, nil},
		{"stored, with a field of its own", "", zip.Store, []byte{'U', 'T', 1, 0, 0}},
		{"in a folder", "gear/", zip.Deflate, nil},
	} {
		var b bytes.Buffer
		w := zip.NewWriter(&b)
		for _, name := range slices.Sorted(maps.Keys(files)) {
			part, err := w.CreateHeader(&zip.FileHeader{Name: tt.below + name, Method: tt.method, Extra: tt.extra})
			if err == nil {
				_, err = part.Write(files[name])
			}
			if err != nil {
				t.Fatal(err)
			}
		}
		if err := w.Close(); err != nil {
			t.Fatal(err)
		}
		_, err := a.Audit(inFile(t, b.Bytes()), "")
		if err == nil || !strings.Contains(err.Error(), "another program wrote") || !strings.Contains(err.Error(), "unpack it and audit the folder") {
			t.Errorf("%s: %v", tt.name, err)
		}
	}
}

// FuzzAudit: whatever is done to a .zip, the audit ends without panic, and only
// the .zip as it was made is intact.
func FuzzAudit(f *testing.F) {
	f.Add([]byte("PK\x03\x04"), uint32(0), false)
	f.Add([]byte("x"), uint32(100), true)
	f.Add([]byte("\xff\xff\xff\xff"), uint32(22), false)
	a := auditor("0.1.0")
	var sound []byte
	f.Fuzz(func(t *testing.T, part []byte, at uint32, insert bool) {
		if sound == nil {
			sound = inZip(t, released(t, a, nil, ""))
		}
		from := int(at) % len(sound)
		to := from
		if !insert {
			to = min(len(sound), from+len(part))
		}
		changed := slices.Concat(sound[:from], part, sound[to:])
		r, err := a.Audit(inFile(t, changed), "")
		if err == nil && r.Intact() != bytes.Equal(changed, sound) {
			t.Errorf("%d bytes at %d: intact %v", len(part), from, r.Intact())
		}
	})
}

func BenchmarkAudit(b *testing.B) {
	a := auditor("0.1.0")
	opt := seal.Options{State: release.StateRelease, Tool: a.Tool, Checks: a.Checks}
	files, err := a.Make(map[string][]byte{"book.yaml": []byte(book)}, opt)
	if err != nil {
		b.Fatal(err)
	}
	var z bytes.Buffer
	if _, err := release.Zip(&z, files); err != nil {
		b.Fatal(err)
	}
	name := filepath.Join(b.TempDir(), "r.zip")
	if err := os.WriteFile(name, z.Bytes(), 0o644); err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if r, err := a.Audit(name, ""); err != nil || !r.Intact() {
			b.Fatal(err, r)
		}
	}
}
