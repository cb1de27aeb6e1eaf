package main

import (
	"context"
	"sync"
)

// inOrder runs work over all names on several goroutines and hands the results
// to use one at a time, in the order of names. At most a few results wait for
// their turn, so that memory does not grow with the number of names. The first
// error ends everything.
func inOrder[R any](ctx context.Context, workers int, names []string, work func(string) (R, error), use func(string, R) error) error {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	type result struct {
		r   R
		err error
	}
	type task struct {
		name string
		done chan result
	}
	tasks := make(chan task)
	queue := make(chan task, 4*workers) // results in order; its size bounds what waits
	go func() {
		defer close(tasks)
		defer close(queue)
		for _, n := range names {
			t := task{n, make(chan result, 1)}
			select {
			case queue <- t:
			case <-ctx.Done():
				return
			}
			select {
			case tasks <- t:
			case <-ctx.Done():
				return
			}
		}
	}()
	var wg sync.WaitGroup
	defer wg.Wait()
	defer cancel()
	for range workers {
		wg.Go(func() {
			for t := range tasks {
				r, err := work(t.name)
				t.done <- result{r, err}
			}
		})
	}
	for t := range queue {
		select {
		case res := <-t.done:
			if res.err != nil {
				return res.err
			}
			if err := use(t.name, res.r); err != nil {
				return err
			}
		case <-ctx.Done():
			return ctx.Err()
		}
	}
	return ctx.Err()
}
