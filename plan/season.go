package plan

import (
	"fmt"
	"math"

	"swingwright/fact"
	"swingwright/judge"
	"swingwright/opening"
	q "swingwright/quantity"
	"swingwright/swing"
	"swingwright/weather"
	"swingwright/window"
)

// Seasons are what the months of a place do to one leaf: at the setting found
// today, and at the one setting that serves the whole year best.
type Seasons struct {
	// Missing is what has to be known before anything can be told; where there is
	// any, nothing else is filled in.
	Missing []string
	Notes   []string // what was taken for granted
	Months  []Month
	// Limits are what the months are judged by, with their sources.
	Limits []string
	Today  []Season // in the order of Months
	// Set is a setting that serves the year better than today's, nil where none was
	// found or no sheet tells what can be set; Best is the year at it. All tells that it keeps all that is asked.
	Set  *YearSetting
	Best []Season
}

// A Month is the air of one month at an opening.
type Month struct {
	Name              string
	Outdoors, Indoors q.Temperature
	Oil               q.Temperature // of the closer
	// Pressure on the closed leaf, above zero pushing it open, with its standard
	// uncertainty.
	Pressure q.Measured[q.Pressure]
	Factor   q.Ratio // the oil's viscosity over that with which the valves were described
}

// A Season is what a month does to the leaf at one setting.
type Season struct {
	window.Forecast
	// U is the standard uncertainty of the latch budget; TooClose tells that what
	// is left of it lies within its guard band, so that the month may end either way.
	U        q.Torque
	TooClose bool
	// Stalls tells that the operator cannot open the leaf against the month's
	// pressure.
	Stalls bool
}

// YearSetting is one setting of spring and valves for a whole year.
type YearSetting struct {
	Power        q.Ratio
	Sweep, Latch q.Damping // at the temperature at which the valves were described
	// SweepTurns and LatchTurns are the valves' turns from shut; NaN where no sheet tells.
	SweepTurns, LatchTurns q.Turns
	All                    bool // keeps all that is asked in every month
	Good                   int  // months in which it latches, does not slam and opens lightly enough
}

// slamEnergy is the largest energy of a closing leaf where no rule of the job
// states one: the low-energy standard's 1.25 ft·lbf (ANSI/BHMA A156.19-2007).
const slamEnergy = 1.25 * q.FootPoundEnergy

// Seasons follows the leaf through the months of the climate in opt. It reckons
// with best estimates; where the months cannot be told, Seasons.Missing says for
// want of what. It fails only where the question makes no sense all the same.
func (p *Plan) Seasons(sheets *opening.Sheets, opt Options) (*Seasons, error) {
	s := &Seasons{}
	w := &Window{} // takes the notes of the question
	sheet := sheets.Closer(p.Opening.Closer.Sheet)
	if s.Missing = p.noSeasons(&opt.Climate); len(s.Missing) > 0 {
		return s, nil
	}
	ask := p.asked(w)
	ask.Drive = p.Resolved.Drive // the leaf turns it along as it closes, whatever the setting
	year := p.year(s, sheet, &opt.Climate, ask.Demands)
	air, err := year.Air()
	if err != nil {
		return s, err
	}
	s.air(p, &opt.Climate, &year, air)
	var f window.Finder
	if err = s.today(p, &f, ask, &year, opt.Policy); err != nil || sheet == nil || len(sheet.Powers) == 0 {
		return s, err
	}
	ask.Spring, ask.Valves = p.spring(sheet, w), p.settable(sheet, w)
	ask.Demands = inAnyMonth(ask.Demands)
	err = s.set(p, &f, &ask, &year, sheet, opt.Policy)
	s.Notes = append(s.Notes, w.Notes...)
	return s, err
}

// asked is the question that the plan's findings put to the closer, without its
// spring and valves.
func (p *Plan) asked(w *Window) window.Question {
	ask := window.Question{Values: p.Values(), Link: p.Resolved.Link}
	ask.Demands, w.Left = p.demands()
	return ask
}

// inAnyMonth are the demands that do not go with the pressure: of latching and of
// hands the months put their own.
func inAnyMonth(all []window.Demand) (some []window.Demand) {
	for _, d := range all {
		if d.Kind != window.HandForce && d.Kind != window.Shuts {
			some = append(some, d)
		}
	}
	return some
}

// noSeasons is what keeps the months from being told.
func (p *Plan) noSeasons(c *opening.Climate) (all []string) {
	r, o := p.Resolved, p.Opening
	say := func(bad bool, what string) {
		if bad {
			all = append(all, what)
		}
	}
	_, known := o.SwingsOut()
	say(len(c.Months) == 0, "the weather of the place, month by month (climate.months)")
	say(!o.Use.Outdoors(), "an opening to the outdoors: between two rooms all months are alike")
	say(o.Use.Outdoors() && !known, "whether the leaf swings toward the outdoors (air.swings_out)")
	say(!r.Sized, "the leaf's width and height")
	say(r.Free, "a closer: without one nothing shuts the leaf")
	say(!r.Free && !r.Link.Closer, "the closer's arm and power setting"+told(r.Notes))
	say(r.Link.Closer && r.Sized && !p.Swing.Reachable, "an arm that reaches 90 degrees, from which closings are timed")
	say(p.Problem != nil, "a model that can be reckoned")
	return all
}

