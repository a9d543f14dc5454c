package packet

import (
	"math"
	"slices"
	"strings"

	"swingwright/fact"
	"swingwright/internal/paper"
	"swingwright/judge"
	"swingwright/plan"
	q "swingwright/quantity"
	"swingwright/rulebook"
)

// amount is a value in the reader's units, on one line.
func (s *sheet) amount(d q.Dimension, si, u float64) string {
	return paper.Hold(q.Display(d, si, u, true, s.units))
}

// given is a quantity of the survey or of a hardware sheet; unknown where it is not known.
func given[Q q.Quantity](s *sheet, m q.Measured[Q]) string {
	if !m.Known {
		return unknown
	}
	return s.amount(m.Value.Dimension(), float64(m.Value), float64(m.U))
}

// exact is a quantity without a spread, as an instruction says it.
func exact[Q q.Quantity](s *sheet, v Q) string {
	return paper.Hold(q.FormatValue(v, s.units, -1))
}

// far is a long way, in feet or metres.
func (s *sheet) far(m q.Measured[q.Length]) string {
	const foot = 12 * q.Inch
	switch {
	case !m.Known:
		return unknown
	case s.units == q.US && m.Value >= 3*foot:
		return paper.Hold(strings.TrimSuffix(say("%.1f", float64(m.Value/foot)), ".0") + " ft")
	case s.units == q.SI && m.Value >= q.Metre:
		return paper.Hold(say("%.1f m", float64(m.Value)))
	}
	return paper.Hold(q.ByTape(m.Value, s.units))
}

const unknown = "not known"

// fact is a fact in the reader's units; unknown where it is not known.
func (s *sheet) fact(id fact.ID) string {
	f, row := &s.p.Facts[id], id.Fact()
	switch {
	case !f.Known || math.IsNaN(f.Value):
		return unknown
	case row.Kind == fact.YesNo:
		return yesNo(f)
	case row.Kind == fact.Choice:
		if i := int(f.Value); i >= 0 && i < len(row.Choices) {
			return row.Choices[i]
		}
		return unknown
	}
	return s.amount(row.Dim, f.Value, f.U)
}

func yesNo(f *plan.Fact) string {
	word := "no"
	if f.Value >= 0.5 {
		word = "yes"
	}
	if f.Share > 0 && f.Share < 1 {
		return say("%s (yes in %.0f %% of the draws)", word, 100*f.Share)
	}
	return word
}

// about are the findings about a fact that apply here, demands before advice.
func (s *sheet) about(ids ...fact.ID) (all []*plan.Finding) {
	for _, advice := range []bool{false, true} {
		for i := range s.p.Findings {
			f := &s.p.Findings[i]
			if f.Rule.Advice == advice && f.Verdict != judge.DoesNotApply && slices.Contains(ids, f.Rule.Of) {
				all = append(all, f)
			}
		}
	}
	return all
}

// bound is a finding's limit in words.
func (s *sheet) bound(f *plan.Finding) string {
	switch {
	case f.Rule.Side == rulebook.MustHold:
		return f.Rule.Title
	case math.IsNaN(f.Limit):
		return f.Rule.Title
	}
	text := f.Rule.Side.String() + " " + s.amount(f.Rule.Dim(), f.Limit, 0)
	if f.At > 0 {
		text += " at " + paper.Hold(q.ByTape(f.At, s.units))
	}
	if f.Rule.Advice {
		text += " (advice)"
	}
	return text
}

// limits are the limits on facts that apply here, each with its source; the least
// of one and the same sort stands once.
func (s *sheet) limits(ids ...fact.ID) string {
	var parts []string
	for _, f := range s.about(ids...) {
		if one := s.bound(f) + "; " + f.Cited(); !slices.Contains(parts, one) {
			parts = append(parts, one)
		}
	}
	return strings.Join(parts, ". ")
}

// strictest is the finding whose limit is hardest to keep among those that demand a
// number of the fact, nil where none does.
func (s *sheet) strictest(id fact.ID) *plan.Finding {
	var best *plan.Finding
	for _, f := range s.about(id) {
		switch {
		case f.Rule.Advice || f.Rule.Side == rulebook.MustHold || math.IsNaN(f.Limit):
		case best == nil || best.Rule.Dim() == f.Rule.Dim() && stricter(f, best):
			best = f
		}
	}
	return best
}

func stricter(a, b *plan.Finding) bool {
	if a.Rule.Side == rulebook.AtLeast {
		return a.Limit > b.Limit
	}
	return a.Limit < b.Limit
}

// predicted is what is expected of a fact, as the finding about it judges it: a
// moment as the force at the place where its rule takes it.
func (s *sheet) predicted(id fact.ID) string {
	f := &s.p.Facts[id]
	if !f.Known || math.IsNaN(f.Value) {
		return unknown
	}
	text := s.fact(id)
	if id.Fact().Dim == q.DimTorque {
		at := q.Length(s.p.Resolved.Handle.Value)
		if one := s.strictest(id); one != nil && one.At > 0 {
			at = one.At
		}
		if at > 0 {
			text = s.amount(q.DimForce, f.Value/float64(at), f.U/float64(at)) + " at " + paper.Hold(q.ByTape(at, s.units))
		}
	}
	if f.Origin == plan.Read {
		text += ", as measured"
	}
	return text
}

// present are the texts that are not empty.
func present(texts ...string) []string {
	return slices.DeleteFunc(texts, func(t string) bool { return t == "" })
}

// orElse is the text, or another where it is empty.
func orElse(text, other string) string {
	if text == "" {
		return other
	}
	return text
}

// lower begins a sentence inside another one.
func lower(text string) string {
	if text == "" {
		return text
	}
	return strings.ToLower(text[:1]) + text[1:]
}

func upper(text string) string {
	if text == "" {
		return text
	}
	return strings.ToUpper(text[:1]) + text[1:]
}
