package tune

import (
	"math"

	"swingwright/internal/ode"
	"swingwright/judge"
	"swingwright/quantity"
	"swingwright/swing"
	"swingwright/window"
)

// question puts parameters into the words of package window; the orifices go with
// resistances given.
func (s *scout) question(p []float64, power quantity.Ratio, sweep, latch float64) window.Question {
	l := s.fit.layout
	ask := window.Question{Link: s.known.Link, Demands: s.demands, Brief: true}
	l.valued(p, power, sweep, latch, 1, &ask.Values)
	ask.Valves = window.Valves{Sweep: about(sweep, farSet), Latch: about(latch, farSet)}
	share := l.get(p, spring, 1)
	for _, w := range s.known.Spring {
		w.Closed, w.Rise = quantity.Torque(share)*w.Closed, quantity.TorsionRate(share)*w.Rise
		ask.Spring = append(ask.Spring, w)
	}
	if len(ask.Spring) == 0 {
		ask.Spring = window.Spring{{
			Setting: power, Closed: quantity.Torque(ask.Values[swing.SpringClosed]), Rise: quantity.TorsionRate(ask.Values[swing.SpringRise]),
		}}
	}
	return ask
}

// farSet is how many times more or less a valve is thought to resist elsewhere.
const farSet = 10

func about(a, factor float64) [2]quantity.Damping {
	return [2]quantity.Damping{quantity.Damping(a / factor), quantity.Damping(a * factor)}
}

// never is the time given to what never happens: the longest that a motion is followed.
const never = float64(swing.Limit)

// outcome is the value of every demand and of every passing, with resistances that are
// those of the anchors times factors.
func (s *scout) outcome(p []float64, power quantity.Ratio, ratio [2]float64) ([]float64, error) {
	sweep, latch := p[s.column[0]]*ratio[0], p[s.column[1]]*ratio[1]
	ask := s.question(p, power, sweep, latch)
	kept, err := s.finder.At(&ask, power, quantity.Damping(sweep), quantity.Damping(latch))
	if err != nil {
		return nil, err
	}
	var out []float64
	for _, k := range kept {
		out = append(out, min(k.Value, never))
	}
	marks, _, err := s.closing(&ask, power, nil)
	if err != nil {
		return nil, err
	}
	for _, m := range marks {
		out = append(out, min(float64(m.Time), never))
	}
	for _, w := range stretches {
		from := 0.0
		if w[0] != 90 {
			from = float64(swing.PassedAt(marks, w[0]*quantity.Degree))
		}
		out = append(out, min(float64(swing.PassedAt(marks, w[1]*quantity.Degree))-from, never))
	}
	return out, nil
}

// closing follows a closing from 90 degrees at the resistances of a question.
func (s *scout) closing(ask *window.Question, power quantity.Ratio, watch func(*ode.Segment)) ([]swing.Mark, swing.Motion, error) {
	v := ask.Values
	ask.Spring.At(power).Put(&v)
	m, err := swing.New(&v, ask.Link)
	if err != nil {
		return nil, swing.Motion{}, err
	}
	marks := make([]swing.Mark, len(passings))
	for i, a := range passings {
		marks[i].Angle = a * quantity.Degree
	}
	s.mover.Watch = watch
	end := s.mover.Close(&m, 90*quantity.Degree, marks)
	s.mover.Watch = nil
	return marks, end, nil
}

// glance is the outlook on a state without its spreads: those of another, by which margins
// are weighed.
func (s *scout) glance(to State, spreads *Outlook) (*Outlook, error) {
	ratio, _ := s.ratios(to)
	value, err := s.outcome(s.fit.at, to.Power, ratio)
	if err != nil {
		return nil, err
	}
	out := &Outlook{State: to}
	for i := range s.demands {
		spread := spreads.sure[i]
		for which, moved := range [2]bool{to.Sweep != spreads.State.Sweep, to.Latch != spreads.State.Latch} {
			if moved {
				spread = math.Hypot(spread, spreads.hand[which][i])
			}
		}
		out.certain = append(out.certain, marginOf(&s.demands[i], value[i])/spread)
	}
	return out, nil
}

