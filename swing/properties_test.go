package swing

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	"swingwright/internal/ode"
	"swingwright/quantity"
)

// drawn is a random model; its number says which.
func drawn(t *rapid.T) Model {
	m, err := random(rapid.Uint64().Draw(t, "model"))
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// Virtual work: n·T_s is the slope of the spring's energy over the leaf's angle.
func TestVirtualWork(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawn(t)
		const h = 1e-3
		energy := func(theta float64) float64 {
			psi, _, _ := m.arm.Turn(theta)
			return m.v[SpringClosed]*psi + m.v[SpringRise]*psi*psi/2
		}
		theta := rapid.Float64Range(1, 110).Draw(t, "degrees") * deg
		slope := (energy(theta-2*h) - 8*energy(theta-h) + 8*energy(theta+h) - energy(theta+2*h)) / (12 * h)
		closing := float64(m.ClosingMoment(quantity.Angle(theta))) / (1 - m.v[CloserLoss])
		opening := float64(m.OpeningMoment(quantity.Angle(theta))) / (1 + m.v[CloserLoss])
		// read off the chart it is good to 1e-4
		if math.Abs(closing/slope-1) > 2e-4 || math.Abs(opening/slope-1) > 2e-4 {
			t.Errorf("at %.2f°: n·T_s %g closing, %g opening; slope of the energy %g", theta/deg, closing, opening, slope)
		}
	})
}

// stored is the energy of spring, seal, pressure, gravity and motion, J.
func stored(m *Model, y ode.State) float64 {
	v := &m.v
	psi, n, _ := m.arm.Turn(y.Angle)
	e := v[SpringClosed]*psi + v[SpringRise]*psi*psi/2
	if y.Angle < v[SealMeets] {
		e += v[SealStiffness] * (v[SealMeets] - y.Angle) * (v[SealMeets] - y.Angle) / 2
	}
	e += m.pressure * v[PressureFades] * math.Exp(-y.Angle/v[PressureFades])
	e -= m.lean * math.Cos(v[LeanAzimuth]-y.Angle)
	return e + (m.inertia+n*n*v[PinionInertia])*y.Rate*y.Rate/2
}

// lost is the power that oil, frictions, air and a bolt on its lip take from a
// closing leaf, W, by the words of the equations.
func lost(m *Model, y ode.State) float64 {
	v := &m.v
	psi, n, _ := m.arm.Turn(y.Angle)
	w, rate := math.Abs(y.Rate), n*math.Abs(y.Rate)
	below := func(at Value) float64 { return 1 / (1 + math.Exp((psi-v[at])/v[Blend])) }
	blend := func(share, x, y float64) float64 {
		if x > 0 && y > 0 {
			return math.Pow(x, share) * math.Pow(y, 1-share)
		}
		return share*x + (1-share)*y
	}
	var a, b float64
	if y.Rate < 0 {
		a = blend(below(LatchZone), v[LatchViscous], v[SweepViscous])
		b = blend(below(LatchZone), v[LatchOrifice], v[SweepOrifice])
		if v[DelayViscous] > 0 {
			a = blend((1-below(DelayFrom))*below(DelayTo), v[DelayViscous], a)
		}
	} else {
		a, b = v[FreeFlow]+(1-below(CheckZone))*v[CheckViscous], (1-below(CheckZone))*v[CheckOrifice]
	}
	p := (a*v[OilFactor]*rate + b*rate*rate) * rate
	p += (v[SpringClosed] + v[SpringRise]*psi) * v[CloserLoss] * math.Tanh(rate/pinionSlip) * rate
	p += v[HingeFriction]*math.Tanh(w/hingeSlip)*w + m.drag*w*w*w
	if y.Rate < 0 && y.Angle > v[BoltClears] && y.Angle < v[BoltMeets] {
		p += m.bolt * w
	}
	return p
}

// The ledger of energy closes over a motion: what was stored and is no longer
// went into oil, friction, air and the lip.
func TestEnergyLedger(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawn(t)
		from := quantity.Angle(rapid.Float64Range(20, 100).Draw(t, "from") * deg)
		gone := 0.0
		last := ode.State{Angle: float64(from)}
		mv := Mover{Exact: true, Watch: func(g *ode.Segment) {
			// Gauss's rule of three points, exact to the fifth power of time
			h, mid := (g.T1-g.T0)/2, (g.T0+g.T1)/2
			x := math.Sqrt(0.6) * h
			gone += h * (5*lost(&m, g.At(mid-x)) + 8*lost(&m, g.At(mid)) + 5*lost(&m, g.At(mid+x))) / 9
			last = g.To
		}}
		end := mv.Close(&m, from, nil)
		before, after := stored(&m, ode.State{Angle: float64(from)}), stored(&m, last)
		if off := before - after - gone; math.Abs(off) > 1e-6*(1+gone) {
			t.Errorf("%v: stored %g J, then %g J, lost %g J: %g J unaccounted for", end.End, before, after, gone, off)
		}
	})
}

// More resistance in a valve never closes a leaf sooner, nor a stronger spring
// later.
func TestClosingTimeIsMonotone(t *testing.T) {
	compared := 0
	rapid.Check(t, func(t *rapid.T) {
		m := drawn(t)
		value := rapid.SampledFrom([]Value{SweepViscous, SweepOrifice, LatchViscous, LatchOrifice, SpringClosed}).Draw(t, "value")
		v := m.v
		v[value] *= rapid.Float64Range(1.01, 2).Draw(t, "factor")
		other, err := New(&v, m.link)
		if err != nil {
			t.Fatal(err)
		}
		mv := Mover{Exact: true}
		a, b := mv.Close(&m, 90*quantity.Degree, nil), mv.Close(&other, 90*quantity.Degree, nil)
		if value == SpringClosed {
			a, b = b, a
		}
		if !a.End.Shut() && b.End.Shut() {
			t.Errorf("%s: the slower one shuts, the other %v", Symbols[value].Key, a.End)
		}
		if a.End.Shut() && b.End.Shut() {
			compared++
			if a.Time > b.Time+1e-6 {
				t.Errorf("%s: %v s, and %v s against more resistance or a weaker spring", Symbols[value].Key, a.Time, b.Time)
			}
		}
	})
	if compared < 5 {
		t.Errorf("only %d pairs shut", compared)
	}
}

