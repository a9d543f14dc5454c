package author

import (
	"math"
	"testing"

	"swingwright/fact"
	"swingwright/quantity"
	"swingwright/rulebook"
)

// Numbers worked out apart from this program, from the published formulas and
// constants; each is held against a formula as a book would have it.
func TestWorkedNumbers(t *testing.T) {
	c, err := plainChecker()
	if err != nil {
		t.Fatal(err)
	}
	inch, pound, lbf := float64(quantity.Inch), float64(quantity.Pound), float64(quantity.PoundForce)
	for _, v := range []struct {
		name, formula string
		facts         map[fact.ID]float64
		want, within  float64
	}{
		{"low energy time, 36 in and 125 lb", "in_inches(leaf.width) * sqrt(in_pounds(leaf.mass)) / 133",
			map[fact.ID]float64{fact.LeafWidth: 36 * inch, fact.LeafMass: 125 * pound}, 3.03, 0.005},
		{"low energy time, 48 in and 200 lb", "in_inches(leaf.width) * sqrt(in_pounds(leaf.mass)) / 133",
			map[fact.ID]float64{fact.LeafWidth: 48 * inch, fact.LeafMass: 200 * pound}, 5.10, 0.005},
		{"the SI constant is the stricter", "in_millimetres(leaf.width) * sqrt(in_kilograms(leaf.mass)) / 2260",
			map[fact.ID]float64{fact.LeafWidth: 0.914, fact.LeafMass: 56.7}, 3.045, 0.0005},
		{"the same leaf in US units", "in_inches(leaf.width) * sqrt(in_pounds(leaf.mass)) / 133",
			map[fact.ID]float64{fact.LeafWidth: 0.914, fact.LeafMass: 56.7}, 3.025, 0.0005},
		{"full power time, 48 in and 200 lb", "in_inches(leaf.width) * sqrt(in_pounds(leaf.mass)) / 188",
			map[fact.ID]float64{fact.LeafWidth: 48 * inch, fact.LeafMass: 200 * pound}, 3.61, 0.005},
		{"5 lbf at 30 in, felt at 35 in", "in_pounds_force(hand.to_open / inches(35))",
			map[fact.ID]float64{fact.HandToOpen: 5 * lbf * 30 * inch}, 4.29, 0.005},
		{"30 N at 0.926 m is a moment", "in_newton_metres(newtons(30) * metres(0.926))", nil, 27.8, 0.05},
		{"efficiency that 30 N asks of 18 N·m at 0.926 m", "newton_metres(18) / (newtons(30) * metres(0.926))", nil, 0.65, 0.005},
		{"1.25 lbf·ft", "in_joules(foot_pounds_energy(1.25))", nil, 1.695, 0.0005},
		{"28 lbf·in", "in_newton_metres(inch_pounds(28))", nil, 3.15, 0.02},
		{"8.5 lbf", "in_newtons(pounds_force(8.5))", nil, 37.8, 0.05},
		{"0.35 in. w.g.", "in_pascals(inches_of_water(0.35))", nil, 87.18, 0.005},
	} {
		e, complaints := c.compile(v.formula, nil)
		if len(complaints) > 0 {
			t.Errorf("%s: %v", v.name, complaints)
			continue
		}
		env := rulebook.NewEnv()
		for id, x := range v.facts {
			env[id] = x
		}
		if got, in := rulebook.Eval(e, env); in.State != rulebook.Known || math.Abs(got-v.want) > v.within {
			t.Errorf("%s: %v (%v), worked out %v", v.name, got, in.State, v.want)
		}
	}
}

// A leaf exactly at a printed size compares equal with it, however either was written.
func TestSizesOnPaperCompareEqual(t *testing.T) {
	c, err := plainChecker()
	if err != nil {
		t.Fatal(err)
	}
	for _, written := range []string{"36 in", `3'-0"`, "914.4 mm", "0.9144 m", "3 ft"} {
		width, _, _, err := quantity.ParseAs(quantity.DimLength, written)
		if err != nil {
			t.Fatal(err)
		}
		env := rulebook.NewEnv()
		env[fact.LeafWidth] = width
		for _, size := range []string{"inches(36)", "feet(3)", "millimetres(914.4)", "metres(0.9144)"} {
			e, complaints := c.compile("leaf.width <= "+size+" && leaf.width >= "+size, yesNo)
			if len(complaints) > 0 {
				t.Fatal(complaints)
			}
			if v, _ := rulebook.Eval(e, env); v != 1 {
				t.Errorf("%s is not %s", written, size)
			}
		}
	}
}

// A stricter limit under sure must be at least as strict as the limit itself, on any opening.
func TestSureIsAtLeastAsStrict(t *testing.T) {
	for _, b := range books(t) {
		for i := range b.Rules {
			r := &b.Rules[i]
			if r.Sure == nil {
				continue
			}
			for width := 26.0; width <= 50; width += 0.25 {
				for weight := 80.0; weight <= 220; weight += 2.5 {
					env := rulebook.NewEnv()
					env[fact.LeafWidth], env[fact.LeafMass] = width*float64(quantity.Inch), weight*float64(quantity.Pound)
					env[fact.PoweredBackcheckFrom] = 1.3
					limit, _ := rulebook.Eval(r.Limit, env)
					if sure, in := rulebook.Eval(r.Sure, env); in.State == rulebook.Known && sure < limit {
						t.Fatalf("%s %s, %v in, %v lb: sure %v, limit %v", b.ID, r.ID, width, weight, sure, limit)
					}
				}
			}
		}
	}
}
