package plan

import (
	"swingwright/clearance"
	"swingwright/opening"
	q "swingwright/quantity"
	"swingwright/transit"
)

// Place is where a control is, as seen from the leaf. The spreads are standard
// uncertainties of the distances of the same names in Stand.
type Place struct {
	Number int // among the controls of the survey, from 1
	What   string
	At     clearance.Point
	clearance.Stand
	ToSweepU, ToLeafU, ToCentreU, ToClosedEdgeU, PastOpenEdgeU, AheadU q.Length
	// Hold is the least hold that goes with its distance from the middle of the
	// doorway; see transit.HoldByDistance.
	Hold q.Time
}

// places sees where the controls are that are placed.
func (r *Room) places(o *opening.Opening, l *layout, s *spreads) {
	for i := range o.Controls {
		c := &o.Controls[i]
		if !c.Place.Known() {
			continue
		}
		stand := clearance.SwitchAt(l.leaf, l.open, l.controls[i])
		r.Controls = append(r.Controls, Place{
			Number: i + 1, What: c.What, At: l.controls[i], Stand: stand, Hold: transit.HoldByDistance(stand.SwitchToCentre),
			ToSweepU: s.of(i, cSweep), ToLeafU: s.of(i, cLeaf), ToCentreU: s.of(i, cCentre),
			ToClosedEdgeU: s.of(i, cClosedEdge), PastOpenEdgeU: s.of(i, cPastOpen), AheadU: s.of(i, cAhead),
		})
	}
}

// filled are the controls of a survey with the distances that were not taped
// taken from where they are.
func (r *Room) filled(o *opening.Opening) []opening.Control {
	all := append([]opening.Control(nil), o.Controls...)
	fill := func(to *length, d, u q.Length) {
		if !to.Known {
			*to = q.Give(max(d, 0), u)
		}
	}
	for i := range r.Controls {
		p := &r.Controls[i]
		c := &all[p.Number-1]
		if c.Side == "" {
			c.Side = sides[p.Side]
		}
		fill(&c.FromMiddle, p.SwitchToCentre, p.ToCentreU)
		fill(&c.FromSwing, p.SwitchToSweep, p.ToSweepU)
		fill(&c.FromOpenEdge, p.SwitchPastOpenEdge, p.PastOpenEdgeU)
		if c.Reach == "forward" {
			fill(&c.FromLatch, p.SwitchAhead, p.AheadU)
		} else {
			fill(&c.FromLatch, p.SwitchToClosedEdge, p.ToClosedEdgeU)
		}
	}
	return all
}

var sides = [...]opening.Side{clearance.Pull: opening.PullSide, clearance.Push: opening.PushSide}
