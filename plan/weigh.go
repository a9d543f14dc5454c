package plan

import (
	"math"
	"slices"

	"swingwright/fact"
	"swingwright/judge"
	"swingwright/rulebook"
	"swingwright/swing"
)

// A pull tells, of every input, how many findings it is expected to settle or to
// turn if it were known exactly: the sum, over the findings, of the input's share of
// the margin's variance times how open the finding is.
type pull [numInputs]float64

// within is the number of standard uncertainties from its limit beyond which a finding
// is not looked at: the chance that it turns is below 0.3 %.
const within = 3

// weigh adds what the inputs mean to one finding. shares are those of the inputs.
func (p *pull) weigh(f *Finding, mk *Maker, shares []float64) {
	open := openness(f)
	for i, part := range shares {
		if at := mk.place[i]; at < numInputs {
			p[at] += part * open
		}
	}
}

// openness is 1 for a finding that is too close to call, else the chance that its
// verdict is wrong, taken as normal.
func openness(f *Finding) float64 {
	if f.Verdict == judge.TooClose {
		return 1
	}
	if !(f.U > 0) {
		return 0
	}
	return math.Erfc(math.Abs(f.Margin)/f.U/math.Sqrt2) / 2
}

// isNear tells that a finding's margin is near enough to its limit to be weighed.
func isNear(f *Finding) bool {
	return !f.Rule.Advice && (f.Verdict == judge.TooClose || f.Rule.Side != rulebook.MustHold && f.U > 0 && math.Abs(f.Margin) < within*f.U)
}

// tells lists, for a field of the survey that may be missing, the inputs that
// it would tell instead of an assumption.
var tells = map[string][]int{
	"leaf.width":               {int(swing.LeafWidth)},
	"leaf.height":              {int(swing.LeafHeight)},
	"leaf.weight":              {int(swing.SlabMass), int(swing.AttachedMass)},
	"leaf.swing_test":          {int(swing.SlabMass)},
	"frame.pin_to_edge":        {int(swing.PinToEdge), int(swing.PinToFace)},
	"frame.friction":           {int(swing.HingeFriction)},
	"frame.lean_over":          {int(swing.LeanAngle)},
	"closer.gauged":            {int(swing.SpringClosed), int(swing.SpringRise), int(swing.CloserLoss)},
	"closer.latch_zone_from":   {int(swing.LatchZone)},
	"closer.backcheck_from":    {int(swing.CheckZone)},
	"closer.sweep_time":        {int(swing.SweepViscous), int(swing.LatchViscous)},
	"closer.latch_time":        {int(swing.LatchViscous)},
	"latch.force":              {int(swing.BoltForce)},
	"seal.force":               {int(swing.SealStiffness), int(swing.SealMeets)},
	"air.pressure_most":        {int(swing.Pressure), inPressureMost, inPressureLeast},
	"air.temperature_surveyed": {int(swing.OilFactor)},
	"operator.open_angle":      {int(swing.OpenAngle)},
	"operator.speed":           {int(swing.OpenRate)},
	"operator.dwell":           {inDwell},
}

// Settles is how many of the plan's findings a field of the survey is expected to
// settle if it were filled in: those that its assumed value leaves open, by its share
// of their spread, and those that wait for what cannot be computed without it.
func (p *Plan) Settles(field string) float64 {
	sum := 0.0
	for _, at := range tells[field] {
		sum += p.pull[at]
	}
	if stops, known := stopped[field]; known {
		for i := range p.Findings {
			if waits(&p.Findings[i], stops) {
				sum++
			}
		}
	}
	return sum
}

// stopped tells, for fields without which things cannot be computed, which facts these are.
var stopped = map[string]func(fact.ID) bool{
	"leaf.width": computedFact, "leaf.height": computedFact,
	"closer": byCloser, "closer.size": byCloser, "closer.arm": byCloser,
	"closer.sweep_time": closing, "closer.latch_time": closing,
	"operator.sheet": powered, "operator.speed": powered, "operator.arm": powered, "closer.none": powered,
	"operator.dwell": is(fact.PoweredDwell), "use.place": is(fact.Interior, fact.Exterior), "use.fire_rated": is(fact.FireRated),
	"use.egress": is(fact.Egress), "use.operation": is(fact.Operation), "use.activation": is(fact.Activation),
	"latch.release_motion": is(fact.ReleaseMotion),
}

func is(ids ...fact.ID) func(fact.ID) bool {
	return func(id fact.ID) bool { return slices.Contains(ids, id) }
}

// Answers tells that a field of the survey would make a fact known.
func Answers(field string, id fact.ID) bool {
	such, known := stopped[field]
	return known && such(id)
}

func byCloser(id fact.ID) bool {
	return id >= fact.CloseTime90To12 && id <= fact.LatchMargin || id >= fact.HandToStart && id <= fact.Hand30To60 || id >= fact.CloserMoment0To4 && id <= fact.CloserEfficiency
}

func computedFact(id fact.ID) bool {
	return byCloser(id) || powered(id) || id >= fact.LeafMass && id <= fact.LatchEdge
}

// waits tells a finding that is not measured for want of such facts.
func waits(f *Finding, such func(fact.ID) bool) bool {
	return f.Verdict == judge.NotMeasured && !f.Rule.Advice && slices.ContainsFunc(f.Missing, such)
}
