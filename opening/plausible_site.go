package opening

import (
	"fmt"

	q "swingwright/quantity"
)

// doorway doubts what was taped at the way through.
func (ds *doubts) doorway(d *Doorway) {
	const unit = "check the number and its unit"
	span(ds, "doorway.clear_width", d.ClearWidth, 20*q.Inch, 72*q.Inch, unit)
	span(ds, "doorway.powered_clear_width", d.PoweredWidth, 20*q.Inch, 72*q.Inch, unit)
	span(ds, "doorway.clear_height", d.ClearHeight, 70*q.Inch, 120*q.Inch, unit)
	span(ds, "doorway.headroom", d.Headroom, 66*q.Inch, 120*q.Inch, "it is measured from the floor")
	span(ds, "doorway.threshold.height", d.Threshold.Height, 0, 3*q.Inch, unit)
	span(ds, "doorway.handle_height", d.HandleHeight, 24*q.Inch, 60*q.Inch, "it is measured from the floor")
	for _, gap := range []struct {
		name string
		m    q.Measured[q.Length]
	}{{"head", d.Gaps.Head}, {"latch", d.Gaps.Latch}, {"hinge", d.Gaps.Hinge}, {"meeting", d.Gaps.Meeting}} {
		span(ds, "doorway.gaps."+gap.name, gap.m, 0, q.Inch/2, "a leaf with such a gap hardly latches")
	}
	span(ds, "doorway.gaps.bottom", d.Gaps.Bottom, 0, 2*q.Inch, unit)
}

// controls doubts where switches are said to be.
func (ds *doubts) controls(all []Control) {
	for i := range all {
		field := fmt.Sprintf("controls[%d].", i)
		span(ds, field+"height", all[i].Height, 12*q.Inch, 72*q.Inch, "it is the height of its middle over the floor")
		span(ds, field+"from_middle", all[i].FromMiddle, 0, 30*q.Foot, "check the number and its unit")
		span(ds, field+"force", all[i].Force, 0, 20*q.PoundForce, "check the number and its unit")
	}
}

// hinges doubts their number and size.
func (ds *doubts) hinges(h *Hinges) {
	span(ds, "hinges.count", h.Count, 2, 6, "a continuous hinge has no number")
	span(ds, "hinges.height", h.Height, 2*q.Inch, 8*q.Inch, "it is the height of one")
	if h.Count.Known && h.Springs.Known && h.Springs.Value > h.Count.Value {
		ds.add("hinges.spring_count", written(h.Springs), "there are more spring hinges than hinges")
	}
}
