package report

import (
	"swingwright/clearance"
	"swingwright/judge"
	"swingwright/opening"
	"swingwright/plan"
	"swingwright/quantity"
)

// roomJSON is the room that the swing has: lengths in m, angles in rad, places
// along the closed leaf and off to the pull side from the hinge pin.
type roomJSON struct {
	Open     valueJSON       `json:"open_angle"`
	Opens    opensJSON       `json:"opens"`
	Contacts []contactJSON   `json:"contacts"`
	Wall     *wallJSON       `json:"wall"`
	Nearest  *nearestJSON    `json:"nearest"`
	Widths   []widthJSON     `json:"widths"`
	Over     *overJSON       `json:"over_head"`
	Cord     *cordJSON       `json:"cord"`
	Marks    []floorMarkJSON `json:"floor_marks"`
	Controls []controlJSON   `json:"controls"`
	Doubt    string          `json:"doubt,omitempty"`
	Problem  string          `json:"problem,omitempty"`
}

type opensJSON struct {
	Angle number        `json:"angle"`
	U     number        `json:"u"`
	By    string        `json:"by"`
	Free  judge.Verdict `json:"free"`
}

type contactJSON struct {
	Moving string `json:"moving"`
	Fixed  string `json:"fixed"`
	Angle  number `json:"angle"`
	U      number `json:"u"`
	Along  number `json:"along"`
	Off    number `json:"off"`
}

// spreadJSON is a distance or an angle with its standard uncertainty.
type spreadJSON struct {
	Value number `json:"value"`
	U     number `json:"u"`
}

func spreadOf[Q quantity.Quantity](value, u Q) spreadJSON {
	return spreadJSON{number(value), number(u)}
}

type wallJSON struct {
	Distance spreadJSON    `json:"distance"`
	Gap      number        `json:"gap"`
	StopAt   *spreadJSON   `json:"stop_at"`
	First    string        `json:"first,omitempty"`
	Left     spreadJSON    `json:"left"`
	Near     string        `json:"near"`
	Keeps    judge.Verdict `json:"keeps"`
}

type nearestJSON struct {
	Distance spreadJSON `json:"distance"`
	Moving   string     `json:"moving"`
	Fixed    string     `json:"fixed"`
}

type widthJSON struct {
	Angle  number     `json:"angle"`
	Clear  spreadJSON `json:"clear"`
	ToLeaf number     `json:"to_leaf"`
	Net    number     `json:"net"`
	Cuts   []cutJSON  `json:"cuts"`
}

type cutJSON struct {
	What string `json:"what"`
	Into number `json:"into"`
	From number `json:"from"`
	To   number `json:"to"`
}

type overJSON struct {
	Side  opening.Side  `json:"side"`
	Free  spreadJSON    `json:"free"`
	Needs number        `json:"needs"`
	Keeps judge.Verdict `json:"keeps"`
}

type cordJSON struct {
	To         number     `json:"to"`
	Longest    spreadJSON `json:"longest"`
	LongestAt  number     `json:"longest_at"`
	Shortest   number     `json:"shortest"`
	ShortestAt number     `json:"shortest_at"`
	Length     number     `json:"length"`
}

type floorMarkJSON struct {
	Angle  number `json:"angle"`
	Chord  number `json:"chord"`
	Across number `json:"across"`
	U      number `json:"u"`
	For    string `json:"for"`
}

type controlJSON struct {
	Number     int        `json:"number"`
	What       string     `json:"what"`
	Side       string     `json:"side"`
	Swing      spreadJSON `json:"from_swing"`
	OpenLeaf   spreadJSON `json:"from_open_leaf"`
	Middle     spreadJSON `json:"from_middle"`
	ClosedEdge spreadJSON `json:"from_closed_edge"`
	Ahead      spreadJSON `json:"ahead"`
	PastOpen   spreadJSON `json:"past_open_edge"`
	Hidden     bool       `json:"hidden"`
	Hold       number     `json:"hold"`
}

