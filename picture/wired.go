package picture

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"swingwright/internal/draw"
	"swingwright/logic"
	"swingwright/opening"
	"swingwright/plan"
)

// Wiring draws a wiring: its riser, every connection, the map of inputs and
// outputs, and for each rule that it breaks the timing of the way there.
func Wiring(name string, w *plan.Wired) []Named {
	pictures := []Named{
		{Name: "riser", Scene: Riser(name, w)},
		{Name: "connections", Scene: Connections(name, w)},
	}
	if w.Proof == nil {
		return pictures
	}
	pictures = append(pictures, Named{Name: "terminals", Scene: Terminals(name, w)})
	for _, v := range w.Proof.Broken() {
		pictures = append(pictures, Named{Name: "timing-" + v.Rule.Key(), Scene: Timing(w.Of, &v)})
	}
	if w.Walked != nil {
		for i := range w.Walked.Ways {
			way := &w.Walked.Ways[i]
			pictures = append(pictures, Named{Name: "timing-from-" + way.From, Scene: Through(w, way)})
		}
	}
	return pictures
}

// wiredPage begins a page about a wiring.
func wiredPage(of, name, kind, title string, width float64) *page {
	title = clean(strings.TrimSpace(title + " – " + of + " " + name))
	g := &page{Scene: &draw.Scene{Width: width, Title: title, ID: identifier(kind, of)}, format: format{width: width, rim: margin, plotLeft: plotLeft}, y: -margin}
	g.column(margin, width-2*margin, draw.Text{Height: heading, Bold: true}, title)
	g.y -= 1
	return g
}

// Measures of the wiring pictures, mm.
const (
	boxWide  = 58.
	lane     = 4.2 // between upright lines
	closest  = 1.4 // the least that upright lines keep from each other
	widest   = 224 // of a drawing whose smallest letters are 2 mm high across an A4 sheet
	endRow   = 4.6 // between ends of wires at a device
	hairline = 0.25
	outline  = 0.5
	small    = 2.4 // height of the capitals of numbers and marks
	smallRow = 3.6 // from line to line of these
)

// deviceWords is what a device is, and where.
func deviceWords(d *opening.Device) string {
	parts := []string{strings.ReplaceAll(string(d.Kind), "-", " ")}
	for _, s := range []string{d.Opening, string(d.Side), d.Place} {
		if s != "" {
			parts = append(parts, s)
		}
	}
	return strings.Join(parts, ", ")
}

// A run is one upright line between two places, in a lane of its own where it
// would lie on another.
type run struct {
	from, to float64 // ends, along the upright
	lane     int
}

// assign gives every run a lane, the short ones first, so that few lines cross.
func assign(runs []run) (lanes int) {
	order := make([]int, len(runs))
	for i := range order {
		order[i] = i
		if runs[i].from > runs[i].to {
			runs[i].from, runs[i].to = runs[i].to, runs[i].from
		}
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Compare(runs[a].to-runs[a].from, runs[b].to-runs[b].from)
	})
	var taken [][]run
	for _, i := range order {
		r := &runs[i]
		for r.lane = 0; ; r.lane++ {
			if r.lane == len(taken) {
				taken = append(taken, nil)
			}
			const clear = 1
			if !slices.ContainsFunc(taken[r.lane], func(o run) bool { return r.from < o.to+clear && o.from < r.to+clear }) {
				taken[r.lane] = append(taken[r.lane], *r)
				break
			}
		}
	}
	return len(taken)
}

// A span is a cable, or the wires between two devices that name none.
type span struct {
	a, b  int    // devices
	name  string // in short
	words string
}

// spans are the cables of a wiring, and what is joined without one.
func spans(w *opening.Wiring) []span {
	index := func(name string) int {
		return slices.IndexFunc(w.Devices, func(d opening.Device) bool { return d.Name == name })
	}
	var all []span
	for i := range w.Cables {
		c := &w.Cables[i]
		if a, b := index(c.From), index(c.To); a >= 0 && b >= 0 {
			all = append(all, span{a, b, c.Name, cableWords(c)})
		}
	}
	loose := make(map[[2]int]int)
	var order [][2]int
	for _, x := range w.Wires {
		from, _, _ := opening.At(x.From)
		to, _, _ := opening.At(x.To)
		a, b := index(from), index(to)
		if x.Cable != "" || a < 0 || b < 0 || a == b {
			continue
		}
		key := [2]int{min(a, b), max(a, b)}
		if loose[key]++; loose[key] == 1 {
			order = append(order, key)
		}
	}
	for _, key := range order {
		n := loose[key]
		words := fmt.Sprintf("%d wires", n)
		if n == 1 {
			words = "1 wire"
		}
		all = append(all, span{key[0], key[1], fmt.Sprint(n), words})
	}
	for i := range w.Devices {
		if to := index(w.Devices[i].LearnedTo); to >= 0 {
			all = append(all, span{i, to, "", "radio"})
		}
	}
	return all
}

