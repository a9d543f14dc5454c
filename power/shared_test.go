package power

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	q "swingwright/quantity"
)

// Two openings on one breaker, by hand: each supply takes 24 V · 2 A over 0.65 of 120 V at
// work, 0.6154 A, and 24 V · 0.1 A over the same at rest, 0.0308 A; the breaker is chosen
// for 2 · (0.6154 + 0.25 · 0.0308) A.
func TestShareByHand(t *testing.T) {
	a, b := onMains(1, 0), onMains(1, 0)
	s := Share("L1-7", []*Branch{&branchesOf(&a)[0], &branchesOf(&b)[0]}, []string{"101", "102"})
	near(t, "at rest", float64(s.Idle.Current), 2*24*0.1/(0.65*120), 1e-12)
	near(t, "at work", float64(s.Working.Current), 2*24*2/(0.65*120), 1e-12)
	near(t, "at the start", float64(s.Peak.Current), 2*24*4/(0.65*120), 1e-12)
	near(t, "for the breaker", float64(s.Continuous().Current), 2*24*(2+0.25*0.1)/(0.65*120), 1e-12)
	if s.Operators() != 2 || s.Rated != 15 || len(s.Notes) != 2 {
		t.Errorf("%v operators on %v A, notes %q", s.Operators(), s.Rated, s.Notes)
	}
}

// However openings on one circuit are written down, in one wiring or in several, the sums
// are the same; and whom a wiring counts as others is not counted again.
func TestShareIsAsOneWiring(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		parts := rapid.SliceOfN(rapid.IntRange(1, 4), 1, 4).Draw(t, "openings of each wiring")
		beyond := rapid.IntRange(0, 3).Draw(t, "operators of other jobs")
		total := 0
		for _, n := range parts {
			total += n
		}
		tells := rapid.Bool().Draw(t, "whether each wiring tells of the others")
		var branches []*Branch
		var of []string
		for i, n := range parts {
			w := onMains(n, 10)
			if tells {
				w.Devices[0].Doors = q.Exactly(q.Ratio(total - n + beyond))
			}
			branches, of = append(branches, &branchesOf(&w)[0]), append(of, fmt.Sprint(i))
		}
		s := Share("L1-7", branches, of)
		whole := onMains(total, 10)
		if tells {
			whole.Devices[0].Doors = q.Exactly(q.Ratio(beyond))
		}
		one := branchesOf(&whole)[0]
		working, peak, workingU, peakU := one.Currents()
		hours := one.Continuous()
		for _, c := range []struct {
			what      string
			got, want q.Current
		}{{"working", s.Working.Current, working}, {"peak", s.Peak.Current, peak}, {"for the breaker", s.Continuous().Current, hours.Current}} {
			if d := c.got - c.want; d > 1e-9 || d < -1e-9 {
				t.Errorf("%s: %v A of wirings %v with %d beyond, %v A as one", c.what, c.got, parts, beyond, c.want)
			}
		}
		if s.Operators() != one.Operators {
			t.Errorf("%v operators, %v as one", s.Operators(), one.Operators)
		}
		if beyond == 0 && (s.Working.U-workingU > 1e-9 || s.Peak.U-peakU > 1e-9 || workingU-s.Working.U > 1e-9 || peakU-s.Peak.U > 1e-9) {
			t.Errorf("spreads %v and %v A, %v and %v as one", s.Working.U, s.Peak.U, workingU, peakU)
		}
	})
}

// Wirings that say different things of one breaker are told of, and the least holds.
func TestShareTellsOfContradictions(t *testing.T) {
	a, b := onMains(1, 0), onMains(1, 0)
	a.Devices[0].Working, b.Devices[0].Working = amps(20), amps(15)
	s := Share("L1-7", []*Branch{&branchesOf(&a)[0], &branchesOf(&b)[0]}, []string{"101", "102"})
	if s.Rated != 15 || len(s.Notes) != 1 || !strings.Contains(s.Notes[0], "101 says 20 A at 120 V, 102 15 A at 120 V") {
		t.Errorf("%v A, %q", s.Rated, s.Notes)
	}
}
