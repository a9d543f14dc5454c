package plan

import (
	"fmt"

	"swingwright/fact"
	"swingwright/linkage"
	"swingwright/opening"
	q "swingwright/quantity"
	"swingwright/swing"
)

// Assumed of an operator where neither survey nor sheet tells.
const (
	openFully      = 90 * q.Degree
	slowsFrom      = 70 * q.Degree
	creepShare     = 1.0 / 3 // of the commanded rate
	driveShare     = 0.8     // torque that comes out over torque of the drive
	rampUp         = 0.5 * q.Second
	backDriveShare = 0.05 // of the stall torque
	lackAtStall    = 0.25 // share of the commanded rate that the leaf lacks when the control asks for the stall torque
)

// operator: what drives it open?
func (r resolver) operator(o *opening.Opening, sheets *opening.Sheets) {
	for v := swing.DrivePinionX; v <= swing.OpenAngle; v++ {
		r.set(v, 0, 0, "no operator")
	}
	f := &o.Operator
	sheet := sheets.Operator(f.Sheet)
	if sheet == nil {
		return
	}
	r.Operator = sheet
	r.Drive = swing.Drive{Own: sheet.Kind == opening.OwnArm, LetsGo: sheet.LetsGo == "yes"}
	if !r.commanded(f, sheet) {
		r.Notes = append(r.Notes, "the rate that the operator is set to is unknown, so its opening cannot be reckoned: give its speed, or its speed setting and the sheet's speeds")
		return
	}
	r.profile(f, sheet)
	r.torques(sheet)
	if sheet.Kind == opening.OwnArm && !r.ownArm(f, sheets) {
		return
	}
	r.Dwell = row(f.Dwell.WithSpread(0.2), surveyed)
	if f.PushStart.Known && o.Use.Activation == "push-pull" {
		r.PushStart = row(f.PushStart.WithSpread(q.Degree), surveyed)
	}
	r.TimedWith = f.Fitted == "yes"
	r.Drive.Fitted = true
	r.Drive.Fitted = r.drives()
}

// commanded takes the rate that the setting commands; false where nobody knows it.
func (r resolver) commanded(f *opening.Operator, sheet *opening.OperatorSheet) bool {
	if f.Speed.Known {
		rate := spreadOr(f.Speed, 0.05)
		r.set(swing.OpenRate, float64(rate.Value), float64(rate.U), surveyed)
		return true
	}
	rate, ok := speedAt(sheet.Speeds, f.Setting)
	if ok {
		r.set(swing.OpenRate, float64(rate.Value), float64(rate.U), fmt.Sprintf("hardware sheet %s at setting %g", sheet.Name, float64(f.Setting.Value)))
	}
	return ok
}

// speedAt is the rate at a setting, in proportion between the marked ones.
func speedAt(speeds []opening.SpeedSetting, setting q.Measured[q.Ratio]) (q.Measured[q.AngularSpeed], bool) {
	if len(speeds) == 0 || !setting.Known || setting.Value < speeds[0].Setting.Value || setting.Value > speeds[len(speeds)-1].Setting.Value {
		return q.Measured[q.AngularSpeed]{}, false
	}
	i, j, part := marked(len(speeds), func(i int) q.Ratio { return speeds[i].Setting.Value }, setting.Value)
	return between(spreadOr(speeds[i].Rate, 0.08), spreadOr(speeds[j].Rate, 0.08), part), true
}

// profile takes how the commanded rate rises and falls.
func (r resolver) profile(f *opening.Operator, sheet *opening.OperatorSheet) {
	rate := q.AngularSpeed(r.Rows[swing.OpenRate].Value)
	take(r, swing.OpenAngle, f.OpenAngle, q.Degree, openFully, 2*q.Degree, "fully open at 90 degrees (common practice)")
	take(r, swing.SlowFrom, f.SlowFrom, 2*q.Degree, slowsFrom, 3*q.Degree, "slows down from 70 degrees (common practice)")
	take(r, swing.CreepRate, f.Creep, f.Creep.Value/10, creepShare*rate, creepShare*rate/3, "slows to a third of its rate")
	r.sheetOr(swing.RampTime, sheet, sheet.Ramp.Known, float64(sheet.Ramp.Value), float64(spreadOr(sheet.Ramp, 0.1).U), float64(rampUp), float64(rampUp)/3, "an ordinary ramp")
}

