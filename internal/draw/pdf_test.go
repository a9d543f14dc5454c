package draw

import (
	"bytes"
	"image"
	"math"
	"strings"
	"testing"
	"time"

	"swingwright/internal/reference"
)

var made = Document{Title: "Pages", Subject: "for a test", Made: time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC)}

func pdfOf(t testing.TB, pages ...*Scene) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := WritePDF(&b, made, pages...); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// printed is a PDF as poppler prints it.
func printed(t testing.TB, pdf []byte, dpi float64) []*image.Gray {
	t.Helper()
	if testing.Short() {
		t.Skip("asks poppler")
	}
	pages, err := reference.Pages(pdf, dpi)
	if err != nil {
		t.Fatal(err)
	}
	return pages
}

// blackBox is the box of the dots that are more than half black.
func blackBox(img *image.Gray) (box image.Rectangle) {
	for y := img.Rect.Min.Y; y < img.Rect.Max.Y; y++ {
		for x := img.Rect.Min.X; x < img.Rect.Max.X; x++ {
			if img.GrayAt(x, y).Y < 128 {
				box = box.Union(image.Rect(x, y, x+1, y+1))
			}
		}
	}
	return box
}

func TestPDFIsTrueToSize(t *testing.T) {
	across := &Scene{Width: 120, Height: 130}
	across.Add(Line(Point{10, 20}, Point{110, 20}, Style{Width: 1}))
	up := &Scene{Width: 130, Height: 120}
	up.Add(Line(Point{20, 10}, Point{20, 110}, Style{Width: 1}))
	ring := &Scene{Width: 320, Height: 330}
	ring.Add(Circle{Center: Point{160, 155}, Radius: 150, Style: Style{Width: 1}})
	pages := printed(t, pdfOf(t, across, up, ring), tenth)
	for i, want := range []image.Rectangle{
		image.Rect(100, 1095, 1100, 1105), image.Rect(195, 100, 205, 1100), image.Rect(95, 245, 3105, 3255),
	} {
		got := blackBox(pages[i])
		for side, d := range []int{got.Min.X - want.Min.X, got.Min.Y - want.Min.Y, got.Max.X - want.Max.X, got.Max.Y - want.Max.Y} {
			if d < -1 || d > 1 {
				t.Errorf("page %d: ink covers %v, want %v: side %d is %d tenths of a millimetre off", i+1, got, want, side, d)
			}
		}
	}
}

// The page as poppler prints it and the image that this package paints itself agree.
func TestPDFShowsWhatPNGShows(t *testing.T) {
	axes, a := closing()
	if err := a.Place(axes); err != nil {
		t.Fatal(err)
	}
	for _, s := range []*Scene{everything(), axes} {
		page, image := printed(t, pdfOf(t, s), 100)[0], pngOf(t, s, 100)
		if page.Bounds().Dx() < image.Bounds().Dx()-1 || page.Bounds().Dy() < image.Bounds().Dy()-1 {
			t.Fatalf("page %v, image %v", page.Bounds(), image.Bounds())
		}
		differ, ink := 0., 0.
		both := page.Bounds().Intersect(image.Bounds())
		for y := range both.Dy() {
			for x := range both.Dx() {
				c := image.RGBAAt(x, y)
				grey := 0.299*float64(c.R) + 0.587*float64(c.G) + 0.114*float64(c.B)
				ink += 255 - grey
				differ += math.Abs(grey - float64(page.GrayAt(x, y).Y))
			}
		}
		// Thin lines are blurred differently; a line elsewhere would count twice.
		if differ > 0.25*ink {
			t.Errorf("%s: %.0f %% of the ink differs", s.Title, 100*differ/ink)
		} else {
			t.Logf("%s: %.1f %% of the ink differs", s.Title, 100*differ/ink)
		}
	}
}

