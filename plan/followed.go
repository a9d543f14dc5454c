package plan

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"swingwright/internal/propagate"
	"swingwright/judge"
	"swingwright/logic"
	"swingwright/opening"
	q "swingwright/quantity"
)

// Followed is what came of following people through a vestibule, with the spread of
// the times that its leaves and delays take.
type Followed struct {
	*logic.Walked
	Ways    []FollowedWay // as those of Walked
	Kept    []float64     // share of the draws in which each rule of logic.WalkRules is kept, 0 to 1
	Draws   int
	Traffic *logic.Traffic // the best estimates
}

// A FollowedWay is one way through with its spreads.
type FollowedWay struct {
	*logic.Way
	// TimeU, WaitU and SpareU are standard uncertainties; infinite where the time does
	// not exist in many of the draws.
	TimeU, WaitU q.Time
	SpareU       [2]q.Time
	Drivers      [2][]Driver  // what moves each of Spare most
	Story        *logic.Story // the way with the best estimates
}

// SpareVerdict judges how long a way leaves at its first or second door, judged: it has to be
// something.
func (w *FollowedWay) SpareVerdict(k int, policy judge.Policy) judge.Verdict {
	return judge.Decide(float64(w.Way.Spare[k]), float64(w.SpareU[k]), policy)
}

// Share is in how many of the draws a rule of logic.WalkRules is kept, 0 to 1.
func (f *Followed) Share(r logic.Rule) float64 { return f.Kept[slices.Index(logic.WalkRules(), r)] }

// Verdict judges a rule by the draws; Meets where it is none of logic.WalkRules.
func (f *Followed) Verdict(r logic.Rule, policy judge.Policy) judge.Verdict {
	i := slices.Index(logic.WalkRules(), r)
	if i < 0 {
		return judge.Meets
	}
	return judge.DecideProbability(f.Kept[i], f.Draws, policy)
}

const (
	followDraws = 64          // the least number that can decide at 5 %, and a few
	followEvery = q.Time(0.5) // between the starts of second people, in a draw
	followSeed  = 1
)

// follow reckons the spreads of what people meet: times of leaves as their plans have
// them, delays as they are set, and the distance between the doors vary; how fast and
// how long people are does not, since that is what is asked for.
func follow(w *Wired, nominal *logic.Walked, t *logic.Traffic, g *opening.Group, a, b *Member) *Followed {
	f := &Followed{Walked: nominal, Traffic: t, Draws: followDraws}
	v := varied{wired: w, traffic: *t}
	for i, m := range []*Member{a, b} {
		v.leaf(i, m)
	}
	v.length("the distance between the doors", g.Between.WithSpread(tape), !(g.Between.U > 0), func(t *logic.Traffic, l q.Length) { t.Between = l })
	v.delays()
	rules := logic.WalkRules()
	const ofWay = 4
	outs := ofWay*len(nominal.Ways) + len(rules)
	var d propagate.Draws
	if err := d.Prepare(followSeed, followDraws, v.inputs, outs); err != nil {
		f.Draws = 0
		f.Kept = make([]float64, len(rules))
		for i := range nominal.Ways {
			f.Ways = append(f.Ways, FollowedWay{Way: &nominal.Ways[i], TimeU: unknown, WaitU: unknown, SpareU: [2]q.Time{unknown, unknown}})
		}
		return f
	}
	d.Evaluate(0, followDraws, func(x, out []float64) {
		walked, err := v.walk(x)
		if err != nil {
			return
		}
		for i := range walked.Ways {
			way := &walked.Ways[i]
			if way.Through {
				out[ofWay*i], out[ofWay*i+1] = float64(way.Time), float64(way.Wait)
			}
			out[ofWay*i+2], out[ofWay*i+3] = float64(way.Spare[0]), float64(way.Spare[1])
		}
		for i, r := range rules {
			out[ofWay*len(walked.Ways)+i] = truth(!walked.Broken(r))
		}
	})
	for i := range nominal.Ways {
		way := FollowedWay{Way: &nominal.Ways[i], TimeU: spreadOf(&d, ofWay*i), WaitU: spreadOf(&d, ofWay*i+1)}
		for k := range way.SpareU {
			way.SpareU[k] = spreadOf(&d, ofWay*i+2+k)
			way.Drivers[k] = v.drivers(d.Shares(d.Output(ofWay*i + 2 + k)))
		}
		f.Ways = append(f.Ways, way)
	}
	for i := range f.Ways {
		f.Ways[i].Story, _ = logic.WalkStory(w.Wiring, w.Doors, t, i) // what fails it failed the walk before
	}
	for i := range rules {
		yes, _ := share(d.Output(ofWay*len(nominal.Ways) + i))
		f.Kept = append(f.Kept, yes)
	}
	return f
}

