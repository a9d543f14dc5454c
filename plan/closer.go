package plan

import (
	"errors"
	"fmt"
	"math"

	"swingwright/linkage"
	"swingwright/opening"
	q "swingwright/quantity"
	"swingwright/swing"
)

// Assumed of a closer where neither survey nor sheet tells.
const (
	assumedEfficiency = 0.60 // closing over opening moment: ADAAG Manual 4.13.11
	efficiencySpread  = 0.05
	riseShare         = 0.25 // rise of the spring torque per radian, as a share of that closed
	latchZoneLeaf     = 12 * q.Degree
)

// closer: how does the closer hold it?
func (r resolver) closer(o *opening.Opening, sheets *opening.Sheets) {
	r.assume(swing.Blend, float64(1.5*q.Degree), float64(0.3*q.Degree), "one valve hands over to the next within a few degrees")
	r.set(swing.OilFactor, 1, 0, "valves described at the temperature reckoned with")
	r.set(swing.PinionInertia, 0, 0, "nothing driven by the pinion")
	for _, v := range []swing.Value{swing.DelayViscous, swing.DelayFrom, swing.DelayTo} {
		r.set(v, 0, 0, "no delayed action")
	}
	c := &o.Closer
	sheet := sheets.Closer(c.Sheet)
	if sheet == nil {
		sheet = &opening.CloserSheet{}
	}
	if !r.arm(o, sheets) {
		return
	}
	r.loss(sheet)
	if !r.spring(c, sheet) {
		r.Link.Closer = false
		return
	}
	r.zones(c, sheet)
	r.valves(c, sheet)
	r.oil(o, sheet)
}

// arm puts the arm together; false, with a note, where it cannot be.
func (r resolver) arm(o *opening.Opening, sheets *opening.Sheets) bool {
	c := &o.Closer
	sheet := sheets.Arm(c.Arm)
	if sheet == nil {
		return false
	}
	spec, ok := armSpec(sheet, c.Pinion, c.Shoe)
	if !ok {
		r.Notes = append(r.Notes, fmt.Sprintf("the arm of sheet %q cannot be placed: give where its pinion and its shoe are", sheet.Name))
		return false
	}
	r.place(swing.PinionX, sheet, c.Pinion, c.Shoe, spec)
	if _, err := linkage.New(spec); err != nil {
		r.Notes = append(r.Notes, err.Error())
		return false
	}
	r.Link.Closer, r.Link.Track, r.Link.OnLeaf, r.Link.Bend = true, spec.Track, spec.OnLeaf, spec.Bend
	return true
}

// place takes the geometry of an arm, whose quantities begin at first, from where
// the survey found its ends, else from where the sheet's template puts them.
func (r resolver) place(first swing.Value, sheet *opening.ArmSheet, pinion, shoe opening.Point, spec linkage.Spec) {
	source := "hardware sheet " + sheet.Name
	end := func(of swing.Value, found, template q.Measured[q.Length], at q.Length) {
		from := source
		if found.Known {
			from = surveyed
		}
		r.set(first+of-swing.PinionX, float64(at), float64(found.Or(template).WithSpread(tape).U), from)
	}
	end(swing.PinionX, pinion.Along, sheet.Pinion.Along, spec.Pinion.X)
	end(swing.PinionY, pinion.Off, sheet.Pinion.Off, spec.Pinion.Y)
	end(swing.ShoeX, shoe.Along, sheet.Shoe.Along, spec.Shoe.X)
	end(swing.ShoeY, shoe.Off, sheet.Shoe.Off, spec.Shoe.Y)
	r.set(first+swing.MainArm-swing.PinionX, float64(spec.Main), 0, source)
	r.set(first+swing.Forearm-swing.PinionX, float64(spec.Fore), float64(sheet.Fore.U), source)
	r.set(first+swing.TrackLine-swing.PinionX, float64(spec.Line), 0, source)
}

// placed is where a point really is, each coordinate from the survey if measured there.
func placed(found, template opening.Point) opening.Point {
	return opening.Point{Along: found.Along.Or(template.Along), Off: found.Off.Or(template.Off)}
}

// armSpec turns what was measured toward the closer's side into the plan view.
func armSpec(s *opening.ArmSheet, pinion, shoe opening.Point) (linkage.Spec, bool) {
	pinion, shoe = placed(pinion, s.Pinion), placed(shoe, s.Shoe)
	track := s.Kind == opening.SlideTrack
	if !pinion.Along.Known || !pinion.Off.Known || !shoe.Off.Known || !(shoe.Along.Known || track) || !s.Main.Known || !(s.Fore.Known || track) {
		return linkage.Spec{}, false
	}
	onLeaf, side := s.Kind != opening.TopJamb, q.Length(-1)
	if s.Kind == opening.RegularArm {
		side = 1
	}
	if track {
		onLeaf = s.Body != opening.OnFrame
		if s.Side == opening.PullSide {
			side = 1
		}
	}
	spec := linkage.Spec{
		Track: track, OnLeaf: onLeaf, Main: s.Main.Value, Fore: s.Fore.Value,
		Pinion: linkage.Point{X: pinion.Along.Value, Y: side * pinion.Off.Value},
		Shoe:   linkage.Point{X: shoe.Along.Value, Y: side * shoe.Off.Value},
	}
	spec.Bend = bend(s, spec, side)
	return spec, true
}

