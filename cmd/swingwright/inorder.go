package main

import (
	"context"
	"sync"
)

// inOrder does the work of n things on several workers at once and takes the
// results one by one in their order. No more than a few results per worker
// wait at any time, so that memory stays flat however many things there are.
// It stops early when ctx ends or take fails, and returns why.
func inOrder[R any](ctx context.Context, n, workers int, do func(worker, i int) R, take func(R) error) error {
	const ahead = 4 // results that may wait for each worker
	type task struct {
		i    int
		done chan R
	}
	ctx, stop := context.WithCancel(ctx)
	tasks := make(chan task)
	waiting := make(chan chan R, ahead*workers)
	var running sync.WaitGroup
	defer running.Wait()
	defer stop()
	for worker := range workers {
		running.Go(func() {
			for t := range tasks {
				t.done <- do(worker, t.i)
			}
		})
	}
	running.Go(func() {
		defer close(tasks)
		defer close(waiting)
		for i := range n {
			t := task{i, make(chan R, 1)}
			select {
			case waiting <- t.done:
			case <-ctx.Done():
				return
			}
			select {
			case tasks <- t:
			case <-ctx.Done():
				return
			}
		}
	})
	for done := range waiting {
		select {
		case r := <-done:
			if err := take(r); err != nil {
				return err
			}
		case <-ctx.Done():
			return ctx.Err()
		}
	}
	return ctx.Err()
}