// torques takes what the drive gives and what it costs.
func (r resolver) torques(s *opening.OperatorSheet) {
	stall, free := spreadOr(s.Stall, 0.08), spreadOr(s.Free, 0.08)
	source := "hardware sheet " + s.Name
	r.set(swing.DriveStall, float64(stall.Value), float64(stall.U), source)
	r.set(swing.DriveFree, float64(free.Value), float64(free.U), source)
	eta, gain := s.Efficiency.WithSpread(0.05), spreadOr(s.Gain, 0.1)
	stiff := float64(stall.Value) / (lackAtStall * r.Rows[swing.OpenRate].Value)
	r.sheetOr(swing.DriveEfficiency, s, eta.Known, float64(eta.Value), float64(eta.U), driveShare, 0.08, "four fifths of the drive's torque come out at its shaft")
	r.sheetOr(swing.DriveGain, s, gain.Known, float64(gain.Value), float64(gain.U), stiff, stiff/3, "the control asks for the whole torque when the leaf lacks a quarter of its rate")
	rotor, back := spreadOr(s.Rotor, 0.15), spreadOr(s.BackDrive, 0.15)
	r.set(swing.RotorInertia, float64(rotor.Value), float64(rotor.U), source)
	if !rotor.Known {
		r.assume(swing.RotorInertia, 0, 0, "a light rotor")
	}
	gear := s.Gear.Or(q.Exactly(q.Ratio(1)))
	r.set(swing.GearRatio, float64(gear.Value), 0, source)
	if r.Drive.LetsGo {
		r.set(swing.BackDrive, 0, 0, source+": lets go without power")
		return
	}
	some := backDriveShare * float64(stall.Value)
	r.sheetOr(swing.BackDrive, s, back.Known, float64(back.Value), float64(back.U), some, some, "a twentieth of the stall torque turns the drive without power")
}

// sheetOr takes what the sheet says, else assumes.
func (r resolver) sheetOr(v swing.Value, s *opening.OperatorSheet, known bool, value, u, fallback, fallbackU float64, why string) {
	if known {
		r.set(v, value, u, "hardware sheet "+s.Name)
		return
	}
	r.assume(v, fallback, fallbackU, why)
}

// ownArm places a unit's own arm; false, with a note, where it cannot be.
func (r resolver) ownArm(f *opening.Operator, sheets *opening.Sheets) bool {
	sheet := sheets.Arm(f.Arm)
	if sheet == nil {
		r.Notes = append(r.Notes, "the operator is a unit with its own arm, and names no arm sheet: name one")
		return false
	}
	spec, ok := armSpec(sheet, f.Pinion, f.Shoe)
	if !ok {
		r.Notes = append(r.Notes, fmt.Sprintf("the operator's arm of sheet %q cannot be placed: give where its pinion and its shoe are", sheet.Name))
		return false
	}
	r.place(swing.DrivePinionX, sheet, f.Pinion, f.Shoe, spec)
	r.Drive.Track, r.Drive.OnLeaf, r.Drive.Bend = spec.Track, spec.OnLeaf, spec.Bend
	return true
}

// drives tells whether the operator can be put on the leaf and its arm works all
// the way, with a note where not.
func (r resolver) drives() bool {
	m, err := r.model()
	if err != nil {
		r.Notes = append(r.Notes, "the operator is left out: "+err.Error())
		return false
	}
	to := q.Angle(r.Rows[swing.OpenAngle].Value)
	if fault, ok := m.DriveArm().Reach(to); !ok {
		r.Notes = append(r.Notes, "the operator is left out: "+armFault(fault, to))
		return false
	}
	return true
}

