package drilling

import (
	"swingwright/opening"
	q "swingwright/quantity"
)

// Place is a place on a face, as the package has it: metres, without hand.
type Place struct{ X, Y q.Length }

// Face is one face of leaf or frame.
type Face struct {
	On   opening.Surface
	Side opening.Side
}

// String names the face for people.
func (f Face) String() string {
	switch f.On {
	case opening.LeafFace:
		return "leaf, " + string(f.Side) + " face"
	case opening.HeadFace:
		return "head of the frame, " + string(f.Side) + " side"
	case opening.Soffit:
		return "underside of the head's stop"
	case opening.LatchRabbet:
		return "rabbet of the latch jamb"
	case opening.LatchStop:
		return "stop of the latch jamb"
	case opening.HingeJamb:
		return "hinge jamb, " + string(f.Side) + " side"
	}
	return "latch jamb, " + string(f.Side) + " side"
}

// Other is the opposite face of a leaf.
func (f Face) Other() Face {
	f.Side = map[opening.Side]opening.Side{opening.PullSide: opening.PushSide, opening.PushSide: opening.PullSide}[f.Side]
	return f
}

// HingesLeft tells whether who looks at a face on that side has the hinges at the
// left. Left-hand leaves hang at the left as seen from outside and swing away, so
// from their push side; reverse ones swing toward the outside. False for no hand.
func HingesLeft(hand opening.Hand, side opening.Side) bool {
	pull := hand == "RH" || hand == "LHR"
	return pull == (side == opening.PullSide) && hand != ""
}

// OnPaper turns a place into millimetres of a drawing of the face as it is seen, x to
// the right and y up, with the corner that places are measured from as its origin. A
// soffit is drawn as one sees it who stands on the push side and looks up, rabbet and stop
// of the latch jamb as one who stands in the opening and faces them. So with the hinges at
// the left as seen from a side, that side is at the right there, and X, which runs toward
// that side, grows to the right, as it does elsewhere.
func (f Face) OnPaper(p Place, hingesLeft bool) (x, y float64) {
	x, y = float64(p.X)*1000, -float64(p.Y)*1000
	if f.On == opening.HeadFace || f.On == opening.Soffit {
		y = -y
	}
	right := hingesLeft // whether X grows to the right
	if f.On == opening.HingeJamb {
		right = !right
	}
	if !right {
		x = -x
	}
	return x, y
}

// size is how wide and high a face is; unknown where nobody measured it.
func (l *layer) size(f Face) (width, height q.Measured[q.Length]) {
	o := l.o
	switch f.On {
	case opening.LeafFace:
		return o.Leaf.Width, o.Leaf.Height
	case opening.HeadFace:
		return o.Frame.Width, o.Frame.Face
	case opening.Soffit:
		return o.Frame.Width, o.Frame.StopDeep
	case opening.LatchStop:
		return o.Frame.StopDeep, height
	case opening.LatchRabbet:
		if t, proud := o.Leaf.Thickness, o.Frame.Proud; t.Known && proud.Known {
			t, proud = t.WithSpread(thick), proud.WithSpread(taped)
			width = q.Give(t.Value+proud.Value, hypot(t.U, proud.U))
		}
		return width, height
	}
	return o.Frame.Face, height
}
