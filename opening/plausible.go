package opening

import (
	"fmt"

	q "swingwright/quantity"
)

// A Doubt is a value that may be a slip: it is out of the span of what is
// found on site, or does not go with another. It warns and refuses nothing.
type Doubt struct {
	Field string // path of the field, such as leaf.width
	Found string // the value as it was written
	Usual string // what is usual, in US units and SI; empty where the values contradict each other
	Say   string // what may be wrong, in one sentence
}

// String is the doubt in one line.
func (d Doubt) String() string {
	s := d.Field + ": " + d.Found
	if d.Usual != "" {
		s += " is outside the usual " + d.Usual
	}
	return s + ": " + d.Say
}

// Implausible lists the values that may be slips, in the order of the record.
// The spans are from memory, as the trade finds them on site.
func Implausible(o *Opening) []Doubt {
	var d doubts
	d.leaf(&o.Leaf)
	d.frame(&o.Frame)
	d.closer(&o.Closer, o.Leaf.Width)
	d.operator(&o.Operator)
	d.latch(&o.Latch, o.Use.FireRated)
	d.seal(&o.Seal)
	d.air(&o.Air)
	d.weather(o)
	d.doorway(&o.Doorway)
	d.controls(o.Controls)
	d.hinges(&o.Hinges)
	d.work(o)
	d.room(o)
	return d
}

type doubts []Doubt

func (ds *doubts) add(field, found, say string) {
	*ds = append(*ds, Doubt{Field: field, Found: found, Say: say})
}

// span doubts a known value outside low to high.
func span[Q q.Quantity](ds *doubts, field string, m q.Measured[Q], low, high Q, say string) {
	if !m.Known || m.Value >= low && m.Value <= high {
		return
	}
	usual := q.FormatValue(low, q.US, -1) + " to " + q.FormatValue(high, q.US, -1)
	if si := q.FormatValue(low, q.SI, -1) + " to " + q.FormatValue(high, q.SI, -1); si != usual {
		usual += " (" + si + ")"
	}
	*ds = append(*ds, Doubt{field, written(m), usual, say})
}

// written is a value as it was typed, or printed where it was not.
func written[Q q.Quantity](m q.Measured[Q]) string {
	if m.Text != "" {
		return m.Text
	}
	return q.Format(m, q.SI)
}

func (ds *doubts) leaf(l *Leaf) {
	const unit = "check the number and its unit"
	span(ds, "leaf.width", l.Width, 18*q.Inch, 60*q.Inch, unit)
	span(ds, "leaf.height", l.Height, 72*q.Inch, 120*q.Inch, unit)
	thinnest := 1.375 * q.Inch
	if l.allGlass() {
		thinnest = 0.3125 * q.Inch
	}
	span(ds, "leaf.thickness", l.Thickness, thinnest, 2.25*q.Inch, unit)
	span(ds, "leaf.weight", l.Weight, 40*q.Pound, 400*q.Pound, unit)
	span(ds, "leaf.handle", l.Handle, 1*q.Inch, 10*q.Inch, "it is measured from the latch edge")
	ds.nominal("leaf.width", l.Width, l.Nominal.Width)
	ds.nominal("leaf.height", l.Height, l.Nominal.Height)
	if l.Width.Known && l.Height.Known && l.Width.Value > l.Height.Value {
		ds.add("leaf.width", written(l.Width), "the leaf is wider than high; are the two exchanged?")
	}
	s := &l.SwingTest
	span(ds, "leaf.swing_test.angle", s.Angle, 20*q.Degree, 110*q.Degree, "a short swing is hard to time, a long one meets the stop")
	span(ds, "leaf.swing_test.time", s.Time, 0.5, 20, unit)
	if s.Force.Known && s.Friction.Known && s.Friction.Value >= s.Force.Value {
		ds.add("leaf.swing_test.friction", written(s.Friction), "the push is not above the friction, so the leaf could not have moved")
	}
}

// allGlass tells a leaf whose construction is glass and nothing else.
func (l *Leaf) allGlass() bool {
	for i := range l.Layers {
		switch l.Layers[i].Material {
		case "glass", "laminated glass", "wired glass":
		default:
			return false
		}
	}
	return len(l.Layers) > 0
}

// nominal doubts a size that is the nominal one, or far from it: a leaf is a
// little smaller than its nominal size.
func (ds *doubts) nominal(field string, m q.Measured[q.Length], nominal q.Length) {
	const same, far = q.Inch / 32, 2 * q.Inch
	less := nominal - m.Value
	switch {
	case nominal == 0 || !m.Known:
	case less < same && less > -same:
		ds.add(field, written(m), "this is the nominal size, and a leaf is a little smaller; was it measured?")
	case less < 0 || less > far:
		ds.add(field, written(m), "this does not go with the nominal size")
	}
}

func (ds *doubts) frame(f *Frame) {
	// swing-clear hinges put the pin past the edge by some 2-1/4 in
	span(ds, "frame.pin_to_edge", f.PinAlong, -1*q.Inch, 3*q.Inch, "it is measured along the closed leaf")
	span(ds, "frame.pin_to_face", f.PinOff, -1*q.Inch, 2*q.Inch, "it is measured square to the leaf")
	span(ds, "frame.friction", f.Friction, 0, 6*q.PoundForce, "was the arm off?")
	span(ds, "frame.lean", f.Lean, 0, q.Inch/2, "such a hinge line wants mending first")
}

