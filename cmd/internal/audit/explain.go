package audit

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"

	"aead.dev/minisign"

	"snapgauge/cmd/internal/seal"
	"snapgauge/specs/release"
)

// isInput reports a file that a release is made of.
func isInput(name string) bool {
	return name == release.KeyFile || strings.HasPrefix(name, release.AuthoredFolder+"/") || strings.HasPrefix(name, release.DraftFolder+"/")
}

// explain finds the faults: those that the making tells, or those that the
// manifest tells, whichever are fewer.
func (x *account) explain() {
	inputs, others := x.againstManifest()
	remade := x.againstMade()
	switch {
	case x.made == nil: // authored files that cannot be read
		x.faults, x.inputs = append(inputs, others...), true
		if x.manifest == nil {
			x.faults = append(x.faults, Fault{Part: release.ManifestFile, Offset: -1, Message: "cannot be read, nor made anew"})
		}
	case x.manifest != nil && x.with.Tool != x.a.Tool && len(remade) > 0:
		// Another version made it, so that this one may make it otherwise. What
		// the manifest says of the files holds all the same.
		x.faults, x.inputs = append(inputs, others...), true
		x.contradicted()
		for _, f := range remade {
			if !slices.ContainsFunc(x.faults, func(g Fault) bool { return g.Part == f.Part }) {
				x.differs = append(x.differs, f)
			}
		}
	case len(inputs) == 0, len(remade) < len(inputs)+len(others), x.signs(x.made[release.ManifestFile]):
		x.faults = remade
	case len(remade) == len(inputs)+len(others) && !x.signs(x.files[release.ManifestFile]) && x.digestsNear(inputs):
		x.faults = remade // the digest in the manifest was changed, and no file
	default:
		x.faults, x.inputs = append(inputs, others...), true
		if f, ok := differ(release.ManifestFile, x.files[release.ManifestFile], x.manifestBut(slices.Concat(inputs, x.unknown(others))), 0); ok {
			x.faults = append(x.faults, f)
		}
	}
	x.signature()
}

// contradicted finds a manifest that is not written as one is, or tells of another
// maker or edition than the records do, which it lists as they are.
func (x *account) contradicted() {
	if text, err := release.Indented(x.manifest); err == nil && x.manifest.Format == release.Format {
		if f, ok := differ(release.ManifestFile, x.files[release.ManifestFile], text, 0); ok {
			x.faults = append(x.faults, f)
			return
		}
	}
	var d release.Document
	if json.Unmarshal(x.files[release.RecordsFile], &d) != nil || slices.ContainsFunc(x.faults, func(f Fault) bool { return f.Part == release.RecordsFile }) {
		return
	}
	m := x.manifest
	for _, c := range [][3]string{{"the tool", m.Tool.String(), d.Tool}, {"the edition", m.Edition, d.Edition}, {"the state", m.State, d.State}} {
		if c[1] != c[2] {
			x.faults = append(x.faults, Fault{Part: release.ManifestFile, Offset: -1,
				Message: fmt.Sprintf("says of %s %q, and %s %q", c[0], c[1], release.RecordsFile, c[2])})
		}
	}
}

// againstManifest tells which files are not as the manifest says.
func (x *account) againstManifest() (inputs, others []Fault) {
	if x.manifest == nil {
		return nil, nil
	}
	put := func(name, message string) {
		f := Fault{Part: name, Offset: -1, Message: message}
		if isInput(name) {
			inputs = append(inputs, f)
		} else {
			others = append(others, f)
		}
	}
	listed := map[string]bool{release.ManifestFile: true, release.SignatureFile: true}
	for _, f := range x.manifest.Files {
		listed[f.Path] = true
		content, there := x.files[f.Path]
		switch now := digest(content); {
		case !there:
			put(f.Path, "is missing")
		case now != f.SHA256:
			put(f.Path, fmt.Sprintf("is not as it was released: its SHA-256 is %s, and was %s", now, f.SHA256))
		case int64(len(content)) != f.Size:
			put(f.Path, fmt.Sprintf("has %s, and the manifest says %d", bytesOf(len(content)), f.Size))
		}
	}
	for _, name := range slices.Sorted(maps.Keys(x.files)) {
		if !listed[name] {
			put(name, "is no part of the release")
		}
	}
	return inputs, others
}

