package opening

// SwingsOut tells whether the leaf swings toward the outdoors, as it is stated,
// else by its hand: one that is seen from the outside to swing toward the viewer
// is a reverse hand (common practice). known is false where neither tells.
func (o *Opening) SwingsOut() (out, known bool) {
	switch {
	case o.Air.SwingsOut != "":
		return o.Air.SwingsOut == "yes", true
	case o.Frame.Hand != "":
		return o.Frame.Hand.reverse(), true
	}
	return false, false
}

// reverse tells a leaf that swings toward whoever stands outside.
func (h Hand) reverse() bool { return h == "LHR" || h == "RHR" }

// What the weather's gaps stop.
const stopsWeather = "what cold, heat and wind do to it"

// MissingAir lists what is missing to reckon the pressure of the weather at an
// opening to the outdoors. What is stated outranks it, and where largest and
// smallest pressure are, nothing is missing for the plan; the months still ask
// for the height to the neutral plane.
func MissingAir(o *Opening, c *Climate) []Gap {
	var g gaps
	a := &o.Air
	if !o.Use.Outdoors() {
		return nil
	}
	begun := a.Below.Known || a.Wind.Known
	if len(c.Months) == 0 {
		g.addIf(begun, "climate.months", stopsWeather, "The height to the neutral plane makes a pressure only with the temperatures of the place.", "Write the months of the place with a cold day's temperature of each, once for the job.")
		return g
	}
	_, known := o.SwingsOut()
	g.addIf(!a.Below.Known, "air.below_neutral", stopsWeather, "In cold weather the building draws air in below its middle and lets it out above; how far below decides the pressure.", "Half the building's height less the opening's own, where nothing better is known; a smoke pencil at doors of several storeys finds the height where the draught turns.")
	g.addIf(!a.Wind.Known && !c.blows(), "air.wind", "", "Wind adds to the pressure of the cold, and is most of it at a door that stands free.", "Ask for the windy days of the place, or take the tenth worst hour of its weather records; 0 mph where the opening stands in a lee.")
	g.addIf(!known, "air.swings_out", stopsWeather, "The same pressure pushes a leaf that swings in open, and one that swings out shut.", "Look: does the leaf swing toward the outdoors?")
	return g
}

// blows tells that a month names its wind.
func (c *Climate) blows() bool {
	for i := range c.Months {
		if c.Months[i].Wind.Known {
			return true
		}
	}
	return false
}
