package swing

import "math"

// A chart holds what depends on the leaf's angle alone, so that the equation of
// motion on closing need not solve the arm anew at every step: draws by the
// hundred close from the same angles. Between its nodes it runs on cubic Hermite
// curves with slopes of fourth order, smooth enough for the integrator; Mover.Exact
// goes without it, and a test holds the two together.
type chart struct {
	ok    bool
	stale bool // resistances are not those of the valves as they are set
	still [nodes]still
	node  [nodes]node
}

const (
	nodes     = 130
	chartStep = 0.75 * math.Pi / 180 // rad
	chartFrom = -3 * chartStep       // nodes beyond closed, for slopes there
	chartTop  = chartFrom + (nodes-3)*chartStep
)

// still is what valves and air do not change.
type still struct{ psi, n, drive, lambda, fade, lean float64 }

// node is what the equation of motion reads: values, and slopes times the step.
type node struct{ at, slope terms }

// terms are the coefficients of the equation of motion at one angle.
type terms struct {
	n      float64 // dψ/dθ
	drive  float64 // n·T_s, N·m
	breeze float64 // pressure and plumb, N·m toward opening
	a      float64 // n²·a, N·m·s/rad
	b      float64 // n³·b, N·m·s²/rad²
}

// draw fills the chart with what the arm and the spring give.
func (c *chart) draw(m *Model) {
	// What changes within a node or two is not for the chart.
	c.ok = m.link.Closer && m.v[PinionInertia] == 0 && m.v[Blend] > chartStep && m.v[PressureFades] > 2.5*chartStep
	if !c.ok {
		return
	}
	// the pressure fades by the same factor from node to node
	fade := math.Exp(-chartFrom / m.v[PressureFades])
	step := math.Exp(-chartStep / m.v[PressureFades])
	if c.ok = c.turn(m); !c.ok {
		return
	}
	sin, cos := math.Sincos(m.v[LeanAzimuth])
	for i := range c.still {
		s := &c.still[i]
		s.drive, s.lambda = s.n*m.spring(s.psi), share(s.psi, m.v[LatchZone], m.v[Blend])
		s.fade, s.lean = fade, m.lean*(sin*sines[i].cos-cos*sines[i].sin) // of the angle between
		fade *= step
	}
	c.arm()
	c.orifices(m)
}

// turn fills in the arm's ratio and the pinion's turn, which is its integral; false
// where the arm is not for the chart.
func (c *chart) turn(m *Model) bool {
	for i := range c.still {
		c.still[i].n = ratioAt(&m.arm, i)
		if i > 0 && !smooth(c.still[i-1].n, c.still[i].n) {
			return false
		}
	}
	by := func(i int) float64 { // from node i to the next
		s := &c.still
		return turned(s[max(i-1, 0)].n, s[i].n, s[i+1].n, s[min(i+2, nodes-1)].n)
	}
	c.still[closedNode].psi = 0
	for i := closedNode; i > 0; i-- {
		c.still[i-1].psi = c.still[i].psi - by(i-1)
	}
	for i := closedNode; i < nodes-1; i++ {
		c.still[i+1].psi = c.still[i].psi + by(i)
	}
	return true
}

// arm fills in what only the arm and the spring decide.
func (c *chart) arm() {
	for i := range c.still {
		c.node[i].at.n, c.node[i].at.drive = c.still[i].n, c.still[i].drive
	}
	for i := 2; i < nodes-2; i++ {
		p, q, r, s := &c.still[i-2], &c.still[i-1], &c.still[i+1], &c.still[i+2]
		c.node[i].slope.n = rise(p.n, q.n, r.n, s.n)
		c.node[i].slope.drive = rise(p.drive, q.drive, r.drive, s.drive)
	}
}

// orifices fills in the orifice resistances, which no valve changes.
func (c *chart) orifices(m *Model) {
	for i := range c.still {
		s := &c.still[i]
		c.node[i].at.b = s.n * s.n * s.n * m.orifice(s.lambda)
	}
	for i := 2; i < nodes-2; i++ {
		c.node[i].slope.b = rise(c.node[i-2].at.b, c.node[i-1].at.b, c.node[i+1].at.b, c.node[i+2].at.b)
	}
}

// valves fills in the viscous resistances where they are stale. A model is often
// set several times before it moves.
func (c *chart) valves(m *Model) {
	if !c.ok || !c.stale {
		return
	}
	c.stale = false
	for i := range c.still {
		s := &c.still[i]
		c.node[i].at.a = s.n * s.n * m.viscous(s.psi, s.lambda)
	}
	for i := 2; i < nodes-2; i++ {
		c.node[i].slope.a = rise(c.node[i-2].at.a, c.node[i-1].at.a, c.node[i+1].at.a, c.node[i+2].at.a)
	}
}

// air fills in pressure and plumb.
func (c *chart) air(m *Model) {
	if !c.ok {
		return
	}
	for i := range c.still {
		c.node[i].at.breeze = m.pressure*c.still[i].fade + c.still[i].lean
	}
	for i := 2; i < nodes-2; i++ {
		c.node[i].slope.breeze = rise(c.node[i-2].at.breeze, c.node[i-1].at.breeze, c.node[i+1].at.breeze, c.node[i+2].at.breeze)
	}
}

// rise is the slope times the step, from the values one and two steps before
// and after (five-point formula; Abramowitz and Stegun, 1964, Table 25.2).
func rise(twoBefore, before, after, twoAfter float64) float64 {
	return (twoBefore - twoAfter + 8*(after-before)) / 12
}

// hermite is the cubic Hermite basis on the unit interval: of the values at its
// ends, and of the slopes there.
func hermite(u float64) (h0, h1, k0, k1 float64) {
	v := 1 - u
	h1 = u * u * (3 - 2*u)
	return 1 - h1, h1, u * v * v, -u * u * v
}

// covers tells that the chart serves motions that begin at theta and close.
func (c *chart) covers(theta float64) bool { return c.ok && theta < chartTop }

// read gives the terms at an angle that the chart covers.
func (c *chart) read(theta float64) terms {
	x := (theta - chartFrom) * (1 / chartStep)
	i := min(max(int(x), 2), nodes-4)
	u := x - float64(i)
	f, g := &c.node[i], &c.node[i+1]
	h0, h1, k0, k1 := hermite(u)
	return terms{
		n:      h0*f.at.n + h1*g.at.n + k0*f.slope.n + k1*g.slope.n,
		drive:  h0*f.at.drive + h1*g.at.drive + k0*f.slope.drive + k1*g.slope.drive,
		breeze: h0*f.at.breeze + h1*g.at.breeze + k0*f.slope.breeze + k1*g.slope.breeze,
		a:      h0*f.at.a + h1*g.at.a + k0*f.slope.a + k1*g.slope.a,
		b:      h0*f.at.b + h1*g.at.b + k0*f.slope.b + k1*g.slope.b,
	}
}

// pull gives the drive only, as read does.
func (c *chart) pull(theta float64) float64 {
	x := (theta - chartFrom) * (1 / chartStep)
	i := min(max(int(x), 2), nodes-4)
	f, g := &c.node[i], &c.node[i+1]
	h0, h1, k0, k1 := hermite(x - float64(i))
	return h0*f.at.drive + h1*g.at.drive + k0*f.slope.drive + k1*g.slope.drive
}
