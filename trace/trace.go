package trace

import (
	"fmt"
	"math"

	"swingwright/quantity"
)

// A Trace is what a recording shows.
type Trace struct {
	Swings []*Swing
	// Faults are what is wrong with the recording as a whole.
	Faults []Fault
	// Vertical is what the vertical was found from.
	Vertical string
	// Sampled is the usual number of samples a second.
	Sampled float64
}

// Settings are what is known beside the recording.
type Settings struct {
	// Open is the angle at which the leaf is held open, if it was measured.
	Open quantity.Measured[quantity.Angle]
	// Chord is the straight distance between one point of the leaf when closed
	// and when held open, and Radius that of the point from the hinge axis; both
	// known, they tell the angle in place of Open.
	Chord, Radius quantity.Measured[quantity.Length]
	// Scale is the standard uncertainty of the recorder's scale, used where
	// neither is known; 0 stands for DefaultScale.
	Scale quantity.Ratio
	// Begins tells how the leaf stood at first, and By who or what opens it, where that
	// is known: else the recording has to tell.
	Begins Begin
	By     By
}

// DefaultScale is the standard uncertainty of a phone's scale of rates: errors
// of 0.5 to 3 % are told of (from memory).
const DefaultScale quantity.Ratio = 0.015

// angleScale is that of a recorded angle (assumed).
const angleScale quantity.Ratio = 0.005

// Rates of sampling, 1/s.
const (
	slowSampling = 20 // below it, times and peaks suffer
	leastSampled = 8  // below it, nothing is told
)

// Analyse finds the swings of a recording. It never fails: what is wrong is
// among the faults of the trace or of a swing.
func (r *Recording) Analyse(set Settings) *Trace {
	o := r.inOrder()
	t := &Trace{}
	if len(o.t) < leastRows || !(o.step > 0) {
		t.Faults = append(o.faults, Fault{Found: "time does not go on", Better: "record a stamp with every sample", Spoils: true})
		return t
	}
	t.Sampled = 1 / o.step
	up := vertical{from: "the recorded rate about the hinge", axis: vector{1, 0, 0}}
	switch r.axes {
	case 3:
		var faults []Fault
		up, faults = r.findVertical(o.step)
		t.Faults = append(t.Faults, faults...)
	case 0:
		up.from = "the recorded angle"
	}
	if r.lone != "" {
		t.tell(false, "record the rates about all three axes, or fix the recorder with that axis along the hinge",
			"only one rate is recorded, %q, and it has to be that about the hinge: an axis 10° askew makes every rate, angle and energy 1.5 to 3 %% too small, one 30° askew 13 to 25 %%, and nothing on the recording shows it", r.lone)
	}
	t.Vertical = up.from
	t.sampling(&o)
	if r.clipped() {
		t.tell(true, "choose a wider range of the sensor, or fix the recorder nearer to where it is slow to turn: swing the leaf less hard", "the rate is cut off at its largest value")
	}
	strips := r.strips(&o, up)
	t.Faults = append(o.faults, t.Faults...)
	if len(strips) > 0 && strips[0].ahead > 0.005*degree {
		t.tell(false, "record finer rates if the recorder can; a leaf that closes again takes most of the doubt out",
			"rates are rounded so coarsely, with so little noise, that the bias is good to %.2f deg/s only", strips[0].ahead/degree)
	}
	var restless []*strip
	for _, s := range strips {
		swings, ok := s.swings(set)
		if !ok {
			restless = append(restless, s)
		}
		t.Swings = append(t.Swings, swings...)
	}
	for _, s := range restless[:min(len(restless), mostFaults)] {
		t.tell(len(t.Swings) == 0, still3, "from %s to %s there is no rest, so the bias cannot be told", secondsText(s.t[0]), secondsText(s.t[len(s.t)-1]))
	}
	t.finish(r, set)
	return t
}

func (t *Trace) tell(spoils bool, better, found string, args ...any) {
	t.Faults = append(t.Faults, Fault{Found: fmt.Sprintf(found, args...), Better: better, Spoils: spoils})
}

// sampling judges how often samples were taken.
func (t *Trace) sampling(o *order) {
	const better = "record at 50 samples a second or more"
	switch {
	case t.Sampled < leastSampled:
		t.tell(true, better, "it was sampled %.3g times a second: too slow to tell anything", t.Sampled)
	case t.Sampled < slowSampling:
		t.tell(false, better, "it was sampled %.3g times a second: slow for times and peaks", t.Sampled)
	}
	if o.coarse > 0.5 {
		t.tell(true, "record stamps in milliseconds", "stamps change only every %.2g s", o.coarse)
	}
}

