package packet

import (
	"swingwright/fact"
	"swingwright/internal/paper"
)

func noSigns(s *sheet) string { return s.unpowered() }

// A sign is one that a powered opening carries.
type sign struct {
	words, look, sides string
	there              fact.ID
}

// signs are those due by operation and by what starts the leaf: ANSI/BHMA A156.19,
// section 6.
func (s *sheet) signs() (all []sign) {
	switch s.o.Use.Operation {
	case "power-assist":
		return []sign{{"that the door is power assisted, and how it is started", "white on blue", "both sides", fact.SignAssist}}
	case "full-power":
		return nil
	}
	all = append(all, sign{"AUTOMATIC CAUTION DOOR, the word CAUTION in the middle", "round, black on yellow", "both sides", fact.SignGeneral})
	if s.o.Use.Activation == "push-pull" {
		return append(all, sign{"PUSH TO OPERATE on the push side, PULL TO OPERATE on the pull side", "white on blue", "each on its side", fact.SignPushPull})
	}
	return append(all, sign{"ACTIVATE SWITCH TO OPERATE", "white on blue", "both sides", fact.SignSwitch})
}

// signs due, with sizes and heights.
func signsDue(s *sheet) {
	t := paper.NewTable("sign", "colours", "where", "found", "put up")
	t.Columns[3].Width, t.Columns[4].Width = 24, 16
	for _, one := range s.signs() {
		t.Cells(paper.Cell{Text: one.words, Bold: true}, paper.Cell{Text: one.look}, paper.Cell{Text: one.sides}, paper.Cell{Text: s.fact(one.there)}, paper.Cell{Tick: true})
	}
	for i := range s.o.Controls {
		c := &s.o.Controls[i]
		found := orElse(string(c.Symbol), unknown)
		t.Cells(paper.Cell{Text: "symbol of accessibility"}, paper.Cell{Text: "on the switch"}, paper.Cell{Text: orElse(c.What, "switch")}, paper.Cell{Text: found}, paper.Cell{Tick: true})
	}
	t.Cells(paper.Cell{Text: "owner's daily check, and date of the next inspection"}, paper.Cell{Text: "plain"}, paper.Cell{Text: "near the operator's switch, seen and out of reach of wear"}, paper.Cell{Text: "–"}, paper.Cell{Tick: true})
	s.Table(t)
}

func signsPaper(s *sheet) {
	if s.o.Use.Operation == "full-power" {
		s.Say("A full-power door carries signs by ANSI/BHMA A156.10, which tells one-way from two-way traffic: take them from that standard and the maker's paper.")
	}
	signsDue(s)
	s.Figure(s.signPicture())
	s.Heading("Sizes and heights")
	t := paper.NewTable("what", "limit", "found", "put up")
	t.Columns[2].Width, t.Columns[3].Width = 26, 24
	for _, row := range []struct {
		what  string
		id    fact.ID
		usual string
	}{
		{"diameter of the round sign", fact.SignDiameter, "at least 6 in (152 mm)"},
		{"height of the middle of the lowest sign", fact.SignLowest, "at least 38 in (965 mm)"},
		{"height of the middle of the highest sign", fact.SignHighest, "at most 62 in (1575 mm)"},
		{"height of the smallest letters", fact.SignLetters, "at least 5/8 in (16 mm)"},
		{"share of the leaf's face that signs cover", fact.SignShare, ""},
	} {
		limit := s.limits(row.id)
		if limit == "" && row.usual != "" {
			limit = row.usual + "; ANSI/BHMA A156.19, section 6, not among the job's rulebooks"
		}
		if limit == "" {
			continue
		}
		t.Cells(paper.Cell{Text: row.what}, paper.Cell{Text: limit}, paper.Cell{Text: s.fact(row.id)}, paper.Cell{Line: true})
	}
	s.Table(t)
	s.Note("Some articles ask for ACTIVATE SWITCH only on the side of the switch; both sides are safe. On a fire door signs are glued, never screwed (from memory).")
	s.Blanks(paper.Blank{Label: "put up by", Share: 2}, paper.Blank{Label: "date", Share: 1})
}
