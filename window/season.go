package window

import (
	"errors"
	"fmt"
	"math"

	"swingwright/quantity"
	"swingwright/swing"
	"swingwright/weather"
)

// A Month is the air of one month, or of any other time, at a door.
type Month struct {
	Name     string
	Outdoors quantity.Temperature
	Indoors  quantity.Temperature
	Below    quantity.Length // of the neutral plane; below zero above it
	// Known, if given, is the pressure itself, in place of the stack's; the
	// wind's is added to either. Positive pushes inward.
	Known *quantity.Pressure
	Wind  quantity.Speed
	Face  quantity.Ratio // pressure coefficient of the wall; below zero it is sucked outward
	// Oil is the temperature of the closer; zero stands for Indoors.
	Oil quantity.Temperature
}

// A Year is the months through which one setting has to serve, and how air and
// oil act on the leaf.
type Year struct {
	Months  []Month
	Outward bool // the leaf swings outward, so that a pressure inward pushes it shut
	// The oil's kinematic viscosities, and the temperature at which the
	// resistances of the valves hold. Both zero stand for an oil that nobody
	// knows: it is taken to be the same in every month.
	At40, At100 quantity.Viscosity
	Reference   quantity.Temperature
	From        []quantity.Angle // leaf angles from which it must latch
	Peak        quantity.Energy  // largest kinetic energy allowed while closing; zero for no limit
	Impact      quantity.Energy  // and at the frame
	// Pushes are demands of kind HandForce to be kept in every month; their own
	// pressure does not count.
	Pushes []Demand
}

// Air is a month's pressure on the closed leaf, positive pushing it open, and its
// oil's viscosity over that at the reference temperature.
type Air struct {
	Pressure quantity.Pressure
	Oil      quantity.Ratio
}

// Air reckons every month's air; it collects what makes no sense in the year.
func (y *Year) Air() ([]Air, error) {
	var all []error
	if len(y.Months) == 0 {
		all = append(all, errors.New("the year has no months"))
	}
	if len(y.From) == 0 {
		all = append(all, errors.New("the year names no angle from which the leaf must latch: give one, such as 90 degrees"))
	}
	if !(y.Peak >= 0 && y.Impact >= 0) {
		all = append(all, fmt.Errorf("energies of %g and %g J: give limits above zero, or zero for none", float64(y.Peak), float64(y.Impact)))
	}
	for i := range y.Pushes {
		if d := &y.Pushes[i]; d.Kind != HandForce {
			all = append(all, fmt.Errorf("demand %q is on the %v: of a year only forces by hand are asked besides latching and energy", d.Name, d.Kind))
		}
	}
	reference, err := y.viscosity(y.Reference)
	if err != nil {
		return nil, errors.Join(append(all, err)...)
	}
	air := make([]Air, len(y.Months))
	for i := range y.Months {
		if air[i], err = y.air(&y.Months[i], reference); err != nil {
			all = append(all, fmt.Errorf("%s: %w", y.Months[i].Name, err))
		}
	}
	return air, errors.Join(all...)
}

func (y *Year) air(m *Month, reference quantity.Viscosity) (Air, error) {
	if err := weather.Check(m.Outdoors, m.Indoors); err != nil {
		return Air{}, err
	}
	p := weather.Stack(m.Outdoors, m.Indoors, m.Below)
	if m.Known != nil {
		p = *m.Known
	}
	p += weather.Wind(m.Face, m.Wind)
	if y.Outward {
		p = -p
	}
	at := m.Oil
	if at == 0 {
		at = m.Indoors
	}
	nu, err := y.viscosity(at)
	if err == nil && (math.IsNaN(float64(p)) || math.IsInf(float64(p), 0)) {
		err = fmt.Errorf("pressure of %g Pa: give finite wind, height and pressure", float64(p))
	}
	return Air{p, quantity.Ratio(nu / reference)}, err
}

// viscosity is the oil's at a temperature; 1 everywhere where nobody knows the oil.
func (y *Year) viscosity(at quantity.Temperature) (quantity.Viscosity, error) {
	if y.At40 == 0 && y.At100 == 0 {
		return 1, nil
	}
	return swing.OilViscosity(y.At40, y.At100, at)
}

