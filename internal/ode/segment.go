package ode

// Segment is one step and the motion inside it: the quintic in time that takes
// on angle, rate and acceleration at both ends (Hermite interpolation). Its
// error inside the step is of sixth order in the angle and fifth in the rate,
// and the rate is the exact derivative of the angle.
type Segment struct {
	// T0 and T1 are begin and end, s.
	T0, T1 float64
	// From and To are the states there.
	From, To State
	// FromAcceleration and ToAcceleration are the accelerations there, rad/s².
	FromAcceleration, ToAcceleration float64
}

// At is the state at time t (s). Outside the step it goes on along the
// quintic, which is soon worthless.
func (g *Segment) At(t float64) State {
	switch t {
	case g.T0:
		return g.From
	case g.T1:
		return g.To
	}
	h := g.T1 - g.T0
	u := (t - g.T0) / h
	c := g.powers()
	return State{
		Angle: c[0] + u*(c[1]+u*(c[2]+u*(c[3]+u*(c[4]+u*c[5])))),
		Rate:  (c[1] + u*(2*c[2]+u*(3*c[3]+u*(4*c[4]+u*5*c[5])))) / h,
	}
}

// Acceleration is the second derivative of the quintic at time t (s), rad/s².
func (g *Segment) Acceleration(t float64) float64 {
	h := g.T1 - g.T0
	u := (t - g.T0) / h
	c := g.powers()
	return (2*c[2] + u*(6*c[3]+u*(12*c[4]+u*20*c[5]))) / (h * h)
}

// Until is the part of the segment up to time t (s): the same curve, cut.
func (g *Segment) Until(t float64) Segment {
	if t == g.T1 {
		return *g
	}
	return Segment{
		T0: g.T0, T1: t, From: g.From, To: g.At(t),
		FromAcceleration: g.FromAcceleration, ToAcceleration: g.Acceleration(t),
	}
}

// powers are the coefficients of the angle in powers of (t - T0)/(T1 - T0), rad.
func (g *Segment) powers() [6]float64 {
	h := g.T1 - g.T0
	v, a := h*g.From.Rate, h*h*g.FromAcceleration
	p := g.To.Angle - g.From.Angle - v - a/2
	q := h*g.To.Rate - v - a
	r := h*h*g.ToAcceleration - a
	return [6]float64{g.From.Angle, v, a / 2, 10*p - 4*q + r/2, -15*p + 7*q - r, 6*p - 3*q + r/2}
}