// look reckons what a state is like, by the law of propagation of uncertainty along the
// axes, with sensitivities from one spread either way (JCGM 100:2008, 5.1.3, note 2).
func (s *scout) look(to State) (*Outlook, error) {
	ratio, spread := s.ratios(to)
	value, err := s.outcome(s.fit.at, to.Power, ratio)
	if err != nil {
		return nil, err
	}
	square, more := make([]float64, len(value)), make([]float64, len(value))
	out := &Outlook{State: to, effects: make([]effect, len(value))}
	for i := range out.effects {
		out.effects[i] = make(effect, len(s.axes))
	}
	for k, axis := range s.axes {
		s.effectOf(axis, func(p []float64) ([]float64, error) { return s.outcome(p, to.Power, ratio) }, func(i int, by float64) {
			square[i] += by * by
			out.effects[i][k] = by
		})
	}
	valve := func(i int, by float64, into []float64) {
		up, down := ratio, ratio
		up[i], down[i] = up[i]*math.Exp(by), down[i]*math.Exp(-by)
		above, err1 := s.outcome(s.fit.at, to.Power, up)
		below, err2 := s.outcome(s.fit.at, to.Power, down)
		if err1 != nil || err2 != nil {
			return
		}
		for i := range into {
			if half := (above[i] - below[i]) / 2; !math.IsNaN(half) {
				into[i] += half * half
			}
		}
	}
	for i, u := range [2]quantity.Turns{to.Sweep, to.Latch} {
		if spread[i] > 0 {
			valve(i, min(spread[i], 1), more)
		}
		out.hand[i] = make([]float64, len(value))
		valve(i, float64(hand/max(u-s.valves[i].Shut, grain)), out.hand[i])
		for k := range out.hand[i] {
			out.hand[i][k] = math.Sqrt(out.hand[i][k])
		}
	}
	for i := range s.demands {
		d := &s.demands[i]
		sure := max(math.Sqrt(square[i]), 1e-6*math.Abs(value[i]))
		f := Foreseen{Demand: *d, Value: value[i], U: math.Sqrt(square[i] + more[i]), Margin: marginOf(d, value[i])}
		u := math.Hypot(sure, math.Sqrt(more[i]))
		f.Holds = judge.Conformance(f.Margin, u, 0, math.Inf(1))
		f.Verdict = judge.Decide(f.Margin, u, s.policy)
		out.Demands = append(out.Demands, f)
		out.sure = append(out.sure, sure)
		out.certain = append(out.certain, f.Margin/sure)
	}
	for i, a := range passings {
		k := len(s.demands) + i
		t := value[k]
		if t >= never {
			t = math.NaN()
		}
		out.Passings = append(out.Passings, Passing{a * quantity.Degree, quantity.Time(t), quantity.Time(math.Sqrt(square[k] + more[k]))})
	}
	for i, w := range stretches {
		k := len(s.demands) + len(passings) + i
		if value[k] < never {
			out.timed = append(out.timed, Time{w[0] * quantity.Degree, w[1] * quantity.Degree, quantity.Time(value[k]), quantity.Time(math.Sqrt(square[k] + more[k]))})
		}
	}
	return out, s.trace(out, ratio)
}

// frame is the time between angles of a foreseen closing, s.
const frame = 0.05

// trace fills in the closing.
func (s *scout) trace(out *Outlook, ratio [2]float64) error {
	p := s.fit.at
	ask := s.question(p, out.State.Power, p[s.column[0]]*ratio[0], p[s.column[1]]*ratio[1])
	var m memo
	_, end, err := s.closing(&ask, out.State.Power, func(g *ode.Segment) { m.segments = append(m.segments, *g) })
	m.end = end
	read := reader{memo: &m, from: 90 * degree}
	for t := 0.0; t < float64(end.Time)+frame; t += frame {
		out.T, out.Theta = append(out.T, t), append(out.Theta, read.angle(t))
	}
	return err
}

// marginOf is how far a value keeps from a demand's limit with its allowance.
func marginOf(d *window.Demand, value float64) float64 {
	if d.Kind.Side() == judge.AtLeast {
		return value - d.Limit - d.Allowance
	}
	return d.Limit - d.Allowance - value
}
