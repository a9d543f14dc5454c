package server

import (
	"fmt"
	"testing"
	"time"
)

// Whoever comes as somebody else each time fills no memory and is slowed with all others who do so; those who were
// slowed before begin nothing anew by it.
func TestManyNames(t *testing.T) {
	l := limits{every: time.Minute, burst: 3}
	now := time.Date(2026, 11, 28, 9, 0, 0, 0, time.UTC)
	for range 3 {
		l.take("Owen", now)
	}
	if l.take("Owen", now) || l.wait("Owen", now) != time.Minute {
		t.Fatal("nobody is slowed", l.wait("Owen", now))
	}
	let := 0
	for i := range 3 * mostLimited {
		if l.take(fmt.Sprint("name ", i), now) {
			let++
		}
	}
	if len(l.of) > mostLimited+1 || let > mostLimited+3 {
		t.Errorf("%d are remembered, and %d of %d were let", len(l.of), let, 3*mostLimited)
	}
	if l.take("Owen", now) {
		t.Error("who was slowed begins anew")
	}
	now = now.Add(10 * time.Minute) // all are as new
	if !l.take("somebody new", now) || len(l.of) > 10 {
		t.Errorf("%d are remembered who need not be", len(l.of))
	}
}
