package swing

import (
	"fmt"
	"math"
	"testing"

	"swingwright/leaf"
	"swingwright/linkage"
	"swingwright/opening"
	"swingwright/quantity"
)

// An example compares a value of ours with one from outside the code.
type example struct {
	what       string
	unit       string
	ours, want float64 // in that unit
	within     float64 // what the printed value leaves open, in that unit
	source     string
}

const (
	inch = quantity.Inch
	lbf  = quantity.PoundForce
	inWG = quantity.InchOfWater
)

// hinged is a thin leaf hung on its edge, without anything else.
func hinged(width, height quantity.Length, mass quantity.Mass) Values {
	var v Values
	v[LeafWidth], v[LeafHeight], v[SlabMass], v[PressureFades] = float64(width), float64(height), float64(mass), 6*deg
	return v
}

// made is a model that cannot fail to be made.
func made(v Values, link Linkage) *Model {
	m, err := New(&v, link)
	if err != nil {
		panic(err)
	}
	return &m
}

// against is the moment that a pressure holding a leaf shut puts against a hand.
func against(width, height quantity.Length, dp quantity.Pressure) quantity.Torque {
	v := hinged(width, height, 1)
	v[Pressure] = -float64(dp)
	return made(v, Linkage{}).HandMoment(0)
}

// published are all examples, by heading of docs/validation.md.
func published() []section {
	return []section{
		{"Closing", closings()}, {"Kinetic energy", energies()}, {"Pressure on the leaf", pressures()},
		{"Arm", ratios()}, {"Closer", closers()}, {"Latch budget", budgets()}, {"Weight", weights()}, {"Oil", oils()},
	}
}

type section struct {
	title    string
	examples []example
}

func closings() []example {
	const source = "textbook exercise restated: 13.5 N·m closed, 50 N·m/rad, 100 N·m·s/rad, 90 kg·m², let go at 90°; overdamped closed form"
	v, link := plain(90)
	v[SpringClosed], v[SpringRise], v[SweepViscous], v[LatchViscous] = 13.5, 50, 100, 100
	var mv Mover
	got := mv.Close(made(v, link), 90*quantity.Degree, nil)
	return []example{
		{"time to close", "s", float64(got.Time), 3.420, 0.0005, source},
		{"rate at closed", "°/s", -float64(got.Rate) / deg, 17.5, 0.05, source},
	}
}

func energies() []example {
	const rule = "kinetic energy of an even slab, checked by hand against the limit of 1.25 lbf·ft (ANSI/BHMA A156.19)"
	energy := func(width quantity.Length, pounds, degrees, seconds float64) float64 {
		m := made(hinged(width, 1, quantity.Mass(pounds)*quantity.Pound), Linkage{})
		return float64(m.kinetic(degrees*deg/seconds) / quantity.FootPoundEnergy)
	}
	m := made(hinged(36*inch, 1, 150*quantity.Pound), Linkage{})
	peak := math.Sqrt(2*1.25*float64(quantity.FootPoundEnergy)/float64(m.Inertia())) / deg
	list := []example{
		{"36 in, 150 lb, 80° in 3.318 s", "lbf·ft", energy(36*inch, 150, 80, 3.318), 1.24, 0.006, rule},
		{"36 in, 150 lb, rate at 1.25 lbf·ft", "°/s", peak, 24.2, 0.05, rule},
		{"36 in, 120 lb, 10° in 1.5 s", "lbf·ft", energy(36*inch, 120, 10, 1.5), 0.076, 0.0005, "trade arithmetic, printed to 0.001"},
		{"36 in, 120 lb, 10° in 0.3 s", "lbf·ft", energy(36*inch, 120, 10, 0.3), 1.9, 0.05, "trade arithmetic, printed to 0.1"},
	}
	// Energies of 80° swept evenly in the minimum times of Table I.
	for _, row := range []struct {
		width quantity.Length
		times [5]float64
		want  [5]float64
	}{
		{30, [5]float64{3, 3, 3, 3, 3.5}, [5]float64{0.70, 0.88, 1.05, 1.23, 1.03}},
		{36, [5]float64{3, 3.5, 3.5, 4, 4}, [5]float64{1.01, 0.93, 1.11, 0.99, 1.14}},
		{42, [5]float64{3.5, 4, 4, 4.5, 4.5}, [5]float64{1.01, 0.97, 1.16, 1.07, 1.22}},
		{48, [5]float64{4, 4.5, 4.5, 5, 5.5}, [5]float64{1.01, 1.00, 1.20, 1.13, 1.07}},
	} {
		for i, t := range row.times {
			pounds := 100 + 25*float64(i)
			list = append(list, example{
				fmt.Sprintf("%.0f in, %.0f lb, 80° in %.1f s", float64(row.width), pounds, t), "lbf·ft",
				energy(row.width*inch, pounds, 80, t), row.want[i], 0.0051, "minimum times of ANSI/BHMA A156.19, Table I; energies by hand",
			})
		}
	}
	return list
}

