package tune

import (
	"fmt"
	"math"
	"slices"

	"swingwright/quantity"
	"swingwright/window"
)

// A Part is something to be turned.
type Part uint8

// The parts of a closer.
const (
	SpringPart Part = iota
	SweepValve
	LatchValve
	BackcheckValve
	DelayValve
	OperatorSpeed // how fast a power operator opens
)

var partNames = [...]string{"spring", "sweep valve", "latch valve", "backcheck valve", "delay valve", "operator's opening speed"}

// String is the part in words.
func (p Part) String() string { return partNames[p] }

// A Move is one thing to turn.
type Move struct {
	Part Part
	// More tells the way: a stronger spring, a valve farther open, a faster operator.
	More bool
	// Turns is by how much a valve is turned, from From to To turns open from seated; it
	// is an eighth while that valve is not learned. Zero for the spring.
	Turns, From, To quantity.Turns
	// PowerFrom and PowerTo are the spring's settings as marked.
	PowerFrom, PowerTo quantity.Ratio
	// Learned tells that the size rests on what was seen of this closer.
	Learned bool
}

// String is the move as one would say it at the door.
func (m Move) String() string {
	if m.Part == SpringPart && m.PowerTo != m.PowerFrom {
		way := "weaker"
		if m.More {
			way = "stronger"
		}
		return fmt.Sprintf("spring %s, from %.2f to %.2f", way, float64(m.PowerFrom), float64(m.PowerTo))
	}
	way := "in"
	if m.More {
		way = "out"
	}
	switch m.Part {
	case SpringPart, OperatorSpeed:
		way = "down"
		if m.More {
			way = "up"
		}
		return fmt.Sprintf("%v %s a little", m.Part, way)
	}
	if m.To == 0 {
		return fmt.Sprintf("%v %s %s", m.Part, way, turnsText(m.Turns))
	}
	return fmt.Sprintf("%v %s %s, to %s open", m.Part, way, turnsText(m.Turns), turnsText(m.To))
}

// springGrain is how finely a spring is set, of a marked power; assumed.
const springGrain = 0.05

// moves lists what leads from one state to another, in the order of work: spring, sweep,
// latch (common practice).
func (s *scout) moves(from, to State) (all []Move) {
	if from.Power != to.Power {
		all = append(all, Move{Part: SpringPart, More: to.Power > from.Power, PowerFrom: from.Power, PowerTo: to.Power, Learned: true})
	}
	for i, u := range [2][2]quantity.Turns{{from.Sweep, to.Sweep}, {from.Latch, to.Latch}} {
		if u[0] != u[1] {
			all = append(all, Move{
				Part: SweepValve + Part(i), More: u[1] > u[0], Turns: quantity.Turns(math.Abs(float64(u[1] - u[0]))),
				From: u[0], To: u[1], Learned: s.valves[i].Known,
			})
		}
	}
	return all
}

// slight is a gain of pain not worth a turn.
const slight = 0.02

// step is the state that comes nearest to a goal with one set of turns that can be made,
// and what it is reckoned to be like: of the settings about the goal the one that hurts
// least.
func (s *scout) step(g goal, now *Outlook) (*Outlook, error) {
	var best, toward *Outlook
	sweeps, latches := s.candidates(0, s.now.Sweep, g.ratio[0]), s.candidates(1, s.now.Latch, g.ratio[1])
	for _, power := range s.powers(g.power) {
		for _, sweep := range sweeps {
			for _, latch := range latches {
				out, err := s.glance(State{power, sweep, latch}, now)
				if err != nil {
					return nil, err
				}
				if best == nil || out.pain() < best.pain()-slight {
					best = out
				}
				if out.pain() < now.pain()+slight && (toward == nil || s.apart(g, out.State) < s.apart(g, toward.State)) {
					toward = out
				}
			}
		}
	}
	if best.State == s.now && toward != nil && g.guard > max(now.worst()+better, 0) {
		best = toward // nothing near shows yet what a longer way would bring
	}
	if best.State == s.now {
		return now, nil
	}
	return s.look(best.State)
}

// apart is how far a state lies from a goal: the factors of resistances and of the
// spring's setting together.
func (s *scout) apart(g goal, to State) float64 {
	ratio, _ := s.ratios(to)
	far := math.Abs(math.Log(float64(g.power) / float64(to.Power)))
	for i := range ratio {
		far += math.Abs(math.Log(ratio[i] / g.ratio[i]))
	}
	return far
}

// powers are the settings to think of for a spring that should be at one: that one
// rounded to what is set, either way, and where it is if that is near.
func (s *scout) powers(to quantity.Ratio) []quantity.Ratio {
	var all []quantity.Ratio
	off := math.Abs(float64(to - s.now.Power))
	if off < 1.5*springGrain {
		all = append(all, s.now.Power)
	}
	if off < springGrain/4 {
		return all
	}
	grains := math.Floor(float64(to)/springGrain + 1e-9)
	for _, n := range []float64{grains, grains + 1} {
		power := quantity.Ratio(n * springGrain)
		if n := len(s.known.Spring); n > 0 {
			power = min(max(power, s.known.Spring[0].Setting), s.known.Spring[n-1].Setting)
		}
		if !slices.Contains(all, power) {
			all = append(all, power)
		}
	}
	return all
}

// candidates are the positions to think of for a valve now at u that should resist ratio
// times as much as at its anchor: where it is, and that one rounded to what a hand sets,
// either way, as far as its reach goes: while the valve is not learned an eighth of a turn.
func (s *scout) candidates(which int, u quantity.Turns, ratio float64) []quantity.Turns {
	v := &s.valves[which]
	to := v.Where(s.anchor[which].Turns, quantity.Ratio(ratio))
	low, high := v.Reach(u)
	all := []quantity.Turns{u}
	add := func(to quantity.Turns) {
		if to = min(max(to, low), high); !slices.Contains(all, to) {
			all = append(all, to)
		}
	}
	closer := quantity.Turns(math.Floor(float64(to/grain))) * grain
	add(closer)
	add(closer + grain)
	return all
}

// hints says what to measure better for the demands that are left open.
func hints(now *Outlook) (all []string) {
	seen := map[string]bool{}
	for i := range now.Demands {
		f := &now.Demands[i]
		if f.Holds > 0.95 {
			continue
		}
		hint := ""
		switch f.Demand.Kind {
		case window.HandForce:
			hint = "gauge the opening force"
		case window.ClosingMoment, window.Shuts:
			hint = "gauge the closing force at 5 degrees and where the bolt rides its lip"
		case window.LeastTime, window.MostTime:
			hint = "time it again, or record a closing"
		case window.PeakEnergy, window.ImpactEnergy:
			hint = "weigh the leaf, and record a closing"
		default:
			continue
		}
		text := fmt.Sprintf("%s: kept with a probability of %.0f %%; %s", f.Demand.Name, 100*f.Holds, hint)
		if !seen[text] {
			all = append(all, text)
		}
		seen[text] = true
	}
	return all
}
