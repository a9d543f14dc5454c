package tune

import (
	"math"
	"strings"
	"testing"

	"swingwright/quantity"
	"swingwright/swing"
)

// truth is what a quantity of a fit truly is.
func (d *door) truth(q *Quantity) (float64, bool) {
	switch q.Name {
	case "spring":
		return float64(d.spring[0].Closed / d.known.Spring[0].Closed), true
	case "closer friction":
		return d.values[swing.CloserLoss], true
	case "hinge friction":
		return d.values[swing.HingeFriction], true
	case "leaf mass":
		return d.values[swing.SlabMass], true
	case "latch zone":
		return d.values[swing.LatchZone], true
	case "air pressure":
		return d.values[swing.Pressure], true
	case "latch bolt":
		return d.values[swing.BoltForce], true
	}
	return 0, false
}

var usual = State{Power: 3, Sweep: 0.7, Latch: 0.8}

func gauges(d *door, s State) []Gauge {
	return []Gauge{
		d.gauge(s, Opening, 10*deg, 0.85, 0.03), d.gauge(s, Opening, 60*deg, 0.85, 0.03),
		d.gauge(s, Closing, 5*deg, 0.85, 0.03), d.gauge(s, Closing, 45*deg, 0.85, 0.03),
	}
}

// Over many doors that differ from what is known of them, the stated spreads of what a
// recording with gauge readings tells are honest: some 68 and 95 of a hundred true values
// lie within one and two of them. A fifth of the doors were touched.
func TestStatedSpreadsAreHonest(t *testing.T) { checkHonest(t, phone, 40, true, 0.9) }

// So are they where the angle is a rate summed up, whose error wanders: samples that go
// together count for fewer than they are, and what wanders slowly, which looks like another
// closer, counts by the pace at which it does.
func TestWanderingAnglesAreHonest(t *testing.T) {
	gyro := phone
	gyro.noise, gyro.walk = 0.02*degree, 0.03*degree
	checkHonest(t, gyro, 50, false, 0.91)
}

func checkHonest(t *testing.T, how recorder, doors int, touches bool, least float64) {
	t.Helper()
	n, one, two := 0, 0, 0
	wild := map[string]int{}
	for seed := range uint64(doors) {
		d := newDoor(1000 + seed)
		how, touched := how, touches && seed%5 == 0
		if touched {
			how.touch, how.held = 50*degree, 0.6
		}
		f, err := Identify(&d.known, &Record{Curves: []Curve{d.curve(usual, how)}, Gauges: gauges(d, usual)})
		if err != nil {
			t.Fatalf("door %d: %v", seed, err)
		}
		if touched != (len(f.Left) > 0) {
			t.Errorf("door %d: touched %v, left out %v", seed, touched, f.Left)
		}
		for i := range f.Quantities {
			q := &f.Quantities[i]
			want, ok := d.truth(q)
			if !ok {
				continue
			}
			z := (q.Value - want) / q.U
			if q.Log {
				z = math.Log(q.Value/want) / q.U
			}
			n++
			if math.Abs(z) <= 1 {
				one++
			}
			if math.Abs(z) <= 2 {
				two++
			} else {
				wild[q.Name]++
			}
		}
	}
	share := func(k int) float64 { return float64(k) / float64(n) }
	t.Logf("%d quantities: %.1f %% within one spread, %.1f %% within two; beyond: %v", n, 100*share(one), 100*share(two), wild)
	if share(one) < 0.58 || share(two) < least {
		t.Error("the stated spreads are too small")
	}
	if share(one) > 0.85 {
		t.Error("the stated spreads are too large")
	}
}

// Outliers among the samples change what is found by less than it is uncertain by.
func TestOutliersAreLetGo(t *testing.T) {
	d, wild := newDoor(7), phone
	wild.outliers = 0.05
	a, err := Identify(&d.known, &Record{Curves: []Curve{d.curve(usual, phone)}, Gauges: gauges(newDoor(7), usual)})
	if err != nil {
		t.Fatal(err)
	}
	b, err := Identify(&d.known, &Record{Curves: []Curve{d.curve(usual, wild)}, Gauges: gauges(newDoor(7), usual)})
	if err != nil {
		t.Fatal(err)
	}
	for i := range a.Quantities {
		p, q := &a.Quantities[i], &b.Quantities[i]
		off := q.Value - p.Value
		if p.Log {
			off = math.Log(q.Value / p.Value)
		}
		if !(math.Abs(off) < 1.5*math.Hypot(p.U, q.U)) {
			t.Errorf("%s: %g and with outliers %g, spreads %g and %g", p.Name, p.Value, q.Value, p.U, q.U)
		}
	}
}

