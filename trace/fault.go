package trace

import (
	"fmt"

	"swingwright/quantity"
)

// A Fault is something wrong with a recording, and how to do it better.
type Fault struct {
	At     quantity.Time // when, from the recording's first stamp
	Line   int           // of the file, 0 where it is not of one line
	Found  string        // what is wrong
	Better string        // how to record so that it is not
	Spoils bool          // nothing is told of the swing because of it
}

// String is the fault in one line.
func (f Fault) String() string {
	return fmt.Sprintf("at %.2f s: %s; hint: %s", float64(f.At), f.Found, f.Better)
}
