package plan

import (
	"fmt"
	"math"
	"slices"

	"swingwright/clearance"
	"swingwright/opening"
	q "swingwright/quantity"
	"swingwright/swing"
)

// Assumed of a frame and of what stands by it where nobody measured.
const (
	usualFace   = 2 * q.Inch        // face of a frame (common practice)
	usualDepth  = 4.875 * q.Inch    // of jambs for a plastered stud wall (common practice)
	usualBehind = 30 * q.Millimetre // of a frame behind the closed leaf, at the least
	hangs       = q.Inch / 16       // standard uncertainty of the gap at the hinges, the leaf hung in the middle
	armWidth    = q.Inch            // of the bars of an arm
	armBelow    = 6 * q.Inch        // an arm lies from so far below the top of the leaf
	armAbove    = 3 * q.Inch        // to so far above it
	overAll     = 10 * q.Metre      // the top of what reaches over everything
)

const (
	halfTurn    = math.Pi // rad, how far contacts are looked for
	leafName    = "leaf"
	wallName    = "wall beside the hinges"
	hingeJambNo = 0 // among the bodies of a frame
	hingeStopNo = 2
)

// layout is an opening as the plan geometry takes it: best estimates, and what
// was measured of them, so that each can be moved by its spread.
type layout struct {
	leaf     clearance.Leaf
	height   q.Length
	frame    clearance.Frame
	framed   bool // opening and stops are measured
	jambs    bool // enough is known to say where the hinge jamb is
	wall     q.Length
	walled   bool
	on       []clearance.Projection
	things   []standing
	controls []clearance.Point // as in the survey, with those that are not placed left zero
	cord     struct{ frame, leaf clearance.Point }
	corded   bool
	open     q.Angle
	inputs   []taken
	own      [][]taken // the place of every control; empty where it is not placed
}

// baseInputs is how many of the inputs are the leaf's and the open angle, on which all depends.
const baseInputs = 5

// standing is a thing that stands near the swing.
type standing struct {
	name     string
	from, to clearance.Point
	radius   q.Length // of a round thing, else 0
	heights  clearance.Band
}

// taken is a value of a layout that has a spread.
type taken struct {
	at      *float64
	u       float64
	what    string
	assumed bool
}

// lay lays an opening out; nothing in it moves in memory any more.
func lay(o *opening.Opening, r *Resolved, open Row) *layout {
	l := &layout{open: q.Angle(open.Value), height: q.Length(r.Rows[swing.LeafHeight].Value)}
	l.takeRow(&l.leaf.Width, r.Rows[swing.LeafWidth], "width of the leaf")
	l.takeRow(&l.leaf.Thickness, r.Rows[swing.LeafThickness], "thickness of the leaf")
	l.takeRow(&l.leaf.Edge, r.Rows[swing.PinToEdge], "distance from the hinge pin to the hinge edge")
	l.takeRow(&l.leaf.Face, r.Rows[swing.PinToFace], "distance from the hinge pin to the pull face")
	l.inputs = append(l.inputs, taken{(*float64)(&l.open), open.U, "open angle", open.Assumed})
	l.layFrame(o)
	l.wall, l.walled = o.Room.WallBeside.Value, o.Room.WallBeside.Known
	l.take(&l.wall, o.Room.WallBeside, tape, "distance of the wall beside the hinges")
	names := names{leafName: 1, wallName: 1, "hinge jamb": 1, "hinge stop": 1}
	l.layProjections(o.Leaf.Projections, names)
	l.layThings(o.Room.Things, names)
	if c := &o.DoorLoop; c.Frame.Known() && c.Leaf.Known() {
		l.corded = true
		l.takeSpot(&l.cord.frame, c.Frame, "anchor of the cord on the frame")
		l.takeSpot(&l.cord.leaf, c.Leaf, "anchor of the cord on the leaf")
	}
	l.layControls(o.Controls)
	return l
}

// names makes every name the only one of its kind.
type names map[string]int

func (n names) only(name string) string {
	n[name]++
	if n[name] > 1 {
		return n.only(fmt.Sprintf("%s %d", name, n[name]))
	}
	return name
}

// take takes a length that was measured, with spread u where none was stated.
func (l *layout) take(to *q.Length, m length, u q.Length, what string) {
	if m = m.WithSpread(u); m.Known {
		*to = m.Value
		l.inputs = append(l.inputs, taken{(*float64)(to), float64(m.U), what, false})
	}
}

func (l *layout) takeRow(to *q.Length, r Row, what string) {
	*to = q.Length(r.Value)
	l.inputs = append(l.inputs, taken{(*float64)(to), r.U, what, r.Assumed})
}

func (l *layout) takeSpot(to *clearance.Point, s opening.Spot, what string) {
	l.take(&to.X, s.Along, tape, what)
	l.take(&to.Y, s.Off, tape, what)
}