// Demands are what the year demands, month by month, to be asked of a Finder
// together with whatever else is demanded: one setting of spring and valves for
// all of them.
func (y *Year) Demands() ([]Demand, error) {
	air, err := y.Air()
	if err != nil {
		return nil, err
	}
	var out []Demand
	for i, a := range air {
		month := y.Months[i].Name
		for _, from := range y.From {
			out = append(out, Demand{
				Name: fmt.Sprintf("%s: latches from %.0f degrees", month, float64(from/quantity.Degree)),
				What: "closes and latches by itself", Kind: Shuts, From: from, Limit: float64(a.Pressure), Oil: a.Oil,
			})
		}
		limit := func(kind Kind, what string, most quantity.Energy) {
			if most > 0 {
				out = append(out, Demand{Name: month + ": " + kind.String(), What: what, Kind: kind, Limit: float64(most), Pressure: a.Pressure, Oil: a.Oil})
			}
		}
		limit(PeakEnergy, "does not close too fast", y.Peak)
		limit(ImpactEnergy, "does not slam", y.Impact)
		for _, d := range y.Pushes {
			d.Name, d.Pressure = month+": "+d.Name, a.Pressure
			out = append(out, d)
		}
	}
	return out, nil
}

// Outcome is what a leaf does in a month.
type Outcome uint8

// The outcomes, best first.
const (
	Latches   Outcome = iota // from every angle asked for, within the energies
	Slams                    // latches, but too fast
	TooHard                  // takes more than a hand may be asked for to open
	StaysOpen                // does not latch from some angle
)

var outcomeNames = [...]string{"latches", "slams", "too hard to open", "stays open"}

// String is the outcome in words.
func (o Outcome) String() string { return outcomeNames[o] }

// A Forecast is what a month does to the leaf at one setting.
type Forecast struct {
	Month   string
	Air     Air
	Outcome Outcome
	From    quantity.Angle // the smallest angle from which it does not latch, with StaysOpen
	Rests   quantity.Angle // where it comes to rest from there
	Closing swing.Motion   // from the release angle
	Passed  [2]swing.Mark  // of that: 10 degrees and closed
	// Budget is what is left of the latch budget at 5 degrees; below zero the
	// leaf latches only by its motion, if at all.
	Budget quantity.Torque
	// Hand is the force of the year's demand on hands that has least to spare,
	// and Spare what it has; NaN without one. Below zero Spare is too hard.
	Hand, Spare quantity.Force
	// Hard and Fast tell that it is too hard to open, and that it closes too
	// fast, whichever the outcome.
	Hard, Fast bool
}

// Forecast follows a year at one setting of spring and valves, resistances at the
// reference temperature; outside the marked powers it takes the nearest one. It
// fails where question, year or resistances make no sense.
func (f *Finder) Forecast(ask *Question, y *Year, setting quantity.Ratio, sweep, latch quantity.Damping) ([]Forecast, error) {
	air, err := y.Air()
	given := Valves{[2]quantity.Damping{sweep, sweep}, [2]quantity.Damping{latch, latch}}
	if err = errors.Join(append(given.problems(), ask.Check(), err)...); err != nil {
		return nil, err
	}
	f.begin(ask)
	return f.forecast(y, air, setting, [2]float64{math.Log(float64(sweep)), math.Log(float64(latch))}), nil
}

func (f *Finder) forecast(y *Year, air []Air, setting quantity.Ratio, at [2]float64) []Forecast {
	f.set(setting)
	f.turn(at)
	out := make([]Forecast, len(air))
	for i, a := range air {
		f.model.SetAir(float64(a.Pressure), float64(a.Oil))
		one := &out[i]
		*one = Forecast{Month: y.Months[i].Name, Air: a, Passed: [2]swing.Mark{{Angle: 10 * quantity.Degree}, {}}}
		one.Closing = f.mover.Close(&f.model, f.ask.release(), one.Passed[:])
		budget := f.model.BudgetAt(5 * quantity.Degree)
		one.Budget = budget.Margin()
		one.judge(f, y)
	}
	return out
}

