package draw

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/png"
	"math"
	"strings"
	"testing"
)

func pngOf(t testing.TB, s *Scene, dpi float64) *image.RGBA {
	t.Helper()
	var b bytes.Buffer
	if err := WritePNG(&b, s, dpi); err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(&b)
	if err != nil {
		t.Fatal(err)
	}
	return img.(*image.RGBA) // what the decoder makes of 8 bits a colour and no holes
}

// dark is how black a dot is, 0 to 1.
func dark(img *image.RGBA, x, y int) float64 {
	return 1 - float64(img.RGBAAt(x, y).G)/255
}

// inked is the area that is black, in dots, and the box of dots that are more
// than half so.
func inked(img *image.RGBA) (area float64, box image.Rectangle) {
	r := img.Bounds()
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			d := dark(img, x, y)
			area += d
			if d > 0.5 {
				box = box.Union(image.Rect(x, y, x+1, y+1))
			}
		}
	}
	return area, box
}

// tenth has ten dots to the millimetre.
const tenth = 254

func TestHundredMillimetresAreAThousandDots(t *testing.T) {
	for _, c := range []struct {
		from, to   Point
		wide, high int
	}{
		{Point{10, 20}, Point{110, 20}, 1000, 10},
		{Point{20, 10}, Point{20, 110}, 10, 1000},
	} {
		s := &Scene{Width: 120, Height: 120}
		s.Add(Line(c.from, c.to, Style{Width: 1}))
		img := pngOf(t, s, tenth)
		if img.Bounds() != image.Rect(0, 0, 1200, 1200) {
			t.Fatalf("image %v", img.Bounds())
		}
		_, box := inked(img)
		if math.Abs(float64(box.Dx()-c.wide)) > 1 || math.Abs(float64(box.Dy()-c.high)) > 1 {
			t.Errorf("line from %v to %v covers %v, want %d by %d", c.from, c.to, box.Size(), c.wide, c.high)
		}
		if want := (image.Point{int(c.from.X) * 10, 1200 - int(c.to.Y)*10}); box.Min.Sub(want).X < -5 || box.Min.Sub(want).Y < -5 || box.Min.Sub(want).X > 1 || box.Min.Sub(want).Y > 1 {
			t.Errorf("line from %v begins at dot %v", c.from, box.Min)
		}
	}
}

