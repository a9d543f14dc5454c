package picture

import (
	"os"
	"testing"

	"swingwright/job"
	"swingwright/judge"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/record"
	"swingwright/rulebook"
	"swingwright/rulebook/author"
	"swingwright/swing"
	"swingwright/trace"
)

// recorded is a made-up recording of an opening as the last adjustment left it.
func recorded(t *testing.T, p *plan.Plan, j *job.Job, seed uint64) *trace.Trace {
	t.Helper()
	m, err := p.Turned(&j.Sheets)
	if err != nil {
		t.Fatal(err)
	}
	var mv swing.Mover
	var c record.Course
	c.Rest(3).Turn(trace.Opening, 92*quantity.Degree, 3).Rest(3)
	c.Close(&mv, &m)
	c.Rest(3)
	rec, err := trace.Read("made-up.csv", record.Simulate(&c, record.Options{
		Seed: seed, Rate: 60, Jitter: 2e-3, NoiseDensity: 1.4e-4, Bias: [3]quantity.AngularSpeed{0.005, -0.003, 0.002},
	}), nil)
	if err != nil {
		t.Fatal(err)
	}
	return rec.Analyse(trace.Settings{Open: quantity.Give[quantity.Angle](92*quantity.Degree, 0.2*quantity.Degree)})
}

// The pictures of what was measured, and of the year, were looked at likewise before they
// were kept.
func TestMeasuredPicturesAreAsTheyWere(t *testing.T) {
	j, err := job.Decode(os.DirFS("../demo/harbour-street-clinic"), "tuning.yaml")
	if err != nil {
		t.Fatal(err)
	}
	book, err := author.BuiltinBook("ada-2010")
	if err != nil {
		t.Fatal(err)
	}
	books := []*rulebook.Book{book}
	found := recorded(t, plan.Make(&j.Openings[0], &j.Sheets, books, quick), j, 1)
	p := plan.Make(&j.Openings[1], &j.Sheets, books, quick)
	once := recorded(t, p, j, 2)
	compareGolden(t, "117-recording-US.svg", Recording(p, once, quantity.US))
	compareGolden(t, "117-recording-SI.svg", Recording(p, once, quantity.SI))
	w, err := p.Tune(&j.Sheets, []plan.Curved{{Name: "found.csv", Trace: found}, {Name: "once.csv", State: 1, Trace: once}}, judge.Policy{})
	if err != nil {
		t.Fatal(err)
	}
	compareGolden(t, "117-fit.svg", Fit(p, w))
	compareGolden(t, "117-foretold.svg", Foretold(p, w))

	o, sheets, all := demoOpening(t, "103")
	whole, _ := demo(t)
	opt := quick
	opt.Climate = whole.Climate
	year := plan.Make(&o, sheets, all[:1], opt)
	s, err := year.Seasons(sheets, opt)
	if err != nil {
		t.Fatal(err)
	}
	compareGolden(t, "103-seasons-US.svg", Seasons(year, s, quantity.US))
	compareGolden(t, "103-seasons-SI.svg", Seasons(year, s, quantity.SI))
}
