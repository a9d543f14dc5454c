package picture

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"swingwright/internal/draw"
	"swingwright/quantity"
	"swingwright/swing"
)

// dimensions are, below the drawing, the lengths along the closed leaf, the
// longest first, so that no line down to a shorter one runs through a name; then
// the scale bar.
func (a *above) dimensions() {
	e, w := a.v[swing.PinToEdge], a.v[swing.LeafWidth]
	edge := -a.v[swing.PinToFace] - a.v[swing.LeafThickness]
	// toward the latch, clear of the lines down from the arm
	beside := a.at(spot{e + 0.75*w, 0}).X
	push := draw.Text{At: draw.Point{X: beside, Y: a.page.y}, Body: "push side", Height: letter, Anchor: draw.Middle, Level: draw.Top, Bold: true}
	a.page.y -= letter + 4
	rows := append([]dimension{{"leaf", spot{e, edge}, spot{e + w, edge}, true}}, a.clearWidths(edge)...)
	if a.arm != nil {
		joints := []dimension{{"pinion", spot{}, spot{a.v[swing.PinionX], a.v[swing.PinionY]}, false}}
		if !a.p.Resolved.Link.Track {
			joints = append(joints, dimension{"shoe", spot{}, spot{a.v[swing.ShoeX], a.v[swing.ShoeY]}, false})
		}
		slices.SortFunc(joints, func(x, y dimension) int { return cmp.Compare(y.to.x, x.to.x) })
		rows = append(rows, joints...)
	}
	row := a.page.y
	for _, d := range rows {
		a.ends(d, row)
		row -= dimensionRow
		if _, below := a.named(d, row); below {
			row -= belowRow
		}
	}
	a.page.Add(label(push)...)
	for _, d := range rows {
		a.dimension(d)
	}
	a.bar()
}

// dimension is a length along the closed leaf.
type dimension struct {
	name     string
	from, to spot
	long     bool // its name stands in its middle
}

// clearWidths are the clear widths, at 90 degrees and as planned, below the closed leaf.
func (a *above) clearWidths(y float64) (rows []dimension) {
	r := a.around()
	for i, w := range r.Widths {
		if i > 0 && w.Angle == r.Widths[0].Angle || w.Bare <= 0 {
			continue
		}
		stop := float64(r.Frame.LatchStopAt(r.Leaf))
		rows = append(rows, dimension{"clear at " + degrees(w.Angle, 0), spot{stop - float64(w.Bare), y}, spot{stop, y}, false})
	}
	return rows
}

// ends draws the lines down from both ends of a length to its row.
func (a *above) ends(d dimension, row float64) {
	for _, s := range []spot{d.from, d.to} {
		p := a.at(s)
		a.page.Add(draw.Line(p, draw.Point{X: p.X, Y: row - 1}, draw.Style{Width: 0.15, Stroke: draw.Grey}))
	}
}

// dimension draws one row: that of the leaf with its name in the middle, those
// of the arm with their names toward the latch, if the drawing leaves room there.
func (a *above) dimension(d dimension) {
	left, right := a.at(d.from), a.at(d.to)
	left.Y, right.Y = a.page.y, a.page.y
	a.page.Add(draw.Line(left, right, draw.Style{Width: 0.3}))
	text, below := a.named(d, a.page.y)
	if below {
		a.page.Add(slash(left), slash(right))
		a.page.y -= belowRow
		text.At.Y = a.page.y
		a.page.Add(label(text)...)
		a.page.y -= dimensionRow
		return
	}
	a.page.Add(label(text)...)
	a.page.Add(slash(left), slash(right))
	a.page.y -= dimensionRow
}

// Heights of the rows of dimensions, mm.
const (
	dimensionRow = 5.5
	belowRow     = 4.4 // more, where the name stands below its line
)

// named is the name of a length where it stands in its row, and whether it is too long to stand
// in the line, with room on neither side, and so goes below.
func (a *above) named(d dimension, row float64) (text draw.Text, below bool) {
	left, right := a.at(d.from), a.at(d.to)
	text = draw.Text{
		Body:   d.name + " " + a.written(d),
		Height: letter, Level: draw.Centre, At: draw.Point{X: right.X + a.toward()*3, Y: row},
	}
	if a.mirrored() {
		text.Anchor = draw.End
	}
	if beyond := a.toward()*(right.X-a.at(a.high).X) + 3 + 1.1*text.Width(); d.long || beyond > 0 {
		half := 1.1 * text.Width() / 2
		text.At.X, text.Anchor = max(a.page.format.rim+half, min(max(a.at(a.low).X, a.at(a.high).X)+6-half, (left.X+right.X)/2)), draw.Middle
		below = !a.beforeHinge(&text, left, right)
	}
	return text, below
}

// beforeHinge moves a name that is too long for its length to its end at the hinges, if
// the drawing leaves room there. It tells whether the name is out of the way of the ends.
func (a *above) beforeHinge(text *draw.Text, hinge, latch draw.Point) bool {
	const ends = 5. // both marks at the ends, mm
	w, x := 1.1*text.Width(), hinge.X-a.toward()*3
	if w+ends < math.Abs(latch.X-hinge.X) {
		return true
	}
	switch {
	case a.mirrored() && x+w < max(a.at(a.low).X, a.at(a.high).X)+6:
		text.At.X, text.Anchor = x, draw.Start
		return true
	case !a.mirrored() && x-w > a.page.format.rim:
		text.At.X, text.Anchor = x, draw.End
		return true
	}
	return false
}

// written is the length of a row: a computed one as one reads it off a tape.
func (a *above) written(d dimension) string {
	long := math.Abs(d.to.x - d.from.x)
	if strings.HasPrefix(d.name, "clear") {
		return a.length(quantity.Length(long))
	}
	return value(quantity.DimLength, long, 0, a.sys)
}

// slash ends a dimension line.
func slash(p draw.Point) draw.Path {
	const r = 1.1
	return draw.Line(draw.Point{X: p.X - r, Y: p.Y - r}, draw.Point{X: p.X + r, Y: p.Y + r}, draw.Style{Width: 0.4})
}

// bar is the scale bar: a foot in three parts, or 300 mm.
func (a *above) bar() {
	step, unit := 0.1, "300 mm"
	if a.sys == quantity.US {
		step, unit = float64(4*quantity.Inch), "12 in"
	}
	a.page.y -= 1
	x, y, h := a.page.format.rim+2., a.page.y, 1.6
	for i := range 3 {
		style := draw.Style{Width: 0.3, Fill: draw.Ink}
		if i == 1 {
			style.Fill = draw.White
		}
		a.page.Add(draw.Rectangle(draw.Point{X: x + float64(i)*step*a.scale, Y: y - h}, draw.Point{X: x + float64(i+1)*step*a.scale, Y: y}, style))
	}
	a.page.Add(draw.Text{At: draw.Point{X: x + 3*step*a.scale + 2, Y: y - h/2}, Body: unit, Height: letter, Level: draw.Centre})
	a.page.y -= h + 2
}
