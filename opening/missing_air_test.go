package opening_test

import (
	"slices"
	"strings"
	"testing"

	"swingwright/opening"
	q "swingwright/quantity"
)

func place() opening.Climate {
	return opening.Climate{Months: []opening.Weather{{Name: "January", Outdoors: q.Exactly(q.Celsius0 - 10)}}}
}

func fields(gaps []opening.Gap) (names []string) {
	for _, g := range gaps {
		if g.Why == "" || g.How == "" {
			names = append(names, g.Field+" without why or how")
			continue
		}
		names = append(names, g.Field)
	}
	return names
}

// What the weather's pressure takes in is the climate, the height, the wind and
// the way the leaf swings; each is missed where it lacks, at a door to the outdoors.
func TestMissingAir(t *testing.T) {
	for _, c := range []struct {
		name string
		edit func(o *opening.Opening, c *opening.Climate)
		want []string
	}{
		{"nothing but a place", func(o *opening.Opening, c *opening.Climate) {}, []string{"air.below_neutral", "air.wind", "air.swings_out"}},
		{"its hand tells the swing", func(o *opening.Opening, c *opening.Climate) { o.Frame.Hand = "RHR" }, []string{"air.below_neutral", "air.wind"}},
		{"the months tell the wind", func(o *opening.Opening, c *opening.Climate) { c.Months[0].Wind = q.Exactly(q.Speed(5)) }, []string{"air.below_neutral", "air.swings_out"}},
		{"whole", func(o *opening.Opening, c *opening.Climate) {
			o.Air = opening.Air{Below: q.Exactly(q.Length(5)), Wind: q.Exactly(q.Speed(5)), SwingsOut: "no"}
		}, nil},
		{"height without a climate", func(o *opening.Opening, c *opening.Climate) { o.Air.Below, c.Months = q.Exactly(q.Length(5)), nil }, []string{"climate.months"}},
		{"nobody asks for the weather", func(o *opening.Opening, c *opening.Climate) { c.Months = nil }, nil},
		{"between two rooms", func(o *opening.Opening, c *opening.Climate) { o.Use.Place = "interior" }, nil},
	} {
		o, climate := opening.Opening{Use: opening.Use{Place: "exterior"}}, place()
		c.edit(&o, &climate)
		if got := fields(opening.MissingAir(&o, &climate)); !slices.Equal(got, c.want) {
			t.Errorf("%s: missed %q, want %q", c.name, got, c.want)
		}
	}
}

// A reverse hand is seen from the outside to swing toward the viewer: outward.
func TestSwingsOut(t *testing.T) {
	for _, c := range []struct {
		stated     opening.YesNo
		hand       opening.Hand
		out, known bool
	}{{"", "RHR", true, true}, {"", "LH", false, true}, {"no", "RHR", false, true}, {"yes", "", true, true}, {"", "", false, false}} {
		o := opening.Opening{Frame: opening.Frame{Hand: c.hand}, Air: opening.Air{SwingsOut: c.stated}}
		if out, known := o.SwingsOut(); out != c.out || known != c.known {
			t.Errorf("stated %q, hand %q: %v, %v", c.stated, c.hand, out, known)
		}
	}
}

func TestImplausibleAir(t *testing.T) {
	ordinary := opening.Opening{Use: opening.Use{Place: "exterior"}, Frame: opening.Frame{Hand: "RHR"},
		Air: opening.Air{Below: q.Exactly(q.Length(6)), Wind: q.Exactly(q.Speed(6)), SwingsOut: "yes"}}
	if d := opening.Implausible(&ordinary); len(d) > 0 {
		t.Errorf("an ordinary door is doubted: %v", d)
	}
	for field, edit := range map[string]func(o *opening.Opening){
		"air.swings_out":     func(o *opening.Opening) { o.Air.SwingsOut = "no" },
		"air.wind":           func(o *opening.Opening) { o.Air.Wind = q.Exactly(q.Speed(60)) },
		"air.below_neutral":  func(o *opening.Opening) { o.Air.Below = q.Exactly(q.Length(600)) },
		"use.place":          func(o *opening.Opening) { o.Use.Place = "interior" },
		"air.pressure_least": func(o *opening.Opening) { o.Air.Most, o.Air.Least = q.Exactly(q.Pressure(2)), q.Exactly(q.Pressure(9)) },
	} {
		o := ordinary
		edit(&o)
		if d := opening.Implausible(&o); !slices.ContainsFunc(d, func(d opening.Doubt) bool { return d.Field == field }) {
			t.Errorf("%s: not doubted: %v", field, d)
		}
	}
	hot := place()
	hot.Months[0].Outdoors, hot.Indoors = q.Exactly(q.Temperature(20)), q.Exactly(q.Celsius0+70)
	if d := opening.ImplausibleClimate(&hot); len(d) != 2 || !strings.Contains(d[1].String(), "climate.months[0].outdoors") {
		t.Errorf("20 K outdoors and 70 °C indoors: %v", d)
	}
	fair := place()
	if d := opening.ImplausibleClimate(&fair); len(d) > 0 {
		t.Errorf("a fair climate is doubted: %v", d)
	}
}

func TestMissingOfGroup(t *testing.T) {
	for _, c := range []struct {
		group opening.Group
		want  []string
	}{
		{opening.Group{Kind: opening.Pair}, []string{"opens", "astragal", "coordinator", "vertical_rods"}},
		{opening.Group{Kind: opening.Pair, Opens: "together", Overlaps: "yes", Coordinator: "yes", Rods: "no"}, []string{"close_after", "stagger"}},
		{opening.Group{Kind: opening.Vestibule}, []string{"between", "swings_in", "delay", "actuator_inside"}},
		{opening.Group{Kind: opening.Vestibule, Between: q.Exactly(q.Length(3)), SwingsIn: q.Exactly(q.Length(0)), Inside: "yes"}, nil},
		{opening.Group{Kind: opening.DoubleEgress}, nil},
	} {
		if got := fields(opening.MissingOfGroup(&c.group)); !slices.Equal(got, c.want) {
			t.Errorf("%+v: missed %q, want %q", c.group, got, c.want)
		}
	}
}

func TestImplausibleGroup(t *testing.T) {
	g := opening.Group{Kind: opening.Vestibule, Between: q.Exactly(2 * q.Metre), SwingsIn: q.Exactly(0.9 * q.Metre), Delay: q.Exactly(q.Time(3))}
	if d := opening.ImplausibleGroup(&g); len(d) > 0 {
		t.Errorf("an ordinary vestibule is doubted: %v", d)
	}
	g.Between, g.Delay = q.Exactly(0.8*q.Metre), q.Exactly(q.Time(60))
	if d := opening.ImplausibleGroup(&g); len(d) != 2 && len(d) != 3 {
		t.Errorf("a leaf wider than the room, and a minute of delay: %v", d)
	}
	p := opening.Group{Kind: opening.Pair, Coordinator: "yes", Overlaps: "no"}
	if d := opening.ImplausibleGroup(&p); len(d) != 1 {
		t.Errorf("a coordinator for nothing: %v", d)
	}
}
