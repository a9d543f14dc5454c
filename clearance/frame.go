package clearance

import q "swingwright/quantity"

// A Frame is the frame round the leaf, as the plan cuts it. Its stops are
// taken to meet the push face of the closed leaf.
type Frame struct {
	// Width is the opening between the two jambs where the leaf sits, rabbet to rabbet.
	Width q.Length
	// HingeGap is the gap between the hinge jamb and the leaf's hinge edge.
	HingeGap q.Length
	// HingeStop and LatchStop are how far the stops stand out from their jambs into the opening.
	HingeStop, LatchStop q.Length
	// StopDepth is how far the stops run on from the leaf, toward the push side.
	StopDepth q.Length
	// Proud is how far the jambs stand out past the leaf's pull face; below
	// zero when they end behind it.
	Proud q.Length
	// Depth is the depth of the jambs from their pull side to their push side.
	Depth q.Length
	// Cover is the width of the jambs' faces, away from the opening.
	Cover q.Length
}

// hingeJamb and latchJamb are where the jambs face the opening.
func (f Frame) hingeJamb(l Leaf) q.Length { return l.Edge - f.HingeGap }
func (f Frame) latchJamb(l Leaf) q.Length { return f.hingeJamb(l) + f.Width }

// LatchStopAt is where the latch stop ends, along the closed leaf: clear widths are measured from there.
func (f Frame) LatchStopAt(l Leaf) q.Length { return f.latchJamb(l) - f.LatchStop }

// LatchGap is the gap between the leaf's latch edge and the latch jamb.
func (f Frame) LatchGap(l Leaf) q.Length { return f.Width - f.HingeGap - l.Width }

// Bodies are the jambs and stops, named "hinge jamb", "latch jamb", "hinge
// stop" and "latch stop"; a stop of no width is left out.
func (f Frame) Bodies(l Leaf) []Body {
	hinge, latch := f.hingeJamb(l), f.latchJamb(l)
	pull := l.faceAt(Pull) + f.Proud
	push, stop := pull-f.Depth, l.faceAt(Push)
	bodies := []Body{
		Block("hinge jamb", OnFrame, Point{hinge - f.Cover, push}, Point{hinge, pull}),
		Block("latch jamb", OnFrame, Point{latch, push}, Point{latch + f.Cover, pull}),
	}
	if f.HingeStop > 0 {
		bodies = append(bodies, Block("hinge stop", OnFrame, Point{hinge, stop - f.StopDepth}, Point{hinge + f.HingeStop, stop}))
	}
	if f.LatchStop > 0 {
		bodies = append(bodies, Block("latch stop", OnFrame, Point{latch - f.LatchStop, stop - f.StopDepth}, Point{latch, stop}))
	}
	return bodies
}
