package draw

// bands shades the ranges, each with a thin edge so that it shows in print.
func (a Axes) bands(s *Scene) {
	for _, b := range a.Bands {
		if box, ok := a.extent(b); ok {
			shade := Rectangle(box.Min, box.Max, Style{Width: gridWidth, Stroke: Grey, Fill: Shade})
			shade.Title = b.Label
			s.Add(shade)
		}
	}
}

// extent is the part of a band that lies in the frame, if any does.
func (a Axes) extent(b Band) (box Box, ok bool) {
	low, high := a.within(b.On, min(b.From, b.To)), a.within(b.On, max(b.From, b.To))
	box.Min, _ = a.across(b.On, low)
	_, box.Max = a.across(b.On, high)
	return box, low < high
}

// within is the place of a value along its axis, kept inside the frame.
func (a Axes) within(on Side, v float64) float64 {
	low, high := a.Frame.Min.Y, a.Frame.Max.Y
	if on == OnX {
		low, high = a.Frame.Min.X, a.Frame.Max.X
	}
	return min(max(a.along(on, v), low), high)
}

// limits draws the lines at single values.
func (a Axes) limits(s *Scene) {
	for _, l := range a.Limits {
		if at, ok := a.inside(l); ok {
			from, to := a.across(l.On, at)
			s.Add(Path{Points: []Point{from, to}, Title: l.Label, Style: Style{Width: limitWidth, Dash: []float64{3, 1}}})
		}
	}
}

// inside is the place of a limit along its axis, if it lies in the frame.
func (a Axes) inside(l Limit) (at float64, ok bool) {
	at = a.along(l.On, l.At)
	return at, at == a.within(l.On, l.At)
}

// notes writes what bands and limits mean, above the lines of the series: in
// the top left corner of a band, at the right end of a level line, beside the
// top of an upright one.
func (a Axes) notes(s *Scene) {
	h := a.TextHeight
	for _, b := range a.Bands {
		if box, ok := a.extent(b); ok {
			s.Add(a.note(b.Label, Point{box.Min.X + h/2, box.Max.Y - h/2}, Start, Top))
		}
	}
	for _, l := range a.Limits {
		at, ok := a.inside(l)
		if !ok {
			continue
		}
		_, to := a.across(l.On, at)
		note := a.note(l.Label, Point{to.X - h/2, to.Y + h/2}, End, Baseline)
		switch {
		case l.On == OnX:
			note.At, note.Anchor, note.Level = Point{to.X + h/2, to.Y - h/2}, Start, Top
			if note.At.X+1.25*note.Width() > a.Frame.Max.X {
				note.At.X, note.Anchor = to.X-h/2, End
			}
		case note.At.Y+h > a.Frame.Max.Y:
			note.At.Y, note.Level = to.Y-h/2, Top
		}
		s.Add(note)
	}
}

func (a Axes) note(label string, at Point, anchor Anchor, level Level) Text {
	return Text{At: at, Body: label, Height: a.TextHeight, Anchor: anchor, Level: level, Halo: a.TextHeight / 5}
}
