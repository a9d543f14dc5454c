package picture

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"image"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"swingwright/drilling"
	"swingwright/internal/draw"
	"swingwright/internal/reference"
	"swingwright/judge"
	"swingwright/opening"
	"swingwright/plan"
	"swingwright/quantity"
)

// drilled are the templates of an opening of the demonstration, after a change.
func drilled(t testing.TB, id string, sys quantity.System, change func(o *opening.Opening)) ([]*Template, *plan.Holes) {
	t.Helper()
	j, books := demo(t)
	for i := range j.Openings {
		if o := &j.Openings[i]; o.ID == id {
			if change != nil {
				change(o)
			}
			p := plan.Make(o, &j.Sheets, books, quick)
			h := p.Holes(&j.Sheets, judge.Policy{})
			all := Templates(p, h, Sheet{Job: j.Name, Date: j.Date}, sys)
			if len(all) == 0 {
				t.Fatalf("opening %s has no templates: %v", id, h.Problems)
			}
			return all, h
		}
	}
	t.Fatalf("no opening %s", id)
	return nil, nil
}

// sheetHole is a hole as its sheet has it, worked by hand into millimetres from the two
// edges that its template is held to.
type sheetHole struct {
	name        string
	x, y, d     float64 // from the hinge side, from the other edge, diameter, mm
	right, down bool    // whether the face lies to the right of its corner, and below it
}

// asked are the holes of some templates, from the sheets of the demonstration by hand.
// 102 is left hand: its push face has the hinges at the left, its pull face at the right;
// pin 3 mm from the leaf's edge and, with the assumed gap of 1/8 in, 0.175 mm from the
// rabbet. 103 is right hand reverse, so the hinges are left on its push side too. 111 is
// right hand: hinges left on its pull face, pin 1/8 in from the edge.
var asked = map[string]map[string][]sheetHole{
	"102": {
		"holes-operator-add-on-d1-leaf-push": {
			{"D1", 76.2 - 3, 28.575, 9.525, true, true}, {"D2", 342.9 - 3, 28.575, 9.525, true, true},
			{"D3", 76.2 - 3, 92.075, 9.525, true, true}, {"D4", 342.9 - 3, 92.075, 9.525, true, true},
			{"D5", 311.15 - 3, 57.15, 12.7, true, true},
		},
		"holes-operator-add-on-d1-leaf-pull": {
			{"D1", 76.2 - 3, 28.575, 9.525, false, true}, {"D2", 342.9 - 3, 28.575, 9.525, false, true},
			{"D3", 76.2 - 3, 92.075, 9.525, false, true}, {"D4", 342.9 - 3, 92.075, 9.525, false, true},
		},
		"holes-door-loop-loop-f1-leaf-push": {
			{"L1", 25.4, 285.75, 3.175, true, true}, {"L2", 25.4, 349.25, 3.175, true, true}, {"L3", 25.4, 317.5, 9.525, true, true},
		},
		"holes-door-loop-loop-f1-hinge-jamb-push": { // out from the opening is to the left
			{"L4", 25.4, 285.75, 3.175, false, true}, {"L5", 25.4, 349.25, 3.175, false, true},
		},
		"holes-arm-parallel-arm-p-soffit-push": { // the leaf below
			{"S1", 247.65 + 0.175, 15.875, 4.4958, true, false}, {"S2", 285.75 + 0.175, 15.875, 4.4958, true, false}, {"S3", 266.7 + 0.175, 34.925, 4.4958, true, false},
		},
	},
	"103": {
		"holes-operator-add-on-d2-head-push": { // pin and rabbet: 1/8 in less 1/8 in
			{"D1", 63.5, 12.7, 5.1054, true, false}, {"D2", 381, 12.7, 5.1054, true, false},
			{"D3", 63.5, 44.45, 5.1054, true, false}, {"D4", 381, 44.45, 5.1054, true, false},
		},
	},
	"111": {
		"holes-cable-plate-f2-leaf-pull": {{"W1", 127, 203.2, 28.575, true, true}},
		"holes-cable-plate-f2-leaf-push": {{"W1", 127, 203.2, 28.575, false, true}},
	},
}

