package report

import (
	"fmt"
	"math"
	"strings"

	"swingwright/fact"
	"swingwright/judge"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/rulebook"
	"swingwright/swing"
)

// mark is the sign of a finding's verdict.
func mark(f *plan.Finding) string { return markOf(f.Verdict, f.Caution) }

// markOf is a verdict's sign, told apart without colour and in plain ASCII; soft is
// a limit that fails no opening.
func markOf(v judge.Verdict, soft bool) string {
	if soft && v == judge.FallsShort {
		return "! "
	}
	return marks[v]
}

var marks = [...]string{judge.Meets: "ok", judge.FallsShort: "!!", judge.TooClose: "??", judge.NotMeasured: "..", judge.DoesNotApply: "- "}

// verdictWords is a verdict's mark and word.
func verdictWords(v judge.Verdict) string {
	return hold(markOf(v, false)) + noBreak + v.String()
}

// verdict is the mark and the word, with what the reader must not overlook.
func verdict(f *plan.Finding) string {
	text := hold(mark(f)) + noBreak + f.Verdict.String()
	switch {
	case f.Rule.Advice:
		return text + " (advice)"
	case f.Caution:
		return text + " (limit unconfirmed)"
	}
	return text
}

// tints are the verdicts' colours, beside their marks.
var tints = [...]tint{judge.Meets: green, judge.FallsShort: red, judge.TooClose: yellow, judge.NotMeasured: yellow, judge.DoesNotApply: grey}

// found is what was judged, with its spread.
func found(p *plan.Plan, f *plan.Finding, units quantity.System) string {
	known := p.Facts[f.Rule.Of]
	switch {
	case f.Rule.Side == rulebook.MustHold:
		return value(f.Rule.Of, known, units)
	case math.IsNaN(f.Value):
		return "-"
	}
	return hold(quantity.Display(f.Rule.Dim(), f.Value, f.U, true, units))
}

// value is a fact in words, or in the reader's units.
func value(id fact.ID, f plan.Fact, units quantity.System) string {
	row := id.Fact()
	switch {
	case !f.Known:
		return "-"
	case row.Kind == fact.Choice:
		if i := int(f.Value); i >= 0 && i < len(row.Choices) {
			return row.Choices[i]
		}
		return "-"
	case row.Kind == fact.YesNo:
		return yesNo(f)
	}
	return hold(quantity.Display(row.Dim, f.Value, f.U, true, units))
}

// spread is a value with its spread in the reader's unit; a spread of 0 is left out.
func (t *Text) spread(d quantity.Dimension, si, u float64) string {
	return hold(quantity.Display(d, si, u, true, t.style.Units))
}

// amount is a value without a spread in the reader's unit.
func (t *Text) amount(d quantity.Dimension, si float64) string { return t.spread(d, si, 0) }

// forceAt is a moment about the hinge as the force of a hand so far from the pin.
func (t *Text) forceAt(moment plan.Fact, at quantity.Length) string {
	force, u := swing.HandForce(quantity.Torque(moment.Value), at), swing.HandForce(quantity.Torque(moment.U), at)
	return hold(quantity.Format(quantity.Give(force, u), t.style.Units))
}

func yesNo(f plan.Fact) string {
	word := "no"
	if f.Value >= 0.5 {
		word = "yes"
	}
	if f.Share > 0 && f.Share < 1 {
		return fmt.Sprintf("%s (yes in %.0f %% of the draws)", word, 100*f.Share)
	}
	return word
}

// limit is what the value was held against.
func limit(f *plan.Finding, units quantity.System) string {
	if f.Rule.Side == rulebook.MustHold {
		return "must hold"
	}
	if math.IsNaN(f.Limit) {
		return "-"
	}
	return bound(f.Rule, f.Limit, f.At, units)
}

// bound is a rule's limit in words, with the radius at which a force is taken
// where that is known.
func bound(r *rulebook.Rule, limit float64, at quantity.Length, units quantity.System) string {
	text := r.Side.String() + " " + hold(quantity.Display(r.Dim(), limit, 0, true, units))
	if at > 0 {
		text += ", " + hold(distance(at, units)) + " from the pin"
	}
	return text
}

// distance is a length on the leaf, as a tape shows it.
func distance(l quantity.Length, units quantity.System) string {
	if text := quantity.FormatValue(l, units, -1); strings.Contains(text, "/") {
		return text
	}
	if units == quantity.US {
		return quantity.FormatValue(l, units, 2)
	}
	return quantity.FormatValue(l, units, 0)
}

// place is where in its work a limit stands.
func place(s *rulebook.Source) string {
	text := s.Clause
	if s.Table != "" && !strings.Contains(text, s.Table) {
		text += ", " + s.Table
	}
	if s.Page != "" {
		text += ", page " + strings.TrimPrefix(s.Page, "page ")
	}
	return text
}

// work is the published work of a book.
func work(b *rulebook.Book) string { return b.Work + ", " + b.Edition }

// ending tells how a motion ended.
func ending(m *swing.Motion) string {
	switch m.End {
	case swing.Latched:
		return "closes and latches"
	case swing.Closed:
		return "closes; there is no latch"
	case swing.RestsOpen:
		return fmt.Sprintf("comes to rest at %.1f deg", float64(m.Angle/quantity.Degree))
	case swing.TimedOut:
		return fmt.Sprintf("is still under way after two minutes, at %.1f deg", float64(m.Angle/quantity.Degree))
	}
	if m.Err != nil {
		return "could not be followed: " + m.Err.Error()
	}
	return "not reckoned"
}

func degrees(a quantity.Angle) string {
	return fmt.Sprintf("%.4g deg", float64(a/quantity.Degree))
}

// sentence is a meaning without its full stop, to stand inside another sentence.
func sentence(meaning string) string { return strings.TrimSuffix(meaning, ".") }
