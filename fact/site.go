package fact

import . "swingwright/quantity"

// What is seen and taped at the opening.
const (
	// doorway: how wide and high one can pass
	ClearWidth = firstOfSite + iota
	ClearHeight
	Headroom
	DoorwayDepth
	LowProjection
	HighProjection
	SeriesDistance
	SeriesSwing
	BehindLeaf

	// threshold and gaps around the closed leaf
	ThresholdHeight
	ThresholdVertical
	ThresholdBevel
	GapLargest
	GapSmallest
	GapBottom
	GapHingeSide

	// approach: the floor on either side
	ApproachPull
	ApproachPush
	PullDepth
	PullBesideLatch
	PushDepth
	PushBesideLatch
	PushBesideHinge
	PullRecess
	PushRecess
	FloorSlope

	// hardware that the hand works
	HardwareHeight
	HardwareOneHand
	HardwareFromCorner

	// controls: switches and other things that start the leaf; of several, the worst
	ControlLowest
	ControlHighest
	ControlLowPlate
	ControlSize
	ControlSymbol
	ControlFarthest
	ControlFromSwing
	ControlFromSwingMost
	ControlFromOpenEdge
	ControlBeside
	ControlAheadPull
	ControlAheadPush
	ControlFromCorner
	ControlFloorWidth
	ControlFloorLength
	ControlClearOfSwing
	ControlReach
	ControlReachOver
	ControlObstacle
	ControlForce
	ControlOneHand
	ControlRange
	ControlInSight
	ControlReachable

	// signs
	SignGeneral
	SignDiameter
	SignLowest
	SignHighest
	SignLetters
	SignSwitch
	SignPushPull
	SignAssist
	SignShare

	// hinges
	HingeCount
	HingeSprings
	HingeHeight
	HingeThickness
	HingeBearing

	firstOfCare
)