// forAll lets the templates of an opening show every face.
func forAll(o *opening.Opening) {
	o.Drilling.For = []opening.Fixing{opening.OperatorHoles, opening.ArmHoles, opening.LoopHoles}
	if o.ID != "102" {
		o.Drilling.For = nil
	}
}

// printedAt is the resolution at which pages are measured: a tenth of a millimetre.
const printedAt = 254

// TestPrintedTemplates measures the holes on the pages that poppler prints, of every
// paper: their middles, from the edges as printed, and their diameters, within 0.2 mm.
func TestPrintedTemplates(t *testing.T) {
	if testing.Short() {
		t.Skip("asks poppler")
	}
	var worst, worstD float64
	measured := 0
	for id, templates := range asked {
		for _, sys := range []quantity.System{quantity.US, quantity.SI} {
			all, _ := drilled(t, id, sys, forAll)
			for _, paper := range Papers {
				if sys == quantity.SI && paper.Name != "a4" || sys == quantity.US && paper.Name == "a4" {
					continue // a paper for each
				}
				for _, one := range all {
					holes := templates[one.Name]
					if holes == nil {
						continue
					}
					pages := pagesOf(t, one, paper)
					across, up := edgesOn(t, one, pages, holes[0])
					for _, want := range holes {
						n := 0
						for _, page := range pages {
							x, y := across+sign(want.right)*want.x, up-sign(want.down)*want.y
							got, d, ok := page.circle(x, y, want.d/2)
							if !ok {
								continue
							}
							n++
							measured++
							off := math.Hypot(got.X-x, got.Y-y)
							worst, worstD = max(worst, off), max(worstD, math.Abs(d-want.d))
							if off > 0.2 || math.Abs(d-want.d) > 0.2 {
								t.Errorf("%s of %s on %s: hole %s lies %.2f mm off and is %.2f mm wide, want %.2f", one.Name, id, paper.Name, want.name, off, d, want.d)
							}
						}
						if n == 0 {
							t.Errorf("%s of %s on %s: hole %s is on no page", one.Name, id, paper.Name, want.name)
						}
					}
				}
			}
		}
	}
	t.Logf("%d printed holes: middles at most %.3f mm off, diameters %.3f mm", measured, worst, worstD)
	if measured < 60 {
		t.Errorf("only %d holes were measured", measured)
	}
}

func sign(positive bool) float64 {
	if positive {
		return 1
	}
	return -1
}

// printedPage is a page as printed, and where on the large sheet it lies.
type printedPage struct {
	image *image.Gray
	part  draw.Box   // of the large sheet
	at    draw.Point // where on the page its upper left corner lies, mm, y down
}

// pagesOf are the pages with the drawing of one template.
func pagesOf(t testing.TB, one *Template, paper Paper) (all []printedPage) {
	t.Helper()
	var b bytes.Buffer
	if err := WriteTemplates(&b, draw.Document{Title: "t"}, []*Template{one}, paper); err != nil {
		t.Fatal(err)
	}
	images, err := reference.Pages(b.Bytes(), printedAt)
	if err != nil {
		t.Fatal(err)
	}
	if paper.Width == 0 {
		return []printedPage{{images[0], draw.Box{Max: draw.Point{X: one.Whole.Width, Y: one.Whole.Height}}, draw.Point{}}}
	}
	tiles := one.Tile(paper)
	images = images[len(images)-len(tiles.Tiles):]
	for i, tile := range tiles.Tiles {
		all = append(all, printedPage{images[i], tile.Part, tile.At})
	}
	return all
}

// dark is how black the page is at a place of the large sheet, 0 to 1; 0 outside.
func (p *printedPage) dark(x, y float64) float64 {
	if x < p.part.Min.X || x > p.part.Max.X || y < p.part.Min.Y || y > p.part.Max.Y {
		return 0
	}
	const scale = printedAt / 25.4
	px, py := (p.at.X+x-p.part.Min.X)*scale-0.5, (p.at.Y+p.part.Max.Y-y)*scale-0.5
	ix, iy := math.Floor(px), math.Floor(py)
	fx, fy := px-ix, py-iy
	ink := func(dx, dy int) float64 {
		q := image.Pt(int(ix)+dx, int(iy)+dy)
		if !q.In(p.image.Rect) {
			return 0
		}
		return 1 - float64(p.image.GrayAt(q.X, q.Y).Y)/255
	}
	return (1-fx)*(1-fy)*ink(0, 0) + fx*(1-fy)*ink(1, 0) + (1-fx)*fy*ink(0, 1) + fx*fy*ink(1, 1)
}

