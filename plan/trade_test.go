package plan

import (
	"math"
	"testing"

	"swingwright/clearance"
	"swingwright/fact"
	"swingwright/opening"
	q "swingwright/quantity"
	"swingwright/rulebook"
	"swingwright/rulebook/author"
	"swingwright/swing"
	"swingwright/transit"
	"swingwright/weather"
)

// tradeOpening is an opening that notes of the trade work end to end by hand, with
// made-up data: interior 3-0 × 7-0, leaf of 35-3/4 × 83-3/4 × 1-3/4 in and 120 lb, a
// unit of 15 lb put on 8 in from the hinge, regular arm, 4.4 lbf left to close with
// at 5 degrees, 8.6 lbf to open it at 33.5 in, friction 0.6, latch 1.5, seal 1.2 lbf at the edge, 3 Pa
// against it.
//
// The notes take the 4.4 lbf as what the closer gives, and take friction off it. A
// gauge reads what is left after the hinges took theirs, so it would show 3.8 lbf.
// Opening is told for one place only; here it is gauged where closing is.
func tradeOpening() (opening.Opening, opening.Sheets) {
	edge := q.Exactly(35.75 * q.Inch)
	pounds := func(n float64) q.Measured[q.Force] { return q.Exactly(q.Force(n) * q.PoundForce) }
	o := opening.Opening{
		ID:  "worked",
		Use: opening.Use{Place: "interior", FireRated: "no", Egress: "no", Operation: "low-energy", Activation: "switch"},
		Leaf: opening.Leaf{
			Width: edge, Height: q.Exactly(83.75 * q.Inch), Thickness: q.Exactly(1.75 * q.Inch), Weight: q.Exactly(135 * q.Pound),
			Hardware: []opening.Hardware{{What: "unit", Weight: q.Exactly(15 * q.Pound), FromHinge: q.Exactly(8 * q.Inch)}},
			Handle:   q.Exactly(2.25 * q.Inch),
		},
		Frame: opening.Frame{PinAlong: q.Exactly(q.Length(0)), PinOff: q.Exactly(q.Length(0)), Friction: pounds(0.6), At: edge},
		Closer: opening.Closer{Sheet: "C", Arm: "R", Size: q.Exactly(q.Ratio(3)), SweepTime: q.Exactly(q.Time(6)), LatchTime: q.Exactly(q.Time(2)),
			Gauged: []opening.Gauged{{Angle: q.Exactly(5 * q.Degree), Opening: pounds(8.6 * 33.5 / 35.75), Closing: pounds(4.4 - 0.6), At: edge}}},
		Latch: opening.Latch{Force: pounds(1.5), At: edge},
		Seal:  opening.Seal{Force: pounds(1.2), At: edge, Gap: q.Exactly(q.Inch / 8)},
		Air:   opening.Air{Usual: q.Exactly(3 * q.Pascal), Most: q.Exactly(3 * q.Pascal)},
	}
	inch := func(n float64) q.Measured[q.Length] { return q.Exactly(q.Length(n) * q.Inch) }
	return o, opening.Sheets{
		Closers: []opening.CloserSheet{{Name: "C", Powers: []opening.Power{{Size: q.Exactly(q.Ratio(3)), Closed: q.Exactly(q.Torque(11))}}}},
		// the illustrative arm of the same notes
		Arms: []opening.ArmSheet{{Name: "R", Kind: opening.RegularArm, Main: inch(11), Fore: inch(10.47), Elbow: opening.PullSide,
			Pinion: opening.Point{Along: inch(6.5), Off: inch(2.25)}, Shoe: opening.Point{Along: inch(12.5), Off: inch(1)}}},
	}
}

func tradePlan(t *testing.T, o opening.Opening, sheets opening.Sheets) *Plan {
	t.Helper()
	book, err := author.BuiltinBook("a156.19-2007")
	if err != nil {
		t.Fatal(err)
	}
	p := Make(&o, &sheets, []*rulebook.Book{book}, Options{Draws: 8})
	if p.Problem != nil || len(p.Resolved.Notes) > 0 {
		t.Fatalf("problem %v, notes %q", p.Problem, p.Resolved.Notes)
	}
	return p
}

func closeTo(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: %.4g, by hand %.4g within %.2g", what, got, want, within)
	}
}

// Weight: 135 lb in all, that of an even leaf as hard to turn 122 lb. The notes take the
// leaf as thin; its 1-3/4 in about a pin at the pull face are worth another 0.3 lb.
func TestTradeOpeningWeight(t *testing.T) {
	o, sheets := tradeOpening()
	p := tradePlan(t, o, sheets)
	closeTo(t, "weight, lb", p.Facts[fact.LeafMass].Value/float64(q.Pound), 135, 0.01)
	closeTo(t, "as hard to turn as, lb", p.Facts[fact.LeafEquivalentMass].Value/float64(q.Pound), 122.2+120*(1.75*1.75)/(35.75*35.75), 0.15)
}

