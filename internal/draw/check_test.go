package draw

import (
	"bytes"
	"math"
	"strings"
	"testing"
)

func TestCheckReportsEverything(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	s := &Scene{Width: 0, Height: nan, ID: "a b"}
	wants := []string{"page of 0 mm by NaN mm", `scene ID "a b"`}
	for _, c := range []struct {
		item  Item
		wants []string
	}{
		{nil, []string{"item 0 is nil"}},
		{Path{Points: []Point{{0, 0}}, Style: Style{Width: -1}}, []string{"item 1 (Path): 1 points", "item 1 (Path): line width is -1"}},
		{Line(Point{nan, 0}, Point{0, 1e9}, Style{Dash: []float64{1, 0}}), []string{"point 0 at (NaN, 0)", "point 1 at (0, 1e+09)", "dash length 1 is 0"}},
		{Circle{Center: Point{inf, 0}, Radius: -2}, []string{"(Circle): centre at (+Inf, 0)", "radius is -2"}},
		{Arc{Radius: 1, From: 0, To: 7, Style: Style{Width: nan}}, []string{"goes from 0 to 7 rad", "line width is NaN"}},
		{Arc{Radius: nan, From: inf, To: inf}, []string{"radius is NaN", "begin is +Inf rad", "end is +Inf rad"}},
		{Text{At: Point{0, -1e5}, Body: "a\nb", Height: 0, Rotation: nan, Halo: -1}, []string{"text at (0, -100000)", `text "a\nb"`, "text height is 0", "rotation is NaN", "halo is -1"}},
		{Text{Body: "\xff", Height: 1}, []string{`text "\xff"`}},
	} {
		s.Add(c.item)
		wants = append(wants, c.wants...)
	}
	err := s.Check()
	if err == nil {
		t.Fatal("accepted")
	}
	for _, want := range wants {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("%q is not reported in:\n%v", want, err)
		}
	}
	var b bytes.Buffer
	if WriteSVG(&b, s) == nil || WritePNG(&b, s, 100) == nil || b.Len() > 0 {
		t.Errorf("a scene with faults was written: %d bytes", b.Len())
	}
	if err := everything().Check(); err != nil {
		t.Errorf("a good scene: %v", err)
	}
}