// A recording alone tells torque over damping, and says that it tells no more; with forces
// gauged, or the leaf weighed, they come apart.
func TestTorqueAndDampingNeedAForceOrTheInertia(t *testing.T) {
	d := newDoor(3)
	d.known.U[swing.SlabMass] = 0.2 * d.known.Values[swing.SlabMass] // by the rule of size
	d.known.U[swing.SpringClosed] = 0.3 * d.known.Values[swing.SpringClosed]
	says := func(r *Record, k *Known) (bool, float64) {
		f, err := Identify(k, r)
		if err != nil {
			t.Fatal(err)
		}
		return strings.Contains(strings.Join(f.CannotTell, "\n"), "torque and damping apart"), f.Quantities[0].U
	}
	curve := d.curve(usual, phone)
	alone, uAlone := says(&Record{Curves: []Curve{curve}}, &d.known)
	gauged, uGauged := says(&Record{Curves: []Curve{curve}, Gauges: gauges(d, usual)}, &d.known)
	weighed := d.known
	weighed.U[swing.SlabMass] = 0.01 * weighed.Values[swing.SlabMass]
	weighed.Values[swing.SlabMass] = d.values[swing.SlabMass]
	_, uWeighed := says(&Record{Curves: []Curve{curve}}, &weighed)
	if !alone || gauged {
		t.Errorf("told to be one: alone %v, with forces %v", alone, gauged)
	}
	if !(uGauged < 0.3*uAlone && uWeighed < 0.6*uAlone) {
		t.Errorf("spring known to %.3f alone, %.3f with forces, %.3f weighed", uAlone, uGauged, uWeighed)
	}
}

// With every torque and resistance a tenth larger, and the leaf's inertia too, the curve
// is the same to the bit of the model: what is told of one is told of the other.
func TestScaledDoorsCloseAlike(t *testing.T) {
	d := newDoor(9)
	s := usual
	m := d.model(s)
	v := *m.Values()
	for _, i := range []swing.Value{
		swing.SpringClosed, swing.SpringRise, swing.SweepViscous, swing.SweepOrifice, swing.LatchViscous, swing.LatchOrifice,
		swing.SlabMass, swing.HingeFriction, swing.BoltForce, swing.SealStiffness, swing.Pressure, swing.AirDensity,
	} {
		v[i] *= 1.1
	}
	scaled, err := swing.New(&v, d.known.Link)
	if err != nil {
		t.Fatal(err)
	}
	a, b := pathOf(&m, 90*degree), pathOf(&scaled, 90*degree)
	for x := 0.0; x < float64(a.end.Time); x += 0.05 {
		if off := math.Abs(a.at(x) - b.at(x)); !(off < 1e-4) {
			t.Fatalf("%g rad apart at %g s", off, x)
		}
	}
}

// Laps alone give the resistances; what the laps do not show stays as it was known.
func TestLapsAlone(t *testing.T) {
	d := newDoor(11)
	f, err := Identify(&d.known, &Record{Laps: d.laps(usual, 0.06)})
	if err != nil {
		t.Fatal(err)
	}
	m := swing.Model{}
	v := f.Values(usual.Power, f.Sweep[0].Viscous, f.Latch[0].Viscous, 1)
	if m, err = swing.New(&v, d.known.Link); err != nil {
		t.Fatal(err)
	}
	marks := []swing.Mark{{Angle: 90 * deg}, {Angle: 12 * deg}}
	var mv swing.Mover
	mv.Close(&m, 90*deg, marks)
	truly := d.laps(usual, 1e-9)[0].Time
	if off := float64(marks[1].Time - truly); !(math.Abs(off) < 0.25) {
		t.Errorf("fitted to close in %.2f s, truly %.2f s", float64(marks[1].Time), float64(truly))
	}
	if len(f.CannotTell) < 4 || !strings.Contains(f.Report(), "cannot tell leaf mass") {
		t.Errorf("two laps tell a lot:\n%s", f.Report())
	}
}

