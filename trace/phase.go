package trace

import "swingwright/quantity"

// PhaseKind is what the leaf does in a phase.
type PhaseKind uint8

// The phases.
const (
	Resting    PhaseKind = iota // closed, before the swing
	Opening                     // by hand or power
	Held                        // still, not closed
	Sweep                       // closing, down to the latch zone where there is one
	LatchZone                   // closing, from where the rate changes for good
	Closed                      // still again in the frame
	Rebound                     // thrown back from the frame, and shut again
	FalseStart                  // opens a little and closes again, before the swing
	Reopening                   // opens again before it has closed
)

var phaseNames = [...]string{"rest", "opening", "held", "sweep", "latch zone", "closed", "rebound", "false start", "re-opening"}

// String is the phase in words.
func (k PhaseKind) String() string { return phaseNames[k] }

// MarshalText writes the phase in words.
func (k PhaseKind) MarshalText() ([]byte, error) { return []byte(k.String()), nil }

// A Phase is what the leaf does from one time to another, counted from the
// recording's first stamp.
type Phase struct {
	Kind       PhaseKind
	From, To   quantity.Time
	Start, End quantity.Angle
}

// Angles that tell phases from each other, rad.
const (
	falseStart = 15 * degree // an opening that turns back before has not been meant (assumed)
	atFrame    = 2.5 * degree
	rebound    = 10 * degree // the farthest that a leaf is thrown back (assumed)
)

// span is a phase in samples of the strip.
type span struct {
	kind       PhaseKind
	from, to   int
	start, end moment // of a move, where the leaf rested before or after
}

// name gives the moves of a swing and the rests between them their kinds.
func (s *Swing) name() {
	s.list()
	s.falseStarts()
	for i := range s.spans {
		p := &s.spans[i]
		if p.kind != Opening || i == 0 {
			continue
		}
		before := &s.spans[i-1]
		if before.kind != Sweep {
			continue
		}
		switch low, high := s.theta(p.from), s.theta(p.to); {
		case low > atFrame:
			p.kind = Reopening
		case high < rebound && i+1 < len(s.spans) && s.spans[i+1].kind == Sweep && s.theta(s.spans[i+1].to) < atFrame:
			p.kind, s.spans[i+1].kind = Rebound, Rebound
		}
	}
	s.ways()
}

// list puts moves in turn, and the stands between them that last. One that a hand
// knocked at may be no rest to take the bias from, but the leaf is held in it.
func (s *Swing) list() {
	for _, b := range s.blocks {
		for _, m := range b.moves {
			if n := len(s.spans); n > 0 && m.from-s.spans[n-1].to >= s.strip.count(leastRest) {
				last := s.spans[n-1]
				s.spans = append(s.spans, span{kind: Held, from: last.to, to: m.from, start: last.end, end: m.start})
			}
			kind := Sweep
			if m.sense > 0 {
				kind = Opening
			}
			s.spans = append(s.spans, span{kind, m.from, m.to, m.start, m.end})
		}
	}
}

// falseStarts are openings at the begin that turn back early, where the leaf
// opens farther later.
func (s *Swing) falseStarts() {
	for i := 0; i+2 < len(s.spans); i++ {
		out, back := &s.spans[i], &s.spans[i+1]
		if out.kind != Opening || back.kind != Sweep || s.theta(out.to) > falseStart || s.theta(back.to) > atFrame {
			return
		}
		if s.top() < falseStart {
			return
		}
		out.kind, back.kind = FalseStart, FalseStart
		if i++; i+1 < len(s.spans) && s.spans[i+1].kind == Held {
			i++
		}
	}
}

// top is the largest angle of the swing, rad.
func (s *Swing) top() (top float64) {
	for _, a := range s.angle {
		top = max(top, a)
	}
	return top
}

// ways finds the opening and the closing that are told of: from the first
// opening on up to the largest angle, and from where the leaf turned for good
// down to its frame.
func (s *Swing) ways() {
	s.open, s.shut, s.hold = way{-1, -1}, way{-1, -1}, way{-1, -1}
	for i, p := range s.spans {
		switch p.kind {
		case Opening:
			if s.open.from < 0 {
				s.open.from = p.from
			}
			if s.open.to < 0 || s.theta(p.to) > s.theta(s.open.to) {
				s.open.to = p.to
			}
			s.shut = way{-1, -1}
		case Reopening:
			s.shut = way{-1, -1}
		case Held:
			if i > 0 && s.spans[i-1].kind == Opening {
				s.hold, s.held = way{p.from, p.to}, p
			}
		case Sweep:
			if s.shut.from < 0 {
				s.shut.from = p.from
			}
			s.shut.to = p.to
		}
	}
}

// way is a stretch of samples, -1 where there is none.
type way struct{ from, to int }

func (w way) none() bool { return w.from < 0 }

// phases are the spans for the caller, with what the rests around them are.
func (s *Swing) phases() (list []Phase) {
	add := func(kind PhaseKind, from, to int) {
		if from < to {
			list = append(list, Phase{kind, s.at(from), s.at(to), quantity.Angle(s.scale.k * s.theta(from)), quantity.Angle(s.scale.k * s.theta(to))})
		}
	}
	if s.before >= 0 {
		add(Resting, s.rests[s.before].from, s.blocks[0].first)
	}
	for _, p := range s.spans {
		if p.kind == Sweep && s.knee > p.from && s.knee < p.to {
			add(Sweep, p.from, s.knee)
			add(LatchZone, s.knee, p.to)
			continue
		}
		if p.kind == Sweep && s.knee >= 0 && p.from >= s.knee {
			p.kind = LatchZone
		}
		add(p.kind, p.from, p.to)
	}
	if s.after >= 0 {
		kind := Closed
		if !s.closes {
			kind = Held
		}
		add(kind, s.blocks[len(s.blocks)-1].last, s.rests[s.after].to-1)
	}
	return joined(list)
}

// joined makes one phase of neighbours of one kind.
func joined(list []Phase) (out []Phase) {
	for _, p := range list {
		if n := len(out); n > 0 && out[n-1].Kind == p.Kind {
			out[n-1].To, out[n-1].End = p.To, p.End
			continue
		}
		out = append(out, p)
	}
	return out
}
