package picture

import (
	"fmt"
	"math"

	"swingwright/internal/draw"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/trace"
	"swingwright/tune"
)

// The values that a picture shows, as tables for people who do not see it. They are read off the curves
// that are drawn, so that both say the same.

// passedAt are the angles at which a closing is told, degrees.
var passedAt = []float64{90, 80, 70, 60, 45, 30, 20, 12, 10, 5, 0}

// when is the time at which a falling curve of pairs of time and value first comes down to a value; false where it never does.
func when(curve []draw.Point, down float64) (float64, bool) {
	for i, p := range curve {
		if p.Y > down+1e-9 {
			continue
		}
		if i == 0 || p.Y == curve[i-1].Y {
			return p.X, true
		}
		before := curve[i-1]
		return before.X + (p.X-before.X)*(before.Y-down)/(before.Y-p.Y), true
	}
	return math.NaN(), false
}

// level is the value of a curve of pairs with rising first members at one of them; NaN beyond its ends.
func level(curve []draw.Point, x float64) float64 {
	for i, p := range curve {
		if p.X < x-1e-9 {
			continue
		}
		if i == 0 || p.X == curve[i-1].X {
			if p.X > x+1e-9 {
				return math.NaN()
			}
			return p.Y
		}
		before := curve[i-1]
		return before.Y + (p.Y-before.Y)*(x-before.X)/(p.X-before.X)
	}
	return math.NaN()
}

// none stands where there is no value.
const none = "–"

func seconds(t float64, ok bool) string {
	if !ok || math.IsNaN(t) {
		return none
	}
	return fmt.Sprintf("%.2f s", t)
}

// table tells the closing: when it passes angles, and with how much energy.
func (c *closing) table() *draw.Table {
	t := &draw.Table{Head: []string{"leaf angle", "time", "energy"}}
	var angle, energy []draw.Point
	for i := range c.best.at {
		at := float64(c.best.at[i])
		angle = append(angle, draw.Point{X: at, Y: max(0, float64(c.best.angle[i]/quantity.Degree))})
		energy = append(energy, draw.Point{X: at, Y: float64(c.best.energy[i])})
	}
	for _, a := range passedAt {
		at, ok := when(angle, a)
		row := []string{fmt.Sprintf("%.0f°", a), seconds(at, ok), none}
		if ok {
			if e := level(energy, at); !math.IsNaN(e) {
				row[2] = value(quantity.DimEnergy, e, 0, c.sys)
			}
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// table tells the force by hand over the leaf's angle, and that of the closer alone.
func (h *hand) table() *draw.Table {
	t := &draw.Table{Head: []string{"leaf angle", "opened slowly by hand", "closer alone"}}
	force := func(forces []quantity.Force, at float64) string {
		var curve []draw.Point
		for i, f := range forces {
			curve = append(curve, draw.Point{X: float64(h.angles[i] / quantity.Degree), Y: float64(f)})
		}
		f := level(curve, at)
		if math.IsNaN(f) {
			return none
		}
		return quantity.FormatValue(quantity.Force(f), h.sys, 1)
	}
	for _, a := range []float64{0, 5, 10, 15, 30, 45, 60, 75, 90} {
		t.Rows = append(t.Rows, []string{fmt.Sprintf("%.0f°", a), force(h.force, a), force(h.closing, a)})
	}
	return t
}

// windowTable tells between which powers every demand holds.
func windowTable(w *plan.Window, sys quantity.System) *draw.Table {
	t := &draw.Table{Head: []string{"demand", "limit", "from power", "to power"}}
	for i := range w.Held {
		d, s := &w.Held[i].Demand, w.Held[i].Span
		row := []string{clean(d.What), d.Kind.Side().String() + " " + quantity.Display(d.Kind.Dim(), d.Limit, 0, true, sys), "holds at no power", none}
		if !s.Empty() {
			row[2], row[3] = fmt.Sprintf("%.2f", s.Low), fmt.Sprintf("%.2f", s.High)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// foretoldTable tells when the leaf passes angles, now and after the turn.
func foretoldTable(w *plan.Tuning) *draw.Table {
	t := &draw.Table{Head: []string{"leaf angle", "now", "after the turn"}}
	passed := func(o *tune.Outlook, a float64) string {
		if o == nil {
			return none
		}
		return seconds(when(course(o), a))
	}
	for _, a := range passedAt {
		t.Rows = append(t.Rows, []string{fmt.Sprintf("%.0f°", a), passed(w.Now, a), passed(w.After, a)})
	}
	return t
}

// recordedTable tells the phases of every swing.
func recordedTable(r *trace.Trace) *draw.Table {
	t := &draw.Table{Head: []string{"swing", "phase", "from", "leaf angle"}}
	for i, s := range r.Swings {
		if s.Spoilt() != "" {
			continue
		}
		var curve []draw.Point
		for _, x := range s.Samples() {
			curve = append(curve, draw.Point{X: float64(x.Time), Y: float64(x.Angle / quantity.Degree)})
		}
		for _, ph := range s.Phases {
			angle := none
			if a := level(curve, float64(ph.From)); !math.IsNaN(a) {
				angle = fmt.Sprintf("%.0f°", math.Abs(a))
			}
			t.Rows = append(t.Rows, []string{fmt.Sprint(i + 1), fmt.Sprint(ph.Kind), fmt.Sprintf("%.1f s", float64(ph.From)), angle})
		}
	}
	return t
}
