package spread

import (
	"context"
	"math/rand/v2"
	"runtime"
	"slices"
	"sync/atomic"
	"testing"
	"time"
)

func numbers(n int) func(func(int) bool) {
	return func(yield func(int) bool) {
		for i := range n {
			if !yield(i) {
				return
			}
		}
	}
}

// thrice emits a job three times, after a while.
func thrice() func(int, func(int) bool) {
	return func(job int, emit func(int) bool) {
		for range rand.IntN(20) {
			runtime.Gosched()
		}
		for range 3 {
			if !emit(job) {
				return
			}
		}
	}
}

// However many workers, what they emit comes in the order of the jobs.
func TestInOrder(t *testing.T) {
	var want []int
	for i := range 500 {
		want = append(want, i, i, i)
	}
	for _, workers := range []int{1, 2, 8} {
		var got []int
		InOrder(t.Context(), workers, numbers(500), thrice, func(r int) bool {
			got = append(got, r)
			return true
		})
		if !slices.Equal(got, want) {
			t.Errorf("%d workers: %v", workers, got)
		}
	}
}

// Jobs are asked for only as results are taken.
func TestBounded(t *testing.T) {
	const workers = 4
	var asked atomic.Int64
	taken := int64(0)
	jobs := func(yield func(int) bool) {
		for i := 0; i < 300 && yield(i); i++ {
			asked.Add(1)
		}
	}
	one := func() func(int, func(int) bool) { return func(job int, emit func(int) bool) { emit(job) } }
	InOrder(t.Context(), workers, jobs, one, func(int) bool {
		taken++
		if n := asked.Load() - taken; n > 2*workers+2 {
			t.Errorf("%d jobs were asked for beyond those taken", n)
			return false
		}
		return true
	})
}

// Nothing more comes after take said no, nor after the context has ended, even
// where the next job is waited for.
func TestEnd(t *testing.T) {
	before := runtime.NumGoroutine()
	for _, canceled := range []bool{false, true} {
		ctx, cancel := context.WithCancel(t.Context())
		wait := make(chan struct{})
		jobs := func(yield func(int) bool) {
			for i := 0; i < 10 && yield(i); i++ {
			}
			<-wait
		}
		n := 0
		InOrder(ctx, 2, jobs, thrice, func(int) bool {
			n++
			if n == 4 && canceled {
				cancel()
			}
			return n < 4 || canceled
		})
		if n != 4 {
			t.Errorf("%d results were taken, want 4", n)
		}
		close(wait)
		cancel()
	}
	for range 100 {
		if runtime.NumGoroutine() <= before {
			return
		}
		time.Sleep(10 * time.Millisecond)
	}
	t.Errorf("%d goroutines before, %d after", before, runtime.NumGoroutine())
}
