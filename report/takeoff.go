package report

import (
	"encoding/json"
	"io"
	"math"
	"strconv"
	"strings"

	"swingwright/job"
	"swingwright/quantity"
	"swingwright/takeoff"
)

// Takeoff writes what a job takes and comes to. Where style asks for all, every line
// of every opening stands with its reason; else those of the job.
func Takeoff(t *Text, j *job.Job, k *takeoff.Takeoff) error {
	t.title("Take-off of "+j.Name, '=')
	if err := t.takeoffOpenings(k); err != nil {
		return err
	}
	rows := [][]string{}
	for i := range k.Parts {
		rows = append(rows, []string{t.bought(&k.Parts[i]), nameOfLine(&k.Parts[i]), orDash(priceOf(t, &k.Parts[i])), k.Parts[i].Why})
	}
	if err := t.Grid("Parts", []string{"how much", "what", "price each", "for"}, rows); err != nil {
		return err
	}
	if rows = t.spareRows(k); len(rows) > 0 {
		if err := t.Grid("Spares", []string{"how much", "what", "why"}, rows); err != nil {
			return err
		}
	}
	if t.style.All {
		if err := t.takeoffLines(k); err != nil {
			return err
		}
	}
	if rows = gapRows(k); len(rows) > 0 {
		if err := t.Grid("Not counted, as it is not known", []string{"opening", "what", "would be told by"}, rows); err != nil {
			return err
		}
	}
	if err := t.Grid("Visits", []string{"place", "order", "trade", "what for", "openings", "hours", "days"}, visitRows(k)); err != nil {
		return err
	}
	return t.quote(k)
}

func (t *Text) takeoffOpenings(k *takeoff.Takeoff) error {
	rows := [][]string{}
	for i := range k.Openings {
		rows = append(rows, openingRow(&k.Openings[i], ""))
	}
	for i := range k.Alternates {
		a := &k.Alternates[i]
		r := openingRow(&a.Opening, "in place of "+a.Of)
		if a.Left == "" {
			r[4] = between(a.More, 0) + " more than " + a.Of + " (it comes to " + between(a.Total, 0) + ")"
		}
		rows = append(rows, r)
	}
	return t.Grid("Openings", []string{"opening", "answer", "own hours", "parts", "comes to, without travel and permits"}, rows)
}

func openingRow(o *takeoff.Opening, also string) []string {
	name := strings.TrimSpace(o.ID + " " + also)
	if o.Left != "" {
		return []string{name, o.Answer.String(), "-", "-", "not in the quote: " + o.Left}
	}
	n := 0
	for i := range o.Lines {
		n += o.Lines[i].Count
	}
	return []string{name, o.Answer.String(), between(o.Hours, 1), strconv.Itoa(n), between(o.Total, 0)}
}

// between is a range with some decimals: one number where it is firm.
func between(r takeoff.Range, decimals int) string {
	f := func(x float64) string {
		if decimals < 0 {
			return strconv.FormatFloat(x, 'g', 4, 64)
		}
		return grouped(x, decimals)
	}
	if low, high := f(r.Low), f(r.High); low != high {
		return low + " to " + high + ", middle " + f(r.Likely)
	}
	return f(r.Likely)
}

// grouped is a number with its thousands apart by a narrow space that does not break.
func grouped(x float64, decimals int) string {
	text := strconv.FormatFloat(math.Abs(x), 'f', decimals, 64)
	whole, part, _ := strings.Cut(text, ".")
	var b strings.Builder
	if x < 0 && strings.Trim(text, "0.") != "" {
		b.WriteByte('-')
	}
	for i, c := range whole {
		if i > 0 && (len(whole)-i)%3 == 0 {
			b.WriteRune('\u202f')
		}
		b.WriteRune(c)
	}
	if part != "" {
		b.WriteString("." + part)
	}
	return b.String()
}

// bought is how much of a line is bought.
func (t *Text) bought(l *takeoff.Line) string {
	if l.Count > 0 {
		return strconv.Itoa(l.Count)
	}
	return Bought(l.Length, t.style.Units)
}

// Bought is a length as cable is bought: in whole feet or tenths of a metre, upward.
func Bought(l quantity.Length, s quantity.System) string {
	if s == quantity.SI {
		return strconv.FormatFloat(math.Ceil(float64(10*l/quantity.Metre)-1e-9)/10, 'f', 1, 64) + " m"
	}
	return strconv.Itoa(int(math.Ceil(float64(l/quantity.Foot)-1e-9))) + " ft"
}

func nameOfLine(l *takeoff.Line) string {
	if l.Sheet != "" {
		return l.What + ", " + l.Sheet
	}
	return l.What
}

func priceOf(t *Text, l *takeoff.Line) string {
	if l.Price == nil {
		return ""
	}
	if l.Count == 0 {
		if t.style.Units == quantity.US {
			return between(l.Price.Times(float64(quantity.Foot)), -1) + " a foot"
		}
		return between(*l.Price, -1) + " a metre"
	}
	return between(*l.Price, 2)
}

