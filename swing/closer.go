package swing

import (
	"fmt"
	"math"

	"swingwright/quantity"
)

// LossOfEfficiency is μ for a closer's efficiency, the closing moment over the
// opening moment: (1 − μ)/(1 + μ) solved for μ. efficiency lies in (0, 1].
func LossOfEfficiency(efficiency quantity.Ratio) quantity.Ratio {
	return (1 - efficiency) / (1 + efficiency)
}

// Gauge is what two force readings at one leaf angle tell of a closer.
type Gauge struct {
	Spring quantity.Torque // T_s at the pinion there
	Loss   quantity.Ratio  // μ
}

// ReadGauge finds spring torque and friction from the force that opens the leaf
// slowly and the force with which it is slowly let close, both at one radius and
// one leaf angle, with n the arm's ratio there and hinges the hinge friction:
// F_o·r = n·T_s·(1 + μ) + τ_h and F_c·r = n·T_s·(1 − μ) − τ_h.
func ReadGauge(opening, closing quantity.Force, at quantity.Length, n quantity.Ratio, hinges quantity.Torque) Gauge {
	open := float64(opening)*float64(at) - float64(hinges)
	shut := float64(closing)*float64(at) + float64(hinges)
	return Gauge{
		Spring: quantity.Torque((open + shut) / (2 * float64(n))),
		Loss:   quantity.Ratio((open - shut) / (open + shut)),
	}
}

// SpringOfMoment is the spring torque at the pinion behind a closing moment at
// the leaf, M = n·T_s·(1 − μ).
func SpringOfMoment(moment quantity.Torque, n, loss quantity.Ratio) quantity.Torque {
	return quantity.Torque(float64(moment) / (float64(n) * (1 - float64(loss))))
}

// Size is a closer's power size.
type Size struct {
	Moment  [2]quantity.Torque // closing moment of the standard's band, 0 to 4 degrees
	Opening quantity.Torque    // largest opening moment, 0 to 60 degrees
}

// sizes are the power sizes 1 to 7: EN 1154:1996+A1:2002, Table 1, closing
// moment between 0 and 4 degrees and largest opening moment; from memory.
var sizes = [...]Size{
	{[2]quantity.Torque{9, 13}, 26},
	{[2]quantity.Torque{13, 18}, 36},
	{[2]quantity.Torque{18, 26}, 47},
	{[2]quantity.Torque{26, 37}, 62},
	{[2]quantity.Torque{37, 54}, 83},
	{[2]quantity.Torque{54, 87}, 134},
	{[2]quantity.Torque{87, 140}, 215},
}

// SizeBand is the band of closing moment near closed that a power size stands
// for, sizes between the marked ones taken in proportion. It fails outside 1 to 7.
func SizeBand(size quantity.Ratio) (low, high quantity.Torque, err error) {
	if !(size >= 1 && size <= 7) {
		return 0, 0, fmt.Errorf("power size %g: the standard's sizes run from 1 to 7", float64(size))
	}
	below := math.Floor(float64(size))
	i := int(below) - 1
	j := min(i+1, len(sizes)-1)
	part := quantity.Torque(float64(size) - below)
	between := func(k int) quantity.Torque {
		return sizes[i].Moment[k] + part*(sizes[j].Moment[k]-sizes[i].Moment[k])
	}
	return between(0), between(1), nil
}

// ValveAt is a valve's resistance at another position: viscous a ∝ 1/(u − u_0),
// orifice b ∝ 1/(u − u_0)², u in turns from closed and u_0 where flow really
// stops. It fails where either position is not beyond u_0.
func ValveAt(a quantity.Damping, b quantity.SquareDamping, known, now, shut quantity.Turns) (quantity.Damping, quantity.SquareDamping, error) {
	if !(known > shut) || !(now > shut) {
		return 0, 0, fmt.Errorf("a valve at %g turns is shut: flow stops at %g turns; never leave it there", float64(min(known, now)), float64(shut))
	}
	ratio := float64(known-shut) / float64(now-shut)
	return quantity.Damping(float64(a) * ratio), quantity.SquareDamping(float64(b) * ratio * ratio), nil
}

// OilViscosity is an oil's kinematic viscosity at a temperature from its
// viscosities at 40 and 100 °C: ASTM D341, log10 log10(ν + 0.7) = A − B·log10 T,
// ν in mm²/s and T in K, good above 2 mm²/s.
func OilViscosity(at40, at100 quantity.Viscosity, t quantity.Temperature) (quantity.Viscosity, error) {
	const mm2 = 1e-6
	z := func(v quantity.Viscosity) float64 { return math.Log10(math.Log10(float64(v)/mm2 + 0.7)) }
	if !(at40 > at100) || !(at100 > 2*mm2) || !(t > 0) {
		return 0, fmt.Errorf("oil of %g mm²/s at 40 °C and %g mm²/s at 100 °C: the first must be the larger and both above 2 mm²/s",
			float64(at40)/mm2, float64(at100)/mm2)
	}
	t40, t100 := math.Log10(40+float64(quantity.Celsius0)), math.Log10(100+float64(quantity.Celsius0))
	b := (z(at40) - z(at100)) / (t100 - t40)
	a := z(at40) + b*t40
	return quantity.Viscosity((math.Pow(10, math.Pow(10, a-b*math.Log10(float64(t)))) - 0.7) * mm2), nil
}
