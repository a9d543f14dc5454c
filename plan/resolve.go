package plan

import (
	"fmt"
	"math"

	"swingwright/leaf"
	"swingwright/opening"
	q "swingwright/quantity"
	"swingwright/swing"
)

// Resolve makes an opening into a model: for every quantity the best source
// there is, the survey first, then the hardware sheet, then an assumption that is
// marked as one.
func Resolve(o *opening.Opening, sheets *opening.Sheets) *Resolved {
	r := resolver{&Resolved{}}
	r.leaf(o)
	r.hinges(o)
	r.air(o)
	r.latch(o, sheets)
	r.seal(o, sheets)
	r.closer(o, sheets)
	r.Sized = r.Rows[swing.LeafWidth].Value > 0 && r.Rows[swing.LeafHeight].Value > 0
	r.Free = o.Closer.None == "yes"
	r.operator(o, sheets)
	return r.Resolved
}

// leaf: what is this leaf really like?
func (r resolver) leaf(o *opening.Opening) {
	l, f := &o.Leaf, &o.Frame
	if n := l.Nominal; n.Width > 0 && !l.Width.Known {
		// A leaf is a little smaller than its nominal opening (common practice).
		r.assume(swing.LeafWidth, float64(n.Width-q.Inch/4), float64(q.Inch/8), "a quarter inch less than the nominal width")
	} else {
		take(r, swing.LeafWidth, l.Width, tape, 0, 0, "no width")
	}
	if n := l.Nominal; n.Height > 0 && !l.Height.Known {
		r.assume(swing.LeafHeight, float64(n.Height-q.Inch*5/8), float64(q.Inch/4), "five eighths of an inch less than the nominal height")
	} else {
		take(r, swing.LeafHeight, l.Height, tape, 0, 0, "no height")
	}
	take(r, swing.LeafThickness, l.Thickness, tape/2, 1.75*q.Inch, q.Inch/16, "the usual thickness (common practice)")
	take(r, swing.PinToEdge, f.PinAlong, tape/2, q.Inch/16, q.Inch/32, "butt hinges with their usual gap (common practice)")
	take(r, swing.PinToFace, f.PinOff, tape/2, 0.375*q.Inch, q.Inch/16, "the usual pin offset (common practice)")
	slab := r.slab()
	r.weight(l, slab)
	handle := l.Handle.WithSpread(tape)
	if !handle.Known {
		handle = q.Give(2.5*q.Inch, q.Inch/2)
	}
	r.Handle = Row{Value: r.edge() - float64(handle.Value), U: float64(handle.U), Source: surveyed, Known: true}
	if !l.Handle.Known {
		r.Handle.Source, r.Handle.Assumed = "assumed: 2-1/2 in from the latch edge, as the accessibility guide measures", true
	}
}

func (r resolver) slab() leaf.Slab {
	return leaf.Slab{
		Width: q.Length(r.Rows[swing.LeafWidth].Value), Height: q.Length(r.Rows[swing.LeafHeight].Value),
		Thickness: q.Length(r.Rows[swing.LeafThickness].Value),
		PinToEdge: q.Length(r.Rows[swing.PinToEdge].Value), PinToFace: q.Length(r.Rows[swing.PinToFace].Value),
	}
}

// edge is the distance from the hinge axis to the latch edge, m.
func (r resolver) edge() float64 {
	return r.Rows[swing.PinToEdge].Value + r.Rows[swing.LeafWidth].Value
}

