package opening

import "fmt"

const (
	stopsWidth = "the clear width, where it was not taped"
	stopsWall  = "whether the open leaf keeps clear of the wall"
)

// room lists what is missing to know what the powered leaf meets and how wide
// its way is; of an opening that is pushed by hand only what was begun.
func (g *gaps) room(o *Opening, operator *OperatorSheet) {
	for i := range o.Room.Things {
		t := &o.Room.Things[i]
		g.addIf(!t.Placed(), fmt.Sprintf("room.things[%d].from", i), "whether the leaf touches it", "A thing counts only where it is placed: "+t.What+".",
			"Tape two opposite corners from the hinge pin, along and off; of a round thing its middle and its diameter.")
	}
	if !o.Use.Powered() {
		return
	}
	taped := o.Doorway.ClearWidth.Known && o.Doorway.PoweredWidth.Known
	g.addIf(!taped && !o.Frame.Width.Known, "frame.opening_width", stopsWidth, "The clear width at the angle where the operator stops has a limit of its own.",
		"Tape between the jambs where the leaf sits, rabbet to rabbet, at three heights; keep the least.")
	g.addIf(!taped && !o.Frame.Stop.Known, "frame.stop", stopsWidth, "The way is narrower than the opening by the stop.", "Rule, from the jamb to the face of the stop; 0 in where there is none.")
	g.addIf(!o.Room.WallBeside.Known && !o.Room.StopsAt.Known, "room.wall_beside_hinge", stopsWall, "An operator that drives leaf or pull into a wall breaks it, and may crush a hand.",
		"Tape from the middle of the hinge pin to the wall, square to the closed leaf; 10 ft where there is none, or write where the leaf stops.")
	g.overHead(&o.Room, operator)
}

// overHead asks for the room over the head where the operator's paper needs some.
func (g *gaps) overHead(r *Room, operator *OperatorSheet) {
	needs := operator != nil && operator.Limits.CeilingRoom.Known
	g.addIf(needs && !r.AbovePull.Known && !r.AbovePush.Known, "room.above_head_push", "whether the operator has its height", "By its paper the operator needs free height above the head.",
		"Tape from the head of the frame to ceiling or soffit, on the side on which it is to sit.")
}