func cableWords(c *opening.Cable) string {
	words := c.Name
	if c.Conductors > 0 {
		words += fmt.Sprintf(" %dc", c.Conductors)
	}
	if c.Gauge > 0 {
		words += fmt.Sprintf(" AWG %d", c.Gauge)
	}
	if c.Length.Text != "" {
		words += " " + c.Length.Text
	}
	if c.Class == opening.LineCircuit {
		words += " LINE"
	}
	return words
}

// Where lines meet the boxes of the riser, mm from the top, and from one to the next.
const firstLine, nextLine = 2.6, 1.6

// rows are the tops of the riser's boxes, mm from the first, and where the last row
// ends: each is high enough for its words and its lines.
func rows(w *opening.Wiring, all []span) []float64 {
	tops := make([]float64, len(w.Devices)+1)
	for i := range w.Devices {
		lines := 0
		for _, s := range all {
			if s.a == i || s.b == i {
				lines++
			}
		}
		const least = 13.
		words := wrap(draw.Text{Height: small}, deviceWords(&w.Devices[i]), boxWide-3)
		tops[i+1] = tops[i] + max(least+smallRow*float64(len(words)-1), firstLine+float64(lines)*nextLine+3.4)
	}
	return tops
}

// Riser draws the devices one below the other, and each cable as one line.
func Riser(name string, w *plan.Wired) *draw.Scene {
	all := spans(w.Wiring)
	tops := rows(w.Wiring, all)
	runs := make([]run, len(all))
	// where a line meets a box, those of one box above each other
	meets := make([]int, len(w.Wiring.Devices))
	ends := make([][2]float64, len(all))
	for i, s := range all {
		for k, d := range [2]int{s.a, s.b} {
			ends[i][k] = -tops[d] - firstLine - float64(meets[d])*nextLine
			meets[d]++
		}
		runs[i] = run{from: ends[i][0], to: ends[i][1]}
	}
	lanes := assign(runs)
	const apart = 6.5
	width := max(pageWidth, margin*2+boxWide+8+float64(lanes)*apart)
	g := wiredPage(w.Of, name, "riser", "Riser", width)
	g.Description = fmt.Sprintf("%d devices and %d cables or links, one line each.", len(w.Wiring.Devices), len(all))
	g.column(margin, width-2*margin, draw.Text{Height: small}, "One line for each cable, or for the wires between two devices that name none. A dot marks where a line ends or turns; lines that cross without one do not meet. Dashed: radio.")
	top := g.y - 2
	for i := range w.Wiring.Devices {
		d := &w.Wiring.Devices[i]
		y, low := top-tops[i], top-tops[i+1]+2.4
		weight := hairline
		if d.Kind == opening.Drive || d.Kind.IsLock() {
			weight = outline
		}
		g.Add(draw.Rectangle(draw.Point{X: margin, Y: y}, draw.Point{X: margin + boxWide, Y: low}, draw.Style{Width: weight}))
		g.Add(draw.Text{At: draw.Point{X: margin + 1.5, Y: y - 1.6}, Body: within(d.Name, letter, boxWide-3), Height: letter, Bold: true, Level: draw.Top})
		g.named(draw.Point{X: margin + 1.5, Y: y - 6.4}, deviceWords(d), boxWide-3)
	}
	var labels []draw.Item
	for i, s := range all {
		x := margin + boxWide + 8 + float64(runs[i].lane)*apart
		style := draw.Style{Width: outline / 1.5}
		if s.words == "radio" {
			style.Dash = []float64{1.2, 1}
		}
		a, b := draw.Point{X: x, Y: top + ends[i][0]}, draw.Point{X: x, Y: top + ends[i][1]}
		for _, p := range []draw.Point{a, b} {
			g.Add(draw.Line(draw.Point{X: margin + boxWide, Y: p.Y}, p, style), draw.Circle{Center: p, Radius: 0.45, Style: draw.Style{Fill: draw.Ink}})
		}
		g.Add(draw.Line(a, b, style))
		length := math.Abs(a.Y - b.Y)
		text := draw.Text{Height: small, Rotation: math.Pi / 2, Anchor: draw.Middle, Level: draw.Centre, Halo: 0.4, At: draw.Point{X: x - 1.8, Y: (a.Y + b.Y) / 2}}
		if text.Body = clean(s.words); within(text.Body, small, length-1) != text.Body {
			text.Body = clean(s.name)
		}
		labels = append(labels, text)
	}
	g.Add(labels...)
	g.y = top - tops[len(w.Wiring.Devices)]
	var cables []string
	for _, c := range w.Wiring.Cables {
		words := cableWords(&c) + ": " + c.From + " – " + c.To
		if c.By != "" {
			words += ", by " + c.By
		}
		cables = append(cables, words)
	}
	g.inTwo(cables, width)
	g.column(margin, width-2*margin, draw.Text{Height: small}, "Line voltage is a licensed electrician's. Connect the fire alarm together with its own contractor.")
	return g.done()
}

