package packet

import (
	"io"
	"math"
	"slices"
	"strings"

	"swingwright/decision"
	"swingwright/internal/paper"
	"swingwright/job"
	"swingwright/judge"
	"swingwright/plan"
	q "swingwright/quantity"
	"swingwright/rulebook"
	"swingwright/takeoff"
)

// A Job is what the papers of a whole job are made from.
type Job struct {
	Job     *job.Job
	Books   []*rulebook.Book
	Entries []Entry
	Groups  []*plan.Group // openings that work together
	// Circuits are the branch circuits of the mains that wirings name, Unnamed the wirings
	// that have one and do not say which.
	Circuits []plan.SharedCircuit
	Unnamed  []string
	// Takeoff is what the job takes; nil where it could not be counted, for the reason Uncounted.
	Takeoff   *takeoff.Takeoff
	Uncounted string
}

// jobSheet is the packet of a job under way.
type jobSheet struct {
	*paper.Document
	*Job
	opt Options
}

// MakeJob lays out the packet of a job.
func MakeJob(j *Job, opt Options) *paper.Document {
	s := &jobSheet{Document: paper.New(opt.Size, paper.Running{Head: j.Job.Name, Foot: opt.foot("Job")}), Job: j, opt: opt}
	papers := []struct {
		key, title, about string
		there             bool
		write             func()
	}{
		{"schedule", "Schedule of openings", "Every opening with its leaf, hand and use.", true, s.schedule},
		{"suitability", "Suitability", "What to do with each, and why.", true, s.suitability},
		{"groups", "Openings that work together", "Pairs, double egress and vestibules, judged as one.", len(j.Groups) > 0, s.groups},
		{"circuits", "Branch circuits", "What all openings put on each circuit of the mains, for the electrician.", len(j.Circuits)+len(j.Unnamed) > 0, s.circuits},
		{"calls", "Whom to call", "The other trades and authorities, and for which openings.", true, s.calls},
		{"takeoff", "Take-off", "Parts in all, each with what it rests on.", j.Takeoff != nil, s.parts},
		{"quote", "Hours and quote", "What it comes to, and every rate that was used.", j.Takeoff != nil, s.quote},
		{"exclusions", "Not in the quote", "What is by others, and why it is said.", j.Takeoff != nil, s.exclusions},
		{"visits", "Visits", "Who comes when, to which openings.", j.Takeoff != nil, s.visits},
		{"packets", "The packets", "The file of each opening.", true, s.packets},
	}
	s.Paper("cover", j.Job.Name)
	s.Lead(strings.Join(present(j.Job.Customer, j.Job.Site), ", "))
	s.summary()
	s.Heading("Papers")
	for _, p := range papers {
		if p.there {
			s.Leader(p.key, p.title, p.about)
		}
	}
	if j.Takeoff == nil {
		s.Heading("Not in it, and why")
		s.Note("Take-off, quote, exclusions and visits: " + orElse(j.Uncounted, "nothing was counted") + ".")
	}
	s.Space(4)
	s.Framed("Standing", "These papers compute and record; they certify nothing. Codes adopted locally, the hardware makers' papers and the licensed people on site come first.")
	for _, p := range papers {
		if p.there {
			s.Fitted(p.key, p.title, p.write)
		}
	}
	tellLetters(s.Document)
	s.Finish()
	return s.Document
}

// WriteJob writes the packet of a job as a PDF file; it returns what [Write] does.
func WriteJob(w io.Writer, j *Job, opt Options) (lacking []rune, err error) {
	d := MakeJob(j, opt)
	return d.Lacking(), d.WritePDF(w, paper.File{
		Title: j.Job.Name, Subject: "Papers for the job", Keywords: opt.keywords(), Attached: opt.Attached,
	})
}

func (s *jobSheet) summary() {
	if s.Job.Job.Date != "" {
		s.Pair("Surveyed", s.Job.Job.Date)
	}
	s.Pair("Openings", say("%d", len(s.Entries)))
	var n [decision.Refuse + 1]int
	for i := range s.Entries {
		n[s.Entries[i].Answer]++
	}
	for answer, count := range n {
		if count > 0 {
			s.Pair("", say("%s: %d", decision.Answer(answer), count))
		}
	}
	for i, b := range s.Books {
		s.Pair(map[bool]string{true: "Judged by"}[i == 0], b.Work+", "+b.Edition)
	}
	if t := s.Takeoff; t != nil {
		s.Pair("Own hours", hours(t.Hours))
		if len(t.Quote.Sums) > 0 {
			s.Pair("Quote", money(t.Quote.Total, t.Quote.Currency))
		}
	}
}

