package transit

import "testing"

// The trade's rule: the active leaf's delay has to be the other leaf's closing
// time and 1 s more, where both leaves close alike from the same start: 6 s each and
// 1 s later leads by that second; a leaf of 5 s would have to wait 2 s.
func TestClosingsOfAPair(t *testing.T) {
	near(t, "alike, 1 s later", float64(Closings{Active: 6, Other: 6, After: 1}.Leads()), float64(Lead), 0)
	near(t, "faster, 2 s later", float64(Closings{Active: 5, Other: 6, After: 2}.Leads()), float64(Lead), 0)
	near(t, "together", float64(Closings{Active: 6, Other: 6}.Leads()), 0, 0)
}

// 0.3, 0.4 and 1.2 s make 1.3 s: two Pythagorean triples.
func TestSpreadOfACycle(t *testing.T) {
	near(t, "spread", float64(Spread(Cycle{Opening: 0.3, Hold: 0.4, Usable: 1.2})), 1.3, 1e-12)
}
