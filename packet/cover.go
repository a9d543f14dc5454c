package packet

import (
	"slices"
	"strings"

	"swingwright/decision"
	"swingwright/fact"
	"swingwright/internal/paper"
	"swingwright/judge"
	"swingwright/plan"
	q "swingwright/quantity"
)

// cover is the first page: what the opening is, what to do with it, what to beware
// of, which papers follow, and which do not and why.
func (s *sheet) cover() {
	if s.o.Name != "" {
		s.Lead(s.o.Name)
	}
	s.Pair("What to do", upper(s.Decision.Answer.String()))
	for _, line := range s.reasons() {
		s.Pair("", line)
	}
	s.Pair("By the rules", s.standing())
	s.Pair("Leaf", s.leafWords())
	s.Pair("Use", s.useWords())
	if op := s.operator(); op != nil && s.powered() {
		s.Pair("Operator", op.Name+s.page(op.Page))
	}
	if s.o.Closer.Sheet != "" {
		s.Pair("Closer", s.closerWords())
	}
	s.Space(2)
	s.Note(s.standingWords())
	s.beware()
	s.Heading("Papers in this packet")
	if len(s.there) == 0 {
		s.Say("None of those that were asked for applies.")
	}
	for _, k := range s.there {
		s.Leader(k.key, k.title, k.about)
	}
	if len(s.gone) > 0 {
		s.Whole(s.absent)
	}
	s.Figures(s.fromAbove())
}

// absent tells which papers are not there, and why.
func (s *sheet) absent() {
	s.Heading("Not in it, and why")
	for i, a := range s.gone {
		titles := a.title
		for _, b := range s.gone[i+1:] {
			if b.why == a.why {
				titles += ", " + lower(b.title)
			}
		}
		if !slices.ContainsFunc(s.gone[:i], func(b absence) bool { return b.why == a.why }) {
			s.Note(titles + ": " + a.why + ".")
		}
	}
}

// beware are the cautions of this opening.
func (s *sheet) beware() {
	s.Heading("Beware")
	t := paper.NewTable("", "")
	t.Columns[0].Width = 30
	for _, c := range s.p.Cautions {
		if c.Matter != standingMatter {
			t.Cells(paper.Cell{Text: upper(c.Matter), Bold: true}, paper.Cell{Text: c.Text})
		}
	}
	s.Table(t)
}

// standingMatter is the caution on what all this is worth; it stands by itself.
const standingMatter = "standing"

func (s *sheet) standingWords() string {
	for _, c := range s.p.Cautions {
		if c.Matter == standingMatter {
			return c.Text
		}
	}
	return ""
}

// reasons are the tests of the ladder that speak against the opening, the gravest
// first, each with what would mend it; tests that one cure mends stand together.
func (s *sheet) reasons() (all []string) {
	const most = 4
	var waiting []string
	for answer := decision.Refuse; answer > decision.Go; answer-- {
		for i := range s.Decision.Rungs {
			r := &s.Decision.Rungs[i]
			switch {
			case r.Answer != answer:
			case r.Verdict == judge.NotMeasured:
				waiting = append(waiting, lower(r.Test))
			case r.Cure() == nil:
				all = append(all, "Not met: "+lower(r.Test)+".")
			default:
				all = append(all, s.mended(r))
			}
		}
	}
	all = slices.DeleteFunc(all, func(text string) bool { return text == "" })
	if len(all) > most {
		all = append(all[:most], "More stands in the findings of this opening.")
	}
	switch n := len(waiting); {
	case n > 0 && n <= most:
		all = append(all, "Not known yet: whether "+strings.Join(waiting, "; whether ")+".")
	case n > 0:
		all = append(all, q.Counted(n, "test waits", "tests wait")+" for what is not known; see the survey sheet.")
	}
	return all
}

// mended is a test with the cheapest cure that works, and with the other tests that it
// mends; empty where an earlier test says it already.
func (s *sheet) mended(r *decision.Rung) string {
	var tests []string
	for i := range s.Decision.Rungs {
		o := &s.Decision.Rungs[i]
		if c := o.Cure(); c == nil || c.What != r.Cure().What || o.Answer == decision.Go {
			continue
		}
		if len(tests) == 0 && o != r {
			return ""
		}
		tests = append(tests, lower(o.Test))
	}
	return upper(strings.Join(tests, ", and ")) + ": " + r.Cure().What + "."
}

// standing counts the verdicts.
func (s *sheet) standing() string {
	var n [judge.DoesNotApply + 1]int
	for i := range s.p.Findings {
		if f := &s.p.Findings[i]; !f.Rule.Advice {
			n[f.Verdict]++
		}
	}
	word := [...]string{plan.Good: "in order", plan.Undecided: "undecided", plan.Bad: "falls short"}[plan.Stand(s.p.Findings)]
	return say("%s: %d met, %d fall short, %d too close to call, %d not measured", word, n[judge.Meets], n[judge.FallsShort], n[judge.TooClose], n[judge.NotMeasured])
}

func (s *sheet) leafWords() string {
	text := s.fact(fact.LeafWidth) + " by " + s.fact(fact.LeafHeight) + ", " + s.fact(fact.LeafMass)
	if s.o.Frame.Hand != "" {
		text += ", hand " + string(s.o.Frame.Hand)
	}
	return text
}

// leafBrief is the leaf as a schedule has it, without spreads.
func (s *sheet) leafBrief() string {
	w, h, m := &s.p.Facts[fact.LeafWidth], &s.p.Facts[fact.LeafHeight], &s.p.Facts[fact.LeafMass]
	if !w.Known || !h.Known {
		return "size " + unknown
	}
	text := paper.Hold(q.ByTape(q.Length(w.Value), s.units)) + " × " + paper.Hold(q.ByTape(q.Length(h.Value), s.units))
	if m.Known {
		text += ", " + paper.Hold(q.FormatValue(q.Mass(m.Value), s.units, 0))
	}
	return text
}

func (s *sheet) useWords() string {
	text := orElse(string(s.o.Use.Place), "place not known") + ", " + orElse(string(s.o.Use.Operation), "operation not known")
	if a := s.o.Use.Activation; a != "" && a != "none" {
		text += ", started by " + startWords[a]
	}
	switch s.o.Use.FireRated {
	case "yes":
		text += ", fire rated"
	case "":
		text += ", nobody wrote down whether fire rated"
	}
	if s.o.Use.Egress == "yes" {
		text += ", on a way out"
	}
	return text
}

func (s *sheet) closerWords() string {
	text := s.o.Closer.Sheet
	if s.o.Closer.Arm != "" {
		text += " with " + s.o.Closer.Arm
	}
	if s.o.Closer.Size.Known {
		text += ", power " + given(s, s.o.Closer.Size) + " as found"
	}
	return text
}

// page is where a hardware sheet's values were copied from.
func (s *sheet) page(page string) string {
	if page == "" {
		return ""
	}
	return " (" + page + ")"
}
