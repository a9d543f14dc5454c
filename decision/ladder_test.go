package decision

import (
	"strings"
	"testing"
	"testing/fstest"

	"swingwright/fact"
	"swingwright/job"
	"swingwright/judge"
	"swingwright/opening"
	"swingwright/plan"
	q "swingwright/quantity"
	"swingwright/rulebook"
	"swingwright/rulebook/author"
)

const draws = 64

// sound is the starter file's opening with an operator, mended until no test speaks
// against it.
func sound(t testing.TB) *job.Job {
	t.Helper()
	j, err := job.Decode(fstest.MapFS{"job.yaml": {Data: job.Starter()}}, "job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	o := &j.Openings[0]
	o.Latch.Force, o.Latch.At = q.Give(0.3*q.PoundForce, 0.03*q.PoundForce), q.Exactly(34*q.Inch)
	o.Seal = opening.Seal{None: "yes"}
	o.Closer.Gauged = []opening.Gauged{
		{Angle: q.Exactly(5 * q.Degree), Opening: q.Give(9*q.PoundForce, 0.2*q.PoundForce), Closing: q.Give(5*q.PoundForce, 0.2*q.PoundForce), At: q.Exactly(34 * q.Inch)},
		{Angle: q.Exactly(60 * q.Degree), Opening: q.Give(7*q.PoundForce, 0.2*q.PoundForce), Closing: q.Give(3.6*q.PoundForce, 0.2*q.PoundForce), At: q.Exactly(34 * q.Inch)},
	}
	o.Air.Most = q.Give(1*q.Pascal, 0.5*q.Pascal)
	o.Doorway.BehindLeaf, o.Doorway.Depth = q.Exactly(8*q.Inch), q.Exactly(4*q.Inch)
	j.Sheets.Closers[0].Backcheck = opening.Valve{At: q.Exactly(q.Turns(1)), Viscous: q.Exactly(q.Damping(6))}
	o.Closer.CheckTurns = q.Exactly(q.Turns(1))
	j.Sheets.Operators[0].Gain = q.Exactly(q.Damping(900))
	return j
}

func decide(t testing.TB, j *job.Job, opt Options) *Decision {
	t.Helper()
	book, err := author.BuiltinBook("ada-2010")
	if err != nil {
		t.Fatal(err)
	}
	p := plan.Make(&j.Openings[0], &j.Sheets, []*rulebook.Book{book}, plan.Options{Draws: draws})
	return Make(p, &j.Sheets, opt)
}

// rung finds a test by part of its words.
func rung(d *Decision, words string) *Rung {
	for i := range d.Rungs {
		if strings.Contains(d.Rungs[i].Test, words) {
			return &d.Rungs[i]
		}
	}
	return nil
}

// Nothing speaks against a sound opening but what nobody wrote down.
func TestSoundOpening(t *testing.T) {
	d := decide(t, sound(t), Options{})
	for _, r := range d.Rungs {
		if r.Verdict == judge.FallsShort || r.Verdict == judge.TooClose {
			t.Errorf("%s: %v, %+v, %s", r.Test, r.Verdict, r.Number, r.Why)
		}
	}
	if d.Answer > FindOut {
		t.Errorf("the answer is %v", d.Answer)
	}
	if len(d.Calls) == 0 || d.Calls[0].Whom != "licensed electrician" {
		t.Errorf("to call: %v", d.Calls)
	}
}

// Every rung of the trade's ladder, failed one at a time: what it is called, what it
// comes to, and whether a cure is known to work.
func TestEveryRungFails(t *testing.T) {
	for name, c := range map[string]struct {
		spoil  func(o *opening.Opening, s *opening.Sheets)
		test   string
		answer Answer
		cured  bool
		call   string
	}{
		"concealed closer": {func(o *opening.Opening, _ *opening.Sheets) { o.Closer.Seated = "concealed" }, "of a kind that can stay", Refuse, false, ""},
		"leaking closer":   {func(o *opening.Opening, _ *opening.Sheets) { o.Closer.Leaks = "yes" }, "of a kind that can stay", Repair, true, ""},
		"hold-open arm":    {func(o *opening.Opening, _ *opening.Sheets) { o.Closer.HoldOpen = "yes" }, "of a kind that can stay", Change, true, ""},
		"no closer":        {func(o *opening.Opening, _ *opening.Sheets) { o.Closer = opening.Closer{None: "yes"} }, "of a kind that can stay", Change, true, ""},
		"frame not sound":  {func(o *opening.Opening, _ *opening.Sheets) { o.Frame.Sound = "no" }, "The frame is straight", Refer, false, "structural"},
		"binds":            {func(o *opening.Opening, _ *opening.Sheets) { o.Frame.Binds = "yes" }, "drags or binds", Repair, true, ""},
		"drifts":           {func(o *opening.Opening, _ *opening.Sheets) { o.Frame.Drift = q.Exactly(12 * q.Degree) }, "the leaf stays", Repair, true, ""},
		"stiff hinges":     {func(o *opening.Opening, _ *opening.Sheets) { o.Frame.Friction = q.Exactly(3 * q.PoundForce) }, "moves freely", Repair, true, ""},
		"leaf too heavy":   {func(o *opening.Opening, _ *opening.Sheets) { o.Leaf.Weight = q.Exactly(260 * q.Pound) }, "Leaf weight is within", Change, true, ""},
		"leaf too wide":    {func(o *opening.Opening, _ *opening.Sheets) { o.Leaf.Width = q.Exactly(50 * q.Inch) }, "Leaf width is within", Change, true, ""},
		"wall too near":    {func(o *opening.Opening, _ *opening.Sheets) { o.Room.WallBeside = q.Exactly(2.5 * q.Inch) }, "Beside the open leaf", Refuse, false, ""},
		"stop too early": {func(o *opening.Opening, _ *opening.Sheets) {
			o.Room.StopsAt, o.Room.StopsOn = q.Give(89*q.Degree, q.Degree/4), "floor stop"
		}, "short of wall and stop", Repair, true, ""},
		"low ceiling": {func(o *opening.Opening, s *opening.Sheets) {
			o.Room.AbovePull, s.Operators[0].Limits.CeilingRoom = q.Exactly(2*q.Inch), q.Exactly(3*q.Inch)
		}, "over the head", Refuse, false, ""},
		"arm not taken": {func(_ *opening.Opening, s *opening.Sheets) {
			s.Operators[0].Limits.Arms = []opening.ArmKind{opening.TopJamb}
		}, "kind that the operator takes", Refuse, false, ""},
		"power not allowed":     {func(_ *opening.Opening, s *opening.Sheets) { s.Operators[0].Limits.PowerMax = q.Exactly(q.Ratio(2)) }, "power is within", Change, false, ""},
		"bolt by hand only":     {func(o *opening.Opening, _ *opening.Sheets) { o.Lock.Kind, o.Lock.Release = "storeroom", "by-hand-only" }, "can be released", Change, true, "integrator"},
		"delayed egress":        {func(o *opening.Opening, _ *opening.Sheets) { o.Lock.Delayed = "yes" }, "can be released", Refer, false, "jurisdiction"},
		"asbestos":              {func(o *opening.Opening, _ *opening.Sheets) { o.Leaf.Asbestos = "yes" }, "free of asbestos", Refer, false, "hygienist"},
		"hidden rods":           {func(o *opening.Opening, _ *opening.Sheets) { o.Leaf.Concealed = "yes" }, "No rods or wires", Change, true, ""},
		"label gone":            {func(o *opening.Opening, _ *opening.Sheets) { o.Use.FireRated, o.Fire.LabelLegible = "yes", "no" }, "labels of leaf and frame", Refer, false, "fire-door inspector"},
		"operator not for fire": {func(o *opening.Opening, _ *opening.Sheets) { o.Use.FireRated, o.Fire.OperatorListed = "yes", "no" }, "listed for fire doors", Change, true, "fire-alarm contractor"},
		"alarm does not let go": {func(o *opening.Opening, _ *opening.Sheets) { o.Use.FireRated, o.Fire.AlarmReleases = "yes", "no" }, "An alarm takes", Refer, true, "fire-alarm contractor"},
		"hole too large": {func(o *opening.Opening, _ *opening.Sheets) {
			o.Use.FireRated, o.Fire.HoleDiameter = "yes", q.Exactly(1.5*q.Inch)
		}, "Holes drilled", Refer, false, "fire-door inspector"},
		"hard backcheck": {func(_ *opening.Opening, s *opening.Sheets) { s.Closers[0].Backcheck.Viscous = q.Exactly(q.Damping(50)) }, "opens the leaf fully", Repair, true, ""},
		"no power":       {func(o *opening.Opening, _ *opening.Sheets) { o.Power.Reachable = "no" }, "A circuit", Refer, true, "electrician"},
		"motion sensor":  {func(o *opening.Opening, _ *opening.Sheets) { o.Use.Activation = "sensor" }, "A knowing act", Change, true, ""},
		"wind": {func(o *opening.Opening, _ *opening.Sheets) {
			o.Use.Place, o.Air.Wind = "exterior", q.Exactly(25*q.MilePerHour)
		}, "The wind", Change, true, ""},
		"pressure": {func(o *opening.Opening, _ *opening.Sheets) { o.Air.Least = q.Exactly(-30 * q.Pascal) }, "The pressure on the leaf", Refer, true, "balancer"},
		"traffic":  {func(o *opening.Opening, _ *opening.Sheets) { o.Use.Cycles = q.Exactly(q.Ratio(500)) }, "no more often", Change, true, ""},
		"too narrow": {func(o *opening.Opening, _ *opening.Sheets) {
			o.Doorway.ClearWidth, o.Doorway.PoweredWidth = q.Exactly(29*q.Inch), q.Exactly(29*q.Inch)
		}, "clear width", Refuse, false, "architect"},
		"switch too high": {func(o *opening.Opening, _ *opening.Sheets) { o.Controls[0].Height = q.Exactly(60 * q.Inch) }, "Every other published limit", Repair, false, ""},
	} {
		j := sound(t)
		c.spoil(&j.Openings[0], &j.Sheets)
		d := decide(t, j, Options{Brief: true})
		r := rung(d, c.test)
		switch {
		case r == nil:
			t.Errorf("%s: no test about %q", name, c.test)
		case r.Verdict != judge.FallsShort || r.Answer != c.answer || (r.Cure() != nil) != c.cured:
			t.Errorf("%s: %v, %v, cure %+v; want to fall short, %v, cured %v", name, r.Verdict, r.Answer, r.Cures, c.answer, c.cured)
		case d.Answer < c.answer:
			t.Errorf("%s: the answer is %v", name, d.Answer)
		}
		if c.call != "" && !calls(d, c.call) {
			t.Errorf("%s: to call are %v", name, d.Calls)
		}
	}
}

func calls(d *Decision, whom string) bool {
	for _, c := range d.Calls {
		if strings.Contains(c.Whom, whom) {
			return true
		}
	}
	return false
}

// A cure that is said to work is right: the opening changed as it says passes the test.
func TestCuresComeTrue(t *testing.T) {
	j := sound(t)
	o := &j.Openings[0]
	o.Latch.Force = q.Give(1.2*q.PoundForce, 0.1*q.PoundForce)
	o.Closer.Size, o.Closer.Gauged = q.Exactly(q.Ratio(2)), nil
	d := decide(t, j, Options{})
	r := rung(d, "latch budget")
	var up *Cure
	for i := range r.Cures {
		if r.Cures[i].What == "turn the spring up to power 3" {
			up = &r.Cures[i]
		}
	}
	if r.Verdict != judge.FallsShort || up == nil {
		t.Fatalf("%v, cures %+v", r.Verdict, r.Cures)
	}
	o.Closer.Size = q.Exactly(q.Ratio(3))
	after := rung(decide(t, j, Options{}), "latch budget")
	if diff := after.Number.Value - up.Number.Value; diff > 1e-9 || diff < -1e-9 {
		t.Errorf("the cure was said to give %g N and gives %g", up.Number.Value, after.Number.Value)
	}
	if up.Works != (after.Verdict == judge.Meets) {
		t.Errorf("said to work: %v; it comes to %v", up.Works, after.Verdict)
	}
}

// The largest pressure that is named leaves just what the guard band asks for.
func TestLessPressureIsExact(t *testing.T) {
	j := sound(t)
	o := &j.Openings[0]
	o.Air.Most = q.Give(25*q.Pascal, q.Pascal)
	r := rung(decide(t, j, Options{}), "latch budget")
	i := 0
	for ; i < len(r.Cures) && r.Cures[i].Effort != Building; i++ {
	}
	if i == len(r.Cures) {
		t.Fatalf("no cure by pressure among %+v", r.Cures)
	}
	text := r.Cures[i].What
	pa := text[strings.Index(text, "(")+1 : strings.Index(text, " Pa)")]
	m, err := q.Parse[q.Pressure](pa + " Pa")
	if err != nil {
		t.Fatal(err)
	}
	o.Air.Most = q.Give(m.Value, q.Pascal)
	after := rung(decide(t, j, Options{}), "latch budget").Number
	want := after.Limit + judge.Policy{}.Coverage()*r.Number.U
	if diff := after.Value - want; diff > 0.05 || diff < -0.05 { // the pressure is printed to 0.01 Pa
		t.Errorf("at %s Pa the budget leaves %.3f N, want %.3f", pa, after.Value, want)
	}
}

// What would settle most is asked first, and a fact known is not asked.
func TestQuestionsAreRanked(t *testing.T) {
	j := sound(t)
	o := &j.Openings[0]
	o.Closer.Size, o.Closer.Gauged = q.Measured[q.Ratio]{}, nil
	d := decide(t, j, Options{Brief: true})
	if len(d.Questions) == 0 || d.Questions[0].Field != "closer.size" || d.Questions[0].Rungs == 0 || d.Questions[0].How == "" {
		t.Fatalf("asked first: %+v", d.Questions)
	}
	last := d.Questions[1].Settles()
	for _, question := range d.Questions[1:] {
		if question.Settles() > last {
			t.Errorf("%s settles %.3g and stands below %.3g", question.Field, question.Settles(), last)
		}
		last = question.Settles()
		if question.Field == fact.ClearWidth.String() {
			t.Error("a width that was taped is asked for")
		}
	}
}

// A hand-pushed door is not asked for power, locks or actuators.
func TestHandPushedIsAskedLess(t *testing.T) {
	j := sound(t)
	o := &j.Openings[0]
	o.Use.Operation, o.Operator = "manual", opening.Operator{}
	d := decide(t, j, Options{Brief: true})
	for _, words := range []string{"electrician", "knowing act", "lock can be released", "operator"} {
		if r := rung(d, words); r != nil && !strings.Contains(r.Test, "frame") {
			t.Errorf("asked of a hand-pushed door: %s", r.Test)
		}
	}
	if len(d.Calls) != 0 {
		t.Errorf("to call: %v", d.Calls)
	}
}
