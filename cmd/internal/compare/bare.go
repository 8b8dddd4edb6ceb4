//go:build unix

package main

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"

	"github.com/santhosh-tekuri/jsonschema/v5"
)

// bare judges the shape of a book with jsonschema/v5 alone, behind
// encoding/json, and prints how many records go.
func bare(file, schemas string) error {
	c := jsonschema.NewCompiler()
	c.Draft, c.AssertFormat = jsonschema.Draft2020, true
	names, err := filepath.Glob(filepath.Join(schemas, "*.json"))
	if err != nil {
		return err
	}
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			return err
		}
		var named struct {
			ID string `json:"$id"`
		}
		if err := json.Unmarshal(text, &named); err != nil {
			return err
		}
		if err := c.AddResource(named.ID, bytes.NewReader(text)); err != nil {
			return err
		}
	}
	line, err := c.Compile("urn:snapgauge:schema:1.0:line")
	if err != nil {
		return err
	}
	in, err := os.Open(file)
	if err != nil {
		return err
	}
	defer in.Close()
	good := 0
	lines := bufio.NewScanner(bufio.NewReaderSize(in, 1<<20))
	for lines.Scan() {
		dec := json.NewDecoder(bytes.NewReader(lines.Bytes()))
		dec.UseNumber()
		var record any
		if dec.Decode(&record) == nil && line.Validate(record) == nil {
			good++
		}
	}
	fmt.Println(good)
	return lines.Err()
}