// unknown is the spread of what could not be reckoned.
var unknown = q.Time(math.Inf(1))

// spreadOf is the standard uncertainty of an output.
func spreadOf(d *propagate.Draws, j int) q.Time {
	sum := d.Summary(j)
	switch {
	case float64(sum.Missing)/float64(d.Len()) > tolerated || sum.Len() < 2:
		return unknown
	case sum.SD < 1e-9:
		return 0
	}
	return q.Time(sum.SD)
}

// varied is what varies of people on their way, each with what an input does.
type varied struct {
	wired   *Wired
	traffic logic.Traffic
	inputs  []propagate.Input
	names   []Driver // of each input, its share left open
	put     []func(t *logic.Traffic, w *opening.Wiring, x float64)
}

func (v *varied) add(name string, assumed bool, mean, u float64, put func(t *logic.Traffic, w *opening.Wiring, x float64)) {
	const least = 1e-3 // s, m or share: nothing is shorter than this
	v.inputs = append(v.inputs, propagate.Input{Mean: mean, U: u, Low: least, High: math.Inf(1)})
	v.names, v.put = append(v.names, Driver{Input: name, Assumed: assumed}), append(v.put, put)
}

func (v *varied) length(name string, l q.Measured[q.Length], assumed bool, put func(t *logic.Traffic, l q.Length)) {
	v.add(name, assumed, float64(l.Value), float64(l.U), func(t *logic.Traffic, _ *opening.Wiring, x float64) { put(t, q.Length(x)) })
}

// leaf lets the times of a leaf vary. What it takes to reach the path and to be shut
// varies together.
func (v *varied) leaf(i int, m *Member) {
	l := v.traffic.Leaves[i]
	v.add("the time that "+m.ID+" takes to open", false, float64(l.Opens), float64(m.Cycle.Spread.Opening), func(t *logic.Traffic, _ *opening.Wiring, x float64) { t.Leaves[i].Opens = q.Time(x) })
	if l.Hold > 0 {
		v.add("the hold of "+m.ID, false, float64(l.Hold), float64(m.Cycle.Spread.Hold), func(t *logic.Traffic, _ *opening.Wiring, x float64) { t.Leaves[i].Hold = q.Time(x) })
	}
	u := m.Closes.U / m.Closes.Value
	if l.Usable > 0 {
		u = max(u, float64(m.Cycle.Spread.Usable/l.Usable))
	}
	v.add("the closing of "+m.ID, false, 1, u, func(t *logic.Traffic, _ *opening.Wiring, x float64) {
		t.Leaves[i].Usable, t.Leaves[i].Closes = l.Usable*q.Time(x), l.Closes*q.Time(x)
	})
}

