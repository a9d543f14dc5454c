package takeoff

import (
	"fmt"
	"math"
	"strings"

	"swingwright/internal/propagate"
	"swingwright/opening"
)

const (
	draws = 1000
	seed  = 1 // the same job comes to the same quote, to the cent
	// The share of cases that Low leaves below and High above.
	tail = 0.05
)

// A term is a number of times that a variable counts.
type term struct {
	variable int
	times    float64
}

// account is what one opening, or the job as a whole, comes to: sums of terms.
type account struct {
	hours, parts, subs, extras []term
}

// ledger holds the rates that are known with a range, each once however often it
// counts: a labour rate that comes out high does so at every opening.
type ledger struct {
	inputs                            []propagate.Input
	index                             map[string]int
	labour, markup, subs, contingency int
}

// spread makes a variable of a range: normal about its likely value, cut off at its
// ends, with the standard deviation of the triangle over them, whose variance is
// (a² + b² + c² − ab − ac − bc)/18 (Evans, Hastings, Peacock, Statistical
// Distributions, 3rd ed. 2000, ch. 40; from memory).
func spread(r Range) propagate.Input {
	a, b, c := r.Low, r.High, r.Likely
	u := math.Sqrt(max(a*a+b*b+c*c-a*b-a*c-b*c, 0) / 18)
	if r.Firm() {
		u = 0
	}
	return propagate.Input{Mean: r.Likely, U: u, Low: r.Low, High: r.High}
}

// variable is that of a key; the first range that is given for it counts.
func (l *ledger) variable(key string, r Range) int {
	if i, ok := l.index[key]; ok {
		return i
	}
	l.inputs = append(l.inputs, spread(r))
	l.index[key] = len(l.inputs) - 1
	return len(l.inputs) - 1
}

// work adds a task to an account: its hours each time are the variable.
func (l *ledger) work(a *account, w *Work, each Range) {
	factor := float64(w.Times)
	for _, m := range w.Multipliers {
		factor *= m.Factor
	}
	a.hours = append(a.hours, term{l.variable("hours "+string(w.Task), each), factor})
}

// line adds a part; one without a price adds nothing.
func (l *ledger) line(a *account, p *Line) {
	if p.Price == nil {
		return
	}
	amount := float64(p.Count)
	if p.Count == 0 {
		amount = float64(p.Length)
	}
	a.parts = append(a.parts, term{l.variable(fmt.Sprintf("price %s %q", p.Part, p.Sheet), *p.Price), amount})
}

func (l *ledger) sub(a *account, s *Sub) {
	if s.Price != nil {
		a.subs = append(a.subs, term{l.variable("sub "+string(s.Trade), *s.Price), 1})
	}
}

// count enters all that an opening takes.
func (l *ledger) count(o *Opening, r *rates) *account {
	a := new(account)
	for i := range o.Work {
		each, _ := r.hours(o.Work[i].Task)
		l.work(a, &o.Work[i], each)
	}
	for i := range o.Lines {
		l.line(a, &o.Lines[i])
	}
	for i := range o.Subs {
		l.sub(a, &o.Subs[i])
	}
	return a
}

// costs are what an account comes to in one case.
type costs struct{ hours, labour, parts, subs, extras, more float64 }

func (c costs) total() float64 { return c.labour + c.parts + c.subs + c.extras + c.more }

func (c costs) plus(d costs) costs {
	return costs{c.hours + d.hours, c.labour + d.labour, c.parts + d.parts, c.subs + d.subs, c.extras + d.extras, c.more + d.more}
}

func sum(terms []term, x []float64) (s float64) {
	for _, t := range terms {
		s += t.times * x[t.variable]
	}
	return s
}

// of reckons an account: hours by the rate, material and other firms with what is
// put on them, and what nobody foresees on all of it.
func (l *ledger) of(a *account, x []float64) costs {
	c := costs{hours: sum(a.hours, x), extras: sum(a.extras, x)}
	c.labour = c.hours * x[l.labour]
	c.parts = sum(a.parts, x) * (1 + x[l.markup])
	c.subs = sum(a.subs, x) * (1 + x[l.subs])
	c.more = (c.labour + c.parts + c.subs + c.extras) * x[l.contingency]
	return c
}

// The outputs of a whole job; those of the openings follow, three each.
const (
	outHours = iota
	outLabour
	outParts
	outSubs
	outExtras
	outMore
	outTotal
	outOpenings
)

// The outputs of an opening.
const (
	openingHours = iota
	openingTotal
	openingMore // above the opening in whose place it stands
	perOpening
)

// priced is what the draws came to.
type priced struct{ draws *propagate.Draws }

// reckon draws the rates and works out every account in every draw. whole is the
// account of the job, counted those of the openings that are in the quote, and
// others those of alternates, each with the account in whose place it stands.
func (l *ledger) reckon(whole *account, counted, others, places []*account) (*priced, error) {
	all := append(append([]*account(nil), counted...), others...)
	d, err := propagate.MonteCarlo(seed, draws, l.inputs, outOpenings+perOpening*len(all), func(x, out []float64) {
		job := l.of(whole, x)
		for i, a := range all {
			c := l.of(a, x)
			at := out[outOpenings+perOpening*i:]
			at[openingHours], at[openingTotal], at[openingMore] = c.hours, c.total(), 0
			if k := i - len(counted); k < 0 {
				job = job.plus(c)
			} else {
				at[openingMore] = c.total() - l.of(places[k], x).total()
			}
		}
		out[outHours], out[outLabour], out[outParts], out[outSubs], out[outExtras], out[outMore], out[outTotal] = job.hours, job.labour, job.parts, job.subs, job.extras, job.more, job.total()
	})
	if err != nil {
		return nil, fmt.Errorf("the quote cannot be reckoned: %w", err)
	}
	return &priced{d}, nil
}

// job is an output of the whole job.
func (p *priced) job(out int) Range {
	s := p.draws.Summary(out)
	return Range{s.Quantile(tail), s.Quantile(0.5), s.Quantile(1 - tail)}
}

// opening is an output of the opening at a place among those counted, then others.
func (p *priced) opening(i, out int) Range { return p.job(outOpenings + perOpening*i + out) }

// ToSet says which rates the job does not give, so that nobody takes what stands in their
// place for an offer; empty where it gives all that were used.
func (t *Takeoff) ToSet() string {
	var names []string
	for _, r := range t.Rates {
		if r.Basis != FromJob {
			names = append(names, r.What)
		}
	}
	if len(names) == 0 {
		return ""
	}
	return "These rates are still to be set, and what stands in their place is from memory of the trade, no offer: " + strings.Join(names, "; ") + ". Write yours under rates in the job file."
}

// quoteRows are the rows of the quote.
func quoteRows(p *priced, travels int) []Sum {
	return []Sum{
		{"own work", p.job(outLabour), "hours by the labour rate"},
		{"material", p.job(outParts), "parts that have a price, with the mark-up"},
		{"other firms", p.job(outSubs), "firms that have a price, with the mark-up"},
		{"permits and travel", p.job(outExtras), fmt.Sprintf("permits once, travel for %d own days", travels)},
		{"contingency", p.job(outMore), "its share of the sum above"},
	}
}

// counted tells a part that is counted, not sold by length.
func counted(p opening.Part) bool { return p != opening.CablePart && p != opening.RacewayPart }
