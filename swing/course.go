package swing

import "math"

// A course is the chart of a driven opening: what of it depends on the leaf's
// angle alone and neither on air nor on valves. It reaches farther than the chart
// of closing, and is drawn when an operator is put on the leaf.
type course struct {
	ok   bool
	node [courseNodes]place
}

const (
	courseNodes = 160
	courseTop   = chartFrom + (courseNodes-3)*chartStep // 115.5 degrees
)

// place is what a course tells of an angle, and the slopes of it times the step.
type place struct{ at, slope spot }

// spot is the course at one angle.
type spot struct {
	n     float64 // dψ/dθ of the closer
	drive float64 // n·T_s, N·m
	check float64 // share of backcheck that acts
	nd    float64 // ratio of the operator's shaft
	fade  float64 // share of the pressure that is left
}

// draw fills the course in.
func (c *course) draw(m *Model) {
	c.ok = m.v[Blend] > chartStep && m.v[PressureFades] > 2.5*chartStep && m.motor.open < courseTop-chartStep
	if !c.ok {
		return
	}
	for i := range c.node {
		theta := chartFrom + float64(i)*chartStep
		s := &c.node[i].at
		*s = spot{}
		if m.link.Closer {
			psi := 0.0
			if m.chart.ok && i < nodes { // the same angle
				psi, s.n, s.fade = m.chart.still[i].psi, m.chart.still[i].n, m.chart.still[i].fade
			} else {
				psi, s.n, _ = m.arm.Turn(theta)
			}
			s.drive, s.check = s.n*m.spring(psi), 1-share(psi, m.v[CheckZone], m.v[Blend])
		}
		if s.fade == 0 {
			s.fade = math.Exp(-theta / m.v[PressureFades])
		}
		if s.nd = s.n; m.motor.own {
			s.nd = ratioAt(&m.motor.arm, i)
		}
	}
	for i := 2; i < courseNodes-2; i++ {
		p, q, r, s := &c.node[i-2].at, &c.node[i-1].at, &c.node[i+1].at, &c.node[i+2].at
		c.node[i].slope = spot{
			n: rise(p.n, q.n, r.n, s.n), drive: rise(p.drive, q.drive, r.drive, s.drive),
			check: rise(p.check, q.check, r.check, s.check), nd: rise(p.nd, q.nd, r.nd, s.nd),
			fade: rise(p.fade, q.fade, r.fade, s.fade),
		}
	}
}

// read gives the course at an angle up to where the operator stops, and the
// derivatives of the two ratios by the angle.
func (c *course) read(theta float64) (s spot, dn, dnd float64) {
	x := (theta - chartFrom) * (1 / chartStep)
	i := min(max(int(x), 2), courseNodes-4)
	u := x - float64(i)
	f, g := &c.node[i], &c.node[i+1]
	h0, h1, k0, k1 := hermite(u)
	s = spot{
		n:     h0*f.at.n + h1*g.at.n + k0*f.slope.n + k1*g.slope.n,
		drive: h0*f.at.drive + h1*g.at.drive + k0*f.slope.drive + k1*g.slope.drive,
		check: h0*f.at.check + h1*g.at.check + k0*f.slope.check + k1*g.slope.check,
		nd:    h0*f.at.nd + h1*g.at.nd + k0*f.slope.nd + k1*g.slope.nd,
		fade:  h0*f.at.fade + h1*g.at.fade + k0*f.slope.fade + k1*g.slope.fade,
	}
	v := 1 - u
	d1, e0, e1 := 6*u*v, v*(v-2*u), u*(u-2*v) // the basis's derivative
	dn = (d1*(g.at.n-f.at.n) + e0*f.slope.n + e1*g.slope.n) * (1 / chartStep)
	dnd = (d1*(g.at.nd-f.at.nd) + e0*f.slope.nd + e1*g.slope.nd) * (1 / chartStep)
	return s, dn, dnd
}

// driven is Acceleration of a driven leaf on its way open, read off the course.
func (p *phase) driven(t, theta, omega float64) float64 {
	m := p.m
	s, dn, dnd := m.course.read(theta)
	rate := s.n * omega
	torque := p.hand + m.pressure*s.fade - m.v[HingeFriction]*slip(omega*(1/hingeSlip)) -
		s.drive*(1+m.v[CloserLoss]*slip(rate*(1/pinionSlip))) -
		s.n*((m.free+s.check*m.check.a)+s.check*m.check.b*math.Abs(rate))*rate - m.drag*omega*math.Abs(omega) +
		s.nd*p.shaft(t, theta, omega, s.nd*omega)
	if p.seal {
		torque += m.seal * (m.v[SealMeets] - theta)
	}
	if m.lean != 0 {
		torque += m.lean * math.Sin(m.v[LeanAzimuth]-theta)
	}
	jp, jd := m.v[PinionInertia], m.motor.inertia
	torque -= (s.n*dn*jp + s.nd*dnd*jd) * omega * omega
	return torque / (m.inertia + s.n*s.n*jp + s.nd*s.nd*jd)
}