// judge fills in the outcome.
func (out *Forecast) judge(f *Finder, y *Year) {
	m := &out.Closing
	if y.Peak > 0 && m.Energy > y.Peak || y.Impact > 0 && m.Impact > y.Impact {
		out.Fast, out.Outcome = true, Slams
	}
	if out.push(f, y); out.Spare < 0 {
		out.Hard, out.Outcome = true, TooHard
	}
	for _, from := range y.From {
		end := out.Closing
		if from != f.ask.release() {
			end = f.mover.Close(&f.model, from, nil)
		}
		if !end.End.Shut() && (out.Outcome != StaysOpen || from < out.From) {
			out.Outcome, out.From, out.Rests = StaysOpen, from, end.Angle
		}
	}
}

// push fills in what a hand feels.
func (out *Forecast) push(f *Finder, y *Year) {
	out.Hand, out.Spare = quantity.Force(math.NaN()), quantity.Force(math.NaN())
	for _, d := range y.Pushes {
		force := float64(swing.HandForce(f.model.LargestHandMoment(d.From, d.To), d.At))
		if spare := quantity.Force(d.margin(force)); !(spare >= out.Spare) {
			out.Hand, out.Spare = quantity.Force(force), spare
		}
	}
}

// A Compromise is one setting for a whole year.
type Compromise struct {
	// All tells that it keeps every demand of the question and the year.
	All          bool
	Power        Power
	Sweep, Latch quantity.Damping // at the reference temperature
	Forecast     []Forecast
	Good         int // months in which the leaf latches and does not slam
}

// compromises are how many settings are tried where none serves the whole year.
const compromises = 24

// Compromise finds the setting that serves a year best. Where one keeps all
// demands of question and year, it is the best of that window. Else, of settings
// spread over those that the question's ceilings and floors allow, each with the
// valves as its own slow demands and the year's energies ask, the one with the most
// good months is taken, the middle one of the longest run of equals.
func (f *Finder) Compromise(ask *Question, y *Year) (Compromise, error) {
	whole := *ask
	demands, err := y.Demands()
	whole.Demands = append(append([]Demand(nil), ask.Demands...), demands...)
	if err = errors.Join(err, whole.Check()); err != nil {
		return Compromise{}, err
	}
	air, _ := y.Air() // Demands has checked it
	if a := f.window(&whole); a.Open() {
		best := f.best(a.Window, setOf(whole.Demands))
		c := f.compromise(y, air, best.Power.Setting, [2]float64{math.Log(float64(best.SweepSet)), math.Log(float64(best.LatchSet))})
		c.All = true
		return c, nil
	}
	f.begin(ask)
	s := setOf(append(append([]Demand(nil), ask.Demands...), slowOnes(demands)...))
	over := f.narrowed(ask.settings(), s, s.still, f.stillGood)
	if over.Empty() {
		over = ask.settings()
	}
	all := make([]Compromise, compromises+1)
	for i := range all {
		setting := over.Low + over.Width()*quantity.Ratio(i)/compromises
		least := f.decide(s, setting, make([]bool, len(s.demands)), true)
		all[i] = f.compromise(y, air, setting, least)
	}
	return all[middle(all)], nil
}

// slowOnes are the demands that the valves keep by more resistance.
func slowOnes(demands []Demand) (some []Demand) {
	for _, d := range demands {
		if kinds[d.Kind].role == slow {
			some = append(some, d)
		}
	}
	return some
}

func (f *Finder) compromise(y *Year, air []Air, setting quantity.Ratio, at [2]float64) Compromise {
	c := Compromise{
		Power: f.ask.Spring.At(setting),
		Sweep: quantity.Damping(math.Exp(at[0])), Latch: quantity.Damping(math.Exp(at[1])),
		Forecast: f.forecast(y, air, setting, at),
	}
	for i := range c.Forecast {
		if c.Forecast[i].Outcome == Latches {
			c.Good++
		}
	}
	return c
}

// middle is the middle of the longest run of the most good months.
func middle(all []Compromise) int {
	most := 0
	for i := range all {
		most = max(most, all[i].Good)
	}
	at, length := 0, 0
	for i := 0; i < len(all); {
		j := i
		for j < len(all) && all[j].Good == most {
			j++
		}
		if j-i > length {
			at, length = (i+j-1)/2, j-i
		}
		i = max(j, i+1)
	}
	return at
}
