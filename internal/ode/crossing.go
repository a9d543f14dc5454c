package ode

import "math"

// TimeTolerance is how late a crossing may be reported, s.
const TimeTolerance = 1e-9

// looks is into how many parts Crosses divides a step.
const looks = 8

// Direction tells which way a crossing goes.
type Direction int8

// The directions. A rising crossing goes from below the level to it or above.
const (
	Either Direction = iota
	Rising
	Falling
)

// from tells whether a crossing that leaves a value like x goes this way.
func (d Direction) from(x float64) bool {
	return d == Either || (d == Rising) == (x < 0)
}

// AngleCrosses finds the first time (s) after the begin of the segment, up to
// and with its end, at which the angle crosses level (rad) in direction d. No
// crossing is missed, however short the visit, if it lasts longer than
// [TimeTolerance]. The time is at or just after the crossing, never before it,
// so that a phase begun there does not meet the same crossing again; a
// segment that begins on the level does not cross it by leaving.
func (g *Segment) AngleCrosses(level float64, d Direction) (t float64, ok bool) {
	b := g.angleOver(level)
	if b.clear() {
		return 0, false
	}
	part, before := b.isolate(stretch{0, 1}, TimeTolerance/(g.T1-g.T0), d)
	if before == 0 {
		return 0, false
	}
	if t, ok := g.glide(part, before, level); ok {
		return t, true
	}
	return g.refineIn(part, before, func(t float64) float64 { return g.At(t).Angle - level }), true
}

// glide finds the crossing of a level within a part of the segment by Newton's
// method. ok is false where it does not see the angle pass from before's side to the
// other within [TimeTolerance] about what it found.
func (g *Segment) glide(part stretch, before, level float64) (t float64, ok bool) {
	h, c := g.T1-g.T0, g.powers()
	angle := func(u float64) float64 {
		return c[0] - level + u*(c[1]+u*(c[2]+u*(c[3]+u*(c[4]+u*c[5]))))
	}
	u, narrow := (part.from+part.to)/2, 0.01*TimeTolerance/h
	for range 8 {
		step := angle(u) / (c[1] + u*(2*c[2]+u*(3*c[3]+u*(4*c[4]+u*5*c[5]))))
		u -= step
		if !(u > part.from && u < part.to) {
			return 0, false
		}
		if math.Abs(step) < narrow {
			break
		}
	}
	t = g.T0 + u*h + TimeTolerance/2
	late, early := (t-g.T0)/h, (t-TimeTolerance-g.T0)/h
	if !(early > part.from && late < part.to) || angle(early)*before <= 0 || (g.At(t).Angle-level)*before > 0 {
		return 0, false
	}
	return t, true
}

// RateCrosses does for the rate (rad/s) what AngleCrosses does for the angle.
func (g *Segment) RateCrosses(level float64, d Direction) (t float64, ok bool) {
	b := g.rateOver(level)
	if b.clear() {
		return 0, false
	}
	part, before := b.isolate(stretch{0, 1}, TimeTolerance/(g.T1-g.T0), d)
	if before == 0 {
		return 0, false
	}
	return g.refineIn(part, before, func(t float64) float64 { return g.At(t).Rate - level }), true
}

// Crosses does the same for the zeros of any continuous f, which it can only
// look at here and there: at both ends and seven times between. Two crossings
// closer together than an eighth of the step may be missed.
func (g *Segment) Crosses(f func(t float64, y State) float64, d Direction) (t float64, ok bool) {
	at := func(t float64) float64 { return f(t, g.At(t)) }
	t0, f0 := g.T0, f(g.T0, g.From)
	for i := 1; i <= looks; i++ {
		t1 := g.time(float64(i) / looks)
		f1 := at(t1)
		if f0 != 0 && f0*sign(f1) <= 0 && d.from(f0) {
			return refine(at, t0, t1, f0, f1), true
		}
		t0, f0 = t1, f1
	}
	return 0, false
}

// refineIn narrows the crossing in an isolated part down on f. Where an
// end of the part lies within rounding of the level, f may have the
// wrong sign there; before has the right one.
func (g *Segment) refineIn(part stretch, before float64, f func(t float64) float64) float64 {
	const least = 1e-300
	t0, t1 := g.time(part.from), g.time(part.to)
	f0, f1 := f(t0), f(t1)
	if f0*before <= 0 {
		f0 = math.Copysign(least, before)
	}
	if f1*before >= 0 {
		f1 = math.Copysign(least, -before)
	}
	return refine(f, t0, t1, f0, f1)
}

// time is the time at the share u of the step.
func (g *Segment) time(u float64) float64 {
	if u == 1 {
		return g.T1
	}
	return g.T0 + u*(g.T1-g.T0)
}

// refine narrows the change of sign of f between a and b down to
// [TimeTolerance] and returns the later end, where f has changed sign or is
// zero. Method ITP with k1 = 0.2/(b-a), k2 = 2, n0 = 1 (Oliveira, Takahashi,
// "An enhancement of the bisection method average performance preserving
// minmax optimality", ACM Trans. Math. Softw. 47 (2021) 5): it needs at most
// one evaluation more than bisection.
func refine(f func(t float64) float64, a, b, fa, fb float64) float64 {
	const eps = TimeTolerance / 2
	k1 := 0.2 / (b - a)
	reach := eps * math.Exp2(math.Max(0, math.Ceil(math.Log2((b-a)/TimeTolerance)))+1)
	for b-a > TimeTolerance && fb != 0 && fa*sign(fb) < 0 {
		mid := a + (b-a)/2
		if mid <= a || mid >= b {
			break // as narrow as numbers of this size can be
		}
		secant := (fb*a - fa*b) / (fb - fa)
		x := mid
		if toward := mid - secant; math.Abs(toward) > k1*(b-a)*(b-a) {
			x = secant + math.Copysign(k1*(b-a)*(b-a), toward)
		}
		if r := reach - (b-a)/2; math.Abs(x-mid) > r {
			x = mid - math.Copysign(max(r, 0), mid-secant)
		}
		fx := f(x)
		if fx*sign(fa) > 0 {
			a, fa = x, fx
		} else {
			b, fb = x, fx
		}
		reach /= 2
	}
	return b
}

func sign(x float64) float64 {
	switch {
	case x < 0:
		return -1
	case x > 0:
		return 1
	}
	return 0
}
