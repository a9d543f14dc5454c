package window

import (
	"math"
	"strings"
	"testing"

	"swingwright/quantity"
	"swingwright/swing"
	"swingwright/weather"
)

func celsius(c float64) quantity.Temperature {
	return quantity.Celsius0 + quantity.Temperature(c)
}

// year is an entrance 5 m below the neutral plane, swinging inward, its closer
// near outdoor temperature; the oil's viscosities and temperatures are invented.
func year() Year {
	y := Year{
		At40: 15e-6, At100: 5e-6, Reference: celsius(20), Peak: 1.69, Impact: 0.6,
		From: []quantity.Angle{5 * deg, 90 * deg},
	}
	for _, m := range []struct {
		name     string
		outdoors float64
	}{{"January", -12}, {"March", 0}, {"May", 14}, {"July", 30}, {"September", 18}, {"November", 3}} {
		y.Months = append(y.Months, Month{
			Name: m.name, Outdoors: celsius(m.outdoors), Indoors: celsius(21), Below: 5, Oil: celsius((m.outdoors + 21) / 2),
		})
	}
	return y
}

// Every month's pressure is the stack's, the published formula restated here, and
// its oil thickens as ASTM D341 has it, tabled for 15 and 5 mm²/s by hand.
func TestAirOfTheMonths(t *testing.T) {
	y := year()
	air, err := y.Air()
	if err != nil {
		t.Fatal(err)
	}
	for i, m := range y.Months {
		want := 3460 * (1/float64(m.Outdoors) - 1/294.15) * 5
		if got := float64(air[i].Pressure); math.Abs(got-want) > 1e-9 {
			t.Errorf("%s: %g Pa, want %g", m.Name, got, want)
		}
	}
	if !(air[0].Oil > 1.3 && air[3].Oil < 1) {
		t.Errorf("oil in January %g, in July %g times that at 20 °C", float64(air[0].Oil), float64(air[3].Oil))
	}
	known := quantity.Pressure(7)
	y.Months[0].Known, y.Months[0].Wind, y.Months[0].Face, y.Outward = &known, 5, weather.Windward, true
	air, _ = y.Air()
	if got, want := float64(air[0].Pressure), -(7 + 0.8*0.6*25); math.Abs(got-want) > 1e-9 {
		t.Errorf("own pressure and wind on a leaf that swings outward: %g Pa, want %g", got, want)
	}
}

// A setting that serves the warm months stays open in the cold ones: the trade's
// "works in summer, not in winter".
func TestForecastOfAWeakSpring(t *testing.T) {
	ask, y := typical(), year()
	ask.Demands = ask.Demands[5:]
	var f Finder
	out, err := f.Forecast(&ask, &y, 1.75, 17, 22)
	if err != nil {
		t.Fatal(err)
	}
	got := map[string]Outcome{}
	for _, m := range out {
		got[m.Month] = m.Outcome
		if m.Outcome == StaysOpen && !(m.Rests > 0) {
			t.Errorf("%s stays open at no angle", m.Month)
		}
	}
	if got["January"] != StaysOpen || got["July"] != Latches {
		t.Errorf("forecast %v", got)
	}
	// With the valves wide open it slams in summer.
	out, _ = f.Forecast(&ask, &y, 4, 4, 6)
	if out[3].Outcome != Slams {
		t.Errorf("valves wide open in July: %v", out[3].Outcome)
	}
}

// A year that a setting can serve is served in every month; the forecast follows
// each month's motions anew.
func TestCompromiseForTheWholeYear(t *testing.T) {
	ask, y := typical(), year()
	ask.Demands[0].Limit, ask.Demands[1].Limit = 100, 100
	var f Finder
	c, err := f.Compromise(&ask, &y)
	if err != nil {
		t.Fatal(err)
	}
	if !c.All || c.Good != len(y.Months) {
		t.Errorf("%d good months at %.3f, all demands kept: %v", c.Good, float64(c.Power.Setting), c.All)
	}
	for i := range ask.Demands {
		if d := &ask.Demands[i]; !keptAt(t, &exact, &ask, d, c.Power.Setting, c.Sweep, c.Latch) {
			t.Errorf("%s is not kept", d.Name)
		}
	}
}

// Where no setting serves all year, none of a fine row of others serves more
// months.
func TestCompromiseWithALightHand(t *testing.T) {
	ask, y := typical(), year()
	ask.Demands[1].Limit = float64(5 * quantity.PoundForce)
	ask.Demands = ask.Demands[:9:9]
	ask.Demands = append(ask.Demands[:2:2], ask.Demands[5:]...)
	var f Finder
	c, err := f.Compromise(&ask, &y)
	if err != nil {
		t.Fatal(err)
	}
	if c.All || c.Good == 0 || c.Good == len(y.Months) {
		t.Fatalf("%d good months, all: %v; the test wants a year that is partly served", c.Good, c.All)
	}
	most := 0
	f.begin(&ask)
	s := setOf(ask.Demands)
	top := f.narrowed(ask.settings(), s, s.still, f.stillGood).High
	for k := range 50 {
		q := 1 + (top-1)*quantity.Ratio(k)/49
		least := f.decide(s, q, make([]bool, len(s.demands)), true)
		out, err := f.Forecast(&ask, &y, q, quantity.Damping(math.Exp(least[0])), quantity.Damping(math.Exp(least[1])))
		if err != nil {
			t.Fatal(err)
		}
		good := 0
		for _, m := range out {
			if m.Outcome == Latches {
				good++
			}
		}
		most = max(most, good)
	}
	if c.Good < most {
		t.Errorf("%d good months; another setting has %d", c.Good, most)
	}
}

