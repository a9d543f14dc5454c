package plan

import (
	"math"
	"testing"

	"swingwright/fact"
	"swingwright/opening"
	q "swingwright/quantity"
	"swingwright/record"
	"swingwright/swing"
	"swingwright/trace"
)

// recorded is a recording of an opening that is opened by hand and closes, some times
// over, with its truth.
func recorded(t *testing.T, p *Plan, swings int) (*trace.Trace, *record.Course) {
	t.Helper()
	m, err := p.Model()
	if err != nil {
		t.Fatal(err)
	}
	var mover swing.Mover
	var c record.Course
	c.Rest(3 * q.Second)
	for range swings {
		c.Turn(trace.Opening, 92*q.Degree, 3*q.Second).Rest(3 * q.Second)
		c.Close(&mover, &m)
		c.Rest(4 * q.Second)
	}
	step := q.AngularSpeed(q.Degree)
	data := record.Simulate(&c, record.Options{Seed: 7, Rate: 60, NoiseDensity: 0.008 * step, Rounding: 0.1 * step, Bias: [3]q.AngularSpeed{0.3 * step, 0.1 * step, -0.2 * step}})
	rec, err := trace.Read("made.csv", data, nil)
	if err != nil {
		t.Fatal(err)
	}
	return rec.Analyse(trace.Settings{Open: q.Give(92*q.Degree, 0.3*q.Degree)}), &c
}

// What a recording shows becomes facts, true within their uncertainty, and outranks
// what was computed and read before.
func TestRecordingBecomesFacts(t *testing.T) {
	j, books := clinic(t)
	o := demoOpening(t, j, "102")
	p := Make(o, &j.Sheets, books, Options{Draws: 64})
	tr, truth := recorded(t, p, 1)
	all := p.Record(tr, false)
	for _, c := range []struct {
		id       fact.ID
		from, to q.Angle
	}{
		{fact.CloseTime90To12, 90, 12}, {fact.CloseTime90To10, 90, 10}, {fact.CloseTime10ToClosed, 10, 0}, {fact.CloseTime70ToClosed, 70, 0},
	} {
		want := float64(truth.Between(c.from*q.Degree, c.to*q.Degree, true))
		found := false
		for i := range all {
			if one := &all[i]; one.ID == c.id {
				found = true
				if !one.Known() || math.Abs(one.Value-want) > 3*one.U {
					t.Errorf("%v: %.4f ± %.4f s (%s), truly %.4f", c.id, one.Value, one.U, one.Why, want)
				}
			}
		}
		if !found {
			t.Errorf("%v is not told", c.id)
		}
	}
	with := Make(o, &j.Sheets, books, Options{Draws: 64, Recorded: all})
	if f := with.Facts[fact.CloseTime90To10]; f.Origin != Read {
		t.Errorf("the time to 10 degrees is %v", f.Origin)
	}
	if f := with.Facts[fact.HandToOpen]; f.Origin != Computed {
		t.Errorf("the push is %v", f.Origin)
	}
}

// Several swings count as repeated readings.
func TestSwingsAreRepeats(t *testing.T) {
	j, books := clinic(t)
	p := Make(demoOpening(t, j, "102"), &j.Sheets, books, Options{Draws: 64})
	tr, _ := recorded(t, p, 3)
	for _, one := range p.Record(tr, false) {
		if one.ID != fact.CloseTime10ToClosed {
			continue
		}
		got := one.repeats()
		if one.N != 3 || got == nil || got.N != 3 || math.Abs(math.Hypot(got.Budget[0].U, got.Budget[1].U)-one.U) > 1e-12 {
			t.Errorf("%+v comes to %+v", one, got)
		}
	}
}

// A recording made at a state tells the valves better than the laps do.
func TestTuneByRecording(t *testing.T) {
	j, books := clinic(t)
	o := *demoOpening(t, j, "102")
	o.Closer.SweepTurns, o.Closer.LatchTurns = q.Exactly(q.Turns(1.5)), q.Exactly(q.Turns(1))
	p := Make(&o, &j.Sheets, books, Options{Draws: 64})
	laps, err := p.Tune(&j.Sheets, nil, Options{}.Policy)
	if err != nil || laps.Advice == nil {
		t.Fatal(err, laps)
	}
	tr, _ := recorded(t, p, 1)
	curve, err := p.Tune(&j.Sheets, []Curved{{Name: "made.csv", Trace: tr}}, Options{}.Policy)
	if err != nil || curve.Advice == nil {
		t.Fatal(err, curve)
	}
	if a, b := laps.Fit.Sweep[0].U, curve.Fit.Sweep[0].U; !(b < a) {
		t.Errorf("the sweep's spread is %.3g by laps and %.3g with a recording", a, b)
	}
	if _, err := p.Tune(&j.Sheets, []Curved{{Name: "made.csv", State: 1, Trace: tr}}, Options{}.Policy); err == nil {
		t.Error("a state that is not there was taken")
	}
	if u := tr.Swings[0].ScaleSpread(); !(u > 0 && u < trace.DefaultScale) {
		t.Errorf("a measured scale is good to %g", float64(u))
	}
	// what was foretold is held against recordings too
	turned := o
	turned.Adjusted = []opening.Adjustment{{Sweep: q.Exactly(q.Turns(1.375)), Latch: q.Exactly(q.Turns(1))}}
	again, err := Make(&turned, &j.Sheets, books, Options{Draws: 64}).Tune(&j.Sheets, []Curved{{Name: "made.csv", State: 1, Trace: tr}}, Options{}.Policy)
	if err != nil || len(again.Log) != 1 || again.Track.N < 2 {
		t.Fatalf("%v, %+v", err, again.Log)
	}
	for _, found := range again.Log[0].Found {
		want := tr.Swings[0].Between(found.From, found.To, true)
		if math.Abs(float64(found.Time-want.Value)) > 1e-9 || math.Abs(float64(found.U-want.U)) > 1e-9 {
			t.Errorf("%+v, recorded %v", found, want)
		}
	}
	o.Readings = append(o.Readings, opening.Reading{Fact: "powered.open_angle", Value: "93 deg ± 0.4 deg", Instrument: "recording made.csv"})
	kept := Make(&o, &j.Sheets, books, Options{Draws: 64})
	if a := kept.KeptAngle("made.csv"); !a.Known || math.Abs(float64(a.Value/q.Degree)-93) > 1e-9 || math.Abs(float64(a.U/q.Degree)-0.2) > 1e-9 {
		t.Errorf("kept is %v", a)
	}
	if a := kept.KeptAngle("other.csv"); a.Known {
		t.Errorf("of another recording %v is kept", a)
	}
	o.Closer.SweepTurns = q.Measured[q.Turns]{}
	if w, err := Make(&o, &j.Sheets, books, Options{Draws: 64}).Tune(&j.Sheets, nil, Options{}.Policy); err != nil || len(w.Missing) != 1 {
		t.Errorf("without turns: %v, %v", w, err)
	}
}
