package swing

import (
	"math"

	"swingwright/internal/ode"
	"swingwright/quantity"
)

// net is the torque on the leaf at rest without any friction, N·m toward
// opening, once as it is felt going on to close, where a bolt that meets the lip
// holds against it, and once going on to open, where it does not.
func (p *phase) net(theta float64) (closing, opening, friction float64) {
	m := p.m
	opening = p.hand + m.breeze(theta) + m.push(theta)
	friction = m.v[HingeFriction]
	if m.link.Closer {
		drive := m.drive(theta)
		opening -= drive
		friction += math.Abs(drive) * m.v[CloserLoss]
	}
	if p.geared() {
		standing, back := p.standing(theta)
		opening, friction = opening+standing, friction+back
	}
	closing = opening
	if p.bolt || theta > m.v[BoltClears] && theta <= m.v[BoltMeets] {
		closing += m.bolt
	}
	return closing, opening, friction
}

// held tells that friction, or the bolt on its lip, holds the leaf at rest.
// A leaf that is held does not creep: the slow creep that the smoothed friction
// of the equation of motion would show is not followed.
func (p *phase) held(theta float64) bool {
	closing, opening, friction := p.net(theta)
	return closing+friction >= 0 && opening-friction <= 0
}

// sets decides which way a leaf at rest sets out.
func (p *phase) sets(theta float64) {
	closing, _, friction := p.net(theta)
	p.close = closing+friction < 0
}

// rests finds the first moment of a step at which the leaf is slow and held. It
// looks at the step's end, where a bolt that acts up to there still holds, and
// where the leaf is slowest on the way.
func (p *phase) rests(g *ode.Segment) (float64, bool) {
	still := func(y ode.State) bool { return math.Abs(y.Rate) < slow && p.held(y.Angle) }
	lo, hi := g.T0, g.T1
	if !still(g.To) {
		if hi = slowest(g); hi == g.T1 || !still(g.At(hi)) {
			return 0, false
		}
	}
	return first(lo, hi, func(t float64) bool { return still(g.At(t)) }), true
}

// first is when, between lo and hi, s, something comes to hold that holds at hi:
// at or just after it.
func first(lo, hi float64, holds func(t float64) bool) float64 {
	for hi-lo > ode.TimeTolerance {
		mid := lo + (hi-lo)/2
		if mid <= lo || mid >= hi {
			break
		}
		if holds(mid) {
			hi = mid
		} else {
			lo = mid
		}
	}
	return hi
}

// slowest is when, between the ends of a step, the leaf slows no more and
// gathers speed again; the step's end where it does not.
func slowest(g *ode.Segment) float64 {
	slows := func(rate, acceleration float64) bool { return rate*acceleration < 0 }
	if !slows(g.From.Rate, g.FromAcceleration) || slows(g.To.Rate, g.ToAcceleration) || g.From.Rate*g.To.Rate <= 0 {
		return g.T1
	}
	return turns(g)
}

// turns is when the acceleration changes sign within a step, to a 16,000th of
// it: the rate there is off by the square of that.
func turns(g *ode.Segment) float64 {
	lo, hi := g.T0, g.T1
	for range 14 {
		mid := lo + (hi-lo)/2
		if g.Acceleration(mid)*g.FromAcceleration > 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}

// zone sets what acts on the leaf beyond its angle, the way it is going, and
// returns the angle at which that ends.
func (p *phase) zone(theta, stop float64) float64 {
	m := p.m
	edge := 0.0
	if !p.close {
		edge = stop
	}
	near := func(at float64) {
		if p.close && at < theta && at > edge || !p.close && at > theta && at < edge {
			edge = at
		}
	}
	if m.seal != 0 {
		near(m.v[SealMeets])
	}
	if m.bolt != 0 && p.close {
		near(m.v[BoltMeets])
		near(m.v[BoltClears])
	}
	if p.mode != unpowered {
		near(m.motor.slowFrom)
	}
	switch {
	case p.exact:
		p.charted = false
	case p.close:
		p.charted = p.hand == 0 && !p.geared() && m.chart.covers(theta)
	default:
		p.charted = p.mode != unpowered && m.course.ok
	}
	inside := (theta + math.Min(edge, theta+1)) / 2
	p.seal = m.seal != 0 && inside < m.v[SealMeets]
	p.bolt = m.bolt != 0 && p.close && inside > m.v[BoltClears] && inside < m.v[BoltMeets]
	p.slow = p.mode != unpowered && inside > m.motor.slowFrom
	return edge
}

// ends finds the first moment of a step at which its phase is over: the edge
// of the zone is passed, or the leaf turns back.
func (p *phase) ends(g *ode.Segment, edge float64) (float64, bool) {
	out, back := ode.Rising, ode.Falling
	if p.close {
		out, back = ode.Falling, ode.Rising
	}
	at, over := 0.0, false
	if past := g.To.Angle - edge; (p.close && past <= 0) || (!p.close && past >= 0) || g.From.Rate*g.To.Rate <= 0 {
		at, over = g.AngleCrosses(edge, out)
	}
	if g.From.Rate*g.To.Rate <= 0 {
		if t, ok := g.RateCrosses(0, back); ok && (!over || t < at) {
			at, over = t, true
		}
	}
	return at, over
}

// peak keeps the largest rate of turn seen so far.
func (out *Motion) peak(g *ode.Segment) {
	look := func(y ode.State) {
		if rate := quantity.AngularSpeed(math.Abs(y.Rate)); rate > out.Peak {
			out.Peak, out.PeakAt = rate, quantity.Angle(y.Angle)
		}
	}
	look(g.To)
	if g.FromAcceleration*g.ToAcceleration < 0 {
		look(g.At(turns(g)))
	}
}
