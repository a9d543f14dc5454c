package picture

import (
	"fmt"
	"math"
	"testing"

	"swingwright/internal/draw"
	"swingwright/plan"
	"swingwright/quantity"
)

// Straight lines tell their own values.
func TestReadOffCurves(t *testing.T) {
	falling := []draw.Point{{X: 0, Y: 90}, {X: 1, Y: 60}, {X: 4, Y: 0}}
	for down, want := range map[float64]float64{90: 0, 75: 0.5, 60: 1, 30: 2.5, 0: 4} {
		if got, ok := when(falling, down); !ok || math.Abs(got-want) > 1e-9 {
			t.Errorf("down to %v at %v (%v); want %v", down, got, ok, want)
		}
	}
	if got, ok := when(falling, -1); ok {
		t.Errorf("comes down to -1 at %v", got)
	}
	rising := []draw.Point{{X: 0, Y: 10}, {X: 45, Y: 20}, {X: 80, Y: 20}}
	for x, want := range map[float64]float64{0: 10, 9: 12, 45: 20, 80: 20} {
		if got := level(rising, x); math.Abs(got-want) > 1e-9 {
			t.Errorf("at %v: %v; want %v", x, got, want)
		}
	}
	if got := level(rising, 90); !math.IsNaN(got) {
		t.Errorf("beyond the end: %v", got)
	}
}

// The table of a closing says when the marks are passed as the plan does, which finds them as
// events of the integration and not on the curve.
func TestTablesSayWhatThePlanSays(t *testing.T) {
	j, books := demo(t)
	times := 0
	for i := range j.Openings[:8] {
		p := plan.Make(&j.Openings[i], &j.Sheets, books, quick)
		for _, narrow := range []bool{false, true} {
			table := In{Units: quantity.US, Narrow: narrow}.Closing(p).Table
			if table == nil {
				continue // a notice: nothing is shown
			}
			said := map[string]string{}
			for _, row := range table.Rows {
				said[row[0]] = row[1]
			}
			for _, mark := range p.Swing.Marks {
				got, ok := said[degrees(mark.Angle, 0)]
				if !ok || math.IsNaN(float64(mark.Time)) {
					continue
				}
				var at float64
				if _, err := fmt.Sscanf(got, "%f s", &at); err != nil || math.Abs(at-float64(mark.Time)) > 0.02 {
					t.Errorf("opening %s passes %s at %q; the plan says %.3f s", p.Opening.ID, degrees(mark.Angle, 0), got, float64(mark.Time))
				}
				times++
			}
		}
		if w, err := p.Window(&j.Sheets); err == nil && len(w.Missing) == 0 {
			if rows := Window(p, w, quantity.SI).Table.Rows; len(rows) != len(w.Held) {
				t.Errorf("opening %s: %d demands, %d rows", p.Opening.ID, len(w.Held), len(rows))
			}
		}
	}
	if times < 30 {
		t.Errorf("only %d times were compared", times)
	}
}

// Whatever a picture shows is also said: its words are all there, every row of its table is whole,
// and both formats say the same values.
func TestPicturesAreSaid(t *testing.T) {
	j, books := demo(t)
	for i := range j.Openings[:8] {
		p := plan.Make(&j.Openings[i], &j.Sheets, books, quick)
		for name, pair := range map[string][2]*draw.Scene{
			"plan":       {Plan(p, quantity.US), In{Units: quantity.US, Narrow: true}.Plan(p)},
			"closing":    {Closing(p, quantity.US), In{Units: quantity.US, Narrow: true}.Closing(p)},
			"hand-force": {HandForce(p, quantity.US), In{Units: quantity.US, Narrow: true}.HandForce(p)},
		} {
			for _, s := range pair {
				if len(s.Words) == 0 || s.Title == "" || s.Description == "" {
					t.Errorf("opening %s, %s, %v mm wide: says %d words; %q, %q", p.Opening.ID, name, s.Width, len(s.Words), s.Title, s.Description)
				}
				if s.Table == nil {
					continue
				}
				for _, row := range s.Table.Rows {
					if len(row) != len(s.Table.Head) || row[0] == "" {
						t.Errorf("opening %s, %s: %q under %q", p.Opening.ID, name, row, s.Table.Head)
					}
				}
			}
			if a, b := fmt.Sprint(pair[0].Table), fmt.Sprint(pair[1].Table); pair[0].Table != nil && fmt.Sprint(*pair[0].Table) != fmt.Sprint(*pair[1].Table) {
				t.Errorf("opening %s, %s: the formats say %s and %s", p.Opening.ID, name, a, b)
			}
		}
	}
}

// On a screen of 360 CSS pixels, of which the app leaves a picture 322, no letter is below 11 pixels.
func TestNarrowLettersAreLarge(t *testing.T) {
	const capital = 1480. / 2048 // of the font size; DejaVu Sans, as package draw measures it
	j, books := demo(t)
	least := math.Inf(1)
	for i := range j.Openings[:8] {
		p := plan.Make(&j.Openings[i], &j.Sheets, books, quick)
		scenes := []*draw.Scene{In{Units: quantity.US, Narrow: true}.Plan(p), In{Units: quantity.SI, Narrow: true}.Closing(p), In{Units: quantity.US, Narrow: true}.HandForce(p)}
		if w, err := p.Window(&j.Sheets); err == nil {
			scenes = append(scenes, In{Units: quantity.US, Narrow: true}.Window(p, w))
		}
		for _, s := range scenes {
			for _, item := range s.Items {
				if text, ok := item.(draw.Text); ok {
					least = min(least, text.Height/capital*322/s.Width)
				}
			}
			for _, fault := range faults(s) {
				t.Errorf("opening %s, %s: %s", p.Opening.ID, s.Title, fault)
			}
		}
	}
	if least < 11 {
		t.Errorf("the smallest letters are %.1f px", least)
	}
	t.Logf("the smallest letters are %.1f px", least)
}
