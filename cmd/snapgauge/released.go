package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"snapgauge/specs/release"
)

// isRelease reports that a path is that of a release: an archive, or a folder with a
// manifest beside the authored files.
func isRelease(name string) bool {
	if strings.EqualFold(filepath.Ext(name), ".zip") {
		return true
	}
	there := func(file string) bool {
		_, err := os.Stat(filepath.Join(name, file))
		return err == nil
	}
	return there(release.ManifestFile) && (there(release.AuthoredFolder) || there(release.DraftFolder))
}

// releaseName says which release it is: "release 2026-06".
func releaseName(r *release.Release) string {
	name := "release"
	if r.Draft() {
		name = "draft release"
	}
	return strings.TrimSpace(name + " " + r.Manifest.Edition)
}

// readReleased reads the authored files of a release, by their names in it. One that is
// not as it was made is refused, in one sentence. The release is closed.
func readReleased(name string) (r *release.Release, authored map[string][]byte, err error) {
	if r, err = release.Open(name); err != nil {
		return nil, nil, err
	}
	defer r.Close()
	if err := r.Verify(); err != nil {
		why, rest, _ := strings.Cut(err.Error(), "\n")
		if rest != "" {
			why += fmt.Sprintf(", and %d more", 1+strings.Count(rest, "\n"))
		}
		return nil, nil, &rejectedError{fmt.Sprintf("%s is not as it was released, and is not used: %s; see snapgauge audit", name, why)}
	}
	folder := release.AuthoredIn(r.Manifest.State) + "/"
	authored = map[string][]byte{}
	for _, f := range r.Manifest.Files {
		if !strings.HasPrefix(f.Path, folder) {
			continue
		}
		if authored[f.Path], err = r.ReadFile(f.Path); err != nil {
			return nil, nil, fmt.Errorf("%s: %w", name, err)
		}
	}
	return r, authored, nil
}
