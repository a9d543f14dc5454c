package picture

import (
	"strings"
	"testing"

	"swingwright/internal/draw"
	"swingwright/plan"
)

// Every demand stands in the picture with its bar or the word that it has none, and
// the settings found and to choose are marked by words, so that it can be read
// without colour.
func TestWindowShowsEveryDemand(t *testing.T) {
	for id, want := range map[string][]string{
		"101": {"choose ", "found at 3"},
		"102": {"choose ", "found at 3"},
		"103": {"No power keeps everything", "holds at no power", "found at 4"},
		"105": {"Cannot be told", "arm and power setting"},
	} {
		o, sheets, books := demoOpening(t, id)
		p := plan.Make(&o, sheets, books, quick)
		w, err := p.Window(sheets)
		if err != nil {
			t.Fatal(err)
		}
		for _, sys := range systems {
			scene := Window(p, w, sys)
			if err := scene.Check(); err != nil {
				t.Errorf("opening %s: %v", id, err)
			}
			text := words(scene)
			for _, h := range w.Held {
				want = append(want, value(h.Demand.Kind.Dim(), h.Demand.Limit, 0, sys))
			}
			for _, part := range want {
				if !strings.Contains(plainSpaces(text), plainSpaces(part)) {
					t.Errorf("opening %s: the picture lacks %q", id, part)
				}
			}
			want = want[:len(want)-len(w.Held)]
			if got, bars := count(scene, "holds at no power"), titled(scene); len(w.Held) > 0 && got+bars != len(w.Held) {
				t.Errorf("opening %s: %d bars and %d without one for %d demands", id, bars, got, len(w.Held))
			}
		}
	}
}

// count is how many texts of a scene hold a part.
func count(s *draw.Scene, part string) (n int) {
	for _, item := range s.Items {
		if text, ok := item.(draw.Text); ok && strings.Contains(text.Body, part) {
			n++
		}
	}
	return n
}

// titled is how many bars a scene has.
func titled(s *draw.Scene) (n int) {
	for _, item := range s.Items {
		if path, ok := item.(draw.Path); ok && strings.Contains(path.Title, ": power ") {
			n++
		}
	}
	return n
}
