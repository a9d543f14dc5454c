package picture

import (
	"image/color"
	"math"

	"swingwright/internal/draw"
	"swingwright/linkage"
	"swingwright/opening"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/swing"
)

// Plan shows leaf and arm from above, closed and at 30 and 60 degrees and as far as
// it is planned to open, to scale, the way round that the opening has them, with
// walls, things, controls and first contact as far as they were measured. Where
// frame and stops were not measured they are only hinted at, and so is the closer body.
func Plan(p *plan.Plan, sys quantity.System) *draw.Scene { return In{Units: sys}.Plan(p) }

// Plan draws as the function of that name does, for a reader.
func (to In) Plan(p *plan.Plan) *draw.Scene {
	sys := to.Units
	const name, title = "plan", "Leaf and arm from above"
	v := p.Values()
	if !(v[swing.LeafWidth] > 0) || !(v[swing.LeafThickness] > 0) {
		return to.notice(p, name, title, "The width of the leaf is not known: measure it, or give the nominal size.")
	}
	a := above{p: p, sys: sys, v: v, page: to.newPage(p, name, title), hand: p.Opening.Frame.Hand}
	a.assemble()
	a.angles()
	a.measure()
	a.draw()
	return a.page.done()
}

// assemble puts the arms together, whether or not the closer's spring is known.
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
	a.drive = driveArm(a.p)
}

// shown is an angle at which the leaf is shown, with its dash.
type shown struct {
	angle quantity.Angle
	dash  []float64
}

// angles chooses the angles at which the leaf is shown, closed first.
func (a *above) angles() {
	a.shown = []shown{{0, nil}}
	for _, s := range []shown{{30 * quantity.Degree, []float64{0.9, 0.9}}, {60 * quantity.Degree, []float64{2.2, 1}}} {
		if s.angle < a.open()-15*quantity.Degree {
			a.shown = append(a.shown, s)
		}
	}
	a.shown = append(a.shown, shown{a.open(), []float64{5, 1.2}})
}

// open is the angle to which the leaf is planned to open.
func (a *above) open() quantity.Angle {
	if r := a.p.Room; r != nil && r.Open.Known {
		return quantity.Angle(r.Open.Value)
	}
	return from90
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

	shown   []shown
	notes   []noted
	arm     *linkage.Arm // nil where there is none to draw
	without string       // why there is none
	drive   *linkage.Arm // the operator's own; nil where it has none, or it does not fit

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
	if r := a.around(); r.Framed {
		return framed(r)
	}
	e, w := a.v[swing.PinToEdge], a.v[swing.LeafWidth]
	face, stop := -a.v[swing.PinToFace], -a.v[swing.PinToFace]-a.v[swing.LeafThickness]-0.002
	back := min(face-jambDepth, stop-0.03)
	profile := func(x, out float64) []spot {
		return []spot{{x + out*jambReach, face}, {x, face}, {x, stop}, {x - out*stopWidth, stop}, {x - out*stopWidth, back}, {x + out*jambReach, back}}
	}
	return [2][]spot{profile(e-jambGap, -1), profile(e+w+jambGap, 1)}
}

// framed are the jambs with their stops as they were measured.
func framed(r *plan.Room) [2][]spot {
	f := &r.Frame
	hinge := float64(r.Leaf.Edge - f.HingeGap)
	push := -float64(r.Leaf.Face + r.Leaf.Thickness)
	face := -float64(r.Leaf.Face) + float64(f.Proud)
	back, end, cover := face-float64(f.Depth), push-float64(f.StopDepth), float64(f.Cover)
	profile := func(x, out, stop float64) []spot {
		return []spot{
			{x + out*cover, face}, {x, face}, {x, push}, {x - out*stop, push}, {x - out*stop, end}, {x, end}, {x, back}, {x + out*cover, back},
		}
	}
	return [2][]spot{profile(hinge, -1, float64(f.HingeStop)), profile(hinge+float64(f.Width), 1, float64(f.LatchStop))}
}

