package release

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"path"
	"strings"
	"unicode"
	"unicode/utf8"
)

// The names of the files of a release, beside those of its tables.
const (
	ManifestFile  = "manifest.json"
	SignatureFile = "manifest.json.minisig"
	KeyFile       = "release.pub" // the public key that the signature can be verified with
	RecordsFile   = "records.json"
)

// The folders that hold the authored files as they were, with their ledgers.
const (
	AuthoredFolder = "authored"
	DraftFolder    = "authored-DRAFT"
)

// AuthoredIn is the folder of the authored files of a release in a state.
func AuthoredIn(state string) string {
	if state == StateDraft {
		return DraftFolder
	}
	return AuthoredFolder
}

// Limits of a release. What is beyond them is refused.
const (
	MaxFiles    = 10_000      // files
	MaxSize     = 1 << 30     // bytes of all files together
	MaxAuthored = MaxSize / 8 // bytes of the authored files: all else is made of them, and larger
	MaxManifest = 16 << 20    // bytes of the manifest
	maxName     = 1000        // bytes of a name
)

// Manifest is manifest.json: what a release holds, and what made it. The
// signature is over its bytes.
type Manifest struct {
	Format  string  `json:"format"`
	State   string  `json:"state"` // release or DRAFT
	Edition string  `json:"edition,omitempty"`
	Tool    Tool    `json:"tool"`
	Caution string  `json:"caution"`
	Checks  []Check `json:"checks"` // that judged the records
	Files   []File  `json:"files"`  // all but the manifest and its signature, by name
}

// Tool is what made a release.
type Tool struct {
	Name    string `json:"name"`
	Version string `json:"version"`
}

func (t Tool) String() string { return strings.TrimSpace(t.Name + " " + t.Version) }

// Check is a check that judged the records. Its text is what the program prints
// to explain it.
type Check struct {
	ID      string `json:"id"`
	Verdict string `json:"verdict"` // the most severe that it gives
	Since   string `json:"since"`
	SHA256  string `json:"sha256"` // of its text
}

// File is one file of a release.
type File struct {
	Path   string `json:"path"`
	Size   int64  `json:"size"`
	SHA256 string `json:"sha256"`
}

// FileOf is what a manifest says of a file.
func FileOf(name string, content []byte) File {
	return File{Path: name, Size: int64(len(content)), SHA256: sum(content)}
}

func sum(content []byte) string {
	s := sha256.Sum256(content)
	return hex.EncodeToString(s[:])
}

// ReadManifest reads a manifest, and refuses one of another format or with names
// that lead out of the release.
func ReadManifest(text []byte) (*Manifest, error) {
	var m Manifest
	if err := json.Unmarshal(text, &m); err != nil {
		return nil, fmt.Errorf("%s: %w", ManifestFile, err)
	}
	major, _, _ := strings.Cut(m.Format, ".")
	if want, _, _ := strings.Cut(Format, "."); major != want {
		return nil, fmt.Errorf("%s: the format is %q; this reads %s", ManifestFile, m.Format, Format)
	}
	if m.State != StateRelease && m.State != StateDraft {
		return nil, fmt.Errorf("%s: the state is %q; it is %s or %s", ManifestFile, m.State, StateRelease, StateDraft)
	}
	if len(m.Files) > MaxFiles {
		return nil, fmt.Errorf("%s: %d files, and at most %d are read", ManifestFile, len(m.Files), MaxFiles)
	}
	total := int64(0)
	seen := map[string]bool{ManifestFile: true, SignatureFile: true}
	for _, f := range m.Files {
		if err := CheckName(f.Path); err != nil {
			return nil, fmt.Errorf("%s: %w", ManifestFile, err)
		}
		if seen[f.Path] {
			return nil, fmt.Errorf("%s: %s is listed twice, or is no file to be listed", ManifestFile, f.Path)
		}
		seen[f.Path] = true
		if f.Size < 0 || f.Size > MaxSize-total {
			return nil, fmt.Errorf("%s: the files are larger than the %d MiB that are read", ManifestFile, MaxSize>>20)
		}
		total += f.Size
	}
	return &m, nil
}

// File returns what the manifest says of a file.
func (m *Manifest) File(name string) (File, bool) {
	for _, f := range m.Files {
		if f.Path == name {
			return f, true
		}
	}
	return File{}, false
}

// CheckName refuses the name of a file that is no plain path below the release
// on every system.
func CheckName(name string) error {
	bad := func(why string) error { return fmt.Errorf("the name %q %s", short(name), why) }
	switch {
	case name == "" || len(name) > maxName:
		return bad("is empty or too long")
	case !utf8.ValidString(name):
		return bad("is not UTF-8")
	case path.IsAbs(name) || path.Clean(name) != name || name == ".." || strings.HasPrefix(name, "../") || name == ".":
		return bad("is no plain path below the release")
	case strings.ContainsAny(name, `\:*?"<>|`) || strings.ContainsFunc(name, unicode.IsControl):
		return bad("has a character that not every system can have in a name")
	}
	for part := range strings.SplitSeq(name, "/") {
		if strings.HasSuffix(part, ".") || strings.HasSuffix(part, " ") || strings.HasPrefix(part, " ") {
			return bad("begins or ends with a blank or a dot, which not every system keeps")
		}
	}
	return nil
}

func short(s string) string {
	if len(s) > 80 {
		return strings.ToValidUTF8(s[:80], "") + "…"
	}
	return s
}