// named writes what a device is below its name, in lines no longer than width, mm.
func (g *page) named(at draw.Point, words string, width float64) {
	for _, line := range wrap(draw.Text{Height: small}, words, width) {
		g.Add(draw.Text{At: at, Body: line, Height: small, Level: draw.Top})
		at.Y -= smallRow
	}
}

// inTwo writes lines in two columns, down the left one first.
func (g *page) inTwo(lines []string, width float64) {
	const row = 4.2
	wide := (width - 2*margin) / 2
	style := draw.Text{Height: small, Level: draw.Top}
	per, top, deepest := (len(lines)+1)/2, g.y, g.y
	for i, words := range lines {
		if i == per {
			g.y = top
		}
		style.At.X = margin + wide*float64(i/max(1, per))
		for k, line := range wrap(style, words, wide-3) {
			if k > 0 {
				g.y += row - smallRow
			}
			style.At.Y, style.Body = g.y, line
			g.Add(style)
			g.y -= row
		}
		deepest = min(deepest, g.y)
	}
	g.y = deepest - 2
}

// within is as much of a text as fits a width, mm.
func within(text string, height, width float64) string {
	text = clean(text)
	style := draw.Text{Body: text, Height: height}
	if 1.05*style.Width() <= width {
		return text
	}
	runes := []rune(text)
	for n := len(runes) - 1; n > 0; n-- {
		style.Body = strings.TrimSpace(string(runes[:n])) + "…"
		if 1.05*style.Width() <= width {
			return style.Body
		}
	}
	return ""
}

// A wireEnd is where one wire meets a terminal.
type wireEnd struct {
	wire int
	y    float64
	left bool
}

// Connections draws every wire from terminal to terminal, with its number.
func Connections(name string, w *plan.Wired) *draw.Scene {
	c := connections{w: w.Wiring, ends: make([][]wireEnd, len(w.Wiring.Wires)), wide: terminalsWide(w.Wiring)}
	left, right := c.split()
	c.place(left, true)
	c.place(right, false)
	runs := make([]run, len(c.ends))
	for i, e := range c.ends {
		if len(e) == 2 {
			runs[i] = run{from: e[0].y, to: e[1].y}
		}
	}
	c.lanes = assign(runs)
	width := max(pageWidth, 2*margin+2*c.wide+12+float64(c.lanes-1)*lane)
	if narrow := 2*margin + 2*c.wide + 12 + float64(c.lanes-1)*closest; width > widest {
		width = max(widest, narrow)
	}
	g := wiredPage(w.Of, name, "connections", "Connections, terminal to terminal", width)
	g.Description = fmt.Sprintf("%d wires between %d devices.", len(w.Wiring.Wires), len(w.Wiring.Devices))
	g.column(margin, width-2*margin, draw.Text{Height: small}, "Each wire has its number at both ends; the list below tells its cable and conductor. A dot marks where a wire turns; wires that cross without one do not meet.")
	c.draw(g, runs, width)
	c.list(g, width)
	return g.done()
}

// connections is the drawing of all wires on its way.
type connections struct {
	w     *opening.Wiring
	ends  [][]wireEnd
	boxes []terminalBox
	lanes int
	low   float64
	wide  float64 // of a box, mm
}

// terminalWords are a terminal and its function.
func terminalWords(t opening.Terminal) string {
	if f := string(t.Function); !strings.EqualFold(f, t.Name) {
		return t.Name + "  (" + strings.ReplaceAll(f, "-", " ") + ")"
	}
	return t.Name
}

