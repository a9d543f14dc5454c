package opening

import (
	"fmt"

	q "swingwright/quantity"
)

// weather doubts what was written of the weather at an opening.
func (ds *doubts) weather(o *Opening) {
	a := &o.Air
	span(ds, "air.below_neutral", a.Below, -300*q.Foot, 300*q.Foot, "it is the height to the building's neutral plane, about its middle")
	span(ds, "air.wind", a.Wind, 0, 60*q.MilePerHour, "check the number and its unit")
	if !o.Use.Outdoors() {
		if o.Use.Place != "" && (a.Below.Known || a.Wind.Known) {
			ds.add("use.place", string(o.Use.Place), "weather is written down at an opening between two rooms, and is left out")
		}
		return
	}
	if a.SwingsOut != "" && o.Frame.Hand != "" && (a.SwingsOut == "yes") != o.Frame.Hand.reverse() {
		ds.add("air.swings_out", string(a.SwingsOut), fmt.Sprintf("seen from the outdoors a leaf of hand %s swings the other way; was its hand taken from within?", o.Frame.Hand))
	}
	if a.Most.Known && a.Least.Known && a.Least.Value > a.Most.Value {
		ds.add("air.pressure_least", written(a.Least), "it is above the largest pressure")
	}
}

// ImplausibleClimate lists what may be slips in the weather of a job. The spans
// are the coldest and hottest places where people build, from memory.
func ImplausibleClimate(c *Climate) []Doubt {
	var ds doubts
	span(&ds, "climate.indoors", c.Indoors, q.Celsius0+5, q.Celsius0+30, "check the number and its unit")
	for i := range c.Months {
		field := fmt.Sprintf("climate.months[%d]", i)
		span(&ds, field+".outdoors", c.Months[i].Outdoors, q.Celsius0-50, q.Celsius0+50, "check the number, its sign and its unit")
		span(&ds, field+".indoors", c.Months[i].Indoors, q.Celsius0+5, q.Celsius0+30, "check the number and its unit")
		span(&ds, field+".wind", c.Months[i].Wind, 0, 60*q.MilePerHour, "it is that of a windy day, not of a storm")
	}
	return ds
}