// bend is the side on which elbow or roller lies. A regular arm's elbow stands
// out toward the pull side, the others' toward the push side, where the sheet
// does not say.
func bend(s *opening.ArmSheet, spec linkage.Spec, side q.Length) int {
	if spec.Track {
		if s.Roller == opening.TowardHinge {
			return -1
		}
		return 1
	}
	toward := side
	switch s.Elbow {
	case opening.PullSide:
		toward = 1
	case opening.PushSide:
		toward = -1
	}
	// +1 puts the elbow to the left of the line from pinion to shoe; its left
	// normal points toward the pull side when the shoe lies toward the latch.
	if (spec.Shoe.X-spec.Pinion.X)*toward >= 0 {
		return 1
	}
	return -1
}

// loss takes the closer's friction.
func (r resolver) loss(sheet *opening.CloserSheet) {
	source, e := "hardware sheet "+sheet.Name, sheet.Efficiency.WithSpread(efficiencySpread)
	assumed := !e.Known
	if assumed {
		e, source = q.Give[q.Ratio](assumedEfficiency, efficiencySpread), "assumed: closing moment 60 % of the opening moment (ADAAG Manual 4.13.11)"
	}
	mu := swing.LossOfEfficiency(e.Value)
	// dμ/de = −2/(1 + e)²
	u := 2 * e.U / ((1 + e.Value) * (1 + e.Value))
	r.Rows[swing.CloserLoss] = Row{Value: float64(mu), U: float64(u), Source: source, Assumed: assumed, Known: true}
}

// spring takes the best source of the spring: gauged, the sheet, the power size.
func (r resolver) spring(c *opening.Closer, sheet *opening.CloserSheet) bool {
	if c.Size.Known {
		r.Size = row(c.Size, surveyed)
	}
	closed, rise, onSheet := powerAt(sheet, c.Size)
	switch {
	case len(c.Gauged) > 0:
		return r.gauged(c.Gauged, rise, closed)
	case onSheet:
		source := fmt.Sprintf("hardware sheet %s at power %g", sheet.Name, float64(c.Size.Value))
		r.set(swing.SpringClosed, float64(closed.Value), float64(closed.U), source)
		r.set(swing.SpringRise, float64(rise.Value), float64(rise.U), source)
		return true
	case c.Size.Known:
		return r.standardSize(c.Size.Value)
	}
	r.Notes = append(r.Notes, "the closer's spring is unknown: gauge it opening and closing at one angle, or enter its power setting")
	return false
}

// powerAt is the spring at a power setting, in proportion between the marked ones.
func powerAt(sheet *opening.CloserSheet, size q.Measured[q.Ratio]) (q.Measured[q.Torque], q.Measured[q.TorsionRate], bool) {
	p := sheet.Powers
	if len(p) == 0 || !size.Known || size.Value < p[0].Size.Value || size.Value > p[len(p)-1].Size.Value {
		return q.Measured[q.Torque]{}, q.Measured[q.TorsionRate]{}, false
	}
	i, j, part := marked(len(p), func(i int) q.Ratio { return p[i].Size.Value }, size.Value)
	return between(spreadOr(p[i].Closed, 0.08), spreadOr(p[j].Closed, 0.08), part),
		between(riseOf(&p[i]), riseOf(&p[j]), part), true
}

// marked finds, among n settings marked in rising order, the two about one that
// lies within them, and how far it lies on the way from the first to the second.
func marked(n int, at func(int) q.Ratio, setting q.Ratio) (i, j int, part float64) {
	for i < n-2 && setting > at(i+1) {
		i++
	}
	j = min(i+1, n-1)
	if span := at(j) - at(i); span > 0 {
		part = float64((setting - at(i)) / span)
	}
	return i, j, part
}

// riseOf is a setting's rise of torque, assumed where the sheet gives none.
func riseOf(p *opening.Power) q.Measured[q.TorsionRate] {
	if p.Rate.Known {
		return spreadOr(p.Rate, 0.15)
	}
	k := q.TorsionRate(riseShare * float64(p.Closed.Value))
	return q.Give(k, k/2)
}

