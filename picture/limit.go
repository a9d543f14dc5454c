package picture

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"swingwright/fact"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/rulebook"
)

// limited are the findings about facts whose limit is known.
func limited(p *plan.Plan, ids ...fact.ID) []*plan.Finding {
	var found []*plan.Finding
	for i := range p.Findings {
		f := &p.Findings[i]
		if slices.Contains(ids, f.Rule.Of) && f.Rule.Side != rulebook.MustHold && !math.IsNaN(f.Limit) && !math.IsInf(f.Limit, 0) {
			found = append(found, f)
		}
	}
	return found
}

// distinct takes editions of a work that say the same at the same place once.
func distinct(findings []*plan.Finding) []*plan.Finding {
	var kept []*plan.Finding
	for _, f := range findings {
		same := func(g *plan.Finding) bool {
			return g.Limit == f.Limit && g.Value == f.Value && g.Rule.Side == f.Rule.Side && g.Verdict == f.Verdict && source(g) == source(f)
		}
		if !slices.ContainsFunc(kept, same) {
			kept = append(kept, f)
		}
	}
	return kept
}

// editions names the works that limits are from, with their editions.
func editions(findings []*plan.Finding) string {
	var works []string
	for _, f := range findings {
		if work := f.Book.Work + " (" + f.Book.Edition + ")"; !slices.Contains(works, work) {
			works = append(works, work)
		}
	}
	return "Limits from " + strings.Join(works, "; ") + "."
}

// source names the published place of a limit as briefly as it can be found
// by: the work, and its table or else its clause without remarks.
func source(f *plan.Finding) string {
	clause, _, _ := strings.Cut(f.Rule.Source.Clause, " (")
	place := f.Book.Work + ", " + cmp.Or(f.Rule.Source.Table, clause)
	return strings.NewReplacer("Section ", together("Section "), "Table ", together("Table ")).Replace(place)
}

// bound says a limit in words: at least 3.5 s.
func bound(f *plan.Finding, sys quantity.System) string {
	if f.Rule.Side == rulebook.MustHold {
		return f.Rule.Side.String()
	}
	return f.Rule.Side.String() + " " + value(f.Rule.Dim(), f.Limit, 0, sys)
}

// outcome says how a value stands to its limit; what must hold has no value to tell.
func outcome(f *plan.Finding, sys quantity.System) string {
	words := together(f.Verdict.String())
	if !math.IsNaN(f.Value) && f.Rule.Side != rulebook.MustHold {
		u := f.U
		if math.IsNaN(u) {
			u = 0
		}
		words = value(f.Rule.Dim(), f.Value, u, sys) + measured(f.Origin) + ", " + words
	}
	switch {
	case f.Rule.Advice:
		words += " (advice)"
	case f.Caution:
		words += " (limit not confirmed)"
	}
	return words
}

// measured marks a value that was not computed, as the curves are.
func measured(o plan.Origin) string {
	if o == plan.Read {
		return " measured"
	}
	return ""
}

// value is a value with its spread, in the reader's unit, that no line break parts.
func value(d quantity.Dimension, si, u float64, sys quantity.System) string {
	return together(quantity.Display(d, si, u, true, sys))
}

// number is a value in the reader's unit, for an axis.
func number(d quantity.Dimension, si float64, sys quantity.System) float64 {
	v, err := quantity.InUnit(d, si, quantity.Unit(d, sys))
	if err != nil {
		return math.NaN() // Unit gives units of the dimension only
	}
	return v
}

// degrees is an angle as a picture writes it.
func degrees(a quantity.Angle, decimals int) string {
	return fmt.Sprintf("%.*f°", decimals, float64(a/quantity.Degree))
}