// weight takes the best source of the leaf's mass: weighed, weighed in place,
// built up, or the rule of size.
func (r resolver) weight(l *opening.Leaf, slab leaf.Slab) {
	built := leaf.BuildUp(l, slab)
	for _, doubt := range built.Doubts {
		r.Notes = append(r.Notes, doubt.Error())
	}
	a := built.Attached
	attach := func(source string) {
		r.set(swing.AttachedMass, float64(a.Mass.Value), float64(a.Mass.U), source)
		r.set(swing.AttachedMoment, float64(a.Moment.Value), 0, source)
		r.set(swing.AttachedInertia, float64(a.Inertia.Value), 0, source)
	}
	attach("hardware and lites in the survey")
	switch {
	case l.Weight.Known:
		m := l.Weight.WithSpread(l.Weight.Value * q.Mass(leaf.WeighedSpread))
		r.set(swing.SlabMass, float64(m.Value-a.Mass.Value), float64(m.U), "weighed, less what is fixed to the leaf")
		r.Rows[swing.AttachedMass].U = 0
	case l.SwingTest.Force.Known:
		r.swingTest(&l.SwingTest, slab, a)
	case len(l.Layers) > 0 && built.Slab.Known:
		m := built.Slab
		m.U = max(m.U, m.Value*q.Mass(leaf.BuiltUpSpread))
		r.set(swing.SlabMass, float64(m.Value), float64(m.U), "built up from its construction")
		r.Weight = built.Parts
	default:
		m := leaf.ByRule(slab.Width, slab.Height)
		a = leaf.Attached{}
		attach("counted in the rule of size")
		r.assume(swing.SlabMass, float64(m), float64(m)*float64(leaf.RuleSpread), "5.7 lb/ft², the trade's rule of size (common practice)")
	}
}

// swingTest takes the mass from the inertia that the leaf showed when pushed.
func (r resolver) swingTest(t *opening.SwingTest, slab leaf.Slab, a leaf.Attached) {
	push := t.Force.WithSpread(t.Force.Value / 20)
	drag := t.Friction.WithSpread(t.Friction.Value / 10)
	time := t.Time.WithSpread(0.1)
	angle := t.Angle.WithSpread(q.Degree)
	at := t.At.WithSpread(tape)
	net := push.Value - drag.Value
	i := leaf.InPlace(net, at.Value, angle.Value, time.Value)
	k := float64(slab.Gyration())
	// relative spread of a product of powers (JCGM 100:2008, eq. 12)
	rel := math.Hypot(math.Hypot(float64(push.U), float64(drag.U))/float64(net), 2*float64(time.U/time.Value))
	rel = math.Hypot(rel, math.Hypot(float64(angle.U/angle.Value), float64(at.U/at.Value)))
	m := (float64(i) - float64(a.Inertia.Value)) / (k * k)
	if !(m > 0) || math.IsInf(m, 0) {
		r.Notes = append(r.Notes, "the swing test gives no sensible mass and is left out: look at its force, friction, angle and time")
		by := leaf.ByRule(slab.Width, slab.Height)
		r.assume(swing.SlabMass, float64(by), float64(by)*float64(leaf.RuleSpread), "5.7 lb/ft², the trade's rule of size (common practice)")
		return
	}
	r.set(swing.SlabMass, m, float64(i)*rel/(k*k), fmt.Sprintf("weighed in place, spread %.0f %%", 100*rel))
	r.Rows[swing.AttachedMass].U = 0
}

// hinges: how freely does it hang?
func (r resolver) hinges(o *opening.Opening) {
	f := &o.Frame
	at := r.at(f.At)
	if f.Friction.Known {
		force := f.Friction.WithSpread(f.Friction.Value / 5)
		r.set(swing.HingeFriction, float64(force.Value)*at, float64(force.U)*at, surveyed)
	} else {
		r.assume(swing.HingeFriction, float64(0.6*q.PoundForce)*at, float64(0.2*q.PoundForce)*at, "0.6 lbf near the latch edge (common practice)")
	}
	r.set(swing.LeanAngle, 0, 0, surveyed)
	r.set(swing.LeanAzimuth, azimuth(f.Toward), 0, surveyed)
	if f.Lean.Known && f.Span.Known && f.Span.Value > 0 {
		lean := f.Lean.WithSpread(q.Inch / 32)
		r.set(swing.LeanAngle, float64(lean.Value/f.Span.Value), float64(lean.U/f.Span.Value), surveyed)
		return
	}
	r.assume(swing.LeanAngle, 0, 1.0/32/84, "hinge line plumb within 1/16 in over 84 in (common practice)")
}

// azimuth is the direction in plan of a lean; toward the pull side where none is given.
func azimuth(toward opening.Lean) float64 {
	switch toward {
	case "latch":
		return 0
	case "push":
		return -math.Pi / 2
	case "hinge":
		return math.Pi
	}
	return math.Pi / 2
}

