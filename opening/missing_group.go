package opening

// MissingOfGroup lists what is missing of a group of openings, in the order of
// its record. How each is got is common practice.
func MissingOfGroup(o *Group) []Gap {
	var g gaps
	switch o.Kind {
	case Pair:
		g.addIf(o.Opens == "", "opens", "what the two leaves are to each other", "By hand the active leaf alone has to be wide enough, under power all leaves that open together.", "Press, and look which leaves open.")
		g.addIf(o.Overlaps == "", "astragal", "in which order the leaves close", "A leaf that is lapped over has to be shut first.", "Look at the meeting edges: does one leaf carry a strip that laps over the other?")
		g.addIf(o.Coordinator == "", "coordinator", "", "It holds the active leaf back until the other one is shut, and works against an operator that does not wait.", "Look at the head, over the meeting edges.")
		g.addIf(o.Rods == "", "vertical_rods", "", "With vertical rods on both leaves there should be no coordinator.", "Look for rods on or in both leaves.")
		g.addIf(o.Overlaps == "yes" && o.Opens == "together" && !o.CloseAfter.Known, "close_after", "", "Without a delay the active leaf has to close by itself slower than the other.", "Stopwatch, from the first movement of the one to that of the other.")
		g.addIf(o.Opens == "together" && !o.Stagger.Known, "stagger", "", "Two operators that start at once draw both their inrush currents.", "Read it off the control, or listen.")
	case Vestibule:
		g.addIf(!o.Between.Known, "between", "whether people get through without waiting", "The way between the doors decides when the second one has to open.", "Tape, from the face of one closed leaf to that of the other.")
		g.addIf(!o.SwingsIn.Known, "swings_in", "whether there is room", "A leaf that swings into the room takes of it.", "The width of the leaf that does; 0 in where none does.")
		g.addIf(!o.Delay.Known && o.Inside != "yes", "delay", "whether people get through without waiting", "Too early, and the second door closes before they are through; too late, and they wait.", "Stopwatch, from the press until the second door starts; or note that a switch inside opens it.")
		g.addIf(o.Inside == "", "actuator_inside", "whether people can be trapped", "Without a switch between the doors people can be shut in.", "Look.")
	}
	return g
}
