// Package xlsx writes a take-off as a workbook. It stands apart from the package report,
// since the library for workbooks is large and report goes to phones.
package xlsx

import (
	"io"
	"strings"

	"swingwright/internal/workbook"
	"swingwright/opening"
	"swingwright/quantity"
	"swingwright/takeoff"
)

// Write writes a take-off as an XLSX workbook: parts, lines, hours, visits and
// quote on sheets of their own, with what else is given behind them.
func Write(w io.Writer, k *takeoff.Takeoff, units quantity.System, more ...workbook.Sheet) error {
	b := sheets{k, units}
	return workbook.Write(w, append([]workbook.Sheet{b.parts(), b.lines(), b.hours(), b.visits(), b.quote(), b.exclusions()}, more...))
}

type sheets struct {
	*takeoff.Takeoff
	units quantity.System
}

// amount is how much of a line is bought, with its unit.
func (b *sheets) amount(l *takeoff.Line) (any, string) {
	switch {
	case !isLength(l.Part):
		return l.Count, "each"
	case b.units == quantity.SI:
		return float64(l.Length / quantity.Metre), "m"
	}
	return float64(l.Length / quantity.Foot), "ft"
}

// price is what one unit of a line costs: low, likely and high, nil where not priced.
func (b *sheets) price(l *takeoff.Line) [3]any {
	if l.Price == nil {
		return [3]any{}
	}
	p := *l.Price
	if isLength(l.Part) && b.units != quantity.SI {
		p = p.Times(float64(quantity.Foot))
	}
	return [3]any{p.Low, p.Likely, p.High}
}

func (b *sheets) parts() workbook.Sheet {
	s := workbook.Sheet{Name: "Parts", Columns: []workbook.Column{{Heading: "part"}, {Heading: "what"}, {Heading: "hardware sheet"}, {Heading: "quantity", Format: workbook.Tenths}, {Heading: "unit"},
		{Heading: "price low", Format: workbook.Money}, {Heading: "price likely", Format: workbook.Money}, {Heading: "price high", Format: workbook.Money}, {Heading: "for"}}}
	add := func(l *takeoff.Line) {
		n, unit := b.amount(l)
		p := b.price(l)
		s.Rows = append(s.Rows, []any{string(l.Part), l.What, l.Sheet, n, unit, p[0], p[1], p[2], l.Why})
	}
	for i := range b.Parts {
		add(&b.Parts[i])
	}
	for i := range b.Spares {
		add(&b.Spares[i])
	}
	return s
}

func (b *sheets) lines() workbook.Sheet {
	s := workbook.Sheet{Name: "By opening", Columns: []workbook.Column{{Heading: "opening"}, {Heading: "part"}, {Heading: "what"}, {Heading: "hardware sheet"}, {Heading: "quantity", Format: workbook.Tenths}, {Heading: "unit"}, {Heading: "why"}, {Heading: "from"}, {Heading: "rests on"}}}
	for i := range b.Openings {
		for n := range b.Openings[i].Lines {
			l := &b.Openings[i].Lines[n]
			amount, unit := b.amount(l)
			s.Rows = append(s.Rows, []any{l.Of, string(l.Part), l.What, l.Sheet, amount, unit, l.Why, l.From, string(l.Basis)})
		}
	}
	return s
}

func (b *sheets) hours() workbook.Sheet {
	s := workbook.Sheet{Name: "Hours", Totals: 1, Columns: []workbook.Column{{Heading: "opening"}, {Heading: "task"}, {Heading: "times", Format: workbook.Whole}, {Heading: "hours low", Format: workbook.Money}, {Heading: "hours likely", Format: workbook.Money}, {Heading: "hours high", Format: workbook.Money}, {Heading: "why"}, {Heading: "rests on"}}}
	add := func(w *takeoff.Work) {
		of := w.Of
		if of == "" {
			of = "the job"
		}
		s.Rows = append(s.Rows, []any{of, string(w.Task), w.Times, w.Hours.Low, w.Hours.Likely, w.Hours.High, w.Why + w.Longer(), string(w.Basis)})
	}
	for i := range b.Openings {
		for n := range b.Openings[i].Work {
			add(&b.Openings[i].Work[n])
		}
	}
	for i := range b.JobWork {
		add(&b.JobWork[i])
	}
	s.Rows = append(s.Rows, []any{"all", "", nil, b.Hours.Low, b.Hours.Likely, b.Hours.High, "1 case in 20 below, the middle, 1 in 20 above", ""})
	return s
}

func (b *sheets) visits() workbook.Sheet {
	s := workbook.Sheet{Name: "Visits", Columns: []workbook.Column{{Heading: "building"}, {Heading: "phase"}, {Heading: "order", Format: workbook.Whole}, {Heading: "trade"}, {Heading: "what for"}, {Heading: "openings"}, {Heading: "hours likely", Format: workbook.Money}, {Heading: "days", Format: workbook.Whole}}}
	for i := range b.Visits {
		v := &b.Visits[i]
		var hours any
		if v.Hours != nil {
			hours = v.Hours.Likely
		}
		s.Rows = append(s.Rows, []any{v.Building, v.Phase, v.Order, string(v.Trade), v.Purpose + ": " + v.Why, strings.Join(v.Openings, ", "), hours, v.Days})
	}
	return s
}

func (b *sheets) quote() workbook.Sheet {
	s := workbook.Sheet{Name: "Quote", Totals: 1, Columns: []workbook.Column{{Heading: "what"}, {Heading: "low", Format: workbook.Money}, {Heading: "middle", Format: workbook.Money}, {Heading: "high", Format: workbook.Money}, {Heading: "how"}}}
	for i := range b.Alternates {
		if a := &b.Alternates[i]; a.Left == "" {
			s.Rows = append(s.Rows, []any{"alternate " + a.ID + " in place of " + a.Of + ", more by", a.More.Low, a.More.Likely, a.More.High, "not in the total"})
		}
	}
	for _, q := range b.Quote.Sums {
		s.Rows = append(s.Rows, []any{q.What, q.Low, q.Likely, q.High, q.Why})
	}
	if words := b.ToSet(); words != "" {
		s.Rows = append(s.Rows, []any{"to be set", nil, nil, nil, words})
	}
	total := "total"
	if b.Quote.Currency != "" {
		total += ", " + b.Quote.Currency
	}
	s.Rows = append(s.Rows, []any{total, b.Quote.Total.Low, b.Quote.Total.Likely, b.Quote.Total.High, "1 case in 20 below, the middle, 1 in 20 above, as far as the rates are right"})
	return s
}

func (b *sheets) exclusions() workbook.Sheet {
	s := workbook.Sheet{Name: "Not in the quote", Columns: []workbook.Column{{Heading: "what"}, {Heading: "why"}}}
	for _, x := range b.Exclusions {
		s.Rows = append(s.Rows, []any{x.What, x.Why})
	}
	for _, x := range b.Quote.Unpriced {
		s.Rows = append(s.Rows, []any{x, "counted, and without a price"})
	}
	return s
}

// isLength tells what is bought by its length.
func isLength(p opening.Part) bool { return p == opening.CablePart || p == opening.RacewayPart }
