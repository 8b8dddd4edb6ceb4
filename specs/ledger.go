package specs

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"io"

	"snapgauge/schema"
)

// ReadLedger reads a ledger of countersigned records. A line that cannot be read
// is told and passed over: the others hold all the same. A last line that was
// never finished, because the program was ended while it wrote, counts for
// nothing. The error is the reader's.
func ReadLedger(name string, r io.Reader) (lines []schema.Countersign, bad []*Unreadable, err error) {
	in := lineReader{in: bufio.NewReaderSize(r, 64<<10)}
	for {
		line, err := in.next()
		if err == io.EOF {
			return lines, bad, nil
		}
		if err != nil {
			return lines, bad, err
		}
		t := &text{file: name, src: string(line), line: in.line}
		if len(bytes.TrimSpace(line)) == 0 && !in.long {
			continue
		}
		fault := t.checkWhole(in.long)
		if fault == nil {
			var c schema.Countersign
			if c, err = parseLedgerLine(line); err == nil {
				lines = append(lines, c)
				continue
			}
			if in.end-in.base == len(line) && unfinished(line) { // without its line feed
				continue
			}
			fault = t.at(0, len(t.src), err.Error())
		}
		bad = append(bad, fault)
	}
}

func parseLedgerLine(line []byte) (schema.Countersign, error) {
	var c schema.Countersign
	if err := json.Unmarshal(line, &c); err != nil {
		return c, fmt.Errorf("no line of a ledger: %v", err)
	}
	for _, must := range []struct{ name, value string }{
		{"id", c.ID}, {"fingerprint", c.Fingerprint}, {"by", c.By}, {"date", c.Date},
	} {
		if must.value == "" {
			return c, fmt.Errorf("a line of a ledger has id, fingerprint, by and date; %s is missing", must.name)
		}
	}
	return c, nil
}

// unfinished reports the beginning of a line as this package writes them.
func unfinished(line []byte) bool {
	const begins = `{"id":`
	return !json.Valid(line) && bytes.HasPrefix(line, []byte(begins[:min(len(line), len(begins))]))
}

// ledgerLine is a line as it is appended, its line feed included.
func ledgerLine(c schema.Countersign) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	err := e.Encode(c)
	return b.Bytes(), err
}
