//go:build !js

// The engine in a browser prints nothing, and does without the large library for PDF.

package picture

import (
	"fmt"
	"io"
	"math"

	"codeberg.org/go-pdf/fpdf"

	"swingwright/internal/draw"
)

// Paper is what templates are printed on.
type Paper struct {
	Name          string
	Width, Height float64 // upright, mm; zero for one sheet as large as it takes
}

// Papers are those that templates can be printed on (ISO 216; ANSI/ASME Y14.1).
var Papers = []Paper{{"letter", 215.9, 279.4}, {"a4", 210, 297}, {"whole", 0, 0}}

// Margins of a tile and what neighbours share, mm. Common printers leave 4 to 6 mm blank.
const (
	tileSide    = 13.
	tileTop     = 25.
	tileBottom  = 22.
	TileOverlap = 15.
)

// Tile is one page of a drawing that is larger than the paper.
type Tile struct {
	Column, Row int        // from the upper left, from 0
	Part        draw.Box   // what it shows of the large sheet
	At          draw.Point // where on the page the upper left corner of that lies, y down
}

// Name is its letter and number: A1 at the upper left, B1 to the right of it.
func (t Tile) Name() string { return string(rune('A'+t.Column%26)) + fmt.Sprint(t.Row+1) }

// Tiling is how a drawing is shared out over pages.
type Tiling struct {
	Paper         Paper
	Width, Height float64 // of the pages, turned where that takes fewer
	Columns, Rows int
	Tiles         []Tile
}

// Tile shares the drawing out over pages of a paper, with an overlap between
// neighbours, upright or across, whichever takes fewer.
func (t *Template) Tile(paper Paper) Tiling {
	upright, across := tiling(t.Part, paper, paper.Width, paper.Height), tiling(t.Part, paper, paper.Height, paper.Width)
	if len(across.Tiles) < len(upright.Tiles) {
		return across
	}
	return upright
}

func tiling(part draw.Box, paper Paper, width, height float64) Tiling {
	w, h := width-2*tileSide, height-tileTop-tileBottom
	count := func(all, one float64) int { return max(1, int(math.Ceil((all-TileOverlap)/(one-TileOverlap)-1e-9))) }
	g := Tiling{Paper: paper, Width: width, Height: height}
	g.Columns, g.Rows = count(part.Max.X-part.Min.X, w), count(part.Max.Y-part.Min.Y, h)
	for row := range g.Rows {
		for column := range g.Columns {
			left := part.Min.X + float64(column)*(w-TileOverlap)
			top := part.Max.Y - float64(row)*(h-TileOverlap)
			g.Tiles = append(g.Tiles, Tile{
				Column: column, Row: row, At: draw.Point{X: tileSide, Y: tileTop},
				Part: draw.Box{Min: draw.Point{X: left, Y: max(top-h, part.Min.Y)}, Max: draw.Point{X: min(left+w, part.Max.X), Y: top}},
			})
		}
	}
	return g
}

// WriteTemplates writes the templates as one PDF: for each, pages that say what to
// drill and how, then its drawing at full size in tiles; or one large sheet each.
func WriteTemplates(w io.Writer, d draw.Document, all []*Template, paper Paper) error {
	if paper.Width == 0 {
		sheets := make([]*draw.Scene, len(all))
		for i, t := range all {
			sheets[i] = t.Whole
		}
		return draw.WritePDF(w, d, sheets...)
	}
	pdf := draw.NewPDF(d)
	for _, t := range all {
		if err := t.pages(pdf, paper); err != nil {
			return err
		}
	}
	return draw.FinishPDF(w, pdf)
}

// Printed is one page of a template: what is written on it, and on a tile the part
// of the drawing that lies below that.
type Printed struct {
	*draw.Scene
	// Title is the page's bookmark; empty where it goes on with the page before.
	Title string
	// Below is the drawing at full size, of which Part is seen, with its upper left
	// corner At so far from that of the page, y down; nil on a page of words.
	Below *draw.Scene
	Part  draw.Box
	At    draw.Point
}