// ridge is the middle of the ink along a stretch from one place in a direction, within
// a reach either way; ok is false where there is none, or far too much.
func (p *printedPage) ridge(x, y, dx, dy, reach, thick float64) (at float64, ok bool) {
	const step = 0.02
	sum, moment := 0., 0.
	for s := -reach; s <= reach; s += step {
		d := p.dark(x+s*dx, y+s*dy)
		if d < 0.15 {
			d = 0
		}
		sum, moment = sum+d*step, moment+d*s*step
	}
	return moment / sum, sum > 0.5*thick && sum < 1.8*thick
}

// circle measures a circle that is printed near a place: its middle and diameter. The
// cross through it is kept out, and so are places where something else is printed.
func (p *printedPage) circle(x, y, r float64) (middle draw.Point, diameter float64, ok bool) {
	const reach = 0.45
	if x-r-1 < p.part.Min.X || x+r+1 > p.part.Max.X || y-r-1 < p.part.Min.Y || y+r+1 > p.part.Max.Y {
		return middle, 0, false
	}
	var points []draw.Point
	for i := range 360 {
		a := float64(i) * math.Pi / 180
		sin, cos := math.Sincos(a)
		if math.Min(math.Abs(sin), math.Abs(cos)) < 0.2 {
			continue
		}
		if at, found := p.ridge(x+r*cos, y+r*sin, cos, sin, reach, holeLine); found {
			points = append(points, draw.Point{X: (r + at) * cos, Y: (r + at) * sin})
		}
	}
	if len(points) < 60 {
		return middle, 0, false
	}
	cx, cy, radius := fitted(points)
	return draw.Point{X: x + cx, Y: y + cy}, 2 * radius, true
}

// fitted is the circle through points in the least squares (I. Kåsa, "A circle fitting
// procedure and its error analysis", IEEE Trans. Instrum. Meas. 25 (1976) 8-14).
func fitted(points []draw.Point) (cx, cy, r float64) {
	var a [3][4]float64
	for _, p := range points {
		row := [4]float64{p.X, p.Y, 1, p.X*p.X + p.Y*p.Y}
		for i := range 3 {
			for k := range 4 {
				a[i][k] += row[i] * row[k]
			}
		}
	}
	for i := range 3 {
		for k := range 3 {
			if k != i {
				f := a[k][i] / a[i][i]
				for c := range 4 {
					a[k][c] -= f * a[i][c]
				}
			}
		}
	}
	b := [3]float64{a[0][3] / a[0][0], a[1][3] / a[1][1], a[2][3] / a[2][2]}
	cx, cy = b[0]/2, b[1]/2
	return cx, cy, math.Sqrt(b[2] + cx*cx + cy*cy)
}

// edgesOn finds the two heavy lines that the paper is held to, as printed, from where a
// corner of the drawing puts them: a rim in from its frame.
func edgesOn(t testing.TB, one *Template, pages []printedPage, of sheetHole) (across, up float64) {
	t.Helper()
	x, y := one.Part.Min.X+rim, one.Part.Max.Y-rim
	if !of.right {
		x = one.Part.Max.X - rim
	}
	if !of.down {
		y = one.Part.Min.Y + rim
	}
	find := func(dx, dy float64) float64 {
		for _, p := range pages {
			sum, n := 0., 0.
			for s := 7.; s < 40; s += 0.5 { // along the line, inside the face, past ticks
				at, ok := p.ridge(x+s*dy*sign(of.right), y-s*dx*sign(of.down), dx, dy, 1, edgeLine)
				if ok {
					sum, n = sum+at, n+1
				}
			}
			if n > 10 {
				return sum / n
			}
		}
		t.Fatalf("%s: no edge line near (%v, %v)", one.Name, x, y)
		return 0
	}
	return x + find(1, 0), y + find(0, 1)
}

