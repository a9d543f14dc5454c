package opening

import q "swingwright/quantity"

// Doorway is the way through, and the gaps around the closed leaf.
type Doorway struct {
	ClearWidth    q.Measured[q.Length] `key:"clear_width" over:"0" doc:"Clear width with the leaf opened by hand to 90 degrees, from its face to the stop."`
	PoweredWidth  q.Measured[q.Length] `key:"powered_clear_width" over:"0" doc:"Clear width where the operator stops the leaf."`
	ClearHeight   q.Measured[q.Length] `key:"clear_height" over:"0" doc:"Clear height, floor to head."`
	Headroom      q.Measured[q.Length] `key:"headroom" over:"0" doc:"Height of the lowest part of closer, operator or stop over the doorway."`
	Depth         q.Measured[q.Length] `key:"depth" from:"0" doc:"Depth of the doorway or its reveal."`
	LowThings     q.Measured[q.Length] `key:"low_projection" from:"0" doc:"How far anything stands into the clear width below 34 in; 0 in where nothing does."`
	HighThings    q.Measured[q.Length] `key:"high_projection" from:"0" doc:"How far anything stands into the clear width from 34 to 80 in; 0 in where nothing does."`
	NextDoor      q.Measured[q.Length] `key:"series_distance" over:"0" doc:"Distance to the next doorway in series."`
	NextSwing     q.Measured[q.Length] `key:"series_swing" from:"0" doc:"Width of the leaves that swing into the space between the two, added up; 0 in where none does."`
	BehindLeaf    q.Measured[q.Length] `key:"behind_leaf" from:"0" doc:"Least free distance between the fully open leaf and the nearest fixed thing."`
	Threshold     Threshold            `key:"threshold" doc:"The threshold."`
	Gaps          Gaps                 `key:"gaps" doc:"Gaps around the closed leaf, each at its widest and on the pull face."`
	VisionLight   YesNo                `key:"vision_light" doc:"Whether the leaf, or a sidelight beside it, has a pane to look through."`
	VisionBottom  q.Measured[q.Length] `key:"vision_bottom" from:"0" doc:"Height of the lowest glass that one can look through."`
	SmoothBottom  q.Measured[q.Length] `key:"smooth_bottom" from:"0" doc:"Height up to which the push side is one smooth surface over its whole width."`
	HandleHeight  q.Measured[q.Length] `key:"handle_height" from:"0" doc:"Height of the middle of handle, bar or pull."`
	HandleOneHand YesNo                `key:"handle_one_hand" doc:"Whether one hand works it without a tight grasp, pinching or turning of the wrist."`
	HandleCorner  q.Measured[q.Length] `key:"handle_from_corner" from:"0" doc:"Distance from the handle to the nearest wall or other thing beside it."`
}

// Threshold is the threshold as found.
type Threshold struct {
	Height   q.Measured[q.Length] `key:"height" from:"0" doc:"Height over the higher of the two floors; 0 in where there is none."`
	Vertical q.Measured[q.Length] `key:"vertical" from:"0" doc:"Height of the part that rises straight up."`
	Bevel    q.Measured[q.Ratio]  `key:"bevel" from:"0" doc:"Slope of the bevelled part, rise over run: 1 in 2 is 0.5."`
}

// Gaps are the gaps around the closed leaf.
type Gaps struct {
	Head    q.Measured[q.Length] `key:"head" from:"0" doc:"Between leaf and head."`
	Latch   q.Measured[q.Length] `key:"latch" from:"0" doc:"Between leaf and latch jamb."`
	Hinge   q.Measured[q.Length] `key:"hinge" from:"0" doc:"Between leaf and hinge jamb."`
	Meeting q.Measured[q.Length] `key:"meeting" from:"0" doc:"Between the leaves of a pair."`
	Bottom  q.Measured[q.Length] `key:"bottom" from:"0" doc:"Between leaf and finished floor or threshold."`
	Fingers q.Measured[q.Length] `key:"hinge_side" from:"0" doc:"At the hinge edge, where fingers may get in, as wide as it becomes anywhere in the swing."`
}

// Coming is how people come up to one side of a doorway.
type Coming string

// Choices lists the ways that a file may name.
func (Coming) Choices() []string { return []string{"none", "front", "hinge-side", "latch-side"} }

// Approach is the free floor on either side.
type Approach struct {
	Pull       Floor               `key:"pull" doc:"The floor on the pull side."`
	Push       Floor               `key:"push" doc:"The floor on the push side."`
	FloorSlope q.Measured[q.Ratio] `key:"floor_slope" from:"0" doc:"Steepest slope of the floor on either side, rise over run: 2 % or 0.02."`
}

// Floor is the free floor on one side.
type Floor struct {
	From        Coming               `key:"from" doc:"How people come up to this side."`
	Depth       q.Measured[q.Length] `key:"depth" from:"0" doc:"Free floor square to the doorway."`
	BesideLatch q.Measured[q.Length] `key:"beside_latch" from:"0" doc:"Free floor beyond the latch side of the doorway."`
	BesideHinge q.Measured[q.Length] `key:"beside_hinge" from:"0" doc:"Free floor beyond the hinge side of the doorway."`
	Recess      q.Measured[q.Length] `key:"recess" from:"0" doc:"How far anything within 18 in of the latch side stands out beyond the leaf's face; 0 in where nothing does."`
}