func (t *Text) spareRows(k *takeoff.Takeoff) (rows [][]string) {
	for i := range k.Spares {
		rows = append(rows, []string{t.bought(&k.Spares[i]), nameOfLine(&k.Spares[i]), k.Spares[i].Why})
	}
	return rows
}

// takeoffLines writes every line of every opening with its reason.
func (t *Text) takeoffLines(k *takeoff.Takeoff) error {
	all := append([]takeoff.Opening(nil), k.Openings...)
	for i := range k.Alternates {
		all = append(all, k.Alternates[i].Opening)
	}
	for i := range all {
		o := &all[i]
		if o.Left != "" {
			continue
		}
		rows := [][]string{}
		for n := range o.Lines {
			l := &o.Lines[n]
			rows = append(rows, []string{t.bought(l), nameOfLine(l), l.Why, orDash(l.From), string(l.Basis)})
		}
		for n := range o.Work {
			w := &o.Work[n]
			rows = append(rows, []string{between(w.Hours, -1) + " h", string(w.Task) + times(w), w.Why + w.Longer(), "", string(w.Basis)})
		}
		for n := range o.Subs {
			s := &o.Subs[n]
			rows = append(rows, []string{orDash(subHours(s)), string(s.Trade), s.Why, "", string(s.Basis)})
		}
		if err := t.Grid("Opening "+o.ID, []string{"how much", "what", "why", "from", "rests on"}, rows); err != nil {
			return err
		}
	}
	return nil
}

func times(w *takeoff.Work) string {
	if w.Times > 1 {
		return ", " + strconv.Itoa(w.Times) + " times"
	}
	return ""
}

func subHours(s *takeoff.Sub) string {
	if s.Hours == nil {
		return ""
	}
	return between(*s.Hours, -1) + " h"
}

func gapRows(k *takeoff.Takeoff) (rows [][]string) {
	for i := range k.Openings {
		for _, g := range k.Openings[i].Gaps {
			rows = append(rows, []string{g.Of, g.What, orDash(g.Field)})
		}
	}
	return rows
}

func visitRows(k *takeoff.Takeoff) (rows [][]string) {
	for i := range k.Visits {
		v := &k.Visits[i]
		hours := "-"
		if v.Hours != nil {
			hours = between(*v.Hours, 1)
		}
		place := strings.Trim(v.Building+", "+v.Phase, ", ")
		rows = append(rows, []string{orDash(place), strconv.Itoa(v.Order), string(v.Trade), v.Purpose + ": " + v.Why, strings.Join(v.Openings, ", "), hours, strconv.Itoa(v.Days)})
	}
	return rows
}

// quote writes what all comes to, and what it does not hold.
func (t *Text) quote(k *takeoff.Takeoff) error {
	q := &k.Quote
	rows := [][]string{}
	for _, s := range append(q.Sums, takeoff.Sum{What: "total", Range: q.Total, Why: "19 cases of 20 lie above the first number, 19 of 20 below the second, as far as the rates are right"}) {
		rows = append(rows, []string{s.What, between(s.Range, 0), s.Why})
	}
	title := "Quote"
	if q.Currency != "" {
		title += ", in " + q.Currency
	}
	if err := t.Grid(title, []string{"what", "comes to", "how"}, rows); err != nil {
		return err
	}
	if len(q.Unpriced) > 0 {
		if err := t.Say("Counted, and not in the sums for want of a price: " + strings.Join(q.Unpriced, "; ") + ". Give prices under rates."); err != nil {
			return err
		}
	}
	if words := k.ToSet(); words != "" {
		if err := t.Say(words); err != nil {
			return err
		}
	}
	rows = [][]string{}
	for _, x := range k.Exclusions {
		rows = append(rows, []string{x.What, x.Why})
	}
	if err := t.Grid("Not in the quote", []string{"what", "why"}, rows); err != nil {
		return err
	}
	rows = [][]string{}
	for _, r := range k.Rates {
		rows = append(rows, []string{r.What, rateText(&r), string(r.Basis)})
	}
	return t.Grid("Rates that were used", []string{"rate", "how much", "rests on"}, rows)
}

func rateText(r *takeoff.Rate) string {
	if r.Unit == "%" {
		return between(r.Range.Times(100), -1) + " %"
	}
	return between(r.Range, -1) + " " + r.Unit
}

// TakeoffJSON writes what a job takes for programs, lengths in metres.
func TakeoffJSON(w io.Writer, j *job.Job, k *takeoff.Takeoff) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	return e.Encode(struct {
		Format string `json:"format"`
		Job    string `json:"job"`
		*takeoff.Takeoff
	}{"swingwright takeoff 1", j.Name, k})
}
