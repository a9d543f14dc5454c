package picture

import (
	"bytes"
	"flag"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"

	"swingwright/internal/draw"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/rulebook"
	"swingwright/rulebook/author"
)

var update = flag.Bool("update", false, "write the pictures in testdata anew")

// The pictures in testdata were looked at, as people see them, before they were
// kept. Words must be the same; numbers within 0.02, which nobody sees (most are mm)
// and which machines that round otherwise do not reach.
func TestDemoPicturesAreAsTheyWere(t *testing.T) {
	j, _ := demo(t)
	book, err := author.BuiltinBook("a156.19-2007")
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []struct {
		opening int
		name    string
		sys     quantity.System
	}{
		{0, "plan", quantity.US}, {3, "plan", quantity.SI}, {4, "plan", quantity.US},
		{2, "closing", quantity.US}, {4, "closing", quantity.SI}, {3, "hand-force", quantity.SI},
	} {
		p := plan.Make(&j.Openings[want.opening], &j.Sheets, []*rulebook.Book{book}, quick)
		for _, n := range All(p, want.sys) {
			if n.Name != want.name {
				continue
			}
			compareGolden(t, p.Opening.ID+"-"+n.Name+"-"+want.sys.String()+".svg", n.Scene)
		}
	}
}

// tolerance is by how much numbers of a picture may differ.
const tolerance = 0.02

// compareGolden holds a picture against that in testdata.
func compareGolden(t *testing.T, name string, scene *draw.Scene) {
	t.Helper()
	var got bytes.Buffer
	if err := draw.WriteSVG(&got, scene); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(file, got.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	kept, err := os.ReadFile(file)
	if err != nil {
		t.Fatalf("%v; write it with go test ./picture -update", err)
	}
	if at := parting(got.String(), string(kept), tolerance); at >= 0 {
		t.Errorf("%s parts from what is drawn at byte %d; look at the new picture, then go test ./picture -update", file, at)
	}
}

var numbers = regexp.MustCompile(`-?\d+(\.\d+)?`)

// parting is the place in b at which a and b differ, numbers by more than
// tolerance; −1 where they do not.
func parting(a, b string, tolerance float64) int {
	in, at := numbers.FindAllStringIndex(a, -1), numbers.FindAllStringIndex(b, -1)
	endA, endB := 0, 0
	for i := range min(len(in), len(at)) {
		x, _ := strconv.ParseFloat(a[in[i][0]:in[i][1]], 64)
		y, _ := strconv.ParseFloat(b[at[i][0]:at[i][1]], 64)
		if a[endA:in[i][0]] != b[endB:at[i][0]] || math.Abs(x-y) > tolerance {
			return at[i][0]
		}
		endA, endB = in[i][1], at[i][1]
	}
	if a[endA:] != b[endB:] {
		return endB
	}
	return -1
}

func TestParting(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{
		{"x 1.00 y", "x 1.01 y", -1}, {"x 1.00 y", "x 1.05 y", 2}, {"x 1 y", "x 1 z", 3},
		{"x 1 y 2", "x 1 y", 3}, {"", "", -1}, {"a", "b", 0},
	} {
		if got := parting(c.a, c.b, 0.02); got != c.want {
			t.Errorf("%q and %q part at %d, want %d", c.a, c.b, got, c.want)
		}
	}
}
