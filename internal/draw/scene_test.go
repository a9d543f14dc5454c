package draw

import (
	"bytes"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the golden files anew; look at them before you keep them")

// golden compares with a file of testdata.
func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(path, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("%s differs; see what changed with: go test ./internal/draw -update && git diff", path)
	}
}

var float = regexp.MustCompile(`-?\d+\.\d+(e[-+]\d+)?`)

// list prints the items one per line, numbers to a thousandth.
func list(s *Scene) []byte {
	var b strings.Builder
	for _, item := range s.Items {
		fmt.Fprintf(&b, "%T %+v\n", item, item)
	}
	return []byte(float.ReplaceAllStringFunc(b.String(), func(number string) string {
		x, _ := strconv.ParseFloat(number, 64)
		return short(x)
	}))
}

func svgOf(t testing.TB, s *Scene) string {
	t.Helper()
	var b bytes.Buffer
	if err := WriteSVG(&b, s); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// everything has one of each: kinds of item, styles, anchors, levels.
func everything() *Scene {
	s := &Scene{Width: 120, Height: 80, Title: "One of <each>", Description: `Lines, circles, arcs & "texts"`, ID: "all"}
	pen := Style{Width: 0.5}
	s.Add(
		Line(Point{10, 10}, Point{110, 10}, pen),
		Path{Points: []Point{{10, 20}, {30, 35}, {50, 20}, {40, 45}}, Style: Style{Width: 2, Stroke: Blue, Dash: []float64{4, 2}}, Title: "zigzag"},
		Path{Points: []Point{{60, 20}, {80, 20}, {70, 40}}, Closed: true, Style: Style{Width: 1, Fill: Shade}},
		Rectangle(Point{85, 20}, Point{110, 40}, Style{Fill: Red}),
		Circle{Center: Point{97.5, 30}, Radius: 8, Style: Style{Width: 0.7, Stroke: Ink, Fill: White}, Title: "window"},
		Arc{Center: Point{20, 50}, Radius: 20, From: 0, To: math.Pi / 2, Style: Style{Width: 0.4, Dash: []float64{1, 1}}},
		Arc{Center: Point{70, 60}, Radius: 10, From: math.Pi, To: -math.Pi / 3, Style: Style{Width: 0.8, Stroke: Green}, Title: "clockwise"},
	)
	for i, anchor := range []Anchor{Start, Middle, End} {
		s.Add(Text{At: Point{100, 50 + 8*float64(i)}, Body: "ABCxyz 90°", Height: 3, Anchor: anchor, Level: Level(i)})
	}
	s.Add(
		Text{At: Point{50, 60}, Body: "turned & bold", Height: 2.5, Rotation: math.Pi / 4, Bold: true, Colour: Purple, Title: "a text"},
		Text{At: Point{30, 27}, Body: "halo", Height: 5, Anchor: Middle, Halo: 0.8},
	)
	return s
}

func TestEverythingGolden(t *testing.T) {
	golden(t, "everything.txt", list(everything()))
	golden(t, "everything.svg", []byte(svgOf(t, everything())))
}

func TestColoursHaveContrast(t *testing.T) {
	// Relative luminance and contrast ratio as WCAG 2.2 defines them.
	linear := func(c uint8) float64 {
		v := float64(c) / 255
		if v <= 0.04045 {
			return v / 12.92
		}
		return math.Pow((v+0.055)/1.055, 2.4)
	}
	for name, c := range map[string][3]uint8{
		"Ink": {Ink.R, Ink.G, Ink.B}, "Grey": {Grey.R, Grey.G, Grey.B}, "Blue": {Blue.R, Blue.G, Blue.B},
		"Red": {Red.R, Red.G, Red.B}, "Green": {Green.R, Green.G, Green.B}, "Purple": {Purple.R, Purple.G, Purple.B},
	} {
		luminance := 0.2126*linear(c[0]) + 0.7152*linear(c[1]) + 0.0722*linear(c[2])
		if ratio := 1.05 / (luminance + 0.05); ratio < 4.5 {
			t.Errorf("%s on white has a contrast of %.2f to 1, want 4.5", name, ratio)
		}
	}
}
