package linkage

import (
	"math"

	"swingwright/quantity"
)

// hold is the arm's posture at one leaf angle, in the frame of the body.
type hold struct {
	qx, qy float64 // unit vector along the main arm
	rate   float64 // its rate of turn per turn of the leaf
	ax, ay float64 // the far end: shoe or roller
	vx, vy float64 // from the pinion to the shoe; unused with a track
	s, c   float64 // in proportion to sine and cosine of the main arm's angle to that, or to the track
}

// hold solves the arm at leaf angle theta (rad). ok is false out of reach.
func (a *Arm) hold(theta float64) (hold, bool) {
	sin, cos := math.Sincos(a.kappa * theta)
	return a.holdAt(sin, cos)
}

func (a *Arm) holdAt(sin, cos float64) (hold, bool) {
	// far end A = R(κθ)a and its derivative A' = κ ẑ×A
	ax, ay := a.ax*cos-a.ay*sin, a.ax*sin+a.ay*cos
	if a.track {
		return a.roller(sin, cos, ax, ay)
	}
	vx, vy := ax-a.bx, ay-a.by
	dx, dy := -a.kappa*ay, a.kappa*ax
	dd := vx*vx + vy*vy
	per := 1 / dd
	perD := math.Sqrt(dd) * per          // 1/d
	c := (dd + a.square) * a.half * perD // law of cosines at the pinion: (d² + L1² − L2²)/(2 L1 d)
	s2 := 1 - c*c
	if !(s2 > 0) {
		return hold{}, false
	}
	s := math.Sqrt(s2)
	x, y := c*perD, a.bend*s*perD
	// α' = (v×v')/d² − σ·(dc/dd)·d'/√(1−c²), with dc/dd = (d² − L1² + L2²)/(2 L1 d²), d' = v·v'/d
	return hold{
		qx: x*vx - y*vy, qy: x*vy + y*vx, ax: ax, ay: ay, vx: vx, vy: vy, s: s, c: c,
		rate: per * (vx*dy - vy*dx - a.bend*(dd-a.square)*a.half*perD*(vx*dx+vy*dy)/s),
	}, true
}

// roller solves a slide track: the roller is the point of the line at distance
// L1 from the pinion on the given side.
func (a *Arm) roller(sin, cos, ax, ay float64) (hold, bool) {
	ux, uy := a.ux*cos-a.uy*sin, a.ux*sin+a.uy*cos
	vx, vy := ax-a.bx, ay-a.by
	w := vx*ux + vy*uy
	disc := w*w - (vx*vx + vy*vy) + a.l1*a.l1
	if !(disc > 0) {
		return hold{}, false
	}
	root := math.Sqrt(disc)
	lambda := -w + a.bend*root
	qx, qy := vx+lambda*ux, vy+lambda*uy
	// q·q' = 0 gives λ' = −q·(v' + λu')/(q·u), with v' = κẑ×A and u' = κẑ×u
	mx, my := a.kappa*(-ay-lambda*uy), a.kappa*(ax+lambda*ux)
	rate := -(qx*mx + qy*my) / (qx*ux + qy*uy)
	px, py := mx+rate*ux, my+rate*uy
	return hold{
		qx: qx / a.l1, qy: qy / a.l1, rate: (qx*py - qy*px) / (a.l1 * a.l1),
		ax: a.bx + qx, ay: a.by + qy, s: ux*vy - uy*vx, c: root,
	}, true
}

// direction of the main arm (rad) at leaf angle theta, counted without jumps
// over any number of turns from a direction that depends on the arm alone.
//
// With a track it is that of the track, κθ, and the main arm's angle to it. With
// two bars it is that of v = A − P from pinion to shoe, and the main arm's angle
// to v. As v is the sum of A, which turns with κθ, and −P, which stands still, it
// never turns as much as a right angle away from the longer of the two.
func (a *Arm) direction(theta float64, h *hold) float64 {
	to := a.bend * math.Atan2(h.s, h.c)
	switch {
	case a.track:
		return a.kappa*theta + to
	case a.wide:
		return a.kappa*theta + math.Atan2(h.ax*h.vy-h.ay*h.vx, h.ax*h.vx+h.ay*h.vy) + to
	}
	return math.Atan2(a.by*h.vx-a.bx*h.vy, -a.bx*h.vx-a.by*h.vy) + to
}

