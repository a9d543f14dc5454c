package takeoff

import (
	"cmp"

	"swingwright/opening"
	"swingwright/quantity"
)

// known are the hours of the tasks, of one technician, each time: from memory.
var known = map[opening.Task]Range{
	opening.Mobilise:      span(0.5, 0.5),
	opening.TuneCloser:    span(0.5, 1),
	opening.MountOperator: span(1.5, 2.5),
	opening.LoopAndCover:  span(0.5, 0.5),
	opening.WirelessPlate: span(0.3, 0.3),
	opening.WiredPlate:    span(0.8, 1.5),
	opening.FitStrike:     span(1.5, 2.5), // in a hollow metal frame
	opening.FitRetraction: span(2, 3),
	opening.AccessTie:     span(1, 2),
	opening.AlarmTie:      span(0.5, 1),
	opening.Commission:    span(0.6, 0.8),
	opening.CloseOut:      span(0.3, 0.3),
}

// Rates of money and share: from memory.
var (
	labour      = span(85, 150)
	markup      = span(0.25, 0.40)
	subsMarkup  = span(0.10, 0.15)
	contingency = span(0.05, 0.10)
	spares      = span(0.05, 0.10)
	alarmHours  = span(2, 4) // of the fire-alarm contractor at one opening
)

const (
	// cableExtra is length bought over length run: from memory.
	cableExtra = 1.15
	// sparesFrom is the number of openings from which spares are bought: common practice.
	sparesFrom = 10
	// manyAlike is the number of openings above which identical ones go faster: from memory.
	manyAlike = 10
	// dayHours is a working day at openings: common practice.
	dayHours = 8
	// bolts is how many through-bolt sets are bought, the most of the usual four to
	// six: from memory.
	bolts = 6
	// fittingsPerRun is elbows and couplings of one short run of surface raceway: from memory.
	fittingsPerRun = 4
)

// Multipliers of hours: from memory.
var conditions = []struct {
	what   string
	factor float64
	when   func(o *opening.Opening) bool
}{
	{"masonry or closed ceiling", 1.3, func(o *opening.Opening) bool { return o.Work.HardWall == "yes" }},
	{"occupied hospital", 1.4, func(o *opening.Opening) bool { return o.Work.Hospital == "yes" }},
	{"at night", 1.25, func(o *opening.Opening) bool { return o.Work.Night == "yes" }},
	{"tall", 1.2, func(o *opening.Opening) bool { return o.Work.Tall == "yes" }},
	{"outer opening in winter", 1.2, func(o *opening.Opening) bool { return o.Work.Winter == "yes" && o.Use.Outdoors() }},
	{"first of its kind", 1.5, func(o *opening.Opening) bool { return o.Work.First == "yes" }},
}

// alikeFactor is for more than ten identical openings: from memory.
const alikeFactor = 0.85

func span(low, high float64) Range { return Range{low, (low + high) / 2, high} }

// given is the range that a job gives.
func given(s *opening.Span) (Range, bool) {
	low, likely, high := s.Low, s.Likely, s.High
	if !likely.Known {
		return span(float64(low.Value), float64(high.Value)), low.Known && high.Known
	}
	r := Range{float64(likely.Value), float64(likely.Value), float64(likely.Value)}
	if low.Known {
		r.Low = float64(low.Value)
	}
	if high.Known {
		r.High = float64(high.Value)
	}
	return r, true
}

// rates are the rates that hold for a job.
type rates struct {
	*opening.Rates
	used []Rate
}

// rate is one of the job, else the usual one, noted as used.
func (r *rates) rate(what string, s *opening.Span, usual Range, unit string) Range {
	found, ok := given(s)
	basis := FromJob
	if !ok {
		found, basis = usual, FromMemory
	}
	r.used = append(r.used, Rate{what, found, unit, basis})
	return found
}

// money is the unit of amounts.
func (r *rates) money() string { return cmp.Or(r.Currency, "money") }

// hours are those of a task, each time.
func (r *rates) hours(t opening.Task) (Range, Basis) {
	for i := range r.Rates.Hours {
		if h := &r.Rates.Hours[i]; h.Task == t {
			if found, ok := given(&h.Hours); ok {
				return found, FromJob
			}
		}
	}
	return known[t], FromMemory
}

// price is what one of a part costs, or a metre of it; nil where the job does not
// say. The price of a sheet outranks that of the sort.
func (r *rates) price(p opening.Part, sheet string) *Range {
	var sort *Range
	for i := range r.Prices {
		one := &r.Prices[i]
		if one.Part != "" && one.Part != p {
			continue
		}
		found, ok := given(&one.Price)
		if !ok {
			continue
		}
		if p == opening.CablePart || p == opening.RacewayPart {
			per := quantity.Foot
			if one.Per == "m" {
				per = quantity.Metre
			}
			found = found.Times(float64(quantity.Metre / per))
		}
		switch {
		case one.Sheet != "" && one.Sheet == sheet:
			return &found
		case one.Sheet == "" && one.Part == p && sort == nil:
			sort = &found
		}
	}
	return sort
}

// sub is what another firm asks for one opening; nil where the job does not say.
func (r *rates) sub(t opening.Trade) *Range {
	for i := range r.Subs {
		if s := &r.Subs[i]; s.Trade == t {
			if found, ok := given(&s.Price); ok {
				return &found
			}
		}
	}
	return nil
}

// extra is length bought over length run.
func (r *rates) extra() float64 {
	if r.CableExtra.Known {
		return float64(r.CableExtra.Value)
	}
	return cableExtra
}
