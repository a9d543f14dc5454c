// Package amend changes the text of a job file where it stands: a field set, an
// item added or taken out, and every other byte, comments too, left as it was.
// What it says it did it has read again: nothing else in the file has another
// value than before.
package amend

import (
	"fmt"
	"unicode/utf8"
)

// A Splice is one change of a text: at byte At, what was cut out and what was
// put in its place. It can be undone, so that a text and its splices tell every
// state that the text ever had.
type Splice struct {
	At  int    `json:"at"`
	Cut string `json:"cut,omitempty"`
	Put string `json:"put,omitempty"`
}

// Apply returns the text after the splice; an error tells a text that it was not
// made for.
func (s Splice) Apply(text string) (string, error) { return swap(text, s.At, s.Cut, s.Put) }

// Undo returns the text before the splice; an error tells a text that it did not
// lead to.
func (s Splice) Undo(text string) (string, error) { return swap(text, s.At, s.Put, s.Cut) }

func swap(text string, at int, cut, put string) (string, error) {
	if at < 0 || at > len(text) || len(text)-at < len(cut) || text[at:at+len(cut)] != cut {
		return "", fmt.Errorf("byte %d of the text does not hold what was cut there", at)
	}
	return text[:at] + put + text[at+len(cut):], nil
}

// Between is the shortest splice that leads from one text to another, in whole characters.
func Between(from, to string) Splice {
	n := min(len(from), len(to))
	head := 0
	for head < n && from[head] == to[head] {
		head++
	}
	for head > 0 && (!startsRune(from, head) || !startsRune(to, head)) {
		head--
	}
	tail := 0
	for tail < n-head && from[len(from)-1-tail] == to[len(to)-1-tail] {
		tail++
	}
	for tail > 0 && !(startsRune(from, len(from)-tail) && startsRune(to, len(to)-tail)) {
		tail--
	}
	return Splice{At: head, Cut: from[head : len(from)-tail], Put: to[head : len(to)-tail]}
}

func startsRune(text string, at int) bool { return at == len(text) || utf8.RuneStart(text[at]) }