// Latch budget: +0.4 lbf at the edge as found; +1.3 with latch and seal eased to 1.0 and
// 0.8 lbf; +2.1 with the spring raised to leave 5.2 lbf; −0.2 in winter, 10 m below
// the neutral plane at −10 °C, were it an entrance. The notes round every line to 0.1 lbf,
// the air's 0.69 to 0.7 among them. Opening by hand comes to about 10 lbf at 33.5 in
// then, over the 5 lbf of a door without power and within the 15 of one with.
func TestTradeOpeningLatches(t *testing.T) {
	margin := func(p *Plan) float64 {
		return p.Facts[fact.LatchMargin].Value / float64(35.75*q.Inch) / float64(q.PoundForce)
	}
	o, sheets := tradeOpening()
	p := tradePlan(t, o, sheets)
	closeTo(t, "as found, lbf", margin(p), 0.4, 0.1)
	// To start the leaf the program counts what pushes along with the hand: the air's
	// 0.7 and the seal's 1.2 lbf at the edge, which the notes leave out; and the arm has 5 % more
	// hold on the closed leaf than at the 5 degrees where it was gauged.
	push := p.Facts[fact.HandToStart].Value / float64(33.5*q.Inch) / float64(q.PoundForce)
	closeTo(t, "to open by hand as found, lbf", push, 8.6-(0.7+1.2)*35.75/33.5, 0.4)

	o.Latch.Force, o.Seal.Force = q.Exactly(1.0*q.PoundForce), q.Exactly(0.8*q.PoundForce)
	closeTo(t, "latch and seal eased, lbf", margin(tradePlan(t, o, sheets)), 1.3, 0.1)

	// a spring raised by 5.2/4.4 opens harder in the same measure, friction apart
	g := &o.Closer.Gauged[0]
	up := q.Force(5.2 / 4.4)
	friction := 0.6 * q.PoundForce
	g.Opening.Value, g.Closing.Value = (g.Opening.Value-friction)*up+friction, (g.Closing.Value+friction)*up-friction
	p = tradePlan(t, o, sheets)
	closeTo(t, "spring raised, lbf", margin(p), 2.1, 0.1)
	open := g.Opening.Value * 35.75 / 33.5 / q.PoundForce
	closeTo(t, "to open by hand, lbf", float64(open), 10, 0.51)
	for _, rule := range []string{"start-by-hand", "open-by-hand"} {
		if f := finding(t, p, rule); f.Margin < 0 {
			t.Errorf("%s is missed by %g", rule, -f.Margin)
		}
	}

	winter := weather.Stack(q.Celsius0-10, q.Celsius0+21, 10)
	closeTo(t, "winter, Pa", float64(winter), 14, 0.51)
	o.Air.Most = q.Exactly(winter)
	closeTo(t, "winter, lbf", margin(tradePlan(t, o, sheets)), -0.2, 0.15)
}

func finding(t *testing.T, p *Plan, rule string) *Finding {
	t.Helper()
	for i := range p.Findings {
		if p.Findings[i].Rule.ID == rule {
			return &p.Findings[i]
		}
	}
	t.Fatalf("no rule %s", rule)
	return nil
}

// Times: opening to 80 degrees at least 3.5 s by the total weight, whose formula gives
// 3.12 s, and 2.97 s for the weight that is as hard to turn; to fully open 5.0 s with
// backcheck at 70 degrees; closing to 10 degrees 3.5 s, the last 10 degrees 1.5 s. The notes ask for
// 5.0 s from 90 to 12 degrees as well, of a door that is also closed by its
// manual closer: the federal limit of 404.2.8.1, which the book applies to manual doors only.
func TestTradeOpeningTimes(t *testing.T) {
	o, sheets := tradeOpening()
	o.Readings = []opening.Reading{{Fact: "powered.backcheck_from", Value: "70 deg"}}
	p := tradePlan(t, o, sheets)
	for rule, want := range map[string]float64{"open-to-check": 3.5, "open-to-90": 5.0, "close-90-to-check": 3.5, "close-10-to-closed": 1.5} {
		closeTo(t, rule+", s", finding(t, p, rule).Limit, want, 1e-9)
	}
	formula := func(id fact.ID) float64 {
		return 35.75 * math.Sqrt(p.Facts[id].Value/float64(q.Pound)) / 133
	}
	closeTo(t, "by the total weight, s", formula(fact.LeafMass), 3.12, 0.0051)
	closeTo(t, "by the weight that is as hard to turn, s", formula(fact.LeafEquivalentMass), 2.97, 0.0061)
}

