package picture

import (
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"swingwright/internal/draw"
	"swingwright/job"
	"swingwright/opening"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/rulebook"
	"swingwright/rulebook/author"
)

// demo is the demonstration job with all the rulebooks there are.
func demo(t testing.TB) (*job.Job, []*rulebook.Book) {
	t.Helper()
	j, err := job.Decode(os.DirFS("../demo/harbour-street-clinic"), "job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	books, err := author.Builtin()
	if err != nil {
		t.Fatal(err)
	}
	return j, books
}

// demoOpening is one opening of the demonstration job, free to be changed.
func demoOpening(t testing.TB, id string) (opening.Opening, *opening.Sheets, []*rulebook.Book) {
	t.Helper()
	j, books := demo(t)
	for _, o := range j.Openings {
		if o.ID == id {
			return o, &j.Sheets, books
		}
	}
	t.Fatalf("there is no opening %s in the demonstration", id)
	return opening.Opening{}, nil, nil
}

var systems = []quantity.System{quantity.US, quantity.SI}

// quick asks for as few draws as still give a spread.
var quick = plan.Options{Draws: 16}

// words are all texts of a picture, as one.
func words(s *draw.Scene) string {
	var all []string
	for _, item := range s.Items {
		if t, ok := item.(draw.Text); ok {
			all = append(all, t.Body)
		}
	}
	return strings.ReplaceAll(strings.Join(all, " "), "\u00a0", " ")
}

// box is what an item covers.
type box struct{ left, right, low, high float64 }

func (b box) overlaps(c box) bool {
	return b.left < c.right && c.left < b.right && b.low < c.high && c.low < b.high
}

func (b *box) take(p draw.Point) {
	b.left, b.right = min(b.left, p.X), max(b.right, p.X)
	b.low, b.high = min(b.low, p.Y), max(b.high, p.Y)
}

// covered is the box of an item.
func covered(item draw.Item) box {
	b := box{math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)}
	switch i := item.(type) {
	case draw.Path:
		for _, p := range i.Points {
			b.take(p)
		}
	case draw.Circle:
		b.take(draw.Point{X: i.Center.X - i.Radius, Y: i.Center.Y - i.Radius})
		b.take(draw.Point{X: i.Center.X + i.Radius, Y: i.Center.Y + i.Radius})
	case draw.Arc:
		for _, p := range draw.ArcPoints(i) {
			b.take(p)
		}
	case draw.Text:
		return letters(i)
	}
	return b
}

// letters is the box of a text's letters, capital height, lying or upright.
func letters(t draw.Text) box {
	before := t.Width() * [...]float64{draw.Start: 0, draw.Middle: 0.5, draw.End: 1}[t.Anchor]
	below := t.Height * [...]float64{draw.Baseline: 0, draw.Centre: 0.5, draw.Top: 1}[t.Level]
	if t.Rotation == 0 {
		return box{t.At.X - before, t.At.X - before + t.Width(), t.At.Y - below, t.At.Y - below + t.Height}
	}
	return box{t.At.X + below - t.Height, t.At.X + below, t.At.Y - before, t.At.Y - before + t.Width()}
}

// faults are what is wrong with any picture, whatever it shows.
func faults(s *draw.Scene) []string {
	var found []string
	add := func(format string, args ...any) { found = append(found, fmt.Sprintf(format, args...)) }
	if err := s.Check(); err != nil {
		add("%v", err)
		return found
	}
	if s.Title == "" || s.Description == "" || s.ID == "" {
		add("title %q, description %q, ID %q", s.Title, s.Description, s.ID)
	}
	var texts []draw.Text
	for _, item := range s.Items {
		if b := covered(item); b.left < 0 || b.right > s.Width || b.low < 0 || b.high > s.Height {
			add("%T beyond the page of %v x %v mm: %+v", item, s.Width, s.Height, item)
		}
		t, ok := item.(draw.Text)
		if !ok || t.Body == "" {
			continue
		}
		if t.Height < 3 {
			add("letters of %v mm: %q", t.Height, t.Body)
		}
		for _, other := range texts {
			if letters(t).overlaps(letters(other)) {
				add("%q overlaps %q", t.Body, other.Body)
			}
		}
		texts = append(texts, t)
	}
	return found
}

func TestDemoPicturesAreLegible(t *testing.T) {
	j, books := demo(t)
	for i := range j.Openings {
		p := plan.Make(&j.Openings[i], &j.Sheets, books, quick)
		for _, sys := range systems {
			for _, n := range All(p, sys) {
				for _, fault := range faults(n.Scene) {
					t.Errorf("%s of %s in %v: %s", n.Name, p.Opening.ID, sys, fault)
				}
			}
		}
	}
}
