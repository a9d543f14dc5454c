package plan

import (
	"fmt"
	"math"
	"slices"
	"sync"

	"swingwright/fact"
	"swingwright/instrument"
	"swingwright/internal/propagate"
	"swingwright/job"
	"swingwright/judge"
	"swingwright/opening"
	"swingwright/quantity"
	"swingwright/rulebook"
	"swingwright/swing"
)

// Options says how to make a plan.
type Options struct {
	Draws   int          // how many draws spreads are reckoned from; 256 when zero
	Seed    uint64       // of the draws; 1 when zero
	Workers int          // how many share one opening's draws; 1 when zero
	Policy  judge.Policy // the risk of a wrong call that is taken
	// InPlaceOf is the plan of the opening that this one would stand in place of, made
	// without options of its own kind; nil for an opening as it is. A closer that both
	// have keeps its valves where that opening's times set them.
	InPlaceOf *Plan
	// Recorded is what a recording shows of this opening; see Plan.Record.
	Recorded []Recorded
	// Climate is the weather of the place, from which the pressure at openings to
	// the outdoors is reckoned where none is stated.
	Climate opening.Climate
	// Wiring asks for the wiring of the opening to be proved, which may take a second.
	Wiring bool
	// Groups are those of the job; of one that shares a wiring its openings are fed.
	Groups []opening.Group
	// Openings are those of the job: of the others of a group that shares a wiring it is
	// taken how long their leaves move. One that is not among them moves like this one.
	Openings []opening.Opening
	// Collisions are the known differences between rulebooks; none are looked for without.
	Collisions []rulebook.Collision
}

// Maker makes plans, one at a time, and keeps its memory from one to the next.
// The zero Maker is ready. It is not safe for use by several goroutines at once.
type Maker struct {
	draws   propagate.Draws
	inputs  []propagate.Input
	place   []int // of each varied input among all inputs
	readers []reckoner
	wirings map[string]*Wired // proved already, by what a proof takes in
}

// Make makes the plan of one opening under the given rulebooks.
func Make(o *opening.Opening, sheets *opening.Sheets, books []*rulebook.Book, opt Options) *Plan {
	var mk Maker
	return mk.Make(o, sheets, books, opt)
}

// Make makes the plan of one opening under the given rulebooks.
func (mk *Maker) Make(o *opening.Opening, sheets *opening.Sheets, books []*rulebook.Book, opt Options) *Plan {
	opt = opt.WithDefaults()
	p := &Plan{Opening: o, Gaps: gapsOf(o, sheets, &opt.Climate), Doubts: slices.Concat(opening.Implausible(o), opening.ImplausibleHardware(o, sheets))}
	mk.readers = slices.Grow(mk.readers[:0], opt.Workers)[:opt.Workers]
	best := p.begin(&mk.readers[0], sheets, opt)
	// has every device enough in its worst moment?
	p.feed(best[:], sheets, opt)
	p.read = append(p.read, p.fedFacts()...)
	p.read.put(best[:])
	rules := apply(books, best[:])
	p.spread(mk, rules, opt)
	p.take(best[:], mk)
	p.weathered()
	// may it move so?
	p.judge(mk, rules, best[:], opt)
	p.Passing = p.passing(sheets, opt.Policy)
	if opt.Wiring {
		p.Wired = mk.wired(p, sheets)
	}
	p.Meetings = rulebook.Meetings(opt.Collisions, books, best[:])
	p.Cautions = slices.Concat(p.outsideUse(sheets), p.unpractised(), cautions(p))
	return p
}

// begin resolves the opening and reckons its facts by best estimates, up to what the
// feeding of its devices turns on.
func (p *Plan) begin(k *reckoner, sheets *opening.Sheets, opt Options) (best [fact.Count]float64) {
	o := p.Opening
	// what is this leaf really like, and how does the closer hold it?
	p.Resolved = resolveInPlace(opt.InPlaceOf, o, sheets)
	p.Resolved.weather(o, &opt.Climate)
	given := p.given(o, sheets)
	p.surveyedWiring(&given, opt.Groups)
	k.given = given
	if p.Problem = k.prepare(p.Resolved); p.Problem != nil {
		p.Resolved.Times = false
	}
	// how will it move, and how sure are we?
	p.Swing = k.facts(k.x[:], best[:], true)
	p.Swing.FitProblem = p.Problem
	// what does it meet, and how wide is the way?
	p.Room = roomOf(o, p.Resolved, best[:], p.read, opt.Policy)
	p.read = append(p.read, p.Room.known...)
	p.read = p.read.recorded(opt.Recorded)
	p.read.put(best[:])
	return best
}

// WithDefaults are the options with what is zero filled in.
func (o Options) WithDefaults() Options {
	if o.Draws == 0 {
		o.Draws = 256
	}
	if o.Seed == 0 {
		o.Seed = 1
	}
	o.Workers = max(o.Workers, 1)
	return o
}