func spreadOr[Q q.Quantity](m q.Measured[Q], share float64) q.Measured[Q] {
	return m.WithSpread(Q(share * math.Abs(float64(m.Value))))
}

func between[Q q.Quantity](a, b q.Measured[Q], part float64) q.Measured[Q] {
	f := Q(part)
	return q.Give(a.Value+f*(b.Value-a.Value), a.U+f*(b.U-a.U))
}

// gauged takes spring and friction from force readings: at one angle with the
// sheet's rise, at two or more with the rise between the first and the last.
func (r resolver) gauged(pairs []opening.Gauged, rise q.Measured[q.TorsionRate], closed q.Measured[q.Torque]) bool {
	arm, err := r.madeArm()
	if err != nil {
		r.Notes = append(r.Notes, err.Error())
		return false
	}
	type point struct{ psi, torque, u float64 }
	var points []point
	loss, lossU := 0.0, 0.0
	for _, g := range pairs {
		psi, n, ok := arm.At(g.Angle.Value)
		if !ok {
			r.Notes = append(r.Notes, fmt.Sprintf("the arm does not reach the %.0f degrees at which a force was gauged", float64(g.Angle.Value/q.Degree)))
			continue
		}
		open, shut := spreadOr(g.Opening, 0.05), spreadOr(g.Closing, 0.05)
		read := swing.ReadGauge(open.Value, shut.Value, g.At.Value, n, q.Torque(r.Rows[swing.HingeFriction].Value))
		// both readings count alike in the sum and in the difference
		u := math.Hypot(float64(open.U), float64(shut.U)) * float64(g.At.Value) / (2 * float64(n))
		points = append(points, point{float64(psi), float64(read.Spring), u})
		loss += float64(read.Loss) / float64(len(pairs))
		lossU = max(lossU, u/float64(read.Spring))
	}
	if len(points) == 0 || !(loss >= 0 && loss < 1) {
		r.Notes = append(r.Notes, "the gauged forces make no sense together: closing must be lighter than opening, both above zero")
		return false
	}
	first, last := points[0], points[len(points)-1]
	k := q.Give(q.TorsionRate(riseShare*first.torque), q.TorsionRate(riseShare*first.torque/2))
	if rise.Known && closed.Value > 0 {
		k = q.Give(rise.Value, rise.U)
	}
	source := "gauged opening and closing"
	if span := last.psi - first.psi; len(points) > 1 && math.Abs(span) > 0.2 {
		k = q.Give(q.TorsionRate((last.torque-first.torque)/span), q.TorsionRate(math.Hypot(first.u, last.u)/math.Abs(span)))
	}
	r.set(swing.SpringRise, float64(k.Value), float64(k.U), source)
	r.set(swing.SpringClosed, first.torque-float64(k.Value)*first.psi, math.Hypot(first.u, float64(k.U)*first.psi), source)
	r.set(swing.CloserLoss, loss, lossU, source)
	return true
}

// standardSize takes the spring from the standard's band of closing moment,
// which is wide: evenly spread over it.
func (r resolver) standardSize(size q.Ratio) bool {
	low, high, err := swing.SizeBand(size)
	if err != nil {
		r.Notes = append(r.Notes, err.Error())
		return false
	}
	arm, err := r.madeArm()
	if err != nil {
		r.Notes = append(r.Notes, err.Error())
		return false
	}
	_, n, _ := arm.At(2 * q.Degree)
	mu := q.Ratio(r.Rows[swing.CloserLoss].Value)
	t := float64(swing.SpringOfMoment((low+high)/2, n, mu))
	u := float64(swing.SpringOfMoment(high-low, n, mu)) / math.Sqrt(12)
	why := fmt.Sprintf("power size %g of EN 1154:1996+A1:2002, Table 1 (from memory), anywhere in its band", float64(size))
	r.assume(swing.SpringClosed, t, u, why)
	r.assume(swing.SpringRise, riseShare*t, riseShare*t/2, "a spring that rises by a quarter per radian")
	return true
}

func (r resolver) madeArm() (linkage.Arm, error) {
	v := r.values()
	m, err := swing.New(&v, r.Link)
	return *m.Arm(), err
}