func pressures() []example {
	const (
		ibc   = "International Building Code 909.6.2, Eq. 9-1"
		table = "largest pressure for 30 lbf on a 7 ft leaf, knob 3 in from the edge: table of the smoke-control manuals"
	)
	foot := func(x float64) quantity.Length { return quantity.Length(x) * quantity.Foot }
	e1 := DoorOpeningForce(9*lbf, foot(3), foot(7), 3*inch, 0.35*inWG)
	e2 := DoorOpeningForce(12*lbf, foot(3.60), foot(24.86/3.60), 3*inch, 0.20*inWG)
	list := []example{
		{"3 × 7 ft, closer 9 lbf, 0.35 in. w.g.", "lbf", float64(e1 / lbf), 29.85, 0.01, ibc + "; SFPE Handbook, ch. 50, Example 2"},
		{"the same in SI", "N", float64(e1), 132.8, 0.05, ibc + "; SFPE Handbook, ch. 50, Example 2"},
		{"3.60 ft, 24.86 ft², closer 12 lbf, 0.20 in. w.g.", "lbf", float64(e2 / lbf), 25.9, 0.05, ibc + "; calculation sheet, printed 26"},
		{"the same by the model", "lbf", float64(12 + HandForce(against(foot(3.60), foot(24.86/3.60), 0.20*inWG), foot(3.35))/lbf), 25.9, 0.05, ibc + "; calculation sheet, printed 26"},
		{"3 × 7 ft, overcome by 15 lbf 1 in from the edge", "Pa", 15 * float64(lbf) / float64(HandForce(against(foot(3), foot(7), 1), 35*inch)), 66.5, 0.05, "moment balance by hand"},
		{"0.95 × 2.10 m, moment per pascal", "N·m", float64(against(0.95, 2.10, 1)), 0.95, 0.005, "moment balance by hand"},
		{"0.95 × 2.10 m, force per pascal 75 mm from the edge", "N", float64(HandForce(against(0.95, 2.10, 1), 0.875)), 1.08, 0.005, "moment balance by hand"},
	}
	widths := [...]quantity.Length{32, 36, 40, 44, 48}
	for i, row := range [...][5]float64{
		{0.45, 0.40, 0.37, 0.34, 0.31},
		{0.41, 0.37, 0.34, 0.31, 0.28},
		{0.37, 0.34, 0.30, 0.28, 0.26},
		{0.34, 0.30, 0.27, 0.25, 0.23},
		{0.30, 0.27, 0.24, 0.22, 0.21},
	} {
		for k, want := range row {
			closer := 6 + 2*float64(i)
			perInch := float64(HandForce(against(widths[k]*inch, foot(7), inWG), (widths[k]-3)*inch) / lbf)
			list = append(list, example{
				fmt.Sprintf("%.0f in leaf, closer %.0f lbf", float64(widths[k]), closer), "in. w.g.",
				(30 - closer) / perInch, want, 0.0051, table,
			})
		}
	}
	return list
}

func ratios() []example {
	const source = "illustrative regular arm worked by hand: pinion (6.5, 2.25) in, shoe (12.5, 1) in, arms 11 and 10.47 in"
	var list []example
	for _, c := range []struct{ shoe, theta, want float64 }{
		{12.5, 0, 2.08}, {12.5, 10, 1.85}, {12.5, 30, 1.47}, {12.5, 60, 1.20}, {12.5, 90, 1.07}, {12.5, 110, 0.99},
		{11.5, 0, 2.22}, {11.5, 90, 1.01}, {13.5, 0, 1.97}, {13.5, 90, 1.13},
	} {
		arm, err := linkage.New(linkage.Spec{
			OnLeaf: true, Bend: 1, Main: 11 * inch, Fore: 10.47 * inch,
			Pinion: linkage.Point{X: 6.5 * inch, Y: 2.25 * inch}, Shoe: linkage.Point{X: quantity.Length(c.shoe) * inch, Y: inch},
		})
		if err != nil {
			panic(err)
		}
		_, n, _ := arm.At(quantity.Angle(c.theta) * quantity.Degree)
		list = append(list, example{fmt.Sprintf("ratio at %.0f°, shoe at %.1f in", c.theta, c.shoe), "", float64(n), c.want, 0.0051, source})
	}
	return list
}

