package picture

import (
	"fmt"
	"math"

	"swingwright/clearance"
	"swingwright/internal/draw"
	"swingwright/plan"
	"swingwright/quantity"
)

// beyond is how far beyond the latch edge's reach what stands around the swing is shown, m;
// the key names what lies farther away.
func (f format) beyond() float64 {
	if f.narrow() { // leaf and arm large enough to be told apart
		return 0.1
	}
	return 0.45
}

const (
	wallStrip = 0.06 // how much is shown of the wall beside the hinges, m
	hatchStep = 2.2  // between the lines of a hatching, mm
)

// around is the room of the plan where there is one to show.
func (a *above) around() *plan.Room {
	if r := a.p.Room; r != nil && r.Known {
		return r
	}
	return &plan.Room{}
}

func spotAt(p clearance.Point) spot { return spot{float64(p.X), float64(p.Y)} }

// view is the largest box that is shown, m.
func (a *above) view() (low, high spot) {
	beyond := a.page.format.beyond()
	reach := float64(a.around().Leaf.Radius()) + beyond
	return spot{-reach, -2 * beyond}, spot{reach + beyond, reach}
}

// inView tells that a spot may be shown.
func (a *above) inView(s spot) bool {
	low, high := a.view()
	return s.x >= low.x && s.x <= high.x && s.y >= low.y && s.y <= high.y
}

// outline is what a thing covers with the leaf closed, cut to the view; nil where none of it is in view.
func (a *above) outline(b clearance.Body) []spot {
	corners, round, ok := b.Outline(0)
	if !ok || len(corners) == 0 {
		return nil
	}
	box := [2]spot{{math.Inf(1), math.Inf(1)}, {math.Inf(-1), math.Inf(-1)}}
	low, high := a.view()
	for _, c := range corners {
		s, r := spotAt(c), float64(round)
		box[0] = spot{min(box[0].x, s.x-r), min(box[0].y, s.y-r)}
		box[1] = spot{max(box[1].x, s.x+r), max(box[1].y, s.y+r)}
	}
	if box[0].x >= high.x || box[0].y >= high.y || box[1].x <= low.x || box[1].y <= low.y {
		return nil
	}
	box[0] = spot{max(box[0].x, low.x), max(box[0].y, low.y)}
	box[1] = spot{min(box[1].x, high.x), min(box[1].y, high.y)}
	return []spot{box[0], {box[1].x, box[0].y}, box[1], {box[0].x, box[1].y}}
}

// things are the things that stand near the swing: those of the room that are
// neither its wall nor part of the frame.
func (a *above) things() (all []clearance.Body) {
	r := a.around()
	for _, b := range r.Fixed {
		if n := b.Name(); n != "hinge jamb" && n != "hinge stop" && !(r.Wall != nil && n == r.Fixed[0].Name()) {
			all = append(all, b)
		}
	}
	return all
}

// wallOutline is the wall beside the hinges; nil where there is none in view.
func (a *above) wallOutline() []spot {
	w := a.around().Wall
	if w == nil {
		return nil
	}
	low, high := a.view()
	at, face := -float64(w.Distance.Value), a.jambs()[0][0].y
	if at < low.x+wallStrip {
		return nil
	}
	return []spot{{at - wallStrip, face}, {at, face}, {at, high.y - a.page.format.beyond()/2}, {at - wallStrip, high.y - a.page.format.beyond()/2}}
}

// surroundings are corners of all that is around the swing and in view.
func (a *above) surroundings() (all []spot) {
	all = append(all, a.wallOutline()...)
	for _, b := range a.things() {
		all = append(all, a.outline(b)...)
	}
	r := a.around()
	for i := range r.Controls {
		if s := spotAt(r.Controls[i].At); a.inView(s) {
			all = append(all, s)
		}
	}
	if r.Cord != nil {
		frame, leaf := a.anchors()
		all = append(all, frame, leaf, leaf.turned(a.open()))
	}
	if a.drive != nil {
		for _, theta := range []quantity.Angle{0, a.open()} {
			if p, ok := a.drive.Posture(theta); ok {
				all = append(all, spotOf(p.Pinion), spotOf(p.Elbow), spotOf(p.Far))
			}
		}
	}
	for _, b := range r.Movers {
		for _, theta := range []quantity.Angle{0, a.open()} {
			corners, _, _ := b.Outline(theta)
			for _, c := range corners {
				all = append(all, spotAt(c))
			}
		}
	}
	return all
}

// standing draws wall and things.
func (a *above) standing() {
	if wall := a.wallOutline(); wall != nil {
		a.hatched(wall, "wall beside the hinges")
	}
	for i, b := range a.things() {
		outline := a.outline(b)
		if outline == nil {
			continue
		}
		style := draw.Style{Width: 0.4, Fill: draw.Shade}
		if !a.meets(b) {
			style.Dash = []float64{1.5, 0.8}
		}
		corners, round, _ := b.Outline(0)
		if len(corners) == 1 && round > 0 {
			a.page.Add(draw.Circle{Center: a.at(spotAt(corners[0])), Radius: a.scale * float64(round), Style: style, Title: b.Name()})
		} else {
			path := a.path(style, true, outline...)
			path.Title = b.Name()
			a.page.Add(path)
		}
		a.note(letterOf(i), middle(outline), a.scale*min(outline[2].x-outline[0].x, outline[2].y-outline[0].y) > 2*letter)
	}
}

