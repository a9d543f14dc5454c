package swing

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
	"swingwright/quantity"
)

// Two gauge readings at any angle and radius give back the spring and the
// friction that they were made with.
func TestReadGaugeGivesBackTheCloser(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawn(t)
		v := m.v
		v[Pressure], v[LeanAngle], v[SealStiffness] = 0, 0, 0
		m, err := New(&v, m.link)
		if err != nil {
			t.Fatal(err)
		}
		theta := quantity.Angle(rapid.Float64Range(1, 90).Draw(t, "degrees") * deg)
		at := quantity.Length(rapid.Float64Range(0.5, 1.1).Draw(t, "radius"))
		psi, n, _ := m.arm.At(theta)
		hinges := quantity.Torque(v[HingeFriction])
		g := ReadGauge(HandForce(m.HandMoment(theta), at), HandForce(m.ClosingMoment(theta)-hinges, at), at, n, hinges)
		// the chart is good to 1e-4
		if want := v[SpringClosed] + v[SpringRise]*float64(psi); math.Abs(float64(g.Spring)/want-1) > 2e-4 || math.Abs(float64(g.Loss)-v[CloserLoss]) > 1e-9 {
			t.Errorf("gauged %g N·m with μ = %g, want %g N·m with %g", g.Spring, g.Loss, want, v[CloserLoss])
		}
		if back := SpringOfMoment(m.ClosingMoment(theta), n, g.Loss); math.Abs(float64(back/g.Spring)-1) > 1e-9 {
			t.Errorf("behind the closing moment stands %g N·m, gauged %g N·m", back, g.Spring)
		}
	})
}

// Loss and efficiency, (1 − μ)/(1 + μ), are each other's inverse by the same formula.
func TestLossOfEfficiencyIsItsOwnInverse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := quantity.Ratio(rapid.Float64Range(0.01, 1).Draw(t, "efficiency"))
		if mu := LossOfEfficiency(e); !(mu >= 0 && mu < 1) || math.Abs(float64(LossOfEfficiency(mu)-e)) > 1e-15 {
			t.Errorf("efficiency %g: loss %g", e, mu)
		}
	})
}

// A push short of what sets the leaf in motion leaves it closed; one that is
// a little more than what it ever needs opens it.
func TestAPushOpensWhereTheHandMomentSaysSo(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawn(t)
		most := m.LargestHandMoment(0, 90*quantity.Degree)
		if m.HandMoment(0) <= 0 || most <= 0 {
			t.Skip("opens by itself")
		}
		var mv Mover
		if got := mv.Open(&m, 0.999*m.HandMoment(0), 0, 90*quantity.Degree, nil); got.End != RestsOpen || got.Angle != 0 {
			t.Errorf("pushed too little: %+v", got)
		}
		// oil may be too thick to get there in time
		if got := mv.Open(&m, 1.02*most, 0, 90*quantity.Degree, nil); got.End != Struck && got.End != TimedOut {
			t.Errorf("pushed enough: %+v", got)
		}
	})
}

func TestSizesBetweenTheMarks(t *testing.T) {
	// halfway between sizes 3 (18 to 26 N·m) and 4 (26 to 37 N·m)
	if low, high, err := SizeBand(3.5); err != nil || low != 22 || high != 31.5 {
		t.Errorf("size 3.5: %g to %g N·m, %v", low, high, err)
	}
	if low, high, err := SizeBand(7); err != nil || low != 87 || high != 140 {
		t.Errorf("size 7: %g to %g N·m, %v", low, high, err)
	}
	for _, size := range []quantity.Ratio{0.99, 7.01, quantity.Ratio(math.NaN())} {
		if _, _, err := SizeBand(size); err == nil || !strings.Contains(err.Error(), "run from 1 to 7") {
			t.Errorf("size %g: %v", size, err)
		}
	}
}

// Speed at a given torque goes with the opening of the valve: open it twice as
// far and a viscous resistance halves, an orifice's falls to a quarter.
func TestValveAt(t *testing.T) {
	a, b, err := ValveAt(40, 12, 0.75, 1.25, 0.25)
	if err != nil || math.Abs(float64(a)-20) > 1e-12 || math.Abs(float64(b)-3) > 1e-12 {
		t.Errorf("%g and %g (%v), want 20 and 3", a, b, err)
	}
	for _, u := range [][2]quantity.Turns{{0.25, 1}, {1, 0.25}, {1, 0.1}} {
		if _, _, err := ValveAt(40, 12, u[0], u[1], 0.25); err == nil {
			t.Errorf("a valve at %v turns that shuts at 0.25 is taken", u)
		}
	}
}

func TestOilViscosityRefuses(t *testing.T) {
	for _, c := range []struct {
		at40, at100 quantity.Viscosity
		t           quantity.Temperature
	}{{5e-6, 32e-6, 300}, {32e-6, 2e-6, 300}, {32e-6, 5.4e-6, 0}, {quantity.Viscosity(math.NaN()), 5e-6, 300}} {
		if nu, err := OilViscosity(c.at40, c.at100, c.t); err == nil {
			t.Errorf("%+v: %g", c, nu)
		}
	}
}