func digest(content []byte) string {
	sum := sha256.Sum256(content)
	return hex.EncodeToString(sum[:])
}

// againstMade tells which files are not as they are made anew.
func (x *account) againstMade() (faults []Fault) {
	if x.made == nil {
		return nil
	}
	for _, name := range slices.Sorted(maps.Keys(x.made)) {
		content, there := x.files[name]
		if !there {
			faults = append(faults, Fault{Part: name, Offset: -1, Message: "is missing"})
		} else if f, ok := differ(name, content, x.made[name], 0); ok {
			faults = append(faults, f)
		}
	}
	for _, name := range slices.Sorted(maps.Keys(x.files)) {
		if _, made := x.made[name]; !made && name != release.SignatureFile {
			faults = append(faults, Fault{Part: name, Offset: -1, Message: "is no part of the release"})
		}
	}
	return faults
}

// digestsNear reports that of some files the digest in the manifest is nearly
// that of the file, or right with a wrong size, or not there at all: as it is
// when the manifest was changed, and not the file.
func (x *account) digestsNear(faults []Fault) bool {
	for _, f := range faults {
		said, ok := x.manifest.File(f.Part)
		if !ok || said.SHA256 != "" && !near(said.SHA256, digest(x.files[f.Part])) {
			return false
		}
	}
	return true
}

// unknown are the faults of files that were lost or changed: what the manifest
// says of them cannot be told from what lies there. Where the digest is nearly
// that of the file, the manifest was changed.
func (x *account) unknown(faults []Fault) (out []Fault) {
	for _, f := range faults {
		if _, there := x.files[f.Part]; !there || !x.digestsNear([]Fault{f}) {
			out = append(out, f)
		}
	}
	return out
}

// manifestBut is the manifest as it must be, with what it says itself of some
// files.
func (x *account) manifestBut(faults []Fault) []byte {
	if x.manifest == nil {
		return nil
	}
	own := map[string]bool{}
	for _, f := range faults {
		own[f.Part] = true
	}
	m := *x.manifest
	m.Files = nil
	for _, f := range x.manifest.Files {
		if !own[f.Path] {
			f = release.FileOf(f.Path, x.files[f.Path])
		}
		m.Files = append(m.Files, f)
	}
	var like release.Manifest
	text, err := seal.Manifest(nil, x.with)
	if err == nil {
		var made *release.Manifest
		if made, err = release.ReadManifest(text); err == nil {
			like = *made
		}
	}
	if err != nil {
		return x.files[release.ManifestFile]
	}
	like.Files = m.Files
	out, err := release.Indented(like)
	if err != nil {
		return x.files[release.ManifestFile]
	}
	return out
}

// signs reports that the signature in the release holds for a manifest, by the
// key in the release.
func (x *account) signs(manifest []byte) bool {
	return release.VerifyManifest(manifest, x.files[release.SignatureFile], string(x.files[release.KeyFile])) == nil
}