// terminalsWide is how wide the boxes are for their names and terminals, mm.
func terminalsWide(w *opening.Wiring) float64 {
	const least = 34.
	wide := least
	for i := range w.Devices {
		d := &w.Devices[i]
		name := draw.Text{Body: clean(d.Name), Height: letter, Bold: true}
		wide = max(wide, 1.05*name.Width()+3.2)
		for _, t := range d.Points() {
			words := draw.Text{Body: clean(terminalWords(t)), Height: small}
			wide = max(wide, 1.05*words.Width()+4.2)
		}
	}
	return min(wide, boxWide)
}

// terminalBox is a device with the terminals that have wires.
type terminalBox struct {
	device int
	left   bool
	words  []string // what it is
	top    float64
	rows   []terminalRow
	bottom float64
}

type terminalRow struct {
	terminal opening.Terminal
	ys       []float64
}

// split puts sources and controls left, what is in the field right.
func (c *connections) split() (left, right []int) {
	for i := range c.w.Devices {
		switch c.w.Devices[i].Kind {
		case opening.BranchCircuit, opening.PowerSupply, opening.StandbyBattery, opening.Drive, opening.AccessRelay, opening.Sequencer, opening.DelayRelay, opening.Receiver, opening.PlainRelay:
			left = append(left, i)
		default:
			right = append(right, i)
		}
	}
	return left, right
}

// place sets a column of devices; the right one half a row lower, so that no two
// ends from both sides lie on one line.
func (c *connections) place(devices []int, left bool) {
	y := 0.
	if !left {
		y = -endRow / 2
	}
	for _, i := range devices {
		d := &c.w.Devices[i]
		b := terminalBox{device: i, left: left, top: y}
		b.words = wrap(draw.Text{Height: small}, deviceWords(d), c.wide-3)
		y -= 2.5*endRow + smallRow*float64(len(b.words)-1)
		for _, t := range d.Points() {
			row := terminalRow{terminal: t}
			for k, x := range c.w.Wires {
				for _, end := range []string{x.From, x.To} {
					if end == d.Name+"."+t.Name {
						c.ends[k] = append(c.ends[k], wireEnd{k, y, left})
						row.ys = append(row.ys, y)
						y -= endRow
					}
				}
			}
			if len(row.ys) > 0 {
				b.rows = append(b.rows, row)
			}
		}
		b.bottom = y + endRow/2
		c.boxes = append(c.boxes, b)
		y -= endRow
	}
	c.low = min(c.low, y)
}

func (c *connections) draw(g *page, runs []run, width float64) {
	top := g.y - 3
	rightX := width - margin - c.wide
	for _, b := range c.boxes {
		x := rightX
		if b.left {
			x = margin
		}
		d := &c.w.Devices[b.device]
		g.Add(draw.Rectangle(draw.Point{X: x, Y: top + b.top}, draw.Point{X: x + c.wide, Y: top + b.bottom}, draw.Style{Width: outline}))
		g.Add(draw.Text{At: draw.Point{X: x + 1.5, Y: top + b.top - 1.1}, Body: within(d.Name, letter, c.wide-3), Height: letter, Bold: true, Level: draw.Top})
		g.named(draw.Point{X: x + 1.5, Y: top + b.top - 5.2}, deviceWords(d), c.wide-3)
		for _, r := range b.rows {
			text := draw.Text{Height: small, Anchor: draw.End, Level: draw.Centre}
			text.At.X = x + c.wide - 1.5
			if !b.left {
				text.At.X, text.Anchor = x+1.5, draw.Start
			}
			text.Body = within(terminalWords(r.terminal), small, c.wide-4)
			for _, y := range r.ys { // once for each wire
				text.At.Y = top + y
				g.Add(text)
			}
		}
	}
	first := margin + c.wide + 6
	gap := lane
	if c.lanes > 1 {
		gap = (rightX - 6 - first) / float64(c.lanes-1)
	}
	var numbers []draw.Item
	for i, e := range c.ends {
		if len(e) != 2 {
			continue
		}
		at := first + float64(runs[i].lane)*gap
		style := draw.Style{Width: hairline}
		points := make([]draw.Point, 2)
		for k, end := range e {
			edge, beside := margin+c.wide, 1.
			if !end.left {
				edge, beside = rightX, -1
			}
			points[k] = draw.Point{X: at, Y: top + end.y}
			g.Add(draw.Line(draw.Point{X: edge, Y: top + end.y}, points[k], style), draw.Circle{Center: points[k], Radius: 0.4, Style: draw.Style{Fill: draw.Ink}})
			g.Add(draw.Circle{Center: draw.Point{X: edge, Y: top + end.y}, Radius: 0.6, Style: draw.Style{Width: hairline, Fill: draw.White}})
			number := draw.Text{At: draw.Point{X: edge + beside*3.2, Y: top + end.y}, Body: fmt.Sprint(i + 1), Height: small, Anchor: draw.Middle, Level: draw.Centre, Bold: true, Halo: 0.4}
			numbers = append(numbers, number)
		}
		g.Add(draw.Line(points[0], points[1], style))
	}
	g.Add(numbers...)
	g.y = top + c.low
}

