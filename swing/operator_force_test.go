package swing

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"swingwright/internal/ode"
	"swingwright/quantity"
)

// An operator set so that 15 lbf stop it, net, 1 in from the latch edge of a
// 3 × 7 ft leaf opens against no more than 0.267 in. w.g. (66.5 Pa), whatever the
// spring, and one of 10 lbf against 0.178 in. w.g. (44 Pa): the pressure term of
// the door-opening force (IBC 909.6.2, Eq. 9-1) turned about.
func TestNetForceLimitsThePressure(t *testing.T) {
	for _, c := range []struct{ pounds, water, pascal float64 }{{15, 0.267, 66.5}, {10, 0.178, 44.3}} {
		for _, spring := range []float64{0, 12, 40} {
			v, link := plain(20)
			drivenBy(&v)
			v[LeafWidth], v[LeafHeight] = float64(3*quantity.Foot), float64(7*quantity.Foot)
			net := c.pounds * float64(quantity.PoundForce) * float64(35*quantity.Inch)
			v[SpringClosed], v[CloserLoss], v[HingeFriction] = spring, 0.25, 1
			v[DriveEfficiency] = 0.8
			v[DriveStall] = (net + 1.25*spring + 1) / 0.8
			v[DriveGain] = 1e4
			m := driven(t, &v, link, Drive{})
			agrees(t, "net moment", float64(m.StallMoment(0)), net, 1e-9)
			agrees(t, "largest pressure, Pa", float64(m.LargestPressure(0)), c.pascal, 0.06)
			agrees(t, "in. w.g.", float64(m.LargestPressure(0)/quantity.InchOfWater), c.water, 0.0006)
			m.SetAir(-float64(m.LargestPressure(0)), 1)
			agrees(t, "net moment at that pressure", float64(m.StallMoment(0)), 0, 1e-9)
		}
	}
}

// With n = 1: drive at the shaft less spring, its friction and the hinges', and
// the force at 25 mm from the latch edge of a leaf 1 m wide.
func TestStallMoment(t *testing.T) {
	v, link := plain(20)
	drivenBy(&v)
	v[DriveStall], v[DriveEfficiency] = 50, 0.8
	v[SpringClosed], v[SpringRise], v[CloserLoss], v[HingeFriction], v[BackDrive] = 10, 4, 0.2, 0.5, 3
	m := driven(t, &v, link, Drive{})
	want := 40 - 1.2*(10+4*0.5) - 0.5
	agrees(t, "moment", float64(m.StallMoment(0.5)), want, 1e-9)
	agrees(t, "largest", float64(m.LargestStallMoment(0, 90*quantity.Degree)), 40-1.2*10-0.5, 1e-9)
	agrees(t, "force", float64(HandForce(m.StallMoment(0.5), m.StallRadius())), want/0.975, 1e-9)
	agrees(t, "to hold open", float64(m.HoldingTorque()), 0.8*(10+4*math.Pi/2)-0.5, 1e-9)
}

// Without power the drive is turned along, by the hand and by the closer, unless
// it lets go.
func TestBackDrive(t *testing.T) {
	v, link := plain(20)
	drivenBy(&v)
	v[SpringClosed], v[CloserLoss], v[BackDrive], v[SweepViscous], v[LatchViscous] = 10, 0.2, 9, 20, 20
	for _, c := range []struct {
		drive    Drive
		drag     float64
		open     End
		whatever string
	}{{Drive{}, 9, RestsOpen, "turned along"}, {Drive{LetsGo: true}, 0, Closed, "lets go"}} {
		m := driven(t, &v, link, c.drive)
		agrees(t, c.whatever+", by hand", float64(m.HandMoment(0.5)), 12+c.drag, 1e-9)
		agrees(t, c.whatever+", latch budget", float64(m.BudgetAt(0).Margin()), 8-c.drag, 1e-9)
		var mv Mover
		if got := mv.Close(&m, 60*quantity.Degree, nil).End; got != c.open {
			t.Errorf("%s: closing ends %v, want %v", c.whatever, got, c.open)
		}
		var shut [1]bool
		mv.ShutsFrom(&m, []quantity.Angle{60 * quantity.Degree}, shut[:])
		if shut[0] != c.open.Shut() {
			t.Errorf("%s: shuts %v", c.whatever, shut[0])
		}
	}
}

