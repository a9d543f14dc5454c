package record

import (
	"math"
	"sort"

	"swingwright/internal/ode"
	"swingwright/quantity"
	"swingwright/swing"
	"swingwright/trace"
)

// A Course is what a leaf does over time, put together part by part; the zero
// Course is a closed leaf at time zero.
type Course struct {
	parts []part
	zone  quantity.Angle // of the latch, below which the latch valve governs
}

// part is one movement or rest, from s to s.
type part struct {
	kind     trace.PhaseKind
	from, to float64
	at       func(t float64) ode.State // t from the part's begin, s
	held     float64                   // time at its begin in which the leaf does not move yet, s
}

// Lasts is how long the course is.
func (c *Course) Lasts() quantity.Time {
	if len(c.parts) == 0 {
		return 0
	}
	return quantity.Time(c.parts[len(c.parts)-1].to)
}

// After is the course from a time on, which becomes its zero: of a recording that began
// late, as with the leaf held open.
func (c *Course) After(t quantity.Time) *Course {
	out := &Course{zone: c.zone}
	for _, p := range c.parts {
		if p.to <= float64(t) {
			continue
		}
		late := math.Max(0, float64(t)-p.from)
		at := p.at
		p.at = func(x float64) ode.State { return at(x + late) }
		p.from, p.to = math.Max(p.from-float64(t), 0), p.to-float64(t)
		p.held = math.Max(0, p.held-late)
		out.parts = append(out.parts, p)
	}
	return out
}

// Before is the course up to a time, of a recording that was ended then.
func (c *Course) Before(t quantity.Time) *Course {
	out := &Course{zone: c.zone}
	for _, p := range c.parts {
		if p.from >= float64(t) {
			break
		}
		p.to = math.Min(p.to, float64(t))
		out.parts = append(out.parts, p)
	}
	return out
}

// Angle is where the leaf is at the end of the course.
func (c *Course) Angle() quantity.Angle {
	angle, _ := c.At(c.Lasts())
	return angle
}

// At is the leaf at a time: angle, and rate, positive on opening.
func (c *Course) At(t quantity.Time) (quantity.Angle, quantity.AngularSpeed) {
	if len(c.parts) == 0 {
		return 0, 0
	}
	i := sort.Search(len(c.parts), func(i int) bool { return c.parts[i].to > float64(t) })
	i = min(i, len(c.parts)-1)
	p := &c.parts[i]
	y := p.at(math.Max(0, math.Min(float64(t), p.to)-p.from))
	return quantity.Angle(y.Angle), quantity.AngularSpeed(y.Rate)
}

func (c *Course) add(kind trace.PhaseKind, lasts float64, at func(t float64) ode.State) *part {
	from := float64(c.Lasts())
	c.parts = append(c.parts, part{kind: kind, from: from, to: from + lasts, at: at})
	return &c.parts[len(c.parts)-1]
}

// Rest lets the leaf stand where it is: at rest before the first movement, held
// when open, closed in its frame after.
func (c *Course) Rest(lasts quantity.Time) *Course {
	angle := float64(c.Angle())
	kind := trace.Resting
	switch {
	case angle > 1e-6:
		kind = trace.Held
	case len(c.parts) > 0:
		kind = trace.Closed
	}
	c.add(kind, float64(lasts), func(float64) ode.State { return ode.State{Angle: angle} })
	return c
}

// Turn turns the leaf by hand, as smoothly as hands do: with the least jerk,
// θ = 10x³ − 15x⁴ + 6x⁵ of the way (Flash and Hogan, J. Neurosci. 5 (1985) 1688).
func (c *Course) Turn(kind trace.PhaseKind, to quantity.Angle, lasts quantity.Time) *Course {
	from := float64(c.Angle())
	way, d := float64(to)-from, float64(lasts)
	c.add(kind, d, func(t float64) ode.State {
		x := t / d
		return ode.State{Angle: from + way*x*x*x*(10+x*(6*x-15)), Rate: way / d * 30 * x * x * (1 - x) * (1 - x)}
	})
	return c
}

