package window

import (
	"math"

	"swingwright/quantity"
)

// A Span is the settings from Low to High, both included. It is empty where Low
// is not at most High.
type Span struct {
	Low, High quantity.Ratio
}

// none is a span without a setting.
var none = Span{quantity.Ratio(math.Inf(1)), quantity.Ratio(math.Inf(-1))}

// Empty tells that there is no setting in it.
func (s Span) Empty() bool { return !(s.Low <= s.High) }

// Width is High − Low; below zero for two edges that passed each other.
func (s Span) Width() quantity.Ratio { return s.High - s.Low }

// both is what two spans have in common.
func (s Span) both(t Span) Span { return Span{max(s.Low, t.Low), min(s.High, t.High)} }

// Precision is how closely the edges of a window are found, as a share of the
// whole span of the marked powers.
const Precision quantity.Ratio = 1e-4

// edges finds, for n verdicts that each turn at most once along a span of
// settings, the part of it in which each is good. All verdicts are asked for
// together, at the middle of the widest gap left. An edge is on the good side,
// within Precision of the bad one.
func edges(over Span, n int, ask func(setting quantity.Ratio, good []bool)) []Span {
	low, high, now := make([]bool, n), make([]bool, n), make([]bool, n)
	ask(over.Low, low)
	ask(over.High, high)
	gap := make([]Span, n) // where a verdict turns
	for i := range gap {
		gap[i] = over
		if low[i] == high[i] {
			gap[i] = Span{} // it does not
		}
	}
	for {
		widest := 0
		for i := range gap {
			if gap[i].Width() > gap[widest].Width() {
				widest = i
			}
		}
		if n == 0 || !(gap[widest].Width() > Precision*over.Width()) {
			break
		}
		middle := gap[widest].Low + gap[widest].Width()/2
		ask(middle, now)
		for i := range gap {
			switch g := &gap[i]; {
			case !(g.Low < middle && middle < g.High):
			case now[i] == low[i]:
				g.Low = middle
			default:
				g.High = middle
			}
		}
	}
	good := make([]Span, n)
	for i := range good {
		switch {
		case low[i] && high[i]:
			good[i] = over
		case low[i]:
			good[i] = Span{over.Low, gap[i].Low}
		case high[i]:
			good[i] = Span{gap[i].High, over.High}
		default:
			good[i] = none
		}
	}
	return good
}