// swings finds the swings of one strip; false where it holds no rest.
func (s *strip) swings(set Settings) (out []*Swing, ok bool) {
	rests := s.rests()
	if len(rests) == 0 {
		return nil, false
	}
	u := make([]float64, len(s.v))
	s.unbias(rests, u)
	n := len(rests)
	rests, blocks := s.blocks(rests, u)
	if len(rests) != n {
		s.unbias(rests, u)
	}
	if len(blocks) == 0 {
		return nil, true
	}
	if s.fixedAt && blocks[0].before < 0 {
		blocks = blocks[1:] // a hand at the recorder
	}
	if len(blocks) == 0 {
		return nil, true
	}
	if s.sense(blocks, u) < 0 {
		for i := range u {
			u[i] = -u[i]
		}
		flip(blocks)
	}
	out = s.follow(rests, blocks, u)
	begins := set.Begins
	if begins == BeginNotTold {
		begins = s.begins(out, set.By)
	}
	if begins != BegunOpen || blocks[0].before < 0 {
		return out, true
	}
	for i := range u {
		u[i] = -u[i]
	}
	flip(blocks)
	blocks[0].before, s.open = -1, true // where it began is not known
	return s.follow(rests, blocks, u), true
}

// follow follows the swings that the blocks make.
func (s *strip) follow(rests []rest, blocks []block, u []float64) (out []*Swing) {
	for _, g := range s.group(rests, blocks) {
		g.strip, g.rests = s, rests
		g.work(u)
		out = append(out, g)
	}
	return out
}

// sense is the sign that makes the first movement an opening. Where the leaf
// moved from the recording's begin, it is the one that leaves it least angle below
// where it ended.
func (s *strip) sense(blocks []block, u []float64) float64 {
	b := blocks[0]
	if b.before >= 0 || math.Abs(smoothed(u, 0, s.count(smoothHalf))) < 4*s.threshold(s.count(smoothHalf)) {
		for _, b := range blocks {
			for _, m := range b.moves {
				if math.Abs(m.by) > 1.5*degree {
					return m.sense
				}
			}
		}
		return b.moves[0].sense
	}
	above, below, sum := 0.0, 0.0, 0.0
	for i := len(u) - 1; i > 0; i-- {
		sum -= (u[i] + u[i-1]) / 2 * (s.t[i] - s.t[i-1])
		above, below = math.Max(above, sum), math.Min(below, sum)
	}
	if above < -below {
		return -1
	}
	return 1
}

func flip(blocks []block) {
	for i := range blocks {
		blocks[i].net = -blocks[i].net
		for k := range blocks[i].moves {
			blocks[i].moves[k].sense *= -1
			blocks[i].moves[k].by *= -1
		}
	}
}

// group parts the blocks into swings, each from a rest in the frame to the next.
func (s *strip) group(rests []rest, blocks []block) (swings []*Swing) {
	var g *Swing
	angle, moved := 0.0, 0.0
	for i, b := range blocks {
		if g == nil && b.after < 0 && s.takenAt {
			continue // a hand at the recorder
		}
		if g == nil {
			g = &Swing{before: b.before, after: -1}
			angle, moved = 0, 0
		}
		g.blocks = append(g.blocks, b)
		angle += b.net
		moved += s.t[b.last] - s.t[b.first]
		closing := b.moves[len(b.moves)-1].sense < 0
		if g.before < 0 && b.after >= 0 && closing && lowest(blocks[i+1:]) {
			angle = 0 // where it began is not known: its lowest rest is the frame
		}
		doubt := 3 * moved * math.Hypot(rests[max(0, min(b.before, len(rests)-1))].spread, s.ahead)
		if b.after >= 0 && math.Abs(angle) < math.Min(1.2*degree+doubt+0.01*math.Abs(b.reach), 4*degree) && closing {
			g.after, g.closes = b.after, true
			swings, g = append(swings, g), nil
		}
	}
	if g != nil {
		g.after = g.blocks[len(g.blocks)-1].after
		swings = append(swings, g)
	}
	return swings
}

// lowest tells that no later rest lies lower than the one before the blocks.
func lowest(later []block) bool {
	sum := 0.0
	for _, b := range later {
		if sum += b.net; sum < -1*degree {
			return false
		}
	}
	return true
}

// work follows one swing.
func (s *Swing) work(u []float64) {
	s.scale = scale{k: 1}
	s.integrate(u)
	s.name()
	s.findKnee()
	s.judge()
}

// finish gives the swings their scale and their kinds, once all are known.
func (t *Trace) finish(r *Recording, set Settings) {
	sc := t.findScale(r, set)
	largest := 0.0
	for _, s := range t.Swings {
		largest = math.Max(largest, s.top())
	}
	for _, s := range t.Swings {
		s.scale = sc
		s.slip(r)
		for _, f := range t.Faults {
			if f.Spoils {
				s.Faults = append(s.Faults, f)
			}
		}
		s.Kind = s.kind(largest)
		s.Phases = s.phases()
	}
	if len(t.Swings) == 0 {
		t.tell(true, "fix the recorder to the leaf, start it, wait 3 s, swing the leaf, wait 3 s", "the leaf does not swing")
	}
}

func (s *Swing) kind(largest float64) Kind {
	switch {
	case s.Spoilt() != "":
		return Unreadable
	case s.before < 0 && (s.open.none() || s.angle[0] > atFrame || s.strip.open):
		return Interrupted
	case s.closes && s.top() < falseStart && largest > falseStart:
		return OnlyAStart
	case s.closes:
		return Full
	case s.after >= 0:
		return StaysOpen
	}
	return Interrupted
}