// Print gives the pages of a template, without page numbers: those that say what to
// drill and how, then the drawing at full size in tiles.
func (t *Template) Print(paper Paper) (all []Printed) {
	tiles := t.Tile(paper)
	for i, s := range t.covers(paper, tiles) {
		one := Printed{Scene: s}
		if i == 0 {
			one.Title = t.title
		}
		all = append(all, one)
	}
	for _, tile := range tiles.Tiles {
		all = append(all, Printed{t.furniture(tiles, tile), "tile " + tile.Name(), t.Whole, tile.Part, tile.At})
	}
	return all
}

// pages adds the pages of one template.
func (t *Template) pages(pdf *fpdf.Fpdf, paper Paper) error {
	all := t.Print(paper)
	for i, p := range all {
		footer(p.Scene, i+1, len(all))
		pdf.AddPageFormat("P", fpdf.SizeType{Wd: p.Width, Ht: p.Height})
		level := 0
		if p.Below != nil {
			level = 1
		}
		if p.Title != "" {
			pdf.Bookmark(p.Title, level, 0)
		}
		if p.Below != nil {
			if err := draw.PlacePartPDF(pdf, p.Below, p.Part, p.At, 1); err != nil {
				return err
			}
		}
		if err := draw.PlacePDF(pdf, p.Scene, draw.Point{}, 1); err != nil {
			return err
		}
	}
	return nil
}

// covers are the pages of words: as many as they take.
func (t *Template) covers(paper Paper, tiles Tiling) (all []*draw.Scene) {
	const side, foot = 13., 16.
	var g *page
	begin := func() {
		g = &page{Scene: &draw.Scene{Width: paper.Width, Height: paper.Height}, y: paper.Height - side}
		all = append(all, g.Scene)
		upright(g, 7.8, g.y-40)
		name := draw.Text{At: draw.Point{X: side, Y: g.y}, Body: t.head[0], Height: 3.8, Bold: true, Level: draw.Top}
		fit(&name, paper.Width-2*side)
		g.Add(name)
		g.y -= 7
		for _, line := range t.head[1:] {
			g.column(side, paper.Width-2*side, draw.Text{Height: 2.8}, line)
		}
		g.y -= 3
	}
	begin()
	if n := len(tiles.Tiles); n > 1 {
		g.column(side, paper.Width-2*side, draw.Text{Height: 2.8}, fmt.Sprintf("%d tiles, %s to %s: cut B1 and on along the left frame, those below along the upper one; lay each on its neighbour's dashed line so that the half crosses become whole, and tape.", n, tiles.Tiles[0].Name(), tiles.Tiles[n-1].Name()))
		g.y -= 2
	}
	for _, b := range t.rows(paper.Width - 2*side) {
		if g.y-b.height < foot {
			begin()
		}
		b.put(g, side)
	}
	return all
}

// footer numbers a page, beside the index of the tiles.
func footer(s *draw.Scene, page, of int) {
	s.Add(draw.Text{At: draw.Point{X: tileSide + 104, Y: 8}, Body: fmt.Sprintf("page %d of %d", page, of), Height: 2.5})
}

