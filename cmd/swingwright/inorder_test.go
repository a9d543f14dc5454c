package main

import (
	"context"
	"errors"
	"sync/atomic"
	"testing"
	"time"

	"pgregory.net/rapid"
	_ "swingwright/internal/steady"
)

// Results come complete and in order, whatever the number of workers and
// however unevenly they work, and few of them wait at any time.
func TestInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n, workers := rapid.IntRange(0, 200).Draw(t, "n"), rapid.IntRange(1, 8).Draw(t, "workers")
		slow := rapid.IntRange(1, 7).Draw(t, "slow")
		var started, taken atomic.Int64
		next := 0
		err := inOrder(context.Background(), n, workers,
			func(_, i int) int {
				if ahead := started.Add(1) - taken.Load(); ahead > int64(6*workers+2) {
					t.Errorf("%d things were begun ahead of the last one taken, with %d workers", ahead, workers)
				}
				if i%slow == 0 {
					time.Sleep(time.Duration(i%3) * 10 * time.Microsecond)
				}
				return i
			},
			func(i int) error {
				taken.Add(1)
				if i != next {
					t.Errorf("%d came where %d was due", i, next)
				}
				next++
				return nil
			})
		if err != nil || next != n {
			t.Fatalf("%d of %d came, error %v", next, n, err)
		}
	})
}

func TestInOrderStopsWhenTakingFails(t *testing.T) {
	full := errors.New("disk is full")
	var done atomic.Int64
	err := inOrder(context.Background(), 10_000, 4,
		func(_, i int) int { done.Add(1); return i },
		func(i int) error {
			if i == 3 {
				return full
			}
			return nil
		})
	if !errors.Is(err, full) || done.Load() > 100 {
		t.Errorf("error %v after %d things, want the one of taking, soon", err, done.Load())
	}
}

func TestInOrderStopsWhenAsked(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	taken := 0
	err := inOrder(ctx, 10_000, 4, func(_, i int) int { return i }, func(i int) error {
		if taken++; i == 5 {
			stop()
		}
		return nil
	})
	if !errors.Is(err, context.Canceled) || taken > 100 {
		t.Errorf("error %v after %d, want to be stopped soon after 6", err, taken)
	}
}
