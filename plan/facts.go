package plan

import (
	"math"
	"slices"

	"swingwright/fact"
	"swingwright/opening"
	"swingwright/swing"
)

// surveyedFacts fills in the facts that the survey states outright.
func surveyedFacts(o *opening.Opening, r *Resolved, facts *[fact.Count]float64) {
	u := &o.Use
	if u.Place != "" {
		outdoors := u.Outdoors()
		facts[fact.Interior], facts[fact.Exterior] = truth(!outdoors), truth(outdoors)
	}
	yesNo(facts, fact.FireRated, u.FireRated)
	yesNo(facts, fact.Egress, u.Egress)
	c := &o.Closer
	if described := c.Sheet != "" || c.Arm != "" || c.Size.Known || len(c.Gauged) > 0; described || c.None != "" {
		facts[fact.HasCloser] = truth(described && c.None != "yes")
	}
	facts[fact.HasLatch] = truth(r.Link.Latch)
	choice(facts, fact.Operation, string(u.Operation))
	choice(facts, fact.Activation, string(u.Activation))
	choice(facts, fact.ReleaseMotion, string(r.Release))
	if r.Size.Known {
		facts[fact.CloserSize] = r.Size.Value
	}
	facts[fact.PressureMost], facts[fact.PressureLeast] = r.Most.Value, r.Least.Value
	seen(o, facts)
}

func truth(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

func yesNo(facts *[fact.Count]float64, id fact.ID, answer opening.YesNo) {
	if answer != "" {
		facts[id] = truth(answer == "yes")
	}
}

func choice(facts *[fact.Count]float64, id fact.ID, word string) {
	if i := slices.Index(id.Fact().Choices, word); i >= 0 {
		facts[id] = float64(i)
	}
}

// take keeps the facts with their spread.
func (p *Plan) take(best []float64, mk *Maker) {
	for i := range p.Facts {
		id := fact.ID(i)
		f := &p.Facts[i]
		if math.IsNaN(best[i]) || f.Origin == Surveyed {
			continue
		}
		*f = Fact{Known: true, Value: best[i], Share: best[i], Origin: Computed}
		if mk.draws.Len() == 0 {
			continue
		}
		sum := mk.draws.Summary(i)
		switch {
		case id.Fact().Kind == fact.YesNo:
			f.Share = sum.Mean
		case sum.Len() > 1:
			f.U = sum.SD
		}
	}
	for _, one := range p.read {
		p.Facts[one.id] = Fact{Known: true, Value: one.value, U: one.u, Share: one.value, Origin: one.origin}
	}
	if f := &p.Facts[fact.PoweredDwell]; f.Origin == Computed {
		f.Origin = Surveyed // what it is set to
	}
	for i, v := range map[fact.ID]swing.Value{
		fact.LeafWidth: swing.LeafWidth, fact.LeafHeight: swing.LeafHeight, fact.LeafThickness: swing.LeafThickness,
		fact.PoweredOpenAngle: swing.OpenAngle,
	} {
		if p.Facts[i].Origin == Computed && !p.Resolved.Rows[v].Assumed {
			p.Facts[i].Origin = Surveyed
		}
	}
}
