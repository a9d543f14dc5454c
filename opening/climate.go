package opening

import q "swingwright/quantity"

// Climate is the weather of a place through the year.
type Climate struct {
	Indoors q.Measured[q.Temperature] `key:"indoors" doc:"Temperature indoors; 70 °F when not given."`
	Months  []Weather                 `key:"months" doc:"The months, or whatever other times count, in order."`
}

// Weather is that of one month.
type Weather struct {
	Name     string                    `key:"name" need:"yes" doc:"Name of the month."`
	Outdoors q.Measured[q.Temperature] `key:"outdoors" need:"yes" doc:"Temperature outdoors on a cold day of it, or a hot one in summer."`
	Wind     q.Measured[q.Speed]       `key:"wind" from:"0" doc:"Wind of a windy day of it, toward the opening; calm when not given."`
	Indoors  q.Measured[q.Temperature] `key:"indoors" doc:"Temperature indoors, where it differs from the rest of the year."`
}