// signature looks at the signature. It cannot be made anew, but the key in the
// release tells whether it holds, and all around it is known.
func (x *account) signature() {
	text, signed := x.files[release.SignatureFile]
	own, keyed := x.files[release.KeyFile]
	fault := func(offset int64, format string, args ...any) {
		x.faults = append(x.faults, Fault{Part: release.SignatureFile, Offset: offset, Message: fmt.Sprintf(format, args...)})
		x.signed = SignedBad
	}
	switch {
	case !signed && !keyed:
		return
	case !signed:
		fault(-1, "is missing, though %s is there", release.KeyFile)
		return
	case !keyed:
		if x.manifest != nil {
			if _, listed := x.manifest.File(release.KeyFile); listed {
				x.signed = SignedBad // the key is told to be missing
				return
			}
		}
		fault(-1, "is no part of the release, which names no key")
		return
	}
	key, err := release.ParseKey(string(own))
	keyFault := err != nil || slices.ContainsFunc(x.faults, func(f Fault) bool { return f.Part == release.KeyFile })
	x.keyID = key.ID()
	var s minisign.Signature
	if s.UnmarshalText(text) != nil {
		offset := int64(-1)
		if !keyFault {
			trusted, untrusted := x.a.Comments(x.keyID, x.with.State, x.with.Edition)
			lines := strings.SplitAfterN(string(text), "\n", 4)
			at := 0
			for i, want := range []string{"untrusted comment: " + untrusted + "\n", "", "trusted comment: " + trusted + "\n"} {
				if i < len(lines) && want != "" {
					if f, ok := differ("", []byte(lines[i]), []byte(want), int64(at)); ok {
						fault(f.Offset, "%s", f.Message)
						return
					}
				}
				if i < len(lines) {
					at += len(lines[i])
				}
			}
		}
		fault(offset, "is no signature of minisign any more")
		return
	}
	if keyFault {
		x.keyID = s.KeyID
	}
	s.TrustedComment, s.UntrustedComment = x.a.Comments(x.keyID, x.with.State, x.with.Edition)
	s.KeyID, s.Algorithm = x.keyID, minisign.HashEdDSA
	canonical, err := s.MarshalText()
	if err != nil {
		fault(-1, "%v", err)
		return
	}
	if f, ok := differ(release.SignatureFile, text, canonical, 0); ok {
		x.faults, x.signed = append(x.faults, f), SignedBad
		return
	}
	switch {
	case keyFault:
		x.signed = SignedBad // nobody can say, without the key
	case x.signs(x.files[release.ManifestFile]):
		x.signed = SignedOwn
	case x.signs(x.made[release.ManifestFile]):
		x.signed = SignedBad // the manifest was changed, and is told
	default:
		fault(-1, "does not hold for the manifest by the key in the release: the signature, or what it signs, was changed")
	}
}

// archive compares the .zip with the one form that its files have as a .zip.
func (x *account) archive(raw []byte) error {
	var b bytes.Buffer
	if _, err := release.Zip(&b, x.files); err != nil {
		return err
	}
	if bytes.Equal(raw, b.Bytes()) {
		return nil // soundly made of whatever files
	}
	b.Reset()
	files := x.files
	if !x.inputs && x.made != nil {
		files = maps.Clone(x.made)
		if s, ok := x.files[release.SignatureFile]; ok {
			files[release.SignatureFile] = s
		}
	}
	stretches, err := release.Zip(&b, files)
	if err != nil {
		return err
	}
	want := b.Bytes()
	x.apart = apart(raw, want)
	named := map[string]bool{}
	for _, f := range x.faults {
		named[f.Part] = true
	}
	for _, s := range stretches {
		is := raw[min(s.From, int64(len(raw))):min(s.To, int64(len(raw)))]
		f, ok := differ(s.What, is, want[s.From:s.To], s.From)
		if !ok || s.File != "" && named[s.File] {
			continue
		}
		// A file that was changed has another CRC than the headers keep.
		if named[s.Of] && (x.inputs || s.Of == release.SignatureFile) {
			continue
		}
		x.faults = append(x.faults, f)
		if len(raw) != len(want) || len(x.faults) > mostFaults {
			break // all behind is moved
		}
	}
	switch more := len(raw) - len(want); {
	case more > 0:
		x.faults = append(x.faults, Fault{Part: "the end of the .zip", Offset: int64(len(raw)), Message: bytesOf(more) + " too many in all"})
	case more < 0:
		x.faults = append(x.faults, Fault{Part: "the end of the .zip", Offset: int64(len(raw)), Message: bytesOf(-more) + " too few in all"})
	}
	return nil
}

// apart counts the bytes in which two contents differ.
func apart(a, b []byte) int {
	if len(a) > len(b) {
		a, b = b, a
	}
	n := len(b) - len(a)
	for i := range a {
		if a[i] != b[i] {
			n++
		}
	}
	return n
}

// mostFaults is how many parts of a .zip are told of.
const mostFaults = 100
