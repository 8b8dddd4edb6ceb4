// Package audit says whether a release is as it was made. It makes the release
// anew of the authored files within it and compares every byte.
//
// What a release is made of (the authored files, the public key, the edition)
// cannot be made anew: of those the manifest keeps the SHA-256, and the other
// files repeat them. Where the parts contradict each other, the explanation holds
// that has the fewest of them changed.
package audit

import (
	"cmp"
	"crypto/sha256"
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"snapgauge/cmd/internal/seal"
	"snapgauge/specs/release"
)

// Auditor audits releases. It remembers what it made last, so that many copies of
// one release are audited quickly.
type Auditor struct {
	Tool   release.Tool
	Checks []release.Check
	// Make makes the files of a release, all but the signature; nil where
	// authored files cannot be read.
	Make func(authored map[string][]byte, opt seal.Options) (map[string][]byte, error)
	// Comments are those of the signature of a release.
	Comments func(key uint64, state, edition string) (trusted, untrusted string)

	made map[[sha256.Size]byte]map[string][]byte
}

// Result is what an audit found.
type Result struct {
	State, Edition string
	Tool           release.Tool // that made the release
	Faults         []Fault      // what is not as it was made
	// Differs is what this version makes otherwise of the same authored files. It
	// is asked only of a release that another version made.
	Differs  []Fault
	Signed   Signed
	KeyID    uint64            // of the key that it is signed with
	Authored map[string][]byte // as they lie there, by name below their folder
}

// Signed says what is known of the signature.
type Signed uint8

// What may be known of a signature.
const (
	Unsigned   Signed = iota
	SignedOwn         // by the key in the release, which anybody could have put there
	SignedBy          // by the key that was given
	SignedElse        // not by the key that was given
	SignedBad         // it does not hold
)

// Intact reports that nothing was found to be changed.
func (r *Result) Intact() bool { return len(r.Faults) == 0 }

// Audit audits a release. Key is a public key as minisign writes it, or "".
func (a *Auditor) Audit(name, key string) (*Result, error) {
	l, err := load(name)
	if err != nil {
		return nil, err
	}
	if foreign(l.raw, l.readings) {
		return nil, errForeign
	}
	var best *account
	for _, files := range l.readings {
		if !looksReleased(files) {
			continue
		}
		x, err := a.account(files)
		if err != nil {
			return nil, err
		}
		if l.raw != nil {
			if err := x.archive(l.raw); err != nil {
				return nil, err
			}
		}
		if best == nil || cmp.Or(cmp.Compare(len(x.faults), len(best.faults)), cmp.Compare(x.apart, best.apart)) < 0 {
			best = x
		}
		if len(best.faults) == 0 {
			break
		}
	}
	if best == nil {
		return nil, errors.New("is no release: it has neither a manifest nor records")
	}
	best.faults = append(best.faults, l.faults...)
	slices.SortStableFunc(best.faults, func(a, b Fault) int { return strings.Compare(a.Part, b.Part) })
	r := &Result{
		State: best.with.State, Edition: best.with.Edition, Tool: best.with.Tool, Faults: best.faults, Differs: best.differs,
		Signed: best.signed, KeyID: best.keyID, Authored: best.authored,
	}
	if key != "" {
		r.by(key, best)
	}
	return r, nil
}

// by holds the signature against the key of somebody who is trusted.
func (r *Result) by(key string, x *account) {
	signature, signed := x.files[release.SignatureFile]
	if !signed {
		return
	}
	if r.Signed = SignedElse; release.VerifyManifest(x.files[release.ManifestFile], signature, key) == nil {
		r.Signed = SignedBy
	}
}

// looksReleased reports files among which are such as only a release has.
func looksReleased(files map[string][]byte) bool {
	var any struct {
		Format string `json:"format"`
	}
	for _, name := range []string{release.ManifestFile, release.RecordsFile} {
		if strings.Contains(string(files[name][:min(len(files[name]), 200)]), "snapgauge") {
			return true
		}
		if json.Unmarshal(files[name], &any) == nil && strings.HasPrefix(any.Format, "snapgauge-release/") {
			return true
		}
	}
	return false
}

// account is one reading of a release and its best explanation.
type account struct {
	a        *Auditor
	files    map[string][]byte // as they lie there
	authored map[string][]byte // below their folder
	manifest *release.Manifest // as it lies there; nil where it cannot be read
	with     seal.Options      // what the release was made with
	made     map[string][]byte // made anew with it; nil where that cannot be done
	faults   []Fault
	differs  []Fault
	inputs   bool // the faults are of inputs, so that made is not what was released
	apart    int  // bytes in which a .zip differs from that of the explanation
	signed   Signed
	keyID    uint64
}

