package tune

import (
	"math"
	"math/rand/v2"

	"swingwright/internal/ode"
	"swingwright/quantity"
	"swingwright/swing"
	"swingwright/window"
)

const deg = quantity.Degree

// typical is what is known of an ordinary interior leaf with a regular-arm closer, latch
// and light seals, by sheets and tape; all its numbers are invented.
func typical() Known {
	var v, u swing.Values
	in := float64(quantity.Inch)
	v[swing.LeafWidth], v[swing.LeafHeight], v[swing.LeafThickness] = 35.75*in, 83.75*in, 1.75*in
	v[swing.PinToEdge], v[swing.PinToFace] = 0.125*in, 0.375*in
	v[swing.SlabMass], u[swing.SlabMass] = 54, 54*0.08
	v[swing.PinionX], v[swing.PinionY], v[swing.ShoeX], v[swing.ShoeY] = 6.5*in, 2.25*in, 12.5*in, 1*in
	v[swing.MainArm], v[swing.Forearm] = 11*in, 10.47*in
	v[swing.SpringClosed], v[swing.SpringRise] = 10.5, 2.6
	u[swing.SpringClosed] = 0.08 * 10.5
	v[swing.CloserLoss], u[swing.CloserLoss] = 0.25, 0.04
	v[swing.SweepViscous], v[swing.LatchViscous] = 35, 90
	v[swing.LatchZone], u[swing.LatchZone] = float64(20*deg), float64(3*deg)
	v[swing.Blend], v[swing.OilFactor] = float64(1.5*deg), 1
	v[swing.FreeFlow] = 2
	v[swing.HingeFriction], u[swing.HingeFriction] = 1, 0.4
	v[swing.BoltForce], v[swing.BoltRadius] = 6.5, 0.89
	u[swing.BoltForce] = 1
	v[swing.BoltClears], v[swing.BoltMeets] = float64(0.6*deg), float64(2*deg)
	v[swing.SealStiffness], v[swing.SealMeets] = 60, float64(1*deg)
	u[swing.Pressure] = 1
	v[swing.PressureFades] = float64(6 * deg)
	v[swing.DragCoefficient], v[swing.AirDensity] = 1.9, 1.2
	return Known{
		Values: v, U: u, Link: swing.Linkage{Closer: true, OnLeaf: true, Bend: 1, Latch: true},
		Spring: window.Spring{{Setting: 1, Closed: 5, Rise: 1.2}, {Setting: 2, Closed: 7.5, Rise: 1.9}, {Setting: 3, Closed: 10.5, Rise: 2.6}, {Setting: 4, Closed: 14.5, Rise: 3.6}, {Setting: 5, Closed: 20, Rise: 5}},
	}
}

// A door is the truth of a simulated opening, which nobody knows.
type door struct {
	known  Known         // what is believed of it
	values swing.Values  // what it is like, but for spring and valves
	spring window.Spring // every power as it really is
	c, u0  [2]float64    // of sweep and latch: resistance times turns beyond where flow stops, and that
	share  [2]float64    // of the orifice: b·T/a² with T that of Known
	random *rand.Rand
}

// newDoor draws a door that differs from what is known of it within the spreads.
func newDoor(seed uint64) *door {
	d := &door{known: typical(), random: rand.New(rand.NewPCG(seed, 0x70ae))}
	d.values = d.known.Values
	for i, u := range d.known.U {
		if swing.Value(i) != swing.SpringClosed {
			d.values[i] += u * d.normal()
		}
	}
	for _, i := range []swing.Value{swing.HingeFriction, swing.BoltForce, swing.CloserLoss} {
		d.values[i] = max(d.values[i], 0.2*d.known.Values[i])
	}
	strong := math.Exp(0.08 * d.normal())
	for _, p := range d.known.Spring {
		p.Closed, p.Rise = p.Closed*quantity.Torque(strong), p.Rise*quantity.TorsionRate(strong)
		d.spring = append(d.spring, p)
	}
	for i, typical := range [2]float64{20, 50} {
		d.u0[i] = -0.1 + 0.35*d.random.Float64()
		d.c[i] = typical * math.Exp(0.4*d.normal())
	}
	if d.random.Float64() < 0.5 {
		d.share = [2]float64{0.3 * d.random.Float64(), 0.3 * d.random.Float64()}
	}
	return d
}

// normal is a normal deviate, none wilder than two and a half.
func (d *door) normal() float64 {
	for {
		if x := d.random.NormFloat64(); math.Abs(x) < 2.5 {
			return x
		}
	}
}

// resistance is that of a valve at so many turns.
func (d *door) resistance(valve int, at quantity.Turns) (a, b float64) {
	a = d.c[valve] / (float64(at) - d.u0[valve])
	return a, d.share[valve] * a * a / d.known.Values[swing.SpringClosed]
}

// turned is the door at a state.
func (d *door) turned(s State) swing.Values {
	v := d.values
	p := d.spring.At(s.Power)
	v[swing.SpringClosed], v[swing.SpringRise] = float64(p.Closed), float64(p.Rise)
	v[swing.SweepViscous], v[swing.SweepOrifice] = d.resistance(0, s.Sweep)
	v[swing.LatchViscous], v[swing.LatchOrifice] = d.resistance(1, s.Latch)
	return v
}

