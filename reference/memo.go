package reference

import (
	"sync"
	"sync/atomic"
)

// memo remembers what was worked out before, up to a bound: a book names the
// same few threads, classes and heads over and over. It is safe for use by
// several goroutines.
type memo[K comparable, V any] struct {
	m sync.Map
	n atomic.Int32
}

const memoMost = 1000

func (c *memo[K, V]) get(k K) (v V, ok bool) {
	x, ok := c.m.Load(k)
	if ok {
		v = x.(V)
	}
	return v, ok
}

func (c *memo[K, V]) put(k K, v V) {
	if c.n.Load() < memoMost {
		c.n.Add(1)
		c.m.Store(k, v)
	}
}