// TestAreas compares the ink with areas from geometry.
func TestAreas(t *testing.T) {
	zigzag := []Point{{10, 10}, {40, 10}, {40, 40}}
	for _, c := range []struct {
		name string
		item Item
		want float64 // mm²
	}{
		{"disc", Circle{Center: Point{25, 25}, Radius: 15, Style: Style{Fill: Ink}}, math.Pi * 225},
		{"ring", Circle{Center: Point{25, 25}, Radius: 15, Style: Style{Width: 2}}, 2 * math.Pi * 15 * 2},
		{"half ring", Arc{Center: Point{25, 25}, Radius: 15, From: 1, To: 1 + math.Pi, Style: Style{Width: 2}}, math.Pi * 15 * 2},
		{"half ring clockwise", Arc{Center: Point{25, 25}, Radius: 15, From: 1, To: 1 - math.Pi, Style: Style{Width: 2}}, math.Pi * 15 * 2},
		{"triangle", Path{Points: []Point{{5, 5}, {45, 5}, {20, 35}}, Closed: true, Style: Style{Fill: Ink}}, 40 * 30 / 2},
		{"slanted line", Line(Point{5, 5}, Point{35, 45}, Style{Width: 1.5}), 50 * 1.5},
		// Sides of 30 with round corners outside, square ones inside, r = 2:
		// 8·30·r - (4 - π)·r².
		{"square outline", Rectangle(Point{10, 10}, Point{40, 40}, Style{Width: 4}), 8*30*2 - (4-math.Pi)*4},
		// One round corner: a quarter disc for the outside, a square lost inside.
		{"corner", Path{Points: zigzag, Style: Style{Width: 4}}, 2*30*4 - (4 - math.Pi)},
		{"repeated points", Path{Points: []Point{{10, 10}, {10, 10}, {40, 10}, {40, 10}}, Style: Style{Width: 4}}, 30 * 4},
		{"nothing but one point", Path{Points: []Point{{10, 10}, {10, 10}}, Style: Style{Width: 4}}, 0},
		// Marks of 3 and gaps of 2 on 30 mm: six marks.
		{"dashes", Line(Point{10, 10}, Point{40, 10}, Style{Width: 2, Dash: []float64{3, 2}}), 6 * 3 * 2},
		// An odd pattern goes on alternating: 4 on, 4 off, as SVG 1.1, 11.4, has it.
		{"odd dashes", Line(Point{10, 10}, Point{42, 10}, Style{Width: 2, Dash: []float64{4}}), 4 * 4 * 2},
		{"dashes round a closed path", Rectangle(Point{10, 10}, Point{40, 40}, Style{Width: 1, Dash: []float64{10, 5}}), 8 * 10},
		// Nothing is counted twice where a line meets itself.
		{"retraced line", Path{Points: []Point{{10, 10}, {40, 10}, {10, 10}}, Style: Style{Width: 2}}, 30*2 + math.Pi/2},
		{"outside the page", Line(Point{-30, 25}, Point{80, 25}, Style{Width: 2}), 50 * 2},
		{"all outside", Circle{Center: Point{200, 25}, Radius: 10, Style: Style{Fill: Ink}}, 0},
	} {
		s := &Scene{Width: 50, Height: 50}
		s.Add(c.item)
		area, _ := inked(pngOf(t, s, tenth))
		// 0.3 % for flattened curves and 8-bit shades.
		if area /= 100; math.Abs(area-c.want) > 0.003*c.want {
			t.Errorf("%s: %v mm², want %v", c.name, area, c.want)
		}
	}
}

func TestSmoothCurveHasEvenWidth(t *testing.T) {
	// A sine of many short pieces: its ink is its length times its width.
	var points []Point
	length := 0.
	for i := range 2001 {
		x := 5 + 40*float64(i)/2000
		points = append(points, Point{x, 25 + 10*math.Sin(x/3)})
		if i > 0 {
			length += math.Hypot(points[i].X-points[i-1].X, points[i].Y-points[i-1].Y)
		}
	}
	s := &Scene{Width: 50, Height: 50}
	s.Add(Path{Points: points, Style: Style{Width: 0.5}})
	if area, _ := inked(pngOf(t, s, tenth)); math.Abs(area/100-0.5*length) > 0.005*length {
		t.Errorf("ink %v mm², want %v", area/100, 0.5*length)
	}
}

func TestLetters(t *testing.T) {
	one := func(text Text) (*image.RGBA, image.Rectangle) {
		s := &Scene{Width: 60, Height: 60}
		text.At = Point{30, 30}
		s.Add(text)
		img := pngOf(t, s, tenth)
		_, box := inked(img)
		return img, box
	}
	// A capital is as high as it was asked to be and stands on its place, 30 mm
	// down from the top of the page.
	if _, box := one(Text{Body: "H", Height: 10}); math.Abs(float64(box.Dy())-100) > 2 || math.Abs(float64(box.Max.Y-300)) > 2 || box.Min.X < 299 {
		t.Errorf("H covers %v", box)
	}
	if _, box := one(Text{Body: "H", Height: 10, Level: Top, Anchor: End}); math.Abs(float64(box.Min.Y-300)) > 2 || box.Max.X > 301 {
		t.Errorf("H from the top, ending there, covers %v", box)
	}
	if _, box := one(Text{Body: "H", Height: 10, Level: Centre, Anchor: Middle}); math.Abs(float64(box.Min.Y+box.Max.Y)/2-300) > 2 || math.Abs(float64(box.Min.X+box.Max.X)/2-300) > 3 {
		t.Errorf("centred H covers %v", box)
	}
	if _, box := one(Text{Body: "H", Height: 10, Rotation: math.Pi / 2}); math.Abs(float64(box.Dx())-100) > 2 || math.Abs(float64(box.Max.X-300)) > 2 || box.Max.Y > 301 {
		t.Errorf("H reading upwards covers %v", box)
	}
	img, box := one(Text{Body: "O", Height: 10})
	if middle := box.Min.Add(box.Max).Div(2); dark(img, middle.X, middle.Y) > 0 || dark(img, box.Min.X+3, middle.Y) < 1 {
		t.Error("O is not open inside, or has no side")
	}
	text := Text{Body: "Width of words", Height: 4}
	if _, box := one(Text{Body: text.Body, Height: 4, Anchor: Middle}); math.Abs(float64(box.Dx())/10-text.Width()) > 0.6 {
		t.Errorf("%v dots wide, told %v mm", box.Dx(), text.Width())
	}
	bold, _ := one(Text{Body: "H", Height: 10, Bold: true})
	plain, _ := one(Text{Body: "H", Height: 10})
	if b, _ := inked(bold); b < 1.2*first(inked(plain)) {
		t.Error("bold is not bolder")
	}
}

