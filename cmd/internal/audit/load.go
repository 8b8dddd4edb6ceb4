package audit

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"hash/crc32"
	"io"
	"io/fs"
	"os"

	"snapgauge/specs/release"
)

// most is how many bytes are read of a release.
const most = release.MaxSize + release.MaxManifest

// loaded is a release as it lies there, with whatever is in it.
type loaded struct {
	raw      []byte // of a .zip
	readings []map[string][]byte
	faults   []Fault // of what is no file: links, empty folders
}

// load reads a release whole. A .zip is read in two ways, by its directory and
// by the headers before the files, for either may be damaged.
func load(name string) (*loaded, error) {
	info, err := os.Stat(name)
	if err != nil {
		return nil, err
	}
	if info.IsDir() {
		return loadFolder(name)
	}
	if !info.Mode().IsRegular() {
		return nil, errors.New("is neither a folder nor a file")
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	raw, err := io.ReadAll(io.LimitReader(f, most+1))
	if err != nil {
		return nil, err
	}
	if len(raw) > most {
		return nil, fmt.Errorf("a release is at most %d MiB", release.MaxSize>>20)
	}
	return &loaded{raw: raw, readings: []map[string][]byte{byDirectory(raw), byHeaders(raw)}}, nil
}

func loadFolder(name string) (*loaded, error) {
	root, err := os.OpenRoot(name)
	if err != nil {
		return nil, err
	}
	defer root.Close()
	l := &loaded{}
	files := map[string][]byte{}
	room := int64(most)
	filled := map[string]bool{}
	var folders []string
	err = fs.WalkDir(root.FS(), ".", func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir():
			folders = append(folders, name)
			return nil
		}
		for i := range name {
			if name[i] == '/' {
				filled[name[:i]] = true
			}
		}
		if !d.Type().IsRegular() {
			l.faults = append(l.faults, Fault{Part: name, Offset: -1, Message: "is a link or a device, and no part of the release"})
			return nil
		}
		if len(files) > release.MaxFiles+2 {
			return fmt.Errorf("a release has at most %d files", release.MaxFiles)
		}
		f, err := root.Open(name)
		if err != nil {
			return err
		}
		defer f.Close()
		b, err := io.ReadAll(io.LimitReader(f, room+1))
		if err != nil {
			return err
		}
		if room -= int64(len(b)); room < 0 {
			return fmt.Errorf("a release is at most %d MiB", release.MaxSize>>20)
		}
		files[name] = b
		return nil
	})
	if err != nil {
		return nil, err
	}
	for _, d := range folders {
		if d != "." && !filled[d] {
			l.faults = append(l.faults, Fault{Part: d + "/", Offset: -1, Message: "is an empty folder, and no part of the release"})
		}
	}
	l.readings = []map[string][]byte{files}
	return l, nil
}

// The sizes of the parts of a .zip, and how they begin.
const (
	localSize   = 30
	centralSize = 46
	endSize     = 22
	localMark   = "PK\x03\x04"
	centralMark = "PK\x01\x02"
)

// byDirectory reads a .zip by its directory, as far as that goes. It looks at no
// header.
func byDirectory(raw []byte) map[string][]byte {
	files := map[string][]byte{}
	le := binary.LittleEndian
	at := bytes.Index(raw, []byte(centralMark))
	if end := len(raw) - endSize; end >= 0 && string(raw[end:end+4]) == "PK\x05\x06" {
		if offset := int(le.Uint32(raw[end+16:])); offset < end && string(raw[offset:min(offset+4, len(raw))]) == centralMark {
			at = offset
		}
	}
	room := 2 * len(raw) // entries of a sound .zip share no bytes
	for at >= 0 && at+centralSize <= len(raw) && len(files) <= release.MaxFiles+2 {
		size, name, header := int(le.Uint32(raw[at+24:])), int(le.Uint16(raw[at+28:])), int(le.Uint32(raw[at+42:]))
		if string(raw[at:at+4]) != centralMark || at+centralSize+name > len(raw) {
			break
		}
		from := header + localSize + name
		text := string(raw[at+centralSize : at+centralSize+name])
		if room -= size; room < 0 {
			break
		}
		if from <= len(raw) && size <= len(raw)-from {
			files[text] = raw[from : from+size]
		}
		at += centralSize + name
	}
	return files
}

// byHeaders reads a .zip from its beginning, header after header. Where one is
// damaged it goes on at the next.
func byHeaders(raw []byte) map[string][]byte {
	files := map[string][]byte{}
	le := binary.LittleEndian
	room := 4 * len(raw) // what a CRC is taken of; no more, whatever the headers say
	for at := 0; at+localSize <= len(raw) && len(files) <= release.MaxFiles+2; {
		size, name := int(le.Uint32(raw[at+22:])), int(le.Uint16(raw[at+26:]))
		from := at + localSize + name
		whole := string(raw[at:at+4]) == localMark && from <= len(raw) && size <= len(raw)-from
		if whole && !beginsPart(raw[from+size:]) {
			room -= size
			whole = room >= 0 && crc32.ChecksumIEEE(raw[from:from+size]) == le.Uint32(raw[at+14:])
		}
		if whole {
			files[string(raw[at+localSize:from])] = raw[from : from+size]
			at = from + size
			continue
		}
		next := bytes.Index(raw[at+1:], []byte(localMark))
		if next < 0 {
			break
		}
		at += 1 + next
	}
	return files
}

func beginsPart(b []byte) bool {
	return len(b) >= 4 && (string(b[:4]) == localMark || string(b[:4]) == centralMark)
}
