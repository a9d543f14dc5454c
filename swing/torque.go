package swing

import "math"

// spring is the torque of the closer's spring at the pinion, N·m, at pinion turn psi.
func (m *Model) spring(psi float64) float64 { return m.v[SpringClosed] + m.v[SpringRise]*psi }

// share is the logistic hand-over λ = 1/(1 + exp((ψ − ψ_0)/δ)): 1 well below
// psi0, 0 well above. Beyond 20δ, where it lacks 2e-9 of that, it is exactly so.
func share(psi, psi0, delta float64) float64 {
	x := (psi - psi0) / delta
	switch {
	case x > 20:
		return 0
	case x < -20:
		return 1
	}
	return 1 / (1 + math.Exp(x))
}

// mix blends two resistances in the logarithm, λ of the first and 1 − λ of the
// second. Where one is zero it cannot, and blends evenly; two zeros stay zero.
func mix(lambda float64, x, y, lnXY float64) float64 {
	switch {
	case lambda == 0:
		return y
	case lambda == 1:
		return x
	case x == 0 || y == 0:
		return lambda*x + (1-lambda)*y
	}
	// near either end the exponential is a few terms of its series, good to rounding
	if e := lambda * lnXY; math.Abs(e) < 1e-4 {
		return y * (1 + e*(1+e/2*(1+e/3)))
	}
	if e := (lambda - 1) * lnXY; math.Abs(e) < 1e-4 {
		return x * (1 + e*(1+e/2*(1+e/3)))
	}
	return y * math.Exp(lambda*lnXY)
}

// slip is the smoothed sign of Coulomb friction, tanh x, good to 4e-9; it is
// ±1 within that beyond 10.
func slip(x float64) float64 {
	if x < -10 || x > 10 {
		return math.Copysign(1, x)
	}
	e := math.Exp(-2 * math.Abs(x))
	return math.Copysign((1-e)/(1+e), x)
}

// viscous is the viscous resistance to closing at the pinion, N·m·s/rad, at
// pinion turn psi, where the latch valve's share is lambda.
func (m *Model) viscous(psi, lambda float64) float64 {
	a := mix(lambda, m.latch.a, m.sweep.a, m.lnA)
	if m.delay.a > 0 {
		d := (1 - share(psi, m.v[DelayFrom], m.v[Blend])) * share(psi, m.v[DelayTo], m.v[Blend])
		a = mix(d, m.delay.a, a, math.Log(m.delay.a/a))
	}
	return a
}

// orifice is the orifice resistance to closing at the pinion, N·m·s²/rad².
func (m *Model) orifice(lambda float64) float64 {
	return mix(lambda, m.latch.b, m.sweep.b, m.lnB)
}

// closingResistance is the hydraulic torque at the pinion against closing, for
// a rate of the pinion of size speed (rad/s, not negative).
func (m *Model) closingResistance(psi, speed float64) float64 {
	lambda := share(psi, m.v[LatchZone], m.v[Blend])
	return (m.viscous(psi, lambda) + m.orifice(lambda)*speed) * speed
}

// openingResistance is the hydraulic torque at the pinion against opening.
// Backcheck adds to the free flow above its zone; having nothing to be blended
// with below, it is handed over evenly.
func (m *Model) openingResistance(psi, speed float64) float64 {
	on := 1 - share(psi, m.v[CheckZone], m.v[Blend])
	return (m.free+on*m.check.a)*speed + on*m.check.b*speed*speed
}

// breeze is what air pressure and a hinge line out of plumb put on the leaf, N·m toward opening.
func (m *Model) breeze(theta float64) float64 {
	torque := 0.0
	if m.pressure != 0 {
		torque = m.pressure * math.Exp(-theta/m.v[PressureFades])
	}
	if m.lean != 0 {
		torque += m.lean * math.Sin(m.v[LeanAzimuth]-theta)
	}
	return torque
}

// push is what the seals put on the leaf, N·m toward opening.
func (m *Model) push(theta float64) float64 {
	if theta < m.v[SealMeets] {
		return m.seal * (m.v[SealMeets] - theta)
	}
	return 0
}

// phase is a stretch of the motion over which the equation is smooth.
type phase struct {
	m     *Model
	close bool    // the closing side of the valves; else the opening side
	seal  bool    // seals touch
	bolt  bool    // bolt rides the lip
	hand  float64 // torque of a hand, N·m toward opening
	mode  mode    // what the operator does
	ramp  bool    // the commanded rate still rises
	slow  bool    // the commanded rate falls on the way to fully open
	// charted tells to read the model's chart; see chart.
	charted bool
	// exact forbids it.
	exact bool
}

// Acceleration is the equation of motion solved for the leaf's acceleration
// (rad/s²): I_t·θ̈ = τ_hand − n·T_s(1 + μ·tanh(ψ̇/ψ̇_s)) ∓ n·T_hyd − τ_h·tanh(ω/ω_h)
// − drag + seal + bolt + pressure + plumb − n·n'·J_p·ω², and the operator's part.
func (p *phase) Acceleration(t, theta, omega float64) float64 {
	m := p.m
	switch {
	case p.charted && p.close:
		return p.closing(theta, omega)
	case p.charted:
		return p.driven(t, theta, omega)
	}
	torque := p.hand + m.breeze(theta) - m.v[HingeFriction]*slip(omega/hingeSlip) - m.drag*omega*math.Abs(omega)
	if p.seal {
		torque += m.seal * (m.v[SealMeets] - theta)
	}
	if p.bolt {
		torque += m.bolt
	}
	inertia, jp := m.inertia, m.v[PinionInertia]
	n := 0.0
	if m.link.Closer {
		var psi float64
		psi, n, _ = m.arm.Turn(theta)
		rate := n * omega
		pinion := m.spring(psi) * (1 + m.v[CloserLoss]*slip(rate/pinionSlip))
		if p.close {
			pinion += math.Copysign(m.closingResistance(psi, math.Abs(rate)), rate)
		} else {
			pinion += math.Copysign(m.openingResistance(psi, math.Abs(rate)), rate)
		}
		torque -= n * pinion
	}
	if p.geared() {
		nd, arm, jd := n, &m.arm, m.motor.inertia
		if m.motor.own {
			arm = &m.motor.arm
			nd, _ = arm.Ratio(theta)
		} else {
			jp, jd = jp+jd, 0 // they turn together
		}
		torque += nd * p.shaft(t, theta, omega, nd*omega)
		if jd != 0 {
			inertia += nd * nd * jd
			torque -= nd * arm.Bend(theta) * jd * omega * omega
		}
	}
	if jp != 0 {
		inertia += n * n * jp
		torque -= n * m.arm.Bend(theta) * jp * omega * omega
	}
	return torque / inertia
}

// closing is Acceleration on the closing side, read off the chart.
func (p *phase) closing(theta, omega float64) float64 {
	m := p.m
	c := m.chart.read(theta)
	torque := c.breeze - m.v[HingeFriction]*slip(omega/hingeSlip) -
		c.drive*(1+m.v[CloserLoss]*slip(c.n*omega/pinionSlip)) -
		(c.a+(c.b+m.drag)*math.Abs(omega))*omega
	if p.seal {
		torque += m.seal * (m.v[SealMeets] - theta)
	}
	if p.bolt {
		torque += m.bolt
	}
	return torque / m.inertia
}
