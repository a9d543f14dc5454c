package main

import (
	"bytes"
	"regexp"
	"testing"
	"time"
)

func TestCounterIsSilentUnlessAsked(t *testing.T) {
	for asked, want := range map[bool]string{false: `^$`, true: `^3/3 openings, \d+ per second\n$`} {
		var errOut, out bytes.Buffer
		c := newCounter(&errOut, &out, 3, asked)
		for range 3 {
			c.one()
		}
		c.end()
		if !regexp.MustCompile(want).MatchString(errOut.String()) {
			t.Errorf("asked %v: %q, want %s", asked, errOut.String(), want)
		}
	}
}

// On a terminal the count is written over itself and cleared at the end.
func TestCounterOnATerminal(t *testing.T) {
	var screen bytes.Buffer
	past := time.Now().Add(-10 * time.Second)
	c := &counter{w: &screen, total: 2, start: past, next: past.Add(time.Second), every: time.Nanosecond, lead: "\r", tail: " "}
	c.one()
	time.Sleep(time.Microsecond)
	c.one()
	c.end()
	want := "^\r1/2 openings, 0 per second \r2/2 openings, 0 per second \r\x1b\\[K$"
	if !regexp.MustCompile(want).MatchString(screen.String()) {
		t.Errorf("the terminal was sent %q", screen.String())
	}
}