// meets tells that a thing shares a height with the leaf.
func (a *above) meets(b clearance.Body) bool {
	return b.Heights().Meets(a.around().Movers[0].Heights())
}

// letterOf is the letter of a thing.
func letterOf(i int) string {
	if i >= 26 {
		return fmt.Sprintf("Z%d", i-25)
	}
	return string(rune('A' + i))
}

func middle(box []spot) spot {
	return spot{(box[0].x + box[2].x) / 2, (box[0].y + box[2].y) / 2}
}

// hatched is a wall in section.
func (a *above) hatched(box []spot, title string) {
	path := a.path(draw.Style{Width: 0.5, Fill: draw.White}, true, box...)
	path.Title = title
	a.page.Add(path)
	p, q := a.at(box[0]), a.at(box[2])
	left, right, low, high := min(p.X, q.X), max(p.X, q.X), min(p.Y, q.Y), max(p.Y, q.Y)
	for y := low; y+(right-left) <= high; y += hatchStep {
		a.page.Add(draw.Line(draw.Point{X: left, Y: y}, draw.Point{X: right, Y: y + right - left}, draw.Style{Width: 0.2}))
	}
}

// projections are what stands out of the leaf at an angle.
func (a *above) projections(theta quantity.Angle, style draw.Style) {
	r := a.around()
	for i := 1; i < len(r.Movers); i++ {
		corners, _, _ := r.Movers[i].Outline(theta)
		var spots []spot
		for _, c := range corners {
			spots = append(spots, spotAt(c))
		}
		path := a.path(style, true, spots...)
		path.Title = r.Movers[i].Name() + " at " + degrees(theta, 0)
		a.page.Add(path)
	}
}

// firstContact marks where the leaf, or what is on it, first touches something:
// a cross in a circle, with the angle, or with the one at which the leaf was seen
// to stop before it.
func (a *above) firstContact() {
	r := a.around()
	if len(r.Contacts) == 0 || r.Contacts[0].Fixed == "" || !a.inView(spotAt(r.Contacts[0].At)) {
		return
	}
	c := &r.Contacts[0]
	at := a.at(spotAt(c.At))
	const radius, arm = 2., 1.2
	a.page.Add(draw.Circle{Center: at, Radius: radius, Style: draw.Style{Width: 0.5, Fill: draw.White}, Title: "first contact"})
	a.page.Add(cross(at, arm, draw.Style{Width: 0.5})...)
	words := "touches at " + degrees(c.Angle, 1)
	if seen := a.p.Opening.Room.StopsAt; seen.Known && seen.Value < c.Angle {
		words = "stops at " + degrees(seen.Value, 1)
	}
	a.note(words, spotAt(c.At), false)
}

// switches are the controls in view, each under its number in the survey.
func (a *above) switches() {
	r := a.around()
	for i := range r.Controls {
		s := spotAt(r.Controls[i].At)
		if !a.inView(s) {
			continue
		}
		const r0 = 0.9
		at := a.at(s)
		a.page.Add(draw.Path{Closed: true, Points: []draw.Point{{X: at.X - r0, Y: at.Y}, {X: at.X, Y: at.Y - r0}, {X: at.X + r0, Y: at.Y}, {X: at.X, Y: at.Y + r0}}, Style: draw.Style{Width: 0.3, Fill: draw.Ink}})
		a.note(fmt.Sprint(r.Controls[i].Number), s, false)
	}
}

// anchors are where the cord is fixed with the leaf closed.
func (a *above) anchors() (frame, leaf spot) {
	d := &a.p.Opening.DoorLoop
	return spot{float64(d.Frame.Along.Value), float64(d.Frame.Off.Value)}, spot{float64(d.Leaf.Along.Value), float64(d.Leaf.Off.Value)}
}

// cord is the cord across the hinges with the leaf closed and as planned.
func (a *above) cord() {
	if a.around().Cord == nil {
		return
	}
	frame, leaf := a.anchors()
	for i, theta := range []quantity.Angle{0, a.open()} {
		dash := [][]float64{{0.6, 0.6}, {1.8, 0.8}}[i]
		a.page.Add(a.path(draw.Style{Width: 0.5, Dash: dash}, false, frame, leaf.turned(theta)))
	}
	a.page.Add(draw.Circle{Center: a.at(frame), Radius: 0.6, Style: draw.Style{Width: 0.3, Fill: draw.White}})
}

// ticks are the floor marks of the latch edge.
func (a *above) ticks() {
	r := a.around()
	edge := float64(r.Leaf.Radius())
	for _, m := range r.Marks {
		if m.Angle > a.open()+quantity.Degree/10 {
			continue
		}
		sin, cos := math.Sincos(float64(m.Angle))
		half := 1.1 / a.scale
		a.page.Add(a.path(draw.Style{Width: 0.35}, false, spot{(edge - half) * cos, (edge - half) * sin}, spot{(edge + half) * cos, (edge + half) * sin}))
	}
}
