package opening

import q "swingwright/quantity"

// Surface is what a hole is drilled into.
type Surface string

// The surfaces that take holes.
const (
	LeafFace    Surface = "leaf"         // a face of the leaf
	HeadFace    Surface = "head"         // the upright face of the frame's head
	Soffit      Surface = "soffit"       // the underside of the head's stop, on the push side
	HingeJamb   Surface = "hinge-jamb"   // the face of the jamb that carries the hinges
	LatchJamb   Surface = "latch-jamb"   // the face of the other jamb
	LatchRabbet Surface = "latch-rabbet" // the rabbet of that jamb, across from the leaf's latch edge: a strike is let into it
	LatchStop   Surface = "latch-stop"   // the face of that jamb's stop toward the opening: a strike of a rim device sits on it
)

// Choices lists the surfaces that a file may name.
func (Surface) Choices() []string {
	return []string{string(LeafFace), string(HeadFace), string(Soffit), string(HingeJamb), string(LatchJamb), string(LatchRabbet), string(LatchStop)}
}

// HoleEdge is an edge from which the place of a hole is measured along the opening.
type HoleEdge string

// The edges, or the axis, that a place is measured from.
const (
	FromHingeEdge HoleEdge = "hinge" // the hinge edge of the leaf, or the rabbet of the hinge jamb
	FromLatchEdge HoleEdge = "latch" // the latch edge of the leaf, or the rabbet of the latch jamb
	FromPin       HoleEdge = "pin"   // the axis of the hinge pin
)

// Choices lists the edges that a file may name.
func (HoleEdge) Choices() []string {
	return []string{string(FromHingeEdge), string(FromLatchEdge), string(FromPin)}
}

// HoleHeight is an edge from which the place of a hole on a leaf is measured up or down.
type HoleHeight string

// Choices lists the edges that a file may name.
func (HoleHeight) Choices() []string { return []string{"top", "bottom"} }

// Fastener is what goes into a hole.
type Fastener string

// The fasteners.
const (
	ThroughBolt  Fastener = "through-bolt" // through the leaf into a nut or barrel nut on the other face
	WoodScrew    Fastener = "wood-screw"
	MachineScrew Fastener = "machine-screw" // into a thread that is tapped, or into a rivet nut
	SelfDrilling Fastener = "self-drilling"
	Passage      Fastener = "none" // the hole lets something through: a wire, a spindle, a cylinder
)

// Choices lists the fasteners that a file may name.
func (Fastener) Choices() []string {
	return []string{string(ThroughBolt), string(WoodScrew), string(MachineScrew), string(SelfDrilling), string(Passage)}
}

// HoleShape is the shape of a hole.
type HoleShape string

// CutOut is a rectangle, such as the one that a strike's box goes into.
const CutOut HoleShape = "cut-out"

// Choices lists the shapes that a file may name.
func (HoleShape) Choices() []string { return []string{"round", "slot", "square", string(CutOut)} }

// A Hole is one hole of a pattern, as the maker's template has it.
type Hole struct {
	Mark       string               `key:"mark" need:"yes" doc:"Its letter or number on the template, by which it is told everywhere."`
	With       ArmKind              `key:"with" doc:"Only where the arm is of this kind; always when not given."`
	On         Surface              `key:"on" need:"yes" doc:"What it is drilled into."`
	Side       Side                 `key:"side" doc:"On which face, the pull or the push side; where not given, that on which the hardware sits. Soffit and latch-stop are on the push side, latch-rabbet is on the pull side."`
	Along      q.Measured[q.Length] `key:"along" need:"yes" from:"0" doc:"Distance of its middle from an edge, along the opening; on a jamb from the edge of its face that faces the opening, out over the face; in the latch-rabbet from the stop toward the pull side, on the latch-stop from the leaf away from it."`
	AlongFrom  HoleEdge             `key:"along_from" doc:"Which edge that is: hinge, latch, or the axis of the pin; hinge when not given."`
	Across     q.Measured[q.Length] `key:"across" need:"yes" from:"0" doc:"Distance of its middle square to that: on a leaf from its top down, on a head from its lower edge up, on a soffit from the leaf's side away from it, on a jamb, in its rabbet and on its stop from the head down."`
	AcrossFrom HoleHeight           `key:"across_from" doc:"On a leaf, whether that is measured from its top or its bottom; top when not given."`
	Diameter   q.Measured[q.Length] `key:"diameter" need:"yes" over:"0" doc:"Diameter of the finished hole; of a slot, its length; of a cut-out, its length square to along, up and down on leaf and jamb."`
	Width      q.Measured[q.Length] `key:"cut_width" over:"0" doc:"Width of a cut-out, along; its length when not given."`
	Shape      HoleShape            `key:"shape" doc:"Its shape; round when not given."`
	Pilot      q.Measured[q.Length] `key:"pilot" over:"0" doc:"Diameter of the pilot drill; 1/8 in through a leaf when not given."`
	Far        q.Measured[q.Length] `key:"far_diameter" over:"0" doc:"Diameter on the other face, of a hole that goes through; as on this one when not given."`
	Depth      q.Measured[q.Length] `key:"depth" over:"0" doc:"Depth of a hole that does not go through; a through-bolt's does, the others go through the sheet that they hold in."`
	Fastener   Fastener             `key:"fastener" need:"yes" doc:"What goes into it."`
	Thread     string               `key:"thread" doc:"Thread of the fastener, such as 1/4-20 or M6."`
	Foot       q.Measured[q.Length] `key:"foot" from:"0" doc:"Thickness of what the fastener's head clamps: the foot or plate of the hardware."`
	FarSeat    q.Measured[q.Length] `key:"far_seat" from:"0" doc:"Thickness of what lies under the nut or the head on the other face: a washer or a back plate; below a face that is counterbored it is less."`
	Grip       q.Measured[q.Length] `key:"grip" over:"0" doc:"How deep a screw must hold below the surface."`
	Torque     q.Measured[q.Torque] `key:"torque" over:"0" doc:"Torque with which it is tightened."`
	Listed     YesNo                `key:"listed" doc:"Whether the hardware's own fire listing allows a hole of this size in a labelled leaf."`
}

