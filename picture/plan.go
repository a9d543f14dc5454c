package picture

import (
	"math"

	"swingwright/internal/draw"
	"swingwright/linkage"
	"swingwright/opening"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/swing"
)

// Plan shows leaf and arm from above, closed and at 30, 60 and 90 degrees, to
// scale, the way round that the opening has them; jambs, stop and closer body are
// only hinted at.
func Plan(p *plan.Plan, sys quantity.System) *draw.Scene {
	const name, title = "plan", "Leaf and arm from above"
	v := p.Values()
	if !(v[swing.LeafWidth] > 0) || !(v[swing.LeafThickness] > 0) {
		return notice(p, name, title, "The width of the leaf is not known: measure it, or give the nominal size.")
	}
	a := above{p: p, sys: sys, v: v, page: newPage(p, name, title), hand: p.Opening.Frame.Hand}
	a.assemble()
	a.measure()
	a.draw()
	return a.page.done()
}

// assemble puts the arm together, whether or not the closer's spring is known.
func (a *above) assemble() {
	link := a.p.Resolved.Link
	link.Closer = a.p.Resolved.Rows[swing.MainArm].Known
	m, err := swing.New(&a.v, link)
	switch {
	case err != nil:
		a.without = "No arm is drawn: " + err.Error() + "."
	case !m.Arm().Ready():
		a.without = "No arm is drawn: its sheet, or where its pinion and shoe are, is not known."
	default:
		a.arm = m.Arm()
	}
}

// The angles at which the leaf is shown, closed first, each with its dash.
var shown = [...]struct {
	angle quantity.Angle
	dash  []float64
}{
	{0, nil},
	{30 * quantity.Degree, []float64{0.9, 0.9}},
	{60 * quantity.Degree, []float64{2.2, 1}},
	{90 * quantity.Degree, []float64{5, 1.2}},
}

// Parts that are only hinted at, m.
const (
	jambGap   = 0.003 // between leaf and jamb
	jambReach = 0.12  // how much is shown of a jamb
	jambDepth = 0.125
	stopWidth = 0.016
	bodyLong  = 0.20
	bodyDeep  = 0.05
)

// above is the picture being drawn. Places on site are metres in the plan view
// of package linkage; the page mirrors them where the opening is the other way round.
type above struct {
	p    *plan.Plan
	sys  quantity.System
	v    swing.Values
	hand opening.Hand
	page *page

	arm     *linkage.Arm // nil where there is none to draw
	without string       // why there is none

	low, high spot // corners of all that is shown
	scale     float64
	origin    draw.Point // hinge pin on the page
}

// spot is a place on site, m.
type spot struct{ x, y float64 }

func spotOf(p linkage.Point) spot { return spot{float64(p.X), float64(p.Y)} }

// turned is the place to which the leaf carries a spot at angle theta.
func (s spot) turned(theta quantity.Angle) spot {
	sin, cos := math.Sincos(float64(theta))
	return spot{s.x*cos - s.y*sin, s.x*sin + s.y*cos}
}

// mirrored tells that the opening has its hinges on the right as seen from the
// push side. Left hand, seen from its push side, and right hand reverse, seen
// from its pull side, are the way round of the mechanics (SDI 111-D, read second-hand).
func (a *above) mirrored() bool { return a.hand == "RH" || a.hand == "LHR" }

// at is a spot on the page.
func (a *above) at(s spot) draw.Point {
	return draw.Point{X: a.origin.X + a.toward()*a.scale*s.x, Y: a.origin.Y + a.scale*s.y}
}

// toward is +1 where the latch is to the right on the page, −1 to the left.
func (a *above) toward() float64 {
	if a.mirrored() {
		return -1
	}
	return 1
}

func (a *above) path(style draw.Style, closed bool, spots ...spot) draw.Path {
	path := draw.Path{Style: style, Closed: closed}
	for _, s := range spots {
		path.Points = append(path.Points, a.at(s))
	}
	return path
}

// leaf is the outline of the leaf at an angle.
func (a *above) leaf(theta quantity.Angle) []spot {
	e, w := a.v[swing.PinToEdge], a.v[swing.LeafWidth]
	pull, push := -a.v[swing.PinToFace], -a.v[swing.PinToFace]-a.v[swing.LeafThickness]
	corners := []spot{{e, pull}, {e + w, pull}, {e + w, push}, {e, push}}
	for i := range corners {
		corners[i] = corners[i].turned(theta)
	}
	return corners
}

// jambs are the outlines of the jambs with their stops, hinge side first.
func (a *above) jambs() [2][]spot {
	e, w := a.v[swing.PinToEdge], a.v[swing.LeafWidth]
	face, stop := -a.v[swing.PinToFace], -a.v[swing.PinToFace]-a.v[swing.LeafThickness]-0.002
	back := min(face-jambDepth, stop-0.03)
	profile := func(x, out float64) []spot {
		return []spot{{x + out*jambReach, face}, {x, face}, {x, stop}, {x - out*stopWidth, stop}, {x - out*stopWidth, back}, {x + out*jambReach, back}}
	}
	return [2][]spot{profile(e-jambGap, -1), profile(e+w+jambGap, 1)}
}