// applied is a rule of one of the books, applied to the best estimates.
type applied struct {
	book *rulebook.Book
	rule *rulebook.Rule
	out  rulebook.Outcome
	// drawn is the rule as every draw has to look at it, without its condition
	// where no draw changes that.
	drawn rulebook.Rule
	// fixed tells that no draw changes the outcome.
	fixed bool
}

func apply(books []*rulebook.Book, best []float64) []applied {
	var all []applied
	for _, b := range books {
		for i := range b.Rules {
			r := &b.Rules[i]
			all = append(all, applied{book: b, rule: r, out: r.Check(best)})
		}
	}
	return all
}

// spread draws the inputs and reckons, of every draw, all facts and the margins
// of the rules that the best estimates could be judged by.
func (p *Plan) spread(mk *Maker, rules []applied, opt Options) {
	mk.vary(p.Resolved, &mk.readers[0], p.read)
	mk.readers[0].learn(mk.inputs, mk.place)
	p.fix(rules)
	outs := fact.Count + 2*len(rules)
	if err := mk.draws.Prepare(opt.Seed, opt.Draws, mk.inputs, outs); err != nil {
		p.Problem = fmt.Errorf("the spreads cannot be drawn: %w", err)
		return
	}
	p.Draws = opt.Draws
	for w := 1; w < opt.Workers; w++ {
		mk.readers[w] = mk.readers[0]
	}
	var wait sync.WaitGroup
	for w := range opt.Workers {
		k := &mk.readers[w]
		from, to := opt.Draws*w/opt.Workers, opt.Draws*(w+1)/opt.Workers
		wait.Go(func() { mk.draws.Evaluate(from, to, mk.draw(k, rules, p.read)) })
	}
	wait.Wait()
}

// draw is the function that one draw is put through.
func (mk *Maker) draw(k *reckoner, rules []applied, read readings) propagate.Function {
	best := k.x
	x := make([]float64, numInputs)
	return func(in, out []float64) {
		copy(x, best[:])
		for i, at := range mk.place {
			if at < numInputs {
				x[at] = in[i]
			}
		}
		facts := out[:fact.Count]
		k.facts(x, facts, false)
		read.put(facts) // also those without a spread
		for i, at := range mk.place {
			if at >= numInputs {
				facts[read[at-numInputs].id] = in[i]
			}
		}
		for i := range rules {
			r := &rules[i]
			if r.out.End != rulebook.Judged {
				continue
			}
			got := r.out
			if !r.fixed {
				got = r.drawn.Check(facts)
			}
			out[fact.Count+2*i], out[fact.Count+2*i+1] = got.Margin, got.Sure
		}
	}
}

// fix finds what of the rules no draw changes: what rests on surveyed facts alone,
// of which nobody took a reading.
func (p *Plan) fix(rules []applied) {
	var sure rulebook.Facts
	for i := range p.Facts {
		id := fact.ID(i)
		if p.Facts[i].Origin == Surveyed && !slices.ContainsFunc(p.read, func(r reading) bool { return r.id == id }) {
			sure.Add(id)
		}
	}
	for i := range rules {
		r := &rules[i]
		if r.out.End != rulebook.Judged {
			continue
		}
		r.drawn = *r.rule
		if !r.rule.When.Uses().Within(sure) {
			continue
		}
		r.drawn.When = nil // it was met, or nothing would have been judged
		r.fixed = sure.Has(r.rule.Of) && r.rule.At.Uses().Within(sure) && r.rule.Limit.Uses().Within(sure) && r.rule.Sure.Uses().Within(sure)
	}
}

// vary lists the inputs that have a spread: those of the model, then the readings.
func (mk *Maker) vary(r *Resolved, k *reckoner, read readings) {
	mk.inputs, mk.place = mk.inputs[:0], mk.place[:0]
	add := func(at int, mean, u, low, high float64) {
		if u > 0 {
			mk.inputs = append(mk.inputs, propagate.Input{Mean: mean, U: u, Low: min(low, mean), High: max(high, mean)})
			mk.place = append(mk.place, at)
		}
	}
	any, none := math.Inf(1), math.Inf(-1)
	for i := range r.Rows {
		if k.fitted && (swing.Value(i) == swing.SweepViscous || swing.Value(i) == swing.LatchViscous && r.Found.Latch.Known) {
			continue // set by the times found
		}
		low, high := bounds(swing.Value(i))
		add(i, k.x[i], r.Rows[i].U, low, high)
	}
	if k.fitted {
		add(inSweepTime, r.Found.Sweep.Value, r.Found.Sweep.U, 0.1, any)
		add(inLatchTime, r.Found.Latch.Value, r.Found.Latch.U, 0.1, any)
	}
	if r.Most != r.Rows[swing.Pressure] {
		add(inPressureMost, r.Most.Value, r.Most.U, none, any)
	}
	if r.Least != r.Rows[swing.Pressure] {
		add(inPressureLeast, r.Least.Value, r.Least.U, none, any)
	}
	add(inHandle, r.Handle.Value, r.Handle.U, 0.1, any)
	if r.Drive.Fitted {
		add(inDwell, r.Dwell.Value, r.Dwell.U, 0, any)
		add(inPushStart, r.PushStart.Value, r.PushStart.U, 0, r.Rows[swing.OpenAngle].Value/2)
	}
	for i := range read {
		add(numInputs+i, read[i].value, read[i].u, none, any)
	}
}