func closers() []example {
	const (
		en1154 = "EN 1154:1996+A1:2002, Table 1, from memory"
		manual = "ADAAG Manual 4.13.11: closing is about 60 % efficient, 15 lbf to open leave 9 lbf to close"
	)
	g := ReadGauge(15*lbf, 9*lbf, 33.5*inch, 1.5, 0)
	open := 5 * lbf
	spring := quantity.Torque(float64(open)*float64(33.5*inch)) / quantity.Torque(1+LossOfEfficiency(0.6)) // n = 1
	list := []example{
		{"efficiency gauged from 15 and 9 lbf", "", float64((1 - g.Loss) / (1 + g.Loss)), 0.60, 1e-9, manual},
		{"loss at that efficiency", "", float64(LossOfEfficiency(0.6)), float64(g.Loss), 1e-9, manual},
		{"closing moment where 5 lbf open at 33.5 in, 60 %", "N·m", float64(spring) * (1 - float64(LossOfEfficiency(0.6))), 11.4, 0.05, "trade arithmetic, printed to 0.1"},
	}
	// The largest opening moment is the band's upper end over the least
	// efficiency, and a band begins where the last one ends.
	for i, efficiency := range [...]float64{0.50, 0.50, 0.55, 0.60, 0.65, 0.65, 0.65} {
		size := quantity.Ratio(i + 1)
		_, high, err := SizeBand(size)
		if err != nil {
			panic(err)
		}
		list = append(list, example{
			fmt.Sprintf("size %d: upper closing moment over least efficiency", i+1), "N·m",
			float64(high) / efficiency, float64(sizes[i].Opening), 0.5, en1154,
		})
		if size < 7 {
			next, _, _ := SizeBand(size + 1)
			list = append(list, example{fmt.Sprintf("size %d ends where size %d begins", i+1, i+2), "N·m", float64(high), float64(next), 1e-9, en1154})
		}
	}
	return list
}

// budgets are the latch budgets of an opening worked end to end: forces at the
// edge of a 35-3/4 × 83-3/4 in leaf, with a closer whose arm turns with the leaf.
func budgets() []example {
	const source = "opening worked end to end by hand, forces at the latch edge printed to 0.1 lbf"
	margin := func(closer, latch, seal float64, dp quantity.Pressure) float64 {
		v, link := plain(1)
		v[LeafWidth], v[LeafHeight] = float64(35.75*inch), float64(83.75*inch)
		edge := v[LeafWidth] * float64(lbf)
		v[SpringClosed], v[BoltForce], v[BoltRadius] = closer*edge, latch*float64(lbf), v[LeafWidth]
		v[SealMeets], v[HingeFriction], v[Pressure] = 1*deg, 0.6*edge, float64(dp)
		v[SealStiffness] = seal * edge / v[SealMeets]
		return float64(HandForce(made(v, link).BudgetAt(5*quantity.Degree).Margin(), 35.75*inch) / lbf)
	}
	return []example{
		{"closer 4.4, latch 1.5, seal 1.2, friction 0.6", "lbf", margin(4.4, 1.5, 1.2, 0), 1.1, 0.051, source},
		{"the same, closer 5.4", "lbf", margin(5.4, 1.5, 1.2, 0), 2.1, 0.051, source},
		{"closer 4.4, air 3 Pa against it", "lbf", margin(4.4, 1.5, 1.2, 3), 0.4, 0.1, source},
		{"latch 1.0 and seal 0.8 repaired", "lbf", margin(4.4, 1.0, 0.8, 3), 1.3, 0.1, source},
		{"and closer 5.2", "lbf", margin(5.2, 1.0, 0.8, 3), 2.1, 0.1, source},
		{"in winter, 14 Pa", "lbf", margin(5.2, 1.0, 0.8, 14), -0.2, 0.1, source},
	}
}

