package schema_test

import (
	"fmt"

	"snapgauge/schema"
)

// A reader hands over trees of nodes; here one is made by hand.
func ExampleDecodeRecord() {
	text := func(s string) *schema.Node { return &schema.Node{Kind: schema.TextNode, Text: s, Plain: true} }
	mapping := func(pairs ...any) *schema.Node {
		n := &schema.Node{Kind: schema.MapNode}
		for i := 0; i < len(pairs); i += 2 {
			n.Keys = append(n.Keys, text(pairs[i].(string)))
			switch v := pairs[i+1].(type) {
			case string:
				n.Items = append(n.Items, text(v))
			case *schema.Node:
				n.Items = append(n.Items, v)
			}
		}
		return n
	}
	record, problems := schema.DecodeRecord(mapping(
		"id", "breather-bracket-screw",
		"kind", "torque",
		"where", "breather pipe bracket to gearcase",
		"fastener", mapping("type", "bolt", "count", "2"),
		"tighten", &schema.Node{Kind: schema.ListNode, Items: []*schema.Node{
			mapping("to", "9 ±1 N·m", "tolerence", "±10 %"),
		}},
		"source", mapping("ref", "manual", "at", "page 4-15"),
	), nil)

	for path, figure := range record.Figures() {
		q, _ := figure.Quantity()
		fmt.Println(path, "is", q)
	}
	for _, p := range problems {
		fmt.Println(p.At.Path, p.Message)
	}
	// Output:
	// /tighten/0/to is 9 ±1 N·m
	// /fastener/type no fastener type "bolt"; did you mean "screw"?
	// /tighten/0/tolerence unknown field "tolerence" in tighten; did you mean "tolerance"?
}

// Which of two records holds for the machine in hand, and what else must be
// known of it?
func ExamplePick() {
	head := &schema.Head{Variants: []string{"A", "B"}, Serials: []schema.Serial{{Name: "gear", Form: "number"}}}
	early := []schema.Box{{Variants: []string{"A"}, Serials: []schema.SerialRange{schema.ParseSerialRange("gear", "to 1199", "number")}}}
	late := []schema.Box{{Serials: []schema.SerialRange{schema.ParseSerialRange("gear", "from 1200", "number")}}}

	for _, texts := range [][]string{nil, {"variant=B"}, {"gear=1250"}} {
		facts, err := schema.ParseFacts(head, nil, texts)
		if err != nil {
			fmt.Println(err)
			continue
		}
		c := schema.Pick(head, [][]schema.Box{early, late}, facts)
		fmt.Printf("%v: sure %v, may %v, ask %q\n", texts, c.Sure, c.May, c.Ask)
	}
	fmt.Println("neither:", schema.Uncovered(head, append(early, late...)))
	// Output:
	// []: sure [], may [0 1], ask "variant"
	// [variant=B]: sure [], may [1], ask "gear"
	// [gear=1250]: sure [1], may [], ask ""
	// neither: [variant B, gear to 1199]
}