func (d *door) model(s State) swing.Model {
	v := d.turned(s)
	m, err := swing.New(&v, d.known.Link)
	if err != nil {
		panic(err) // the arm is always the same
	}
	return m
}

// path is a closing's angles, read by time.
type path struct {
	segments []ode.Segment
	from     float64
	end      swing.Motion
}

func pathOf(m *swing.Model, from float64) path {
	p := path{from: from}
	mv := swing.Mover{Watch: func(s *ode.Segment) { p.segments = append(p.segments, *s) }}
	p.end = mv.Close(m, quantity.Angle(from), nil)
	return p
}

func (p *path) at(t float64) float64 {
	if t <= 0 {
		return p.from
	}
	for i := range p.segments {
		if s := &p.segments[i]; t <= s.T1 {
			return s.At(t).Angle
		}
	}
	return float64(p.end.Angle)
}

// A recorder is how a curve is recorded.
type recorder struct {
	rate  float64 // samples a second
	noise float64 // of an angle, rad
	from  float64 // rad
	// A touch holds the leaf at an angle for some time.
	touch, held float64
	outliers    float64 // share of wild samples
	walk        float64 // by which the angle wanders off, rad over the root of a second, as of a rate that was summed up
}

var phone = recorder{rate: 100, noise: 0.1 * degree, from: 90 * degree}

// curve records a closing.
func (d *door) curve(s State, how recorder) Curve {
	m := d.model(s)
	first := pathOf(&m, how.from)
	stop := first.end.Time
	touched := math.Inf(1)
	var second path
	if how.held > 0 {
		for t := 0.0; t < float64(stop); t += 0.001 {
			if first.at(t) <= how.touch {
				touched = t
				break
			}
		}
		second = pathOf(&m, first.at(touched))
		stop = quantity.Time(touched+how.held) + second.end.Time
	}
	const lead = 0.8
	c := Curve{State: s, U: how.noise}
	wander := 0.0
	for t := 0.0; t < lead+float64(stop)+0.8; t += 1 / how.rate {
		at := t - lead
		theta := first.at(at)
		if at > touched {
			theta = second.at(at - touched - how.held)
		}
		wander += how.walk / math.Sqrt(how.rate) * d.random.NormFloat64()
		theta += wander + how.noise*d.random.NormFloat64()
		if d.random.Float64() < how.outliers {
			theta += 5 * degree * d.random.NormFloat64()
		}
		c.T, c.Theta = append(c.T, t), append(c.Theta, theta)
	}
	return c
}

// laps times a closing with a stopwatch, the mean of some runs good to u; none where the
// leaf does not close.
func (d *door) laps(s State, u float64) []Lap {
	m := d.model(s)
	marks := []swing.Mark{{Angle: 90 * deg}, {Angle: 12 * deg}, {Angle: 10 * deg}, {Angle: 0}}
	var mv swing.Mover
	if !mv.Close(&m, 90*deg, marks).End.Shut() {
		marks = marks[:3]
	}
	var all []Lap
	add := func(from, to int) {
		if to < len(marks) && !math.IsNaN(float64(marks[to].Time)) {
			t := float64(marks[to].Time-marks[from].Time) + u*d.random.NormFloat64()
			all = append(all, Lap{State: s, From: marks[from].Angle, To: marks[to].Angle, Time: quantity.Time(max(t, 0.05)), U: quantity.Time(u)})
		}
	}
	add(0, 1)
	add(2, 3)
	return all
}

// lap times one stretch of a closing; false where the leaf does not get through it.
func (d *door) lap(s State, from, to quantity.Angle, u float64) (Lap, bool) {
	m := d.model(s)
	marks := []swing.Mark{{Angle: 90 * deg}, {Angle: from}, {Angle: to}}
	if from == 90*deg {
		marks = marks[1:]
	}
	var mv swing.Mover
	shut := mv.Close(&m, 90*deg, marks).End.Shut()
	t := float64(marks[len(marks)-1].Time - marks[len(marks)-2].Time)
	if math.IsNaN(t) || to == 0 && !shut {
		return Lap{}, false
	}
	return Lap{State: s, From: from, To: to, Time: quantity.Time(max(t+u*d.random.NormFloat64(), 0.05)), U: quantity.Time(u)}, true
}

// gauge gauges a force, good to a share.
func (d *door) gauge(s State, way Way, angle quantity.Angle, at quantity.Length, u float64) Gauge {
	m := d.model(s)
	g := Gauge{State: s, Way: way, Angle: angle, At: at}
	force := float64(swing.HandForce(gauged(&m, &g), at))
	g.U = quantity.Force(max(u*math.Abs(force), 0.5))
	g.Force = quantity.Force(force) + g.U*quantity.Force(d.random.NormFloat64())
	return g
}

// sees whether the leaf latches.
func (d *door) latching(s State) Latching {
	m := d.model(s)
	var mv swing.Mover
	return Latching{State: s, Latched: mv.Close(&m, 90*deg, nil).End.Shut()}
}