// list tells of every wire its ends, cable and conductor, in columns.
func (c *connections) list(g *page, width float64) {
	var lines []string
	for i, x := range c.w.Wires {
		words := fmt.Sprintf("%d  %s – %s", i+1, x.From, x.To)
		if note := strings.TrimSpace(x.Cable + " " + x.Conductor); note != "" {
			words += ", " + note
		}
		lines = append(lines, words)
	}
	g.inTwo(lines, width)
}

// Terminals is the map of inputs and outputs: terminal, function, normal state
// and where it goes.
func Terminals(name string, w *plan.Wired) *draw.Scene {
	g := wiredPage(w.Of, name, "terminals", "Inputs and outputs", pageWidth)
	g.say("Normally: as everything is left, by day, with power and without an alarm. Meter it before you connect the next thing.")
	g.y -= 1
	columns := []float64{margin, 44, 64, 98, 118}
	ends := append(slices.Clone(columns[1:]), pageWidth-margin)
	line := func(bold bool, cells ...string) {
		deepest := g.y
		for i, cell := range cells {
			style := draw.Text{Height: small, Bold: bold, Level: draw.Top}
			y := g.y - 1
			for _, text := range wrap(style, cell, ends[i]-columns[i]-2) {
				style.At, style.Body = draw.Point{X: columns[i] + 0.5, Y: y}, text
				g.Add(style)
				y -= 3.8
			}
			deepest = min(deepest, y)
		}
		g.y = deepest - 0.4
		g.Add(draw.Line(draw.Point{X: margin, Y: g.y}, draw.Point{X: pageWidth - margin, Y: g.y}, draw.Style{Width: hairline / 2}))
	}
	line(true, "device", "terminal", "function", "normally", "goes to")
	last := ""
	for _, c := range w.Proof.Machine.Connections() {
		device := c.Device
		if device == last {
			device = ""
		} else if last != "" {
			g.Add(draw.Line(draw.Point{X: margin, Y: g.y}, draw.Point{X: pageWidth - margin, Y: g.y}, draw.Style{Width: outline}))
		}
		last = c.Device
		line(false, device, c.Terminal, strings.ReplaceAll(string(c.Function), "-", " "), c.Normal, strings.Join(c.To, ", "))
	}
	g.y -= 2
	return g.done()
}

// Timing draws the way to a broken rule: everything over the events.
func Timing(of string, v *logic.Verdict) *draw.Scene {
	return timed(of, "timing-"+v.Rule.Key(), "Not kept: "+strings.TrimSuffix(v.Rule.String(), "."), v.Symptom, "What one sees: "+v.Symptom, v.Story)
}

// Through draws one person's way through a vestibule: everything over time.
func Through(w *plan.Wired, way *plan.FollowedWay) *draw.Scene {
	says := strings.Join(plan.WayWords(way, w.Policy), " ")
	return timed(w.Of, "timing-from-"+way.From, "One person from "+way.From+" to "+way.To, says, says, way.Story)
}

// timed draws a story over time.
func timed(of, kind, title, description, says string, story *logic.Story) *draw.Scene {
	g := wiredPage(of, "", kind, title, pageWidth)
	g.Description = description
	g.say(says)
	g.y -= 2
	t := timing{page: g, story: story}
	t.columns()
	t.rows()
	g.y -= 3
	for i, line := range story.Text() {
		g.Add(draw.Text{At: draw.Point{X: margin, Y: g.y}, Body: fmt.Sprint(i + 1), Height: letter, Bold: true, Level: draw.Top})
		g.beside(7, line)
	}
	g.say("The scale of time is stretched where much happens; the figures at the top are seconds.")
	return g.done()
}

