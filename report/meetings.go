package report

import (
	"math"
	"slices"

	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/rulebook"
)

// meetings writes where the rulebooks of the job differ on this opening, side
// by side, with the stricter limit marked. Those in which none can be told to be
// the stricter are counted only, but for --all.
func (t *Text) meetings(p *plan.Plan) {
	hidden, begun := 0, false
	for i := range p.Meetings {
		m := &p.Meetings[i]
		if !t.style.All && !slices.ContainsFunc(m.Parties, func(one rulebook.Party) bool { return one.Strictest }) {
			hidden++
			continue
		}
		if !begun {
			t.head("Where the rules differ")
			begun = true
		}
		t.meeting(m)
	}
	if begun && hidden > 0 {
		t.w.WriteString("    " + t.said(quantity.Counted(hidden, "more matter on which none", "more matters on which none")+" is plainly the stricter: --all shows them") + "\n")
	}
}

func (t *Text) meeting(m *rulebook.Meeting) {
	for _, line := range wrap(t.said(m.Collision.Title), t.style.width()-4) {
		t.w.WriteString("    " + line + "\n")
	}
	tab := t.section(12, 24, 12)
	for j := range m.Parties {
		one := &m.Parties[j]
		tab.add(t.stricter(one), one.Book.Work+", "+one.Book.Edition+", "+place(&one.Rule.Source), t.asks(one))
	}
	tab.note(m.Collision.Differs + " " + m.Collision.Treatment)
	t.put(tab)
}

// stricter marks the party that asks most, and one whose rule may not apply.
func (t *Text) stricter(p *rulebook.Party) string {
	switch {
	case p.Strictest:
		return "-> stricter"
	case !p.Certain:
		return "may apply"
	}
	return ""
}

// asks is what a party demands.
func (t *Text) asks(p *rulebook.Party) string {
	if math.IsNaN(p.Limit) {
		return p.Rule.Title
	}
	return bound(p.Rule, p.Limit, quantity.Length(p.At), t.style.Units)
}

// meetingJSON is a place where rulebooks differ on an opening.
type meetingJSON struct {
	Collision  string      `json:"collision"`
	Title      string      `json:"title"`
	Differs    string      `json:"differs"`
	Treatment  string      `json:"treatment"`
	Comparable bool        `json:"comparable"`
	Parties    []partyJSON `json:"parties"`
}

// partyJSON is one of the rules that differ.
type partyJSON struct {
	Book      string `json:"book"`
	Rule      string `json:"rule"`
	Side      string `json:"side"`
	Limit     number `json:"limit"`
	Unit      string `json:"unit"`
	At        number `json:"at"`
	Certain   bool   `json:"certain"`
	Strictest bool   `json:"strictest"`
}

func meetingsOf(p *plan.Plan) []meetingJSON {
	all := []meetingJSON{}
	for i := range p.Meetings {
		m := &p.Meetings[i]
		c := m.Collision
		out := meetingJSON{c.ID, c.Title, c.Differs, c.Treatment, m.Comparable, []partyJSON{}}
		for _, one := range m.Parties {
			out.Parties = append(out.Parties, partyJSON{
				one.Book.ID, one.Rule.ID, one.Rule.Side.String(), number(one.Limit), quantity.SIUnit(one.Rule.Dim()),
				number(one.At), one.Certain, one.Strictest,
			})
		}
		all = append(all, out)
	}
	return all
}