// A leaf twice as heavy with all torques doubled moves alike, to the last bit:
// the equation does not know the unit of mass.
func TestUnitOfMassDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawn(t)
		v := m.v
		for _, x := range []Value{
			SlabMass, AttachedMass, AttachedMoment, AttachedInertia, SpringClosed, SpringRise, PinionInertia,
			SweepViscous, SweepOrifice, LatchViscous, LatchOrifice, DelayViscous, FreeFlow, CheckViscous, CheckOrifice,
			HingeFriction, BoltForce, SealStiffness, Pressure, AirDensity,
		} {
			v[x] *= 2
		}
		double, err := New(&v, m.link)
		if err != nil {
			t.Fatal(err)
		}
		c := refOf(m, 0)
		var mv Mover
		a, at := c.ours(&mv)
		c.model = double
		b, bt := c.ours(&mv)
		b.Energy, b.Impact = b.Energy/2, b.Impact/2
		if a != b {
			t.Errorf("%+v, doubled %+v", a, b)
		}
		for i := range at {
			if at[i] != bt[i] && !math.IsNaN(float64(at[i].Time)) {
				t.Errorf("%v, doubled %v", at[i], bt[i])
			}
		}
	})
}

// The same motion is the same to the last bit, whatever the Mover did before,
// and follows it without allocating.
func TestRepeatsAndDoesNotAllocate(t *testing.T) {
	v, link := typical()
	m, err := New(&v, link)
	if err != nil {
		t.Fatal(err)
	}
	other, err := random(3)
	if err != nil {
		t.Fatal(err)
	}
	var mv, fresh Mover
	marks, again := []Mark{{Angle: 12 * quantity.Degree}, {Angle: 0}}, []Mark{{Angle: 12 * quantity.Degree}, {Angle: 0}}
	first := fresh.Close(&m, 90*quantity.Degree, marks)
	mv.Open(&other, 100, 0, 90*quantity.Degree, nil)
	mv.Close(&other, 70*quantity.Degree, again)
	if got := mv.Close(&m, 90*quantity.Degree, again); got != first || again[0] != marks[0] || again[1] != marks[1] {
		t.Errorf("%+v %v, then %+v %v", first, marks, got, again)
	}
	for name, f := range map[string]func(){
		"Close":     func() { mv.Close(&m, 90*quantity.Degree, marks) },
		"Open":      func() { mv.Open(&m, 60, 0, 90*quantity.Degree, nil) },
		"SetValves": func() { m.SetValves(v[SweepViscous], v[LatchViscous]) },
		"SetAir":    func() { m.SetAir(3, 1.5) },
	} {
		if n := testing.AllocsPerRun(20, f); n != 0 {
			t.Errorf("%s allocates %v times", name, n)
		}
	}
}

// What was set after the model was made counts as if it had been made so.
func TestSettingIsMaking(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawn(t)
		v := m.v
		v[SweepViscous], v[LatchViscous] = rapid.Float64Range(5, 80).Draw(t, "sweep"), rapid.Float64Range(5, 200).Draw(t, "latch")
		v[Pressure], v[OilFactor] = rapid.Float64Range(-20, 20).Draw(t, "pressure"), rapid.Float64Range(0.3, 4).Draw(t, "oil")
		made, err := New(&v, m.link)
		if err != nil {
			t.Fatal(err)
		}
		if rapid.Bool().Draw(t, "valves first") {
			m.SetValves(v[SweepViscous], v[LatchViscous])
			m.SetAir(v[Pressure], v[OilFactor])
		} else {
			m.SetAir(v[Pressure], v[OilFactor])
			m.SetValves(v[SweepViscous], v[LatchViscous])
		}
		var mv Mover
		if a, b := mv.Close(&m, 90*quantity.Degree, nil), mv.Close(&made, 90*quantity.Degree, nil); a != b {
			t.Errorf("set %+v, made %+v", a, b)
		}
	})
}

// A leaf let go on its stop is shut at once, one opened to where it stands has
// struck, and one that pressure opens by itself passes its marks going up.
func TestStartingOnAStop(t *testing.T) {
	v, link := typical()
	m, err := New(&v, link)
	if err != nil {
		t.Fatal(err)
	}
	var mv Mover
	mark := []Mark{{Angle: 0}}
	if got := mv.Close(&m, 0, mark); got.End != Latched || got.Time != 0 || mark[0].Time != 0 {
		t.Errorf("let go closed: %+v, marks %v", got, mark)
	}
	if got := mv.Open(&m, 100, quantity.Radian, quantity.Radian, nil); got.End != Struck || got.Time != 0 {
		t.Errorf("opened to where it stands: %+v", got)
	}
	v[Pressure] = 500
	if m, err = New(&v, link); err != nil {
		t.Fatal(err)
	}
	up := []Mark{{Angle: 2 * quantity.Degree}, {Angle: 4 * quantity.Degree}}
	if got := mv.Open(&m, 0, 0, 5*quantity.Degree, up); got.End != Struck || !(0 < up[0].Time && up[0].Time < up[1].Time && up[1].Time < got.Time) {
		t.Errorf("opened by pressure: %+v, marks %v", got, up)
	}
}
