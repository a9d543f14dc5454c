package picture

import (
	"fmt"
	"math"

	"swingwright/fact"
	"swingwright/internal/draw"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/swing"
)

// HandForce shows the force at the handle that slowly opens the released leaf,
// power off, over the leaf's angle, at the pressure that is hardest on the hand;
// its band of two standard uncertainties; the force with which the closer alone
// draws the leaf shut; and the limits of the plan's findings, each as the force
// at the handle that has the limit's moment.
func HandForce(p *plan.Plan, sys quantity.System) *draw.Scene { return In{Units: sys}.HandForce(p) }

// HandForce draws as the function of that name does, for a reader.
func (to In) HandForce(p *plan.Plan) *draw.Scene {
	sys := to.Units
	const name, title = "hand-force", "Force to open by hand"
	if why := p.HandUnknown(); why != "" {
		return to.notice(p, name, title, why, "So there is no force to show.")
	}
	m, err := p.Model()
	if err != nil {
		return to.notice(p, name, title, err.Error())
	}
	m.SetAir(p.Resolved.Least.Value, m.Values()[swing.OilFactor])
	h := hand{p: p, sys: sys, model: &m, radius: quantity.Length(p.Resolved.Handle.Value), page: to.newPage(p, name, title)}
	h.reckon()
	h.limits = forceLimits(p, h.radius)
	h.off = make([]bool, len(h.limits))
	h.draw()
	h.page.Table = h.table()
	return h.page.done()
}

// hand is the picture being drawn. Forces are in newtons at the handle, by
// angle, closed first.
type hand struct {
	p      *plan.Plan
	sys    quantity.System
	model  *swing.Model
	radius quantity.Length
	page   *page

	angles    []quantity.Angle
	force     []quantity.Force
	closing   []quantity.Force // nil without a closer
	low, high []quantity.Force // the band; nil without one
	limits    []forceLimit
	off       []bool // which of the limits lie off the scale
}

// reckon finds the curves, up to 90 degrees or as far as the arm reaches.
func (h *hand) reckon() {
	most := from90
	if h.model.Linkage().Closer {
		if fault, ok := h.model.Arm().Reach(from90); !ok {
			most = fault.Theta - quantity.Degree/10
		}
	}
	for a := quantity.Angle(0); ; a = min(a+quantity.Degree/2, most) {
		h.angles = append(h.angles, a)
		h.force = append(h.force, swing.HandForce(h.model.HandMoment(a), h.radius))
		if h.model.Linkage().Closer {
			h.closing = append(h.closing, swing.HandForce(h.model.ClosingMoment(a), h.radius))
		}
		if !(a < most) {
			break
		}
	}
	h.band()
}

// band finds, at every angle, the mean of many draws and two standard
// deviations on either side, carried over to the curve of the best estimates.
func (h *hand) band() {
	const draws = 128
	n := 0.
	sum, squares := make([]float64, len(h.angles)), make([]float64, len(h.angles))
	err := h.p.Drawn(draws, 1, func(d plan.Draw) {
		d.Model.SetAir(float64(d.Least), d.Model.Values()[swing.OilFactor])
		n++
		for i, a := range h.angles {
			// differences from the curve, so that squares lose no digits
			f := float64(swing.HandForce(d.Model.HandMoment(a), d.Handle) - h.force[i])
			sum[i] += f
			squares[i] += f * f
		}
	})
	if err != nil || n < 2 {
		return
	}
	for i := range h.angles {
		u := math.Sqrt(max(0, squares[i]-sum[i]*sum[i]/n) / (n - 1))
		if math.IsNaN(u) || math.IsInf(u, 0) {
			h.low, h.high = nil, nil
			return
		}
		h.low = append(h.low, h.force[i]-quantity.Force(2*u))
		h.high = append(h.high, h.force[i]+quantity.Force(2*u))
	}
}