func (a *Auditor) account(files map[string][]byte) (*account, error) {
	x := &account{a: a, files: files, authored: map[string][]byte{}}
	folder := ""
	for name := range files {
		for _, f := range []string{release.AuthoredFolder, release.DraftFolder} {
			if strings.HasPrefix(name, f+"/") && (folder == "" || f == folder) {
				folder = f
			}
		}
	}
	for name, content := range files {
		if below, ok := strings.CutPrefix(name, folder+"/"); ok && folder != "" {
			x.authored[below] = content
		}
	}
	var m release.Manifest
	if len(files[release.ManifestFile]) <= release.MaxManifest && json.Unmarshal(files[release.ManifestFile], &m) == nil {
		x.manifest = &m
	}
	size := 0
	for _, content := range x.authored {
		size += len(content)
	}
	if size > release.MaxAuthored {
		return nil, fmt.Errorf("the authored files have %d MiB, and at most %d are read", size>>20, release.MaxAuthored>>20)
	}
	for i, opt := range x.candidates(folder) {
		made, err := a.make(x.authored, opt)
		if err != nil {
			return nil, err
		}
		y := account{a: a, files: files, authored: x.authored, manifest: x.manifest, with: opt, made: made}
		y.explain()
		if opt.Tool == a.Tool && !slices.Equal(opt.Checks, a.Checks) && len(y.faults) == 0 {
			y.differs = append(y.differs, Fault{Part: release.ManifestFile, Offset: -1, Message: "lists other checks than this program has, though both bear one version"})
		}
		if i == 0 || cmp.Or(cmp.Compare(len(y.faults), len(x.faults)), cmp.Compare(len(y.differs), len(x.differs))) < 0 {
			*x = y
		}
		if len(x.faults) == 0 && (len(x.differs) == 0 || x.with.Tool == a.Tool) {
			break
		}
	}
	return x, nil
}

// candidates are what the release may have been made with, as its parts tell it,
// the likeliest first.
func (x *account) candidates(folder string) []seal.Options {
	var out []seal.Options
	add := func(state, edition string, tool release.Tool, checks []release.Check) {
		if state != release.StateRelease && state != release.StateDraft {
			if state = release.StateRelease; folder == release.DraftFolder {
				state = release.StateDraft
			}
		}
		if checks == nil || tool == x.a.Tool && !x.signs(x.files[release.ManifestFile]) {
			checks = x.a.Checks // a signed list of others is that of another build of one version
		}
		opt := seal.Options{State: state, Edition: edition, Tool: tool, Checks: checks, Key: string(x.files[release.KeyFile])}
		if !slices.ContainsFunc(out, func(o seal.Options) bool {
			return o.State == opt.State && o.Edition == opt.Edition && o.Tool == opt.Tool
		}) {
			out = append(out, opt)
		}
	}
	var checks []release.Check
	if m := x.manifest; m != nil {
		checks = m.Checks
		add(m.State, m.Edition, m.Tool, checks)
	}
	var d struct{ State, Edition, Tool string }
	if json.Unmarshal(x.files[release.RecordsFile], &d) == nil {
		tool := x.a.Tool
		if name, version, ok := strings.Cut(d.Tool, " "); ok {
			tool = release.Tool{Name: name, Version: version}
		}
		add(d.State, d.Edition, tool, checks)
		add("", d.Edition, tool, checks)
	}
	if x.manifest != nil {
		add("", x.manifest.Edition, x.manifest.Tool, checks)
	}
	if len(out) == 0 {
		add("", "", x.a.Tool, nil)
	}
	return out
}

// keep is how many makings an auditor remembers.
const keep = 16

// make makes a release anew, or gives what it made before of the same.
func (a *Auditor) make(authored map[string][]byte, opt seal.Options) (map[string][]byte, error) {
	h := sha256.New()
	for _, name := range slices.Sorted(maps.Keys(authored)) {
		fmt.Fprintf(h, "%q %d ", name, len(authored[name]))
		h.Write(authored[name])
	}
	fmt.Fprintf(h, "%q", fmt.Sprintf("%+v", opt))
	key := [sha256.Size]byte(h.Sum(nil))
	if made, ok := a.made[key]; ok {
		return made, nil
	}
	made, err := a.Make(authored, opt)
	if err != nil {
		return nil, err
	}
	if len(a.made) >= keep || a.made == nil {
		a.made = map[[sha256.Size]byte]map[string][]byte{}
	}
	a.made[key] = made
	return made, nil
}
