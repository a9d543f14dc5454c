package drilling

import (
	"math"

	"swingwright/judge"
	"swingwright/opening"
	q "swingwright/quantity"
)

// Check is one distance that a hole has to keep.
type Check struct {
	What    string   // what it is kept from, or in
	Room    q.Length // how much more there is than needed; below zero it clashes
	U       q.Length // standard uncertainty of the room
	Verdict judge.Verdict
	// Advice tells a distance that nobody published.
	Advice bool
}

// Region is an upright rectangle on a face in which something lies.
type Region struct {
	Kind     opening.InnerKind
	What     string
	From, To Place // corners, From the one with the smaller X and Y
	U        q.Length
}

// Old is a hole that is there.
type Old struct {
	At       Place
	Diameter q.Length
	U        q.Length
	Filled   string
}

// EdgeDiameters is the least distance from a hole's middle to an edge, in diameters of
// the hole (from memory of the trade's practice).
const EdgeDiameters = 2

// surround gathers what lies in a face.
func (l *layer) surround(s *Laid) {
	for i := range l.o.Leaf.Inside {
		in := &l.o.Leaf.Inside[i]
		if on(in.On) != s.Face.On {
			continue
		}
		r := Region{Kind: in.Kind, What: string(in.Kind), From: Place{X: in.Along.Value}, To: Place{X: in.AlongTo.Value, Y: q.Length(math.Inf(1))}}
		r.U = hypot(in.Along.WithSpread(taped).U, 0)
		if in.Across.Known {
			r.From.Y = in.Across.Value
		}
		if in.AcrossTo.Known {
			r.To.Y = in.AcrossTo.Value
		} else if s.Height.Known {
			r.To.Y = s.Height.Value
		}
		s.Inside = append(s.Inside, r.upright())
	}
	if s.Face.On == opening.LeafFace {
		l.lites(s)
	}
	for _, old := range l.o.Leaf.Holes {
		if on(old.On) == s.Face.On && (old.Side == "" || old.Side == s.Face.Side) {
			s.Old = append(s.Old, Old{Place{old.Along.Value, old.Across.Value}, old.Diameter.Value, old.Along.WithSpread(taped).U, old.Filled})
		}
	}
}

func on(s opening.Surface) opening.Surface {
	if s == "" {
		return opening.LeafFace
	}
	return s
}

// upright is the region with its corners in order.
func (r Region) upright() Region {
	r.From.X, r.To.X = min(r.From.X, r.To.X), max(r.From.X, r.To.X)
	r.From.Y, r.To.Y = min(r.From.Y, r.To.Y), max(r.From.Y, r.To.Y)
	return r
}

// lites are the cut-outs whose place is known.
func (l *layer) lites(s *Laid) {
	for i := range l.o.Leaf.Lites {
		lite := &l.o.Leaf.Lites[i]
		x := lite.FromHinge
		if !x.Known {
			x = s.Width
			x.Value /= 2
		}
		if !lite.FromTop.Known || !x.Known {
			continue
		}
		half, top := lite.Width.Value/2, lite.FromTop.Value
		s.Inside = append(s.Inside, Region{
			Kind: opening.InLite, What: "lite",
			From: Place{x.Value - half, top}, To: Place{x.Value + half, top + lite.Height.Value},
			U: hypot(x.WithSpread(taped).U, 0),
		})
	}
}

// distance is how far a place lies outside a region; below zero how deep inside.
func (r *Region) distance(p Place) q.Length {
	dx := float64(max(r.From.X-p.X, p.X-r.To.X))
	dy := float64(max(r.From.Y-p.Y, p.Y-r.To.Y))
	if dx > 0 && dy > 0 {
		return q.Length(math.Hypot(dx, dy))
	}
	return q.Length(max(dx, dy))
}

// check holds every hole to be drilled on a face against what is around it.
func (l *layer) check(s *Laid) {
	for i := range s.Holes {
		h := &s.Holes[i]
		if !h.Planned {
			continue
		}
		l.edges(s, h)
		l.inside(s, h)
		l.others(s, i)
		l.old(s, h)
	}
}

// add judges a room.
func (l *layer) add(h *Hole, what string, room, u q.Length, advice bool) {
	h.Checks = append(h.Checks, Check{what, room, u, judge.Decide(float64(room), float64(u), l.policy), advice})
}

