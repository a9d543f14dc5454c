package power

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	q "swingwright/quantity"
)

// door is a lock and a drive on one supply: the lock 60 ft away on 18 AWG, the drive 30
// ft away on 16.
func door() Tree {
	lock := Load{Name: "strike", Node: 1, Rated: 24, Least: 22.8, Behaviour: Resistive}
	lock.Draws = [Phases]q.Current{Releasing: 0.75, Colliding: 0.75, Waiting: 0.3, Starting: 0.3, Moving: 0.3, Holding: 0.3}
	drive := Load{Name: "drive", Node: 2, Rated: 24, Least: 21.6, Behaviour: SteadyPower}
	drive.Draws = [Phases]q.Current{0.1, 0.1, 5, 0.1, 5, 2, 0.6, 0.1, 0.1}
	return Tree{Volts: 24, Warmth: tableWarmth,
		Runs:      []Run{{Length: 60 * q.Foot, Wire: Wire{Gauge: 18}}, {Length: 30 * q.Foot, Wire: Wire{Gauge: 16}}},
		Loads:     []Load{lock, drive},
		Sequences: []Sequence{{Lasts: [Phases]q.Time{Releasing: 0.2, Waiting: 0.3, Starting: 0.3, Moving: 4, Holding: 7, Closing: 6, Relocking: 0.2}}},
	}
}

// Each device has its least voltage when it takes most: the strike at its inrush, by hand
// 24/(1 + 2·60·7.95/1000·0.75/24), the drive when it starts.
func TestWorstMoments(t *testing.T) {
	tree := door()
	c := tree.Follow()
	strike, drive := c.Loads[0], c.Loads[1]
	near(t, "strike", float64(strike.Volts), 24/(1+2*60*7.95/1000*0.75/24), 1e-9)
	r := 2 * 30 * 4.99 / 1000
	near(t, "drive", float64(drive.Volts), (24+math.Sqrt(24*24-4*r*5*24))/2, 1e-9)
	if strike.Phase != Releasing || drive.Phase != Starting || c.Ending != Fed {
		t.Errorf("strike %v, drive %v, %v", strike.Phase, drive.Phase, c.Ending)
	}
	if c.Moments[c.PeakAt].Phase[0] != Starting || c.Sustained > 2.5 || c.Sustained < 2.3 {
		t.Errorf("peak %v A %v, sustained %v A", c.Peak, c.Moments[c.PeakAt].Phase, c.Sustained)
	}
}

// The supply's current over the sequence, without wires: what the loads take, at the
// times that the phases last.
func TestCurrents(t *testing.T) {
	tree := door()
	for i := range tree.Runs {
		tree.Runs[i].Length = 0
	}
	want := []struct{ from, amps float64 }{{-1, 0.1}, {0, 0.85}, {0.2, 0.4}, {0.5, 5.3}, {0.8, 2.3}, {4.8, 0.9}, {11.8, 0.1}, {17.8, 0.1}, {18, 0.1}}
	got := tree.Currents()
	if len(got) != len(want) {
		t.Fatalf("%d spans: %+v", len(got), got)
	}
	for i, w := range want {
		near(t, "from", float64(got[i].From), w.from, 1e-9)
		near(t, "amps", float64(got[i].Amps), w.amps, 1e-9)
	}
}

// Two drives of 5 A for 0.3 s and 2 A for 4 s on one supply of 8 A: together 10 A, which
// the shortest delay of 0.3 s keeps to 7.
func TestStagger(t *testing.T) {
	pair := Tree{Volts: 24, Sequences: make([]Sequence, 2)}
	for i := range 2 {
		l := Load{Rated: 24, Least: 20, Sequence: i}
		l.Draws[Starting], l.Draws[Moving] = 5, 2
		pair.Loads = append(pair.Loads, l)
		pair.Sequences[i].Lasts[Starting], pair.Sequences[i].Lasts[Moving] = 0.3, 4
	}
	near(t, "together", float64(pair.Follow().Peak), 10, 1e-12)
	for _, c := range []struct {
		limit, delay, peak float64
		keeps              bool
	}{{10, 0, 10, true}, {8, 0.3, 7, true}, {6, 4.3, 5, true}, {4, 4.3, 5, false}} {
		got := pair.BestStagger(1, q.Current(c.limit))
		near(t, "delay", float64(got.Delay), c.delay, 1e-9)
		near(t, "peak", float64(got.Peak), c.peak, 1e-9)
		if got.Keeps != c.keeps {
			t.Errorf("within %v A: %+v", c.limit, got)
		}
	}
}

