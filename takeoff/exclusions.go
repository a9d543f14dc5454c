package takeoff

import (
	"slices"

	"swingwright/opening"
)

// exclusions are what the quote does not hold. It is common practice to say so.
func (m *maker) exclusions(t *Takeoff) []Exclusion {
	all := []Exclusion{}
	for i := range t.Openings {
		if o := &t.Openings[i]; o.Left != "" {
			all = append(all, Exclusion{"opening " + o.ID, o.Left})
		}
	}
	says := func(trade opening.Trade) bool {
		return slices.ContainsFunc(t.Openings, func(o Opening) bool {
			return slices.ContainsFunc(o.Subs, func(s Sub) bool { return s.Trade == trade })
		})
	}
	if says(opening.Electrician) && m.rates.sub(opening.Electrician) == nil {
		all = append(all, Exclusion{"branch circuits, panels, disconnects and all other mains work", "a licensed electrician's, under the local electrical code, engaged by the owner"})
	}
	if says(opening.AlarmFirm) {
		all = append(all, Exclusion{"connection and programming at the fire-alarm panel", "the fire-alarm contractor's alone"})
	}
	if says(opening.AccessFirm) {
		all = append(all, Exclusion{"programming of the access control, its readers and credentials", "the integrator's alone"})
	}
	for _, x := range []struct {
		when      func(o *opening.Opening) bool
		what, why string
	}{
		{func(o *opening.Opening) bool { return o.Leaf.Asbestos == "yes" }, "work on leaves whose core may hold asbestos", "the owner's hygienist clears them first"},
		{func(o *opening.Opening) bool { return o.Use.FireRated == "yes" }, "new labels, field labelling and listing of leaves and frames", "the labelling agency's"},
		{func(o *opening.Opening) bool { return o.Frame.Sound == "no" }, "work on frames that are not straight and fast", "a structural or glazing contractor's"},
	} {
		if slices.ContainsFunc(t.Openings, func(o Opening) bool { return x.when(m.items[o.ID].Opening) }) {
			all = append(all, Exclusion{x.what, x.why})
		}
	}
	return append(all,
		Exclusion{"patching, painting and finishes", "seen only when the old hardware is off"},
		Exclusion{"what is hidden in walls, ceilings, leaves and frames", "nobody can count it"},
		Exclusion{"taxes, bonds and bid costs", "they differ from place to place and are not reckoned here"})
}
