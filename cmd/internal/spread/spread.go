// Package spread gives jobs to several goroutines and takes what comes of them in
// the order of the jobs.
package spread

import (
	"context"
	"iter"
)

// ahead is how many results of one job may wait to be taken.
const ahead = 2

// InOrder has several workers do jobs and calls take, on the caller's goroutine,
// with what they emit, in the order of the jobs, until take returns false or the
// context ends. Start is called once for each worker and returns what it does
// with a job; where emit returns false the job is over. Jobs are asked for on a
// goroutine of their own, and only a few ahead of what was taken.
//
// When all is taken no goroutine is left. After an early end one that waits for
// its input ends with that.
func InOrder[J, R any](ctx context.Context, workers int, jobs iter.Seq[J], start func() func(job J, emit func(R) bool), take func(R) bool) {
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	type order struct {
		job J
		out chan R // closed when the job is done
	}
	orders := make(chan order)
	results := make(chan chan R, workers)
	go func() {
		defer close(results)
		defer close(orders)
		for job := range jobs {
			out := make(chan R, ahead)
			select {
			case results <- out:
			case <-ctx.Done():
				return
			}
			select {
			case orders <- order{job, out}:
			case <-ctx.Done():
				return
			}
		}
	}()
	for range workers {
		do := start()
		go func() {
			for o := range orders {
				do(o.job, func(r R) bool {
					select {
					case o.out <- r:
						return true
					case <-ctx.Done():
						return false
					}
				})
				close(o.out)
			}
		}()
	}
	for {
		out, ok := next(ctx, results)
		if !ok {
			return
		}
		for r, ok := next(ctx, out); ok; r, ok = next(ctx, out) {
			if !take(r) {
				return
			}
		}
	}
}

// next receives, until the channel is closed or the context ends.
func next[T any](ctx context.Context, from <-chan T) (v T, ok bool) {
	select {
	case v, ok = <-from:
		return v, ok && ctx.Err() == nil
	case <-ctx.Done():
		return v, false
	}
}
