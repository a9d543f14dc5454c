package paper

import (
	"math"

	"swingwright/internal/draw"
)

// inner is the margin that pictures keep inside their own edge, mm: a picture is
// hung out by so much, that its text lines up with that of the page.
const inner = 8.

// Smallest is the least height of capitals on any paper, mm. ISO 3098-1 has 1.8 mm as
// the smallest nominal height of lettering, and 2.5 mm as the next (from memory); what is
// read on a ladder is kept above the smaller one by a tenth.
const Smallest = 2.

// Figure puts a picture at its true size where the page has room for it, on the
// next page where that has, and else as large as a page takes it.
func (d *Document) Figure(s *draw.Scene) {
	d.settle()
	full := min(1, d.across(s))
	if d.room(tall(s, full)); tall(s, full) > d.Left() {
		full = fitting(s, d.Left())
	}
	d.picture(s, full)
}

// Figures puts pictures one below the other on as few pages as their smallest words
// allow, those of one page made smaller alike, as large as the page then takes them.
func (d *Document) Figures(all ...*draw.Scene) {
	d.settle()
	for len(all) > 0 {
		n := d.fit(all)
		if n == 0 && d.y > d.top {
			d.turn()
			continue
		}
		if n == 0 { // higher than a page
			d.FigureOver(all[0])
			all = all[1:]
			continue
		}
		k := d.common(all[:n])
		for _, s := range all[:n] {
			d.picture(s, d.scale(s, k))
		}
		all = all[n:]
	}
}

// fit is how many of some pictures have room on this page, each as small as it may be.
func (d *Document) fit(all []*draw.Scene) (n int) {
	for left := d.Left(); n < len(all); n++ {
		if left -= tall(all[n], d.scale(all[n], 0)); left < -1e-9 {
			break
		}
	}
	return n
}

// common is the largest scale at which this page has room for some pictures.
func (d *Document) common(all []*draw.Scene) float64 {
	return largest(func(k float64) bool {
		sum := 0.
		for _, s := range all {
			sum += tall(s, d.scale(s, k))
		}
		return sum <= d.Left()
	})
}

