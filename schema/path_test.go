package schema

import (
	"slices"
	"testing"
)

func TestPath(t *testing.T) {
	p := At("tighten", 0, "to", 1)
	if got, want := p.String(), "/tighten/0/to/1"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	if got := (Path{}).String(); got != "" {
		t.Errorf("the record: got %q", got)
	}
	// RFC 6901 section 3: ~ is ~0 and / is ~1.
	if got, want := At("a/b~c").String(), "/a~1b~0c"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	if p.Parent() != At("tighten", 0, "to") || (Path{}).Parent() != (Path{}) {
		t.Error("parent")
	}
	if !p.Parent().Has(p) || !p.Has(p) || p.Has(p.Parent()) || At("tighten", 1).Has(p) || !(Path{}).Has(p) {
		t.Error("has")
	}
	deep := Path{}
	for range 20 {
		deep = deep.Field("x").Index(1)
	}
	if deep.Len() != maxSteps {
		t.Errorf("a path grows to %d steps", deep.Len())
	}
	if name, index := p.Step(1); name != "" || index != 0 {
		t.Errorf("step 1: got %q, %d", name, index)
	}
}

func TestComparePaths(t *testing.T) {
	sorted := []Path{{}, At("a"), At("a", 0), At("a", 2), At("a", 10), At("a", 10, "b"), At("b")}
	shuffled := slices.Clone(sorted)
	slices.Reverse(shuffled)
	slices.SortFunc(shuffled, comparePaths)
	if !slices.Equal(sorted, shuffled) {
		t.Errorf("got %v", shuffled)
	}
}

func TestFollow(t *testing.T) {
	n := mustNode(t, `{"tighten": [{"to": ["71 lbf·in", "8 N·m"]}]}`, false)
	tests := []struct {
		path  Path
		key   bool
		text  string
		kind  NodeKind
		whole bool
	}{
		{At("tighten", 0, "to", 1), false, "8 N·m", TextNode, true},
		{At("tighten", 0, "to"), true, "to", TextNode, true},
		{At("tighten", 0, "to"), false, "", ListNode, true},
		{At("tighten", 1), false, "", ListNode, false},
		{At("tighten", 0, "turn"), false, "", MapNode, false},
		{At("tighten", 0, "to", 1, "x"), false, "8 N·m", TextNode, false},
		{Path{}, true, "", MapNode, true},
	}
	for _, tt := range tests {
		at, whole := n.Follow(tt.path, tt.key)
		if at.Text != tt.text || at.Kind != tt.kind || whole != tt.whole {
			t.Errorf("%s: got %q (%d), %v", tt.path, at.Text, at.Kind, whole)
		}
	}
	if v, k := (*Node)(nil).Member("x"); v != nil || k != nil {
		t.Error("nothing has a member")
	}
}

func TestPosition(t *testing.T) {
	if got := (Position{}).String() + " " + (Position{3, 14}).String(); got != "- 3:14" {
		t.Errorf("got %s", got)
	}
	if !(Span{}).IsZero() || (Span{End: Position{1, 1}}).IsZero() {
		t.Error("zero span")
	}
}

func TestLook(t *testing.T) {
	h := &Head{Sources: []NamedSource{{"manual", Document{Title: "Wrackline 40 workshop manual"}}}, Entered: Entered{By: "RM"}}
	tests := []struct {
		head   *Head
		source Source
		title  string
		ok     bool
	}{
		{h, Source{Ref: "manual"}, "Wrackline 40 workshop manual", true},
		{h, Source{Ref: "bulletin"}, "", false},
		{h, Source{Document: Document{Title: "A leaflet"}}, "A leaflet", true},
		{nil, Source{Document: Document{Title: "A leaflet"}}, "A leaflet", true},
		{nil, Source{Ref: "manual"}, "", false},
		{h, Source{}, "", false},
	}
	for _, tt := range tests {
		if d, ok := tt.head.SourceOf(tt.source); d.Title != tt.title || ok != tt.ok {
			t.Errorf("%+v: got %q, %v", tt.source, d.Title, ok)
		}
	}
	r := &Record{ID: "a"}
	if r.ItemName() != "a" || r.EnteredBy(h).By != "RM" || r.EnteredBy(nil).By != "" {
		t.Error("what the record does not say")
	}
	r.Item, r.Entered.By = "b", "JK"
	if r.ItemName() != "b" || r.EnteredBy(h).By != "JK" {
		t.Error("what the record says")
	}
}
