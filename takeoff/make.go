package takeoff

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"swingwright/decision"
	"swingwright/job"
	"swingwright/opening"
)

// Make counts and prices a job. Items are its openings, those that may stand in
// place of others among them, in the order in which they shall be shown. Openings
// that nobody decided on may be left out.
func Make(j *job.Job, items []Item) (*Takeoff, error) {
	m := &maker{job: j, rates: &rates{Rates: &j.Rates}, items: make(map[string]Item, len(items)), alike: map[kit]int{}}
	for _, it := range items {
		m.items[it.Opening.ID] = it
		if leave(&it) == "" && it.Opening.InPlaceOf == "" {
			m.alike[kitOf(it.Opening)]++
		}
	}
	t := &Takeoff{Openings: []Opening{}, Parts: []Line{}, Spares: []Line{}, Visits: []Visit{}}
	for _, it := range items {
		if it.Opening.InPlaceOf == "" {
			t.Openings = append(t.Openings, m.count(it))
		} else {
			t.Alternates = append(t.Alternates, Alternate{Opening: m.count(it), Of: it.Opening.InPlaceOf})
		}
	}
	t.Parts = together(t.Openings)
	t.Spares = m.spares(t)
	t.Visits = visits(t.Openings, m.items)
	err := m.price(t)
	t.Exclusions = m.exclusions(t)
	t.Rates = m.rates.used
	return t, err
}

// maker makes one take-off.
type maker struct {
	job   *job.Job
	rates *rates
	items map[string]Item
	alike map[kit]int
}

// kit tells openings that take the same parts and the same work.
type kit struct {
	operator, closer, arm string
	release               opening.LockRelease
	fire                  opening.YesNo
	controls              int
}

func kitOf(o *opening.Opening) kit {
	return kit{o.Operator.Sheet, o.Closer.Sheet, o.Closer.Arm, o.Lock.Release, o.Use.FireRated, len(o.Controls)}
}

// leave tells why an opening is not in the quote; empty where it is.
func leave(it *Item) string {
	o := it.Opening
	why := ""
	if it.Reason != "" {
		why = ", since this does not hold: " + it.Reason
	}
	switch {
	case o.Use.Operation == "":
		return "nothing says that it shall be powered (use.operation)"
	case !o.Use.Powered():
		return "it stays pushed by hand"
	case it.Answer == decision.Refuse:
		return "it is refused" + why
	case it.Answer == decision.Refer:
		return "others have to answer for it first" + why
	case it.Answer == decision.Change:
		return "it has to be changed before it is powered" + why
	case it.Answer == decision.Go && o.Operator.Fitted == "yes" && !it.Asked:
		return "its operator is fitted, and suited as it is"
	}
	return ""
}

// count counts what one opening takes.
func (m *maker) count(it Item) Opening {
	o := it.Opening
	out := Opening{ID: o.ID, Name: o.Name, Answer: it.Answer, Left: leave(&it)}
	if out.Left != "" {
		return out
	}
	c := &counter{o: o, sheets: &m.job.Sheets, rates: m.rates, out: &out, longer: multipliers(o, m.alike[kitOf(o)])}
	for _, call := range it.Calls {
		c.calls = append(c.calls, call.Whom)
	}
	if was, ok := m.items[o.InPlaceOf]; ok {
		c.was = was.Opening
	}
	c.wiring, c.shared = m.wiring(o)
	if o.Operator.Fitted == "yes" {
		if it.Answer == decision.Repair {
			c.task(opening.TuneCloser, 1, "it has to be repaired or set before it is used")
		}
	} else {
		c.parts()
		c.fit()
		c.others()
	}
	c.finish()
	return out
}

// wiring is that of the opening, or of a group that it is in: counted under the
// group's first opening, whose id the others get.
func (m *maker) wiring(o *opening.Opening) (own *opening.Wiring, shared string) {
	if !o.Wiring.None() {
		return &o.Wiring, ""
	}
	switch g := opening.Sharing(m.job.Groups, o.ID); {
	case g == nil:
		return nil, ""
	case g.Of[0] == o.ID:
		return &g.Wiring, ""
	default:
		return nil, g.Of[0]
	}
}

// together adds up the alike lines of all openings, in the order of the parts.
func together(openings []Opening) []Line {
	type alike struct{ part, what, sheet string }
	at := map[alike]int{}
	lines := []Line{}
	for i := range openings {
		for _, l := range openings[i].Lines {
			key := alike{string(l.Part), l.What, l.Sheet}
			k, ok := at[key]
			if !ok {
				k = len(lines)
				at[key] = k
				lines = append(lines, Line{Part: l.Part, What: l.What, Sheet: l.Sheet, Basis: l.Basis, Price: l.Price})
			}
			lines[k].Count += l.Count
			lines[k].Length += l.Length
			if lines[k].Basis != l.Basis {
				lines[k].Basis = CommonPractice
			}
			lines[k].From = strings.TrimPrefix(lines[k].From+", "+l.Of, ", ")
		}
	}
	order := map[string]int{}
	for i, p := range opening.Part("").Choices() {
		order[p] = i
	}
	for i := range lines {
		lines[i].From, lines[i].Why = "", "for "+counts(lines[i].From)
	}
	slices.SortStableFunc(lines, func(a, b Line) int {
		return cmp.Or(cmp.Compare(order[string(a.Part)], order[string(b.Part)]), cmp.Compare(a.Sheet, b.Sheet), cmp.Compare(a.What, b.What))
	})
	return lines
}

