package transit

import "swingwright/quantity"

// Lead is by how much the leaf that is lapped over has to be shut before the
// active one (common practice): as long as a coordinator needs to let go.
const Lead = quantity.Second

// Two operators that start together draw both their inrush currents at once; the
// trade lets one wait for so long (common practice, from memory).
const (
	LeastStagger = 0.5 * quantity.Second
	MostStagger  = 1 * quantity.Second
)

// Closings are the two leaves of a pair as they close.
type Closings struct {
	Active, Other quantity.Time // from where each is let go until it is shut
	After         quantity.Time // by which the active leaf begins later
}

// Leads is by how much the other leaf is shut before the active one; below zero
// it comes after.
func (c Closings) Leads() quantity.Time { return c.After + c.Active - c.Other }
