package picture

import (
	"fmt"
	"math"

	"swingwright/internal/draw"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/tune"
)

// Foretold draws the closing from 90 degrees as it is now and as it is reckoned to be
// after the turn that is advised, with the times between the usual marks.
func Foretold(p *plan.Plan, w *plan.Tuning) *draw.Scene { return In{}.Foretold(p, w) }

// Foretold draws as the function of that name does, for a reader; times are in seconds.
func (to In) Foretold(p *plan.Plan, w *plan.Tuning) *draw.Scene {
	const name, title = "foretold", "Before and after the turn"
	if w.Advice == nil || w.Now == nil || len(w.Now.T) < 2 {
		return to.notice(p, name, title, "Nothing can be foretold yet.")
	}
	g := to.newPage(p, name, title)
	g.Description = g.phrases.Say("Leaf angle over time, now and after the turn.")
	for _, m := range w.Moves {
		g.lines(draw.Text{Height: letter, Bold: true}, m.String())
	}
	if len(w.Moves) == 0 {
		g.lines(draw.Text{Height: letter, Bold: true}, "Nothing is to be turned: "+w.Do.String()+".")
	}
	g.y -= 3
	last := w.Now.T[len(w.Now.T)-1]
	if w.After != nil && len(w.After.T) > 1 {
		last = math.Max(last, w.After.T[len(w.After.T)-1])
	}
	c := plot{page: g, Axes: draw.Axes{
		Frame: g.frame(70), TextHeight: letter, X: draw.Axis{Low: 0, High: last, Label: "s"}, Y: draw.Axis{Low: 0, High: 95, Label: "leaf angle, deg"},
	}}
	c.place()
	c.line(course(w.Now), draw.Style{Width: 0.5, Stroke: draw.Ink}, "now")
	if w.After != nil {
		c.line(course(w.After), worstStyle, "after the turn")
	}
	g.y -= 16
	g.say("Solid: now. Dashed: after the turn.")
	for _, now := range w.Now.Times() {
		text := fmt.Sprintf("%.0f° to %.0f°: %s now", float64(now.From/quantity.Degree), float64(now.To/quantity.Degree), quantity.Format(quantity.Give(now.Time, now.U), quantity.SI))
		if w.After != nil {
			for _, then := range w.After.Times() {
				if then.From == now.From && then.To == now.To {
					text += ", then " + quantity.Format(quantity.Give(then.Time, then.U), quantity.SI)
				}
			}
		}
		g.say(text + ".")
	}
	g.Table = foretoldTable(w)
	return g.done()
}

func course(o *tune.Outlook) []draw.Point {
	points := make([]draw.Point, len(o.T))
	for i := range o.T {
		points[i] = draw.Point{X: o.T[i], Y: o.Theta[i] * 180 / math.Pi}
	}
	return points
}