// Staggering never raises the peak, a larger limit never asks for a longer delay, and no
// delay that was not tried does better.
func TestStaggerProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tree := drawTree(t, 1)
		for i := range tree.Runs {
			tree.Runs[i].Length = 0
		}
		i := rapid.IntRange(0, len(tree.Sequences)-1).Draw(t, "sequence")
		limit := q.Current(rapid.Float64Range(0.1, 6).Draw(t, "limit"))
		before, best := tree.timedPeak(), tree.BestStagger(i, limit)
		if best.Peak > before+1e-9 || best.Delay < 0 || best.Keeps != (best.Peak <= limit*(1+rounding)) {
			t.Fatalf("peak %v, then %+v within %v", before, best, limit)
		}
		if more := tree.BestStagger(i, limit*1.3); best.Keeps && more.Delay > best.Delay {
			t.Fatalf("%+v within %v, but %+v within more", best, limit, more)
		}
		other := tree
		other.Sequences = slices.Clone(tree.Sequences)
		other.Sequences[i].Start += q.Time(rapid.Float64Range(0, 40).Draw(t, "other"))
		if got := other.timedPeak(); !best.Keeps && got < best.Peak-1e-9 {
			t.Fatalf("a delay of %v has a peak of %v, %+v was told", other.Sequences[i].Start-tree.Sequences[i].Start, got, best)
		}
		if d := other.Sequences[i].Start - tree.Sequences[i].Start; best.Keeps && d < best.Delay-1e-6 && other.timedPeak() <= limit*(1-1e-9) {
			t.Fatalf("a delay of %v does, %+v was told", d, best)
		}
	})
}

// Sequences that start at any time meet in all their phases; those that start together
// in the ones that the times bring together.
func TestStates(t *testing.T) {
	tree := door()
	if n := len(tree.states()); n != 8 {
		t.Errorf("%d moments of one door, want rest and seven phases", n)
	}
	tree.Sequences = append(tree.Sequences, tree.Sequences[0])
	if n := len(tree.states()); n != 8 {
		t.Errorf("%d moments of two doors together", n)
	}
	tree.AnyTime = true
	if n := len(tree.states()); n != 64 {
		t.Errorf("%d moments of two doors at any time, want 64", n)
	}
}

// lackOf is by how much the worst device misses its least voltage.
func lackOf(t *Tree) float64 {
	c, lack := t.Follow(), 0.
	for i := range c.Loads {
		if w := &c.Loads[i]; w.Works && (w.Ending != Fed || w.Margin < 0) {
			if w.Ending != Fed {
				lack += float64(w.Rated + w.Drop)
				continue
			}
			lack += float64(-w.Margin)
		}
	}
	return lack
}

func every(int) bool { return true }

// The strike's run needs 20 AWG and the drive's 16, by the drops of one run each: the
// strike 1.2 V at 0.75 A·v/24, the drive 2.4 V at its steady power.
func TestSmallestGauges(t *testing.T) {
	tree := door()
	got, ok := tree.Smallest(22, every, lackOf)
	if !ok {
		t.Fatal("no gauges do")
	}
	for k, least := range [][2]float64{{24, 22.8}, {24, 21.6}} {
		for _, g := range []Gauge{got[k], got[k] + 2} {
			r := 2 * float64(tree.Runs[k].Length) * float64(Wire{Gauge: g}.Resistance(tableWarmth))
			v := 24 / (1 + r*0.75/24)
			if k == 1 {
				v = (24 + math.Sqrt(max(0, 24*24-4*r*5*24))) / 2
			}
			if (v >= least[1]) != (g == got[k]) {
				t.Errorf("run %d with %v: %.2f V, %.2f needed", k, g, v, least[1])
			}
		}
	}
	tree.Runs[1].Length = 3000 * q.Foot
	if _, ok := tree.Smallest(22, every, lackOf); ok {
		t.Error("3000 ft can be fed")
	}
	none, ok := tree.Smallest(22, func(int) bool { return false }, func(*Tree) float64 { return 0 })
	if !ok || none[0] != 18 || none[1] != 16 {
		t.Errorf("with no run to change = %v", none)
	}
}

// What is found passes, no run of it can be a size thinner, and it has at most half as
// much copper again as the best of all choices, which are tried one by one on small trees.
func TestSmallestIsSmall(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tree := drawTree(t, 0.8)
		if len(tree.Runs) > 3 {
			return
		}
		got, ok := tree.Smallest(22, every, lackOf)
		u := tree
		u.Runs = slices.Clone(tree.Runs)
		copper := func() (sum float64) {
			for i := range u.Runs {
				sum += float64(u.Runs[i].Length) * float64(u.Runs[i].Wire.Gauge.Area())
			}
			return sum
		}
		least := math.Inf(1)
		var try func(int)
		try = func(k int) {
			if k == len(u.Runs) {
				if lackOf(&u) <= 0 {
					least = min(least, copper())
				}
				return
			}
			for _, g := range Gauges[1:] {
				u.Runs[k].Wire.Gauge = g
				try(k + 1)
			}
		}
		try(0)
		if !ok {
			return // coils aside, the thickest everywhere is the best
		}
		for i := range got {
			u.Runs[i].Wire.Gauge = got[i]
		}
		if lackOf(&u) > 0 {
			t.Fatal("what was found does not pass")
		}
		if c := copper(); c > 1.5*least+1e-12 {
			t.Fatalf("%.3g of copper, %.3g would do", c, least)
		}
		for i := range got {
			if got[i] < 22 {
				u.Runs[i].Wire.Gauge += 2
				if lackOf(&u) <= 0 {
					t.Fatalf("run %d may be thinner", i)
				}
				u.Runs[i].Wire.Gauge -= 2
			}
		}
	})
}
