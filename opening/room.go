package opening

import q "swingwright/quantity"

// A Spot is a place in plan anywhere about the opening, from the hinge pin.
type Spot struct {
	Along q.Measured[q.Length] `key:"along" doc:"Distance from the hinge pin along the closed leaf, toward the latch edge; below zero beyond the hinges."`
	Off   q.Measured[q.Length] `key:"off" doc:"Distance from the line through the hinge pin along the closed leaf; above zero on the pull side, below zero on the push side."`
}

// Known tells that it was measured both ways.
func (s Spot) Known() bool { return s.Along.Known && s.Off.Known }

// Room is what stands around the swing.
type Room struct {
	WallBeside q.Measured[q.Length] `key:"wall_beside_hinge" from:"0" doc:"Distance from the hinge pin, away from the latch, to a wall that runs square to the closed leaf on the pull side."`
	AbovePull  q.Measured[q.Length] `key:"above_head_pull" from:"0" doc:"Free height above the head of the frame on the pull side, to ceiling or soffit."`
	AbovePush  q.Measured[q.Length] `key:"above_head_push" from:"0" doc:"Free height above the head of the frame on the push side."`
	StopsAt    q.Measured[q.Angle]  `key:"stops_at" over:"0" doc:"Leaf angle at which something stops the leaf opened by hand."`
	StopsOn    string               `key:"stops_on" doc:"What stops it there."`
	Things     []Thing              `key:"things" doc:"Whatever else stands near the swing: stops, posts, furniture, radiators, sprinklers."`
}

// Thing is a thing that stands near the swing: a rectangle in plan between two
// corners, or round about the first one.
type Thing struct {
	What   string               `key:"what" need:"yes" doc:"What it is."`
	From   Spot                 `key:"from" doc:"One corner, or the middle of a round thing."`
	To     Spot                 `key:"to" doc:"The opposite corner; not for a round thing."`
	Round  q.Measured[q.Length] `key:"diameter" over:"0" doc:"Diameter of a round thing."`
	Bottom q.Measured[q.Length] `key:"bottom" from:"0" doc:"Height at which it begins; the floor when not given."`
	Top    q.Measured[q.Length] `key:"top" over:"0" doc:"Height at which it ends; over everything when not given."`
}

// Placed tells that it is known where the thing stands and how far it reaches.
func (t *Thing) Placed() bool { return t.From.Known() && (t.To.Known() || t.Round.Known) }

// Projection is a thing that stands out from a face of the leaf.
type Projection struct {
	What      string               `key:"what" need:"yes" doc:"What it is: lever, pull, bar, body of a closer."`
	Side      Side                 `key:"side" need:"yes" doc:"On which face."`
	FromHinge q.Measured[q.Length] `key:"from_hinge" need:"yes" from:"0" doc:"Distance from the hinge pin to its middle, along the leaf."`
	Along     q.Measured[q.Length] `key:"along" from:"0" doc:"Its length along the leaf; a point when not given."`
	Out       q.Measured[q.Length] `key:"out" need:"yes" from:"0" doc:"How far it stands out from the face."`
	Bottom    q.Measured[q.Length] `key:"bottom" from:"0" doc:"Height at which it begins; the floor when not given."`
	Top       q.Measured[q.Length] `key:"top" over:"0" doc:"Height at which it ends; over everything when not given."`
}

// DoorLoop is the flexible cord that carries wires across the hinges.
type DoorLoop struct {
	Sheet string `key:"sheet" ref:"fixture" doc:"Name of its hardware sheet, which has the holes of its ends."`
	Frame Spot   `key:"frame" doc:"Where its anchor on the frame is."`
	Leaf  Spot   `key:"leaf" doc:"Where its anchor on the leaf is, with the leaf closed."`

	Length q.Measured[q.Length] `key:"length" over:"0" doc:"Length of the cord between its anchors, as it is there or ordered."`
}

// CloserSeat is where a closer is.
type CloserSeat string

// Choices lists the places that a file may name.
func (CloserSeat) Choices() []string { return []string{"surface", "concealed", "floor"} }
