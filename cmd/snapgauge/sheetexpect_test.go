package main

import (
	"bytes"
	"fmt"
	"math"
	"os/exec"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"snapgauge/schema"
)

// textOfPages is the text of each page of a PDF; nil where it cannot be read here.
func textOfPages(t *testing.T, pdf []byte) []string {
	t.Helper()
	tool, err := exec.LookPath("pdftotext")
	if err != nil {
		return nil
	}
	cmd := exec.Command(tool, "-enc", "UTF-8", "-", "-")
	cmd.Stdin = bytes.NewReader(pdf)
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("pdftotext: %v", err)
	}
	pages := strings.Split(strings.TrimSuffix(string(out), "\f"), "\f")
	for i := range pages {
		pages[i] = oneLine(pages[i])
	}
	return pages
}

func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }

// expectTorques wants every torque of the records that apply, as printed, beside its
// record, and no other.
func expectTorques(t *testing.T, s onPaper, rows []string) {
	t.Helper()
	applies, _ := recordsFor(t, s)
	var want []string
	for _, r := range applies {
		for _, text := range torquesOf(r) {
			want = append(want, r.ID+": "+text)
		}
	}
	slices.Sort(want)
	got := slices.Sorted(slices.Values(rows))
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("torques on the page (-want +got):\n%s", diff)
	}
}

// expectRecords wants every record that applies on the paper, with every torque as
// printed on the page that bears its name unless it is taller than a page, and none of
// another.
func expectRecords(t *testing.T, s onPaper, p paper, pages []string) {
	t.Helper()
	all := strings.Join(pages, " ")
	applies, others := recordsFor(t, s)
	for _, r := range applies {
		within := all
		if !strings.HasSuffix(r.ID, "taller-than-a-page") {
			at := slices.IndexFunc(pages, func(text string) bool { return strings.Contains(text, r.ID+" · ") })
			if at < 0 {
				t.Errorf("%s: %s is not on the paper", p.name, r.ID)
				continue
			}
			within = pages[at]
		}
		for _, text := range torquesOf(r) {
			if !strings.Contains(within, oneLine(text)) {
				t.Errorf("%s: %s of %s is not on the page with the rest of it", p.name, text, r.ID)
			}
		}
		if s.name == "monstrous" {
			continue // its words are cut into lines
		}
		for _, word := range strings.Fields(r.Where) {
			if !strings.Contains(within, word) {
				t.Errorf("%s: %q of %s is not on the page with the rest of it", p.name, word, r.ID)
			}
		}
	}
	for _, r := range others {
		if strings.Contains(all, " "+r.ID+" · ") {
			t.Errorf("%s: %s is on the paper and does not apply", p.name, r.ID)
		}
	}
}

// torquesOf are all torques of a record as printed, and what is to be used in the
// place of one that is a misprint.
func torquesOf(r *schema.Record) []string {
	var out []string
	for i := range r.Tighten {
		for _, f := range []*schema.Figure{&r.Tighten[i].To, &r.Tighten[i].Check} {
			for j := range f.Values {
				out = append(out, f.Values[j].Text)
			}
			if f.Misprint {
				out = append(out, r.Misprint.Use.Text())
			}
		}
	}
	return out
}

// recordsFor sorts the records of a book into those that apply to the facts and are
// not superseded by one that does, and the others.
func recordsFor(t *testing.T, s onPaper) (applies, others []*schema.Record) {
	t.Helper()
	facts := map[string]string{}
	name := ""
	for _, word := range strings.Fields(s.facts) {
		if n, value, ok := strings.Cut(word, "="); ok {
			name, facts[n] = n, value
		} else {
			facts[name] += " " + word
		}
	}
	gone := map[string]bool{}
	f := &files{stdin: strings.NewReader(""), as: "auto"}
	for e, err := range f.entries(s.paths) {
		if err != nil {
			t.Fatal(err)
		}
		if e.HeadOnly || len(s.more) == 2 && s.more[0] == "--machine" && e.Head.Machine.ID != s.more[1] {
			continue
		}
		fits := len(e.Record.Applies) == 0
		for _, b := range e.Record.Applies {
			fits = fits || boxFits(t, e.Head, b, facts)
		}
		if fits && len(s.more) == 2 && s.more[0] == "--item" {
			fits = e.Record.ID == s.more[1]
		}
		if fits {
			applies = append(applies, e.Record)
			gone[e.Record.Supersedes] = true
		} else {
			others = append(others, e.Record)
		}
	}
	applies = slices.DeleteFunc(applies, func(r *schema.Record) bool {
		if gone[r.ID] {
			others = append(others, r)
		}
		return gone[r.ID]
	})
	return applies, others
}

func boxFits(t *testing.T, h *schema.Head, b schema.Box, facts map[string]string) bool {
	t.Helper()
	if len(b.Variants) > 0 && !slices.Contains(b.Variants, facts["variant"]) {
		return false
	}
	for _, r := range b.Serials {
		form, _ := h.SerialForm(r.Name)
		is := schema.ParseSerialRange(r.Name, facts[r.Name], form)
		if is.Bad != "" {
			t.Fatal(is.Bad)
		}
		if r.HasFrom && is.From < r.From || r.HasTo && is.From > r.To {
			return false
		}
	}
	return true
}

// expectPages wants every page numbered and used, and no more of them than the height
// of the sheet needs with records that are not torn.
func expectPages(t *testing.T, p paper, pages []string, height float64) {
	t.Helper()
	for i, text := range pages {
		if number := fmt.Sprintf("page %d of %d", i+1, len(pages)); !strings.Contains(text, number) {
			t.Errorf("%s: %q is not on page %d", p.name, number, i+1)
		}
		if !strings.Contains(text, "DRAFT") {
			t.Errorf("%s: page %d does not say that it is a draft", p.name, i+1)
		}
		if len(text) < 600 {
			t.Errorf("%s: page %d is nearly empty: %s", p.name, i+1, text)
		}
	}
	if !strings.Contains(pages[len(pages)-1], "End of the sheet: ") {
		t.Errorf("%s: the last page does not end the sheet", p.name)
	}
	room := (p.height - marginTop - marginFoot) / 25.4 * 96
	if least := height / room; float64(len(pages)) > math.Ceil(least*1.25)+1 {
		t.Errorf("%s: %d pages for what fills %.1f", p.name, len(pages), least)
	}
}