// timing is a timing diagram on its way.
type timing struct {
	*page
	story *logic.Story
	at    []float64 // x of each recorded state
}

const timingLeft = 46.

// columns finds where each state begins: events are set apart, and time that
// passes takes its length within bounds.
func (t *timing) columns() {
	if len(t.story.Signals) == 0 {
		return
	}
	levels := t.story.Signals[0].Levels
	x := 0.
	const apart, perSecond, most = 7., 16., 16.
	told := make(map[int]bool)
	for _, m := range t.story.Moments {
		told[m.Event] = true
	}
	waited := 0.
	for i := range levels {
		if i > 0 {
			waited += float64(levels[i].At - levels[i-1].At)
			if told[i] {
				x += max(apart, min(most, waited*perSecond))
				waited = 0
			}
		}
		t.at = append(t.at, x)
	}
	x += apart
	t.at = append(t.at, x)
	if room := pageWidth - margin - timingLeft; x > 0 {
		for i := range t.at {
			t.at[i] = timingLeft + t.at[i]*min(room/x, 4)
		}
	}
}

func (t *timing) rows() {
	if len(t.at) == 0 {
		return
	}
	const row, high = 9.6, 5.8
	top := t.y
	t.y -= 7
	for _, s := range t.story.Signals {
		if !t.matters(&s) {
			continue
		}
		base := t.y - high
		t.Add(draw.Text{At: draw.Point{X: margin, Y: base + high/2}, Body: within(s.Name, small, timingLeft-margin-2), Height: small, Level: draw.Centre})
		t.Add(draw.Line(draw.Point{X: timingLeft, Y: base}, draw.Point{X: t.at[len(t.at)-1], Y: base}, draw.Style{Width: 0.12, Stroke: draw.Faint}))
		t.trace(&s, base, high)
		t.y -= row
	}
	told := math.Inf(-1) // right end of the last time
	for i, m := range t.story.Moments {
		x := t.at[min(m.Event, len(t.at)-1)]
		t.Add(draw.Line(draw.Point{X: x, Y: top - 5}, draw.Point{X: x, Y: t.y + 2}, draw.Style{Width: 0.15, Dash: []float64{0.8, 0.8}, Stroke: draw.Grey}))
		t.Add(draw.Text{At: draw.Point{X: x, Y: top - 1.2}, Body: fmt.Sprint(i + 1), Height: small, Bold: true, Anchor: draw.Middle, Level: draw.Centre})
		if i == 0 || m.At != t.story.Moments[i-1].At {
			// where there is no room for a time it stands in the list below alone
			text := draw.Text{At: draw.Point{X: x, Y: top - 4.2}, Body: fmt.Sprintf("%.1f", float64(m.At)), Height: small, Anchor: draw.Middle, Level: draw.Centre}
			if half := text.Width() / 2; x-half > told {
				t.Add(text)
				told = x + half + 1
			}
		}
	}
}

// matters tells a signal that is not the same all through.
func (t *timing) matters(s *logic.Signal) bool {
	return slices.ContainsFunc(s.Levels, func(l logic.Level) bool { return l.High != s.Levels[0].High || l.Word != s.Levels[0].Word })
}

// trace draws the line of one signal, with its words.
func (t *timing) trace(s *logic.Signal, base, high float64) {
	var points []draw.Point
	y := func(l logic.Level) float64 { return base + high*float64(l.High)/2 }
	if !slices.ContainsFunc(s.Levels, func(l logic.Level) bool { return l.High > 1 }) {
		y = func(l logic.Level) float64 { return base + high*float64(l.High) }
	}
	from := 0
	for i, l := range s.Levels {
		points = append(points, draw.Point{X: t.at[i], Y: y(l)}, draw.Point{X: t.at[i+1], Y: y(l)})
		next := i + 1
		if next < len(s.Levels) && s.Levels[next].Word == l.Word && s.Levels[next].High == l.High {
			continue
		}
		if room := t.at[next] - t.at[from]; l.Word != "" && room > 3 {
			under := y(l) - 1.9
			if y(l) <= base+0.1 {
				under = base + 1.9
			}
			t.Add(draw.Text{At: draw.Point{X: (t.at[from] + t.at[next]) / 2, Y: under}, Body: within(l.Word, small, room-0.5), Height: small, Anchor: draw.Middle, Level: draw.Centre, Halo: 0.3})
		}
		from = next
	}
	t.Add(draw.Path{Points: points, Style: draw.Style{Width: outline}})
}
