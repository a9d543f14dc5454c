package picture

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"swingwright/internal/draw"
	"swingwright/logic"
	"swingwright/opening"
	"swingwright/plan"
)

// wired proves the wiring of an opening of the demonstration.
func wired(t *testing.T, id string) *plan.Wired {
	t.Helper()
	j, _ := demo(t)
	i := slices.IndexFunc(j.Openings, func(o opening.Opening) bool { return o.ID == id })
	return plan.Wire(&j.Openings[i], &j.Sheets, logic.Effort{})
}

// The pictures in testdata were looked at before they were kept, as those of
// TestDemoPicturesAreAsTheyWere.
func TestDemoWiringsAreAsTheyWere(t *testing.T) {
	const tolerance = 0.02
	kept := map[string][]string{"107": {"riser", "connections", "terminals"}, "110": {"timing-free-in-alarm", "timing-no-drive-in-alarm"}}
	for id, names := range kept {
		drawn := Wiring("", wired(t, id))
		for _, name := range names {
			i := slices.IndexFunc(drawn, func(n Named) bool { return n.Name == name })
			if i < 0 {
				t.Errorf("%s has no picture %s", id, name)
				continue
			}
			var got bytes.Buffer
			if err := draw.WriteSVG(&got, drawn[i].Scene); err != nil {
				t.Fatal(err)
			}
			file := filepath.Join("testdata", id+"-"+name+".svg")
			if *update {
				if err := os.WriteFile(file, got.Bytes(), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(file)
			if err != nil {
				t.Fatalf("%v; write it with go test ./picture -update", err)
			}
			if at := parting(got.String(), string(want), tolerance); at >= 0 {
				t.Errorf("%s parts from what is drawn at byte %d; look at the new picture, then go test ./picture -update", file, at)
			}
		}
	}
}

// TestWiresAreTold holds that every wire has its number twice among the connections,
// and that no two runs in one lane overlap.
func TestWiresAreTold(t *testing.T) {
	w := wired(t, "107")
	numbers := make(map[string]int)
	for _, item := range Connections("", w).Items {
		if text, ok := item.(draw.Text); ok && text.Bold && strings.Trim(text.Body, "0123456789") == "" {
			numbers[text.Body]++
		}
	}
	if len(numbers) != len(w.Wiring.Wires) {
		t.Errorf("%d numbers of %d wires", len(numbers), len(w.Wiring.Wires))
	}
	for n, times := range numbers {
		if times != 2 {
			t.Errorf("wire %s has its number %d times", n, times)
		}
	}
	runs := []run{{from: 0, to: 10}, {from: 12, to: 20}, {from: 5, to: 15}, {from: 30, to: 2}, {from: 11, to: 11.5}}
	lanes := assign(runs)
	for i, a := range runs {
		if a.lane >= lanes {
			t.Errorf("lane %d of %d", a.lane, lanes)
		}
		for _, b := range runs[i+1:] {
			if a.lane == b.lane && a.from <= b.to && b.from <= a.to {
				t.Errorf("%v lies on %v", a, b)
			}
		}
	}
}
