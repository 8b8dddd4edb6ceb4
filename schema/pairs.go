package schema

import (
	"reflect"
	"strconv"
)

// Items of a list have no names. Two editions of a list are laid side by side so that
// an item that was put in does not make all behind it differ.

// mostCompared bounds the work of laying two lists side by side: beyond it their items
// are taken in order.
const mostCompared = 1 << 20

// pair finds for each item of the new list the item that it was, or -1.
func (d *differ) pair(was, now reflect.Value) []int {
	n, m := was.Len(), now.Len()
	pairs := make([]int, m)
	for j := range pairs {
		pairs[j] = -1
	}
	if n == 0 || m == 0 {
		return pairs
	}
	if n*m > mostCompared {
		for j := range min(n, m) {
			pairs[j] = j
		}
		return pairs
	}
	taken := make([]bool, n)
	a, b := d.forms(d.old, was), d.forms(d.now, now)
	for i, j := range common(a.whole, b.whole) {
		pairs[j], taken[i] = i, true
	}
	byName(a.name, b.name, pairs, taken)
	inOrder(a.act, b.act, pairs, taken)
	return pairs
}

// forms are the items of a list as texts: all of an item, what it is for, and its act.
type forms struct{ whole, name, act []string }

func (d *differ) forms(c canon, list reflect.Value) forms {
	f := forms{make([]string, list.Len()), make([]string, list.Len()), make([]string, list.Len())}
	for i := range list.Len() {
		f.whole[i] = c.form(list.Index(i))
		switch x := list.Index(i).Addr().Interface().(type) {
		case *Amount:
			f.name[i], f.act[i] = x.When, x.When // a dry fill is no refill
		case *Fastener:
			if f.name[i] = x.Key; x.Key == "" {
				f.name[i] = "thread " + x.Thread
			}
		case *LevelPoint:
			f.name[i] = c.form(valueOf(&x.At))
		case *LevelMark:
			f.name[i] = c.form(valueOf(&x.At))
		case *Row:
			f.name[i] = c.form(valueOf(&x.At))
		case *SelectRow:
			f.name[i] = fold(x.Part.Text())
		case *Step:
			f.act[i] = x.act()
		}
	}
	return f
}

// form is a value in its canonical form, as text; "" where there is none.
func (c canon) form(v reflect.Value) string {
	x, ok := c.value(v)
	if !ok {
		return ""
	}
	b, err := canonicalJSON(x)
	if err != nil {
		return ""
	}
	return string(b)
}

// act is the name of what a step does.
func (s *Step) act() string {
	for _, of := range []struct {
		name string
		is   bool
	}{
		{"to", !s.To.IsZero()}, {"turn", !s.Turn.IsZero()}, {"loosen", !s.Loosen.IsZero()},
		{"wait", !s.Wait.IsZero()}, {"run", s.Run != ""}, {"check", !s.Check.IsZero()},
	} {
		if of.is {
			return of.name
		}
	}
	return ""
}

// common is the longest common part of two lists: old places to new ones.
func common(a, b []string) map[int]int {
	n, m := len(a), len(b)
	length := make([][]int32, n+1)
	for i := range length {
		length[i] = make([]int32, m+1)
	}
	for i := n - 1; i >= 0; i-- {
		for j := m - 1; j >= 0; j-- {
			if a[i] == b[j] {
				length[i][j] = length[i+1][j+1] + 1
			} else {
				length[i][j] = max(length[i+1][j], length[i][j+1])
			}
		}
	}
	out := map[int]int{}
	for i, j := 0, 0; i < n && j < m; {
		switch {
		case a[i] == b[j]:
			out[i] = j
			i, j = i+1, j+1
		case length[i+1][j] >= length[i][j+1]:
			i++
		default:
			j++
		}
	}
	return out
}

// byName pairs what is left and is for the same, where that is for sure.
func byName(a, b []string, pairs []int, taken []bool) {
	old, now := map[string]int{}, map[string]int{}
	for i, name := range a {
		if !taken[i] {
			once(old, name, i)
		}
	}
	for j, name := range b {
		if pairs[j] < 0 {
			once(now, name, j)
		}
	}
	for name, j := range now {
		if i, ok := old[name]; ok && i >= 0 && j >= 0 && name != "" {
			pairs[j], taken[i] = i, true
		}
	}
}

// once notes a name, as -1 when it is met again.
func once(m map[string]int, name string, i int) {
	if _, again := m[name]; again {
		i = -1
	}
	m[name] = i
}

// inOrder pairs the rest between its neighbours, act with act.
func inOrder(a, b []string, pairs []int, taken []bool) {
	next := 0
	for j := range pairs {
		if pairs[j] >= 0 {
			next = max(next, pairs[j]+1)
			continue
		}
		end := len(a)
		for _, i := range pairs[j:] {
			if i >= next {
				end = i
				break
			}
		}
		for i := next; i < end; i++ {
			if !taken[i] && a[i] == b[j] {
				pairs[j], taken[i] = i, true
				next = i + 1
				break
			}
		}
	}
}

// String makes a sameness readable in tests and messages.
func (s Sameness) String() string {
	switch s {
	case Same:
		return "same"
	case Restated:
		return "restated"
	case Moved:
		return "moved"
	case Unclear:
		return "unclear"
	}
	return "sameness " + strconv.Itoa(int(s))
}
