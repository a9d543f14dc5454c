package paper

import "swingwright/internal/draw"

// inner is the margin that pictures keep inside their own edge, mm: a picture is
// hung out by so much, that its text lines up with that of the page.
const inner = 8.

// Figure puts a picture at its true size where the page has room for it, on the
// next page where that has, and else as large as a page takes it.
func (d *Document) Figure(s *draw.Scene) { d.figure(s, 1) }

// FigureFit puts a picture likewise, but makes it smaller, down to the given share
// of its size, where that keeps it on the page.
func (d *Document) FigureFit(s *draw.Scene, least float64) { d.figure(s, least) }

// FigureOver puts a picture that is higher than a page on as many pages as it takes, as
// large as their width takes it, with some of it on both of two neighbours. One that
// fits, at nine tenths of that size or more, is put like any other.
func (d *Document) FigureOver(s *draw.Scene) {
	const both, small = 12., 0.9
	k := min(1, d.Width()/max(1, s.Width-2*inner))
	if k*s.Height*small <= d.bottom()-d.top {
		d.figure(s, small)
		return
	}
	for top := s.Height; ; {
		d.settle()
		d.turn()
		room := (d.Left() + inner/2) / k
		part := draw.Box{Min: draw.Point{Y: max(0, top-room)}, Max: draw.Point{X: s.Width, Y: top}}
		d.below[len(d.pages)-1] = Below{s, part, draw.Point{X: side - inner*k, Y: d.y - inner/2}, k}
		d.y = min(d.bottom(), d.y+k*(top-part.Min.Y))
		if part.Min.Y == 0 {
			return
		}
		top = part.Min.Y + both/k
	}
}

func (d *Document) figure(s *draw.Scene, least float64) {
	full := min(1, d.Width()/max(1, s.Width-2*inner))
	pending := 0.
	for i := range d.waiting {
		pending += d.waiting[i].height()
	}
	scale := full
	if room := d.Left() - pending + inner/2; s.Height*scale > room {
		switch {
		case room/s.Height >= least*full:
			scale = room / s.Height
		case s.Height*scale > d.bottom()-d.top-pending:
			scale = (d.bottom() - d.top - pending) / s.Height
		}
	}
	height := s.Height * scale
	d.need(max(0, height-inner/2))
	x := side - inner*scale
	y := d.y - inner/2*scale
	to := func(p draw.Point) draw.Point {
		return draw.Point{X: x + scale*p.X, Y: d.size.Height - y - height + scale*p.Y}
	}
	for _, item := range s.Items {
		d.page().Add(placed(item, scale, to))
	}
	d.y = min(d.bottom(), y+height+1)
}

// placed is an item moved and made larger or smaller.
func placed(item draw.Item, k float64, to func(draw.Point) draw.Point) draw.Item {
	style := func(s draw.Style) draw.Style {
		s.Width *= k
		if k != 1 && s.Dash != nil {
			dash := make([]float64, len(s.Dash))
			for i := range dash {
				dash[i] = k * s.Dash[i]
			}
			s.Dash = dash
		}
		return s
	}
	switch i := item.(type) {
	case draw.Path:
		points := make([]draw.Point, len(i.Points))
		for n, p := range i.Points {
			points[n] = to(p)
		}
		i.Points, i.Style = points, style(i.Style)
		return i
	case draw.Circle:
		i.Center, i.Radius, i.Style = to(i.Center), k*i.Radius, style(i.Style)
		return i
	case draw.Arc:
		i.Center, i.Radius, i.Style = to(i.Center), k*i.Radius, style(i.Style)
		return i
	case draw.Text:
		i.At, i.Height, i.Halo = to(i.At), k*i.Height, k*i.Halo
		return i
	}
	return item
}
