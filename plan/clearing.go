package plan

import (
	"fmt"
	"math"

	"swingwright/fact"
	"swingwright/internal/propagate"
	"swingwright/logic"
	q "swingwright/quantity"
	"swingwright/swing"
)

// A Clearing is how long a leaf that is opened under power takes until its lock
// may catch again without catching it.
type Clearing struct {
	Door  string
	Angle q.Angle // leaf angle at which it counts as clear of its strike
	Time  q.Time  // from the start of the drive until there
	U     q.Time  // standard uncertainty
	Known bool
	Why   string      // why it is not known
	Used  q.Time      // what a wiring was proved with; zero before
	Leaf  logic.Times // what the leaf takes under power; zero where not known
}

// clearAngle is how far a leaf has to be open before its lock may catch again:
// the trade keeps the lock released until 10 to 15 degrees (from memory).
const clearAngle = 10 * q.Degree

// Longest is the longest that the leaf may take, as the machine of a wiring counts
// with it: with twice its spread, in full tenths of a second upward. Zero where it
// is not known.
func (c Clearing) Longest() q.Time {
	if !c.Known {
		return 0
	}
	return q.Time(math.Ceil(float64(c.Time+2*c.U)*10-1e-9) / 10)
}

// Clearing follows the leaf from the start of its drive until it is clear of its
// strike, past the strike's lip in any case, with the spread that comes from every
// input by the linear law. Where the time to open fully was measured, the time is
// longer or shorter in proportion.
func (p *Plan) Clearing() Clearing {
	c := Clearing{Door: p.Opening.ID, Leaf: p.leafTimes()}
	rows := &p.Resolved.Rows
	lip := q.Angle(rows[swing.BoltMeets].Value + 2*rows[swing.BoltMeets].U)
	c.Angle = max(clearAngle, lip)
	switch {
	case p.Problem != nil:
		c.Why = "no swing could be reckoned"
		return c
	case !p.Resolved.Drive.Fitted:
		c.Why = "no sheet tells of an operator that could be reckoned with"
		return c
	}
	ins, f := p.untilOpen(c.Angle)
	budget, err := propagate.Linear(ins, 1, f)
	if err != nil {
		c.Why = err.Error()
		return c
	}
	c.Time, c.U = q.Time(budget.Value(0)), q.Time(budget.U(0))
	if math.IsNaN(float64(c.Time)) || math.IsNaN(float64(c.U)) {
		return Clearing{Door: c.Door, Angle: c.Angle, Leaf: c.Leaf, Why: fmt.Sprintf("by what is known the drive does not bring it to %.0f degrees for certain", float64(c.Angle/q.Degree))}
	}
	if open, reckoned := p.Facts[fact.PoweredTimeToOpen], float64(p.Swing.Power.Usual.Time); open.Origin == Read && reckoned > 0 && p.Swing.Power.Usual.End == swing.Opened {
		scale := q.Time(open.Value / reckoned)
		c.Time, c.U = c.Time*scale, c.U*scale
	}
	c.Known = true
	return c
}

// untilOpen is the time from the start of the drive until the leaf has come to an
// angle, as a function of the inputs that have a spread.
func (p *Plan) untilOpen(angle q.Angle) ([]propagate.Input, propagate.Function) {
	v := p.Values()
	var ins []propagate.Input
	var at []swing.Value
	for i := range p.Resolved.Rows {
		if one, u := swing.Value(i), p.Resolved.Rows[i].U; u > 0 {
			low, high := bounds(one)
			ins = append(ins, propagate.Input{Mean: v[i], U: u, Low: min(low, v[i]), High: max(high, v[i])})
			at = append(at, one)
		}
	}
	var m swing.Model
	var mover swing.Mover
	return ins, func(x, out []float64) {
		w := v
		for i, one := range at {
			w[one] = x[i]
		}
		if remade(&m, &w, p.Resolved) != nil {
			return
		}
		mark := []swing.Mark{{Angle: angle}}
		mover.Drive(&m, 0, p.Swing.Power.From, mark)
		out[0] = float64(mark[0].Time)
	}
}

// Words tell in a sentence how long the lock has to stay released once the drive
// starts, as the wiring was proved with it.
func (c Clearing) Words() string {
	if !c.Known {
		return fmt.Sprintf("%s counts as clear of its strike %.1f s after its drive starts: common practice, from memory, since %s.", c.Door, float64(c.Used), c.Why)
	}
	return fmt.Sprintf("%s is clear of its strike, %.0f degrees open, %.1f s after its drive starts, standard uncertainty %.1f s; the lock has to stay released for %.1f s.",
		c.Door, float64(c.Angle/q.Degree), float64(c.Time), float64(c.U), float64(c.Used))
}

// leafTimes are the best estimates of what the leaf takes under power.
func (p *Plan) leafTimes() logic.Times {
	of := func(id fact.ID) q.Time {
		if f := &p.Facts[id]; f.Known {
			return q.Time(f.Value)
		}
		return 0
	}
	return logic.Times{Opens: of(fact.PoweredTimeToOpen), Hold: of(fact.PoweredDwell), Closes: of(fact.CloseTime90ToClosed)}
}