// counts names openings, each once, with how often it comes where more than once.
func counts(ids string) string {
	var names []string
	for id := range strings.SplitSeq(ids, ", ") {
		if !slices.Contains(names, id) {
			names = append(names, id)
		}
	}
	const most = 8
	if len(names) > most {
		return fmt.Sprintf("%d openings: %s and %d more", len(names), strings.Join(names[:most], ", "), len(names)-most)
	}
	return strings.Join(names, ", ")
}

// spares are bought besides, where there are many openings.
func (m *maker) spares(t *Takeoff) []Line {
	share := m.rates.rate("spares", &m.rates.Spares, spares, "%")
	fresh := 0
	for i := range t.Openings {
		if len(t.Openings[i].Lines) > 0 {
			fresh++
		}
	}
	lines := []Line{}
	if fresh < sparesFrom {
		return lines
	}
	for _, l := range t.Parts {
		if counted(l.Part) && l.Part != opening.OperatorPart {
			l.Count = int(math.Ceil(float64(l.Count)*share.Likely - 1e-9))
			l.Why = fmt.Sprintf("%.3g %% of them besides, rounded up, as there are %d openings", 100*share.Likely, fresh)
			l.Basis = CommonPractice
			lines = append(lines, l)
		}
	}
	return lines
}

// price works out what all that comes to.
func (m *maker) price(t *Takeoff) error {
	r := m.rates
	l := &ledger{index: map[string]int{}}
	l.labour = l.variable("labour", r.rate("labour, each hour", &r.Labour, labour, r.money()))
	l.markup = l.variable("markup", r.rate("mark-up on material", &r.Markup, markup, "%"))
	l.subs = l.variable("subs markup", r.rate("mark-up on other firms", &r.SubsMarkup, subsMarkup, "%"))
	l.contingency = l.variable("contingency", r.rate("contingency", &r.Contingency, contingency, "%"))
	whole, days := new(account), 0
	for i := range t.Visits {
		if t.Visits[i].Trade == opening.OwnTrade {
			days += t.Visits[i].Days
		}
	}
	if days > 0 {
		each, basis := r.hours(opening.Mobilise)
		w := Work{Task: opening.Mobilise, Times: days, Hours: each.Times(float64(days)), Why: "once for every own day on site", Basis: basis}
		l.work(whole, &w, each)
		t.JobWork = append(t.JobWork, w)
	}
	for i := range t.Spares {
		l.line(whole, &t.Spares[i])
	}
	if permit, ok := given(&r.Permit); ok && days > 0 {
		whole.extras = append(whole.extras, term{l.variable("permit", permit), 1})
		r.used = append(r.used, Rate{"permits", permit, r.money(), FromJob})
	}
	if travel, ok := given(&r.Travel); ok && days > 0 {
		whole.extras = append(whole.extras, term{l.variable("travel", travel), float64(days)})
		r.used = append(r.used, Rate{"travel, each own day", travel, r.money(), FromJob})
	}
	accounts, index := make([]*account, len(t.Openings)), map[string]int{}
	for i := range t.Openings {
		accounts[i] = l.count(&t.Openings[i], r)
		index[t.Openings[i].ID] = i
	}
	others, places := make([]*account, len(t.Alternates)), make([]*account, len(t.Alternates))
	for i := range t.Alternates {
		others[i], places[i] = l.count(&t.Alternates[i].Opening, r), new(account)
		if k, ok := index[t.Alternates[i].Of]; ok {
			places[i] = accounts[k]
		}
	}
	p, err := l.reckon(whole, accounts, others, places)
	if err != nil {
		return err
	}
	for i := range t.Openings {
		t.Openings[i].Hours, t.Openings[i].Total = p.opening(i, openingHours), p.opening(i, openingTotal)
	}
	for i := range t.Alternates {
		a, k := &t.Alternates[i], len(t.Openings)+i
		a.Hours, a.Total, a.More = p.opening(k, openingHours), p.opening(k, openingTotal), p.opening(k, openingMore)
	}
	t.Hours = p.job(outHours)
	t.Quote = Quote{Currency: r.Currency, Sums: quoteRows(p, days), Total: p.job(outTotal), Unpriced: m.unpriced(t)}
	m.usedHours(t)
	return nil
}

// usedHours notes the hours of the tasks that occur.
func (m *maker) usedHours(t *Takeoff) {
	for _, name := range (opening.Task("")).Choices() {
		task := opening.Task(name)
		uses := func(all []Work) bool { return slices.ContainsFunc(all, func(w Work) bool { return w.Task == task }) }
		if uses(t.JobWork) || slices.ContainsFunc(t.Openings, func(o Opening) bool { return uses(o.Work) }) ||
			slices.ContainsFunc(t.Alternates, func(a Alternate) bool { return uses(a.Work) }) {
			each, basis := m.rates.hours(task)
			m.rates.used = append(m.rates.used, Rate{name, each, "h", basis})
		}
	}
}

// unpriced names what is counted and has no price.
func (m *maker) unpriced(t *Takeoff) (all []string) {
	for i := range t.Parts {
		if l := &t.Parts[i]; l.Price == nil {
			name := l.What
			if l.Sheet != "" {
				name += " (" + l.Sheet + ")"
			}
			all = append(all, name)
		}
	}
	for _, trade := range opening.Trade("").Choices() {
		if m.rates.sub(opening.Trade(trade)) == nil && slices.ContainsFunc(t.Openings, func(o Opening) bool {
			return slices.ContainsFunc(o.Subs, func(s Sub) bool { return string(s.Trade) == trade })
		}) {
			all = append(all, trade)
		}
	}
	if _, ok := given(&m.rates.Permit); !ok {
		all = append(all, "permits")
	}
	if _, ok := given(&m.rates.Travel); !ok {
		all = append(all, "travel")
	}
	return all
}