// year is the months with the limits that they are judged by.
func (p *Plan) year(s *Seasons, sheet *opening.CloserSheet, c *opening.Climate, demands []window.Demand) window.Year {
	out, _ := p.Opening.SwingsOut()
	y := window.Year{Outward: out, From: []q.Angle{5 * q.Degree, 30 * q.Degree, 90 * q.Degree}}
	seat := p.seat(s, out)
	y.Reference = p.described(s, c)
	if sheet != nil && sheet.Oil.At40.Known && sheet.Oil.At100.Known {
		y.At40, y.At100 = sheet.Oil.At40.Value, sheet.Oil.At100.Value
	} else {
		s.note("the oil's viscosities are not known: it is taken to flow alike in every month")
	}
	if !p.Opening.Air.Below.Known {
		s.note("the height to the neutral plane is not known (air.below_neutral): the pressure of cold and heat is left out")
	}
	if u := p.Resolved.Rows[swing.Pressure]; !u.Assumed && u.Value != 0 {
		s.note("the usual pressure stated is left out: the months' own stands in its place")
	}
	for i := range c.Months {
		y.Months = append(y.Months, monthOf(&p.Opening.Air, c, &c.Months[i], seat))
	}
	y.Peak = p.slams(s, demands)
	for _, d := range demands {
		if d.Kind == window.HandForce {
			y.Pushes = append(y.Pushes, d)
			s.limit("%s: at most %s, %s", d.What, both(q.Exactly(q.Force(d.Limit))), d.Source)
		}
	}
	return y
}

func (s *Seasons) note(format string, args ...any) {
	s.Notes = append(s.Notes, fmt.Sprintf(format, args...))
}

func (s *Seasons) limit(format string, args ...any) {
	s.Limits = append(s.Limits, fmt.Sprintf(format, args...))
}

// slams is the energy beyond which a leaf slams: the least limit that the job's
// rules put on it, else the low-energy standard's.
func (p *Plan) slams(s *Seasons, demands []window.Demand) q.Energy {
	least, source := q.Energy(math.Inf(1)), ""
	for i := range demands {
		if d := &demands[i]; d.Kind == window.PeakEnergy && q.Energy(d.Limit) < least {
			least, source = q.Energy(d.Limit), d.Source
		}
	}
	if source == "" {
		least, source = slamEnergy, "ANSI/BHMA A156.19-2007 (no rule of this job limits it)"
	}
	s.limit("Largest energy while closing, beyond which it slams: %s, %s", both(q.Exactly(least)), source)
	return least
}

// monthOf is a month as the year takes it. The height to the neutral plane that
// nobody knows makes no stack.
func monthOf(a *opening.Air, c *opening.Climate, m *opening.Weather, seat seat) window.Month {
	d := dayOf(a, c, m)
	out := window.Month{Name: m.Name, Outdoors: d.Outdoors.Value, Indoors: d.Indoors.Value, Below: d.Below.Value, Wind: d.Wind.Value, Face: weather.Windward}
	switch seat {
	case seatOutdoors:
		out.Oil = out.Outdoors
	case seatBetween:
		out.Oil = (out.Outdoors + out.Indoors) / 2
	default:
		out.Oil = out.Indoors
	}
	return out
}

// seat is in which air a closer hangs.
type seat uint8

const (
	seatIndoors seat = iota
	seatOutdoors
	seatBetween
)

// seat is on which side of the leaf the closer's body hangs: a regular arm's on
// the pull side, others' on the push side, a track's where its sheet says.
func (p *Plan) seat(s *Seasons, out bool) seat {
	link, pull := p.Resolved.Link, p.Resolved.Rows[swing.PinionY].Value > 0
	switch on := p.Opening.Closer.Seated; {
	case on != "" && on != "surface" || !link.Closer:
		s.note("the closer is taken to be halfway between the temperatures indoors and outdoors: it hangs on neither face")
		return seatBetween
	case pull == out:
		s.note("the closer hangs on the outer face, in the air outdoors")
		return seatOutdoors
	}
	s.note("the closer hangs on the inner face, in the air indoors")
	return seatIndoors
}

// described is the temperature at which the valves' resistances hold.
func (p *Plan) described(s *Seasons, c *opening.Climate) q.Temperature {
	at := p.Opening.Air.Surveyed.Or(p.Opening.Air.Temperature)
	if !at.Known {
		at = indoors(c, &opening.Weather{})
		s.note("the closer is taken to have been at %s when its times were taken: nobody read it", both(q.Exactly(at.Value)))
	}
	return at.Value
}

