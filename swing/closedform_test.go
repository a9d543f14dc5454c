package swing

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	_ "swingwright/internal/steady"
	"swingwright/quantity"
)

// timed follows a closing, marks every tenth degree and gives the times.
func timed(t interface{ Fatal(...any) }, v *Values, link Linkage, from float64) (Motion, []Mark) {
	m, err := New(v, link)
	if err != nil {
		t.Fatal(err)
	}
	var marks []Mark
	for a := math.Floor(from/10-0.01) * 10; a >= 0; a -= 10 {
		marks = append(marks, Mark{Angle: quantity.Angle(a * deg)})
	}
	mv := Mover{Exact: true}
	return mv.Close(&m, quantity.Angle(from*deg), marks), marks
}

// within checks every mark against the time in which the closed form gets there.
func within(t *rapid.T, marks []Mark, tolerance float64, when func(theta float64) float64) {
	t.Helper()
	for _, m := range marks {
		if want := when(float64(m.Angle)); !(math.Abs(float64(m.Time)-want) <= tolerance) {
			t.Errorf("%.0f° after %.8f s, want %.8f s", float64(m.Angle)/deg, m.Time, want)
		}
	}
}

// A leaf under a constant torque T: θ = θ0 − T·t²/(2I).
func TestConstantTorque(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		i, from := rapid.Float64Range(1, 100).Draw(t, "inertia"), rapid.Float64Range(15, 120).Draw(t, "from")
		torque := rapid.Float64Range(0.5, 100).Draw(t, "torque")
		v, link := plain(i)
		v[SpringClosed] = torque
		got, marks := timed(t, &v, link, from)
		if want := torque * from * deg; math.Abs(float64(got.Impact)/want-1) > 1e-7 {
			t.Errorf("strikes with %g J, want T·θ0 = %g J", got.Impact, want)
		}
		within(t, marks, 1e-7, func(theta float64) float64 { return math.Sqrt(2 * (from*deg - theta) * i / torque) })
	})
}

// A frictionless leaf on a spring T_0 + kθ swings about θ = −T_0/k:
// θ + T_0/k = (θ0 + T_0/k)·cos(√(k/I)·t).
func TestSpringOnly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		i, from := rapid.Float64Range(1, 100).Draw(t, "inertia"), rapid.Float64Range(15, 120).Draw(t, "from")
		closed, k := rapid.Float64Range(0.5, 50).Draw(t, "torque closed"), rapid.Float64Range(0.5, 50).Draw(t, "rise")
		v, link := plain(i)
		v[SpringClosed], v[SpringRise] = closed, k
		_, marks := timed(t, &v, link, from)
		c := closed / k
		within(t, marks, 1e-7, func(theta float64) float64 {
			return math.Acos((theta+c)/(from*deg+c)) / math.Sqrt(k/i)
		})
	})
}

// Against oil alone, T constant: θ0 − θ = (T/a)·(t − (I/a)·(1 − e^(−at/I))).
func TestViscousClosing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		i, torque := rapid.Float64Range(1, 100).Draw(t, "inertia"), rapid.Float64Range(2, 60).Draw(t, "torque")
		a := rapid.Float64Range(5, 100).Draw(t, "damping")
		v, link := plain(i)
		v[SpringClosed], v[SweepViscous], v[LatchViscous] = torque, a, a
		_, marks := timed(t, &v, link, 90)
		at := func(x float64) float64 { return math.Pi/2 - torque/a*(x+i/a*math.Expm1(-a*x/i)) }
		for _, m := range marks {
			if off := at(float64(m.Time)) - float64(m.Angle); !(math.Abs(off) < 1e-8) {
				t.Errorf("%.0f° after %.6f s, when the closed form is %g rad off", float64(m.Angle)/deg, m.Time, off)
			}
		}
	})
}

// Against air alone, T constant and drag dω²: θ0 − θ = (I/d)·ln cosh(t·√(Td)/I).
// An orifice does the same with b in place of d.
func TestSquareLawClosing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		i, torque := rapid.Float64Range(1, 100).Draw(t, "inertia"), rapid.Float64Range(2, 60).Draw(t, "torque")
		d := rapid.Float64Range(1, 200).Draw(t, "square law")
		v, link := plain(i)
		v[SpringClosed] = torque
		if rapid.Bool().Draw(t, "air") {
			// ½ρ·C_d·h·r⁴/4 with h = 2 m, r = 1 m
			v[AirDensity], v[DragCoefficient] = 1.25, d*4/1.25
		} else {
			v[SweepOrifice], v[LatchOrifice] = d, d
		}
		_, marks := timed(t, &v, link, 90)
		within(t, marks, 1e-7, func(theta float64) float64 {
			return math.Acosh(math.Exp((math.Pi/2-theta)*d/i)) * i / math.Sqrt(torque*d)
		})
	})
}

// A leaf pushed open by pressure that fades: ½Iω² = ΔpSθ_p·(1 − e^(−θ/θ_p)),
// and one that gravity swings on a leaning hinge line: ½Iω² = L·(cos(γ−θ) − cos γ).
func TestEnergyOfPressureAndLean(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		i, stop := rapid.Float64Range(1, 100).Draw(t, "inertia"), rapid.Float64Range(1, 80).Draw(t, "stop")*deg
		v, link := plain(i)
		var want float64
		if rapid.Bool().Draw(t, "pressure") {
			v[Pressure] = rapid.Float64Range(1, 50).Draw(t, "pressure")
			want = v[Pressure] * 1 * 2 * 0.5 * v[PressureFades] * -math.Expm1(-stop/v[PressureFades])
		} else {
			v[LeanAngle] = rapid.Float64Range(0.2, 3).Draw(t, "lean") * deg
			azimuth := rapid.Float64Range(95, 170).Draw(t, "azimuth") * deg
			v[LeanAzimuth] = azimuth
			want = quantity.StandardGravity * v[SlabMass] * 0.5 * math.Sin(v[LeanAngle]) * (math.Cos(azimuth-stop) - math.Cos(azimuth))
		}
		m, err := New(&v, link)
		if err != nil {
			t.Fatal(err)
		}
		mv := Mover{Exact: true}
		got := mv.Open(&m, 0, 0, quantity.Angle(stop), nil)
		if got.End != Struck || math.Abs(float64(got.Impact)/want-1) > 1e-6 {
			t.Errorf("%v with %g J, want %g J", got.End, got.Impact, want)
		}
	})
}

// Coulomb friction of the hinges eats τ_h·θ0 of the energy; the smoothing
// lets some of it go while the leaf gathers speed.
func TestHingeFrictionEatsEnergy(t *testing.T) {
	v, link := plain(20)
	v[SpringClosed], v[HingeFriction] = 12, 3
	got, _ := timed(t, &v, link, 90)
	if want := (12.0 - 3) * math.Pi / 2; math.Abs(float64(got.Impact)/want-1) > 1e-4 {
		t.Errorf("strikes with %g J, want %g J", got.Impact, want)
	}
}