func (ds *doubts) closer(c *Closer, width q.Measured[q.Length]) {
	if c.None == "yes" && !c.isBlank() {
		ds.add("closer.none", string(c.None), "a closer is described all the same")
	}
	span(ds, "closer.size", c.Size, 1, 7, "the standards know sizes 1 to 7")
	for i := range c.Gauged {
		ds.gauged(fmt.Sprintf("closer.gauged[%d]", i), &c.Gauged[i], width)
	}
	span(ds, "closer.sweep_time", c.SweepTime, 1.5, 30, "it is timed from 90 to 12 degrees")
	span(ds, "closer.latch_time", c.LatchTime, 0.3, 10, "it is timed from 12 degrees to closed")
	span(ds, "closer.sweep_turns", c.SweepTurns, 0, 5, "turns are counted from shut")
	span(ds, "closer.latch_turns", c.LatchTurns, 0, 5, "turns are counted from shut")
	span(ds, "closer.backcheck_turns", c.CheckTurns, 0, 5, "turns are counted from shut")
	span(ds, "closer.latch_zone_from", c.LatchFrom, 3*q.Degree, 30*q.Degree, "it is the leaf's angle from closed")
	span(ds, "closer.backcheck_from", c.BackcheckFrom, 45*q.Degree, 120*q.Degree, "it is the leaf's angle from closed")
}

func (ds *doubts) gauged(field string, g *Gauged, width q.Measured[q.Length]) {
	span(ds, field+".angle", g.Angle, 0, 120*q.Degree, "it is the leaf's angle from closed")
	span(ds, field+".opening", g.Opening, 1*q.PoundForce, 40*q.PoundForce, "check the number and its unit")
	if g.Closing.Known && g.Opening.Known && g.Closing.Value >= g.Opening.Value {
		ds.add(field+".closing", written(g.Closing), "a closer gives back less than it takes; are the two exchanged?")
	}
	if g.At.Known && width.Known && g.At.Value > width.Value+2*q.Inch {
		ds.add(field+".at", written(g.At), "this is beyond the latch edge; it is measured from the hinge pin")
	}
}

func (ds *doubts) operator(o *Operator) {
	span(ds, "operator.open_angle", o.OpenAngle, 70*q.Degree, 110*q.Degree, "it is the leaf's angle from closed, fully open under power")
	span(ds, "operator.speed", o.Speed, q.AngularSpeed(5*q.Degree), q.AngularSpeed(60*q.Degree), "it is the leaf's rate, not the motor's")
	span(ds, "operator.slow_from", o.SlowFrom, 45*q.Degree, 110*q.Degree, "it is the leaf's angle from closed")
	span(ds, "operator.dwell", o.Dwell, 3, 30, "it is held open for as long")
	span(ds, "operator.push_start", o.PushStart, 0, 20*q.Degree, "it is the leaf's angle from closed")
	if o.SlowFrom.Known && o.OpenAngle.Known && o.SlowFrom.Value > o.OpenAngle.Value {
		ds.add("operator.slow_from", written(o.SlowFrom), "it is beyond the angle at which it stops")
	}
	if o.Creep.Known && o.Speed.Known && o.Creep.Value > o.Speed.Value {
		ds.add("operator.creep", written(o.Creep), "it is faster than the rate from which it slows down")
	}
}

func (ds *doubts) latch(l *Latch, fireRated YesNo) {
	span(ds, "latch.force", l.Force, 0, 35*q.PoundForce, "check the number and its unit")
	span(ds, "latch.throw", l.Throw, 0.25*q.Inch, 1*q.Inch, "it is how far the bolt stands out")
	if l.None == "yes" && (l.Sheet != "" || l.Force.Known) {
		ds.add("latch.none", string(l.None), "a latch is described all the same")
	}
	if l.None == "yes" && fireRated == "yes" {
		ds.add("latch.none", string(l.None), "a fire-rated leaf has to latch")
	}
}

func (ds *doubts) seal(s *Seal) {
	span(ds, "seal.force", s.Force, 0, 35*q.PoundForce, "check the number and its unit")
	span(ds, "seal.gap", s.Gap, 0, 2*q.Inch, "it is measured at the latch edge")
	if s.None == "yes" && (s.Sheet != "" || s.Force.Known) {
		ds.add("seal.none", string(s.None), "seals are described all the same")
	}
}

func (ds *doubts) air(a *Air) {
	const unit = "check the number, its sign and its unit"
	span(ds, "air.pressure", a.Usual, -60, 60, unit)
	span(ds, "air.pressure_most", a.Most, -60, 60, unit)
	span(ds, "air.pressure_least", a.Least, -60, 60, unit)
	if a.Usual.Known && a.Most.Known && a.Most.Value < a.Usual.Value {
		ds.add("air.pressure_most", written(a.Most), "it is below the usual pressure")
	}
	if a.Usual.Known && a.Least.Known && a.Least.Value > a.Usual.Value {
		ds.add("air.pressure_least", written(a.Least), "it is above the usual pressure")
	}
	span(ds, "air.temperature", a.Temperature, q.Celsius0-40, q.Celsius0+50, unit)
	span(ds, "air.temperature_surveyed", a.Surveyed, q.Celsius0-40, q.Celsius0+50, unit)
}