// Neighbouring tiles show the same register crosses at the same places of the drawing.
func TestTilesMeet(t *testing.T) {
	if testing.Short() {
		t.Skip("asks poppler")
	}
	all, _ := drilled(t, "102", quantity.US, forAll)
	met := 0
	for _, paper := range Papers[:1] {
		for _, one := range all {
			tiles, pages := one.Tile(paper), pagesOf(t, one, paper)
			for i, tile := range tiles.Tiles {
				low := draw.Point{X: tile.Part.Min.X, Y: tile.Part.Min.Y}
				high := draw.Point{X: tile.Part.Max.X, Y: tile.Part.Max.Y}
				for _, c := range crosses(tiles, tile, low, high) {
					if tile.Column == tiles.Columns-1 && c.X == low.X || tile.Row == tiles.Rows-1 && c.Y == high.Y && tiles.Columns == 1 {
						continue // on the frame only half of it is inside
					}
					got, d, ok := pages[i].circle(c.X, c.Y, 2.5)
					if !ok {
						continue
					}
					met++
					if math.Hypot(got.X-c.X, got.Y-c.Y) > 0.2 || math.Abs(d-5) > 0.2 {
						t.Errorf("%s, tile %s: the cross of %v lies at %v", one.Name, tile.Name(), c, got)
					}
				}
			}
		}
	}
	t.Logf("%d crosses measured", met)
	if met < 4 {
		t.Errorf("only %d crosses were found", met)
	}
}

// Whatever the size: tiles cover the drawing, neighbours share the overlap, nothing but
// the last is smaller than the room, and crosses of neighbours fall together.
func TestTilingCovers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.Float64Range(30, 2200).Draw(t, "width"), rapid.Float64Range(30, 2200).Draw(t, "height")
		x, y := rapid.Float64Range(0, 50).Draw(t, "x"), rapid.Float64Range(0, 50).Draw(t, "y")
		one := &Template{Part: draw.Box{Min: draw.Point{X: x, Y: y}, Max: draw.Point{X: x + w, Y: y + h}}}
		g := one.Tile(Papers[rapid.IntRange(0, 1).Draw(t, "paper")])
		if len(g.Tiles) != g.Columns*g.Rows {
			t.Fatalf("%d tiles in %d by %d", len(g.Tiles), g.Columns, g.Rows)
		}
		names := map[string]bool{}
		for i, tile := range g.Tiles {
			names[tile.Name()] = true
			p := tile.Part
			if p.Max.X-p.Min.X > g.Width-2*tileSide+1e-9 || p.Max.Y-p.Min.Y > g.Height-tileTop-tileBottom+1e-9 || p.Max.X <= p.Min.X || p.Max.Y <= p.Min.Y {
				t.Fatalf("tile %s of %v does not fit", tile.Name(), p)
			}
			if first := tile.Column == 0; first != (p.Min.X == x) && !first {
				t.Fatalf("tile %s begins at the left", tile.Name())
			}
			if tile.Column == g.Columns-1 && math.Abs(p.Max.X-x-w) > 1e-9 || tile.Row == g.Rows-1 && math.Abs(p.Min.Y-y) > 1e-9 || tile.Row == 0 && math.Abs(p.Max.Y-y-h) > 1e-9 {
				t.Fatalf("tile %s leaves an edge of the drawing out", tile.Name())
			}
			if tile.Column+1 < g.Columns {
				right := g.Tiles[i+1].Part
				if math.Abs(p.Max.X-right.Min.X-TileOverlap) > 1e-9 {
					t.Fatalf("tile %s shares %v mm with its right neighbour", tile.Name(), p.Max.X-right.Min.X)
				}
			}
			if tile.Row+1 < g.Rows {
				if below := g.Tiles[i+g.Columns].Part; math.Abs(below.Max.Y-p.Min.Y-TileOverlap) > 1e-9 {
					t.Fatalf("tile %s shares %v mm with the one below", tile.Name(), below.Max.Y-p.Min.Y)
				}
			}
		}
		if len(names) != len(g.Tiles) {
			t.Fatalf("%d names for %d tiles", len(names), len(g.Tiles))
		}
	})
}

// The same drawing as SVG: circles at the same places, in millimetres of its view box.
func TestTemplateSVG(t *testing.T) {
	for id := range asked {
		all, _ := drilled(t, id, quantity.SI, forAll)
		for _, one := range all {
			var b bytes.Buffer
			if err := draw.WriteSVG(&b, one.Whole); err != nil {
				t.Fatal(err)
			}
			got := circlesOf(t, b.String())
			for name, at := range one.Holes {
				c, ok := got[name]
				if !ok || math.Hypot(c[0]-at.X, one.Whole.Height-c[1]-at.Y) > 0.002 {
					t.Errorf("%s: %s is at %v, want %v", one.Name, name, c, at)
				}
			}
		}
	}
}

