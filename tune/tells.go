package tune

import (
	"fmt"
	"math"
	"strings"

	"swingwright/internal/lsq"
)

// When a record tells little: what it leaves of a spread that was known before.
const little = 0.8

// tell lists in words what the record cannot tell.
func (w *work) tell(f *Fit, r *lsq.Result) {
	l := w.layout
	say := func(format string, args ...any) { f.CannotTell = append(f.CannotTell, fmt.Sprintf(format, args...)) }
	for i := range l.params[:l.firstSweep] {
		q, p := &f.Quantities[i], &l.params[i]
		if q.U > little*p.u {
			say("%s: no better than known before, %s", q.Name, spreadText(q))
		}
	}
	for i := l.firstSweep; i < l.resistances(); i++ {
		if q := &f.Quantities[i]; q.U > 0.5 {
			say("%s: hardly at all; time or record a closing that shows it", q.Name)
		}
	}
	if w.together(f, r) {
		say("torque and damping apart: a spring, frictions and valves all stronger by the same share close alike; gauge the opening and the closing force at one angle")
	}
}

func spreadText(q *Quantity) string {
	if q.Log {
		return fmt.Sprintf("within %.0f %%", 100*q.U)
	}
	return fmt.Sprintf("within %.2g", q.U)
}

// together tells that spring and resistances go up as one without the observations
// minding, in some direction that they see less of than was known.
func (w *work) together(f *Fit, r *lsq.Result) bool {
	l := w.layout
	s := l.of[spring]
	if s < 0 {
		return false
	}
	for _, d := range r.Weak(w.lengths(), 1) {
		top := 0.0
		for _, p := range d.Part {
			top = math.Max(top, math.Abs(p))
		}
		for i := l.firstSweep; i < l.resistances(); i++ {
			if math.Abs(d.Part[s]) > 0.3*top && d.Part[s]*d.Part[i] > 0 {
				return true
			}
		}
	}
	// or nearly so, once all is weighed
	n := f.ofRuns
	for i := l.firstSweep; i < n; i++ {
		c := f.Covariance[s*n+i] / math.Sqrt(f.Covariance[s*n+s]*f.Covariance[i*n+i])
		if c > 0.9 && f.Quantities[s].U > little*l.params[s].u {
			return true
		}
	}
	return false
}

// lengths are what counts as one in each parameter: what it was known to before, a third
// in a resistance, a tenth of a second in a begin.
func (w *work) lengths() []float64 {
	s := make([]float64, len(w.layout.params))
	for i := range s {
		switch q := &w.layout.params[i]; q.what {
		case sweepValve, latchValve:
			s[i] = 1.0 / 3
		case begins:
			s[i] = 0.1
		default:
			s[i] = q.u
		}
	}
	return s
}

// Report is the fit in lines for people: every quantity, then what cannot be told.
func (f *Fit) Report() string {
	var b strings.Builder
	for i := range f.Quantities {
		q := &f.Quantities[i]
		fmt.Fprintf(&b, "%s: %.4g, %s", q.Name, q.Value, spreadText(q))
		if q.Bound {
			b.WriteString(" (on its bound)")
		}
		b.WriteByte('\n')
	}
	for _, s := range f.CannotTell {
		fmt.Fprintf(&b, "cannot tell %s\n", s)
	}
	for _, s := range f.Remarks() {
		fmt.Fprintf(&b, "note: %s\n", s)
	}
	return b.String()
}

// Remarks are what was left out of the record, and what in it does not go with the rest.
func (f *Fit) Remarks() []string {
	all := make([]string, 0, len(f.Left)+len(f.Notes))
	for _, s := range f.Left {
		all = append(all, fmt.Sprintf("recording %d: %v", s.Curve+1, s))
	}
	return append(all, f.Notes...)
}
