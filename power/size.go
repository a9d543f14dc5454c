package power

import "slices"

// Smallest finds the thinnest gauges with which a tree passes, a gauge for every run
// that may be changed; free tells which. It begins with the thinnest everywhere, gives
// the next size to the run that helps most for its copper until the tree passes, and
// then takes back every size that turned out not to be needed: in the end no single run
// can be a size thinner. Passes may ask for margins; lack tells by how much a tree
// misses, nothing where it passes. False where the thickest
// gauges everywhere do not do.
func (t *Tree) Smallest(from Gauge, free func(run int) bool, lack func(*Tree) float64) ([]Gauge, bool) {
	u := *t
	u.Runs = slices.Clone(t.Runs)
	all := func(g Gauge) {
		for i := range u.Runs {
			if free(i) {
				u.Runs[i].Wire.Gauge = g
			}
		}
	}
	if all(Gauges[len(Gauges)-1]); lack(&u) > 0 {
		return nil, false
	}
	all(from)
	for missing := lack(&u); missing > 0; missing = lack(&u) {
		best, gain := -1, 0.
		for i := range u.Runs {
			r := &u.Runs[i]
			g := r.Wire.Gauge
			if !free(i) || g.Thicker() == g {
				continue
			}
			r.Wire.Gauge = g.Thicker()
			copper := float64(r.Length)*float64(g.Thicker().Area()-g.Area()) + 1e-12
			if by := (missing - lack(&u)) / copper; best < 0 || by > gain {
				best, gain = i, by
			}
			r.Wire.Gauge = g
		}
		if best < 0 {
			return nil, false
		}
		u.Runs[best].Wire.Gauge = u.Runs[best].Wire.Gauge.Thicker()
	}
	for again := true; again; { // every round makes a run thinner, or ends it
		again = false
		for i := range u.Runs {
			r := &u.Runs[i]
			if !free(i) || r.Wire.Gauge >= from {
				continue
			}
			r.Wire.Gauge += 2
			if lack(&u) > 0 {
				r.Wire.Gauge -= 2
			} else {
				again = true
			}
		}
	}
	gauges := make([]Gauge, len(u.Runs))
	for i := range u.Runs {
		gauges[i] = u.Runs[i].Wire.Gauge
	}
	return gauges, true
}