// A leaf seen to latch, and one seen not to, each pull the spring their way where it was
// in doubt.
func TestLatchingTells(t *testing.T) {
	d := newDoor(12)
	d.known.U[swing.SpringClosed] = 0.3 * d.known.Values[swing.SpringClosed]
	weak := State{Power: 1, Sweep: 0.7, Latch: 0.8}
	found := func(latched bool) float64 {
		f, err := Identify(&d.known, &Record{Gauges: []Gauge{{State: weak, Way: Opening, Angle: 30 * deg, At: 0.85, Force: 15, U: 15}}, Latchings: []Latching{{weak, latched}}})
		if err != nil {
			t.Fatal(err)
		}
		return f.Quantities[0].Value
	}
	if yes, no := found(true), found(false); !(yes > no) {
		t.Errorf("latched: spring %.3f; not: %.3f", yes, no)
	}
}

// The same record gives the same bits.
func TestSameRecordSameBits(t *testing.T) {
	d := newDoor(13)
	r := &Record{Curves: []Curve{d.curve(usual, phone)}, Gauges: gauges(d, usual)}
	a, err1 := Identify(&d.known, r)
	b, err2 := Identify(&d.known, r)
	if err1 != nil || err2 != nil || a.Report() != b.Report() {
		t.Fatal(err1, err2)
	}
	for i := range a.Covariance {
		if math.Float64bits(a.Covariance[i]) != math.Float64bits(b.Covariance[i]) {
			t.Fatal("covariances differ")
		}
	}
}

func TestWhatIsWrongIsTold(t *testing.T) {
	k := typical()
	good := newDoor(1).curve(usual, phone)
	bad := good
	bad.T = append([]float64{5}, bad.T[1:]...)
	nan := good
	nan.Theta = append([]float64{math.NaN()}, nan.Theta[1:]...)
	r := &Record{
		Curves: []Curve{bad, nan, {Name: "short", T: []float64{1, 2}, Theta: []float64{1, 0}, U: 0.1}, {T: []float64{1}, U: 1}, {U: -1}, {U: 1, Oil: -1}},
		Laps:   []Lap{{Time: -1, U: 1, From: 1, To: 0}, {Time: 1, U: 1, From: 0.1, To: 0.2, Oil: -1}},
		Gauges: []Gauge{{Force: quantity.Force(math.NaN()), U: 1, At: -1, Angle: 5}},
	}
	_, err := Identify(&k, r)
	for _, part := range []string{"curve 1", "times must rise", "curve 2", "curve 3 short: 2 good samples", "as many of each", "standard deviation above zero", "viscosity ratio", "lap 1: -1 s", "lap 2: from", "force 1: NaN", "distance from the hinge"} {
		if err == nil || !strings.Contains(err.Error(), part) {
			t.Errorf("%q is not told: %v", part, err)
		}
	}
	if _, err := Identify(&k, &Record{}); err == nil || !strings.Contains(err.Error(), "nothing was measured") {
		t.Errorf("an empty record: %v", err)
	}
	k.Values[swing.SpringClosed] = math.Inf(1)
	k.U[swing.Pressure] = -1
	k.Link.Closer = false
	if err := k.Check(); err == nil || strings.Count(err.Error(), "\n") != 2 {
		t.Errorf("three faults: %v", err)
	}
	short := typical()
	short.Values[swing.Forearm] = 0.01
	if _, err := Identify(&short, &Record{Curves: []Curve{good}}); err == nil {
		t.Error("an arm that does not go together was taken")
	}
	held := typical()
	held.Values[swing.Pressure], held.U = 200, swing.Values{}
	if _, err := Identify(&held, &Record{Curves: []Curve{good}}); err == nil || !strings.Contains(err.Error(), "does not close") {
		t.Errorf("a leaf that cannot close but did: %v", err)
	}
}

// A recording goes with a lap at the same setting, wherever about 90 degrees its leaf was
// let go.
func TestALapBesideARecording(t *testing.T) {
	for _, from := range []float64{89.5, 89.85, 89.95, 90, 90.1, 90.5} {
		d := newDoor(3)
		how := phone
		how.from = from * degree
		f, err := Identify(&d.known, &Record{Curves: []Curve{d.curve(usual, how)}, Laps: d.laps(usual, 0.1)})
		if err != nil {
			t.Errorf("let go at %g degrees: %v", from, err)
			continue
		}
		if !(f.Misfit < 3) {
			t.Errorf("let go at %g degrees: the misfit is %.2f", from, float64(f.Misfit))
		}
	}
}
