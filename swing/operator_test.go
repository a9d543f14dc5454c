package swing

import (
	"errors"
	"math"
	"testing"

	"swingwright/quantity"
)

// drivenBy puts a drive on the values of plain or typical: strong, quick and
// lossless, without ramp or slowing, until a test says otherwise.
func drivenBy(v *Values) {
	v[DriveStall], v[DriveFree], v[DriveEfficiency], v[DriveGain] = 1e3, 1e6, 1, 1e3
	v[OpenRate], v[OpenAngle], v[SlowFrom], v[GearRatio] = 0.4, 90*deg, 90*deg, 1
}

// ordinary is an add-on as it is commonly found on the leaf of typical.
func ordinary() (Values, Linkage) {
	v, link := typical()
	v[FreeFlow], v[CheckViscous], v[CheckZone] = 1.2, 10, 95*deg
	v[DriveStall], v[DriveFree], v[DriveEfficiency], v[DriveGain] = 45, 90*deg, 0.8, 400
	v[RotorInertia], v[GearRatio], v[BackDrive] = 2e-5, 90, 1.2
	v[OpenRate], v[RampTime], v[SlowFrom], v[CreepRate], v[OpenAngle] = 22*deg, 0.5, 70*deg, 10*deg, 90*deg
	return v, link
}

func driven(t testing.TB, v *Values, link Linkage, d Drive) Model {
	t.Helper()
	m, err := New(v, link)
	if err != nil {
		t.Fatal(err)
	}
	d.Fitted = true
	if err := m.SetDrive(d); err != nil {
		t.Fatal(err)
	}
	return m
}

func agrees(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: %.9g, want %.9g within %.2g", what, got, want, tolerance)
	}
}

// A constant torque on a leaf without resistance: θ = ½(T/I)t².
func TestDrivenByAConstantTorque(t *testing.T) {
	v, link := plain(20)
	drivenBy(&v)
	v[DriveStall], v[OpenRate] = 8, 1e3 // saturated all the way
	m := driven(t, &v, link, Drive{})
	var mv Mover
	marks := []Mark{{Angle: 45 * quantity.Degree}}
	got := mv.Drive(&m, 0, 0, marks)
	if got.End != Opened || !got.Strain.Saturated {
		t.Fatalf("%+v", got)
	}
	agrees(t, "time to 90°", float64(got.Time), math.Sqrt(math.Pi*20/8), 1e-4)
	agrees(t, "time to 45°", float64(marks[0].Time), math.Sqrt(math.Pi/2*20/8), 1e-4)
	agrees(t, "energy", float64(got.Energy), 8*math.Pi/2, 1e-3)
}

// Torque that falls in proportion to the rate: ω = ω_0(1 − e^(−t/τ)), τ = I·ω_0/T_stall.
func TestTorqueFallsWithTheRate(t *testing.T) {
	v, link := plain(20)
	drivenBy(&v)
	v[DriveStall], v[DriveFree], v[OpenRate] = 30, 0.5, 1e3
	m := driven(t, &v, link, Drive{})
	var mv Mover
	got := mv.Drive(&m, 0, 0, nil)
	tau := 20 * 0.5 / 30
	at := float64(got.Time)
	agrees(t, "angle at that time", 0.5*(at-tau*(1-math.Exp(-at/tau))), 90*deg, 1e-4)
	agrees(t, "rate", float64(got.Rate), 0.5*(1-math.Exp(-at/tau)), 1e-4)
}

// Against a constant torque the leaf settles at ω = ω_c − τ/(η·K).
func TestSteadyProportionalRate(t *testing.T) {
	v, link := plain(20)
	drivenBy(&v)
	v[DriveEfficiency], v[DriveGain], v[SpringClosed] = 0.8, 200, 16
	m := driven(t, &v, link, Drive{})
	var mv Mover
	got := mv.Drive(&m, 0, 0, nil)
	agrees(t, "rate", float64(got.Rate), 0.4-16/(0.8*200), 1e-4)
}

// Proportional from rest without resistance: ω = ω_c(1 − e^(−t/τ)), τ = I/K,
// and with a ramp ω = (ω_c/t_a)(t − τ(1 − e^(−t/τ))) until it is over.
func TestProportionalRise(t *testing.T) {
	v, link := plain(20)
	drivenBy(&v)
	v[DriveGain], v[RampTime] = 50, 30
	m := driven(t, &v, link, Drive{})
	var mv Mover
	got := mv.Drive(&m, 0, 0, nil)
	tau, at := 20.0/50, float64(got.Time)
	agrees(t, "rate on the ramp", float64(got.Rate), 0.4/30*(at-tau*(1-math.Exp(-at/tau))), 1e-4)
	agrees(t, "angle on the ramp", 0.4/30*(at*at/2-tau*at+tau*tau*(1-math.Exp(-at/tau))), 90*deg, 1e-4)
}

