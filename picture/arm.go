package picture

import (
	"math"

	"swingwright/internal/draw"
	"swingwright/linkage"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/swing"
)

// linkage draws closer body and arm at the shown angles, closed on top.
func (a *above) linkage() {
	postures := a.postures()
	if len(postures) == 0 {
		return
	}
	a.body()
	if a.p.Resolved.Link.Track {
		a.rail()
	}
	for i := len(postures) - 1; i >= 0; i-- {
		main, fore := draw.Style{Width: 0.7, Dash: a.shown[i].dash}, draw.Style{Width: 0.4, Dash: a.shown[i].dash}
		if i == 0 {
			main.Width, fore.Width = 1.3, 0.7
		}
		a.bars(postures[i], main, fore)
	}
}

// bars draws the arm in one posture with its joints.
func (a *above) bars(p linkage.Posture, main, fore draw.Style) {
	pinion, elbow, far := spotOf(p.Pinion), spotOf(p.Elbow), spotOf(p.Far)
	a.page.Add(a.path(main, false, pinion, elbow))
	if !a.p.Resolved.Link.Track {
		a.page.Add(a.path(fore, false, elbow, far), square(a.at(far)))
	}
	a.page.Add(
		draw.Circle{Center: a.at(elbow), Radius: 0.9, Style: draw.Style{Width: 0.4, Fill: draw.White}},
		draw.Circle{Center: a.at(pinion), Radius: 1.1, Style: draw.Style{Width: 0.3, Fill: draw.Ink}},
	)
}

// square is the sign of the shoe.
func square(c draw.Point) draw.Path {
	const r = 1.1
	return draw.Rectangle(draw.Point{X: c.X - r, Y: c.Y - r}, draw.Point{X: c.X + r, Y: c.Y + r}, draw.Style{Width: 0.3, Fill: draw.Ink})
}

// bodyOutline is the closer's body on the closed leaf, or on the frame.
func (a *above) bodyOutline() []spot {
	x, y := a.v[swing.PinionX], a.v[swing.PinionY]
	const l, d = bodyLong / 2, bodyDeep / 2
	return []spot{{x - l, y - d}, {x + l, y - d}, {x + l, y + d}, {x - l, y + d}}
}

// body hints at the closer's body.
func (a *above) body() {
	path := a.path(draw.Style{Width: 0.3, Fill: draw.Shade}, true, a.bodyOutline()...)
	path.Title = "closer body"
	a.page.Add(path)
}

// railOutline is the track as far as the roller runs in it, and a little more; a
// track on the leaf is given for the closed leaf.
func (a *above) railOutline() []spot {
	u := spot{1, 0}.turned(quantity.Angle(a.v[swing.TrackLine]))
	shoe := spot{a.v[swing.ShoeX], a.v[swing.ShoeY]}
	least, most := math.Inf(1), math.Inf(-1)
	for theta := quantity.Angle(0); theta <= a.open(); theta += quantity.Degree {
		p, ok := a.arm.Posture(theta)
		if !ok {
			break
		}
		far := spotOf(p.Far)
		if !a.p.Resolved.Link.OnLeaf {
			far = far.turned(-theta)
		}
		along := (far.x-shoe.x)*u.x + (far.y-shoe.y)*u.y
		least, most = min(least, along), max(most, along)
	}
	const spare, half = 0.03, 0.008
	at := func(along, off float64) spot {
		return spot{shoe.x + along*u.x - off*u.y, shoe.y + along*u.y + off*u.x}
	}
	return []spot{at(least-spare, half), at(most+spare, half), at(most+spare, -half), at(least-spare, -half)}
}

// rail draws the track as a double line.
func (a *above) rail() {
	r := a.railOutline()
	a.page.Add(a.path(draw.Style{Width: 0.3}, false, r[0], r[1]), a.path(draw.Style{Width: 0.3}, false, r[3], r[2]))
}

// driveArm is the operator's own arm; nil where it has none, or it does not fit.
func driveArm(p *plan.Plan) *linkage.Arm {
	if d := p.Resolved.Drive; !d.Fitted || !d.Own {
		return nil
	}
	m, err := p.Model()
	if err != nil || !m.DriveArm().Ready() {
		return nil
	}
	return m.DriveArm()
}

// driven draws the operator's own arm, closed and as far as it is planned to open.
func (a *above) driven() {
	if a.drive == nil {
		return
	}
	for i, theta := range []quantity.Angle{a.open(), 0} {
		p, ok := a.drive.Posture(theta)
		if !ok {
			continue
		}
		pinion, elbow, far := spotOf(p.Pinion), spotOf(p.Elbow), spotOf(p.Far)
		style := draw.Style{Width: 0.5 + 0.4*float64(i), Dash: []float64{3, 0.7, 0.7, 0.7}}
		bars := a.path(style, false, pinion, elbow, far)
		bars.Title = "arm of the operator at " + degrees(theta, 0)
		a.page.Add(bars)
		a.page.Add(draw.Circle{Center: a.at(pinion), Radius: 1.1, Style: draw.Style{Width: 0.3, Fill: draw.Ink}})
		a.page.Add(draw.Circle{Center: a.at(elbow), Radius: 0.9, Style: draw.Style{Width: 0.4, Fill: draw.White}})
		if theta == 0 {
			a.note("operator", pinion, false)
		}
	}
}