func TestMiddle(t *testing.T) {
	var all []Compromise
	for _, good := range []int{3, 5, 2, 5, 5, 5, 1} {
		all = append(all, Compromise{Good: good})
	}
	if got := middle(all); got != 4 {
		t.Errorf("got %d, want 4, the middle of the longest run", got)
	}
}

func TestYearCollectsProblems(t *testing.T) {
	y := year()
	y.Months[1].Outdoors = -5 // degrees for kelvins
	y.Months[3].Wind, y.Months[3].Face = quantity.Speed(math.NaN()), 1
	y.From, y.Peak = nil, -1
	_, err := y.Demands()
	for _, part := range []string{"March: outdoors", "July: pressure", "no angle", "energies"} {
		if err == nil || !strings.Contains(err.Error(), part) {
			t.Errorf("the problem with %s is not told: %v", part, err)
		}
	}
	y = year()
	y.At100 = 20e-6
	if _, err := y.Demands(); err == nil || !strings.Contains(err.Error(), "oil") {
		t.Errorf("thinner when cold: %v", err)
	}
	var f Finder
	ask, good := typical(), year()
	if _, err := f.Forecast(&ask, &good, 3, 0, 20); err == nil || !strings.Contains(err.Error(), "sweep valve") {
		t.Errorf("a sweep valve without resistance: %v", err)
	}
	ask.Values[swing.MainArm] = 0
	if _, err := f.Compromise(&ask, &y); err == nil {
		t.Error("an arm of no length was taken")
	}
}

// What a hand feels of a month is the closer's moment and the month's pressure on
// the leaf; where that is more than it may be the month is too hard, whatever the
// leaf does else. A limit of a newton less than the force is missed by a newton.
func TestForecastOfAHand(t *testing.T) {
	ask, y := typical(), year()
	y.Outward = true // the cold pushes the leaf shut
	push := Demand{Name: "push", Kind: HandForce, At: 0.85, To: 90 * deg, Limit: 1e4}
	y.Pushes = []Demand{push}
	var f Finder
	out, err := f.Forecast(&ask, &y, 2.5, 17, 22)
	if err != nil {
		t.Fatal(err)
	}
	values := ask.Values
	p := ask.Spring.At(2.5)
	values[swing.SpringClosed], values[swing.SpringRise] = float64(p.Closed), float64(p.Rise)
	m, err := swing.New(&values, ask.Link)
	if err != nil {
		t.Fatal(err)
	}
	m.SetAir(float64(out[0].Air.Pressure), 1)
	want := swing.HandForce(m.LargestHandMoment(0, 90*deg), 0.85)
	if math.Abs(float64(out[0].Hand-want)) > 1e-9 || out[0].Hard {
		t.Errorf("January: %g N, want %g; too hard: %v", float64(out[0].Hand), float64(want), out[0].Hard)
	}
	y.Pushes[0].Limit = float64(want) - 1
	if out, err = f.Forecast(&ask, &y, 2.5, 17, 22); err != nil || out[0].Outcome != TooHard || math.Abs(float64(out[0].Spare)+1) > 1e-9 {
		t.Errorf("a newton over its limit: %v, %v with %g N to spare", err, out[0].Outcome, float64(out[0].Spare))
	}
	demands, err := y.Demands()
	if err != nil {
		t.Fatal(err)
	}
	last := demands[len(demands)-1]
	if air, _ := y.Air(); last.Name != "November: push" || last.Pressure != air[len(air)-1].Pressure {
		t.Errorf("the year asks %q at %g Pa", last.Name, float64(last.Pressure))
	}
	y.Pushes[0].Kind = LeastTime
	if _, err := y.Air(); err == nil || !strings.Contains(err.Error(), "only forces by hand") {
		t.Errorf("a time asked of the months as a push: %v", err)
	}
}

// An oil that nobody knows flows alike in every month.
func TestUnknownOilStaysAsItIs(t *testing.T) {
	y := year()
	y.At40, y.At100 = 0, 0
	air, err := y.Air()
	if err != nil {
		t.Fatal(err)
	}
	for i, a := range air {
		if a.Oil != 1 {
			t.Errorf("%s: %g times as thick", y.Months[i].Name, float64(a.Oil))
		}
	}
}