// Reach is how one reaches for a control.
type Reach string

// Choices lists the ways that a file may name.
func (Reach) Choices() []string { return []string{"forward", "side"} }

// Control is a switch or another thing that starts the leaf.
type Control struct {
	What         string               `key:"what" doc:"What it is, for people."`
	Sheet        string               `key:"sheet" ref:"actuator" doc:"Name of its hardware sheet."`
	Place        Spot                 `key:"place" doc:"Where its middle is in plan; distances from the leaf that were not taped are reckoned from it."`
	Side         Side                 `key:"side" doc:"On which side of the leaf it is."`
	Reach        Reach                `key:"reach" doc:"How one comes up to it and reaches for it: forward, head on, or from the side."`
	Height       q.Measured[q.Length] `key:"height" over:"0" doc:"Height of its middle."`
	LowPlate     q.Measured[q.Length] `key:"low_plate" over:"0" doc:"Height of the middle of an extra low plate, where there is one."`
	Size         q.Measured[q.Length] `key:"size" over:"0" doc:"Its width or height, the lesser."`
	Symbol       YesNo                `key:"symbol" doc:"Whether it carries the symbol of accessibility."`
	FromMiddle   q.Measured[q.Length] `key:"from_middle" from:"0" doc:"Distance from the middle of the doorway."`
	FromSwing    q.Measured[q.Length] `key:"from_swing" from:"0" doc:"Least distance from the leaf, wherever the leaf may be."`
	FromOpenEdge q.Measured[q.Length] `key:"from_open_edge" from:"0" doc:"Distance toward the user from the leading edge of the fully open leaf, on the side that it opens to."`
	FromLatch    q.Measured[q.Length] `key:"from_latch_edge" from:"0" doc:"Distance from the latch edge of the closed leaf, or from the doorway where it is reached head on."`
	FromCorner   q.Measured[q.Length] `key:"from_corner" from:"0" doc:"Distance from the nearest wall or other thing beside it."`
	FloorWidth   q.Measured[q.Length] `key:"floor_width" from:"0" doc:"Shorter side of the clear level floor before it."`
	FloorLength  q.Measured[q.Length] `key:"floor_length" from:"0" doc:"Longer side of the clear level floor before it."`
	ClearOfSwing YesNo                `key:"clear_of_swing" doc:"Whether who works it stands out of the path of the leaf."`
	ReachOver    q.Measured[q.Length] `key:"reach_over" from:"0" doc:"Depth of what one has to reach over; 0 in where there is nothing."`
	Obstacle     q.Measured[q.Length] `key:"obstacle_height" from:"0" doc:"Height of what one has to reach over."`
	Force        q.Measured[q.Force]  `key:"force" from:"0" doc:"Force that works it."`
	OneHand      YesNo                `key:"one_hand" doc:"Whether one hand works it without a tight grasp, pinching or turning of the wrist."`
	Range        q.Measured[q.Length] `key:"range" from:"0" doc:"Distance from which a touchless one works."`
	InSight      YesNo                `key:"door_in_sight" doc:"Whether who works it sees the leaf."`
	Reachable    YesNo                `key:"reachable_open" doc:"Whether it can be reached with the leaf open."`
}

// Signs are the signs on leaf and wall.
type Signs struct {
	General  YesNo                `key:"general" doc:"Whether AUTOMATIC CAUTION DOOR, black on yellow, is on both sides."`
	Diameter q.Measured[q.Length] `key:"diameter" over:"0" doc:"Its diameter."`
	Lowest   q.Measured[q.Length] `key:"lowest" over:"0" doc:"Height of the middle of the lowest sign."`
	Highest  q.Measured[q.Length] `key:"highest" over:"0" doc:"Height of the middle of the highest sign."`
	Letters  q.Measured[q.Length] `key:"letter_height" over:"0" doc:"Height of the smallest letters."`
	Switch   YesNo                `key:"switch_text" doc:"Whether ACTIVATE SWITCH TO OPERATE, white on blue, is on both sides."`
	PushPull YesNo                `key:"push_pull_text" doc:"Whether PUSH TO OPERATE and PULL TO OPERATE, white on blue, are on their sides."`
	Assist   YesNo                `key:"assist_text" doc:"Whether a sign on both sides tells of power assistance, white on blue."`
	Share    q.Measured[q.Ratio]  `key:"share" from:"0" to:"1" doc:"Share of the leaf's face that signs cover, as 4 %."`
}

// Hinges are the hinges as found.
type Hinges struct {
	Count     q.Measured[q.Ratio]  `key:"count" over:"0" doc:"How many there are."`
	Springs   q.Measured[q.Ratio]  `key:"spring_count" from:"0" doc:"How many of them are spring hinges; 0 where none is."`
	Height    q.Measured[q.Length] `key:"height" over:"0" doc:"Height of one."`
	Thickness q.Measured[q.Length] `key:"leaf_thickness" over:"0" doc:"Thickness of its metal."`
	Bearing   Bearing              `key:"bearing" doc:"How its knuckles turn on one another."`
	Span      q.Measured[q.Length] `key:"span" over:"0" doc:"Distance between the middles of the highest and the lowest hinge."`
}

// Bearing is how the knuckles of a hinge turn on one another.
type Bearing string

// Choices lists the bearings that a file may name.
func (Bearing) Choices() []string { return []string{"plain", "ball", "anti-friction", "spring"} }