// postures are the arm's joints at the shown angles, as far as it works.
func (a *above) postures() []linkage.Posture {
	var all []linkage.Posture
	if a.arm == nil {
		return nil
	}
	for _, s := range a.shown {
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

// drawingRoom is how wide and high the drawing itself may be, mm.
func (f format) drawingRoom() (width, height float64) {
	if f.narrow() {
		return f.inner() - 8, 112
	}
	return 112, 112
}

// measure finds how large all is, and from that scale and place on the page.
func (a *above) measure() {
	a.low, a.high = spot{math.Inf(1), math.Inf(1)}, spot{math.Inf(-1), math.Inf(-1)}
	take := func(spots ...spot) {
		for _, s := range spots {
			a.low = spot{min(a.low.x, s.x), min(a.low.y, s.y)}
			a.high = spot{max(a.high.x, s.x), max(a.high.y, s.y)}
		}
	}
	const label = 0.16 // beyond the edge, for the angle's own label to either side
	for _, s := range a.shown {
		outline := a.leaf(s.angle)
		take(outline...)
		if edge := outline[1]; s.angle != 0 {
			take(spot{edge.x * (1 + label/math.Hypot(edge.x, edge.y)), edge.y})
		}
	}
	take(a.surroundings()...)
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
	width, height := a.page.format.drawingRoom()
	for _, s := range scales {
		a.scale = 1000 / s
		if a.scale*(a.high.x-a.low.x) <= width && a.scale*(a.high.y-a.low.y) <= height {
			break
		}
	}
	left := -a.low.x
	if a.mirrored() {
		left = a.high.x
	}
	const labels = 7. // room above for the label at 90 degrees
	rim := a.page.format.rim
	if a.page.format.narrow() { // in the middle, since nothing stands beside it
		rim = (a.page.Width - a.scale*(a.high.x-a.low.x)) / 2
	}
	a.origin = draw.Point{X: rim + a.scale*left, Y: a.page.y - labels - a.scale*a.high.y}
}

func (a *above) draw() {
	top := a.page.y
	a.swept()
	a.frame()
	a.standing()
	a.leaves()
	a.linkage()
	a.driven()
	a.cord()
	a.ticks()
	a.page.Add(draw.Circle{Center: a.origin, Radius: 1, Style: draw.Style{Width: 0.4, Fill: draw.White}, Title: "hinge pin"})
	a.firstContact()
	a.switches()
	a.sides()
	left, right := a.at(a.low), a.at(a.high)
	a.writeNotes(draw.Point{X: min(left.X, right.X) - 4, Y: left.Y - 3}, draw.Point{X: max(left.X, right.X) + 6, Y: right.Y + 3})
	a.page.y = a.origin.Y + a.scale*a.low.y - 4
	a.dimensions()
	bottom, beside := a.page.y, a.page.format.rim+a.scale*(a.high.x-a.low.x)+8
	a.page.y = top
	if a.page.format.narrow() { // below it, then
		a.page.y, beside = bottom-2, a.page.format.rim
	}
	words := a.panel(beside, a.key())
	a.page.y = min(bottom, a.page.y)
	for _, line := range a.aroundKey() {
		a.page.y -= 1
		a.page.say(line)
		words += " " + a.page.phrases.Say(line)
	}
	a.page.Description = clean(a.page.phrases.Say("Plan view to scale, pull side above.") + " " + words)
}

// frame is the jambs with their stops, hinted at where they were not measured.
func (a *above) frame() {
	for i, jamb := range a.jambs() {
		path := a.path(draw.Style{Width: 0.3, Fill: draw.Shade}, true, jamb...)
		path.Title = [...]string{"hinge jamb", "latch jamb"}[i]
		a.page.Add(path)
	}
}

// swept is the path of the latch edge, and faintly the floor that the leaf passes over.
func (a *above) swept() {
	corner := a.leaf(0)[1]
	from := math.Atan2(corner.y, corner.x)
	to := from + float64(a.open())
	if a.mirrored() {
		from, to = math.Pi-from, math.Pi-to
	}
	arc := draw.Arc{
		Center: a.origin, Radius: a.scale * math.Hypot(corner.x, corner.y), From: from, To: to,
		Style: draw.Style{Width: 0.25, Stroke: draw.Grey, Dash: []float64{4, 1, 0.6, 1}}, Title: "path of the latch edge",
	}
	floor := draw.Path{Points: append([]draw.Point{a.origin}, draw.ArcPoints(arc)...), Closed: true, Style: draw.Style{Fill: pale}, Title: "floor that the leaf sweeps"}
	a.page.Add(floor, arc)
}

// pale is the ground of the floor that the leaf sweeps; it carries nothing on its own.
var pale = color.NRGBA{244, 244, 244, 255}

// leaves are the leaf at the shown angles, closed on top.
func (a *above) leaves() {
	for i := len(a.shown) - 1; i >= 0; i-- {
		s := a.shown[i]
		style := draw.Style{Width: 0.3, Dash: s.dash, Stroke: draw.Grey}
		if s.angle == 0 {
			style = draw.Style{Width: 0.6, Fill: draw.White}
		}
		outline := a.leaf(s.angle)
		if s.angle == 0 || s.angle == a.open() {
			a.projections(s.angle, draw.Style{Width: 0.3, Dash: s.dash, Fill: draw.White})
		}
		path := a.path(style, true, outline...)
		path.Title = "leaf at " + degrees(s.angle, 0)
		a.page.Add(path)
		if s.angle != 0 {
			mid := spot{(outline[1].x + outline[2].x) / 2, (outline[1].y + outline[2].y) / 2}
			r := math.Hypot(mid.x, mid.y)
			out := 1 + max(0.055, 4/a.scale)/r
			at := a.at(spot{mid.x * out, mid.y * out})
			a.page.Add(label(draw.Text{At: at, Body: degrees(s.angle, 0), Height: letter, Anchor: draw.Middle, Level: draw.Centre})...)
		}
	}
}

// sides names the pull side, where nothing else is written.
func (a *above) sides() {
	text := draw.Text{Body: a.page.phrases.Say("pull side"), Height: letter, Anchor: draw.Middle, Level: draw.Centre, Bold: true}
	left, right := a.at(a.low), a.at(a.high)
	low, high := draw.Point{X: min(left.X, right.X), Y: left.Y}, draw.Point{X: max(left.X, right.X), Y: right.Y}
	half := text.Width() / 2
	corner := draw.Point{X: high.X - half, Y: high.Y - 1.5*letter}
	if a.mirrored() {
		corner.X = low.X + half
	}
	const rim = 2. // all the room that free asks for, and more
	low, high = draw.Point{X: low.X - rim, Y: low.Y}, draw.Point{X: high.X + rim, Y: high.Y + rim}
	text.At = corner
	if !a.free(text, corner, low, high) {
		var ok bool
		if text.At, ok = a.beside(text, corner, low, high); !ok {
			return
		}
	}
	a.page.Scene.Add(text)
}