func (s *jobSheet) schedule() {
	t := paper.NewTable("opening", "where", "leaf", "hand", "use", "fire", "way out")
	t.Columns[1].Grow = 1
	for i := range s.Entries {
		e := &s.Entries[i]
		use := orElse(string(e.Use.Operation), unknown)
		if a := e.Use.Activation; a != "" && a != "none" {
			use += ", " + string(a)
		}
		t.Cells(paper.Cell{Text: e.ID, Bold: true}, paper.Cell{Text: orElse(e.Name, "–")}, paper.Cell{Text: e.Leaf}, paper.Cell{Text: orElse(string(e.Hand), "?")}, paper.Cell{Text: orElse(string(e.Use.Place), unknown) + "; " + use}, paper.Cell{Text: orElse(string(e.Use.FireRated), "?")}, paper.Cell{Text: orElse(string(e.Use.Egress), "?")})
	}
	s.Table(t)
	s.Note("A question mark: nobody wrote it down.")
}

func (s *jobSheet) suitability() {
	s.Say("The worst first. An opening gets the answer of the gravest of its tests; each stands with its numbers in the opening's own packet.")
	order := make([]*Entry, len(s.Entries))
	for i := range s.Entries {
		order[i] = &s.Entries[i]
	}
	slices.SortStableFunc(order, func(a, b *Entry) int { return int(b.Answer) - int(a.Answer) })
	t := paper.NewTable("opening", "where", "what to do", "by the rules", "why")
	t.Columns[4].Grow = 1
	for _, e := range order {
		word := [...]string{plan.Good: "in order", plan.Undecided: "undecided", plan.Bad: "falls short"}[e.Stands]
		t.Cells(paper.Cell{Text: e.ID, Bold: true}, paper.Cell{Text: orElse(e.Name, "–")}, paper.Cell{Text: e.Answer.String(), Bold: true}, paper.Cell{Text: word}, paper.Cell{Text: orElse(strings.Join(e.Reasons, " "), "–")})
	}
	s.Table(t)
}

// groups are what holds of openings as one.
func (s *jobSheet) groups() {
	s.Say("What nobody published is advice here and fails nothing.")
	for _, g := range s.Groups {
		s.Heading(say("%s: %s of %s", upper(g.Group.ID), g.Group.Kind, strings.Join(g.Group.Of, " and ")))
		t := paper.NewTable("what", "is", "limit", "", "what follows, and by what")
		t.Columns[0].Width, t.Columns[3].Width = 0.24*s.Width(), 24
		for i := range g.Statements {
			one := &g.Statements[i]
			is, limit := "–", "–"
			switch {
			case one.YesNo && !math.IsNaN(one.Value):
				is = map[bool]string{true: "yes", false: "no"}[one.Value >= 0.5]
			case !one.YesNo && !math.IsNaN(one.Value):
				is, limit = s.amount(one.Dim, one.Value, one.U), one.Side.String()+" "+s.amount(one.Dim, one.Limit, 0)
			}
			t.Cells(paper.Cell{Text: one.What}, paper.Cell{Text: is}, paper.Cell{Text: limit}, paper.Cell{Text: verdict(one.Verdict, !one.Published), Bold: one.Verdict == judge.FallsShort}, paper.Cell{Text: strings.TrimSpace(one.Say + " (" + one.Source + ")")})
		}
		s.Table(t)
		for _, gap := range g.Gaps {
			s.Tick(gap.Field + ": " + gap.Why + " " + gap.How)
		}
		for _, note := range g.Notes {
			s.Note(note)
		}
	}
}

// circuits are the branch circuits of the mains, over all openings.
func (s *jobSheet) circuits() {
	for _, c := range plan.CircuitCautions {
		s.Framed(upper(c.Matter), c.Text)
	}
	for i := range s.Circuits {
		c := &s.Circuits[i]
		s.Heading(say("Circuit %s, %s, %s", c.Circuit, s.amount(q.DimVoltage, float64(c.Volts), 0), s.amount(q.DimCurrent, float64(c.Rated), 0)))
		s.Pair("Wired to it", strings.Join(c.Of, ", "))
		if c.Others > 0 {
			s.Pair("Besides", say("operators of other openings: %.0f, taken to draw as much as these do", c.Others))
		}
		t := paper.NewTable("what", "is", "limit", "", "by what")
		t.Columns[0].Width, t.Columns[3].Width = 0.3*s.Width(), 24
		for k := range c.Statements {
			one := &c.Statements[k]
			by := one.Source
			if one.Verdict != judge.Meets {
				by += "; " + one.Say
			}
			t.Cells(paper.Cell{Text: one.What}, paper.Cell{Text: s.amount(one.Dim, one.Value, one.U)}, paper.Cell{Text: one.Side.String() + " " + s.amount(one.Dim, one.Limit, 0)}, paper.Cell{Text: verdict(one.Verdict, !one.Published), Bold: one.Verdict == judge.FallsShort}, paper.Cell{Text: by})
		}
		s.Table(t)
		for _, note := range c.Notes {
			s.Tick(upper(note) + ".")
		}
	}
	if len(s.Unnamed) > 0 {
		s.Heading("Not added up")
		s.Tick("These have a branch circuit and do not say which (circuit, as the panel numbers it): " + strings.Join(s.Unnamed, ", ") + ".")
	}
	s.Blanks(paper.Blank{Label: "breakers and loads found at the panel by, electrician, date", Share: 1})
}