// Pushes opens or closes the leaf by hand as hands do that are not made to hurry: in
// several pushes that run into each other, each with the least jerk. shares are what each
// push takes the leaf on, of the way; every next one begins when the one before has run a
// share of its own time, 0 to 1. (Movements as sums of such parts: from memory.)
func (c *Course) Pushes(kind trace.PhaseKind, to quantity.Angle, lasts quantity.Time, shares []float64, overlap float64) *Course {
	from := float64(c.Angle())
	sum := 0.0
	for _, s := range shares {
		sum += s
	}
	// n pushes of time d, begun one after another at overlap·d, last d·(1 + (n−1)·overlap)
	d := float64(lasts) / (1 + float64(len(shares)-1)*overlap)
	way := float64(to) - from
	c.add(kind, float64(lasts), func(t float64) ode.State {
		y := ode.State{Angle: from}
		for k, s := range shares {
			x := math.Max(0, math.Min(1, (t-float64(k)*overlap*d)/d))
			y.Angle += way * s / sum * x * x * x * (10 + x*(6*x-15))
			y.Rate += way * s / sum / d * 30 * x * x * (1 - x) * (1 - x)
		}
		return y
	})
	return c
}

// Trapezoid turns the leaf at an even rate that it gathers and loses evenly, each
// over a share of the time, 0 to 0.5.
func (c *Course) Trapezoid(kind trace.PhaseKind, to quantity.Angle, lasts quantity.Time, ramp float64) *Course {
	from, d := float64(c.Angle()), float64(lasts)
	top := (float64(to) - from) / (d * (1 - ramp))
	r := ramp * d
	c.add(kind, d, func(t float64) ode.State {
		switch {
		case t < r:
			return ode.State{Angle: from + top*t*t/(2*r), Rate: top * t / r}
		case t <= d-r:
			return ode.State{Angle: from + top*(t-r/2), Rate: top}
		}
		left := d - t
		return ode.State{Angle: float64(to) - top*left*left/(2*r), Rate: top * left / r}
	})
	return c
}

// Bounce throws the leaf back from its frame to an angle, from where it falls
// shut as evenly as it slowed.
func (c *Course) Bounce(to quantity.Angle, lasts quantity.Time) *Course {
	d := float64(lasts)
	v := 4 * float64(to) / d
	c.add(trace.Rebound, d, func(t float64) ode.State {
		return ode.State{Angle: v * t * (1 - t/d), Rate: v * (1 - 2*t/d)}
	})
	return c
}

// Close lets the leaf go and follows the model until it has closed or rests.
func (c *Course) Close(mv *swing.Mover, m *swing.Model) swing.Motion {
	angle, ok := m.LeafAngle(quantity.Angle(m.Values()[swing.LatchZone]))
	if c.zone = 0; ok && m.Linkage().Closer {
		c.zone = angle
	}
	var out swing.Motion
	c.follow(mv, trace.Sweep, func() quantity.Time {
		out = mv.Close(m, c.Angle(), nil)
		return out.Time
	})
	return out
}

// Push opens the leaf with a constant torque until it reaches an angle.
func (c *Course) Push(mv *swing.Mover, m *swing.Model, torque quantity.Torque, to quantity.Angle) swing.Motion {
	var out swing.Motion
	c.follow(mv, trace.Opening, func() quantity.Time {
		out = mv.Open(m, torque, c.Angle(), to, nil)
		return out.Time
	})
	return out
}

// Drive opens the leaf under power; the time before it moves is rest.
func (c *Course) Drive(mv *swing.Mover, m *swing.Model) swing.Powered {
	var out swing.Powered
	c.follow(mv, trace.Opening, func() quantity.Time {
		out = mv.Drive(m, 0, c.Angle(), nil)
		return out.Time
	})
	if len(c.parts) > 0 {
		c.parts[len(c.parts)-1].held = float64(out.Starts)
	}
	return out
}

// follow adds a motion of the model, step by step as it was reckoned.
func (c *Course) follow(mv *swing.Mover, kind trace.PhaseKind, run func() quantity.Time) {
	var steps []ode.Segment
	begin := ode.State{Angle: float64(c.Angle())}
	watch := mv.Watch
	mv.Watch = func(g *ode.Segment) { steps = append(steps, *g) }
	lasts := run()
	mv.Watch = watch
	c.add(kind, float64(lasts), func(t float64) ode.State {
		if len(steps) == 0 || t < steps[0].T0 {
			return begin
		}
		i := sort.Search(len(steps), func(i int) bool { return steps[i].T1 >= t })
		if i == len(steps) {
			return steps[i-1].To
		}
		return steps[i].At(t)
	})
}
