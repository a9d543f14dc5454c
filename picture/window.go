package picture

import (
	"fmt"

	"swingwright/internal/draw"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/window"
)

// Measures of the bars, mm.
const (
	barHeight = 3.2
	barRow    = 11. // from one bar to the next, with a line of text above each
)

// Window draws for every demand the spring settings at which it holds, what they
// have in common, the setting found and the one to choose.
func Window(p *plan.Plan, w *plan.Window, sys quantity.System) *draw.Scene {
	return In{Units: sys}.Window(p, w)
}

// Window draws as the function of that name does, for a reader.
func (to In) Window(p *plan.Plan, w *plan.Window) *draw.Scene {
	sys := to.Units
	const name, title = "window", "Spring settings that keep what is asked"
	if len(w.Missing) > 0 {
		why := []string{"Cannot be told. What is missing:"}
		return to.notice(p, name, title, append(why, w.Missing...)...)
	}
	g := to.newPage(p, name, title)
	g.Description = g.phrases.Say(verdictOf(w))
	g.lines(draw.Text{Height: letter, Bold: true}, verdictOf(w))
	g.y -= 3 * lineHeight // the names of the markers
	b := bars{page: g, low: float64(w.Settings.Low), high: float64(w.Settings.High), top: g.y, sys: sys}
	if b.high == b.low {
		b.low, b.high = b.low-0.5, b.high+0.5
	}
	for i := range w.Held {
		b.add(&w.Held[i])
	}
	b.axis()
	b.markers(p, w)
	g.Scene.Add(b.words...) // said already, and on top, so that no line runs through them
	g.y -= 14
	key := "Bar: the demand holds at these powers, the valves set to fit."
	if w.Open() {
		key += " Between the two solid upright lines every demand holds."
	}
	g.say(key)
	g.say("Best estimates, with nothing kept back for their spread: set it, measure it, check it.")
	g.Table = windowTable(w, sys)
	return g.done()
}

func verdictOf(w *plan.Window) string {
	if !w.Open() {
		return "No power keeps everything."
	}
	return fmt.Sprintf("Everything is kept from power %.2f to %.2f; choose %.1f.", w.Window.Low, w.Window.High, w.Best.Power.Setting)
}

// bars is a plot of bars on its way into a page.
type bars struct {
	page      *page
	low, high float64 // ends of the axis, power
	top       float64 // of the frame, mm
	sys       quantity.System
	words     []draw.Item
}

// Ends of an axis on paper, mm.
const barLeft, barRight = margin + 4, pageWidth - margin - 4

// ends are the ends of the axis, mm.
func (b *bars) ends() (left, right float64) {
	f := b.page.format
	return f.rim + 4, f.width - f.rim - 4
}

func (b *bars) x(power float64) float64 {
	left, right := b.ends()
	return left + (power-b.low)/(b.high-b.low)*(right-left)
}

// add draws one demand: its words, and below them its bar.
func (b *bars) add(h *window.Held) {
	g, d := b.page, &h.Demand
	limit := together(d.Kind.Side().String() + " " + value(d.Kind.Dim(), d.Limit, 0, b.sys))
	left, right := b.ends()
	text := draw.Text{At: draw.Point{X: left + 1.5, Y: g.y - 1}, Body: g.phrases.Say(limit + ": " + clean(d.What)), Height: letter, Level: draw.Top, Halo: 0.8}
	room := right - left - 5
	if g.format.narrow() {
		room *= 0.88
	}
	lines := wrap(text, text.Body, room)
	switch {
	case g.format.narrow():
		text.Body = lines[0]
		for _, line := range lines[1:] {
			b.words = append(b.words, label(text)...)
			g.y -= lineHeight
			text.At.Y, text.Body = g.y-1, line
		}
	case len(lines) > 1:
		text.Body = lines[0] + " …"
	}
	base := g.y - 1 - letter - 2 - barHeight
	g.Add(thinLine(left, right, base))
	if h.Span.Empty() {
		b.words = append(b.words, draw.Text{At: draw.Point{X: (left + right) / 2, Y: base + 0.4}, Body: g.phrases.Say("holds at no power"), Height: letter, Anchor: draw.Middle, Bold: true, Halo: 0.8})
	} else {
		from, to := b.x(float64(h.Span.Low)), b.x(float64(h.Span.High))
		bar := draw.Rectangle(draw.Point{X: from - 0.3, Y: base}, draw.Point{X: to + 0.3, Y: base + barHeight}, draw.Style{Width: 0.35, Fill: draw.Shade})
		bar.Title = fmt.Sprintf("%s: power %.2f to %.2f", d.What, h.Span.Low, h.Span.High)
		g.Add(bar)
	}
	b.words = append(b.words, label(text)...)
	g.y -= barRow
}