func (s *jobSheet) amount(d q.Dimension, si, u float64) string {
	return paper.Hold(q.Display(d, si, u, true, s.opt.Units))
}

// calls are whom to call, each with the openings that need them.
func (s *jobSheet) calls() {
	type call struct {
		whom, why string
		of        []string
	}
	var all []*call
	for i := range s.Entries {
		for _, c := range s.Entries[i].Calls {
			at := slices.IndexFunc(all, func(o *call) bool { return o.whom == c.Whom && o.why == c.Why })
			if at < 0 {
				at, all = len(all), append(all, &call{c.Whom, c.Why, nil})
			}
			all[at].of = append(all[at].of, s.Entries[i].ID)
		}
	}
	if len(all) == 0 {
		s.Say("Nobody besides the technician.")
		return
	}
	slices.SortStableFunc(all, func(a, b *call) int { return strings.Compare(a.whom, b.whom) })
	t := paper.NewTable("whom", "why", "openings")
	for _, c := range all {
		t.Cells(paper.Cell{Text: c.whom, Bold: true}, paper.Cell{Text: c.why}, paper.Cell{Text: strings.Join(c.of, ", ")})
	}
	s.Table(t)
}

func (s *jobSheet) parts() {
	s.Say("Of all openings, alike parts added up. A part without a price is counted and not priced.")
	table := func(lines []takeoff.Line) {
		t := paper.NewTable("what", "how many", "price of one", "rests on", "got")
		t.Columns[0].Grow, t.Columns[4].Width = 1, 8
		for i := range lines {
			l := &lines[i]
			price := "not priced"
			if l.Price != nil {
				price = money(*l.Price, s.Takeoff.Quote.Currency)
			}
			t.Cells(paper.Cell{Text: lineWords(l), Bold: true}, paper.Cell{Text: lineCount(l, s.opt.Units)}, paper.Cell{Text: price}, paper.Cell{Text: string(l.Basis)}, paper.Cell{Tick: true})
		}
		s.Table(t)
	}
	if len(s.Takeoff.Parts) == 0 {
		s.Say("Nothing has to be bought, as far as is known.")
	}
	table(s.Takeoff.Parts)
	if len(s.Takeoff.Spares) > 0 {
		s.Heading("Spares")
		table(s.Takeoff.Spares)
	}
	var gaps []takeoff.Gap
	for i := range s.Takeoff.Openings {
		gaps = append(gaps, s.Takeoff.Openings[i].Gaps...)
	}
	if len(gaps) > 0 {
		s.Heading("What could not be counted")
		t := paper.NewTable("opening", "what", "what would tell it")
		for _, g := range gaps {
			t.Row(g.Of, g.What, orElse(g.Field, "–"))
		}
		s.Table(t)
	}
}

