package report

import (
	"swingwright/plan"
)

// open writes what is still missing, and what is hard to believe.
func (t *Text) open(p *plan.Plan) {
	if len(p.Gaps) > 0 {
		t.head("Still to find out")
		tab := t.section(12, 24, 20)
		for _, g := range p.Gaps {
			why := g.Why
			if g.Stops != "" {
				why += " Without it nothing is known of: " + g.Stops + "."
			}
			tab.add(g.Field, why, g.How)
		}
		t.put(tab)
	}
	if len(p.Doubts) > 0 {
		t.head("Hard to believe")
		for _, d := range p.Doubts {
			t.paragraph("*", d.String())
		}
	}
}
