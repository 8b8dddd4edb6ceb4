package main

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"snapgauge/convert"
	"snapgauge/reference"
	"snapgauge/schema"
	"snapgauge/verify/joint"
)

type bandOptions struct {
	thread, class, kind, head, into, threads, seal string
	engagement, friction, insert                   string
	comma                                          bool
}

func newBand(s streams) *cobra.Command {
	var opt bandOptions
	cmd := &cobra.Command{
		Use:   "band THREAD",
		Short: "show what a thread will bear: the torques that can be right, and those that cannot",
		Long: `Band shows which torques go with a thread, by class, head, material, friction and
engagement: what is usual in print, what brings the screw to 0.9 of its yield and
to its yield, what strips the thread, and what no screw of that kind withstands.
What is left out widens the band; what that costs is shown.

It is a general band, no specification: it is there to find slips, not to tighten
by. A thread without its pitch may be any of its size, as check takes it; the
figures that tables print are given for the coarse one.`,
		Example: "  snapgauge band M8\n" +
			"  snapgauge band M10x1.25 --class 8.8 --head hex --friction 0.12\n" +
			"  snapgauge band M6 --class 8.8 --threads dry --into \"cast aluminium\" --engagement 12mm\n" +
			"  snapgauge band 1/4-20 --class \"SAE 5\" --threads oiled",
		Args: needs(1, -1, "a thread"),
		ValidArgsFunction: func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
			var out []string
			if len(args) == 0 {
				for _, t := range reference.Threads() {
					out = append(out, t.Designation)
				}
			}
			return out, cobra.ShellCompDirectiveNoFileComp
		},
	}
	kind := choose(cmd, "type", "what is turned", "screw", "stud", "nut")
	text := func(to *string, name, usage string, words []string) {
		cmd.Flags().StringVar(to, name, "", usage)
		complete(cmd, name, words)
	}
	text(&opt.class, "class", "property `class` or grade as stamped: 8.8, A2-70, SAE 5", classNames())
	text(&opt.head, "head", "`head`: "+strings.Join(schema.Vocabulary("head"), ", "), schema.Vocabulary("head"))
	text(&opt.threads, "threads", "`condition` of the threads: "+strings.Join(schema.Vocabulary("threads"), ", "), schema.Vocabulary("threads"))
	text(&opt.friction, "friction", "`coefficient` of friction in thread and under head: 0.12, 0.08 to 0.14", nil)
	text(&opt.into, "into", "`material` that is tapped: "+strings.Join(schema.Vocabulary("into"), ", "), schema.Vocabulary("into"))
	text(&opt.engagement, "engagement", "`length` of thread that holds: 12mm", nil)
	text(&opt.insert, "insert", "thread `insert` in the hole, by whatever name", nil)
	text(&opt.seal, "seal", "`seal` that is clamped: "+strings.Join(schema.Vocabulary("seal"), ", "), schema.Vocabulary("seal"))
	commaFlag(cmd, &opt.comma)
	cmd.RunE = func(_ *cobra.Command, args []string) error {
		opt.thread, opt.kind = strings.Join(args, " "), kind.value
		q, err := ask(opt)
		if err != nil {
			return err
		}
		if _, err := io.WriteString(s.out, q.text()); err != nil {
			return err
		}
		warn(s.err)
		return nil
	}
	return cmd
}

// question is what band was asked, and what is known of it.
type question struct {
	words             joint.Words
	facts             joint.Facts
	typed, engagement string // as they were typed
	// chart is the thread that tables print figures for: of a metric size without
	// pitch the coarse one. Its pitch is 0 where none is.
	chart reference.Thread
}

// ask reads the options. Whatever cannot be taken at its word is an error: a
// band for another screw than the one that was meant would be worse than none.
func ask(opt bandOptions) (question, error) {
	t, err := threadOf(opt.thread)
	if err != nil {
		return question{}, err
	}
	q := question{typed: opt.thread, engagement: opt.engagement, chart: t}
	q.words = joint.Words{
		Type: opt.kind, Thread: opt.thread, Class: opt.class, Head: opt.head, Threads: opt.threads,
		Into: opt.into, Seal: opt.seal, Insert: opt.insert,
	}
	if t.Family == reference.Unified && t.Pitch > 0 {
		q.words.Thread = t.Designation // 1/4 UNF has its pitch by its name
	}
	anyWord := func(string) bool { return false }
	lubricant := func(w string) bool { _, known := reference.UsualFriction(w); return known }
	material := func(w string) bool { _, _, known := reference.Tapped(w); return known }
	q.words.FrictionLo, q.words.FrictionHi, err = coefficientOf(opt.friction, decimalMark(opt.comma))
	q.words.EngagementMM, err = join(err)(lengthOf(opt.engagement, decimalMark(opt.comma)))
	if err := errors.Join(err, classProblem(opt.class, opt.kind, t),
		unknownWord("head", opt.head, anyWord), unknownWord("threads", opt.threads, lubricant),
		unknownWord("into", opt.into, material), unknownWord("seal", opt.seal, anyWord)); err != nil {
		return question{}, err
	}
	facts, ok := joint.Read(q.words)
	if !ok {
		return question{}, fmt.Errorf("nothing is known of the thread %q", opt.thread)
	}
	if opt.friction != "" && facts.MuLo == 0 {
		return question{}, fmt.Errorf("--friction: %s is not met with on threads", opt.friction)
	}
	q.facts = facts
	return q, nil
}

