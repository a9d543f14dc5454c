package packet

import (
	"swingwright/internal/draw"
	"swingwright/picture"
)

func noMarks(s *sheet) string {
	switch {
	case s.refused():
		return "the opening cannot be powered as it is; see the letter"
	case len(s.p.Room.Marks) == 0:
		return "the leaf's width is not known"
	}
	return ""
}

// marks are the strips at full size, on as many pages as that takes.
func marks(s *sheet) {
	for _, page := range picture.MarksOn(s.p, s.units, s.Highest()) {
		s.Figure(page)
	}
}

func noMotion(s *sheet) string {
	switch {
	case s.p.Problem != nil:
		return "the motion could not be reckoned: " + s.p.Problem.Error()
	case !s.p.Resolved.Sized:
		return "the leaf's width and height are not known"
	case !s.p.Resolved.Link.Closer && !s.p.Resolved.Free:
		return "the closer, its arm or its power is not known, so that nothing can be reckoned"
	}
	return ""
}

// motion shows closing and pushes as reckoned, and the window of settings.
func motion(s *sheet) {
	s.Say("Reckoned from the survey, with its spread; what was measured goes before what was reckoned.")
	pictures := []*draw.Scene{
		s.picture("closing", func() *draw.Scene { return picture.Closing(s.p, s.units) }),
		s.picture("hand", func() *draw.Scene { return picture.HandForce(s.p, s.units) }),
	}
	if s.Window != nil && len(s.Window.Missing) == 0 {
		pictures = append(pictures, s.picture("window", func() *draw.Scene { return picture.Window(s.p, s.Window, s.units) }))
	}
	s.Figures(pictures...)
}