// air fills in the months.
func (s *Seasons) air(p *Plan, c *opening.Climate, y *window.Year, air []window.Air) {
	for i, m := range y.Months {
		pressure := dayOf(&p.Opening.Air, c, &c.Months[i]).Inward()
		pressure.Value = air[i].Pressure
		s.Months = append(s.Months, Month{Name: m.Name, Outdoors: m.Outdoors, Indoors: m.Indoors, Oil: m.Oil, Pressure: pressure, Factor: air[i].Oil})
	}
}

// today follows the year at the setting found: spring, valves and operator as
// the plan has them.
func (s *Seasons) today(p *Plan, f *window.Finder, ask window.Question, y *window.Year, policy judge.Policy) error {
	v := p.Values()
	ask.Spring = window.Spring{{Setting: q.Ratio(p.Resolved.Size.Value), Closed: q.Torque(v[swing.SpringClosed]), Rise: q.TorsionRate(v[swing.SpringRise])}}
	sweep, latch := q.Damping(v[swing.SweepViscous]), q.Damping(v[swing.LatchViscous])
	ask.Valves = window.Valves{Sweep: [2]q.Damping{sweep, sweep}, Latch: [2]q.Damping{latch, latch}}
	all, err := f.Forecast(&ask, y, ask.Spring[0].Setting, sweep, latch)
	s.Today = s.judged(p, all, &v, policy)
	return err
}

// set looks for the setting that serves the year best.
func (s *Seasons) set(p *Plan, f *window.Finder, ask *window.Question, y *window.Year, sheet *opening.CloserSheet, policy judge.Policy) error {
	c, err := f.Compromise(ask, y)
	if err != nil {
		return err
	}
	v := ask.Values
	c.Power.Put(&v)
	s.Best = s.judged(p, c.Forecast, &v, policy)
	if !serves(s.Best, s.Today) {
		s.Best = nil
		s.note("none of the settings tried serves the year better than today's: leave it")
		return nil
	}
	s.Set = &YearSetting{
		Power: c.Power.Setting, Sweep: c.Sweep, Latch: c.Latch, All: c.All, Good: c.Good,
		SweepTurns: turns(&sheet.Sweep, c.Sweep), LatchTurns: turns(&sheet.Latch, c.Latch),
	}
	return nil
}

// judged adds to forecasts what their spread leaves open, and whether the
// operator opens the leaf at all. The budget's spread is that of the plan's own,
// the pressure's share of it exchanged for the month's.
func (s *Seasons) judged(p *Plan, all []window.Forecast, v *swing.Values, policy judge.Policy) []Season {
	out := make([]Season, len(all))
	for i := range all {
		out[i].Forecast = all[i]
	}
	m, err := p.ModelOf(v, p.Resolved.Link)
	if err != nil {
		return out
	}
	opens := q.Pressure(math.Inf(1)) // against it
	if m.Driven() {
		opens = m.LargestPressure(p.Swing.Power.From)
	}
	perPascal := float64(m.PressureMoment(q.Pascal))
	own := p.Facts[fact.LatchMargin].U
	rest := math.Sqrt(max(0, own*own-math.Pow(p.Resolved.Most.U*perPascal, 2)))
	for i := range out {
		one := &out[i]
		one.U = q.Torque(math.Hypot(rest, float64(s.Months[i].Pressure.U)*perPascal))
		one.TooClose = judge.Decide(float64(one.Budget), float64(one.U), policy) == judge.TooClose
		one.Stalls = -one.Air.Pressure > opens
	}
	return out
}

// Worst is the worst that a year does, and Good in how many months all is well.
func Worst(year []Season) (worst window.Outcome, good int) {
	for i := range year {
		worst = max(worst, year[i].Outcome)
		if year[i].Outcome == window.Latches && !year[i].Stalls {
			good++
		}
	}
	return worst, good
}

// serves tells whether one year is better than another: more months in order, or
// as many of which fewer are too close to call.
func serves(one, other []Season) bool {
	_, good := Worst(one)
	_, than := Worst(other)
	return good > than || good == than && sure(one) > sure(other)
}

// sure is in how many months all is well beyond what their spread leaves open.
func sure(year []Season) (n int) {
	for i := range year {
		if s := &year[i]; s.Outcome == window.Latches && !s.Stalls && !s.TooClose {
			n++
		}
	}
	return n
}

// Words is what a month does, in words.
func (s *Season) Words() string {
	text := s.Outcome.String()
	switch {
	case s.Outcome == window.StaysOpen:
		text += fmt.Sprintf(" at %.1f deg", float64(s.Rests/q.Degree))
	case s.Outcome == window.TooHard && s.Fast:
		text += ", slams"
	}
	if s.Stalls {
		text += ", operator stalls"
	}
	if s.TooClose {
		text += ", too close to call"
	}
	return text
}
