package record

import (
	"math"
	"math/rand/v2"

	"swingwright/linkage"
	"swingwright/quantity"
	"swingwright/swing"
	"swingwright/trace"
)

// dice draws random leaves and recorders.
type dice struct{ *rand.Rand }

func diceOf(seed uint64) dice { return dice{rand.New(rand.NewPCG(seed, 0x7e57))} }

func (d dice) in(low, high float64) float64 { return low + d.Float64()*(high-low) }

func (d dice) log(low, high float64) float64 { return low * math.Exp(d.Float64()*math.Log(high/low)) }

func (d dice) chance(p float64) bool { return d.Float64() < p }

const rad = float64(quantity.Degree)

// leaf draws a leaf with a closer on a regular arm, a top-jamb arm or a slide
// track, and an operator; it closes from its open angle in 3 to 30 s.
func (d dice) leaf(mv *swing.Mover) (swing.Model, quantity.Angle) {
	for {
		v, link, ok := d.closer()
		if !ok {
			continue
		}
		open := d.in(93, 108) * rad
		v[swing.OpenAngle] = open
		v[swing.SlowFrom], v[swing.OpenRate], v[swing.CreepRate] = d.in(60, 85)*rad, d.in(15, 35)*rad, d.in(5, 10)*rad
		v[swing.RampTime], v[swing.DriveEfficiency], v[swing.GearRatio] = d.in(0.2, 1), d.in(0.6, 0.9), 90
		v[swing.RotorInertia], v[swing.BackDrive] = 2e-5, d.in(0, 1)
		v[swing.DriveStall], v[swing.DriveFree], v[swing.DriveGain] = 150, 4, d.in(200, 500)
		m, err := swing.New(&v, link)
		if err != nil || m.SetDrive(swing.Drive{Fitted: true}) != nil {
			continue
		}
		end := mv.Close(&m, quantity.Angle(open), nil)
		if end.End.Shut() && end.Time > 3 && end.Time < 30 {
			return m, quantity.Angle(open)
		}
	}
}

// closer draws leaf, arm, spring and valves.
func (d dice) closer() (v swing.Values, link swing.Linkage, ok bool) {
	in := float64(quantity.Inch)
	v[swing.LeafWidth], v[swing.LeafHeight], v[swing.LeafThickness] = d.in(0.75, 1.2), d.in(2, 2.4), 0.045
	v[swing.SlabMass] = d.in(25, 110)
	link = swing.Linkage{Closer: true, OnLeaf: true, Bend: 1, Latch: d.chance(0.7)}
	v[swing.PinionX], v[swing.PinionY] = d.in(5, 8)*in, d.in(2, 2.75)*in
	v[swing.ShoeX], v[swing.ShoeY] = d.in(10, 14)*in, d.in(0.5, 1.5)*in
	v[swing.MainArm], v[swing.Forearm] = d.in(9.5, 12.5)*in, d.in(9, 12.5)*in
	if d.chance(0.4) {
		link.Track = true
		v[swing.PinionY], v[swing.ShoeX], v[swing.MainArm], v[swing.Forearm] = d.in(1.5, 3)*in, d.in(0, 20)*in, d.in(9, 14)*in, 0
	}
	arm, err := linkage.New(linkage.Spec{
		Track: link.Track, OnLeaf: true, Bend: 1,
		Pinion: linkage.Point{X: quantity.Length(v[swing.PinionX]), Y: quantity.Length(v[swing.PinionY])},
		Shoe:   linkage.Point{X: quantity.Length(v[swing.ShoeX]), Y: quantity.Length(v[swing.ShoeY])},
		Main:   quantity.Length(v[swing.MainArm]), Fore: quantity.Length(v[swing.Forearm]),
	})
	if err != nil {
		return v, link, false
	}
	for theta := 0.0; theta < 115*rad; theta += rad {
		if n, ok := arm.Ratio(theta); !ok || n < 0.3 || n > 4 {
			return v, link, false
		}
	}
	d.oil(&v, &arm)
	d.frame(&v, link)
	return v, link, true
}

