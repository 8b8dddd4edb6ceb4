package release

import (
	"encoding/binary"
	"errors"
	"fmt"
	"hash/crc32"
	"io"
	"slices"
	"strings"
)

// A release as a .zip has one form, so that the same files are the same bytes:
// files in the order of their names, stored and not compressed (what a
// compressor makes of a file changes with its version), the date 1980-01-01, the
// mode 0644, nothing between, before or behind. (APPNOTE.TXT 6.3.10 of the ZIP
// file format, sections 4.3.7, 4.3.12 and 4.3.16.)

const (
	localSize   = 30
	centralSize = 46
	endSize     = 22
)

// zipEntry is one file of an archive.
type zipEntry struct {
	name   string
	crc    uint32
	size   uint32
	header int64 // offset of its local header
}

func (e *zipEntry) data() int64 { return e.header + localSize + int64(len(e.name)) }
func (e *zipEntry) end() int64  { return e.data() + int64(e.size) }

// fields are what the local header and the entry of the directory share.
func (e *zipEntry) fields(b []byte) []byte {
	le := binary.LittleEndian
	b = le.AppendUint16(b, 20)     // version needed
	b = le.AppendUint16(b, 0x0800) // names are UTF-8
	b = le.AppendUint16(b, 0)      // stored
	b = le.AppendUint16(b, 0)      // 00:00:00
	b = le.AppendUint16(b, 0x0021) // 1980-01-01
	b = le.AppendUint32(b, e.crc)
	b = le.AppendUint32(b, e.size)
	b = le.AppendUint32(b, e.size)
	b = le.AppendUint16(b, uint16(len(e.name)))
	return le.AppendUint16(b, 0) // no extra field
}

func (e *zipEntry) local() []byte {
	b := e.fields([]byte("PK\x03\x04"))
	return append(b, e.name...)
}

func (e *zipEntry) central() []byte {
	le := binary.LittleEndian
	b := []byte("PK\x01\x02")
	b = le.AppendUint16(b, 3<<8|20) // made on Unix, so that the mode counts
	b = e.fields(b)
	b = append(b, make([]byte, 6)...)        // no comment, disk 0, internal attributes 0
	b = le.AppendUint32(b, 0o100644<<16)     // a regular file
	b = le.AppendUint32(b, uint32(e.header)) // at most MaxSize
	return append(b, e.name...)
}

func zipEnd(entries int, size, offset int64) []byte {
	le := binary.LittleEndian
	b := append([]byte("PK\x05\x06"), make([]byte, 4)...)
	b = le.AppendUint16(b, uint16(entries))
	b = le.AppendUint16(b, uint16(entries))
	b = le.AppendUint32(b, uint32(size))
	b = le.AppendUint32(b, uint32(offset))
	return le.AppendUint16(b, 0)
}

// Stretch is a part of an archive: a header, the bytes of a file, the directory.
type Stretch struct {
	From, To int64
	What     string // "the bytes of records.json", "the directory, at records.json"
	File     string // where they are the bytes of a file
	Of       string // the file that a header or an entry of the directory is about
}

// Zip writes files, by name, as the one .zip that they make. It tells as well
// what stands where.
func Zip(w io.Writer, files map[string][]byte) ([]Stretch, error) {
	names := make([]string, 0, len(files))
	for name := range files {
		names = append(names, name)
	}
	slices.Sort(names)
	if len(names) > MaxFiles+2 {
		return nil, fmt.Errorf("%d files are too many for a release; at most %d", len(names), MaxFiles)
	}
	var at int64
	var stretches []Stretch
	write := func(b []byte, what, file, of string) error {
		if len(b) == 0 {
			return nil
		}
		stretches = append(stretches, Stretch{From: at, To: at + int64(len(b)), What: what, File: file, Of: of})
		at += int64(len(b))
		_, err := w.Write(b)
		return err
	}
	var directory [][]byte
	for _, name := range names {
		content := files[name]
		if at+int64(len(content)) > MaxSize {
			return nil, fmt.Errorf("a release is at most %d MiB", MaxSize>>20)
		}
		e := zipEntry{name: name, crc: crc32.ChecksumIEEE(content), size: uint32(len(content)), header: at}
		directory = append(directory, e.central())
		if err := errors.Join(write(e.local(), "the header of "+name, "", name), write(content, "the bytes of "+name, name, "")); err != nil {
			return nil, err
		}
	}
	start := at
	for i, entry := range directory {
		if err := write(entry, "the directory of the .zip, at "+names[i], "", names[i]); err != nil {
			return nil, err
		}
	}
	return stretches, write(zipEnd(len(names), at-start, start), "the end of the .zip", "", "")
}

var errNotOurs = errors.New("the .zip is not of the form that releases have: something in it was changed, or another program wrote it")

// readZip reads the directory of an archive. Whatever differs from the one form
// is refused: compressed or doubled entries, links, comments, gaps.
func readZip(r io.ReaderAt, size int64) ([]zipEntry, error) {
	if size > MaxSize+MaxManifest || size < endSize {
		return nil, fmt.Errorf("a release is at most %d MiB and at least %d bytes", MaxSize>>20, endSize)
	}
	end := make([]byte, endSize)
	if _, err := r.ReadAt(end, size-endSize); err != nil {
		return nil, err
	}
	le := binary.LittleEndian
	count, length, offset := int(le.Uint16(end[10:])), int64(le.Uint32(end[12:])), int64(le.Uint32(end[16:]))
	if count > MaxFiles+2 || offset+length+endSize != size || string(end) != string(zipEnd(count, length, offset)) {
		return nil, errNotOurs
	}
	directory := make([]byte, length)
	if _, err := r.ReadAt(directory, offset); err != nil {
		return nil, err
	}
	entries := make([]zipEntry, 0, count)
	at, before := int64(0), ""
	for len(directory) > 0 {
		e, rest, ok := centralEntry(directory)
		if !ok || e.header != at || e.name <= before || string(directory[:len(directory)-len(rest)]) != string(e.central()) {
			return nil, errNotOurs
		}
		if err := CheckName(e.name); err != nil {
			return nil, err
		}
		header := make([]byte, localSize+len(e.name))
		if _, err := r.ReadAt(header, at); err != nil || string(header) != string(e.local()) {
			return nil, errNotOurs
		}
		if at = e.end(); at > offset {
			return nil, errNotOurs
		}
		entries = append(entries, e)
		directory, before = rest, e.name
	}
	if len(entries) != count || at != offset {
		return nil, errNotOurs
	}
	return entries, nil
}

// centralEntry reads the first entry of a directory.
func centralEntry(b []byte) (e zipEntry, rest []byte, ok bool) {
	if len(b) < centralSize || !strings.HasPrefix(string(b[:4]), "PK\x01\x02") {
		return e, nil, false
	}
	le := binary.LittleEndian
	name := int(le.Uint16(b[28:]))
	if len(b) < centralSize+name {
		return e, nil, false
	}
	e = zipEntry{name: string(b[centralSize : centralSize+name]), crc: le.Uint32(b[16:]), size: le.Uint32(b[24:]), header: int64(le.Uint32(b[42:]))}
	return e, b[centralSize+name:], true
}
