package tune

import (
	"errors"
	"fmt"
	"math"

	"swingwright/quantity"
	"swingwright/swing"
)

// An Ask is a reading that would tell best what is left open, how often to take it, and
// what that would come to.
type Ask struct {
	// Gauge is the force to be gauged, its Force what the fit reckons; nil where a closing
	// is to be timed.
	Gauge *Gauge
	// From and To are the stretch of a closing to be timed; zero where a force is gauged.
	From, To quantity.Angle
	Times    int // how often to take it
	// Demand is that of the demands left open that gains most, U how well its value is
	// known, and After how well it would be.
	Demand   string
	U, After float64
}

// String is the ask as one would say it.
func (a *Ask) String() string {
	often := "once more"
	if a.Times > 1 {
		often = fmt.Sprintf("%d times", a.Times)
	}
	better := fmt.Sprintf(": of all readings it tells most about %s, whose spread it would bring down to %.0f %% of what it is", a.Demand, 100*a.After/a.U)
	if a.Gauge == nil {
		return fmt.Sprintf("time the closing from %.0f to %s %s%s", float64(a.From/quantity.Degree), degreesOrClosed(a.To), often, better)
	}
	way := "with which the leaf is moved slowly open"
	if a.Gauge.Way == Closing {
		way = "with which it is slowly let close"
	}
	return fmt.Sprintf("gauge the force at %.3g degrees %s, %s%s", float64(a.Gauge.Angle/quantity.Degree), way, often, better)
}

func degreesOrClosed(a quantity.Angle) string {
	if a == 0 {
		return "closed"
	}
	return fmt.Sprintf("%.0f degrees", float64(a/quantity.Degree))
}

// Of readings that are asked for, assumed.
const (
	mostTimes  = 6    // nobody repeats one more often
	mostAsks   = 2    // at one go
	worthwhile = 0.95 // what a reading has to bring a spread down to
	gaugeShare = 0.03 // of a gauged force, its standard uncertainty
	gaugeLeast = 0.5 * quantity.Newton
	lapSpread  = 0.06 * quantity.Second // of the mean of some laps
	fromEdge   = 0.06 * quantity.Metre  // of the gauge from the latch edge
)

// An effect is what a value changes by along each of the scout's axes.
type effect []float64

func (e effect) dot(f effect) (sum float64) {
	for i := range e {
		sum += e[i] * f[i]
	}
	return sum
}

// candidate is a reading that could be taken.
type candidate struct {
	ask    Ask
	spread float64
	effect effect // on what would be read
}

// asks are the readings at the state now that would narrow most what is left open at
// another, or the same, by the law of propagation along the axes: a reading with an effect
// h and a spread s takes (g·h)² over h·h + s² off the variance of a value with the effect g.
func (s *scout) asks(of, now *Outlook) (all []Ask) {
	var open []int
	need := 1.0 // repeats by which all that is open would be told
	g := make([]effect, len(of.Demands))
	for i := range of.Demands {
		f := &of.Demands[i]
		g[i] = append(effect(nil), of.effects[i]...)
		if math.Abs(f.Margin) < decides*of.sure[i] && g[i].dot(g[i]) > 0 {
			open = append(open, i)
			if math.Abs(f.Margin) > 0 {
				need = max(need, math.Pow(decides*of.sure[i]/math.Abs(f.Margin), 2))
			} else {
				need = mostTimes
			}
		}
	}
	if len(open) == 0 {
		return nil
	}
	times := int(math.Ceil(min(max(need, 2), mostTimes)))
	candidates := s.candidateReadings(now)
	for range mostAsks {
		best, least := -1, worthwhile*float64(len(open))
		for k := range candidates {
			c := &candidates[k]
			sum := 0.0
			for _, i := range open {
				sum += math.Sqrt(1 - g[i].taken(c, times))
			}
			if sum < least {
				best, least = k, sum
			}
		}
		if best < 0 {
			break
		}
		c := candidates[best]
		c.ask.Times = times
		most := 1.0
		for _, i := range open {
			if left := math.Sqrt(1 - g[i].taken(&c, times)); left < most {
				u := math.Sqrt(g[i].dot(g[i]))
				most, c.ask.Demand, c.ask.U, c.ask.After = left, of.Demands[i].Demand.Name, u, u*left
				if what := of.Demands[i].Demand.What; what != "" {
					c.ask.Demand = what
				}
			}
		}
		all = append(all, c.ask)
		for i := range g {
			g[i].reduce(&c, times)
		}
		for k := range candidates {
			if k != best {
				candidates[k].effect.reduce(&c, times)
			}
		}
		candidates = append(candidates[:best], candidates[best+1:]...)
	}
	return all
}