func first(area float64, _ image.Rectangle) float64 { return area }

func TestHaloKeepsALineOut(t *testing.T) {
	s := &Scene{Width: 30, Height: 20}
	s.Add(Line(Point{0, 12}, Point{30, 12}, Style{Width: 1}), Text{At: Point{15, 10}, Body: "I", Height: 5, Anchor: Middle, Halo: 1})
	img := pngOf(t, s, tenth)
	row := 80
	if dark(img, 150, row) < 0.9 || dark(img, 20, row) < 0.9 {
		t.Error("letter or line is missing")
	}
	if dark(img, 150+9, row) > 0.1 || dark(img, 150-9, row) > 0.1 {
		t.Error("the line runs into the letter")
	}
}

func TestPNGStatesItsSize(t *testing.T) {
	var b bytes.Buffer
	if err := WritePNG(&b, &Scene{Width: 10, Height: 10}, 300); err != nil {
		t.Fatal(err)
	}
	// PNG specification 11.3.4.3: dots per metre across and down, unit 1.
	at := bytes.Index(b.Bytes(), []byte("pHYs"))
	if at < 0 {
		t.Fatal("no pHYs chunk")
	}
	chunk := b.Bytes()[at+4:]
	if x, y := binary.BigEndian.Uint32(chunk), binary.BigEndian.Uint32(chunk[4:]); x != 11811 || y != 11811 || chunk[8] != 1 {
		t.Errorf("%d by %d per unit %d, want 11811 per metre", x, y, chunk[8])
	}
	if _, err := png.Decode(&b); err != nil {
		t.Errorf("the chunk spoils the file: %v", err)
	}
}

func TestPNGLimits(t *testing.T) {
	for _, c := range []struct {
		w, h, dpi float64
		want      string
	}{
		{10, 10, 5, "5 dots per inch; give 20 to 1200"},
		{10, 10, math.NaN(), "NaN dots per inch"},
		{10, 10, math.Inf(1), "+Inf dots per inch"},
		{5000, 5000, 300, "lower the 300 dots per inch"},
	} {
		var b bytes.Buffer
		if err := WritePNG(&b, &Scene{Width: c.w, Height: c.h}, c.dpi); err == nil || !strings.Contains(err.Error(), c.want) || b.Len() > 0 {
			t.Errorf("%v: error %v, want %q", c, err, c.want)
		}
	}
}

func TestEverythingPNGRepeats(t *testing.T) {
	var a, b bytes.Buffer
	if err := WritePNG(&a, everything(), 100); err != nil {
		t.Fatal(err)
	}
	if err := WritePNG(&b, everything(), 100); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(a.Bytes(), b.Bytes()) {
		t.Error("written twice it differs")
	}
}

func BenchmarkPNG(b *testing.B) {
	s := everything()
	for b.Loop() {
		if err := WritePNG(&bytes.Buffer{}, s, 150); err != nil {
			b.Fatal(err)
		}
	}
}