// layFrame takes the frame. Without its gap at the hinges the leaf is taken to
// hang in the middle.
func (l *layout) layFrame(o *opening.Opening) {
	f, of := &l.frame, &o.Frame
	l.framed, l.jambs = of.Width.Known && of.Stop.Known, of.Width.Known || of.Proud.Known || of.Face.Known
	l.take(&f.Width, of.Width, tape, "width of the opening")
	l.take(&f.LatchStop, of.Stop, gauge, "how far the stops stand out")
	f.HingeStop = f.LatchStop
	switch gap := o.Doorway.Gaps.Hinge; {
	case gap.Known:
		l.take(&f.HingeGap, gap, gauge, "gap at the hinges")
	case of.Width.Known:
		f.HingeGap = max(0, (of.Width.Value-l.leaf.Width)/2)
		l.inputs = append(l.inputs, taken{(*float64)(&f.HingeGap), float64(hangs), "gap at the hinges", true})
	default:
		f.HingeGap = max(0, l.leaf.Edge)
	}
	f.Proud = of.Proud.Value
	f.Cover = of.Face.Or(q.Exactly(usualFace)).Value
	f.Depth = max(o.Doorway.Depth.Or(q.Exactly(usualDepth)).Value, f.Proud+l.leaf.Thickness+usualBehind)
	behind := f.Depth - f.Proud - l.leaf.Thickness
	f.StopDepth = min(of.StopDeep.Or(q.Exactly(behind)).Value, behind)
}

func (l *layout) layProjections(all []opening.Projection, names names) {
	l.on = make([]clearance.Projection, len(all))
	for i := range all {
		p, to := &all[i], &l.on[i]
		*to = clearance.Projection{
			Name: names.only(p.What + " (" + string(p.Side) + " side)"), Along: p.Along.Value, Heights: heights(p.Bottom, p.Top),
		}
		if p.Side == opening.PushSide {
			to.Side = clearance.Push
		}
		l.take(&to.At, p.FromHinge, tape, "distance of the "+p.What+" from the hinge pin")
		l.take(&to.Out, p.Out, tape, "how far the "+p.What+" stands out")
	}
}

// heights is the band between two heights, each as far as it is known.
func heights(bottom, top length) clearance.Band {
	if !bottom.Known && !top.Known {
		return clearance.Band{}
	}
	return clearance.Band{From: bottom.Value, To: top.Or(q.Exactly(overAll)).Value}
}

// layThings takes what is placed of what stands near the swing.
func (l *layout) layThings(all []opening.Thing, names names) {
	l.things = make([]standing, 0, len(all))
	for i := range all {
		t := &all[i]
		if !t.Placed() {
			continue
		}
		l.things = append(l.things, standing{name: names.only(t.What), heights: heights(t.Bottom, t.Top)})
		to := &l.things[len(l.things)-1]
		l.takeSpot(&to.from, t.From, "place of the "+t.What)
		if t.Round.Known {
			to.radius = t.Round.Value / 2
			continue
		}
		l.takeSpot(&to.to, t.To, "place of the "+t.What)
	}
}

func (l *layout) layControls(all []opening.Control) {
	l.controls, l.own = make([]clearance.Point, len(all)), make([][]taken, len(all))
	for i := range all {
		if all[i].Place.Known() {
			before := len(l.inputs)
			l.takeSpot(&l.controls[i], all[i].Place, "place of a control")
			l.own[i] = slices.Clone(l.inputs[before:])
			l.inputs = l.inputs[:before]
		}
	}
}

// movers are the leaf and what is on it.
func (l *layout) movers() []clearance.Body {
	bodies := make([]clearance.Body, 0, 1+len(l.on))
	for i := range 1 + len(l.on) {
		bodies = append(bodies, l.mover(i))
	}
	return bodies
}

// mover is one of them, the leaf being the first.
func (l *layout) mover(i int) clearance.Body {
	switch {
	case i > 0:
		return l.on[i-1].On(l.leaf)
	case l.height > 0:
		return l.leaf.Body(leafName).Between(0, l.height)
	}
	return l.leaf.Body(leafName)
}

// surroundings is how many walls and things there are; the frame comes after them.
func (l *layout) surroundings() int {
	if l.walled {
		return len(l.things) + 1
	}
	return len(l.things)
}

// fixed are the walls, the things and then what of the frame can be in the way:
// the hinge jamb, and its stop where the leaf turns away from it. The latch jamb is
// left out, since the bevel of the latch edge, which clears it, is not surveyed.
func (l *layout) fixed() []clearance.Body {
	n := l.surroundings()
	bodies := make([]clearance.Body, 0, n+2)
	for j := range n {
		bodies = append(bodies, l.stander(j))
	}
	if l.jambs {
		bodies = append(bodies, l.stander(n))
		if l.leaf.Edge >= 0 && l.frame.HingeStop > 0 {
			bodies = append(bodies, l.stander(n+1))
		}
	}
	return bodies
}

// stander is one of them.
func (l *layout) stander(j int) clearance.Body {
	if l.walled {
		if j == 0 {
			return clearance.HalfPlane(wallName, clearance.Point{X: -l.wall}, 180*q.Degree)
		}
		j--
	}
	switch {
	case j == len(l.things):
		return l.frame.Bodies(l.leaf)[hingeJambNo]
	case j > len(l.things):
		return l.frame.Bodies(l.leaf)[hingeStopNo]
	}
	t := &l.things[j]
	body := clearance.Disc(t.name, clearance.OnFrame, t.from, t.radius)
	if t.radius == 0 {
		body = clearance.Block(t.name, clearance.OnFrame, t.from, t.to)
	}
	if t.heights != (clearance.Band{}) {
		body = body.Between(t.heights.From, t.heights.To)
	}
	return body
}