// decides is how many spreads a margin has to lie off for a verdict at a risk of 5 %.
const decides = 1.645

// taken is the share of a value's variance that a reading so often takes off.
func (e effect) taken(c *candidate, times int) float64 {
	gh, own := e.dot(c.effect), e.dot(e)
	if !(own > 0) {
		return 0
	}
	return min(gh*gh/(c.effect.dot(c.effect)+c.spread*c.spread/float64(times))/own, 1)
}

// reduce leaves of an effect what a reading so often does not tell: along the reading's
// direction the spread one becomes s/√(h·h + s²).
func (e effect) reduce(c *candidate, times int) {
	h := c.effect
	size := h.dot(h)
	if !(size > 0) {
		return
	}
	v := c.spread * c.spread / float64(times)
	by := e.dot(h) / size * (1 - math.Sqrt(v/(size+v)))
	for i := range e {
		e[i] -= by * h[i]
	}
}

// candidateReadings are the readings that could be taken at the state.
func (s *scout) candidateReadings(now *Outlook) (all []candidate) {
	power, at := now.State.Power, s.known.Values[swing.LeafWidth]-float64(fromEdge)
	v := &s.known.Values
	angles := []quantity.Angle{5 * quantity.Degree, 60 * quantity.Degree, 90 * quantity.Degree}
	forces := []Gauge{}
	for _, a := range angles {
		forces = append(forces, Gauge{State: now.State, Way: Opening, Angle: a}, Gauge{State: now.State, Way: Closing, Angle: a})
	}
	if lip := quantity.Angle(v[swing.BoltClears]+v[swing.BoltMeets]) / 2; s.known.Link.Latch && lip > 0 {
		forces = append(forces, Gauge{State: now.State, Way: Closing, Angle: lip})
	}
	for _, g := range forces {
		g.At = quantity.Length(at)
		force, ok := s.force(s.fit.at, power, &g)
		if !ok {
			continue
		}
		g.Force, g.U = force, max(gaugeShare*quantity.Force(math.Abs(float64(force))), gaugeLeast)
		c := candidate{ask: Ask{Gauge: &g}, spread: float64(g.U)}
		c.effect = make(effect, len(s.axes))
		for k, axis := range s.axes {
			s.effectOf(axis, func(p []float64) ([]float64, error) {
				force, ok := s.force(p, power, &g)
				if !ok {
					return nil, errNoArm
				}
				return []float64{float64(force)}, nil
			}, func(_ int, by float64) { c.effect[k] = by })
		}
		all = append(all, c)
	}
	for i, w := range stretches {
		k := len(s.demands) + len(passings) + i
		if e := now.effects[k]; e.dot(e) > 0 {
			all = append(all, candidate{
				ask:    Ask{From: w[0] * quantity.Degree, To: w[1] * quantity.Degree},
				spread: float64(lapSpread), effect: append(effect(nil), e...),
			})
		}
	}
	return all
}

var errNoArm = errors.New("the arm does not go together")

// force is a gauged force with parameters at a spring setting.
func (s *scout) force(p []float64, power quantity.Ratio, g *Gauge) (quantity.Force, bool) {
	var v swing.Values
	s.fit.layout.valued(p, power, p[s.column[0]], p[s.column[1]], 1, &v)
	m, err := swing.New(&v, s.known.Link)
	if err != nil {
		return 0, false
	}
	return swing.HandForce(gauged(&m, g), g.At), true
}