// A leaf at rest is moved on against less than the largest pressure from every
// degree, and against more stands still at one of them at least.
func TestLargestPressureIsWhatMotionSays(t *testing.T) {
	held, open := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		m, _, err := randomDriven(rapid.Uint64Range(0, 5000).Draw(t, "operator"))
		if err != nil {
			t.Fatal(err)
		}
		most := float64(m.LargestPressure(0))
		if !(most > 1) {
			return
		}
		var mv Mover
		stands := func(share float64) (stood bool) {
			n := m
			n.SetAir(-share*most, n.v[OilFactor])
			for theta := 0.0; theta < n.motor.open; theta += deg {
				got := mv.Drive(&n, 0, quantity.Angle(theta), nil)
				stood = stood || got.End == Stalled && float64(got.Angle) == theta
			}
			return stood
		}
		if stands(0.98) {
			t.Errorf("stands still against less than %.1f Pa", most)
		}
		open++
		if stands(1.02) {
			held++
		} else if at := m.thrust(m.motor.open); at > 0 {
			// only where it stops altogether may the pressure be the least
			if got := m.LargestPressure(0); !(got < 1.03*m.LargestPressure(quantity.Angle(m.motor.open))) {
				t.Errorf("moves on against more than %.1f Pa", most)
			}
		}
	})
	if held == 0 || open == 0 {
		t.Errorf("%d and %d cases: the test shows nothing", held, open)
	}
}

// A faster setting never opens later nor with less energy; a pressure that
// pushes the leaf shut never makes it open sooner.
func TestOpeningIsMonotone(t *testing.T) {
	opened := 0
	rapid.Check(t, func(t *rapid.T) {
		v, link := ordinary()
		v[OpenRate] = rapid.Float64Range(12, 35).Draw(t, "rate") * deg
		v[Pressure] = rapid.Float64Range(-20, 20).Draw(t, "pressure")
		v[DriveGain] = rapid.Float64Range(150, 900).Draw(t, "gain")
		faster := rapid.Float64Range(1.02, 1.5).Draw(t, "faster")
		worse := rapid.Float64Range(0.5, 20).Draw(t, "more pressure")
		mv := Mover{Exact: true}
		run := func(change func(v *Values)) Powered {
			w := v
			change(&w)
			m, err := New(&w, link)
			if err != nil {
				t.Fatal(err)
			}
			if err := m.SetDrive(Drive{Fitted: true}); err != nil {
				t.Fatal(err)
			}
			return mv.Drive(&m, 0, 0, nil)
		}
		base := run(func(*Values) {})
		quick := run(func(v *Values) { v[OpenRate] *= faster })
		hard := run(func(v *Values) { v[Pressure] -= worse })
		if base.End != Opened {
			if hard.End == Opened {
				t.Error("opens against more pressure only")
			}
			return
		}
		opened++
		if quick.End != Opened || quick.Time > base.Time+1e-6 || float64(quick.Energy) < float64(base.Energy)*(1-1e-6) {
			t.Errorf("faster: %+v, was %+v", quick, base)
		}
		if hard.End == Opened && hard.Time < base.Time-1e-6 {
			t.Errorf("against more pressure: %v, was %v", hard.Time, base.Time)
		}
	})
	if opened == 0 {
		t.Error("nothing opened: the test shows nothing")
	}
}

