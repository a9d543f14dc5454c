package draw

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// closing is a plot with one of each, on invented values.
func closing() (*Scene, Axes) {
	falling := func(from, fall float64) (points []Point) {
		for i := range 81 {
			x := float64(i) / 10
			points = append(points, Point{x, from * math.Exp(-x/fall)})
		}
		return points
	}
	gap := falling(85, 4)
	gap[30].Y = math.NaN()
	return &Scene{Width: 180, Height: 110, Title: "Closing", Description: "Angle over time, three settings"},
		Axes{
			Frame:  Box{Point{20, 18}, Point{172, 88}},
			X:      Axis{Low: 0, High: 8, Label: "time (s)"},
			Y:      Axis{Low: 0, High: 95, Label: "opening angle (°)", Ticks: []float64{0, 10, 12, 30, 70, 80, 90, 120}},
			Series: []Series{{"as found", falling(100, 2.5)}, {"valve a quarter turn open", gap}, {"at −10 °C", falling(88, 6)}},
			Limits: []Limit{{OnY, 12, "12°"}, {OnX, 5, "5 s at least"}, {OnX, 7.9, "end"}, {OnY, 200, "outside"}},
			Bands:  []Band{{OnX, 1, 2.5, "sweep"}, {OnY, 200, 80, "above"}, {OnX, 9, 10, "outside"}},
		}
}

func TestAxesGolden(t *testing.T) {
	s, a := closing()
	if err := a.Place(s); err != nil {
		t.Fatal(err)
	}
	golden(t, "axes.txt", list(s))
	golden(t, "axes.svg", []byte(svgOf(t, s)))
}

func TestAxesPlaceValues(t *testing.T) {
	a := Axes{Frame: Box{Point{20, 10}, Point{120, 60}}, X: Axis{Low: -1, High: 1}, Y: Axis{Low: 100, High: 200}}
	for v, want := range map[Point]Point{{-1, 100}: {20, 10}, {1, 200}: {120, 60}, {0, 150}: {70, 35}, {0.5, 110}: {95, 15}} {
		if got := a.at(v); math.Hypot(got.X-want.X, got.Y-want.Y) > 1e-12 {
			t.Errorf("%v lies at %v, want %v", v, got, want)
		}
	}
}

func TestAxesKeepInside(t *testing.T) {
	s, a := closing()
	if err := a.Place(s); err != nil {
		t.Fatal(err)
	}
	named := map[string]int{}
	for _, item := range s.Items {
		if text, ok := item.(Text); ok && text.Body == "outside" {
			t.Errorf("something outside the range is named: %v", text)
		}
		path, ok := item.(Path)
		if !ok {
			continue
		}
		for _, series := range a.Series {
			if path.Title != series.Name {
				continue
			}
			named[path.Title]++
			for _, p := range path.Points {
				if p.X < a.Frame.Min.X-1e-9 || p.X > a.Frame.Max.X+1e-9 || p.Y < a.Frame.Min.Y-1e-9 || p.Y > a.Frame.Max.Y+1e-9 {
					t.Errorf("%q goes to %v, out of the frame", path.Title, p)
				}
			}
		}
		if path.Title == "outside" {
			t.Errorf("something outside the range is drawn: %v", path)
		}
	}
	if named["as found"] != 1 || named["valve a quarter turn open"] != 2 {
		t.Errorf("runs of the lines: %v; the value that is not a number must part the second", named)
	}
}

func TestSeriesAreToldWithoutColour(t *testing.T) {
	seen := map[string]int{}
	for i, l := range looks {
		marker := fmt.Sprintf("%T %v", l.mark(Point{}, 1), l.filled)
		if p, ok := l.mark(Point{}, 1).(Path); ok {
			marker = fmt.Sprint(len(p.Points), p.Points[0].X == 0, l.filled)
		}
		for _, key := range []string{"dash " + fmt.Sprint(l.dash), "marker " + marker} {
			if other, ok := seen[key]; ok {
				t.Errorf("series %d and %d share the %s", other, i, key)
			}
			seen[key] = i
		}
	}
}

func TestMarkersAreEvenlySpaced(t *testing.T) {
	line := []Point{{0, 0}, {10, 0}, {10, 10}, {10, 10}, {70, 10}}
	places, left := evenly(line, 5)
	want := []Point{{5, 0}, {19, 10}, {43, 10}, {67, 10}} // 5, 29, 53 and 77 along the line
	if fmt.Sprint(places) != fmt.Sprint(want) || left != spacing-3 {
		t.Errorf("%v, %v left; want %v", places, left, want)
	}
}

func TestAxesReportEverything(t *testing.T) {
	s := &Scene{Width: 100, Height: 100}
	err := Axes{Frame: Box{Point{5, 5}, Point{5, 50}}, X: Axis{Low: 1, High: 1}, Y: Axis{Low: 0, High: math.NaN()}, Series: make([]Series, 7), TextHeight: -1}.Place(s)
	if err == nil {
		t.Fatal("accepted")
	}
	for _, want := range []string{"plot frame from {5 5} to {5 50}", "x axis from 1 to 1", "y axis from 0 to NaN", "7 series", "text height is -1"} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("%q is not reported in %v", want, err)
		}
	}
	if len(s.Items) > 0 {
		t.Error("the scene was changed all the same")
	}
}

func TestLegendBreaksLines(t *testing.T) {
	s := &Scene{Width: 100, Height: 100}
	long := strings.Repeat("long name ", 4)
	a := Axes{Frame: Box{Point{20, 20}, Point{95, 70}}, X: Axis{Low: 0, High: 1}, Y: Axis{Low: 0, High: 1}, Series: []Series{{Name: long}, {Name: ""}, {Name: long}}}
	if err := a.Place(s); err != nil {
		t.Fatal(err)
	}
	var heights []float64
	for _, item := range s.Items {
		if text, ok := item.(Text); ok && text.Body == long {
			heights = append(heights, text.At.Y)
		}
	}
	// The first line is the upper one; the lowest stands two text heights above the frame.
	if len(heights) != 2 || heights[0] != 80 || heights[1] != 75 {
		t.Errorf("legend at heights %v, want 80 and 75", heights)
	}
}

func TestNotesStayInTheFrame(t *testing.T) {
	for _, limit := range []Limit{{OnY, 0.1, "low"}, {OnY, 0.99, "high"}, {OnX, 0.01, "left"}, {OnX, 0.99, "right"}} {
		s := &Scene{Width: 100, Height: 100}
		a := Axes{Frame: Box{Point{20, 20}, Point{95, 70}}, X: Axis{Low: 0, High: 1}, Y: Axis{Low: 0, High: 1}, Limits: []Limit{limit}}
		if err := a.Place(s); err != nil {
			t.Fatal(err)
		}
		found := false
		for _, item := range s.Items {
			text, ok := item.(Text)
			if !ok || text.Body != limit.Label {
				continue
			}
			for _, contour := range text.contours() {
				for _, p := range contour {
					if !inside(a.Frame, p) {
						t.Fatalf("%q goes to %v", text.Body, p)
					}
				}
			}
			found = true
		}
		if !found {
			t.Errorf("%q is not written", limit.Label)
		}
	}
}

func inside(b Box, p Point) bool {
	return p.X >= b.Min.X && p.X <= b.Max.X && p.Y >= b.Min.Y && p.Y <= b.Max.Y
}