func (s *jobSheet) quote() {
	t := s.Takeoff
	s.Say("Low and high leave one case in twenty beyond them on either side; likely is the middle. They hold for the ranges of the rates below and for nothing else. Strike out a rate that is not yours, write yours beside it, and put it into the job file.")
	if words := t.ToSet(); words != "" {
		s.Framed("To be set", words)
	}
	s.Heading("Openings")
	tab := paper.NewTable("opening", "where", "own hours", "comes to")
	tab.Columns[1].Grow = 1
	for i := range t.Openings {
		o := &t.Openings[i]
		if o.Left != "" {
			tab.Cells(paper.Cell{Text: o.ID, Bold: true}, paper.Cell{Text: o.Name}, paper.Cell{Text: "not in the quote"}, paper.Cell{Text: o.Left})
			continue
		}
		tab.Cells(paper.Cell{Text: o.ID, Bold: true}, paper.Cell{Text: orElse(o.Name, "–")}, paper.Cell{Text: hours(o.Hours)}, paper.Cell{Text: money(o.Total, t.Quote.Currency)})
	}
	s.Table(tab)
	if len(t.Alternates) > 0 {
		s.Heading("Alternates")
		s.Say("Each would stand in place of an opening above. None is in the sums; the difference is added to them, or taken off where it is below zero.")
		tab := paper.NewTable("alternate", "where", "in place of", "comes to", "difference")
		tab.Columns[1].Grow = 1
		for i := range t.Alternates {
			a := &t.Alternates[i]
			total, more := money(a.Total, t.Quote.Currency), money(a.More, t.Quote.Currency)
			if a.Left != "" {
				total, more = "not in the quote: "+a.Left, "–"
			}
			tab.Cells(paper.Cell{Text: a.ID, Bold: true}, paper.Cell{Text: orElse(a.Name, "–")}, paper.Cell{Text: a.Of}, paper.Cell{Text: total}, paper.Cell{Text: more, Bold: true})
		}
		s.Table(tab)
	}
	s.Heading("Sums")
	tab = paper.NewTable("what", "low", "likely", "high", "why")
	for _, sum := range t.Quote.Sums {
		tab.Row(sum.What, number(sum.Low), number(sum.Likely), number(sum.High), sum.Why)
	}
	total := t.Quote.Total
	tab.Cells(paper.Cell{Text: "in all " + t.Quote.Currency, Bold: true}, paper.Cell{Text: number(total.Low), Bold: true}, paper.Cell{Text: number(total.Likely), Bold: true}, paper.Cell{Text: number(total.High), Bold: true}, paper.Cell{})
	s.Table(tab)
	if len(t.Quote.Unpriced) > 0 {
		s.Say("Counted and not in the sums: " + strings.Join(t.Quote.Unpriced, "; ") + ".")
	}
	s.Heading("Rates")
	tab = paper.NewTable("rate", "low", "likely", "high", "unit", "rests on", "yours")
	tab.Columns[0].Grow, tab.Columns[6].Width = 1, 24
	for _, r := range t.Rates {
		if r.Unit == "%" {
			r.Range = r.Times(100)
		}
		tab.Cells(paper.Cell{Text: r.What}, paper.Cell{Text: number(r.Low)}, paper.Cell{Text: number(r.Likely)}, paper.Cell{Text: number(r.High)}, paper.Cell{Text: orElse(r.Unit, "–")}, paper.Cell{Text: string(r.Basis)}, paper.Cell{Line: true})
	}
	s.Table(tab)
	s.Blanks(paper.Blank{Label: "offered by", Share: 2}, paper.Blank{Label: "good until", Share: 1}, paper.Blank{Label: "accepted by, date, signature", Share: 3})
}

func (s *jobSheet) exclusions() {
	s.Say("What is said here is not in the quote. Somebody has to do it all the same: name them before the order.")
	t := paper.NewTable("what", "why", "done by")
	t.Columns[2].Width = 40
	for _, e := range s.Takeoff.Exclusions {
		t.Cells(paper.Cell{Text: e.What, Bold: true}, paper.Cell{Text: e.Why}, paper.Cell{Line: true})
	}
	s.Table(t)
}

func (s *jobSheet) visits() {
	t := paper.NewTable("", "trade", "for", "openings", "days", "date")
	t.Columns[0].Width, t.Columns[4].Width, t.Columns[5].Width = 6, 10, 24
	place := ""
	for i := range s.Takeoff.Visits {
		v := &s.Takeoff.Visits[i]
		if p := strings.Join(present(v.Building, v.Phase), ", "); p != place {
			t.Part(p)
			place = p
		}
		t.Cells(paper.Cell{Text: say("%d", v.Order)}, paper.Cell{Text: string(v.Trade), Bold: true}, paper.Cell{Text: v.Purpose}, paper.Cell{Text: strings.Join(v.Openings, ", ")}, paper.Cell{Text: say("%d", v.Days)}, paper.Cell{Line: true})
	}
	if t.Len() == 0 {
		s.Say("None, as far as is known.")
	}
	s.Table(t)
}

func (s *jobSheet) packets() {
	t := paper.NewTable("opening", "where", "file", "papers", "still to find out", "handed out to")
	t.Columns[1].Grow, t.Columns[3].Width, t.Columns[4].Width, t.Columns[5].Width = 1, 14, 18, 40
	for i := range s.Entries {
		e := &s.Entries[i]
		t.Cells(paper.Cell{Text: e.ID, Bold: true}, paper.Cell{Text: orElse(e.Name, "–")}, paper.Cell{Text: e.File}, paper.Cell{Text: say("%d", e.Papers)}, paper.Cell{Text: say("%d", e.Missing)}, paper.Cell{Line: true})
	}
	s.Table(t)
}

// hours is a range of hours.
func hours(r takeoff.Range) string { return ranged(r, "%.1f") + "\u00a0h" }

// money is a range of money.
func money(r takeoff.Range, currency string) string {
	return strings.TrimSpace(ranged(r, "%.0f") + "\u00a0" + currency)
}

func ranged(r takeoff.Range, format string) string {
	if r.Firm() {
		return say(format, r.Likely)
	}
	return say(format, r.Likely) + say("\u00a0("+format+" to "+format+")", r.Low, r.High)
}

// number is a number to three digits or to the whole.
func number(x float64) string {
	if x >= 100 || x == float64(int(x)) {
		return say("%.0f", x)
	}
	return say("%.3g", x)
}
