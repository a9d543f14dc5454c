package packet

import (
	"strconv"

	"swingwright/internal/paper"
	"swingwright/opening"
)

func noOwner(s *sheet) string { return s.unpowered() }

// owner is what the owner has to know, and the daily check. That the owner looks at
// the door every day and after every loss of power is the trade's label, read
// second-hand; the list is common practice, in part from memory.
func owner(s *sheet) {
	s.Say(say("This leaf is opened by a motor when somebody works %s, stands open for a while, and closes by itself. It moves slowly, but it moves: keep hands from the hinge edge and from the arm, and children from playing with it.", startWords[s.o.Use.Activation]))
	s.Heading("What it does")
	t := paper.NewTable("when", "the door")
	t.Columns[0].Width = 52
	for _, row := range s.behaviour() {
		t.Cells(paper.Cell{Text: row[0], Bold: true}, paper.Cell{Text: row[1]})
	}
	s.Table(t)
	s.Heading("Where things are")
	t = paper.NewTable("what", "where")
	t.Columns[0].Width = 52
	for i := range s.o.Controls {
		c := &s.o.Controls[i]
		t.Row(upper(orElse(c.What, "switch")), s.controlPlace(c))
	}
	for _, what := range []string{"Switch on the operator: on, off, hold open", "Breaker: panel and number", "Keys, and who has them", "Battery of the switches changed in"} {
		t.Cells(paper.Cell{Text: what}, paper.Cell{Line: true})
	}
	s.Table(t)
	s.Blanks(paper.Blank{Label: "call, when something is wrong: name and telephone", Share: 2}, paper.Blank{Label: "next inspection", Share: 1})
	s.Heading("Every day, and after every loss of power")
	s.Say("Two minutes, by the owner. If anything is not so: switch it off, use it as a door by hand, put up a note, and call.")
	for _, text := range s.daily() {
		s.Tick(text)
	}
	s.Whole(s.mayDo)
	s.Whole(s.month)
}

// mayDo is what the owner may do, and that it was shown.
func (s *sheet) mayDo() {
	s.Heading("What you may do, and what not")
	for _, text := range []string{
		"You may switch it off and use it by hand, change batteries of switches, and clean it with a damp cloth; no solvent on signs and labels.",
		"Leave screws, valves, settings and wires alone; a closer's spring is loaded.",
		"Nothing stands in the path of the leaf or in front of a switch: no chair, no bin, no wedge.",
		"No hook, no wedge and no hold-open on a fire door.",
		"Have it inspected once a year by somebody qualified; sooner where it is used much, leads outdoors, or serves frail people.",
	} {
		s.Item(text)
	}
	s.Heading("Shown and understood")
	s.Blanks(paper.Blank{Label: "shown by", Share: 2}, paper.Blank{Label: "to, for the owner", Share: 2}, paper.Blank{Label: "date", Share: 1})
	s.Blanks(paper.Blank{Label: "signature", Share: 1}, paper.Blank{Label: "signature", Share: 1})
}

// behaviour is what the door does on every event that the owner meets.
func (s *sheet) behaviour() (all [][2]string) {
	add := func(when, what string) { all = append(all, [2]string{when, what}) }
	hold := ""
	if s.o.Operator.Dwell.Known {
		hold = " for about " + exact(s, s.o.Operator.Dwell.Value)
	}
	add("somebody works "+startWords[s.o.Use.Activation], "opens, stands open"+hold+", closes and latches")
	if s.o.Use.Activation != "push-pull" {
		add("somebody works it again while it stands open", "stands open for the whole time again")
	}
	add("somebody pushes or holds it", "stops or turns back; it can always be moved by hand")
	add("the power is off", "opens by hand, closes by itself, latches")
	add("the power comes back", "stays closed until somebody works a switch")
	if s.o.Lock.StaysLocked == "yes" {
		add("it is locked", "outside switches do nothing; from inside it always opens by hand")
	}
	switch s.o.Use.FireRated {
	case "yes":
		add("the fire alarm sounds", "the motor lets go, presses do nothing, the leaf closes and latches; it opens by hand")
	case "":
		add("the fire alarm sounds", "as agreed with the fire-alarm contractor: ________________")
	}
	return all
}

// daily is the daily check of this opening.
func (s *sheet) daily() []string {
	all := []string{}
	if s.o.Use.Activation != "push-pull" {
		all = append(all, "Work every switch: each opens the leaf.")
	} else {
		all = append(all, "Push or pull the leaf a little: it opens by itself from there.")
	}
	hold := "It stands open for 5 s at least."
	if s.o.Use.Activation == opening.Activation("push-pull") {
		hold = "It stands open long enough to pass."
	}
	return append(all,
		"It opens slowly and smoothly, and stops without a bang.", hold,
		"It closes slowly, all the way, and latches.",
		"Nothing is in its path; the floor is clean; no loose parts.",
		"Signs are there and can be read.",
		"No heat, no smell, no new noise.",
		"With the operator switched off it opens by hand and closes by itself.")
}

// month is a log of the daily check for one month.
func (s *sheet) month() {
	s.Heading("Log of the daily check")
	s.Blanks(paper.Blank{Label: "month and year", Share: 1}, paper.Blank{Label: "opening " + s.o.ID, Share: 1})
	t := paper.NewTable("day", "in order, initials", "day", "in order, initials", "day", "in order, initials")
	for i := range t.Columns {
		if i%2 == 0 {
			t.Columns[i].Width = 8
		} else {
			t.Columns[i].Grow = 1
		}
	}
	const rows = 11
	for row := range rows {
		var cells []paper.Cell
		for column := range 3 {
			day := row + 1 + column*rows
			if day > 31 {
				cells = append(cells, paper.Cell{}, paper.Cell{})
				continue
			}
			cells = append(cells, paper.Cell{Text: strconv.Itoa(day), Bold: true}, paper.Cell{Tick: true, Line: true})
		}
		t.Cells(cells...)
	}
	s.Table(t)
	s.Say("Not in order, and what was done:")
	s.Lines(1)
}
