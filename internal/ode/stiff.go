package ode

import "math"

// A motion is stiff where its rate, left alone, settles in a small part of the
// time in which it changes otherwise: a leaf that creeps against friction, or is
// held to its rate by a control. The explicit pair then takes far shorter steps
// than its errors ask for, since longer ones are not stable. Such stretches are
// followed by the Rosenbrock method RODAS of orders 4 and 3, which is stable
// whatever the step and needs the derivatives of the acceleration (Hairer,
// Wanner, "Solving Ordinary Differential Equations II", 2nd revised edition, 1996,
// IV.7, cited below as HW, and their code RODAS).
const (
	// A step of the explicit pair as many times as long as the rate takes to
	// settle, near the border of its stability, tells of stiffness: that is at 3.3
	// (HW IV.2), but the estimate of the error keeps it to some 2. As many steps in
	// a row switch to the other method.
	stiffFrom = 1.7
	inARow    = 3
	// A step of the Rosenbrock method so much shorter that the explicit pair
	// could take it too switches back.
	stiffTo = 0.9
	// strict is how much smaller errors are kept than by the explicit pair: the
	// estimate being of lower order, they add up to more over a motion.
	strict = 4
	// gainStiff is gain for a method whose estimate is of order 4.
	gainStiff = (1./4 - 3./4*beta) / 2
)

// settling is the length of a step of the explicit pair over the time in which
// the rate settles, from its last two stages, which lie at the same time (HW IV.2, 2.4).
func settling(h, v6, v7, k6, k7 float64) float64 {
	if v6 == v7 {
		return 0
	}
	return h * math.Abs((k7-k6)/(v7-v6))
}

// slopes are the derivatives of the acceleration by angle, rate and time.
type slopes struct{ angle, rate, time float64 }

// slopes takes them by differences, at the end of the last accepted step.
func (s *Solver) slopes() (d slopes) {
	t, y, a := s.seg.T1, s.seg.To, s.seg.ToAcceleration
	dx := 1e-7 * (math.Abs(y.Angle) + 0.01)
	dv := 1e-7 * (math.Abs(y.Rate) + 0.01)
	d.angle = (s.acceleration(t, State{y.Angle + dx, y.Rate}) - a) / dx
	d.rate = (s.acceleration(t, State{y.Angle, y.Rate + dv}) - a) / dv
	if !s.opt.Timeless {
		dt := 1e-7 * (t + 0.01)
		d.time = (s.acceleration(t+dt, y) - a) / dt
	}
	return d
}

// tryStiff is try by the Rosenbrock method. Every stage solves (1/(γh) − J)u = r
// with the J of the step's begin, which for one turning body is a sum of two lines.
func (s *Solver) tryStiff(h, t1 float64) (Segment, float64) {
	t, x, v, a, f, d := s.seg.T1, s.seg.To.Angle, s.seg.To.Rate, s.seg.ToAcceleration, s.sys, &s.slope
	per := 1 / h
	g := per / gamma
	left := g - d.rate
	whole := 1 / (g*left - d.angle)
	// solve gives the stage whose right-hand side is r for the angle, q for the rate
	solve := func(r, q float64) (float64, float64) {
		u := (q + left*r) * whole
		return u, g*u - r
	}
	s.work.Calls += 6
	ht := h * d.time
	u1, w1 := solve(v, a+g1*ht)

	vs := v + a21r*w1
	u2, w2 := solve(vs+per*(c21r*u1), f.Acceleration(t+c2r*h, x+a21r*u1, vs)+per*(c21r*w1)+g2*ht)

	vs = v + a31r*w1 + a32r*w2
	u3, w3 := solve(vs+per*(c31r*u1+c32r*u2),
		f.Acceleration(t+c3r*h, x+a31r*u1+a32r*u2, vs)+per*(c31r*w1+c32r*w2)+g3*ht)

	vs = v + a41r*w1 + a42r*w2 + a43r*w3
	u4, w4 := solve(vs+per*(c41r*u1+c42r*u2+c43r*u3),
		f.Acceleration(t+c4r*h, x+a41r*u1+a42r*u2+a43r*u3, vs)+per*(c41r*w1+c42r*w2+c43r*w3)+g4*ht)

	x5 := x + a51r*u1 + a52r*u2 + a53r*u3 + a54r*u4
	vs = v + a51r*w1 + a52r*w2 + a53r*w3 + a54r*w4
	u5, w5 := solve(vs+per*(c51r*u1+c52r*u2+c53r*u3+c54r*u4),
		f.Acceleration(t1, x5, vs)+per*(c51r*w1+c52r*w2+c53r*w3+c54r*w4))

	x6 := x5 + u5
	vs += w5
	u6, w6 := solve(vs+per*(c61r*u1+c62r*u2+c63r*u3+c64r*u4+c65r*u5),
		f.Acceleration(t1, x6, vs)+per*(c61r*w1+c62r*w2+c63r*w3+c64r*w4+c65r*w5))

	to := State{x6 + u6, vs + w6}
	ex := u6 / s.allowed(s.opt.AbsAngle, x, to.Angle)
	ev := w6 / s.allowed(s.opt.AbsRate, v, to.Rate)
	return Segment{
		T0: t, T1: t1, From: s.seg.To, To: to, FromAcceleration: a, ToAcceleration: f.Acceleration(t1, to.Angle, to.Rate),
	}, strict * strict * (ex*ex + ev*ev) / 2
}

// The coefficients of RODAS (HW, code RODAS, method 1), for stages that hold the
// increments of the state.
const (
	gamma = 0.25

	c2r = 0.386
	c3r = 0.21
	c4r = 0.63

	g1 = 0.25
	g2 = -0.1043
	g3 = 0.1035
	g4 = -0.03620000000000023

	a21r = 1.544
	a31r = 0.9466785280815826
	a32r = 0.2557011698983284
	a41r = 3.314825187068521
	a42r = 2.896124015972201
	a43r = 0.9986419139977817
	a51r = 1.221224509226641
	a52r = 6.019134481288629
	a53r = 12.53708332932087
	a54r = -0.6878860361058950

	c21r = -5.6688
	c31r = -2.430093356833875
	c32r = -0.2063599157091915
	c41r = -0.1073529058151375
	c42r = -9.594562251023355
	c43r = -20.47028614809616
	c51r = 7.496443313967647
	c52r = -10.24680431464352
	c53r = -33.99990352819905
	c54r = 11.70890893206160
	c61r = 8.083246795921522
	c62r = -7.981132988064893
	c63r = -31.52159432874371
	c64r = 16.31930543123136
	c65r = -6.058818238834054
)