func armFault(f linkage.Fault, to q.Angle) string {
	at, want := float64(f.Theta/q.Degree), float64(to/q.Degree)
	if f.DeadPoint {
		return fmt.Sprintf("its arm stops turning on at %.1f degrees, short of the %.0f at which it is to stop; see where pinion and shoe are", at, want)
	}
	return fmt.Sprintf("its arm is out of reach at %.1f degrees, short of the %.0f at which it is to stop; see where pinion and shoe are", at, want)
}

// model is the model of the best estimates, with its operator.
func (r *Resolved) model() (m swing.Model, err error) {
	v := r.values()
	err = remade(&m, &v, r)
	return m, err
}

// remade is a model of values, with its operator, in the memory of m.
func remade(m *swing.Model, v *swing.Values, r *Resolved) error {
	if err := m.Remake(v, r.Link); err != nil {
		return err
	}
	return m.SetDrive(r.Drive)
}

// StallStep is the angle between two moments of Power.Stall.
const StallStep = 5 * q.Degree

// Power is what was computed of opening under power.
type Power struct {
	Fitted   bool               // whether an operator could be reckoned with at all
	From     q.Angle            // where the drive takes over: closed, or where a push starts it
	Usual    swing.Powered      // at the usual pressure
	Marks    [3]swing.Mark      // of that: where it begins to slow or 80 degrees, 80 degrees, and 90 degrees
	Slows    q.Angle            // leaf angle at which it begins to slow: the control's, or backcheck's where known
	Worst    swing.Powered      // at the smallest pressure stated
	Against  []swing.Resistance // what stands against it where it stalls, usual pressure first
	Pressure q.Pressure         // largest pressure, pushing the leaf shut, that it can open against
	Stall    [37]q.Torque       // moment that holds the leaf still, every StallStep from closed to where it stops
	Stops    int                // how many of these there are
	Hold     q.Torque           // at its shaft, to hold the leaf open
	Push     q.Force            // by hand at the handle, up to where a push starts it
}

// power: how is it driven open?
func (k *reckoner) power(m *swing.Model, x, out []float64, first bool) (p Power) {
	if !k.r.Drive.Fitted {
		return p
	}
	p.Fitted, p.From = true, q.Angle(x[inPushStart])
	stop := q.Angle(m.Values()[swing.OpenAngle])
	p.Slows = m.SlowsFrom()
	if check := q.Angle(out[fact.BackcheckFrom]); check < p.Slows { // not where it is not known
		p.Slows = check
	}
	p.Marks = [3]swing.Mark{{Angle: min(p.Slows, 80*q.Degree)}, {Angle: 80 * q.Degree}, {Angle: 90 * q.Degree}}
	p.Usual = k.mover.Drive(m, 0, p.From, p.Marks[:])
	k.powered(m, &p, x, out)
	if first {
		k.more(m, &p, x, stop)
	}
	return p
}

// more is what only the best estimates are asked for.
func (k *reckoner) more(m *swing.Model, p *Power, x []float64, stop q.Angle) {
	p.Pressure, p.Hold = m.LargestPressure(p.From), m.HoldingTorque()
	for theta := q.Angle(0); theta <= stop && p.Stops < len(p.Stall); theta += StallStep {
		p.Stall[p.Stops] = m.StallMoment(theta)
		p.Stops++
	}
	if p.From > 0 {
		p.Push = swing.HandForce(m.LargestHandMoment(0, p.From), q.Length(x[inHandle]))
	}
	if p.Usual.End == swing.Stalled {
		p.Against = m.Resistances(p.Usual.Angle, 0)
	}
	worst := *m
	worst.SetAir(x[inPressureLeast], x[swing.OilFactor])
	p.Worst = k.mover.Drive(&worst, 0, p.From, nil)
	if p.Worst.End == swing.Stalled && p.Against == nil {
		p.Against = worst.Resistances(p.Worst.Angle, 0)
	}
}
