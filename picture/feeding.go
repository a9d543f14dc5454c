package picture

import (
	"fmt"
	"math"
	"strings"

	"swingwright/internal/draw"
	"swingwright/judge"
	"swingwright/plan"
	"swingwright/power"
)

// Volts draws what each device of a wiring has in its worst moment: from the supply's
// voltage at the right every run takes its share, down to what is left at the device, and
// the least that the device works at stands beside it.
func Volts(f *plan.Feeding) *draw.Scene {
	g := pageOf("volts", "Volts at every device in its worst moment", f.Name, "")
	g.Description = "What every run takes of the supply's voltage, and what is left."
	drawn := false
	for i := range f.Circuits {
		if d := &f.Circuits[i]; d.Course != nil {
			drawn = true
			v := voltage{page: g, d: d}
			v.draw()
		}
	}
	if !drawn {
		g.say("Nothing can be drawn yet.")
		unreckoned(g, f)
		return g.done()
	}
	g.say("Bar: what the runs take, from what the supply gives (dashed) at its right end, one piece for each run; its left end is what the device has.")
	g.Add(draw.Line(draw.Point{X: margin, Y: g.y - letter/2}, draw.Point{X: margin + 8, Y: g.y - letter/2}, draw.Style{Width: 0.5}))
	g.beside(12, "twice its standard uncertainty to either side")
	g.Add(least(draw.Point{X: margin + 4, Y: g.y})...)
	g.beside(12, "least voltage at which the device is sure to work")
	return g.done()
}

// unreckoned says what stands in the way.
func unreckoned(g *page, f *plan.Feeding) {
	for _, text := range f.Missing {
		g.say("Missing: " + text)
	}
	for i := range f.Faults {
		g.say(f.Faults[i].Where + ": " + f.Faults[i].What)
	}
}

// voltage is the picture of one circuit on its way onto a page.
type voltage struct {
	page      *page
	d         *plan.Fed
	low, high float64 // ends of the axis, V
	words     []draw.Item
}

// Measures of a device's row, mm.
const voltRow, voltBar = 16., 3.6

func (v *voltage) x(volts float64) float64 {
	return barLeft + (min(max(volts, v.low), v.high)-v.low)/(v.high-v.low)*(barRight-barLeft)
}

func (v *voltage) draw() {
	g, t := v.page, &v.d.Tree
	v.high = float64(t.Volts)
	v.low = v.high * 0.9
	for i := range v.d.Devices {
		one := &v.d.Devices[i]
		if one.Works && one.Ending == power.Fed {
			v.low = min(v.low, float64(one.Volts), float64(one.LeastItWorksAt))
			if !one.NearCollapse() {
				v.low = min(v.low, float64(one.Volts-2*one.U))
			}
		}
	}
	v.low = max(0, math.Floor(v.low-0.2))
	v.high = math.Ceil((v.high+2*float64(t.VoltsU))*2) / 2
	g.y -= 1
	g.lines(draw.Text{Height: letter, Bold: true}, fmt.Sprintf("Supply %s gives %.3g V", v.d.Supply.Name, float64(t.Volts)))
	for i := range v.d.Devices {
		v.device(&v.d.Devices[i])
	}
	v.axis()
	g.Add(v.words...)
	g.y -= 14
}

// device draws one row: words, and below them the bar.
func (v *voltage) device(one *plan.FedDevice) {
	g := v.page
	bold := one.Verdict == judge.FallsShort
	lines := wrap(draw.Text{Height: letter, Bold: bold}, fmt.Sprintf("%s: %s", one.Device.Name, v.tell(one)), barRight-barLeft-3)
	told := len(lines)
	if one.Works && one.Ending == power.Fed {
		lines = append(lines, wrap(draw.Text{Height: letter}, "lost on the way: "+strings.Join(v.way(one), ", "), barRight-barLeft-3)...)
	}
	for i, line := range lines {
		if i > 0 {
			g.y -= lineHeight
		}
		v.words = append(v.words, draw.Text{At: draw.Point{X: barLeft + 1.5, Y: g.y - 1}, Body: line, Height: letter, Level: draw.Top, Halo: 0.8, Bold: bold && i < told})
	}
	base := g.y - 1 - letter - 4.4 - voltBar
	g.Add(thinLine(barLeft, barRight, base))
	gives := v.x(float64(v.d.Tree.Volts)) // marked beside the bar alone, so that no line runs through words
	g.Add(draw.Line(draw.Point{X: gives, Y: base - 1.2}, draw.Point{X: gives, Y: base + voltBar + 1.2}, draw.Style{Width: 0.3, Dash: []float64{1, 0.6}}))
	if one.Works && one.Ending == power.Fed {
		v.bar(one, base)
	}
	if one.Works {
		v.words = append(v.words, least(draw.Point{X: v.x(float64(one.LeastItWorksAt)), Y: base + voltBar + 1})...)
	}
	g.y -= voltRow
}