// largest is the largest scale up to 1 at which something holds that holds at none
// larger than one at which it does not.
func largest(holds func(k float64) bool) float64 {
	if holds(1) {
		return 1
	}
	low, high := 0., 1.
	for range 30 { // halves the doubt each time
		if mid := (low + high) / 2; holds(mid) {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}

// Float puts a picture, smaller where that keeps it on the page, or at the top of the
// next one, so that what is written after it fills this page.
func (d *Document) Float(s *draw.Scene) {
	d.settle()
	if len(d.floats) == 0 && d.placed(s) {
		return
	}
	d.floats = append(d.floats, s)
}

// placed puts a picture if the page has room for it, as large as that takes it.
func (d *Document) placed(s *draw.Scene) bool {
	k := min(d.scale(s, 1), fitting(s, d.Left()))
	if k < d.scale(s, 0)-1e-9 {
		return false
	}
	d.picture(s, k)
	return true
}

// settleFloats puts pictures that waited for a page that has just begun, as many as it
// has room for. One that is higher than a page goes on over the next ones.
func (d *Document) settleFloats() {
	const text = 45. // mm; where less is left a next page is begun, too
	for len(d.floats) > 0 {
		s := d.floats[0]
		if !d.placed(s) {
			if d.y > d.top {
				return // another page
			}
			d.floats = d.floats[1:]
			rest := d.floats
			d.floats = nil
			d.parts(s)
			d.floats = rest
			continue
		}
		d.floats = d.floats[1:]
	}
	if d.y > d.top && d.Left() < text {
		d.y = d.bottom()
	}
}

// flush puts what waits.
func (d *Document) flush() {
	d.settle()
	for len(d.floats) > 0 {
		d.turn()
	}
}

// FigureOver puts a picture that is higher than a page on as many pages as it takes, as
// large as their width takes it, with a little of it on both of two neighbours. One that
// fits is put like any other.
func (d *Document) FigureOver(s *draw.Scene) {
	d.settle()
	k := d.scale(s, 0)
	if d.y > d.top && tall(s, k) > d.Left() {
		d.turn()
	}
	if tall(s, k) <= d.Left() {
		d.picture(s, min(d.scale(s, 1), fitting(s, d.Left())))
		return
	}
	d.parts(s)
}

// parts puts a picture on this page, which is fresh, and on the next ones: as few as at
// the least scale, as large as these take it.
func (d *Document) parts(s *draw.Scene) {
	room := d.Left()
	number := func(k float64) (n int) {
		for high, above := s.Height, inner/2; ; above = 0 {
			n++
			low, next := parted(s, high, room/k+above)
			if low == 0 {
				return n
			}
			high = next
		}
	}
	k := d.scale(s, 1)
	for least := d.scale(s, 0); k-0.01 > least && number(k) > number(least); k -= 0.01 {
	}
	above := inner / 2
	for high := s.Height; ; {
		low, next := parted(s, high, d.Left()/k+above)
		below := 0.
		if low == 0 {
			below = inner / 2
		}
		d.paint(s.Part(low, high), k, above, below)
		if low == 0 {
			d.y = min(d.bottom(), d.y+after)
			return
		}
		high, above = next, 0
		d.turn()
	}
}

// parted is where a picture is cut that goes on on the next page: the lower end of the
// part that begins at high and has so much room, and where the next part begins, mm from
// the lower edge. Neither crosses a text, and few shapes that are not large. Where every
// level crosses a text, that text is whole in the next part.
func parted(s *draw.Scene, high, room float64) (low, next float64) {
	const (
		step   = 0.25
		large  = 60. // mm; a shape so high has to be cut somewhere
		spare  = 0.4 // of the room at most is left empty for a better cut
		common = 6.  // mm; least that both parts show
		most   = 24. // mm; most of it
	)
	if high-inner/2 <= room {
		return 0, 0
	}
	levels, best := s.Levels(), math.Inf(1)
	for at := high - room; at < high-(1-spare)*room; at += step {
		texts, shapes := levels.Crossed(at, large)
		if cost := 1000*float64(texts) + 40*float64(shapes) + (at - high + room); cost < best {
			best, low = cost, at
		}
	}
	for next = low + common; next < low+most; next += step {
		if texts, _ := levels.Crossed(next, 0); texts == 0 {
			break
		}
	}
	return low, max(next, levels.Over(low))
}

// across is the scale at which a picture is as wide as the text.
func (d *Document) across(s *draw.Scene) float64 { return d.Width() / max(1, s.Width-2*inner) }

// scale is how large a picture is put that should not be larger than most: no smaller
// than its smallest words allow, and no wider than the page.
func (d *Document) scale(s *draw.Scene, most float64) float64 {
	return min(max(most, Smallest/s.Smallest()), 1, d.across(s))
}

// Highest is the height of a picture that this page has room for at true size, mm.
func (d *Document) Highest() float64 { return d.Left() + inner - after }

// tall is the height that a picture takes at a scale, mm, and fitting the scale at which
// it takes a height.
func tall(s *draw.Scene, k float64) float64         { return k*(s.Height-inner) + after }
func fitting(s *draw.Scene, height float64) float64 { return (height - after) / (s.Height - inner) }

// after is the room below a picture, mm.
const after = 3.

// picture puts a picture at the pen, at a scale.
func (d *Document) picture(s *draw.Scene, k float64) {
	d.paint(s, k, inner/2, inner/2)
	d.y = min(d.bottom(), d.y+after)
}

// paint puts the items of a picture at the pen and moves the pen to its end, without so
// much of its upper and its lower margin, mm of the picture.
func (d *Document) paint(s *draw.Scene, k, above, below float64) {
	x, y := side-inner*k, d.y-above*k
	to := func(p draw.Point) draw.Point {
		return draw.Point{X: x + k*p.X, Y: d.size.Height - y - k*s.Height + k*p.Y}
	}
	for _, item := range s.Items {
		d.page().Add(moved(item, k, to))
	}
	d.y = y + k*(s.Height-below)
}

// moved is an item moved and made larger or smaller.
func moved(item draw.Item, k float64, to func(draw.Point) draw.Point) draw.Item {
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