func thinLine(from, to, y float64) draw.Item {
	return draw.Line(draw.Point{X: from, Y: y}, draw.Point{X: to, Y: y}, thin(draw.Faint))
}

// axis draws the powers along the bottom.
func (b *bars) axis() {
	g := b.page
	left, right := b.ends()
	g.Add(draw.Line(draw.Point{X: left, Y: g.y}, draw.Point{X: right, Y: g.y}, draw.Style{Width: 0.35}))
	ticks := draw.Ticks(b.low, b.high, 10)
	for i, label := range draw.Labels(ticks) {
		x := b.x(ticks[i])
		g.Add(draw.Line(draw.Point{X: x, Y: g.y}, draw.Point{X: x, Y: g.y - 1.2}, draw.Style{Width: 0.35}),
			draw.Text{At: draw.Point{X: x, Y: g.y - 2}, Body: label, Height: letter, Anchor: draw.Middle, Level: draw.Top})
	}
	g.Add(draw.Text{At: draw.Point{X: (left + right) / 2, Y: g.y - 6.5}, Body: "power setting of the closer's spring", Height: letter, Anchor: draw.Middle, Level: draw.Top})
}

// markers draws the window's edges, the setting found (a square) and the one to
// choose (a triangle), each with its word.
func (b *bars) markers(p *plan.Plan, w *plan.Window) {
	if w.Open() {
		for _, edge := range []quantity.Ratio{w.Window.Low, w.Window.High} {
			b.upright(float64(edge), b.top, draw.Style{Width: 0.6})
		}
		x := b.upright(float64(w.Best.Power.Setting), b.top+2, draw.Style{Width: 0.4, Dash: []float64{3, 1.5}})
		b.page.Add(draw.Path{Closed: true, Style: draw.Style{Width: 0.3, Fill: draw.Ink}, Title: "choose",
			Points: []draw.Point{{X: x - 1.6, Y: b.top + 4.8}, {X: x + 1.6, Y: b.top + 4.8}, {X: x, Y: b.top + 2}}})
		b.word(x, b.top+2.6, fmt.Sprintf("choose %.1f", w.Best.Power.Setting))
	}
	size := p.Resolved.Size
	if size.Known && size.Value >= b.low && size.Value <= b.high {
		x := b.upright(size.Value, b.top+9.5, draw.Style{Width: 0.3, Dash: []float64{0.8, 1.2}})
		b.page.Add(draw.Rectangle(draw.Point{X: x - 1.3, Y: b.top + 9.5}, draw.Point{X: x + 1.3, Y: b.top + 12.1}, draw.Style{Width: 0.5, Fill: draw.White}))
		b.word(x, b.top+9.5, fmt.Sprintf("found at %.3g", size.Value))
	}
}

// upright draws a line at a power from the axis up, and gives its place.
func (b *bars) upright(power, top float64, style draw.Style) float64 {
	x := b.x(power)
	b.page.Add(draw.Line(draw.Point{X: x, Y: b.page.y}, draw.Point{X: x, Y: top}, style))
	return x
}

// word writes beside a marker, on the side where there is room.
func (b *bars) word(x, y float64, text string) {
	t := draw.Text{At: draw.Point{X: x + 2.6, Y: y}, Body: b.page.phrases.Say(text), Height: letter, Bold: true, Halo: 0.8}
	if left, right := b.ends(); x > (left+right)/2 {
		t.At.X, t.Anchor = x-2.6, draw.End
	}
	b.words = append(b.words, t)
}