// edges looks at the nearest edge.
func (l *layer) edges(s *Laid, h *Hole) {
	type edge struct {
		name  string
		d, u  q.Length
		along bool
	}
	names := [4]string{"hinge edge", "latch edge", "top edge", "bottom edge"}
	switch s.Face.On {
	case opening.HeadFace:
		names = [4]string{"hinge jamb", "latch jamb", "lower edge", "upper edge"}
	case opening.Soffit:
		names = [4]string{"hinge jamb", "latch jamb", "leaf", "far edge of the stop"}
	case opening.HingeJamb, opening.LatchJamb:
		names = [4]string{"edge at the opening", "outer edge", "head", "floor"}
	case opening.LatchRabbet:
		names = [4]string{"stop", "edge at the pull side", "head", "floor"}
	case opening.LatchStop:
		names = [4]string{"edge at the leaf", "far edge of the stop", "head", "floor"}
	}
	edges := []edge{{names[0], h.At.X, 0, true}, {names[2], h.At.Y, 0, false}}
	if s.Width.Known {
		edges = append(edges, edge{names[1], s.Width.Value - h.At.X, s.Width.WithSpread(taped).U, true})
	}
	if s.Height.Known {
		edges = append(edges, edge{names[3], s.Height.Value - h.At.Y, s.Height.WithSpread(taped).U, false})
	}
	if h.Spec.Shape == opening.CutOut {
		along, across := h.Half()
		for i := range edges {
			edges[i].d -= map[bool]q.Length{true: along, false: across}[edges[i].along]
		}
	}
	near := edges[0]
	for _, e := range edges[1:] {
		if e.d < near.d {
			near = e
		}
	}
	if h.Spec.Shape == opening.CutOut {
		l.add(h, "metal or wood left to the "+near.name, near.d, hypot(h.U, near.u), true)
		return
	}
	l.add(h, "2 diameters from the "+near.name, near.d-EdgeDiameters*h.Diameter, hypot(h.U, near.u), true)
}

// inside looks at what is hidden, and at what the screws are to hold in.
func (l *layer) inside(s *Laid, h *Hole) {
	screwed := h.Spec.Fastener != opening.ThroughBolt && h.Spec.Fastener != opening.Passage && !h.Transferred
	var held *Region
	for i := range s.Inside {
		r := &s.Inside[i]
		switch {
		case !r.Kind.Holds():
			l.add(h, "clear of the "+r.What, r.distance(h.At)-h.Diameter/2, hypot(h.U, r.U), false)
		case screwed && (held == nil || r.distance(h.At) < held.distance(h.At)):
			held = r
		}
	}
	if held != nil {
		l.add(h, "within the "+held.What, -held.distance(h.At)-h.Diameter/2, hypot(h.U, held.U), false)
	}
}

// same is how near two middles lie that are meant to be one.
const same = 1.5 * q.Millimetre

// others looks at the other holes of the face, each pair once.
func (l *layer) others(s *Laid, i int) {
	h := &s.Holes[i]
	for k := range s.Holes {
		other := &s.Holes[k]
		if k == i || other.Planned && k < i {
			continue
		}
		d := apart(h.At, other.At)
		web := between(h, other)
		switch {
		case d <= same && h.Of != other.Of:
			h.Checks = append(h.Checks, Check{What: "shares the hole " + other.Name(), Verdict: judge.Meets})
		case web < 0 && other.Planned && !h.Transferred && !other.Transferred:
			l.problem(h, "check their places and diameters", "it overlaps %s by %s", other.Name(), both(-web))
		case web < h.Diameter: // farther ones are no matter
			l.add(h, "apart from "+other.Name(), web, hypot(h.U, other.U), false)
		}
	}
}

// old looks at holes that are there.
func (l *layer) old(s *Laid, h *Hole) {
	for _, o := range s.Old {
		d := apart(h.At, o.At)
		web := d - (h.Diameter+o.Diameter)/2
		switch {
		case d <= 2*same && o.Diameter <= h.Diameter:
			h.Checks = append(h.Checks, Check{What: "drills out the old hole of " + both(o.Diameter), Verdict: judge.Meets})
		case web < h.Diameter:
			l.add(h, "apart from the old hole of "+both(o.Diameter), web, hypot(h.U, o.U), false)
		}
	}
}

// between is what is left between two holes; below zero they overlap.
func between(a, b *Hole) q.Length {
	if a.Spec.Shape != opening.CutOut && b.Spec.Shape != opening.CutOut {
		return apart(a.At, b.At) - (a.Diameter+b.Diameter)/2
	}
	ax, ay := a.Half()
	bx, by := b.Half()
	r := Region{From: Place{a.At.X - ax - bx, a.At.Y - ay - by}, To: Place{a.At.X + ax + bx, a.At.Y + ay + by}}
	return r.distance(b.At)
}

func apart(a, b Place) q.Length { return hypot(a.X-b.X, a.Y-b.Y) }

// Worst is what a hole's checks come to: the worst verdict, and its check.
func (h *Hole) Worst() (judge.Verdict, *Check) {
	worst, at := judge.Meets, (*Check)(nil)
	for i := range h.Checks {
		c := &h.Checks[i]
		if rank(c.Verdict) > rank(worst) || at == nil {
			worst, at = c.Verdict, c
		}
	}
	return worst, at
}

func rank(v judge.Verdict) int {
	switch v {
	case judge.FallsShort:
		return 3
	case judge.TooClose:
		return 2
	case judge.NotMeasured:
		return 1
	}
	return 0
}