// Turn gives the pinion's turn ψ from closed (rad) and the ratio n = dψ/dθ at
// leaf angle theta (rad). ok is false where the arm is out of reach. It is the
// form for inner loops; At is the same with types.
func (a *Arm) Turn(theta float64) (psi, n float64, ok bool) {
	h, ok := a.hold(theta)
	if !ok {
		return math.NaN(), math.NaN(), false
	}
	return a.sign * (a.direction(theta, &h) - a.closed), a.sign * h.rate, true
}

// Ratio gives only n = dψ/dθ at leaf angle theta (rad).
func (a *Arm) Ratio(theta float64) (n float64, ok bool) {
	h, ok := a.hold(theta)
	return a.sign * h.rate, ok
}

// RatioAt is Ratio of a leaf angle known by its sine and cosine, NaN out of reach.
func (a *Arm) RatioAt(sin, cos float64) (n float64, ok bool) {
	h, ok := a.holdAt(a.kappa*sin, cos)
	if !ok {
		return math.NaN(), false
	}
	return a.sign * h.rate, true
}

// At gives the pinion's turn from closed and the ratio n = dψ/dθ, which is also
// torque at the leaf over torque at the pinion. Both grow ill-conditioned as the
// arms come into line: n varies with 1/√(1−c²), c the cosine between the main arm
// and the line from pinion to shoe. ok is false where the arm is out of reach.
func (a *Arm) At(theta quantity.Angle) (psi quantity.Angle, n quantity.Ratio, ok bool) {
	p, r, ok := a.Turn(float64(theta))
	return quantity.Angle(p), quantity.Ratio(r), ok
}

// Bend gives dn/dθ (per radian of the leaf) at leaf angle theta (rad), which
// the inertia on the pinion's side needs: d/dt(½n²J ω²) holds n·n'·J.
func (a *Arm) Bend(theta float64) float64 {
	sin, cos := math.Sincos(a.kappa * theta)
	ax, ay := a.ax*cos-a.ay*sin, a.ax*sin+a.ay*cos
	if a.track {
		return a.sign * a.trackBend(sin, cos, ax, ay)
	}
	vx, vy := ax-a.bx, ay-a.by
	v1x, v1y := -a.kappa*ay, a.kappa*ax // v'
	v2x, v2y := -ax, -ay                // v''
	dd := vx*vx + vy*vy
	d := math.Sqrt(dd)
	dot := vx*v1x + vy*v1y
	cross := vx*v1y - vy*v1x
	d1 := dot / d
	d2 := (v1x*v1x+v1y*v1y+vx*v2x+vy*v2y)/d - d1*d1/d
	c := (a.l1*a.l1 + dd - a.l2*a.l2) / (2 * a.l1 * d)
	s2 := 1 - c*c
	s := math.Sqrt(s2)
	cd := (dd - a.l1*a.l1 + a.l2*a.l2) / (2 * a.l1 * dd)
	cdd := (a.l1*a.l1 - a.l2*a.l2) / (a.l1 * dd * d)
	arg2 := (vx*v2y-vy*v2x)/dd - 2*dot*cross/(dd*dd)
	acos2 := -(cdd*d1*d1+cd*d2)/s - c*cd*cd*d1*d1/(s2*s)
	return a.sign * (arg2 + a.bend*acos2)
}

func (a *Arm) trackBend(sin, cos, ax, ay float64) float64 {
	ux, uy := a.ux*cos-a.uy*sin, a.ux*sin+a.uy*cos
	vx, vy := ax-a.bx, ay-a.by
	w := vx*ux + vy*uy
	lambda := -w + a.bend*math.Sqrt(w*w-(vx*vx+vy*vy)+a.l1*a.l1)
	qx, qy := vx+lambda*ux, vy+lambda*uy
	u1x, u1y := -a.kappa*uy, a.kappa*ux // u'
	mx, my := -a.kappa*ay+lambda*u1x, a.kappa*ax+lambda*u1y
	qu := qx*ux + qy*uy
	l1 := -(qx*mx + qy*my) / qu
	q1x, q1y := mx+l1*ux, my+l1*uy
	// q'·q' + q·q'' = 0 gives λ''; v'' = −A and u'' = −u
	kx, ky := -ax+2*l1*u1x-lambda*ux, -ay+2*l1*u1y-lambda*uy
	l2 := -(q1x*q1x + q1y*q1y + qx*kx + qy*ky) / qu
	q2x, q2y := kx+l2*ux, ky+l2*uy
	return (qx*q2y - qy*q2x) / (a.l1 * a.l1)
}