// circlesOf are the circles of an SVG that have a title: middle and radius.
func circlesOf(t testing.TB, svg string) map[string][3]float64 {
	t.Helper()
	found := map[string][3]float64{}
	decoder := xml.NewDecoder(strings.NewReader(svg))
	var last [3]float64
	inside, title := false, false
	for {
		token, err := decoder.Token()
		if err == io.EOF {
			return found
		}
		if err != nil {
			t.Fatal(err)
		}
		switch e := token.(type) {
		case xml.StartElement:
			switch e.Name.Local {
			case "circle":
				inside = true
				for _, a := range e.Attr {
					if i := strings.Index("cx cy r", a.Name.Local); i >= 0 {
						last[i/3], _ = strconv.ParseFloat(a.Value, 64)
					}
				}
			case "title":
				title = true
			}
		case xml.EndElement:
			title = false
			inside = inside && e.Name.Local != "circle"
		case xml.CharData:
			if inside && title {
				found[string(e)] = last
			}
		}
	}
}

// The same drawing as DXF, read back by ezdxf: the circles of the holes on their layer,
// from the lines of the edges as the sheets have it.
func TestTemplateDXF(t *testing.T) {
	if testing.Short() {
		t.Skip("asks ezdxf")
	}
	var drawings []string
	var names []string
	var holes [][]sheetHole
	for id, templates := range asked {
		all, _ := drilled(t, id, quantity.US, forAll)
		for _, one := range all {
			if templates[one.Name] == nil {
				continue
			}
			var b bytes.Buffer
			if err := draw.WriteDXF(&b, one.Whole); err != nil {
				t.Fatal(err)
			}
			drawings, names, holes = append(drawings, b.String()), append(names, one.Name+" of "+id), append(holes, templates[one.Name])
		}
	}
	var read []struct {
		Units    int
		Errors   []string
		Entities []struct {
			Kind, Layer string
			Points      [][2]float64
			Radius      float64
		}
	}
	if err := reference.Ezdxf.Ask("../internal/draw/testdata/read_dxf.py", drawings, &read); err != nil {
		t.Fatal(err)
	}
	for i, d := range read {
		if d.Units != 4 || len(d.Errors) > 0 {
			t.Errorf("%s: units %d, errors %v", names[i], d.Units, d.Errors)
		}
		x, y := math.NaN(), math.NaN() // the edge lines
		for _, e := range d.Entities {
			if e.Layer == "edges" && e.Kind == "LINE" {
				if e.Points[0][0] == e.Points[1][0] {
					x = e.Points[0][0]
				} else {
					y = e.Points[0][1]
				}
			}
		}
		for _, want := range holes[i] {
			n := 0
			for _, e := range d.Entities {
				if e.Layer == "holes" && e.Kind == "CIRCLE" && math.Abs(e.Points[0][0]-x-sign(want.right)*want.x) < 0.002 && math.Abs(e.Points[0][1]-y+sign(want.down)*want.y) < 0.002 && math.Abs(2*e.Radius-want.d) < 0.002 {
					n++
				}
			}
			if n != 1 {
				t.Errorf("%s: hole %s is there %d times", names[i], want.name, n)
			}
		}
	}
	if len(read) < 8 {
		t.Errorf("only %d drawings were read back", len(read))
	}
}

