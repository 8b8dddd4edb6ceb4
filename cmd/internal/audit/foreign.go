package audit

import (
	"archive/zip"
	"bytes"
	"errors"
	"io"
	"path"
	"slices"

	"snapgauge/specs/release"
)

var errForeign = errors.New("is a .zip that another program wrote, and not of the form that releases have; unpack it and audit the folder")

// foreign reports a .zip whose manifest or records can be read as those of any
// .zip are, and in none of the readings of ours: it is compressed, say, or was
// packed anew.
func foreign(raw []byte, readings []map[string][]byte) bool {
	z, err := zip.NewReader(bytes.NewReader(raw), int64(len(raw)))
	if err != nil {
		return false
	}
	for _, f := range z.File {
		base := path.Base(f.Name)
		if base != release.ManifestFile && base != release.RecordsFile {
			continue
		}
		content, ok := begin(f)
		if ok && looksReleased(map[string][]byte{base: content}) && !slices.ContainsFunc(readings, func(files map[string][]byte) bool {
			return bytes.HasPrefix(files[f.Name], content)
		}) {
			return true
		}
	}
	return false
}

// begin reads a file of a .zip, or what it begins with where that is long.
func begin(f *zip.File) ([]byte, bool) {
	r, err := f.Open()
	if err != nil {
		return nil, false
	}
	defer r.Close()
	b, err := io.ReadAll(io.LimitReader(r, release.MaxManifest))
	return b, err == nil
}
