package plan

import (
	"math"
	"os"
	"strings"
	"testing"

	"swingwright/job"
	"swingwright/judge"
	"swingwright/quantity"
	"swingwright/record"
	"swingwright/swing"
	"swingwright/trace"
)

// Backcheck is told of a recording on which the leaf was pushed into it with one steady
// push, and not, with the reason, of one on which it was opened gently.
func TestRecordingTellsBackcheck(t *testing.T) {
	j, err := job.Decode(os.DirFS("../demo/harbour-street-clinic"), "tuning.yaml")
	if err != nil {
		t.Fatal(err)
	}
	p := Make(&j.Openings[0], &j.Sheets, nil, Options{Draws: 16})
	m, err := p.Turned(&j.Sheets)
	if err != nil {
		t.Fatal(err)
	}
	v := *m.Values()
	onset := 65 * quantity.Degree
	psi, _, _ := m.Arm().Turn(float64(onset))
	v[swing.CheckZone], v[swing.CheckViscous], v[swing.CheckOrifice] = psi, 40, 0
	if m, err = swing.New(&v, m.Linkage()); err != nil {
		t.Fatal(err)
	}
	var mv swing.Mover
	var recorded []Curved
	for name, pushed := range map[string]bool{"pushed": true, "gentle": false} {
		var c record.Course
		c.Rest(3)
		if pushed {
			c.Push(&mv, &m, m.LargestHandMoment(0, onset)+15, 95*quantity.Degree)
		} else {
			c.Turn(trace.Opening, 95*quantity.Degree, 3)
		}
		c.Rest(3)
		c.Close(&mv, &m)
		c.Rest(3)
		rec, err := trace.Read(name, record.Simulate(&c, record.Options{Seed: 5, Rate: 100, Jitter: 1e-3, NoiseDensity: 1.4e-4}), nil)
		if err != nil {
			t.Fatal(err)
		}
		recorded = append(recorded, Curved{Name: name, Trace: rec.Analyse(trace.Settings{Open: quantity.Give[quantity.Angle](95*quantity.Degree, 0.2*quantity.Degree)})})
	}
	w, err := p.Tune(&j.Sheets, recorded, judge.Policy{})
	if err != nil {
		t.Fatal(err)
	}
	if len(w.Checks) != 2 {
		t.Fatalf("%+v", w.Checks)
	}
	for _, c := range w.Checks {
		switch {
		case c.Name == "gentle" && c.Why == "":
			t.Errorf("a gentle opening tells %v", c.Check)
		case c.Name == "gentle" && !strings.Contains(c.Why, "ush"):
			t.Errorf("no hint: %s", c.Why)
		case c.Name == "pushed" && (c.Why != "" || math.Abs(float64(c.Viscous)-40) > 12 || math.Abs(float64(c.Onset-onset)) > 4*float64(quantity.Degree)):
			t.Errorf("pushed: %s, %.1f within %.1f from %.1f°", c.Why, float64(c.Viscous), float64(c.U), float64(c.Onset/quantity.Degree))
		case c.Name == "pushed":
			t.Logf("pushed: %.1f within %.1f from %.1f°", float64(c.Viscous), float64(c.U), float64(c.Onset/quantity.Degree))
		}
	}
}
