package window

import (
	"math"
	"testing"

	"swingwright/quantity"
)

// oilAt is the temperature at which an oil is so many times as thick as at the
// reference, found by halving; colder is thicker.
func oilAt(t *testing.T, y *Year, ratio quantity.Ratio) quantity.Temperature {
	t.Helper()
	low, high := celsius(-60), celsius(90)
	base, err := y.viscosity(y.Reference)
	if err != nil {
		t.Fatal(err)
	}
	for range 60 {
		mid := (low + high) / 2
		if nu, err := y.viscosity(mid); err != nil || quantity.Ratio(nu/base) > ratio {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}

// At the very setting at which an independent program finds that a leaf just
// latches against a pressure, with the oil as thick as that program had it, a month
// of that pressure and that oil turns from staying open to latching: half a per
// cent of the span of settings below it and above.
func TestForecastTurnsWhereSciPySays(t *testing.T) {
	var f Finder
	turned := 0
	for i, c := range refCases(t) {
		ask := c.question()
		most := quantity.Pressure(c.MostPressure)
		for key, angle := range map[string]quantity.Angle{"5": 5 * deg, "90": 90 * deg} {
			edge, valves := c.LatchEdges[key], c.Valves[key]
			y := Year{
				At40: 15e-6, At100: 4.6e-6, Reference: celsius(20), From: []quantity.Angle{angle},
				Months: []Month{{Name: "cold", Outdoors: celsius(0), Indoors: celsius(20), Known: &most}},
			}
			y.Months[0].Oil = oilAt(t, &y, c.Oil)
			span := ask.settings()
			for side, want := range map[float64]Outcome{-5e-3: StaysOpen, 5e-3: Latches} {
				at := quantity.Ratio(edge) + quantity.Ratio(side)*span.Width()
				if at < span.Low || at > span.High || valves[0] == 0 {
					continue
				}
				out, err := f.Forecast(&ask, &y, at, quantity.Damping(valves[0]), quantity.Damping(valves[1]))
				if err != nil {
					t.Fatal(err)
				}
				if math.Abs(float64(out[0].Air.Oil/c.Oil)-1) > 1e-6 {
					t.Fatalf("opening %d: oil %g times as thick, want %g", i, float64(out[0].Air.Oil), float64(c.Oil))
				}
				if turned++; out[0].Outcome != want {
					t.Errorf("opening %d from %s degrees, setting %.4f, SciPy's edge %.4f: %v, want %v", i, key, float64(at), edge, out[0].Outcome, want)
				}
			}
		}
	}
	if turned < 60 {
		t.Errorf("only %d forecasts: the test shows little", turned)
	}
	t.Logf("%d forecasts", turned)
}