// furniture is what surrounds a tile: who it is, bars, and how it meets its neighbours.
func (t *Template) furniture(all Tiling, tile Tile) *draw.Scene {
	g := &page{Scene: &draw.Scene{Width: all.Width, Height: all.Height}, y: all.Height - 8}
	room := all.Width - 2*tileSide
	name := draw.Text{At: draw.Point{X: tileSide, Y: g.y}, Body: t.head[0], Height: 2.8, Bold: true, Level: draw.Top}
	fit(&name, room-24)
	g.Add(name)
	g.y -= 4.6
	g.column(tileSide, room-22, draw.Text{Height: 2.2}, t.head[1]+" – "+t.head[2])
	g.Add(draw.Text{At: draw.Point{X: all.Width - tileSide, Y: all.Height - 8}, Body: tile.Name(), Height: 9, Bold: true, Anchor: draw.End, Level: draw.Top})
	// The box of the tile on the page, y up.
	low := draw.Point{X: tile.At.X, Y: all.Height - tile.At.Y - (tile.Part.Max.Y - tile.Part.Min.Y)}
	high := draw.Point{X: low.X + tile.Part.Max.X - tile.Part.Min.X, Y: all.Height - tile.At.Y}
	g.Add(draw.Rectangle(low, high, draw.Style{Width: 0.2}))
	cut := draw.Style{Width: 0.25, Dash: []float64{3, 2}}
	if tile.Column < all.Columns-1 {
		x := high.X - TileOverlap
		g.Add(draw.Line(draw.Point{X: x, Y: low.Y}, draw.Point{X: x, Y: high.Y}, cut))
		g.Add(draw.Text{At: draw.Point{X: high.X - 2, Y: (low.Y + high.Y) / 2}, Body: (Tile{Column: tile.Column + 1, Row: tile.Row}).Name() + " goes on top, its left frame on the dashed line", Height: 2.2, Rotation: math.Pi / 2, Anchor: draw.Middle, Halo: 0.5})
	}
	if tile.Row < all.Rows-1 {
		y := low.Y + TileOverlap
		g.Add(draw.Line(draw.Point{X: low.X, Y: y}, draw.Point{X: high.X, Y: y}, cut))
		g.Add(draw.Text{At: draw.Point{X: (low.X + high.X) / 2, Y: low.Y + 2}, Body: (Tile{Column: tile.Column, Row: tile.Row + 1}).Name() + " goes on top, its upper frame on the dashed line", Height: 2.2, Anchor: draw.Middle, Halo: 0.5})
	}
	for _, c := range crosses(all, tile, low, high) {
		register(g.Scene, c)
	}
	ruler(g, draw.Point{X: tileSide, Y: 11}, 100, 10, 2.4, "100 mm")
	upright(g, 7.8, all.Height-tileTop)
	g.Add(draw.Text{At: draw.Point{X: tileSide + 104, Y: 14}, Body: "Measure before drilling.", Height: 2.6, Bold: true, Level: draw.Top})
	index(g, all, tile, draw.Point{X: all.Width - tileSide, Y: 18})
	return g.Scene
}

// crosses are where register marks lie: on the dashed line of a tile, and on the frame
// of the neighbour that goes on top, at the same places of the drawing on both.
func crosses(all Tiling, tile Tile, low, high draw.Point) (at []draw.Point) {
	w, h := all.Width-2*tileSide, all.Height-tileTop-tileBottom
	for _, share := range []float64{0.2, 0.7} {
		if y := high.Y - share*h; y > low.Y {
			if tile.Column < all.Columns-1 {
				at = append(at, draw.Point{X: high.X - TileOverlap, Y: y})
			}
			if tile.Column > 0 {
				at = append(at, draw.Point{X: low.X, Y: y})
			}
		}
		if x := low.X + share*w; x < high.X {
			if tile.Row < all.Rows-1 {
				at = append(at, draw.Point{X: x, Y: low.Y + TileOverlap})
			}
			if tile.Row > 0 {
				at = append(at, draw.Point{X: x, Y: high.Y})
			}
		}
	}
	return at
}

func register(s *draw.Scene, c draw.Point) {
	thin := draw.Style{Width: 0.15}
	s.Add(draw.Circle{Center: c, Radius: 2.5, Style: thin},
		draw.Line(draw.Point{X: c.X - 5, Y: c.Y}, draw.Point{X: c.X + 5, Y: c.Y}, thin),
		draw.Line(draw.Point{X: c.X, Y: c.Y - 5}, draw.Point{X: c.X, Y: c.Y + 5}, thin))
}

// index shows which of the tiles this is, ending at a place.
func index(g *page, all Tiling, tile Tile, end draw.Point) {
	if len(all.Tiles) == 1 {
		return
	}
	size := min(5, 24/float64(all.Columns), 9/float64(all.Rows)+1)
	for _, one := range all.Tiles {
		x, y := end.X-float64(all.Columns-one.Column)*size, end.Y-float64(one.Row)*size
		style := draw.Style{Width: 0.2}
		if one == tile {
			style.Fill = draw.Ink
		}
		g.Add(draw.Rectangle(draw.Point{X: x, Y: y}, draw.Point{X: x + size, Y: y - size}, style))
	}
}