func weights() []example {
	const (
		push  = "free push worked by hand: 36 in leaf, 60° at 33 in; time printed to 0.01 s, 1 % of the mass"
		faces = "two faces of the least thickness of ANSI/SDI A250.8 (2023, read second-hand), by hand"
		glass = "trade tables of glass weights, for nominal inches"
	)
	pounds := func(i quantity.Inertia, width quantity.Length) float64 {
		return float64(leaf.EquivalentMass(i, width) / quantity.Pound)
	}
	v := hinged(35.75*inch, 1, 120*quantity.Pound)
	before := made(v, Linkage{}).Inertia()
	x := float64(8 * inch)
	v[AttachedMass] = 15 * float64(quantity.Pound)
	v[AttachedInertia] = v[AttachedMass] * x * x
	after := made(v, Linkage{}).Inertia()
	areal := func(m opening.Material, inches float64, count int) float64 {
		a, _, err := leaf.Areal(opening.Layer{Material: m, Thickness: quantity.Exactly(quantity.Length(inches) * inch), Count: count})
		if err != nil {
			panic(err)
		}
		return float64(a.Value) / (0.45359237 / (0.3048 * 0.3048))
	}
	return []example{
		{"2.0 lbf for 2.06 s", "lb", pounds(leaf.InPlace(2*lbf, 33*inch, 60*quantity.Degree, 2.06), 36*inch), 120, 1.2, push},
		{"1.5 lbf for 2.38 s", "lb", pounds(leaf.InPlace(1.5*lbf, 33*inch, 60*quantity.Degree, 2.38), 36*inch), 120, 1.2, push},
		{"15 lb unit 8 in from the hinge of a 35-3/4 in leaf adds", "lb", pounds(after-before, 35.75*inch), 2.3, 0.05, "trade arithmetic, 3·W·(x/D)²"},
		{"3-0 × 7-0 by the rule of size", "lb", float64(leaf.ByRule(36*inch, 84*inch) / quantity.Pound), 120, 0.5, "common practice, about 120 lb"},
		{"steel, 20 gauge faces", "lb/ft²", areal("steel", 0.032, 2), 2.61, 0.005, faces},
		{"steel, 18 gauge faces", "lb/ft²", areal("steel", 0.042, 2), 3.43, 0.005, faces},
		{"steel, 16 gauge faces", "lb/ft²", areal("steel", 0.053, 2), 4.33, 0.005, faces},
		{"steel, 14 gauge faces", "lb/ft²", areal("steel", 0.067, 2), 5.47, 0.005, faces},
		{"glass, 1/4 in", "lb/ft²", areal("glass", 1./4, 1), 3.27, 0.025, glass},
		{"glass, 1/2 in", "lb/ft²", areal("glass", 1./2, 1), 6.54, 0.045, glass},
		{"glass, 6 mm", "lb/ft²", areal("glass", 6/25.4, 1), 3.07, 0.005, glass},
	}
}

// oils check ASTM D341 by what its form says: at the geometric mean of the two
// temperatures ln(ν + 0.7) is the geometric mean of its values there. The pair is
// that of ISO VG 32 (ISO 3448: 32 mm²/s at 40 °C) with 5.4 mm²/s at 100 °C, a
// common value, from memory.
func oils() []example {
	const source = "closed form of the line of ASTM D341"
	at := func(t quantity.Temperature) float64 {
		nu, err := OilViscosity(32e-6, 5.4e-6, t)
		if err != nil {
			panic(err)
		}
		return float64(nu) * 1e6
	}
	t40, t100 := float64(quantity.Celsius0+40), float64(quantity.Celsius0+100)
	mean := quantity.Temperature(math.Sqrt(t40 * t100))
	// and at T40²/T100 the logarithm is that at 40 °C squared over that at 100 °C
	cold := quantity.Temperature(t40 * t40 / t100)
	a, b := math.Log(32.7), math.Log(6.1)
	return []example{
		{"at 40 °C", "mm²/s", at(quantity.Celsius0 + 40), 32, 1e-9, source},
		{"at 100 °C", "mm²/s", at(quantity.Celsius0 + 100), 5.4, 1e-9, source},
		{"at 68.7 °C, the geometric mean", "mm²/s", at(mean), math.Exp(math.Sqrt(a*b)) - 0.7, 1e-9, source},
		{"at −10.4 °C, as far below", "mm²/s", at(cold), math.Exp(a*a/b) - 0.7, 1e-9, source},
	}
}

func TestPublishedValues(t *testing.T) {
	for _, s := range published() {
		for _, c := range s.examples {
			if !(math.Abs(c.ours-c.want) <= c.within) {
				t.Errorf("%s, %s: %.6g %s, want %.6g within %.2g (%s)", s.title, c.what, c.ours, c.unit, c.want, c.within, c.source)
			}
		}
	}
}