func TestPDFKeepsText(t *testing.T) {
	if testing.Short() {
		t.Skip("asks poppler")
	}
	pdf := pdfOf(t, everything())
	words, err := reference.Words(pdf)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"ABCxyz 90°", "halo"} {
		if !strings.Contains(words, want) {
			t.Errorf("%q is not to be read in %q", want, words)
		}
	}
	if strings.Count(words, "halo") != 1 {
		t.Error("a text with a halo is there twice")
	}
	fonts, err := reference.Fonts(pdf)
	if err != nil || len(fonts) != 2 {
		t.Fatalf("fonts %v, %v", fonts, err)
	}
	for _, f := range fonts {
		if !f.Embedded || !f.Unicode {
			t.Errorf("font %+v is not in the file, or not with its letters", f)
		}
	}
}

func TestPDFAsksNotToBeScaled(t *testing.T) {
	pdf := pdfOf(t, everything(), everything())
	if !bytes.Contains(pdf, []byte("/ViewerPreferences <</PrintScaling /None>>")) || !bytes.Contains(pdf, []byte("/Outlines")) {
		t.Error("no wish about print, or no bookmarks")
	}
	if testing.Short() {
		t.Skip("asks poppler")
	}
	// The appended catalog is the one that counts.
	if version, err := reference.Version(pdf); err != nil || version != "1.7" {
		t.Errorf("version %s, %v", version, err)
	}
}

func TestPDFRepeats(t *testing.T) {
	first := pdfOf(t, everything(), everything())
	for range 4 {
		if !bytes.Equal(first, pdfOf(t, everything(), everything())) {
			t.Fatal("written twice it differs")
		}
	}
}

// What stands around a placed picture looks as if the picture were not there.
func TestPlacePDF(t *testing.T) {
	whole := &Scene{Width: 100, Height: 50}
	whole.Add(Rectangle(Point{-20, 10}, Point{60, 40}, Style{Fill: Ink}), Text{At: Point{10, 45}, Body: "X", Height: 3, Bold: true, Colour: White})
	pdf := NewPDF(made)
	pdf.AddPage()
	pdf.SetFont(PDFFont, "", 12)
	pdf.SetLineWidth(2)
	pdf.SetDrawColor(1, 2, 3)
	if err := PlacePDF(pdf, whole, Point{20, 100}, 0.5); err != nil {
		t.Fatal(err)
	}
	if points, _ := pdf.GetFontSize(); points != 12 || pdf.GetFontStyle() != "" || pdf.GetLineWidth() != 2 {
		t.Errorf("afterwards: font of %v points %q, width %v", points, pdf.GetFontStyle(), pdf.GetLineWidth())
	}
	var b bytes.Buffer
	if err := FinishPDF(&b, pdf); err != nil {
		t.Fatal(err)
	}
	// Half as large, clipped at its left side, 30 mm by 15 mm from 20 mm and 105 mm.
	if got, want := blackBox(printed(t, b.Bytes(), tenth)[0]), image.Rect(200, 1050, 500, 1200); got != want {
		t.Errorf("ink covers %v, want %v", got, want)
	}
}

func TestPDFRefusesAllAtOnce(t *testing.T) {
	var b bytes.Buffer
	bad := &Scene{Width: -1, Height: 10}
	bad.Add(Circle{Radius: math.NaN()})
	err := WritePDF(&b, made, everything(), bad, &Scene{Width: 6000, Height: 10})
	if err == nil || b.Len() > 0 {
		t.Fatalf("written %d bytes, %v", b.Len(), err)
	}
	for _, want := range []string{"page 2: draw: page of -1 mm", "radius is NaN", "page 3: draw: page of 6000 mm"} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("%q is not told in %v", want, err)
		}
	}
	if err := WritePDF(&b, made); err == nil {
		t.Error("no pages, and no word")
	}
	if err := PlacePDF(NewPDF(made), everything(), Point{}, 0); err == nil || !strings.Contains(err.Error(), "scale 0") || !strings.Contains(err.Error(), "no page yet") {
		t.Errorf("no page, no scale: %v", err)
	}
}
