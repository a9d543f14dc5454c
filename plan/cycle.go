package plan

import (
	"fmt"
	"math"

	"swingwright/fact"
	"swingwright/opening"
	q "swingwright/quantity"
	"swingwright/swing"
	"swingwright/transit"
)

// A Cycle is one opening under power from the press, as the plan has it: what was
// measured outranks what was computed.
type Cycle struct {
	transit.Cycle
	Spread transit.Cycle // standard uncertainty of each part
	Leaf   q.Time        // of the opening, from the start of the leaf: without the release of the lock
	// FreeTo is the leaf angle down to which the closing leaf leaves the path free.
	FreeTo  q.Angle
	Missing []string // what has to be known for a cycle
	Notes   []string
}

func (c *Cycle) note(format string, args ...any) {
	c.Notes = append(c.Notes, fmt.Sprintf(format, args...))
}

// usualStop is how far a stop stands out into the opening where nobody measured
// it (common practice).
const usualStop = 0.625 * q.Inch

// closingShare is the relative spread of a closing time that has none of its own; assumed.
const closingShare = 0.2

// Cycle is one opening under power.
func (p *Plan) Cycle(sheets *opening.Sheets) Cycle {
	var c Cycle
	open, hold := p.Facts[fact.PoweredTimeToOpen], p.Facts[fact.PoweredDwell]
	if !open.Known {
		c.Missing = append(c.Missing, "the time to open fully under power (powered.time_to_open)")
	}
	if !hold.Known {
		c.Missing = append(c.Missing, "for how long it is held open (operator.dwell, or powered.dwell)")
	}
	if len(c.Missing) > 0 {
		return c
	}
	c.Opening, c.Spread.Opening = q.Time(open.Value), q.Time(open.U)
	c.Leaf = c.Opening
	c.Hold, c.Spread.Hold = q.Time(hold.Value), q.Time(hold.U)
	if free := release(&p.Opening.Lock, sheets); free.Known {
		free = free.WithSpread(free.Value / 10)
		c.Opening += free.Value
		c.Spread.Opening = q.Time(math.Hypot(float64(c.Spread.Opening), float64(free.U)))
		c.note("%.1f s of the opening are the lock's release", float64(free.Value))
	}
	p.usable(&c)
	return c
}

// release is how long the lock takes to free the leaf, where it has to.
func release(l *opening.Lock, sheets *opening.Sheets) (t q.Measured[q.Time]) {
	if l.Release == "not-needed" || l.Release == "dogged" || l.Release == "by-hand-only" {
		return t
	}
	t = l.ReleaseDelay
	if s := sheets.Strike(l.Strike); s != nil {
		t = t.Or(s.ReleaseTime)
	}
	if s := sheets.Lock(l.Sheet); s != nil {
		t = t.Or(s.ReleaseTime)
	}
	return t
}

// usable adds the part of closing during which a wheelchair's width stays free.
func (p *Plan) usable(c *Cycle) {
	edge := q.Length(p.Facts[fact.LatchEdge].Value)
	stop := p.Opening.Frame.Stop.Or(q.Exactly(usualStop))
	angle, fits := transit.PathAngle(edge-stop.Value, edge, transit.ChairWidth)
	from := q.Angle(p.Facts[fact.PoweredOpenAngle].Value)
	if from == 0 {
		from = 90 * q.Degree
	}
	switch {
	case !p.Facts[fact.LatchEdge].Known || !fits:
		c.note("nothing of the closing is counted: the doorway is no wider than a wheelchair, 30 in, or its width is not known")
		return
	case p.Problem != nil || !p.Swing.Reachable || !p.Resolved.Times:
		c.note("nothing of the closing is counted: it could not be timed")
		return
	case from <= angle:
		c.note("nothing of the closing is counted: the leaf opens no farther than where it leaves the path free")
		return
	}
	c.FreeTo = angle
	m, err := p.Model()
	if err != nil {
		return
	}
	if _, ok := m.Arm().Reach(from); !ok {
		c.note("nothing of the closing is counted: the arm does not reach %.0f degrees", float64(from/q.Degree))
		return
	}
	var mover swing.Mover
	mark := []swing.Mark{{Angle: angle}}
	mover.Close(&m, from, mark)
	if math.IsNaN(float64(mark[0].Time)) {
		return
	}
	scale, share := p.closingScale()
	c.Usable = q.Time(float64(mark[0].Time) * scale)
	c.Spread.Usable = q.Time(float64(c.Usable) * share)
}

// closingScale is by how much a measured time of closing is longer than the one
// computed, and the relative spread of either.
func (p *Plan) closingScale() (scale, share float64) {
	scale, share = 1, closingShare
	marks := p.Swing.Marks[:]
	for _, one := range []struct {
		id fact.ID
		to q.Angle
	}{{fact.CloseTime90To12, 12 * q.Degree}, {fact.CloseTime90To10, 10 * q.Degree}} {
		f := p.Facts[one.id]
		if !f.Known || !(f.Value > 0) {
			continue
		}
		computed := float64(swing.PassedAt(marks, one.to) - swing.PassedAt(marks, 90*q.Degree))
		if f.Origin == Read && computed > 0 {
			return f.Value / computed, f.U / f.Value
		}
		share = f.U / f.Value
	}
	return scale, share
}
