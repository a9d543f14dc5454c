package plan

import (
	"math"
	"slices"

	"swingwright/opening"
	q "swingwright/quantity"
	"swingwright/swing"
)

// resolveInPlace makes a changed opening into a model. What was found at the opening
// that it stands in place of belongs to the closer there: where that stays, so do its
// spring as gauged, in proportion to the power set, its valves, and the turns of
// its pinion at which they hand over.
func resolveInPlace(of *Plan, o *opening.Opening, sheets *opening.Sheets) *Resolved {
	if of == nil || !of.Resolved.Link.Closer || o.Closer.Sheet != of.Opening.Closer.Sheet {
		return Resolve(o, sheets)
	}
	was, c := &of.Opening.Closer, *o
	moved := c.Closer.Arm != was.Arm || c.Closer.Size != was.Size || c.Closer.Pinion != was.Pinion || c.Closer.Shoe != was.Shoe
	sheet := sheets.Closer(was.Sheet)
	keeps := moved && sheet != nil && slices.Equal(c.Closer.Gauged, was.Gauged) && len(was.Gauged) > 0
	if keeps {
		c.Closer.Gauged = nil
	}
	r := Resolve(&c, sheets)
	if keeps {
		r.keepSpring(of, sheet, &c.Closer)
	}
	if moved && r.Link.Closer {
		r.keepZone(of, swing.LatchZone, c.Closer.LatchFrom == was.LatchFrom)
		r.keepZone(of, swing.CheckZone, c.Closer.BackcheckFrom == was.BackcheckFrom)
	}
	if sheet == nil {
		sheet = &opening.CloserSheet{}
	}
	r.keepValves(of, o, sheet)
	return r
}

// keepSpring takes the spring that was gauged before the change, in proportion to the
// torque that the sheet gives at either power.
func (r *Resolved) keepSpring(of *Plan, sheet *opening.CloserSheet, c *opening.Closer) {
	now, _, ok := powerAt(sheet, c.Size)
	before, _, known := powerAt(sheet, of.Opening.Closer.Size)
	share := 1.0
	switch {
	case ok && known && before.Value > 0:
		share = float64(now.Value / before.Value)
	case c.Size != of.Opening.Closer.Size:
		return
	}
	for _, v := range [...]swing.Value{swing.SpringClosed, swing.SpringRise} {
		row := of.Resolved.Rows[v]
		row.Value, row.U = row.Value*share, row.U*share
		if share != 1 {
			row.Source += ", in proportion to the power set"
		}
		r.Rows[v] = row
	}
	r.Rows[swing.CloserLoss] = of.Resolved.Rows[swing.CloserLoss]
}

// keepZone leaves the pinion's turn at which one valve hands over to the next.
func (r *Resolved) keepZone(of *Plan, zone swing.Value, same bool) {
	if same {
		r.Rows[zone] = of.Resolved.Rows[zone]
	}
}

// keepValves leaves a closer's valves where the times found before the change set
// them, instead of setting them anew so that the changed leaf closes in those times
// too. Their spread is that of the times, for a time grows as the resistance. A valve
// that the change turns goes with a ∝ 1/(u − u₀) from where it was found, or to what the
// sheet gives there, where nobody counted how it was found.
func (r *Resolved) keepValves(of *Plan, changed *opening.Opening, sheet *opening.CloserSheet) {
	was, now := &of.Opening.Closer, &changed.Closer
	if !of.Fitted() || !r.Found.Sweep.Known || now.SweepTime != was.SweepTime {
		return
	}
	keep := func(v swing.Value, a float64, found Row, valve opening.Valve, from, to q.Measured[q.Turns]) {
		rel := 0.1
		if found.Known && found.Value > 0 {
			rel = found.U / found.Value
		}
		source := "as the times found set it before the change"
		switch {
		case !to.Known || to == from:
		case from.Known && from.Value > valve.Shut.Value && to.Value > valve.Shut.Value:
			u0, u1 := float64(from.Value-valve.Shut.Value), float64(to.Value-valve.Shut.Value)
			a *= u0 / u1
			rel = math.Hypot(rel, math.Hypot(float64(from.WithSpread(1.0/16).U)/u0, float64(to.WithSpread(1.0/16).U)/u1))
			source += ", turned"
		case !r.Rows[v].Assumed:
			return // the sheet tells what it has there
		default:
			r.Notes = append(r.Notes, "the sheet does not tell what turns of a valve do: it stays as it was found")
		}
		r.Rows[v] = Row{Value: a, U: a * rel, Source: source, Known: true}
	}
	keep(swing.SweepViscous, of.Swing.Sweep, r.Found.Sweep, sheet.Sweep, was.SweepTurns, now.SweepTurns)
	keep(swing.LatchViscous, of.Swing.Latch, r.Found.Latch, sheet.Latch, was.LatchTurns, now.LatchTurns)
	r.Found.Sweep, r.Found.Latch = Row{}, Row{}
}
