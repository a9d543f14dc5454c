package opening

import (
	"slices"

	q "swingwright/quantity"
)

// GroupKind is how the openings of a group belong together.
type GroupKind string

// The kinds of group.
const (
	Pair         GroupKind = "pair"          // two leaves in one frame that swing the same way
	DoubleEgress GroupKind = "double-egress" // two leaves in one frame that swing opposite ways
	Vestibule    GroupKind = "vestibule"     // two doors in series
)

// Choices lists the kinds that a file may name.
func (GroupKind) Choices() []string {
	return []string{string(Pair), string(DoubleEgress), string(Vestibule)}
}

// OpensHow is which leaves of a pair a press opens.
type OpensHow string

// Choices lists what a file may name.
func (OpensHow) Choices() []string { return []string{"active", "together"} }

// A Group is openings that work together: the two leaves of a pair, or the two
// doors of a vestibule. Each leaf is an opening of its own.
type Group struct {
	ID          string               `key:"id" need:"yes" names:"group" doc:"Name of the group."`
	Kind        GroupKind            `key:"kind" need:"yes" doc:"How its openings belong together."`
	Of          []string             `key:"of" need:"yes" ref:"opening" doc:"The ids of its two openings: the active leaf first, or the outer door first."`
	Opens       OpensHow             `key:"opens" doc:"Which leaves a press opens: the active one, or both together."`
	Overlaps    YesNo                `key:"astragal" doc:"Whether one leaf laps over the other, so that the other one has to close first."`
	Coordinator YesNo                `key:"coordinator" doc:"Whether a coordinator keeps the active leaf back until the other one is shut."`
	Rods        YesNo                `key:"vertical_rods" doc:"Whether both leaves latch by vertical rods of their own."`
	Stagger     q.Measured[q.Time]   `key:"stagger" from:"0" doc:"Time between the starts of its two operators."`
	CloseAfter  q.Measured[q.Time]   `key:"close_after" from:"0" doc:"Time by which the active leaf begins to close after the other one."`
	Between     q.Measured[q.Length] `key:"between" over:"0" doc:"Distance between the two doors of a vestibule, face to face."`
	SwingsIn    q.Measured[q.Length] `key:"swings_in" from:"0" doc:"Width of the widest leaf that swings into the space between them; 0 in where none does."`
	Delay       q.Measured[q.Time]   `key:"delay" from:"0" doc:"Time from the press until the second door starts."`
	Inside      YesNo                `key:"actuator_inside" doc:"Whether an actuator between the doors opens either of them."`
	Wiring      Wiring               `key:"wiring" doc:"How the devices of its openings are connected, where they share one wiring; each device then names its opening."`
}

// Sharing is the group of several whose wiring the opening of an id shares, nil where
// it is in none that has one.
func Sharing(groups []Group, id string) *Group {
	for i := range groups {
		if g := &groups[i]; !g.Wiring.None() && slices.Contains(g.Of, id) {
			return g
		}
	}
	return nil
}