// The text of the pages can be selected, its fonts are in the file, and the same job
// gives the same bytes.
func TestTemplateText(t *testing.T) {
	if testing.Short() {
		t.Skip("asks poppler")
	}
	all, h := drilled(t, "111", quantity.US, nil)
	write := func() []byte {
		var b bytes.Buffer
		if err := WriteTemplates(&b, draw.Document{Title: "Templates", Made: time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC)}, all, Papers[0]); err != nil {
			t.Fatal(err)
		}
		return b.Bytes()
	}
	pdf := write()
	if !bytes.Equal(pdf, write()) {
		t.Error("written twice it differs")
	}
	words, err := reference.Words(pdf)
	if err != nil {
		t.Fatal(err)
	}
	words = strings.Join(strings.Fields(plainSpaces(words)), " ")
	for _, want := range []string{"opening 111", "Hand RH. As you face it: hinges at your left.", "hinges at your right.", "TOP EDGE OF THE LEAF", "HINGE EDGE OF THE LEAF", "MEASURE BEFORE DRILLING", "100 mm", "4 in", "STOP – asbestos", "STOP – laboratory", "1-1/8 in", "page 1 of", "Harbour Street Clinic, street floor"} {
		if !strings.Contains(words, want) {
			t.Errorf("%q is not to be read", want)
		}
	}
	for _, c := range h.Cautions {
		if !strings.Contains(strings.ReplaceAll(words, " ", ""), strings.ReplaceAll(c.Say[:40], " ", "")) {
			t.Errorf("the caution %q is missing", c.Say)
		}
	}
	fonts, err := reference.Fonts(pdf)
	if err != nil || len(fonts) != 2 {
		t.Fatalf("fonts %v, %v", fonts, err)
	}
	for _, f := range fonts {
		if !f.Embedded || !f.Unicode {
			t.Errorf("font %+v", f)
		}
	}
}

// The bars are as long as they say, both ways, on the first page and on every tile.
func TestBarsAreTrue(t *testing.T) {
	if testing.Short() {
		t.Skip("asks poppler")
	}
	all, _ := drilled(t, "102", quantity.SI, nil)
	var b bytes.Buffer
	if err := WriteTemplates(&b, draw.Document{}, all[:1], Papers[1]); err != nil {
		t.Fatal(err)
	}
	pages, err := reference.Pages(b.Bytes(), printedAt)
	if err != nil {
		t.Fatal(err)
	}
	tiles := len(all[0].Tile(Papers[1]).Tiles)
	for i, page := range pages {
		if i > 0 && i < len(pages)-tiles {
			continue // words that went on
		}
		longest := [2]int{} // runs of black dots, across and up
		runs := func(n, m int, black func(a, b int) bool) (most int) {
			for a := range n {
				run := 0
				for b := range m {
					if !black(a, b) {
						run = 0
						continue
					}
					run++
					if run > most && run < 1010 { // longer ones are lines of the drawing
						most = run
					}
				}
			}
			return most
		}
		w, h := page.Rect.Dx(), page.Rect.Dy()
		black := func(x, y int) bool { return page.GrayAt(x, y).Y < 60 }
		// In the left margin the bar that goes up; for the other, a bar is 3 mm high.
		longest[1] = runs(115, h, func(x, y int) bool { return black(x, y) })
		longest[0] = runs(h-25, w-0, func(y, x int) bool { return x > 125 && black(x, y) && black(x, y+12) && black(x, y+24) })
		for way, got := range longest {
			if got < 998 || got > 1017 || way == 1 && got > 1002 {
				t.Errorf("page %d: the bar %s is %d tenths of a millimetre long", i+1, [2]string{"across", "up"}[way], got)
			}
		}
	}
}

// What must not be guessed is not drawn.
func TestNoTemplatesOfTheImpossible(t *testing.T) {
	j, books := demo(t)
	o := &j.Openings[1]
	p := plan.Make(o, &j.Sheets, books, quick)
	good := p.Holes(&j.Sheets, judge.Policy{})
	noHand := *good
	layout := *good.Layout
	layout.HandKnown = false
	noHand.Layout = &layout
	if got := Templates(p, &noHand, Sheet{}, quantity.US); got != nil {
		t.Error("a template for an unknown hand")
	}
	bad := *good
	broken := *good.Layout
	broken.Problems = []drilling.Problem{{Hole: "A", Found: "off", Hint: "mend"}}
	bad.Layout = &broken
	if got := Templates(p, &bad, Sheet{}, quantity.US); got != nil {
		t.Error("a template of an impossible pattern")
	}
	names := map[string]bool{}
	for _, one := range Templates(p, good, Sheet{}, quantity.US) {
		if names[one.Name] {
			t.Errorf("two templates are named %s", one.Name)
		}
		names[one.Name] = true
	}
	if len(names) == 0 || !names["holes-operator-add-on-d1-leaf-push"] {
		t.Error(fmt.Sprint(names))
	}
}
