package plan

import (
	"math"
	"testing"

	"swingwright/fact"
)

// The wider tolerances of draws move no spread by a hundredth and no share by a draw.
func TestDraftMovesNoSpread(t *testing.T) {
	j, books := clinic(t)
	for _, id := range []string{"101", "102", "103", "104"} {
		o := demoOpening(t, j, id)
		fine := Maker{readers: []reckoner{{fine: true}}}
		want, got := fine.Make(o, &j.Sheets, books, Options{}), Make(o, &j.Sheets, books, Options{})
		if !fine.readers[0].fine {
			t.Fatal("nothing was followed finely")
		}
		for i := range got.Facts {
			g, w := &got.Facts[i], &want.Facts[i]
			if g.Share != w.Share {
				t.Errorf("%s %v: share %v, finely %v", id, fact.ID(i), g.Share, w.Share)
			}
			if math.Abs(g.U-w.U) > 0.01*w.U {
				t.Errorf("%s %v: spread %v, finely %v", id, fact.ID(i), g.U, w.U)
			}
		}
		for i := range got.Findings {
			if g, w := &got.Findings[i], &want.Findings[i]; g.Verdict != w.Verdict || math.Abs(g.U-w.U) > 0.01*w.U {
				t.Errorf("%s %s: %v ± %v, finely %v ± %v", id, g.Rule.ID, g.Verdict, g.U, w.Verdict, w.U)
			}
		}
	}
}
