package picture

import (
	"fmt"
	"math"

	"swingwright/internal/draw"
	"swingwright/plan"
	"swingwright/quantity"
)

// Fit draws how far recorded closings lie from the model that was fitted to them: the
// misfit of the leaf angle over time, curve by curve, with what was left out.
func Fit(p *plan.Plan, w *plan.Tuning) *draw.Scene {
	g := newPage(p, "fit", "How well the recordings are followed")
	g.Description = fmt.Sprintf("%d closings, the recorded angle less the fitted one over time.", len(w.Fit.Curves))
	for i := range w.Fit.Curves {
		g.misfit(w, i)
	}
	g.say("Line: recorded leaf angle less the fitted one. Open dots: left out, as where a hand or the floor touched the leaf.")
	return g.done()
}

// misfit draws those of one curve.
func (g *page) misfit(w *plan.Tuning, i int) {
	c := &w.Fit.Curves[i]
	g.lines(draw.Text{Height: letter, Bold: true}, fmt.Sprintf("Closing %d: %.2f° root mean square", i+1, float64(c.RMS/quantity.Degree)))
	if len(c.Misfits) < 2 {
		return
	}
	g.y -= 3
	most := 0.2
	var line, out []draw.Point
	for _, m := range c.Misfits {
		at := draw.Point{X: m.T, Y: m.Off * 180 / math.Pi}
		if m.Weight > 0 {
			line, most = append(line, at), max(most, math.Abs(at.Y))
		} else {
			out = append(out, at)
		}
	}
	last := c.Misfits[len(c.Misfits)-1].T
	plot := plot{page: g, Axes: draw.Axes{
		Frame: g.frame(36), TextHeight: letter,
		X: draw.Axis{Low: c.Misfits[0].T, High: last, Label: "s"}, Y: draw.Axis{Low: -1.2 * most, High: 1.2 * most, Label: "deg"},
	}}
	plot.place()
	plot.line(line, draw.Style{Width: 0.4, Stroke: draw.Ink}, "recorded less fitted")
	for _, at := range out {
		if math.Abs(at.Y) <= plot.Y.High {
			g.Add(draw.Circle{Center: plot.at(at.X, at.Y), Radius: 0.7, Style: draw.Style{Width: 0.2, Stroke: draw.Ink, Fill: draw.White}})
		}
	}
	g.y -= 16
}
