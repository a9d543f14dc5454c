package plan

import (
	"slices"
	"strings"

	"swingwright/fact"
	"swingwright/opening"
	q "swingwright/quantity"
	"swingwright/swing"
	"swingwright/weather"
)

// Assumed of the weather where the survey states no spread, and of what it does
// not state at all.
const (
	roomIndoors     = 70           // °F
	belowShare      = 0.2          // of the height to the neutral plane: it is hardly ever known
	dayOff          = 2            // K, of a temperature for a month
	gustShare       = 0.1          // of a wind's speed
	faceSpread      = q.Ratio(0.1) // of a wall's pressure coefficient
	reckonedWeather = "reckoned from the weather"
)

// indoors is the temperature indoors in a month.
func indoors(c *opening.Climate, m *opening.Weather) q.Measured[q.Temperature] {
	const room = (roomIndoors + 459.67) / 1.8 // K
	return m.Indoors.Or(c.Indoors).Or(q.Give(q.Temperature(room), dayOff)).WithSpread(dayOff)
}

// dayOf is the air at an opening on a day of a month, in that month's wind. A
// wind stated at the opening bounds the month's: it may stand in a lee.
func dayOf(a *opening.Air, c *opening.Climate, m *opening.Weather) weather.Day {
	wind := m.Wind
	if a.Wind.Known && a.Wind.Value < wind.Value {
		wind = a.Wind
	}
	return weather.Day{
		Outdoors: m.Outdoors.WithSpread(dayOff), Indoors: indoors(c, m),
		Below: a.Below.WithSpread(max(a.Below.Value, -a.Below.Value) * belowShare),
		Wind:  wind.WithSpread(wind.Value * gustShare), Face: q.Give(weather.Windward, faceSpread),
	}
}

// An extreme is a pressure on the closed leaf and what makes it.
type extreme struct {
	pressure q.Measured[q.Pressure]
	from     string
}

// extremes are the pressures, positive pushing the leaf open, of every month in
// calm air and in wind: the strongest stated at the opening, else the month's own.
func extremes(o *opening.Opening, c *opening.Climate, out bool) (all []extreme) {
	add := func(d weather.Day, from string) {
		p := d.Inward()
		if out {
			p.Value = -p.Value
		}
		all = append(all, extreme{p, reckonedWeather + ": " + from})
	}
	for i := range c.Months {
		m := &c.Months[i]
		d := dayOf(&o.Air, c, m)
		if o.Air.Wind.Known {
			d.Wind = o.Air.Wind.WithSpread(o.Air.Wind.Value * gustShare)
		}
		blows := d.Wind.Known && d.Wind.Value > 0
		if o.Air.Below.Known {
			calm := d
			calm.Wind = q.Measured[q.Speed]{}
			add(calm, "stack in "+m.Name)
			if blows {
				add(d, "stack and wind in "+m.Name)
			}
		} else if blows {
			add(d, "wind in "+m.Name+", stack left out")
		}
	}
	if len(c.Months) == 0 && o.Air.Wind.Known && o.Air.Wind.Value > 0 {
		d := weather.Day{Wind: o.Air.Wind.WithSpread(o.Air.Wind.Value * gustShare), Face: q.Give(weather.Windward, faceSpread)}
		add(d, "wind, stack left out")
	}
	return all
}

// weather takes the largest and the smallest pressure from the weather of the
// place where the survey states none and the opening leads outdoors. The usual
// pressure is among those to be reckoned with too.
func (r *Resolved) weather(o *opening.Opening, c *opening.Climate) {
	if !o.Use.Outdoors() || o.Air.Most.Known && o.Air.Least.Known {
		return
	}
	out, known := o.SwingsOut()
	if !known {
		return // the gaps say so
	}
	usual := r.Rows[swing.Pressure]
	for _, e := range extremes(o, c, out) {
		one := Row{Value: float64(e.pressure.Value), U: float64(e.pressure.U), Source: e.from, Known: true}
		if !o.Air.Most.Known && one.Value > usual.Value && (r.Most == usual || one.Value > r.Most.Value) {
			r.Most = one
		}
		if !o.Air.Least.Known && one.Value < usual.Value && (r.Least == usual || one.Value < r.Least.Value) {
			r.Least = one
		}
	}
}

// Weathered tells that a pressure was reckoned from the weather, not stated.
func (r Row) Weathered() bool {
	return strings.HasPrefix(r.Source, reckonedWeather)
}

// weathered gives the facts of pressures reckoned from the weather their origin
// and spread.
func (p *Plan) weathered() {
	for _, one := range []struct {
		id  fact.ID
		row *Row
	}{{fact.PressureMost, &p.Resolved.Most}, {fact.PressureLeast, &p.Resolved.Least}} {
		if f := &p.Facts[one.id]; one.row.Weathered() && f.Known && f.Origin == Surveyed {
			f.Origin, f.U = Computed, one.row.U
		}
	}
}

// stated tells apart how a bound of the pressure came to be known.
func (p *Plan) stated(largest bool) string {
	row, text := p.Resolved.Most, "Largest pressure"
	if !largest {
		row, text = p.Resolved.Least, "Smallest pressure"
	}
	if row.Weathered() {
		return text + ", from the weather."
	}
	return text + " stated."
}

// gapsOf is all that the record of an opening lacks, the weather included.
func gapsOf(o *opening.Opening, sheets *opening.Sheets, c *opening.Climate) []opening.Gap {
	return slices.Concat(opening.Missing(o, sheets), opening.MissingAir(o, c))
}

// An Assumed is something taken for granted of the weather, in SI.
type Assumed struct {
	What     string
	Dim      q.Dimension
	Value, U float64
	Why      string
}

// WeatherAssumed lists what is assumed wherever a pressure is reckoned from the
// weather and the survey states neither value nor spread.
func WeatherAssumed() []Assumed {
	return []Assumed{
		{"air.below_neutral, relative", q.DimRatio, 1, belowShare, "known to a fifth where no spread is stated: where a building's air balances is hardly ever found out"},
		{"climate.indoors", q.DimTemperature, (roomIndoors + 459.67) / 1.8, dayOff, "where nothing is stated; temperatures outdoors are taken within 2 K as well"},
		{"air.wind, relative", q.DimRatio, 1, gustShare, "known to a tenth where no spread is stated"},
		{"wall coefficient", q.DimRatio, float64(weather.Windward), float64(faceSpread), "pressure coefficient of a wall that faces the wind (from memory)"},
	}
}