var site = [...]Fact{
	ClearWidth - firstOfSite:     {Name: "doorway.clear_width", Dim: DimLength, Meaning: "Clear width with the leaf opened by hand to 90 degrees, from its face to the stop.", Got: laidOut},
	ClearHeight - firstOfSite:    {Name: "doorway.clear_height", Dim: DimLength, Meaning: "Clear height of the doorway, floor to head.", Got: surveyed},
	Headroom - firstOfSite:       {Name: "doorway.headroom", Dim: DimLength, Meaning: "Height from the floor to the lowest part of closer, operator or stop over the doorway.", Got: surveyed},
	DoorwayDepth - firstOfSite:   {Name: "doorway.depth", Dim: DimLength, Meaning: "Depth of the doorway, or of the reveal: how far one passes through before the wall ends.", Got: surveyed},
	LowProjection - firstOfSite:  {Name: "doorway.low_projection", Dim: DimLength, Meaning: "How far anything on leaf or frame stands into the clear width below 34 in from the floor.", Got: laidOut},
	HighProjection - firstOfSite: {Name: "doorway.high_projection", Dim: DimLength, Meaning: "How far anything on leaf or frame stands into the clear width from 34 to 80 in above the floor.", Got: laidOut},
	SeriesDistance - firstOfSite: {Name: "doorway.series_distance", Dim: DimLength, Meaning: "Distance from this doorway to the next one in series.", Got: surveyed},
	SeriesSwing - firstOfSite:    {Name: "doorway.series_swing", Dim: DimLength, Meaning: "Width of the leaves that swing into the space between two doors in series, added up; nothing where none does.", Got: surveyed},
	BehindLeaf - firstOfSite:     {Name: "doorway.behind_leaf", Dim: DimLength, Meaning: "Least free distance between the fully open leaf and the nearest fixed thing.", Got: laidOut},

	ThresholdHeight - firstOfSite:   {Name: "threshold.height", Dim: DimLength, Meaning: "Height of the threshold over the higher of the two floors beside it.", Got: surveyed},
	ThresholdVertical - firstOfSite: {Name: "threshold.vertical", Dim: DimLength, Meaning: "Height of the part of the threshold that rises straight up.", Got: surveyed},
	ThresholdBevel - firstOfSite:    {Name: "threshold.bevel", Dim: DimRatio, Meaning: "Slope of the bevelled part of the threshold, rise over run: 1 in 2 is 0.5.", Got: surveyed},
	GapLargest - firstOfSite:        {Name: "gap.largest", Dim: DimLength, Meaning: "Largest gap between closed leaf and frame, or leaf and leaf, at head and sides, on the pull face.", Got: surveyed},
	GapSmallest - firstOfSite:       {Name: "gap.smallest", Dim: DimLength, Meaning: "Smallest gap between closed leaf and frame, or leaf and leaf, at head and sides, on the pull face.", Got: surveyed},
	GapBottom - firstOfSite:         {Name: "gap.bottom", Dim: DimLength, Meaning: "Largest gap from the bottom of the closed leaf to the finished floor or threshold.", Got: surveyed},
	GapHingeSide - firstOfSite:      {Name: "gap.hinge_side", Dim: DimLength, Meaning: "The gap at the hinge edge into which fingers may get, as wide as it becomes anywhere in the swing.", Got: surveyed},

	ApproachPull - firstOfSite:    {Name: "approach.pull", Kind: Choice, Choices: []string{"none", "front", "hinge-side", "latch-side"}, Meaning: "How people come up to the pull side.", Got: surveyed},
	ApproachPush - firstOfSite:    {Name: "approach.push", Kind: Choice, Choices: []string{"none", "front", "hinge-side", "latch-side"}, Meaning: "How people come up to the push side.", Got: surveyed},
	PullDepth - firstOfSite:       {Name: "approach.pull_depth", Dim: DimLength, Meaning: "Free floor on the pull side, square to the doorway.", Got: surveyed},
	PullBesideLatch - firstOfSite: {Name: "approach.pull_beside_latch", Dim: DimLength, Meaning: "Free floor on the pull side beyond the latch side of the doorway.", Got: surveyed},
	PushDepth - firstOfSite:       {Name: "approach.push_depth", Dim: DimLength, Meaning: "Free floor on the push side, square to the doorway.", Got: surveyed},
	PushBesideLatch - firstOfSite: {Name: "approach.push_beside_latch", Dim: DimLength, Meaning: "Free floor on the push side beyond the latch side of the doorway.", Got: surveyed},
	PushBesideHinge - firstOfSite: {Name: "approach.push_beside_hinge", Dim: DimLength, Meaning: "Free floor on the push side beyond the hinge side of the doorway.", Got: surveyed},
	PullRecess - firstOfSite:      {Name: "approach.pull_recess", Dim: DimLength, Meaning: "How far anything within 18 in of the latch side stands out beyond the face of the leaf, on the pull side.", Got: surveyed},
	PushRecess - firstOfSite:      {Name: "approach.push_recess", Dim: DimLength, Meaning: "How far anything within 18 in of the latch side stands out beyond the face of the leaf, on the push side.", Got: surveyed},
	FloorSlope - firstOfSite:      {Name: "approach.floor_slope", Dim: DimRatio, Meaning: "Steepest slope of the floor on either side, rise over run.", Got: surveyed},

	HardwareHeight - firstOfSite:     {Name: "hardware.height", Dim: DimLength, Meaning: "Height from the floor to the middle of the handle, bar or pull.", Got: surveyed},
	HardwareOneHand - firstOfSite:    {Name: "hardware.one_hand", Kind: YesNo, Meaning: "One hand works it without a tight grasp, pinching or turning of the wrist.", Got: surveyed},
	HardwareFromCorner - firstOfSite: {Name: "hardware.from_corner", Dim: DimLength, Meaning: "Distance from the handle to the nearest wall or other thing beside it.", Got: surveyed},

	ControlLowest - firstOfSite:        {Name: "control.lowest", Dim: DimLength, Meaning: "Height of the middle of the lowest control, extra low plates left out.", Got: surveyed},
	ControlHighest - firstOfSite:       {Name: "control.highest", Dim: DimLength, Meaning: "Height of the middle of the highest control.", Got: surveyed},
	ControlLowPlate - firstOfSite:      {Name: "control.low_plate", Dim: DimLength, Meaning: "Height of the middle of the extra low plate, where one is fitted.", Got: surveyed},
	ControlSize - firstOfSite:          {Name: "control.size", Dim: DimLength, Meaning: "Least width or height of the control, of the smallest one.", Got: surveyed},
	ControlSymbol - firstOfSite:        {Name: "control.symbol", Kind: YesNo, Meaning: "Every control carries the symbol of accessibility.", Got: surveyed},
	ControlFarthest - firstOfSite:      {Name: "control.farthest", Dim: DimLength, Meaning: "Distance from the farthest control to the middle of the doorway.", Got: laidOut},
	ControlFromSwing - firstOfSite:     {Name: "control.from_swing_least", Dim: DimLength, Meaning: "Least distance from a control to the leaf, wherever the leaf may be: its distance from the arc.", Got: laidOut},
	ControlFromSwingMost - firstOfSite: {Name: "control.from_swing_most", Dim: DimLength, Meaning: "Largest such distance of any control.", Got: laidOut},
	ControlFromOpenEdge - firstOfSite:  {Name: "control.from_open_edge", Dim: DimLength, Meaning: "Distance toward the user from the leading edge of the fully open leaf to the nearest control, on the side that the leaf opens to.", Got: laidOut},
	ControlBeside - firstOfSite:        {Name: "control.beside", Dim: DimLength, Meaning: "Distance from the latch edge of the closed leaf to the nearest control that is approached from the side.", Got: laidOut},
	ControlAheadPull - firstOfSite:     {Name: "control.ahead_pull", Dim: DimLength, Meaning: "Distance from the doorway to the nearest control that is approached head on, on the pull side.", Got: laidOut},
	ControlAheadPush - firstOfSite:     {Name: "control.ahead_push", Dim: DimLength, Meaning: "Distance from the doorway to the nearest control that is approached head on, on the push side.", Got: laidOut},
	ControlFromCorner - firstOfSite:    {Name: "control.from_corner", Dim: DimLength, Meaning: "Distance from a control to the nearest wall or other thing beside it, of the worst one.", Got: surveyed},
	ControlFloorWidth - firstOfSite:    {Name: "control.floor_width", Dim: DimLength, Meaning: "Shorter side of the clear level floor at the control, of the smallest such floor.", Got: surveyed},
	ControlFloorLength - firstOfSite:   {Name: "control.floor_length", Dim: DimLength, Meaning: "Longer side of the clear level floor at the control, of the smallest such floor.", Got: surveyed},
	ControlClearOfSwing - firstOfSite:  {Name: "control.clear_of_swing", Kind: YesNo, Meaning: "Nobody who works a control stands in the path of the leaf.", Got: surveyed},
	ControlReach - firstOfSite:         {Name: "control.reach", Kind: Choice, Choices: []string{"forward", "side"}, Meaning: "How one reaches for the control; forward where any is reached so.", Got: surveyed},
	ControlReachOver - firstOfSite:     {Name: "control.reach_over", Dim: DimLength, Meaning: "Depth of what one has to reach over to the control; nothing where there is nothing.", Got: surveyed},
	ControlObstacle - firstOfSite:      {Name: "control.obstacle_height", Dim: DimLength, Meaning: "Height of what one has to reach over to the control.", Got: surveyed},
	ControlForce - firstOfSite:         {Name: "control.force", Dim: DimForce, Meaning: "Force that works the control, of the heaviest one.", Got: measured},
	ControlOneHand - firstOfSite:       {Name: "control.one_hand", Kind: YesNo, Meaning: "One hand works every control without a tight grasp, pinching or turning of the wrist.", Got: surveyed},
	ControlRange - firstOfSite:         {Name: "control.range", Dim: DimLength, Meaning: "Distance from which a touchless control works, of the farthest-reaching one.", Got: measured},
	ControlInSight - firstOfSite:       {Name: "control.door_in_sight", Kind: YesNo, Meaning: "Who works a control sees the leaf.", Got: surveyed},
	ControlReachable - firstOfSite:     {Name: "control.reachable_open", Kind: YesNo, Meaning: "Every control can be reached with the leaf open.", Got: surveyed},

	SignGeneral - firstOfSite:  {Name: "sign.general", Kind: YesNo, Meaning: "The sign that tells of an automatic door is on both sides: AUTOMATIC CAUTION DOOR, black on yellow.", Got: surveyed},
	SignDiameter - firstOfSite: {Name: "sign.diameter", Dim: DimLength, Meaning: "Diameter of that sign, of the smaller one.", Got: surveyed},
	SignLowest - firstOfSite:   {Name: "sign.lowest", Dim: DimLength, Meaning: "Height from the floor to the middle of the lowest sign.", Got: surveyed},
	SignHighest - firstOfSite:  {Name: "sign.highest", Dim: DimLength, Meaning: "Height from the floor to the middle of the highest sign.", Got: surveyed},
	SignLetters - firstOfSite:  {Name: "sign.letter_height", Dim: DimLength, Meaning: "Height of the smallest letters on the signs.", Got: surveyed},
	SignSwitch - firstOfSite:   {Name: "sign.switch_text", Kind: YesNo, Meaning: "A sign on both sides tells to work the switch: ACTIVATE SWITCH TO OPERATE, white on blue.", Got: surveyed},
	SignPushPull - firstOfSite: {Name: "sign.push_pull_text", Kind: YesNo, Meaning: "Signs tell PUSH TO OPERATE on the push side and PULL TO OPERATE on the pull side, white on blue.", Got: surveyed},
	SignAssist - firstOfSite:   {Name: "sign.assist_text", Kind: YesNo, Meaning: "A sign on both sides tells that the door is power assisted, white on blue.", Got: surveyed},
	SignShare - firstOfSite:    {Name: "sign.share", Dim: DimRatio, Meaning: "Share of the face of the leaf that signs cover, of the fuller face.", Got: surveyed},

	HingeCount - firstOfSite:     {Name: "hinge.count", Dim: DimRatio, Meaning: "How many hinges the leaf has.", Got: surveyed},
	HingeSprings - firstOfSite:   {Name: "hinge.spring_count", Dim: DimRatio, Meaning: "How many of them are spring hinges.", Got: surveyed},
	HingeHeight - firstOfSite:    {Name: "hinge.height", Dim: DimLength, Meaning: "Height of one hinge.", Got: surveyed},
	HingeThickness - firstOfSite: {Name: "hinge.leaf_thickness", Dim: DimLength, Meaning: "Thickness of the metal of a hinge.", Got: surveyed},
	HingeBearing - firstOfSite:   {Name: "hinge.bearing", Kind: Choice, Choices: []string{"plain", "ball", "anti-friction", "spring"}, Meaning: "How the knuckles of the hinges turn on one another.", Got: surveyed},
}
