package plan

import (
	"fmt"
	"math"
	"slices"

	"swingwright/fact"
	"swingwright/instrument"
	"swingwright/judge"
)

// decideNumber judges a margin with its spread. Where the value was read several times,
// the spread has the degrees of freedom of these readings, and a call that is too close
// says how many more would settle it.
func (p *Plan) decideNumber(f *Finding, opt Options) judge.Verdict {
	got := p.repeats(f.Rule.Of)
	if got == nil || !(f.U > 0) {
		return judge.Decide(f.Margin, f.U, opt.Policy)
	}
	own := got.U // in the margin's unit
	if f.At > 0 {
		own /= float64(f.At)
	}
	own = math.Min(own, f.U)
	// Welch–Satterthwaite, JCGM 100:2008, eq. G.2b, the rest of the spread being certain
	df := got.DF * math.Pow(f.U/own, 4)
	verdict := judge.DecideDF(f.Margin, f.U, df, opt.Policy)
	if verdict == judge.TooClose {
		f.Why = more(got, f, own, opt.Policy)
	}
	return verdict
}

// repeats is what repeated readings of a fact came to; nil where it was not read so.
func (p *Plan) repeats(id fact.ID) *instrument.Read {
	for _, one := range slices.Backward(p.read) {
		if one.id == id {
			return one.repeats // the last reading is the one that holds
		}
	}
	return nil
}

// more says how many readings would settle a finding if they came out alike.
func more(got *instrument.Read, f *Finding, own float64, policy judge.Policy) string {
	share := own / got.U
	fixed := math.Sqrt(math.Max(0, f.U*f.U-own*own))
	n := got.More(f.Margin/share, fixed/share, policy.CoverageDF)
	if n == 0 {
		return fmt.Sprintf("%d readings, and no number of them would settle it: what does not fall with their number is too large", got.N)
	}
	return fmt.Sprintf("%d readings; %d in all would settle it if the others come out alike", got.N, n)
}
