package slip

import (
	"slices"
	"strings"
	"sync"

	"snapgauge/reference"
	"snapgauge/schema"
)

// otherThreads are the threads that a thread is taken for: the same size with
// another pitch, and the sizes beside it with their coarse pitch.
func otherThreads(text string) []string {
	if x, ok := threadsBeside.Load(text); ok {
		return x.([]string)
	}
	out := threadsBesideOf(text)
	if len(text) < 40 {
		threadsBeside.Store(text, out)
	}
	return out
}

var threadsBeside sync.Map

func threadsBesideOf(text string) []string {
	t, problem := reference.ParseThread(text)
	if problem != nil || t.D <= 0 || t.Family != reference.Metric && t.Family != reference.Unified {
		return nil
	}
	var out []string
	add := func(x reference.Thread) {
		if x.Designation != "" && x.Designation != t.Designation && !slices.Contains(out, x.Designation) {
			out = append(out, x.Designation)
		}
	}
	for _, x := range reference.ThreadsOfSize(t) {
		if t.PitchGiven {
			add(x)
		}
	}
	var below, above reference.Thread
	for _, x := range reference.Threads() {
		if x.Family != t.Family || !coarse(x) {
			continue
		}
		if x.D < t.D-0.01 && x.D > below.D {
			below = x
		}
		if x.D > t.D+0.01 && (above.D == 0 || x.D < above.D) {
			above = x
		}
	}
	add(below)
	add(above)
	return out
}

// coarse reports the thread of its size with the greatest pitch.
func coarse(t reference.Thread) bool {
	for _, x := range reference.ThreadsOfSize(t) {
		if x.Pitch > t.Pitch {
			return false
		}
	}
	return true
}

// The classes that are taken for each other, as they are stamped or named.
var classFamilies = [][]string{
	{"4.6", "4.8", "5.6", "5.8", "6.8", "8.8", "9.8", "10.9", "12.9"},
	{"A2-50", "A2-70", "A2-80", "A4-50", "A4-70", "A4-80"},
	{"5", "6", "8", "10", "12"},
	{"SAE 1", "SAE 2", "SAE 5", "SAE 8"},
}

// How often a class is met in manuals beside the common ones. Judgement, no source.
const seldomMet = 0.2

func met(class string) float64 {
	switch class {
	case "4.6", "4.8", "5.6", "5.8", "6.8", "9.8", "A2-50", "A4-50", "5", "6", "SAE 1":
		return seldomMet
	}
	return 1
}

func otherClasses(text string) []string {
	for _, family := range classFamilies {
		if slices.Contains(family, strings.TrimSpace(text)) {
			return slices.DeleteFunc(slices.Clone(family), func(s string) bool { return s == strings.TrimSpace(text) })
		}
	}
	return nil
}

// fastenerTexts adds another text for the thread or the class of a fastener
// that a torque belongs to.
func (u *undoing) fastenerTexts(field string, others func(*schema.Fastener) []string) {
	if step, _ := u.path.Step(0); step != "tighten" || u.i > 0 {
		return
	}
	for i := range u.b.Record.Fasteners.Items {
		at := u.b.Record.Fasteners.At(i).Field(field)
		texts := others(&u.b.Record.Fasteners.Items[i])
		all := 0.0
		for _, s := range texts {
			all += met(s)
		}
		for _, s := range texts {
			u.out = append(u.out, Candidate{
				Kind: u.kind, Path: at, Edits: []Edit{{at, -1, s}}, Reads: s, share: met(s) / all,
			})
		}
	}
}

func undoThread(u *undoing) {
	u.fastenerTexts("thread", func(f *schema.Fastener) []string { return otherThreads(f.Thread) })
}

func undoClass(u *undoing) {
	u.fastenerTexts("class", func(f *schema.Fastener) []string { return otherClasses(f.Class) })
}

// Texts takes back single slips of a thread or class that is in no table or does
// not fit its screw: the texts of the tables that are one digit or one exchange of
// neighbours away, and the classes that are taken for it; at most three, and why.
// Plausible and last are asked with the text in its place, as in [Bench.Undo].
func (b *Bench) Texts(at schema.Path, plausible Plausible, last func(*Candidate) float64) []Restored {
	t := b.text(at)
	if t == nil {
		return nil
	}
	var out []Restored
	all := oneSlipFrom(*t)
	wrong, _ := KindOf("class-wrong")
	others := otherClasses(*t)
	for _, s := range others {
		if !slices.ContainsFunc(all, func(x textSlip) bool { return x.text == s }) {
			all = append(all, textSlip{wrong, s, 1 / float64(len(others))})
		}
	}
	for _, x := range all {
		c := Candidate{Kind: x.kind, Path: at, Edits: []Edit{{at, -1, x.text}}, Reads: x.text, share: x.share}
		b.Set(c.Edits)
		share, why := plausible(&c)
		queried := false
		if share > 0 && last != nil {
			clean := last(&c)
			share, queried = share*clean, clean < 1
		}
		b.Reset()
		prior, _ := c.Kind.Prior()
		if share > 0 {
			out = append(out, Restored{Candidate: c, Score: rounded(prior * c.share * met(x.text) * share), Because: join("is in the tables", why), queried: queried})
		}
	}
	slices.SortFunc(out, rank)
	return out[:min(len(out), most)]
}

type textSlip struct {
	kind  *Kind
	text  string
	share float64
}

// oneSlipFrom lists threads and classes that one slip turns into a text.
func oneSlipFrom(text string) []textSlip {
	text = strings.TrimSpace(text)
	var out []textSlip
	add := func(known string) {
		if slices.ContainsFunc(out, func(x textSlip) bool { return x.text == known }) {
			return
		}
		for _, id := range []string{"digits-transposed", "digit-wrong", "digit-lost", "digit-doubled"} {
			k, _ := KindOf(id)
			switch id {
			case "digits-transposed":
				if slices.Contains(transposed(text), known) {
					out = append(out, textSlip{k, known, 1})
					return
				}
			case "digit-wrong":
				for _, v := range mistyped(text) {
					if v.text == known {
						out = append(out, textSlip{k, known, v.share})
						return
					}
				}
			case "digit-lost":
				if slices.Contains(longer(text, false), known) {
					out = append(out, textSlip{k, known, 0.1})
					return
				}
			case "digit-doubled":
				if slices.Contains(shorter(text, true), known) {
					out = append(out, textSlip{k, known, 1})
					return
				}
			}
		}
	}
	for _, t := range reference.Threads() {
		// 7/16-14 UNC is mostly written without its series.
		stem, _, _ := strings.Cut(t.Designation, " ")
		add(t.Designation)
		add(stem)
	}
	for _, family := range classFamilies {
		for _, c := range family {
			add(c)
		}
	}
	return out
}
