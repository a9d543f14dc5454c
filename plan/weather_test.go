package plan

import (
	"math"
	"strings"
	"testing"

	"swingwright/fact"
	"swingwright/opening"
	q "swingwright/quantity"
	"swingwright/swing"
)

func celsius(c float64) q.Measured[q.Temperature] {
	return q.Exactly(q.Celsius0 + q.Temperature(c))
}

// town is the trade's table: five outdoor temperatures, 21 °C indoors, calm.
func town() opening.Climate {
	c := opening.Climate{Indoors: celsius(21)}
	for _, m := range []struct {
		name     string
		outdoors float64
	}{{"January", -20}, {"March", -10}, {"April", 0}, {"May", 10}, {"July", 35}} {
		c.Months = append(c.Months, opening.Weather{Name: m.name, Outdoors: celsius(m.outdoors)})
	}
	return c
}

// street is the demo's way in from the street, with nothing stated of its air but
// how far below the neutral plane it lies.
func street(t testing.TB, below q.Length) (opening.Opening, *opening.Sheets) {
	t.Helper()
	j, _ := clinic(t)
	o := *demoOpening(t, j, "103")
	o.Air = opening.Air{Below: q.Exactly(below), SwingsOut: "no", Surveyed: celsius(18)}
	o.Operator = opening.Operator{}
	return o, &j.Sheets
}

// The trade's stack table at 10 m: 19 Pa at -20 °C and -5 Pa at 35 °C, as it rounds
// them; a leaf that swings out has them the other way round.
func TestExtremesAreThoseOfTheTradesTable(t *testing.T) {
	for _, c := range []struct {
		swings      opening.YesNo
		most, least float64
		coldest     string
	}{{"no", 19, -5, "stack in January"}, {"yes", 5, -19, "stack in July"}} {
		o, sheets := street(t, 10)
		o.Air.SwingsOut = c.swings
		p := Make(&o, sheets, nil, Options{Draws: 64, Climate: town()})
		r := p.Resolved
		if math.Abs(r.Most.Value-c.most) > 0.55 || math.Abs(r.Least.Value-c.least) > 0.55 {
			t.Errorf("swings out %s: %.2f to %.2f Pa, want about %g to %g", c.swings, r.Least.Value, r.Most.Value, c.least, c.most)
		}
		if !strings.Contains(r.Most.Source, c.coldest) || !r.Most.Weathered() {
			t.Errorf("swings out %s: the largest is from %q, want %q", c.swings, r.Most.Source, c.coldest)
		}
		if f := p.Facts[fact.PressureMost]; f.Origin != Computed || f.U != r.Most.U || f.Value != r.Most.Value {
			t.Errorf("the fact of the largest pressure is %+v", f)
		}
	}
}

// A height that is hardly known makes a pressure that is hardly known: 20 % of the
// height, when nothing is stated, are 20 % of the pressure.
func TestHeightAloneMakesTheSpread(t *testing.T) {
	o, sheets := street(t, 10)
	o.Air.Below = q.Measured[q.Length]{Value: 10, Known: true}
	r := Resolve(&o, sheets)
	c := town()
	r.weather(&o, &c)
	if want := belowShare * r.Most.Value; math.Abs(r.Most.U-want) > 1e-9 {
		t.Errorf("spread of %.3f Pa, want %.3f", r.Most.U, want)
	}
}

// The trade's wind: 20 mph press with 48 Pa at the whole stagnation pressure, of
// which a wall that faces it takes 0.8.
func TestWindAddsToTheCold(t *testing.T) {
	o, sheets := street(t, 10)
	o.Air.Wind = q.Exactly(20 * q.MilePerHour)
	c := town()
	with := Resolve(&o, sheets)
	with.weather(&o, &c)
	if want := 19 + 0.8*48.0; math.Abs(with.Most.Value-want) > 1 {
		t.Errorf("cold and wind: %.1f Pa, want about %.1f", with.Most.Value, want)
	}
	if with.Least.Value > -2 {
		t.Errorf("the calm of a hot month is left out: least %.1f Pa", with.Least.Value)
	}
	// wind alone needs no climate
	o.Air.Below = q.Measured[q.Length]{}
	alone := Resolve(&o, sheets)
	alone.weather(&o, &opening.Climate{})
	if want := 0.8 * 48.0; math.Abs(alone.Most.Value-want) > 0.5 || !strings.Contains(alone.Most.Source, "stack left out") {
		t.Errorf("wind alone: %.1f Pa from %q, want about %.1f", alone.Most.Value, alone.Most.Source, want)
	}
}

func TestStatedPressureOutranksTheWeather(t *testing.T) {
	o, sheets := street(t, 10)
	o.Air.Most = q.Exactly(7 * q.Pascal)
	c := town()
	r := Resolve(&o, sheets)
	r.weather(&o, &c)
	if r.Most.Value != 7 || r.Most.Source != surveyed {
		t.Errorf("largest %g Pa from %q, want the 7 stated", r.Most.Value, r.Most.Source)
	}
	if !r.Least.Weathered() {
		t.Error("the smallest, which nobody stated, is not from the weather")
	}
	o, _ = street(t, 10)
	o.Use.Place = "interior"
	r = Resolve(&o, sheets)
	r.weather(&o, &c)
	if r.Most != r.Rows[swing.Pressure] {
		t.Error("weather between two rooms")
	}
	o.Use.Place, o.Air.SwingsOut, o.Frame.Hand = "exterior", "", ""
	r = Resolve(&o, sheets)
	r.weather(&o, &c)
	if r.Most != r.Rows[swing.Pressure] {
		t.Error("weather on a leaf that swings nobody knows where")
	}
}

// The latch budget falls by the pressure's moment on the leaf and by no more: F·w/2
// of the trade, 14 Pa at -10 °C and 10 m, against the same leaf in still air.
func TestWeatherComesOffTheLatchBudget(t *testing.T) {
	o, sheets := street(t, 10)
	c := town()
	c.Months = c.Months[1:2]
	still := o
	still.Air.Below, still.Air.Usual = q.Measured[q.Length]{}, q.Exactly(q.Pressure(0))
	a, b := Make(&still, sheets, nil, Options{Draws: 64}), Make(&o, sheets, nil, Options{Draws: 64, Climate: c})
	m, err := b.Model()
	if err != nil {
		t.Fatal(err)
	}
	fell := a.Facts[fact.LatchMargin].Value - b.Facts[fact.LatchMargin].Value
	if want := 14.0 * float64(m.PressureMoment(q.Pascal)); math.Abs(fell/want-1) > 0.02 {
		t.Errorf("the budget falls by %.2f N·m, want about %.2f", fell, want)
	}
}
