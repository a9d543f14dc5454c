package weather

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	_ "swingwright/internal/steady"
	q "swingwright/quantity"
)

func drawDay(t *rapid.T) Day {
	r := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	return Day{
		Outdoors: q.Give(celsius(r("outdoors", -30, 40)), q.Temperature(r("u outdoors", 0, 3))),
		Indoors:  q.Give(celsius(r("indoors", 15, 25)), q.Temperature(r("u indoors", 0, 2))),
		Below:    q.Give(q.Length(r("below", -30, 30)), q.Length(r("u below", 0, 3))),
		Wind:     q.Give(q.Speed(r("wind", 0, 15)), q.Speed(r("u wind", 0, 2))),
		Face:     q.Give(q.Ratio(r("face", -0.7, 0.9)), q.Ratio(r("u face", 0, 0.2))),
	}
}

// A day's pressure is that of stack and wind, and its spread what nudging each
// input by its own spread, halved and split to both sides, makes of the pressure:
// the linear law by differences, good to the curvature left out.
func TestDayIsStackAndWindWithTheirSpread(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawDay(t)
		got := d.Inward()
		want := Stack(d.Outdoors.Value, d.Indoors.Value, d.Below.Value) + Wind(d.Face.Value, d.Wind.Value)
		if math.Abs(float64(got.Value-want)) > 1e-9 {
			t.Fatalf("%g Pa, want %g", float64(got.Value), float64(want))
		}
		var sum float64
		for _, nudge := range []func(d *Day, by float64){
			func(d *Day, by float64) { d.Outdoors.Value += d.Outdoors.U * q.Temperature(by) },
			func(d *Day, by float64) { d.Indoors.Value += d.Indoors.U * q.Temperature(by) },
			func(d *Day, by float64) { d.Below.Value += d.Below.U * q.Length(by) },
			func(d *Day, by float64) { d.Wind.Value += d.Wind.U * q.Speed(by) },
			func(d *Day, by float64) { d.Face.Value += d.Face.U * q.Ratio(by) },
		} {
			up, down := d, d
			nudge(&up, 0.01)
			nudge(&down, -0.01)
			slope := float64(up.Inward().Value-down.Inward().Value) / 0.02
			sum += slope * slope
		}
		if want := math.Sqrt(sum); math.Abs(float64(got.U)-want) > 1e-3*want+1e-9 {
			t.Fatalf("spread of %g Pa, want %g", float64(got.U), want)
		}
	})
}

// The trade's table once more: -20 °C outdoors and 21 °C indoors, 10 m below, is
// 19 Pa; a wind of 20 mph, 48 Pa at the whole stagnation pressure, adds to it.
func TestDayOfTheTradesTables(t *testing.T) {
	d := Day{Outdoors: q.Exactly(celsius(-20)), Indoors: q.Exactly(celsius(21)), Below: q.Exactly(10 * q.Metre)}
	near(t, "stack", float64(d.Inward().Value), 19, 0.55)
	d.Wind, d.Face = q.Exactly(20*q.MilePerHour), q.Exactly(Full)
	near(t, "stack and wind", float64(d.Inward().Value), 19+48, 1.05)
	near(t, "spread of what is exact", float64(d.Inward().U), 0, 0)
}

func TestWhatIsNotKnownOfADayCountsAsNothing(t *testing.T) {
	d := Day{Outdoors: q.Exactly(celsius(-20)), Indoors: q.Exactly(celsius(21)), Face: q.Exactly(Windward)}
	near(t, "neither height nor wind", float64(d.Inward().Value), 0, 0)
}