func (h *hand) draw() {
	words := fmt.Sprintf("At the handle, %s from the hinge pin, power off, latch released.", value(quantity.DimLength, float64(h.radius), 0, h.sys))
	if f := h.p.Facts[fact.HandToOpen]; f.Known {
		r := float64(h.radius)
		words += fmt.Sprintf(" Largest from "+together("1° to 90°")+": %s.", value(quantity.DimForce, f.Value/r, f.U/r, h.sys)+measured(f.Origin))
	}
	if fault, ok := h.model.Arm().Reach(from90); h.closing != nil && !ok {
		words += fmt.Sprintf(" The arm works only to %s.", degrees(fault.Theta, 0))
	}
	if h.closing == nil {
		words += " No closer."
	}
	h.page.say(words)
	h.page.Description = h.page.phrases.Say("Force by hand over leaf angle. " + words)
	h.page.y -= 9 + 2*letter
	h.plot()
	h.page.y -= 5.5 * letter
	if h.page.format.narrow() && h.high != nil {
		h.page.say("Band: twice the uncertainty of the force by hand.")
	}
	off := 0
	for i, l := range h.limits {
		if h.off[i] && h.page.format.narrow() {
			off++
			continue
		}
		h.row(i, l)
	}
	if off > 0 {
		h.page.say(fmt.Sprintf("%d more lie off the scale; the findings tell them.", off))
	}
	var shown []fact.ID
	for _, r := range reaches {
		shown = append(shown, r.id)
	}
	h.page.foot(limited(h.p, shown...))
}

// plot draws curves, band and limits.
func (h *hand) plot() {
	low, high := h.span()
	pl := plot{page: h.page, Axes: draw.Axes{
		Frame: h.page.frame(66), TextHeight: letter,
		X: draw.Axis{High: 90, Label: "leaf angle (°)", Ticks: h.page.format.of90()},
		Y: draw.Axis{Low: low, High: high, Label: "force at the handle (" + quantity.Unit(quantity.DimForce, h.sys) + ")", Ticks: draw.Ticks(low, high, 8)},
	}}
	opens, closes := "opened slowly by hand", "closer alone, let close slowly"
	if h.page.format.narrow() {
		opens, closes = "opened slowly", "closer alone"
	}
	if h.high != nil {
		if !h.page.format.narrow() {
			opens += ", band: twice its uncertainty"
		}
		outline := pl.placed(h.curve(h.low))
		upper := pl.placed(h.curve(h.high))
		for i := len(upper) - 1; i >= 0; i-- {
			outline = append(outline, upper[i])
		}
		h.page.Add(draw.Path{Points: outline, Closed: true, Style: draw.Style{Width: 0.2, Stroke: draw.Grey, Fill: draw.Shade}, Title: "spread of the force by hand"})
	}
	pl.Series = []draw.Series{{Name: opens, Points: h.curve(h.force)}}
	if h.closing != nil {
		pl.Series = append(pl.Series, draw.Series{Name: closes, Points: h.curve(h.closing)})
	}
	pl.place()
	if low < 0 {
		h.page.Add(draw.Line(pl.at(0, 0), pl.at(90, 0), draw.Style{Width: 0.3}))
	}
	h.lines(&pl)
}

// curve pairs the angles with forces, in the units of the plot.
func (h *hand) curve(forces []quantity.Force) []draw.Point {
	points := make([]draw.Point, len(forces))
	for i, f := range forces {
		points[i] = draw.Point{X: float64(h.angles[i] / quantity.Degree), Y: number(quantity.DimForce, float64(f), h.sys)}
	}
	return points
}

// span is what the force axis spans: all curves, and the limits unless they
// would squeeze the curves into the lower part.
func (h *hand) span() (low, high float64) {
	for _, forces := range [][]quantity.Force{h.force, h.closing, h.low, h.high} {
		for _, v := range h.curve(forces) {
			low, high = min(low, v.Y), max(high, v.Y)
		}
	}
	most := 2.2 * high
	for _, l := range h.limits {
		if at := number(quantity.DimForce, float64(l.here), h.sys); at <= most {
			high = max(high, at)
		}
	}
	room := 0.12 * (high - low)
	if low < 0 {
		low -= room / 2
	}
	return low, max(high+room, low+1e-3)
}
