package draw

import (
	"math"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// capital is the height of a capital letter as a share of the font size, that
// of the fonts below (their OS/2 tables: 1480 of 2048) and, within a few
// percent, of the sans-serif fonts of browsers.
const capital = 1480. / 2048

// The two fonts of the package, parsed when first needed.
var (
	regular = sync.OnceValues(func() (*sfnt.Font, error) { return sfnt.Parse(goregular.TTF) })
	bold    = sync.OnceValues(func() (*sfnt.Font, error) { return sfnt.Parse(gobold.TTF) })
)

func (t Text) font() *sfnt.Font {
	load := regular
	if t.Bold {
		load = bold
	}
	f, err := load()
	if err != nil {
		panic("draw: the embedded font does not parse: " + err.Error()) // a fault of the build, not of any data
	}
	return f
}

// baseline is where the text's baseline begins, ends or has its middle, by its anchor.
func (t Text) baseline() Point {
	down := [...]float64{Baseline: 0, Centre: 0.5, Top: 1}[t.Level] * t.Height
	sin, cos := math.Sincos(t.Rotation)
	return Point{t.At.X + down*sin, t.At.Y - down*cos}
}

// Width is the length of the text, mm, in the letters of the PNG writer. What
// shows an SVG brings letters of its own; leave a tenth to spare.
func (t Text) Width() float64 {
	width := 0.
	t.walk(func(sfnt.GlyphIndex, *sfnt.Buffer) {}, func(advance float64) { width += advance })
	return width
}

// walk visits the glyphs and their advances, mm.
func (t Text) walk(glyph func(sfnt.GlyphIndex, *sfnt.Buffer), advance func(float64)) {
	var buf sfnt.Buffer
	f := t.font()
	scale := t.Height / capital / float64(f.UnitsPerEm())
	for _, r := range t.Body {
		if lacks(r, &buf) {
			r = rune(InPlace[0]) // what is written in its place, see Printable
		}
		// Errors do not come from the embedded fonts; a glyph that had one would be left out.
		g, err := f.GlyphIndex(&buf, r)
		if err != nil {
			continue
		}
		glyph(g, &buf)
		if units, err := f.GlyphAdvance(&buf, g, fixed.Int26_6(f.UnitsPerEm()), font.HintingNone); err == nil {
			advance(float64(units) * scale)
		}
	}
}

// contours are the outlines of the letters on the page.
func (t Text) contours() [][]Point {
	f := t.font()
	scale := t.Height / capital / float64(f.UnitsPerEm())
	at, along := t.baseline(), -[...]float64{Start: 0, Middle: 0.5, End: 1}[t.Anchor]*t.Width()
	sin, cos := math.Sincos(t.Rotation)
	place := func(p fixed.Point26_6) Point {
		x, y := along+float64(p.X)*scale, -float64(p.Y)*scale // glyphs have y down
		return Point{at.X + x*cos - y*sin, at.Y + x*sin + y*cos}
	}
	var all [][]Point
	t.walk(func(g sfnt.GlyphIndex, buf *sfnt.Buffer) {
		segments, err := f.LoadGlyph(buf, g, fixed.Int26_6(f.UnitsPerEm()), nil)
		if err != nil {
			return
		}
		for _, s := range segments {
			if s.Op == sfnt.SegmentOpMoveTo {
				all = append(all, nil)
			}
			last := &all[len(all)-1]
			*last = appendSegment(*last, s, place)
		}
	}, func(advance float64) { along += advance })
	return all
}

// appendSegment adds a segment of a glyph in straight pieces. TrueType outlines
// have lines and quadratic curves only.
func appendSegment(to []Point, s sfnt.Segment, place func(fixed.Point26_6) Point) []Point {
	if s.Op != sfnt.SegmentOpQuadTo {
		return append(to, place(s.Args[0]))
	}
	const pieces = 8
	p0, p1, p2 := to[len(to)-1], place(s.Args[0]), place(s.Args[1])
	for i := 1; i <= pieces; i++ {
		u := float64(i) / pieces
		a, b, c := (1-u)*(1-u), 2*u*(1-u), u*u
		to = append(to, Point{a*p0.X + b*p1.X + c*p2.X, a*p0.Y + b*p1.Y + c*p2.Y})
	}
	return to
}