// The commanded rate falls in proportion to the angle. With a stiff control the
// leaf lacks δ = τ/K of it throughout, and the time from θ_slow to θ_open is
// (θ_open − θ_slow)/(ω_c − ω_k)·ln((ω_c − δ)/(ω_k − δ)).
func TestSlowsToCreep(t *testing.T) {
	v, link := plain(1)
	drivenBy(&v)
	v[DriveGain], v[SlowFrom], v[CreepRate], v[SpringClosed] = 5e3, 60*deg, 0.1, 20
	const lack = 20 / 5e3
	m := driven(t, &v, link, Drive{})
	var mv Mover
	marks := []Mark{{Angle: 60 * quantity.Degree}, {Angle: 90 * quantity.Degree}}
	got := mv.Drive(&m, 0, 0, marks)
	agrees(t, "time to 60°", float64(marks[0].Time), 60*deg/(0.4-lack), 1e-3)
	agrees(t, "time while slowing", float64(marks[1].Time-marks[0].Time), 30*deg/0.3*math.Log((0.4-lack)/(0.1-lack)), 1e-3)
	agrees(t, "time to fully open", float64(got.Time-marks[1].Time), 0, 1e-6)
	agrees(t, "rate at the end", float64(got.Rate), 0.1-lack, 1e-3)
}

// The rotor counts with the square of its gear's ratio and of the arm's: with
// n = 1 a constant torque moves I + i²·J.
func TestRotorCountsThroughItsGear(t *testing.T) {
	for _, own := range []bool{false, true} {
		v, link := plain(20)
		drivenBy(&v)
		v[DriveStall], v[OpenRate], v[RotorInertia], v[GearRatio] = 8, 1e3, 5e-4, 100
		if own {
			v[DriveShoeX], v[DriveMainArm], v[DriveForearm] = 0.4, 0.25, 0.25
		}
		m := driven(t, &v, link, Drive{Own: own, Bend: 1})
		var mv Mover
		got := mv.Drive(&m, 0, 0, nil)
		agrees(t, "time", float64(got.Time), math.Sqrt(math.Pi*25/8), 1e-4)
		agrees(t, "energy of the leaf alone", float64(got.Energy), 8*math.Pi/2*20/25, 1e-3)
	}
}

// A drive too weak for the rising spring stands where n·η·T_stall = n·(T_0 + k·ψ);
// the spring is what stands against it.
func TestStallsWhereTheSpringIsAsStrong(t *testing.T) {
	v, link := plain(20)
	drivenBy(&v)
	v[SpringClosed], v[SpringRise], v[HingeFriction] = 10, 10, 0.05
	v[DriveStall], v[DriveEfficiency], v[FreeFlow] = 25, 0.8, 20
	m := driven(t, &v, link, Drive{})
	var mv Mover
	got := mv.Drive(&m, 0, 0, nil)
	if got.End != Stalled {
		t.Fatalf("ended %v", got.End)
	}
	agrees(t, "angle", float64(got.Angle), (25*0.8-10)/10, 0.05/10+1e-3)
	against := m.Resistances(got.Angle, 0)
	if len(against) != 2 || against[0].Against != Spring || against[1].Against != HingeDrag {
		t.Errorf("against %v", against)
	}
	agrees(t, "spring there", float64(against[0].Moment), 20, 0.06)
}

// The ramp moves the leaf off when the drive's torque has risen to what resists:
// t = t_a·τ/(η·K·ω_c).
func TestStartsWhenTheRampHasRisen(t *testing.T) {
	v, link := plain(20)
	drivenBy(&v)
	v[DriveGain], v[RampTime], v[SpringClosed], v[CloserLoss] = 200, 2, 20, 0.25
	m := driven(t, &v, link, Drive{})
	var mv Mover
	got := mv.Drive(&m, 0, 0, nil)
	agrees(t, "start", float64(got.Starts), 2*25/(200*0.4), 1e-9)
	v[SpringClosed] = 80
	m = driven(t, &v, link, Drive{})
	if got := mv.Drive(&m, 0, 5*quantity.Degree, nil); got.End != Stalled || got.Angle != 5*quantity.Degree {
		t.Errorf("%v at %v", got.End, got.Angle)
	}
}

