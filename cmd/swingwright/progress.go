package main

import (
	"fmt"
	"io"
	"time"
)

// counter tells on the error stream how far a long run has come.
type counter struct {
	w           io.Writer
	done, total int
	start, last time.Time
	lead, tail  string // what comes before and after each count
	every       time.Duration
}

// newCounter counts to total. It is silent unless w is a terminal, where the
// count stands in one place, or asked is set.
func newCounter(w io.Writer, total int, asked bool) *counter {
	now := time.Now()
	c := &counter{w: w, total: total, start: now, last: now, lead: "\r", every: time.Second / 5}
	if _, ok := terminal(w); !ok {
		c.lead, c.tail, c.every = "", "\n", 2*time.Second
		if !asked {
			c.w = io.Discard
		}
	}
	return c
}

// one counts one more.
func (c *counter) one() {
	c.done++
	if now := time.Now(); now.Sub(c.last) >= c.every {
		c.last = now
		c.tell(now)
	}
}

func (c *counter) tell(now time.Time) {
	rate := float64(c.done) / max(now.Sub(c.start).Seconds(), 1e-3)
	fmt.Fprintf(c.w, "%s%d/%d openings, %.0f per second %s", c.lead, c.done, c.total, rate, c.tail)
}

// end leaves the last count standing, where any was shown or asked for.
func (c *counter) end() {
	if c.lead == "" {
		c.tell(time.Now())
	} else if c.last != c.start {
		c.tell(time.Now())
		fmt.Fprintln(c.w)
	}
}
