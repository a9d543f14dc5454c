package packet

import (
	"swingwright/decision"
	"swingwright/internal/paper"
	"swingwright/report"
)

func noLetter(s *sheet) string {
	switch {
	case !s.powered():
		return "the opening stays hand-pushed"
	case s.Decision.Answer < decision.Refer:
		return "nothing was found for which the work would have to be refused or referred"
	}
	return ""
}

// letter sets the letter to the customer.
func letter(s *sheet) {
	for _, part := range report.LetterParts(report.Style{Units: s.units}, s.Job, s.p, s.Decision) {
		switch {
		case part.Text == "":
			s.Space(3)
		case part.Kind == report.LetterItem:
			s.Item(part.Text)
		case part.Kind == report.LetterSays:
			s.Space(2)
			s.Say(part.Text)
		default:
			s.SayIn(paper.Body, part.Text)
		}
	}
	s.Space(6)
	s.Blanks(paper.Blank{Label: "name, date", Share: 1}, paper.Blank{Label: "signature", Share: 1})
}
