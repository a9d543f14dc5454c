package draw

import "image/color"

// Point is a place on the page, mm.
type Point struct{ X, Y float64 }

// Scene is a page with items on it, painted in their order on white.
type Scene struct {
	// Width and Height of the page, mm.
	Width, Height float64
	// Title names the picture in a few words; Description says in a sentence or
	// two what there is to see, for people who do not see it.
	Title, Description string
	// Words are what is written in the picture, a paragraph each, and Table the values
	// that it shows, for people who do not see it; whoever shows the picture says them
	// beside it. Either may be nil.
	Words []string
	Table *Table
	// ID makes the names inside the picture unique where several are put on one
	// page; letters, digits and hyphens, or empty.
	ID string
	// Items from the lowest to the topmost.
	Items []Item
	// Layers tell which items drawing programs show and hide together, in the
	// order of their first items; see [Scene.Begin].
	Layers []Layer
}

// A Table is values in words: rows as long as Head, the first cell of each naming it.
type Table struct {
	Head []string
	Rows [][]string
}

// Add puts items on top.
func (s *Scene) Add(items ...Item) { s.Items = append(s.Items, items...) }

// Item is a [Path], a [Circle], an [Arc] or a [Text].
type Item interface {
	// problems reports what cannot be drawn about the item.
	problems() []string
}

// Style says how an outline is drawn and what it is filled with.
type Style struct {
	// Width of the line, mm; 0 draws no line.
	Width float64
	// Stroke is the colour of the line. The zero colour is [Ink].
	Stroke color.NRGBA
	// Dash gives the lengths of marks and gaps by turns, mm, beginning with a
	// mark; nil is a solid line.
	Dash []float64
	// Fill is the colour inside; the zero colour leaves it open.
	Fill color.NRGBA
}

// Colours that hold their own on white: each has a contrast of at least 4.5 to
// 1 (WCAG 2.2, 1.4.3), Faint and Shade aside, which carry nothing on their own.
var (
	Ink    = color.NRGBA{A: 255}
	White  = color.NRGBA{255, 255, 255, 255}
	Grey   = color.NRGBA{96, 96, 96, 255}
	Faint  = color.NRGBA{200, 200, 200, 255}
	Shade  = color.NRGBA{228, 228, 228, 255}
	Blue   = color.NRGBA{0, 84, 147, 255}
	Red    = color.NRGBA{176, 48, 0, 255}
	Green  = color.NRGBA{0, 104, 72, 255}
	Purple = color.NRGBA{122, 40, 120, 255}
)

// stroke is the colour of the line.
func (s Style) stroke() color.NRGBA {
	if s.Stroke == (color.NRGBA{}) {
		return Ink
	}
	return s.Stroke
}

// Path is a line through points, open or closed to a polygon.
type Path struct {
	Points []Point
	Closed bool
	Style
	// Title names the item for people who do not see it; may be empty.
	Title string
}

// Line is the path from one point to another.
func Line(from, to Point, style Style) Path {
	return Path{Points: []Point{from, to}, Style: style}
}

// Rectangle is the closed path around two opposite corners, sides level and upright.
func Rectangle(corner, opposite Point, style Style) Path {
	return Path{
		Points: []Point{corner, {opposite.X, corner.Y}, opposite, {corner.X, opposite.Y}},
		Closed: true, Style: style,
	}
}

// Circle is a whole circle.
type Circle struct {
	Center Point
	// Radius in mm.
	Radius float64
	Style
	// Title names the item for people who do not see it; may be empty.
	Title string
}

// Arc is part of a circle, drawn from one direction to the other:
// counter-clockwise when To is the larger. It is not filled.
type Arc struct {
	Center Point
	// Radius in mm.
	Radius float64
	// From and To are directions seen from the centre, rad, less than a whole
	// turn apart.
	From, To float64
	Style
	// Title names the item for people who do not see it; may be empty.
	Title string
}

// Anchor tells which point of a text lies at its place, along the line.
type Anchor uint8

// The anchors along the line.
const (
	Start Anchor = iota
	Middle
	End
)

// Level tells which height of a text lies at its place.
type Level uint8

// The levels across the line, judged by capital letters.
const (
	Baseline Level = iota
	Centre
	Top
)

// Text is one line of text.
type Text struct {
	At   Point
	Body string
	// Height of the capital letters, mm (as ISO 3098-1 counts it). What is to
	// be read at arm's length needs 2.5.
	Height float64
	Anchor Anchor
	Level  Level
	// Rotation about At, rad, counter-clockwise.
	Rotation float64
	Bold     bool
	// Colour of the letters. The zero colour is [Ink].
	Colour color.NRGBA
	// Halo is the width of a white edge around the letters, mm, that keeps what
	// lies below from running into them; 0 for none.
	Halo float64
	// Title names the item for people who do not see it, where the text itself
	// is too short to; may be empty.
	Title string
}

// colour is the colour of the letters.
func (t Text) colour() color.NRGBA { return Style{Stroke: t.Colour}.stroke() }