// at is the radius of a force at the leaf's edge: as given, else 1 in from the latch edge.
func (r resolver) at(m q.Measured[q.Length]) float64 {
	if m.Known {
		return float64(m.Value)
	}
	return r.edge() - float64(q.Inch)
}

// air: what blows at it?
func (r resolver) air(o *opening.Opening) {
	a := &o.Air
	take(r, swing.Pressure, a.Usual, 2*q.Pascal, 0, 2*q.Pascal, "a balanced building, within 4 Pa (common practice)")
	r.assume(swing.PressureFades, float64(6*q.Degree), float64(2*q.Degree), "pressure leaks away as the leaf leaves its stop")
	r.assume(swing.DragCoefficient, 1.9, 0.2, "a flat plate swung broadside")
	r.assume(swing.AirDensity, 1.2, 0.03, "air at room temperature")
	usual := r.Rows[swing.Pressure]
	r.Most, r.Least = usual, usual
	if a.Most.Known {
		r.Most = row(a.Most, surveyed)
	}
	if a.Least.Known {
		r.Least = row(a.Least, surveyed)
	}
}

// latch: what must it push over?
func (r resolver) latch(o *opening.Opening, sheets *opening.Sheets) {
	l := o.Latch
	edge := r.edge()
	sheet := sheets.Latch(l.Sheet)
	source := surveyed
	force, at := l.Force, r.at(l.At)
	throw := l.Throw
	r.Release = l.Motion
	if sheet != nil {
		if r.Release == "" {
			r.Release = sheet.Motion
		}
		if !force.Known {
			force, at, source = sheet.Force, edge, "hardware sheet "+sheet.Name
		}
		throw = throw.Or(sheet.Throw)
	}
	r.Link.Latch = l.None != "yes"
	switch {
	case !r.Link.Latch:
		r.set(swing.BoltForce, 0, 0, "no latch")
	case force.Known:
		force = force.WithSpread(force.Value * 15 / 100)
		r.set(swing.BoltForce, float64(force.Value), float64(force.U), source)
	default:
		r.assume(swing.BoltForce, float64(1.5*q.PoundForce), float64(0.5*q.PoundForce), "an ordinary latch, 1.5 lbf (common practice)")
	}
	r.set(swing.BoltRadius, at, float64(tape), source)
	throw = throw.WithSpread(tape)
	if !throw.Known {
		throw = q.Give(q.Inch/2, q.Inch/8)
	}
	r.assume(swing.BoltMeets, float64(throw.Value)/edge, float64(throw.U)/edge, "the bolt meets its lip a throw from closed")
	r.assume(swing.BoltClears, float64(q.Inch/16)/edge, float64(q.Inch/64)/edge, "the bolt drops in 1/16 in from closed")
}

// seal: what must it press home?
func (r resolver) seal(o *opening.Opening, sheets *opening.Sheets) {
	s := o.Seal
	sheet := sheets.Seal(s.Sheet)
	source := surveyed
	force, at, gap := s.Force, r.at(s.At), s.Gap
	if sheet != nil {
		if !force.Known {
			force, at, source = sheet.Force, r.edge(), "hardware sheet "+sheet.Name
		}
		gap = gap.Or(sheet.Gap)
	}
	gap = gap.WithSpread(tape)
	if !gap.Known || !(gap.Value > 0) {
		gap = q.Give(0.375*q.Inch, q.Inch/8)
	}
	meets := float64(gap.Value) / r.edge()
	stiffness := func(f q.Force) float64 { return float64(f) * at / meets }
	r.set(swing.SealMeets, meets, float64(gap.U)/r.edge(), source)
	switch {
	case s.None == "yes":
		r.set(swing.SealStiffness, 0, 0, "no seals")
	case force.Known:
		force = force.WithSpread(force.Value * 15 / 100)
		r.set(swing.SealStiffness, stiffness(force.Value), stiffness(force.U), source)
	default:
		r.assume(swing.SealStiffness, stiffness(0.5*q.PoundForce), stiffness(0.3*q.PoundForce), "light seals, 0.5 lbf at the latch edge (common practice)")
	}
}