// roomOf is the room of a plan; null where the size of the leaf is not known.
func roomOf(p *plan.Plan) *roomJSON {
	r := p.Room
	if r == nil || !r.Known {
		return nil
	}
	out := &roomJSON{
		Open: rowOf(quantity.DimAngle, r.Open), Opens: opensJSON{number(r.Opens.Angle), number(r.Opens.U), r.Opens.By, r.Opens.Free},
		Contacts: []contactJSON{}, Widths: []widthJSON{}, Marks: []floorMarkJSON{}, Controls: []controlJSON{}, Doubt: r.Doubt,
	}
	for _, c := range r.Contacts {
		out.Contacts = append(out.Contacts, contactJSON{c.Moving, c.Fixed, number(c.Angle), number(c.U), number(c.At.X), number(c.At.Y)})
	}
	out.around(r)
	for _, w := range r.Widths {
		out.Widths = append(out.Widths, widthJSON{number(w.Angle), spreadOf(w.Bare, w.U), number(w.ToLeaf), number(w.Net), cutsOf(w.Cuts)})
	}
	for _, m := range r.Marks {
		out.Marks = append(out.Marks, floorMarkJSON{number(m.Angle), number(m.Chord), number(m.Across), number(m.U), m.For})
	}
	for i := range r.Controls {
		out.Controls = append(out.Controls, controlOf(&r.Controls[i]))
	}
	if r.Problem != nil {
		out.Problem = r.Problem.Error()
	}
	return out
}

// around puts in what is there only where it was measured.
func (out *roomJSON) around(r *plan.Room) {
	if w := r.Wall; w != nil {
		out.Wall = &wallJSON{
			Distance: spreadOf(w.Distance.Value, w.Distance.U), Gap: number(clearance.WallGap), First: w.First,
			Left: spreadOf(w.Left.Value, w.Left.U), Near: w.Near, Keeps: w.Keeps,
		}
		if !w.Turns {
			at := spreadOf(w.StopAt.Value, w.StopAt.U)
			out.Wall.StopAt = &at
		}
	}
	if n := r.Nearest; n != nil {
		out.Nearest = &nearestJSON{spreadOf(n.Distance, n.U), n.Moving, n.Fixed}
	}
	if o := r.Over; o != nil {
		out.Over = &overJSON{o.Side, spreadOf(o.Free.Value, o.Free.U), number(o.Needs), o.Keeps}
	}
	if c := r.Cord; c != nil {
		out.Cord = cordOf(c)
	}
}

func cutsOf(all []clearance.Cut) []cutJSON {
	out := make([]cutJSON, len(all))
	for i, c := range all {
		out[i] = cutJSON{c.Name, number(c.Into), number(c.Heights.From), number(c.Heights.To)}
	}
	return out
}

func controlOf(p *plan.Place) controlJSON {
	return controlJSON{
		Number: p.Number, What: p.What, Side: sideWords[p.Side], Hidden: p.Hidden, Hold: number(p.Hold),
		Swing: spreadOf(p.SwitchToSweep, p.ToSweepU), OpenLeaf: spreadOf(p.SwitchToLeaf, p.ToLeafU), Middle: spreadOf(p.SwitchToCentre, p.ToCentreU),
		ClosedEdge: spreadOf(p.SwitchToClosedEdge, p.ToClosedEdgeU), Ahead: spreadOf(p.SwitchAhead, p.AheadU), PastOpen: spreadOf(p.SwitchPastOpenEdge, p.PastOpenEdgeU),
	}
}

var sideWords = [...]string{clearance.Pull: "pull", clearance.Push: "push"}

func cordOf(c *plan.Cord) *cordJSON {
	return &cordJSON{number(c.To), spreadOf(c.Longest, c.U), number(c.LongestAt), number(c.Shortest), number(c.ShortestAt), number(c.Length)}
}
