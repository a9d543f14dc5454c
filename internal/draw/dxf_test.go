package draw

import (
	"bytes"
	"math"
	"slices"
	"strings"
	"testing"

	"swingwright/internal/reference"
)

func dxfOf(t testing.TB, s *Scene) string {
	t.Helper()
	var b bytes.Buffer
	if err := WriteDXF(&b, s); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// drawing is what ezdxf finds in a drawing file.
type drawing struct {
	Version               string
	Units                 int
	Errors, Layers, Lines []string
	Entities              []struct {
		Kind, Layer, Line, Text, Align string
		Points                         [][2]float64
		Closed                         bool
		Radius, From, To               float64
		Height, Rotation               float64
	}
}

func readBack(t testing.TB, dxf string) (d drawing) {
	t.Helper()
	if testing.Short() {
		t.Skip("asks ezdxf")
	}
	var all []drawing
	if err := reference.Ezdxf.Ask("testdata/read_dxf.py", []string{dxf}, &all); err != nil {
		t.Fatal(err)
	}
	d = all[0]
	if d.Version != "AC1009" || d.Units != 4 || len(d.Errors) > 0 {
		t.Errorf("version %s, units %d, errors %v", d.Version, d.Units, d.Errors)
	}
	return d
}

func TestDXFReadBack(t *testing.T) {
	s := everything()
	s.Begin("notes")
	s.Add(Text{At: Point{5, 5}, Body: `½ in ⌀ 100% ^ \ ≤`, Height: 2})
	d := readBack(t, dxfOf(t, s))
	if len(d.Entities) != len(s.Items) {
		t.Fatalf("%d entities of %d items", len(d.Entities), len(s.Items))
	}
	near := func(a [2]float64, b Point) bool { return math.Hypot(a[0]-b.X, a[1]-b.Y) < 1e-4 }
	for i, item := range s.Items {
		e := d.Entities[i]
		switch it := item.(type) {
		case Path:
			if len(e.Points) != len(it.Points) || e.Closed != it.Closed {
				t.Errorf("item %d: %d points, closed %v", i, len(e.Points), e.Closed)
				continue
			}
			for k, p := range it.Points {
				if !near(e.Points[k], p) {
					t.Errorf("item %d: point %d at %v, want %v", i, k, e.Points[k], p)
				}
			}
		case Circle:
			if e.Kind != "CIRCLE" || !near(e.Points[0], it.Center) || e.Radius != it.Radius {
				t.Errorf("item %d: %+v", i, e)
			}
		case Arc:
			from, to := min(it.From, it.To), max(it.From, it.To)
			turn := math.Mod(e.To-e.From+360, 360)
			if e.Kind != "ARC" || !near(e.Points[0], it.Center) || math.Abs(turn-(to-from)*180/math.Pi) > 1e-3 {
				t.Errorf("item %d: %+v", i, e)
			}
		case Text:
			if e.Text != it.Body || !near(e.Points[0], it.At) || e.Height != it.Height || math.Abs(e.Rotation-it.Rotation*180/math.Pi) > 1e-3 {
				t.Errorf("item %d: %+v, want %q", i, e, it.Body)
			}
		}
	}
	if e := d.Entities[len(d.Entities)-1]; e.Layer != "notes" || d.Entities[0].Layer != "0" || !slices.Contains(d.Layers, "notes") {
		t.Errorf("layers %v, last on %q", d.Layers, e.Layer)
	}
	if d.Entities[1].Line != "DASH1" || !slices.Contains(d.Lines, "DASH2") {
		t.Errorf("dashes %v, zigzag with %q", d.Lines, d.Entities[1].Line)
	}
	for i, want := range []string{"LEFT", "MIDDLE_CENTER", "TOP_RIGHT"} {
		if got := d.Entities[7+i].Align; got != want {
			t.Errorf("text %d is aligned %s, want %s", i, got, want)
		}
	}
}

func TestDXFPercentSigns(t *testing.T) {
	if got := dxfText("5 %%%d"); got != "5 % % %d" {
		t.Errorf("%q holds a code of the format", got)
	}
}

func TestDXFLeavesWhiteAreasOut(t *testing.T) {
	s := &Scene{Width: 10, Height: 10}
	s.Add(Rectangle(Point{1, 1}, Point{9, 9}, Style{Fill: White}))
	if strings.Contains(dxfOf(t, s), "POLYLINE") {
		t.Error("a white area is drawn as an outline")
	}
}

func TestLayerNames(t *testing.T) {
	s := &Scene{Width: 10, Height: 10}
	s.Begin("a b")
	var b bytes.Buffer
	if err := WriteDXF(&b, s); err == nil || !strings.Contains(err.Error(), `layer 0 is named "a b"`) {
		t.Errorf("%v", err)
	}
}
