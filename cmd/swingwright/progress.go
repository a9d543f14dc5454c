package main

import (
	"fmt"
	"io"
	"time"
)

// counter tells on the error stream how far a long run has come.
type counter struct {
	w           io.Writer // nil where nobody wants to know
	done, total int
	start, next time.Time
	every       time.Duration
	lead, tail  string // around each count
}

// newCounter counts to total on w. It is silent unless asked, or unless w is a
// terminal and out is not: a report on the same terminal shows by itself how far
// it has come. On a terminal the count stands in one place, and shows only where
// a run takes longer than a second.
func newCounter(w, out io.Writer, total int, asked bool) *counter {
	now := time.Now()
	c := &counter{w: w, total: total, start: now, next: now.Add(time.Second), every: time.Second / 5, lead: "\r", tail: "   "}
	_, watched := terminal(w)
	_, shown := terminal(out)
	if !watched || shown {
		c.lead, c.tail, c.every = "", "\n", 2*time.Second
		if !asked {
			c.w = nil
		}
	}
	return c
}

// one counts one more.
func (c *counter) one() {
	c.done++
	if now := time.Now(); now.After(c.next) {
		c.tell(now)
		c.next = now.Add(c.every)
	}
}

func (c *counter) tell(now time.Time) {
	if c.w != nil {
		rate := float64(c.done) / max(now.Sub(c.start).Seconds(), 1e-3)
		fmt.Fprintf(c.w, "%s%d/%d openings, %.0f per second%s", c.lead, c.done, c.total, rate, c.tail)
	}
}

// end tells the last count, and clears it from a terminal.
func (c *counter) end() {
	switch {
	case c.lead == "":
		c.tell(time.Now())
	case c.next.Sub(c.start) > time.Second: // a count was shown
		fmt.Fprint(c.w, "\r\x1b[K")
	}
}