// zones takes where sweep gives over to latch, and where backcheck begins.
func (r resolver) zones(c *opening.Closer, sheet *opening.CloserSheet) {
	arm, err := r.madeArm()
	if err != nil {
		return
	}
	turn := func(v swing.Value, leaf q.Measured[q.Angle], pinion q.Measured[q.Angle], fallback q.Angle) bool {
		leaf = leaf.WithSpread(2 * q.Degree)
		psi, n, ok := arm.At(leaf.Value)
		switch {
		case leaf.Known && ok:
			r.set(v, float64(psi), float64(leaf.U)*float64(n), surveyed)
		case pinion.Known:
			pinion = pinion.WithSpread(2 * q.Degree)
			r.set(v, float64(pinion.Value), float64(pinion.U), "hardware sheet "+sheet.Name)
		default:
			psi, n, _ = arm.At(fallback)
			r.assume(v, float64(psi), float64(3*q.Degree)*float64(n), fmt.Sprintf("begins at %.0f degrees of the leaf (common practice)", float64(fallback/q.Degree)))
			return false
		}
		return true
	}
	r.LatchZone = turn(swing.LatchZone, c.LatchFrom, sheet.LatchFrom, latchZoneLeaf)
	r.Backcheck = turn(swing.CheckZone, c.BackcheckFrom, sheet.BackcheckFrom, 70*q.Degree)
}

// valves takes the resistances: the times found come first, then turns and sheet.
func (r resolver) valves(c *opening.Closer, sheet *opening.CloserSheet) {
	take(r, swing.FreeFlow, sheet.FreeFlow, sheet.FreeFlow.Value/5, 2, 1, "light flow on opening")
	drive := r.Rows[swing.SpringClosed].Value
	sweep := r.valve(swing.SweepViscous, swing.SweepOrifice, &sheet.Sweep, c.SweepTurns, 2.5*drive, "sweep")
	latch := r.valve(swing.LatchViscous, swing.LatchOrifice, &sheet.Latch, c.LatchTurns, 4*drive, "latch")
	r.valve(swing.CheckViscous, swing.CheckOrifice, &sheet.Backcheck, c.CheckTurns, 5*drive, "backcheck")
	if c.SweepTime.Known {
		r.Found.Sweep = row(c.SweepTime.WithSpread(stopwatch), "stopwatch")
		r.Found.Latch = row(c.LatchTime.WithSpread(stopwatch), "stopwatch")
	}
	r.Times = c.SweepTime.Known || sweep && latch
}

// stopwatch is the standard uncertainty of a lap whose begin and end were both
// reacted to, 0.10 s (Am. J. Phys. 87 (2019) 110), with the marks' own share.
const stopwatch = 0.12 * q.Second

// valve takes one valve's resistance at its position; false where it had to be assumed.
func (r resolver) valve(av, bv swing.Value, sheet *opening.Valve, now q.Measured[q.Turns], fallback float64, name string) bool {
	at := sheet.At
	if !sheet.Viscous.Known || !(at.Known && now.Known) {
		r.assume(av, fallback, fallback/3, "an ordinary "+name+" setting")
		r.set(bv, 0, 0, "no orifice share known")
		return false
	}
	a, b, err := swing.ValveAt(sheet.Viscous.Value, sheet.Orifice.Value, at.Value, now.Value, sheet.Shut.Value)
	if err != nil {
		r.Notes = append(r.Notes, name+": "+err.Error())
		r.assume(av, fallback, fallback/3, "an ordinary "+name+" setting")
		r.set(bv, 0, 0, "no orifice share known")
		return false
	}
	turns := now.WithSpread(1.0 / 16)
	rel := float64(turns.U) / float64(turns.Value-sheet.Shut.Value)
	own := spreadOr(sheet.Viscous, 0.1)
	r.set(av, float64(a), float64(a)*math.Hypot(rel, float64(own.U/own.Value)), "hardware sheet and turns")
	r.set(bv, float64(b), float64(b)*2*rel, "hardware sheet and turns")
	return true
}

// oil takes how the oil's viscosity changed since the times were taken.
func (r resolver) oil(o *opening.Opening, sheet *opening.CloserSheet) {
	now, then := o.Air.Temperature, o.Air.Surveyed
	if !now.Known || !then.Known || now.Value == then.Value {
		return
	}
	if !sheet.Oil.At40.Known || !sheet.Oil.At100.Known {
		r.assume(swing.OilFactor, 1, 0.1, "the oil's viscosities are unknown, so temperature is left out")
		return
	}
	thicker, err := oilFactor(&sheet.Oil, now.Value, then.Value)
	if err != nil {
		r.Notes = append(r.Notes, err.Error())
		return
	}
	r.set(swing.OilFactor, float64(thicker), 0.02*float64(thicker), fmt.Sprintf("ASTM D341, oil of sheet %s, %.0f °C against %.0f °C", sheet.Name, float64(now.Value-q.Celsius0), float64(then.Value-q.Celsius0)))
}

// oilFactor is the oil's viscosity at a temperature over that at another, ASTM D341.
func oilFactor(oil *opening.Oil, now, then q.Temperature) (q.Ratio, error) {
	a, err1 := swing.OilViscosity(oil.At40.Value, oil.At100.Value, now)
	b, err2 := swing.OilViscosity(oil.At40.Value, oil.At100.Value, then)
	return q.Ratio(a / b), errors.Join(err1, err2)
}