func (d dice) oil(v *swing.Values, arm *linkage.Arm) {
	turn := func(theta float64) (psi, n float64) { psi, n, _ = arm.Turn(theta * rad); return }
	_, n0 := turn(0)
	psi45, n45 := turn(45)
	v[swing.CloserLoss] = d.in(0.05, 0.3)
	v[swing.SpringClosed] = d.in(10, 40) / (n0 * (1 - v[swing.CloserLoss]))
	v[swing.SpringRise] = v[swing.SpringClosed] * d.in(0, 0.4)
	hold := func(drive, n, rate float64) (a, b float64) {
		orifice := 0.0
		if d.chance(0.5) {
			orifice = d.in(0.1, 0.8)
		}
		return (1 - orifice) * drive / (n * rate), orifice * drive / (n * n * rate * rate)
	}
	share := 1 - v[swing.CloserLoss]
	v[swing.SweepViscous], v[swing.SweepOrifice] = hold(share*(v[swing.SpringClosed]+v[swing.SpringRise]*psi45), n45, d.log(0.2, 0.6))
	v[swing.LatchViscous], v[swing.LatchOrifice] = hold(share*v[swing.SpringClosed], n0, d.log(0.04, 0.35))
	v[swing.LatchZone], _ = turn(d.in(6, 18))
	v[swing.Blend], v[swing.OilFactor], v[swing.FreeFlow] = d.in(0.8, 2.5)*rad, 1, d.in(0, 5)
	if d.chance(0.6) {
		v[swing.CheckViscous], v[swing.CheckOrifice] = d.in(5, 40), d.in(0, 20)
		v[swing.CheckZone], _ = turn(d.in(65, 80))
	}
}

func (d dice) frame(v *swing.Values, link swing.Linkage) {
	v[swing.HingeFriction] = d.in(0, 1.5)
	if link.Latch {
		v[swing.BoltForce], v[swing.BoltRadius] = d.in(1, 12), v[swing.LeafWidth]-0.02
		v[swing.BoltClears], v[swing.BoltMeets] = d.in(0.2, 1)*rad, d.in(1.5, 3)*rad
	}
	if d.chance(0.5) {
		v[swing.SealStiffness], v[swing.SealMeets] = d.log(30, 300), d.in(0.5, 2)*rad
	}
	v[swing.PressureFades] = 6 * rad
	v[swing.AirDensity], v[swing.DragCoefficient] = 1.2, 1.9
}

// course is a swing of a random leaf: by hand or power, held or not, with or
// without rebound.
func (d dice) course(mv *swing.Mover) (*Course, swing.Model) {
	for {
		m, open := d.leaf(mv)
		var c Course
		c.Rest(quantity.Time(d.in(2, 4)))
		if d.chance(0.08) {
			c.Turn(trace.FalseStart, quantity.Angle(d.in(3, 10)*rad), quantity.Time(d.in(0.5, 1.2)))
			c.Turn(trace.FalseStart, 0, quantity.Time(d.in(0.8, 1.5)))
		}
		if d.chance(0.5) {
			c.Turn(trace.Opening, open, quantity.Time(d.in(1.5, 5)))
		} else if p := c.Drive(mv, &m); p.End != swing.Opened {
			continue
		}
		if d.chance(0.8) {
			c.Rest(quantity.Time(d.in(1, 8)))
		}
		if d.chance(0.08) {
			c.Turn(trace.Sweep, quantity.Angle(d.in(20, 60)*rad), quantity.Time(d.in(2, 4)))
			c.Turn(trace.Reopening, open-quantity.Angle(d.in(1, 20)*rad), quantity.Time(d.in(1, 3)))
		}
		if end := c.Close(mv, &m); !end.End.Shut() {
			continue
		}
		if d.chance(0.15) {
			c.Bounce(quantity.Angle(d.in(1, 4)*rad), quantity.Time(d.in(0.25, 0.6)))
		}
		c.Rest(quantity.Time(d.in(2, 4)))
		return &c, m
	}
}

// recorder is a random recorder within what phones are said to be.
func (d dice) recorder(seed uint64) Options {
	o := Options{
		Seed: seed, Rate: []float64{50, 60, 100, 200}[d.IntN(4)], Jitter: quantity.Time(d.in(0, 0.003)),
		NoiseDensity: quantity.AngularSpeed(d.in(0.004, 0.015) * rad), Scale: quantity.Ratio(0.015 * d.NormFloat64()),
		Touches: d.IntN(3),
	}
	for k := range o.Bias {
		o.Bias[k] = quantity.AngularSpeed(d.in(-1, 1) * rad)
		o.BiasDrift[k] = quantity.AngularSpeed(d.in(-0.001, 0.001) * rad)
	}
	if d.chance(0.6) {
		o.Rounding = 0.1 * quantity.AngularSpeed(quantity.Degree)
	}
	o.Style = Style{
		Separator: []byte{',', ';', '\t'}[d.IntN(3)], Stamps: []string{"s", "ms", "us", "ns"}[d.IntN(4)],
		Radians: d.chance(0.3), Gravities: d.chance(0.3), Mark: d.chance(0.2), CRLF: d.chance(0.3), Bare: d.chance(0.05),
	}
	if d.chance(0.1) && !o.Style.Bare {
		o.Carried = quantity.Time(d.in(3, 10))
	}
	o.Style.Comma = o.Style.Separator != ',' && d.chance(0.5)
	return o
}