// The work that the drive does, less what the rest takes, is the kinetic energy
// of leaf, closer and rotor, to 1e-6 of the work.
func TestEnergyOfAnOpening(t *testing.T) {
	// Gauss-Legendre with five points (Abramowitz and Stegun, 1964, Table 25.4)
	points := [...]float64{-0.906179845938664, -0.538469310105683, 0, 0.538469310105683, 0.906179845938664}
	weights := [...]float64{0.236926885056189, 0.478628670499366, 0.568888888888889, 0.478628670499366, 0.236926885056189}
	opened := 0
	rapid.Check(t, func(t *rapid.T) {
		m, _, err := randomDriven(rapid.Uint64Range(0, 5000).Draw(t, "operator"))
		if err != nil {
			t.Fatal(err)
		}
		v := &m.v
		given, taken := 0.0, 0.0
		power := func(at, theta, omega float64) (in, out float64) {
			rate := v[OpenRate]
			if theta > v[SlowFrom] && v[SlowFrom] < v[OpenAngle] && v[CreepRate] < rate {
				rate += (v[CreepRate] - rate) * (theta - v[SlowFrom]) / (v[OpenAngle] - v[SlowFrom])
			}
			if v[RampTime] > 0 {
				rate *= min(1, at/v[RampTime])
			}
			nd := m.ratio(theta)
			has := v[DriveStall] * (1 - nd*omega/v[DriveFree])
			in = v[DriveEfficiency] * nd * max(0, min(v[DriveGain]*(rate-omega), has)) * omega
			psi, n, _ := m.arm.Turn(theta)
			spin := n * omega
			out = n*(m.spring(psi)*(1+v[CloserLoss]*math.Tanh(spin/pinionSlip))+m.openingResistance(psi, spin)) +
				v[HingeFriction]*math.Tanh(omega/hingeSlip) + m.drag*omega*omega - m.breeze(theta) - m.push(theta)
			return in, out * omega
		}
		mv := Mover{Exact: true}
		mv.Watch = func(g *ode.Segment) {
			half := (g.T1 - g.T0) / 2
			for i, x := range points {
				at := g.T0 + half*(1+x)
				y := g.At(at)
				in, out := power(at, y.Angle, y.Rate)
				given, taken = given+weights[i]*half*in, taken+weights[i]*half*out
			}
		}
		got := mv.Drive(&m, 0, 0, nil)
		if got.End != Opened {
			return
		}
		opened++
		end, omega := float64(got.Angle), float64(got.Rate)
		_, n, _ := m.arm.Turn(end)
		nd := m.ratio(end)
		kinetic := 0.5 * omega * omega * (m.inertia + n*n*v[PinionInertia] + nd*nd*v[GearRatio]*v[GearRatio]*v[RotorInertia])
		if off := given - taken - kinetic; math.Abs(off) > 1e-6*given {
			t.Errorf("%.6g J from the drive, %.6g J taken, %.6g J left in motion: %.3g J astray", given, taken, kinetic, off)
		}
	})
	if opened == 0 {
		t.Error("nothing opened: the test shows nothing")
	}
}

// The course gives its terms between the nodes as solving the arms does.
func TestCourseAgreesWithTheArms(t *testing.T) {
	for seed := range uint64(40) {
		m, _, err := randomDriven(seed)
		if err != nil {
			t.Fatal(err)
		}
		if !m.course.ok {
			t.Fatalf("operator %d is not charted", seed)
		}
		for theta := 0.0; theta <= m.motor.open; theta += 0.13 * deg {
			s, dn, dnd := m.course.read(theta)
			psi, n, _ := m.arm.Turn(theta)
			for _, c := range []struct {
				name              string
				got, want, within float64
			}{
				{"n", s.n, n, 1e-5}, {"drive", s.drive, n * m.spring(psi), 1e-4 * n * m.spring(psi)}, {"nd", s.nd, m.ratio(theta), 1e-5},
				{"dn", dn, m.arm.Bend(theta), 1e-3}, {"dnd", dnd, m.DriveArm().Bend(theta), 1e-3},
				{"check", s.check, 1 - share(psi, m.v[CheckZone], m.v[Blend]), 0.02}, {"fade", s.fade, math.Exp(-theta / m.v[PressureFades]), 1e-4},
			} {
				if !(math.Abs(c.got-c.want) <= c.within) {
					t.Errorf("operator %d: %s at %.2f°: course %.9g, arms %.9g", seed, c.name, theta/deg, c.got, c.want)
				}
			}
		}
	}
}
