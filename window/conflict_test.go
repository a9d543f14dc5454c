package window

import (
	"math"
	"reflect"
	"slices"
	"testing"

	"swingwright/quantity"
	"swingwright/swing"
)

func logSteps(span [2]quantity.Damping, n int) (out []quantity.Damping) {
	for k := range n {
		out = append(out, span[0]*quantity.Damping(math.Pow(float64(span[1]/span[0]), float64(k)/float64(n-1))))
	}
	return out
}

// kept are all demands kept at each point of a grid of settings and
// resistances, by following every motion there.
func kept(t *testing.T, ask *Question) (points []uint32) {
	t.Helper()
	const settings = 13
	var mover swing.Mover
	over := ask.settings()
	for k := range settings {
		q := over.Low + over.Width()*quantity.Ratio(k)/(settings-1)
		for _, sweep := range logSteps(ask.Valves.Sweep, 10) {
			for _, latch := range logSteps(ask.Valves.Latch, 10) {
				var bits uint32
				for i := range ask.Demands {
					if keptAt(t, &mover, ask, &ask.Demands[i], q, sweep, latch) {
						bits |= 1 << i
					}
				}
				if !slices.Contains(points, bits) {
					points = append(points, bits)
				}
			}
		}
	}
	return points
}

// The conflicts are those that trying a grid of settings and resistances finds:
// every set of up to three demands that no point keeps and of which every part is
// kept somewhere.
func TestConflictsAreThoseOfAGrid(t *testing.T) {
	for name, ask := range map[string]Question{"force against pressure": excluded(), "operator against pressure": weakOperator()} {
		// Two slow demands of nearly one valve would need a finer grid to be told apart.
		ask.Valves.Sweep, ask.Valves.Latch = [2]quantity.Damping{3, 120}, [2]quantity.Damping{4, 250}
		points := kept(t, &ask)
		want := minimal(len(ask.Demands), largest, func(of []int) bool {
			var bits uint32
			for _, i := range of {
				bits |= 1 << i
			}
			return !slices.ContainsFunc(points, func(p uint32) bool { return p&bits == bits })
		})
		a := find(t, &ask)
		var got [][]int
		for _, c := range a.Conflicts {
			var of []int
			for _, g := range c.Of {
				of = append(of, slices.IndexFunc(ask.Demands, func(d Demand) bool { return d.Name == g.Demand.Name }))
			}
			got = append(got, of)
		}
		if len(want) == 0 || !reflect.DeepEqual(got, want) {
			t.Errorf("%s: conflicts %v, the grid has %v", name, got, want)
		}
	}
}

func weakOperator() Question {
	ask := excluded()
	ask.Demands[1].Limit *= 3
	ask.Demands[8].Limit = 2
	return ask
}

// What a demand of a conflict has to give just lets the others be kept with it.
func TestGivesAreJustEnough(t *testing.T) {
	ask := excluded()
	a := find(t, &ask)
	var f Finder
	f.begin(&ask)
	looked := 0
	for _, c := range a.Conflicts {
		demands := make([]Demand, len(c.Of))
		for i, g := range c.Of {
			demands[i] = g.Demand
		}
		if f.open(setOf(demands)) {
			t.Errorf("%v is no conflict", demands)
		}
		for i, g := range c.Of {
			without := slices.Delete(slices.Clone(demands), i, i+1)
			if !f.open(setOf(without)) {
				t.Errorf("conflict stays without %s: it is not minimal", g.Demand.Name)
			}
			if !g.Enough {
				continue
			}
			looked++
			step := 2 * sharePrecision * f.senseless(&g.Demand)
			for _, try := range []struct {
				by   float64
				want bool
			}{{g.By, true}, {g.By - step, false}} {
				eased := slices.Clone(demands)
				eased[i] = g.Demand.eased(try.by)
				if f.open(setOf(eased)) != try.want {
					t.Errorf("%s eased by %g: open is not %v", g.Demand.Name, try.by, try.want)
				}
			}
		}
	}
	if looked < 2 {
		t.Errorf("only %d gives looked at", looked)
	}
}

// A demand that no setting keeps is a conflict by itself.
func TestSingleConflict(t *testing.T) {
	ask := typical()
	ask.Demands[0].Limit = 1 // N
	a := find(t, &ask)
	if len(a.Conflicts) == 0 || len(a.Conflicts[0].Of) != 1 || a.Conflicts[0].Of[0].Demand.Name != "start" {
		t.Errorf("conflicts %+v, want start alone", a.Conflicts)
	}
}

// Sets counted by hand: 0 alone, and 1, 2, 3 together, are barred.
func TestMinimal(t *testing.T) {
	bar := func(of []int) bool {
		return slices.Contains(of, 0) || slices.Contains(of, 1) && slices.Contains(of, 2) && slices.Contains(of, 3)
	}
	if got, want := minimal(5, 3, bar), [][]int{{0}, {1, 2, 3}}; !reflect.DeepEqual(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
	all := func(of []int) bool { return len(of) >= 4 && of[0] == 1 }
	if got, want := shrunk(5, all), []int{1, 2, 3, 4}; !reflect.DeepEqual(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
}