// postures are the arm's joints at the shown angles, as far as it works.
func (a *above) postures() []linkage.Posture {
	var all []linkage.Posture
	if a.arm == nil {
		return nil
	}
	for _, s := range shown {
		if _, ok := a.arm.Reach(s.angle); !ok {
			break
		}
		if p, ok := a.arm.Posture(s.angle); ok {
			all = append(all, p)
		}
	}
	return all
}

// scales are what a picture may be drawn at, one to so many.
var scales = [...]float64{8, 10, 12, 15, 20, 25, 30, 40, 50, 75, 100, 200, 500}

// The room for the drawing itself, mm.
const (
	planWidth  = 112.
	planHeight = 112.
)

// measure finds how large all is, and from that scale and place on the page.
func (a *above) measure() {
	a.low, a.high = spot{math.Inf(1), math.Inf(1)}, spot{math.Inf(-1), math.Inf(-1)}
	take := func(spots ...spot) {
		for _, s := range spots {
			a.low = spot{min(a.low.x, s.x), min(a.low.y, s.y)}
			a.high = spot{max(a.high.x, s.x), max(a.high.y, s.y)}
		}
	}
	for _, s := range shown {
		take(a.leaf(s.angle)...)
	}
	jambs := a.jambs()
	take(append(jambs[0], jambs[1]...)...)
	for _, p := range a.postures() {
		take(spotOf(p.Pinion), spotOf(p.Elbow), spotOf(p.Far))
	}
	if a.arm != nil {
		take(a.bodyOutline()...)
		if a.p.Resolved.Link.Track {
			take(a.railOutline()...)
		}
	}
	for _, s := range scales {
		a.scale = 1000 / s
		if a.scale*(a.high.x-a.low.x) <= planWidth && a.scale*(a.high.y-a.low.y) <= planHeight {
			break
		}
	}
	left := -a.low.x
	if a.mirrored() {
		left = a.high.x
	}
	const labels = 7. // room above for the label at 90 degrees
	a.origin = draw.Point{X: margin + a.scale*left, Y: a.page.y - labels - a.scale*a.high.y}
}

func (a *above) draw() {
	top := a.page.y
	a.frame()
	a.swept()
	a.leaves()
	a.linkage()
	a.page.Add(draw.Circle{Center: a.origin, Radius: 1, Style: draw.Style{Width: 0.4, Fill: draw.White}, Title: "hinge pin"})
	a.sides()
	a.page.y = a.origin.Y + a.scale*a.low.y - 4
	a.dimensions()
	bottom := a.page.y
	a.page.y = top
	words := a.panel(margin+a.scale*(a.high.x-a.low.x)+8, a.key())
	a.page.y = min(bottom, a.page.y)
	a.page.Description = "Plan view to scale, pull side above. " + words
}

// frame hints at the jambs with their stops.
func (a *above) frame() {
	for i, jamb := range a.jambs() {
		path := a.path(draw.Style{Width: 0.3, Fill: draw.Shade}, true, jamb...)
		path.Title = [...]string{"hinge jamb", "latch jamb"}[i]
		a.page.Add(path)
	}
}

// swept is the path of the latch edge.
func (a *above) swept() {
	corner := a.leaf(0)[1]
	from, to := math.Atan2(corner.y, corner.x), math.Atan2(corner.y, corner.x)+math.Pi/2
	if a.mirrored() {
		from, to = math.Pi-from, math.Pi-to
	}
	a.page.Add(draw.Arc{
		Center: a.origin, Radius: a.scale * math.Hypot(corner.x, corner.y), From: from, To: to,
		Style: draw.Style{Width: 0.25, Stroke: draw.Grey, Dash: []float64{4, 1, 0.6, 1}}, Title: "path of the latch edge",
	})
}

// leaves are the leaf at the shown angles, closed on top.
func (a *above) leaves() {
	for i := len(shown) - 1; i >= 0; i-- {
		s := shown[i]
		style := draw.Style{Width: 0.3, Dash: s.dash, Stroke: draw.Grey}
		if s.angle == 0 {
			style = draw.Style{Width: 0.6, Fill: draw.White}
		}
		outline := a.leaf(s.angle)
		path := a.path(style, true, outline...)
		path.Title = "leaf at " + degrees(s.angle, 0)
		a.page.Add(path)
		if s.angle != 0 {
			mid := spot{(outline[1].x + outline[2].x) / 2, (outline[1].y + outline[2].y) / 2}
			r := math.Hypot(mid.x, mid.y)
			at := a.at(spot{mid.x * (1 + 0.055/r), mid.y * (1 + 0.055/r)})
			a.page.Add(draw.Text{At: at, Body: degrees(s.angle, 0), Height: letter, Anchor: draw.Middle, Level: draw.Centre})
		}
	}
}

// sides names the sides of the leaf, where nothing else is.
func (a *above) sides() {
	anchor := draw.End
	if a.mirrored() {
		anchor = draw.Start
	}
	corner := a.at(a.high)
	a.page.Add(draw.Text{At: draw.Point{X: corner.X, Y: corner.Y - letter}, Body: "pull side", Height: letter, Anchor: anchor, Level: draw.Top, Bold: true})
}
