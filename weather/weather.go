// Package weather tells the pressure that cold, heat and wind put on a door:
// stack effect and wind pressure. Which way it pushes the leaf is for the caller
// to say, who knows toward which side it swings.
package weather

import (
	"errors"
	"fmt"
	"math"

	"swingwright/quantity"
)

// stack is Δp·T/h of the stack effect, Pa·K/m: SFPE Handbook, Eq. 50.1, as
// restated; the ASHRAE smoke-control formula has the same. It holds at an
// atmosphere of about 101.2 kPa.
const stack = 3460

// Stack is the pressure, outdoors less indoors, at a door that lies below the
// neutral plane of a building by so much: Δp = 3460·(1/T_out − 1/T_in)·h. It is
// positive in winter, when it pushes inward at the foot of the building. Above the
// neutral plane below is negative and the pressure with it. Temperatures must be
// above absolute zero; see Check.
func Stack(outdoors, indoors quantity.Temperature, below quantity.Length) quantity.Pressure {
	return quantity.Pressure(stack * (1/float64(outdoors) - 1/float64(indoors)) * float64(below))
}

// StackAt is Stack in an atmosphere of another pressure, as on a mountain:
// Δp = 0.0342·p·h·(1/T_out − 1/T_in) (general form of the encyclopedias; the
// factor is g/R of dry air, 9.80665/287.05 K/m).
func StackAt(atmosphere quantity.Pressure, outdoors, indoors quantity.Temperature, below quantity.Length) quantity.Pressure {
	const perMetre = 0.0342 // K/m
	return quantity.Pressure(perMetre * float64(atmosphere) * float64(below) * (1/float64(outdoors) - 1/float64(indoors)))
}

// The pressure coefficients of a wall (from memory, as in the smoke-control handbooks).
const (
	Windward quantity.Ratio = 0.8
	Full     quantity.Ratio = 1 // the whole stagnation pressure
)

// Wind is the pressure of the wind on a wall: p = C_w·0.600·V² (ASHRAE, SFPE,
// NFPA 92A; from memory), which is half the air's density, 1.2 kg/m³, times the
// square of the speed. A negative coefficient is suction.
func Wind(coefficient quantity.Ratio, speed quantity.Speed) quantity.Pressure {
	return quantity.Pressure(float64(coefficient) * 0.600 * float64(speed) * float64(speed))
}

// EdgeForce is the force at the latch edge that a pressure on the whole leaf
// asks for, hinged on its other edge: F = Δp·w·h/2, the moment of the pressure
// about the hinge over the width.
func EdgeForce(dp quantity.Pressure, width, height quantity.Length) quantity.Force {
	return quantity.Force(float64(dp) * float64(width) * float64(height) / 2)
}

// Check collects what makes no sense in the temperatures of a door: outside
// −90 to 60 °C, the coldest and hottest air measured on Earth, rounded outward.
func Check(outdoors, indoors quantity.Temperature) error {
	var all []error
	for _, t := range []struct {
		where string
		value quantity.Temperature
	}{{"outdoors", outdoors}, {"indoors", indoors}} {
		if c := t.value - quantity.Celsius0; !(c >= -90 && c <= 60) || math.IsNaN(float64(c)) {
			all = append(all, fmt.Errorf("%s %.1f °C: give a temperature from -90 to 60 °C", t.where, float64(c)))
		}
	}
	return errors.Join(all...)
}
