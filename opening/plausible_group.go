package opening

import q "swingwright/quantity"

// ImplausibleGroup lists what may be slips in the record of a group. The spans
// are from memory, as the trade finds them on site.
func ImplausibleGroup(g *Group) []Doubt {
	var ds doubts
	span(&ds, "stagger", g.Stagger, 0, 5, "it is the time between two starts")
	span(&ds, "close_after", g.CloseAfter, 0, 20, "it is the time between two beginnings")
	span(&ds, "between", g.Between, 2*q.Foot, 40*q.Foot, "it is measured from face to face")
	span(&ds, "swings_in", g.SwingsIn, 0, 60*q.Inch, "it is the width of one leaf")
	span(&ds, "delay", g.Delay, 0, 20, "it is counted from the press")
	if g.Between.Known && g.SwingsIn.Known && g.SwingsIn.Value > g.Between.Value {
		ds.add("swings_in", written(g.SwingsIn), "the leaf would meet the other door; is it the room beyond the swing that was measured?")
	}
	if g.Coordinator == "yes" && g.Overlaps == "no" {
		ds.add("coordinator", string(g.Coordinator), "nothing laps over, so that nothing has to close first")
	}
	return ds
}
