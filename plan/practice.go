package plan

import (
	"fmt"

	q "swingwright/quantity"
	"swingwright/swing"
)

// The angles between which operators are set fully open (common practice).
const (
	LeastOpenAngle   = 70 * q.Degree
	LargestOpenAngle = 110 * q.Degree
)

// unpractised lists in what an opening under power is set as nobody would set it.
func (p *Plan) unpractised() (out []Caution) {
	s := &p.Swing.Power
	if !s.Fitted {
		return nil
	}
	if stop := q.Angle(p.Resolved.Rows[swing.OpenAngle].Value); stop < LeastOpenAngle || stop > LargestOpenAngle {
		out = append(out, Caution{"open angle", fmt.Sprintf(
			"The operator is set to stop at %.0f degrees; between %.0f and %.0f is usual (common practice).",
			stop/q.Degree, LeastOpenAngle/q.Degree, LargestOpenAngle/q.Degree)})
	}
	if hard := &s.Usual.Strain; hard.Struggles() {
		say := "Ease the closer's backcheck (common practice)."
		if !p.Resolved.Backcheck {
			say = "Find out where the closer's backcheck begins, which is assumed here, and ease it if it is that (common practice)."
		}
		out = append(out, Caution{"backcheck", fmt.Sprintf("Beyond %.0f degrees the operator struggles: %s. %s", swing.StrainsFrom/q.Degree, struggle(hard), say)})
	}
	return out
}

func struggle(s *swing.Strain) string {
	if s.Saturated {
		return "it gives all that it has"
	}
	return fmt.Sprintf("at %.0f degrees the leaf lacks %.0f %% of the rate commanded", s.At/q.Degree, 100*s.Lag)
}