// delays lets every delay of the wiring vary, but those of drives, which are for their
// locks: whether they suffice is another rule's matter.
func (v *varied) delays() {
	for i := range v.wired.Wiring.Devices {
		d := &v.wired.Wiring.Devices[i]
		vary := func(name string, t q.Measured[q.Time], at func(d *opening.Device) *q.Measured[q.Time]) {
			if !t.Known || !(t.Value > 0) || d.Kind == opening.Drive {
				return
			}
			v.add("the delay of "+name, !(t.U > 0), float64(t.Value), float64(t.WithSpread(handTimed).U), func(_ *logic.Traffic, w *opening.Wiring, x float64) {
				at(&w.Devices[i]).Value = q.Time(x)
			})
		}
		vary(d.Name, d.OnDelay, func(d *opening.Device) *q.Measured[q.Time] { return &d.OnDelay })
		for k := range d.Relays {
			vary(strings.TrimSpace(d.Name+" "+d.Relays[k].Name), d.Relays[k].OnDelay, func(d *opening.Device) *q.Measured[q.Time] { return &d.Relays[k].OnDelay })
		}
	}
}

// walk follows people with one draw of the inputs.
func (v *varied) walk(x []float64) (*logic.Walked, error) {
	t, w := v.traffic, *v.wired.Wiring
	t.Every = followEvery
	w.Devices = slices.Clone(w.Devices)
	for i := range w.Devices {
		w.Devices[i].Relays = slices.Clone(w.Devices[i].Relays)
	}
	for i, put := range v.put {
		put(&t, &w, x[i])
	}
	return logic.Walk(&w, v.wired.Doors, &t)
}

// drivers are the inputs that move an outcome most, by their shares of its variance.
func (v *varied) drivers(shares []float64) []Driver {
	var all []Driver
	for i, s := range shares {
		if s >= leastShare {
			d := v.names[i]
			d.Share = s
			all = append(all, d)
		}
	}
	return foremost(all)
}

// contradictions are what the group says of itself and its wiring or its openings do
// otherwise: one of them is wrong.
func contradictions(f *Followed, g *opening.Group, of ...*Member) (all []logic.Fault) {
	if g.Delay.Known {
		for i := range f.Ways {
			way := &f.Ways[i]
			starts, set := way.Starts[1], g.Delay.WithSpread(handTimed)
			differs := float64(starts - set.Value)
			if math.IsNaN(float64(starts)) || math.Abs(differs) <= certain*math.Hypot(float64(set.U), float64(handTimed)) {
				continue
			}
			by := ""
			if len(way.By) > 0 {
				by = fmt.Sprintf(" Delays on the way: %s.", strings.Join(way.By, ", "))
			}
			all = append(all, logic.Fault{
				Key:     DelayDiffers,
				Says:    fmt.Sprintf("The group says that the second door starts %.1f s after the press (delay); by the wiring %s starts %.1f s after a press at %s.%s Time it on site, and mend the one that is wrong.", float64(set.Value), way.To, float64(starts), way.From, by),
				Symptom: "The second door starts at another moment than people were told, and what is reckoned with the delay does not hold.",
			})
		}
	}
	in := slices.ContainsFunc(f.Traffic.Leaves[:], func(l logic.Leaf) bool { return l.Swing == logic.SwingsIn })
	known := !slices.ContainsFunc(of, func(m *Member) bool { return !m.Swings })
	if g.SwingsIn.Known && known && in != (g.SwingsIn.Value > 0) {
		says := "The group says that a leaf swings into the space between the doors (swings_in), and by its openings none does."
		if in {
			says = "The group says that no leaf swings into the space between the doors (swings_in), and by its openings one does."
		}
		all = append(all, logic.Fault{Key: SwingDiffers, Says: says + " Look which way they swing, and mend what is wrong: frame.hand, air.swings_out or swings_in.", Symptom: "People stand where a leaf comes, or there is less room for them than was reckoned."})
	}
	return all
}

// certain times the standard uncertainty apart, two times are taken for different: one
// chance in twenty of a wrong word, either way (JCGM 100:2008, table G.1).
const certain = 1.96

// The faults that a group and its wiring can have between them.
const (
	DelayDiffers = "delay-differs"
	SwingDiffers = "swing-differs"
)

// ofGroup tells them from the faults of a wiring.
func ofGroup(key string) bool { return key == DelayDiffers || key == SwingDiffers }