// bounds are the least and the largest value that make sense of a quantity.
func bounds(v swing.Value) (low, high float64) {
	switch v {
	case swing.PinionX, swing.PinionY, swing.ShoeX, swing.ShoeY, swing.TrackLine, swing.Pressure, swing.SpringRise,
		swing.LeanAngle, swing.LeanAzimuth, swing.AttachedMass, swing.AttachedMoment, swing.AttachedInertia, swing.PinToEdge,
		swing.DrivePinionX, swing.DrivePinionY, swing.DriveShoeX, swing.DriveShoeY, swing.DriveTrackLine:
		return math.Inf(-1), math.Inf(1)
	case swing.CloserLoss:
		return 0, 0.9
	case swing.DriveEfficiency:
		return 0.1, 1
	case swing.OpenRate, swing.DriveFree, swing.OpenAngle:
		return float64(quantity.Degree), math.Inf(1)
	case swing.PressureFades:
		return float64(2 * quantity.Degree), math.Inf(1)
	case swing.Blend:
		return float64(0.5 * quantity.Degree), math.Inf(1)
	}
	return 0, math.Inf(1)
}

// inputName is what an input is called.
func (p *Plan) inputName(at int) (string, bool) {
	switch {
	case at < swing.NumValues:
		return swing.Symbols[at].Meaning, p.Resolved.Rows[at].Assumed
	case at == inSweepTime:
		return "Time found from 90 to 12 degrees.", false
	case at == inLatchTime:
		return "Time found from 12 degrees to closed.", false
	case at == inPressureMost:
		return p.stated(true), false
	case at == inPressureLeast:
		return p.stated(false), false
	case at == inDwell:
		return "Time for which the operator is set to hold the leaf open.", false
	case at == inPushStart:
		return "Leaf angle at which a push starts the operator.", false
	case at == inHandle:
		return "Where the hand works the leaf.", p.Resolved.Handle.Assumed
	}
	one := &p.read[at-numInputs]
	if fedFact(one.id) && one.origin == Computed {
		return "Wiring, reckoned for " + one.id.String() + ".", true
	}
	if one.origin == Computed {
		return "Plan geometry of " + one.id.String() + ", most of all: " + one.most + ".", one.assumed
	}
	return "Reading of " + one.id.String() + ".", false
}

// reading is a reading ready for use, or what the plan geometry has in its place.
type reading struct {
	id       fact.ID
	value, u float64
	origin   Origin
	repeats  *instrument.Read // of a reading that was repeated
	most     string           // the measure that the geometry's spread comes from most
	assumed  bool             // whether nobody took that measure
}

type readings []reading

// put lets readings outrank what was computed.
func (r readings) put(facts []float64) {
	for _, one := range r {
		facts[one.id] = one.value
	}
}

// given are the facts that the survey states; it takes up the readings too.
func (p *Plan) given(o *opening.Opening, sheets *opening.Sheets) (facts [fact.Count]float64) {
	for i := range facts {
		facts[i] = math.NaN()
	}
	surveyedFacts(o, p.Resolved, &facts)
	p.read = taped(o, sheets)
	if plannedHoles(o, sheets, &p.read) {
		facts[fact.Modified] = truth(true)
	}
	for i, f := range facts {
		if !math.IsNaN(f) {
			p.Facts[i] = Fact{Known: true, Value: f, Share: f, Origin: Surveyed}
		}
	}
	for _, one := range o.Readings {
		got, err := job.ResolveReading(one)
		if err != nil {
			p.Resolved.Notes = append(p.Resolved.Notes, err.Error())
			continue
		}
		if !got.Stated {
			got.U = usualSpread(got.Fact.Fact().Dim, got.Value)
		}
		p.read = append(p.read, reading{id: got.Fact, value: got.Value, u: got.U, origin: Read, repeats: got.Repeats})
	}
	p.read = p.read.toCheck(p.Resolved.LatchZone)
	return facts
}

// usualSpread is the standard uncertainty of a reading that states none;
// assumed by this project for ordinary instruments and care.
func usualSpread(d quantity.Dimension, value float64) float64 {
	switch d {
	case quantity.DimTime:
		return float64(stopwatch)
	case quantity.DimAngle:
		return float64(1.5 * quantity.Degree)
	case quantity.DimLength:
		return float64(tape)
	}
	return math.Abs(value) / 20
}