// join keeps an earlier error beside what comes of the next call.
func join(err error) func(joint.Span, error) (joint.Span, error) {
	return func(s joint.Span, e error) (joint.Span, error) { return s, errors.Join(err, e) }
}

func threadOf(text string) (reference.Thread, error) {
	t, p := reference.ParseThread(text)
	switch {
	case p != nil && len(p.Near) > 0 && !strings.Contains(p.Message, p.Near[0]):
		return t, fmt.Errorf("%s; did you mean %s?", p.Message, orList(p.Near))
	case p != nil:
		return t, p
	case t.Family == reference.OtherFamily:
		return t, fmt.Errorf("%s is neither a metric nor a unified thread, and what a screw bears is worked out for those only", t.Designation)
	case t.Family != reference.Metric && t.Family != reference.Unified:
		return t, fmt.Errorf("%s is a %s; what a screw bears is worked out for metric and unified threads only", text, t.Family)
	}
	return t, nil
}

// classProblem says why a class says nothing of the strength of a thread.
func classProblem(class, kind string, t reference.Thread) error {
	if class == "" {
		return nil
	}
	r := reference.ReadClass(class, t.D, t.Family == reference.Metric)
	message := r.Message
	switch {
	case r.Known && r.Exists && (r.Foreign || !r.SizeFits):
	case r.Known && r.Exists && !r.InTables && !r.Between:
		message = fmt.Sprintf("class %s is in none of the tables; without --class the band holds for every class", class)
	case r.Known && r.Exists:
		message = otherPart(class, kind, r)
		if message == "" {
			return nil
		}
	default:
		if !r.Known && message != "" {
			break // it names the class that was meant
		}
		if message == "" {
			message = fmt.Sprintf("no class is named %q", class)
		}
		near := r.Near
		if len(near) == 0 {
			near = schema.Meant(class, classNames())
		}
		if len(near) > 0 {
			message += "; did you mean " + orList(near) + "?"
		}
	}
	return errors.New(message)
}

// otherPart says that a property class is one of nuts where a screw is turned,
// or one of screws where a nut is; "" where it fits. Grades of inch and
// stainless fasteners are named alike for both.
func otherPart(class, kind string, r reference.ClassReading) string {
	for _, row := range r.Rows {
		if nut := row.Part == "nut"; nut == (kind == "nut") || !nut && row.Standard != "ISO 898-1" {
			return ""
		}
	}
	near := r.Near
	if kind == "nut" {
		for _, row := range r.Rows {
			if partner, _, ok := strings.Cut(row.Designation, "."); ok && slices.Contains(classNames(), partner) && !slices.Contains(near, partner) {
				near = append(near, partner)
			}
		}
	}
	of := map[bool]string{true: "screws", false: "nuts"}[kind == "nut"]
	message := fmt.Sprintf("class %s is one of %s", class, of)
	if len(near) > 0 {
		message += fmt.Sprintf("; on a %s %s is stamped", kind, orList(near))
	}
	return message
}

// classNames are the classes and grades of the tables, in their order.
func classNames() []string {
	var out []string
	for _, s := range reference.Strengths() {
		if !slices.Contains(out, s.Designation) {
			out = append(out, s.Designation)
		}
	}
	return out
}

// unknownWord says that a word is none of the format, and none that the tables
// know by another name.
func unknownWord(flag, word string, known func(string) bool) error {
	words := schema.Vocabulary(flag)
	if word == "" || slices.Contains(words, word) || strings.HasPrefix(word, "other:") || known(word) {
		return nil
	}
	var near []string
	for _, w := range schema.Meant(word, words) {
		near = append(near, strconv.Quote(w))
	}
	if len(near) > 0 {
		return fmt.Errorf("--%s: %q is not known; did you mean %s?", flag, word, orList(near))
	}
	return fmt.Errorf("--%s: %q is not known; there are %s", flag, word, strings.Join(words, ", "))
}

// coefficientOf reads a coefficient of friction or a span of it, at its word.
func coefficientOf(text string, mark convert.Mark) (lo, hi float64, err error) {
	if text == "" {
		return 0, 0, nil
	}
	q, p := convert.Parse(text, convert.Of(convert.Number), mark)
	if p != nil {
		return 0, 0, fmt.Errorf("--friction: %w", refusal(text, p))
	}
	if !q.Ordered() {
		return 0, 0, backward("friction", text)
	}
	if lo, hi = q.Bounds(); !(lo > 0 && hi <= 1) {
		return 0, 0, fmt.Errorf("--friction: %s: a coefficient of friction is above 0 and not above 1", text)
	}
	return lo, hi, nil
}

// lengthOf reads an engagement in mm, as widely as its digits allow: so the
// checks take it too.
func lengthOf(text string, mark convert.Mark) (joint.Span, error) {
	if text == "" {
		return joint.Span{}, nil
	}
	q, p := convert.Parse(text, convert.Of(convert.Length), mark)
	if p != nil {
		return joint.Span{}, fmt.Errorf("--engagement: %w", refusal(text, p))
	}
	if !q.Ordered() {
		return joint.Span{}, backward("engagement", text)
	}
	if lo, hi := q.Widened(); lo >= 0 && hi > 0 && hi < 10 {
		return joint.Span{Lo: lo * 1000, Hi: hi * 1000}, nil
	}
	return joint.Span{}, fmt.Errorf("--engagement: %s: write a length above 0, or from one to another", text)
}

func backward(flag, text string) error {
	return fmt.Errorf("--%s: %s: the range runs from the greater to the lesser; turn it round, or mend the figure that is wrong", flag, text)
}