// tell says in words what the row shows.
func (v *voltage) tell(one *plan.FedDevice) string {
	switch {
	case !one.Works:
		return "asked for nothing"
	case one.Ending != power.Fed:
		return one.Phase.String() + ", the wires cannot carry what is asked of them"
	}
	word := map[judge.Verdict]string{judge.Meets: "enough", judge.FallsShort: "too little", judge.TooClose: "too close to call"}[one.Verdict]
	if one.NearCollapse() {
		word += ", near collapse"
	}
	return fmt.Sprintf("%s; %.2f\u00a0V of %.2f\u00a0V needed, %s", one.Phase, float64(one.Volts), float64(one.LeastItWorksAt), word)
}

// path lists the runs from the supply to a device, the supply's first.
func (v *voltage) path(one *plan.FedDevice) (runs []int) {
	for k := v.d.LoadOf(one).Node; k > 0; k = v.d.Tree.Runs[k-1].Parent {
		runs = append([]int{k - 1}, runs...)
	}
	return runs
}

// moment is the one in which a device has least.
func (v *voltage) moment(one *plan.FedDevice) *power.Moment {
	m := v.d.Tree.At(one.Others)
	return &m
}

// way names the runs to a device with what each takes.
func (v *voltage) way(one *plan.FedDevice) []string {
	m := v.moment(one)
	var all []string
	for _, k := range v.path(one) {
		r := &v.d.Tree.Runs[k]
		all = append(all, fmt.Sprintf("%s %.2f\u00a0V", r.Name, float64(m.Volts[r.Parent]-m.Volts[k+1])))
	}
	if len(all) == 0 {
		return []string{"nothing"}
	}
	return all
}

// bar draws what each run takes, by turns shaded and white, and the spread.
func (v *voltage) bar(one *plan.FedDevice, base float64) {
	g, m := v.page, v.moment(one)
	for i, k := range v.path(one) {
		r := &v.d.Tree.Runs[k]
		from, to := v.x(float64(m.Volts[k+1])), v.x(float64(m.Volts[r.Parent]))
		fill := draw.Shade
		if i%2 == 1 {
			fill = draw.White
		}
		piece := draw.Rectangle(draw.Point{X: from, Y: base}, draw.Point{X: to, Y: base + voltBar}, draw.Style{Width: 0.35, Fill: fill})
		piece.Title = fmt.Sprintf("%s takes %.2f V", r.Name, float64(m.Volts[r.Parent]-m.Volts[k+1]))
		g.Add(piece)
	}
	if mid := base + voltBar/2; !one.NearCollapse() {
		low, high := v.x(float64(one.Volts-2*one.U)), v.x(float64(one.Volts+2*one.U))
		g.Add(draw.Line(draw.Point{X: low, Y: mid}, draw.Point{X: high, Y: mid}, draw.Style{Width: 0.5}))
		for _, x := range []float64{low, high} {
			g.Add(draw.Line(draw.Point{X: x, Y: mid - 0.8}, draw.Point{X: x, Y: mid + 0.8}, draw.Style{Width: 0.5}))
		}
	}
	at := v.x(float64(one.Volts))
	g.Add(draw.Line(draw.Point{X: at, Y: base - 0.6}, draw.Point{X: at, Y: base + voltBar + 0.6}, draw.Style{Width: 0.8}))
}

// least is the sign of a least voltage: a full triangle that points down at its place.
func least(at draw.Point) []draw.Item {
	return []draw.Item{draw.Path{Closed: true, Style: draw.Style{Width: 0.3, Fill: draw.Ink}, Title: "least voltage",
		Points: []draw.Point{{X: at.X - 1.4, Y: at.Y}, {X: at.X + 1.4, Y: at.Y}, {X: at.X, Y: at.Y - 2.4}}}}
}

// axis draws the volts along the bottom, and marks what the supply gives.
func (v *voltage) axis() {
	g := v.page
	g.Add(draw.Line(draw.Point{X: barLeft, Y: g.y}, draw.Point{X: barRight, Y: g.y}, draw.Style{Width: 0.35}))
	ticks := draw.Ticks(v.low, v.high, 10)
	for i, label := range draw.Labels(ticks) {
		x := v.x(ticks[i])
		g.Add(draw.Line(draw.Point{X: x, Y: g.y}, draw.Point{X: x, Y: g.y - 1.2}, draw.Style{Width: 0.35}),
			draw.Text{At: draw.Point{X: x, Y: g.y - 2}, Body: label, Height: letter, Anchor: draw.Middle, Level: draw.Top})
	}
	at := v.x(float64(v.d.Tree.Volts))
	g.Add(draw.Line(draw.Point{X: at, Y: g.y}, draw.Point{X: at, Y: g.y + 2}, draw.Style{Width: 0.3, Dash: []float64{1, 0.6}}))
	g.Add(draw.Text{At: draw.Point{X: (barLeft + barRight) / 2, Y: g.y - 6.5}, Body: "volts", Height: letter, Anchor: draw.Middle, Level: draw.Top})
}

