package report

import (
	"fmt"

	"swingwright/judge"
	"swingwright/opening"
	"swingwright/plan"
	"swingwright/quantity"
)

var kindWords = map[opening.GroupKind]string{
	opening.Pair: "pair", opening.DoubleEgress: "double egress", opening.Vestibule: "vestibule",
}

// Group writes what holds of openings that work together. All groups come after
// the last plan and before End.
func (t *Text) Group(g *plan.Group) error {
	t.blank()
	t.title(g.Group.ID+" "+noBreak+t.said(fmt.Sprintf(" %s of %s and %s", kindWords[g.Group.Kind], g.Members[0].ID, g.Members[1].ID)), '-')
	tab := t.section(13, 16, 8, 10, 16)
	tab.add("", "what", "found", "limit", "source")
	for i := range g.Statements {
		s := &g.Statements[i]
		tab.rows = append(tab.rows, row{tint: tints[s.Verdict], cells: []string{t.stated(s), s.What, t.foundOf(s), t.limitOf(s), s.Source}})
		if s.Say != "" {
			tab.note(s.Say)
		}
	}
	t.put(tab)
	t.delays(g.Delays)
	t.groupGaps(g)
	t.aside("Of the group, taken for granted", g.Notes)
	return t.flush()
}

// stated is a statement's verdict, with what the reader must not overlook.
func (t *Text) stated(s *plan.Statement) string {
	text := hold(markOf(s.Verdict, !s.Published) + " " + s.Verdict.String())
	if !s.Published && s.Verdict != judge.DoesNotApply {
		text += " (advice)"
	}
	return text
}

func (t *Text) foundOf(s *plan.Statement) string {
	switch {
	case s.Verdict == judge.DoesNotApply || s.Verdict == judge.NotMeasured:
		return "-"
	case s.YesNo && s.Value > 0:
		return "as it should be"
	case s.YesNo:
		return "not so"
	}
	return t.spread(s.Dim, s.Value, s.U)
}

func (t *Text) limitOf(s *plan.Statement) string {
	if s.YesNo || s.Verdict == judge.DoesNotApply {
		return "-"
	}
	return s.Side.String() + " " + t.amount(s.Dim, s.Limit)
}

// delays writes when the second door of a vestibule has to start.
func (t *Text) delays(all []plan.Delay) {
	if len(all) == 0 {
		return
	}
	t.head("When the second door has to start, from the press")
	tab := t.section(12, 10, 10, 10, 10)
	tab.add("way", "person at", "earliest", "half-way rule", "latest without waiting")
	for i := range all {
		d := &all[i]
		tab.add(d.From+" to "+d.To, t.pace(d.Speed), seconds(d.Earliest.Value, d.Earliest.U), seconds(d.HalfWay.Value, d.HalfWay.U), seconds(d.Latest.Value, d.Latest.U))
	}
	t.put(tab)
}

// pace is a walking speed, which nobody gives in miles per hour.
func (t *Text) pace(v quantity.Speed) string {
	if t.style.Units == quantity.US {
		return hold(fmt.Sprintf("%.3g ft/s", float64(v/quantity.FootPerSecond)))
	}
	return hold(fmt.Sprintf("%.2f m/s", float64(v)))
}

func (t *Text) groupGaps(g *plan.Group) {
	if len(g.Gaps) > 0 {
		t.head("Still to find out of the group")
		tab := t.section(12, 24, 20)
		for _, gap := range g.Gaps {
			why := gap.Why
			if gap.Stops != "" {
				why += " Without it nothing is known of: " + gap.Stops + "."
			}
			tab.add(gap.Field, why, gap.How)
		}
		t.put(tab)
	}
	for _, d := range g.Doubts {
		t.paragraph("*", "Hard to believe: "+d.String())
	}
}

type groupJSON struct {
	ID         string          `json:"id"`
	Kind       string          `json:"kind"`
	Of         []string        `json:"of"`
	Standing   string          `json:"standing"`
	Statements []statementJSON `json:"statements"`
	Delays     []delayJSON     `json:"delays"`
	Gaps       []gapJSON       `json:"gaps"`
	Doubts     []doubtJSON     `json:"doubts"`
	Notes      []string        `json:"notes"`
}

type statementJSON struct {
	What      string `json:"what"`
	Verdict   string `json:"verdict"`
	Published bool   `json:"published"`
	Source    string `json:"source"`
	Unit      string `json:"unit"`
	Side      string `json:"side"`
	Value     number `json:"value"`
	Limit     number `json:"limit"`
	Margin    number `json:"margin"`
	U         number `json:"u"`
	Say       string `json:"say"`
}

type delayJSON struct {
	From      string `json:"from"`
	To        string `json:"to"`
	Speed     number `json:"speed"`
	Earliest  number `json:"earliest"`
	EarliestU number `json:"earliest_u"`
	HalfWay   number `json:"half_way"`
	HalfWayU  number `json:"half_way_u"`
	Latest    number `json:"latest"`
	LatestU   number `json:"latest_u"`
	Set       bool   `json:"set"`
	Wait      number `json:"wait"`
	First     number `json:"first_margin"`
	Second    number `json:"second_margin"`
	Room      number `json:"room"`
	Trapped   bool   `json:"trapped"`
}

// Group writes what holds of openings that work together. All groups come after
// the last plan and before End.
func (j *JSON) Group(g *plan.Group) error {
	j.closeOpenings()
	if j.groups > 0 {
		j.text(",")
	}
	j.groups++
	j.text("\n")
	j.value(groupOf(g))
	return j.flush()
}

// closeOpenings ends the list of openings and begins that of groups, once.
func (j *JSON) closeOpenings() {
	if !j.closed {
		j.text("\n],\n\"groups\":[")
		j.closed = true
	}
}

func groupOf(g *plan.Group) groupJSON {
	out := groupJSON{
		ID: g.Group.ID, Kind: string(g.Group.Kind), Of: []string{g.Members[0].ID, g.Members[1].ID}, Standing: standWords[g.Stand()].word,
		Statements: []statementJSON{}, Delays: []delayJSON{}, Gaps: gapsOf(g.Gaps), Doubts: doubtsOf(g.Doubts), Notes: texts(g.Notes),
	}
	for i := range g.Statements {
		out.Statements = append(out.Statements, statementOf(&g.Statements[i]))
	}
	for i := range g.Delays {
		d := &g.Delays[i]
		out.Delays = append(out.Delays, delayJSON{d.From, d.To, number(d.Speed), number(d.Earliest.Value), number(d.Earliest.U), number(d.HalfWay.Value),
			number(d.HalfWay.U), number(d.Latest.Value), number(d.Latest.U), d.Set, number(d.Wait), number(d.FirstMargin), number(d.SecondMargin), number(d.Room), d.Trapped})
	}
	return out
}

func statementOf(s *plan.Statement) statementJSON {
	unit := quantity.SIUnit(s.Dim)
	if s.YesNo {
		unit = "yes or no"
	}
	return statementJSON{s.What, s.Verdict.String(), s.Published, s.Source, unit, s.Side.String(),
		number(s.Value), number(s.Limit), number(s.Margin), number(s.U), s.Say}
}
