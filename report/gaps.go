package report

import (
	"swingwright/plan"
)

// doubts writes what is hard to believe.
func (t *Text) doubts(p *plan.Plan) {
	if len(p.Doubts) > 0 {
		t.head("Hard to believe")
		for _, d := range p.Doubts {
			t.paragraph("*", d.String())
		}
	}
}