// FixtureSheet is what the user copied from the maker's paper of anything else that
// is fixed with holes: the ends of a door loop, a plate, a cover.
type FixtureSheet struct {
	Name   string             `key:"name" need:"yes" names:"fixture" doc:"Name by which openings refer to this sheet."`
	Page   string             `key:"page" doc:"Page of the maker's paper that the values were copied from."`
	What   string             `key:"what" doc:"What it is, for people."`
	Side   Side               `key:"side" doc:"Side on which it sits; push when not given."`
	Weight q.Measured[q.Mass] `key:"weight" over:"0" doc:"Its weight, where it hangs on the leaf."`
	Holes  []Hole             `key:"holes" need:"yes" doc:"Its holes."`
}

func (s FixtureSheet) sheetName() string { return s.Name }

// Fixture is the fixture sheet of a name, or nil.
func (s *Sheets) Fixture(name string) *FixtureSheet { return find(s.Fixtures, name) }

// Fixing is a thing of an opening that is fixed with holes.
type Fixing string

// The things that holes are drilled for.
const (
	CloserHoles   Fixing = "closer"
	ArmHoles      Fixing = "arm"
	OperatorHoles Fixing = "operator"
	UnitArmHoles  Fixing = "operator-arm"
	StrikeHoles   Fixing = "strike"
	LoopHoles     Fixing = "door-loop"
)

// Choices lists the things that a file may name.
func (Fixing) Choices() []string {
	return []string{string(CloserHoles), string(ArmHoles), string(OperatorHoles), string(UnitArmHoles), string(StrikeHoles), string(LoopHoles)}
}

// Drilling is what holes are to be drilled, and how.
type Drilling struct {
	For      []Fixing            `key:"for" doc:"What holes are to be drilled for; where not given, the operator that is meant to be fitted with its own arm, and the ends of the door loop. Holes of what hangs there already are kept clear of."`
	Fixtures []string            `key:"fixtures" ref:"fixture" doc:"Names of the sheets of further things to be fixed."`
	Tilt     q.Measured[q.Angle] `key:"tilt" from:"0" to:"0.35" doc:"How far off square the drill may stand; 1 degree by hand when not given."`
	Revision string              `key:"revision" doc:"Revision of the templates, such as A."`
}

// InnerKind is a sort of thing in a leaf or a frame.
type InnerKind string

// The things in a leaf or a frame: the last three are to hold in, the others to keep clear of.
const (
	InLite          InnerKind = "lite"
	InRod           InnerKind = "rod"
	InRaceway       InnerKind = "raceway"
	InWire          InnerKind = "wire"
	InLock          InnerKind = "lock"
	InVoid          InnerKind = "void"
	InReinforcement InnerKind = "reinforcement"
	InRail          InnerKind = "rail"
	InStile         InnerKind = "stile"
)

// Choices lists the sorts that a file may name.
func (InnerKind) Choices() []string {
	return []string{string(InLite), string(InRod), string(InRaceway), string(InWire), string(InLock), string(InVoid), string(InReinforcement), string(InRail), string(InStile)}
}

// Holds tells a thing that screws are to hold in, not one to keep clear of.
func (k InnerKind) Holds() bool {
	return k == InReinforcement || k == InRail || k == InStile
}

// Inner is a thing in a leaf or a frame, within an upright rectangle.
type Inner struct {
	Kind     InnerKind            `key:"kind" need:"yes" doc:"What it is: something to keep clear of (lite, rod, raceway, wire, lock, void) or something that screws are to hold in (reinforcement, rail, stile)."`
	On       Surface              `key:"on" doc:"What it is in; the leaf when not given."`
	Along    q.Measured[q.Length] `key:"along" need:"yes" doc:"Where it begins, from the hinge edge of the leaf or from the rabbet of the hinge jamb; on a jamb from the edge of its face that faces the opening."`
	AlongTo  q.Measured[q.Length] `key:"along_to" need:"yes" doc:"Where it ends, measured likewise."`
	Across   q.Measured[q.Length] `key:"across" doc:"Where it begins, from the top of the leaf down, from the lower edge of the head up, on a jamb from the head down; its whole height when not given."`
	AcrossTo q.Measured[q.Length] `key:"across_to" doc:"Where it ends, measured likewise."`
}

// OldHole is a hole that is there already.
type OldHole struct {
	On       Surface              `key:"on" doc:"What it is in; the leaf when not given."`
	Side     Side                 `key:"side" doc:"On which face; on both when not given."`
	Along    q.Measured[q.Length] `key:"along" need:"yes" doc:"Distance of its middle from the hinge edge of the leaf or from the rabbet of the hinge jamb; on a jamb from the edge of its face that faces the opening."`
	Across   q.Measured[q.Length] `key:"across" need:"yes" doc:"Distance of its middle from the top of the leaf down, from the lower edge of the head up, on a jamb from the head down."`
	Diameter q.Measured[q.Length] `key:"diameter" need:"yes" over:"0" doc:"Its diameter."`
	Filled   string               `key:"filled_with" doc:"What it is filled with; empty where it is open."`
}
