package swing

import (
	"fmt"

	"swingwright/quantity"
)

// randomDriven is a random model with a random operator: an add-on or a unit
// with its own arm, from one that cannot move the leaf to one that has three
// times the torque it needs, with controls from lax to stiff.
func randomDriven(seed uint64) (Model, Drive, error) {
	m, err := random(seed)
	if err != nil {
		return m, Drive{}, err
	}
	d, v := diceOf(seed+7000), m.v
	op := Drive{Fitted: true, Own: d.chance(0.5)}
	if op.Own {
		var own Values
		link, _ := d.arm(&own, int(d.Uint64()%uint64(len(armKinds))))
		copy(v[DrivePinionX:DriveTrackLine+1], own[PinionX:TrackLine+1])
		op.Track, op.OnLeaf, op.Bend = link.Track, link.OnLeaf, link.Bend
	}
	v[OpenAngle] = d.in(75, 108) * deg
	v[SlowFrom], v[OpenRate], v[CreepRate] = d.in(50, 110)*deg, d.in(12, 40)*deg, d.in(4, 12)*deg
	if d.chance(0.8) {
		v[RampTime] = d.in(0.1, 1.5)
	}
	v[DriveEfficiency], v[GearRatio] = d.in(0.6, 0.95), d.in(40, 160)
	v[RotorInertia] = d.log(0.005, 1.5) / (v[GearRatio] * v[GearRatio])
	v[DriveFree], v[DriveStall], v[DriveGain] = 1, 1, 1
	if m, err = New(&v, m.link); err != nil {
		return m, op, err
	}
	if err := m.SetDrive(op); err != nil {
		return m, op, fmt.Errorf("random operator %d: %w", seed, err)
	}
	// what it takes at the shaft to open the leaf slowly, and how fast the shaft is
	need := float64(most(0, quantity.Angle(v[OpenAngle]), func(theta quantity.Angle) quantity.Torque {
		return quantity.Torque(m.resisting(float64(theta)) / m.ratio(float64(theta)))
	})) / v[DriveEfficiency]
	v[DriveStall] = d.in(0.85, 3) * need
	v[DriveFree] = d.in(0.8, 4) * v[OpenRate] * m.ratio(45*deg)
	v[DriveGain] = d.in(1, 8) * need / v[OpenRate]
	if m, err = New(&v, m.link); err != nil {
		return m, op, err
	}
	return m, op, m.SetDrive(op)
}