// SupplyCurrent draws what a wiring's supplies give over the sequence, a column for
// each part of it, against what they can give.
func SupplyCurrent(f *plan.Feeding) *draw.Scene {
	g := pageOf("current", "Current of the supply over the sequence", f.Name, "")
	g.Description = "What the supply gives in each part of the sequence, and what it can give."
	drawn := false
	for i := range f.Circuits {
		if d := &f.Circuits[i]; d.Course != nil && len(d.Currents) > 0 {
			drawn = true
			columns(g, d)
		}
	}
	if !drawn {
		g.say("Nothing can be drawn yet.")
		unreckoned(g, f)
		return g.done()
	}
	g.say("Dashed: what the supply can give all the time and, where there is a second line, for some seconds.")
	g.say("Columns are as wide as each other, whatever time they stand for; their seconds count from the press.")
	return g.done()
}

// columns draws the course of one supply's current.
func columns(g *page, d *plan.Fed) {
	g.y -= 1
	head := "Supply " + d.Supply.Name
	if d.Rated > 0 {
		head += fmt.Sprintf(", amperes: %.3g A all the time", float64(d.Rated))
		if d.Peak > d.Rated {
			head += fmt.Sprintf(", %.3g A for some seconds", float64(d.Peak))
		}
	}
	g.lines(draw.Text{Height: letter, Bold: true}, head)
	most := float64(max(d.Peak, d.Rated))
	for _, c := range d.Currents {
		most = max(most, float64(c.Amps))
	}
	n := float64(len(d.Currents))
	if most == 0 {
		most = 1
	}
	pl := plot{page: g, Axes: draw.Axes{
		Frame: g.frame(62), TextHeight: letter,
		X: draw.Axis{High: n, Ticks: []float64{}},
		Y: draw.Axis{High: most * 1.15},
	}}
	if d.Rated > 0 {
		pl.Limits = append(pl.Limits, draw.Limit{At: float64(d.Rated)})
		if d.Peak > d.Rated {
			pl.Limits = append(pl.Limits, draw.Limit{At: float64(d.Peak)})
		}
	}
	for i, c := range d.Currents {
		bar := draw.Rectangle(pl.at(float64(i)+0.08, 0), pl.at(float64(i)+0.92, float64(c.Amps)), draw.Style{Width: 0.35, Fill: draw.Shade})
		bar.Title = fmt.Sprintf("%s: %.2f A", tellPhases(c.Phase, d.Openings), float64(c.Amps))
		g.Add(bar)
	}
	pl.place()
	c := columnWords{page: g, d: d, plot: &pl, width: (plotRight - plotLeft) / n}
	c.amps()
	c.numbered()
}

// columnWords are the words of the columns.
type columnWords struct {
	page  *page
	d     *plan.Fed
	plot  *plot
	width float64 // of a column, mm
}

// leastColumn is the least width of a column with its current written on it, mm.
const leastColumn = 12.5

// span is the time that a column stands for.
func (c *columnWords) span(i int) string {
	switch i {
	case 0:
		return "before"
	case len(c.d.Currents) - 1:
		return "after"
	}
	one := c.d.Currents[i]
	return fmt.Sprintf("%.3g to %.3g\u00a0s", float64(one.From), float64(one.To))
}

// amps writes the currents on the columns, where these are wide enough.
func (c *columnWords) amps() {
	if c.width < leastColumn {
		return
	}
	for i, one := range c.d.Currents {
		at := c.plot.at(float64(i)+0.5, float64(one.Amps))
		c.page.Add(draw.Text{At: draw.Point{X: at.X, Y: at.Y + 1 + letter}, Body: fmt.Sprintf("%.2f", float64(one.Amps)), Height: letter, Anchor: draw.Middle, Level: draw.Top, Halo: 0.6})
	}
}

// numbered numbers the columns, and tells them below, where words lie flat.
func (c *columnWords) numbered() {
	g := c.page
	free := math.Inf(-1) // where the last number ends
	for i := range c.d.Currents {
		text := draw.Text{At: draw.Point{X: c.plot.at(float64(i)+0.5, 0).X, Y: g.y - 1.5}, Body: fmt.Sprint(i + 1), Height: letter, Anchor: draw.Middle, Level: draw.Top}
		if half := text.Width() / 2; text.At.X-half > free {
			g.Add(text)
			free = text.At.X + half + 1
		}
	}
	g.y -= 1.5 + lineHeight
	for i, one := range c.d.Currents {
		g.say(fmt.Sprintf("%d: %s, %.2f\u00a0A: %s", i+1, c.span(i), float64(one.Amps), tellPhases(one.Phase, c.d.Openings)))
	}
	g.y -= 2
}

// phaseLines names the phase of each opening.
func phaseLines(all []power.Phase, openings []string) (lines []string) {
	for i, p := range all {
		text := p.String()
		if len(all) > 1 {
			text = openings[i] + ": " + text
		}
		lines = append(lines, clean(text))
	}
	return lines
}

func tellPhases(all []power.Phase, openings []string) string {
	return strings.Join(phaseLines(all, openings), ", ")
}

// Feeding are the pictures of how a wiring is fed.
func Feeding(f *plan.Feeding) []Named {
	return []Named{{Name: "volts", Scene: Volts(f)}, {Name: "current", Scene: SupplyCurrent(f)}}
}