// Geometry: beside a wall at 4-1/4 in, with a pull of 2-1/2 in, 92.2 degrees at most, so it is
// set to 91, 5 short of the stop at 96; 33.5 in in clear there; marks at 10, 12, 80
// and 90 degrees as chords.
func TestTradeOpeningGeometry(t *testing.T) {
	leaf := clearance.Leaf{Width: 35.75 * q.Inch, Thickness: 1.75 * q.Inch}
	pull := clearance.Projection{Name: "pull", Side: clearance.Pull, At: 33 * q.Inch, Out: 2.5 * q.Inch}
	most, first, ok := clearance.WallStop(leaf, 4.25*q.Inch, clearance.WallGap, pull)
	closeTo(t, "to the wall, degrees", float64(most/q.Degree), 92.2, 0.051)
	if !ok || first != "pull" {
		t.Errorf("%q meets the wall first (%v), want the pull", first, ok)
	}
	frame := clearance.Frame{Width: 36 * q.Inch, HingeGap: q.Inch / 8, HingeStop: 0.625 * q.Inch, LatchStop: 0.625 * q.Inch}
	closeTo(t, "in clear, in", float64(clearance.ClearWidth(leaf, frame, 90*q.Degree).Net/q.Inch), 33.5, 0.051)
	if got := clearance.ClearWidth(leaf, frame, 91*q.Degree).Net; got < 32*q.Inch {
		t.Errorf("%g in in clear at 91 degrees, want 32 at least", float64(got/q.Inch))
	}
	marks, err := clearance.Marks(q.Exactly(35.75*q.Inch), 0, 10*q.Degree, 12*q.Degree, 80*q.Degree, 90*q.Degree)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{6.2, 7.5, 46.0, 50.6} {
		closeTo(t, "mark, in", float64(marks[i].Chord/q.Inch), want, 0.051)
	}
}

// Time for a frail user, 12 ft at 1.5 ft/s: 8.0 s of the 8.5 s that 3.5 s of opening and
// 5 s of hold give; the 7 s that the notes suggest leave 2.5 s.
func TestTradeOpeningUser(t *testing.T) {
	walk := transit.Walk{Actuator: 5 * q.Foot, Clear: 3 * q.Foot, Person: transit.Chair, Speed: transit.Frail}
	closeTo(t, "spare, s", float64(transit.Advise(walk, transit.Cycle{Opening: 3.5, Hold: 5}, 0).Margin), 0.5, 1e-9)
	closeTo(t, "spare with 7 s of hold, s", float64(transit.Advise(walk, transit.Cycle{Opening: 3.5, Hold: 7}, 0).Margin), 2.5, 1e-9)
}

// The trade's table of least opening times, reckoned from D·√W/133 and rounded up to
// half seconds, not below 3 s. The standard prints 30, 36, 42 and 48 in and 100 to 200 lb in
// steps of 25, and between them the next printed one counts: the program is never
// faster than the table, and at the printed sizes the same.
func TestTradeTableOfTimes(t *testing.T) {
	weights := []float64{75, 100, 120, 125, 150, 175, 200}
	o, sheets := tradeOpening()
	o.Leaf.Hardware = nil
	for width, row := range map[float64][]float64{
		30: {3.0, 3.0, 3.0, 3.0, 3.0, 3.0, 3.5},
		32: {3.0, 3.0, 3.0, 3.0, 3.0, 3.5, 3.5},
		34: {3.0, 3.0, 3.0, 3.0, 3.5, 3.5, 4.0},
		36: {3.0, 3.0, 3.0, 3.5, 3.5, 4.0, 4.0},
		42: {3.0, 3.5, 3.5, 4.0, 4.0, 4.5, 4.5},
		48: {3.5, 4.0, 4.0, 4.5, 4.5, 5.0, 5.5},
	} {
		for i, want := range row {
			o.Leaf.Width = q.Exactly(q.Length(width) * q.Inch)
			o.Leaf.Weight = q.Exactly(q.Mass(weights[i]) * q.Pound)
			got := finding(t, tradePlan(t, o, sheets), "open-to-check").Limit
			printed := (width == 30 || width >= 36) && weights[i] != 75 && weights[i] != 120
			if got < want || printed && got != want {
				t.Errorf("%g in, %g lb: %g s, the table has %g", width, weights[i], got, want)
			}
		}
	}
}

// Push at which the closer's spring is reckoned: the reading of 4.4 lbf and its arm
// give 4.4 lbf again, whatever the arm.
func TestTradeOpeningCloser(t *testing.T) {
	o, sheets := tradeOpening()
	p := tradePlan(t, o, sheets)
	m, err := p.Model()
	if err != nil {
		t.Fatal(err)
	}
	closing := swing.HandForce(m.BudgetAt(5*q.Degree).Closer, 35.75*q.Inch)
	closeTo(t, "closer at 5 degrees, lbf", float64(closing/q.PoundForce), 4.4, 0.01)
}