// Sudden breaks of control: a hand pushes the leaf faster than commanded and
// than the drive can turn, which then coasts.
func TestPushedLeafCoasts(t *testing.T) {
	v, link := plain(20)
	drivenBy(&v)
	m := driven(t, &v, link, Drive{})
	var mv Mover
	push := 40.0
	got := mv.Drive(&m, quantity.Torque(push), 0, nil)
	// from 0.4 rad/s on it goes by the push alone: ω² − ω_c² = 2·(τ/I)·Δθ
	if got.Rate < 1.5 || got.End != Opened {
		t.Fatalf("%+v", got)
	}
	var first Mark
	first.Angle = 1 * quantity.Degree
	marks := []Mark{first, {Angle: 80 * quantity.Degree}}
	got = mv.Drive(&m, quantity.Torque(push), 0, marks)
	// a uniformly accelerated body: s = (v0 + v1)/2·t over the last 10 degrees
	v0 := math.Sqrt(float64(got.Rate*got.Rate) - 2*push/20*10*deg)
	agrees(t, "last 10 degrees", float64(got.Time-marks[1].Time), 2*10*deg/(v0+float64(got.Rate)), 1e-4)
	back := mv.Drive(&m, -500, 0, nil)
	if back.End != Stalled || back.Angle != 0 {
		t.Errorf("held shut by hand: %v at %v", back.End, back.Angle)
	}
}

func TestDriveNeedsAnArm(t *testing.T) {
	v, link := plain(20)
	link.Closer = false
	m, err := New(&v, link)
	if err != nil {
		t.Fatal(err)
	}
	if err := m.SetDrive(Drive{Fitted: true}); err != errNoPinion || m.Driven() {
		t.Errorf("add-on without closer: %v", err)
	}
	if err := m.SetDrive(Drive{Fitted: true, Own: true}); err == nil || m.Driven() {
		t.Error("an arm without lengths was taken")
	}
	var mv Mover
	if got := mv.Drive(&m, 0, 0, nil); got.End != Unfinished || got.Err == nil {
		t.Errorf("driven by nothing: %+v", got)
	}
}

// Beyond its arm's reach a leaf is not driven, and the reason is told: pinion and
// shoe are 26 in apart at 170 degrees, the arms span 21-1/2.
func TestArmThatDoesNotReach(t *testing.T) {
	v, link := ordinary()
	v[ShoeX], v[OpenAngle] = 20*float64(quantity.Inch), 175*deg
	m := driven(t, &v, link, Drive{})
	var mv Mover
	if got := mv.Drive(&m, 0, 170*quantity.Degree, nil); got.End != Unfinished || !errors.Is(got.Err, errNoReach) {
		t.Errorf("ends %v because %v", got.End, got.Err)
	}
}

func TestDrivingTakesNoMemory(t *testing.T) {
	v, link := ordinary()
	m := driven(t, &v, link, Drive{})
	var mv Mover
	marks := []Mark{{Angle: 70 * quantity.Degree}, {Angle: 90 * quantity.Degree}}
	if n := testing.AllocsPerRun(20, func() { mv.Drive(&m, 0, 0, marks) }); n != 0 {
		t.Errorf("%v allocations per opening", n)
	}
	t.Logf("%+v in %d steps, marks %v", mv.Drive(&m, 0, 0, marks), mv.Steps, marks)
}

// An opening is to take less than 60 µs.
func BenchmarkDriving(b *testing.B) {
	v, link := ordinary()
	own := v
	for i := range DriveTrackLine - DrivePinionX + 1 {
		own[DrivePinionX+i] = v[PinionX+i]
	}
	for name, m := range map[string]Model{
		"add-on": driven(b, &v, link, Drive{}),
		"unit":   driven(b, &own, link, Drive{Own: true, OnLeaf: true, Bend: 1}),
	} {
		b.Run(name, func(b *testing.B) {
			var mv Mover
			marks := []Mark{{Angle: 70 * quantity.Degree}, {Angle: 90 * quantity.Degree}}
			b.ReportAllocs()
			for b.Loop() {
				mv.Drive(&m, 0, 0, marks)
			}
			b.ReportMetric(float64(mv.Steps), "steps")
		})
	}
}
