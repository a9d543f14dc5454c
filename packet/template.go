package packet

import (
	"slices"
	"strings"

	"swingwright/internal/paper"
	"swingwright/picture"
	q "swingwright/quantity"
)

func noTemplate(s *sheet) string {
	h := s.Holes
	switch {
	case s.refused():
		return "the opening cannot be powered as it is; see the letter"
	case h == nil:
		return "nobody looked for holes"
	case h.Planned() == 0 && len(h.Problems) == 0:
		return "no hardware sheet of what is still to be fitted has holes; copy them from the maker's template"
	}
	return ""
}

// template says what to settle before drilling and what is tightened how, and puts in
// the templates at full size.
func template(s *sheet) {
	h := s.Holes
	s.notYet()
	for _, c := range h.Cautions {
		if c.Stop {
			s.Framed("Stop: no hole before this is settled", c.Say+" ("+c.Source+")")
		}
	}
	if len(h.Problems) > 0 {
		s.Heading("The pattern cannot be: no template before it is mended")
		for _, p := range h.Problems {
			s.Item(upper(p.Error()))
		}
	}
	if len(h.Missing) > 0 {
		s.Heading("To be surveyed before drilling")
		for _, g := range h.Missing {
			s.Tick(asked(g.Field) + " " + g.Why)
		}
	}
	if len(h.Unplaced) > 0 {
		s.Heading("Holes that could not be placed")
		for i := range h.Unplaced {
			s.Item(h.Unplaced[i].Name() + ": " + h.Unplaced[i].Why)
		}
	}
	s.holeTable()
	s.Heading("Keep in mind")
	for _, c := range h.Cautions {
		if !c.Stop && c.Topic != standingMatter {
			s.Item(c.Say + " (" + c.Source + ")")
		}
	}
	pages := s.templates()
	if len(pages) == 0 {
		if len(h.Problems) == 0 {
			s.Say("No template is drawn: the hand of the leaf is not known, and a template that may be mirrored is worse than none.")
		}
		return
	}
	s.Say(say("The templates follow on %s at full size. Print at 100 %%, measure the bars with a steel rule before the first hole, and hold the paper to the edges that it names.", q.Counted(len(pages), "page", "pages")))
	for _, p := range pages {
		s.Sheet(p.Scene, p.Title, paper.Below{Scene: p.Below, Part: p.Part, At: p.At})
	}
}

// templates are the pages of the templates, on the packet's own paper.
func (s *sheet) templates() (all []picture.Printed) {
	at := slices.IndexFunc(picture.Papers, func(p picture.Paper) bool { return p.Name == s.opt.Size.Name })
	if at < 0 {
		return nil
	}
	about := picture.Sheet{Job: s.Job.Name, Date: s.Job.Date}
	for _, t := range picture.Templates(s.p, s.Holes, about, s.units) {
		all = append(all, t.Print(picture.Papers[at])...)
	}
	return all
}

// holeTable are the holes that are to be drilled, each once, with what holds in them.
func (s *sheet) holeTable() {
	t := paper.NewTable("hole", "for", "face", "drill", "fastener", "torque", "done")
	t.Columns[1].Grow, t.Columns[6].Width = 1, 9
	for i := range s.Holes.Sides {
		side := &s.Holes.Sides[i]
		for k := range side.Holes {
			h := &side.Holes[k]
			if !h.Planned || h.Transferred {
				continue
			}
			fastener := strings.Join(present(h.Spec.Thread, string(h.Spec.Fastener)), " ")
			torque := "–"
			if h.Spec.Torque.Known {
				torque = exact(s, h.Spec.Torque.Value)
			}
			t.Cells(paper.Cell{Text: h.Mark, Bold: true}, paper.Cell{Text: h.Of}, paper.Cell{Text: side.Face.String()},
				paper.Cell{Text: h.Size(func(x q.Length) string { return paper.Hold(q.FormatValue(x, s.units, -1)) })}, paper.Cell{Text: orElse(fastener, "–")}, paper.Cell{Text: torque}, paper.Cell{Tick: true})
		}
	}
	if t.Len() > 0 {
		s.Heading("Holes and fixings")
		s.Table(t)
	}
}

// torques are the torques of the sheets' fasteners, each with its holes; empty where no
// sheet gives one.
func (s *sheet) torques() string {
	if s.Holes == nil {
		return ""
	}
	var order []string
	of := map[string][]string{}
	for i := range s.Holes.Sides {
		for k := range s.Holes.Sides[i].Holes {
			h := &s.Holes.Sides[i].Holes[k]
			if h.Transferred || !h.Spec.Torque.Known {
				continue
			}
			torque := exact(s, h.Spec.Torque.Value)
			if of[torque] == nil {
				order = append(order, torque)
			}
			of[torque] = append(of[torque], h.Mark)
		}
	}
	for i, torque := range order {
		order[i] = torque + " for " + strings.Join(of[torque], ", ")
	}
	return strings.Join(order, "; ")
}
