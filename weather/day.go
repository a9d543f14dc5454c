package weather

import (
	"math"

	"swingwright/quantity"
)

// A Day is the air at a door to the outdoors on one day, with the standard
// uncertainties of what is known of it. What is not known counts as nothing: no
// height, no stack; no wind, calm.
type Day struct {
	Outdoors, Indoors quantity.Measured[quantity.Temperature]
	Below             quantity.Measured[quantity.Length] // of the neutral plane; below zero above it
	Wind              quantity.Measured[quantity.Speed]  // toward the door
	Face              quantity.Measured[quantity.Ratio]  // pressure coefficient of its wall
}

// Inward is the pressure on the door, outdoors less indoors: stack and wind
// together. Its standard uncertainty is that of the linear law, inputs
// independent (JCGM 100:2008, eq. 10); the slopes are those of Stack and Wind.
func (d Day) Inward() quantity.Measured[quantity.Pressure] {
	out, in, h := float64(d.Outdoors.Value), float64(d.Indoors.Value), float64(d.Below.Value)
	var p quantity.Pressure
	var u float64
	if d.Below.Known && d.Outdoors.Known && d.Indoors.Known {
		p = Stack(d.Outdoors.Value, d.Indoors.Value, d.Below.Value)
		u = norm(
			stack*(1/out-1/in)*float64(d.Below.U),
			stack*h/(out*out)*float64(d.Outdoors.U),
			stack*h/(in*in)*float64(d.Indoors.U))
	}
	if d.Wind.Known {
		wind := Wind(d.Face.Value, d.Wind.Value)
		p += wind
		u = norm(u, float64(Wind(d.Face.U, d.Wind.Value)), float64(Wind(d.Face.Value, 1))*2*float64(d.Wind.Value)*float64(d.Wind.U))
	}
	return quantity.Give(p, quantity.Pressure(u))
}

// norm is the root of a sum of squares.
func norm(parts ...float64) float64 {
	sum := 0.0
	for _, x := range parts {
		sum += x * x
	}
	return math.Sqrt(sum)
}
