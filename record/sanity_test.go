package record

import (
	"fmt"
	"testing"

	"swingwright/quantity"
	"swingwright/trace"
)

const deg = quantity.Degree

// plainCourse is the swing of the drift table: 3 s still, open to 90° in 5 s, hold
// 6 s, close to 10° in 5 s and to 0 in 2 s, 3 s still.
func plainCourse() *Course {
	var c Course
	return c.Rest(3).Trapezoid(trace.Opening, 90*deg, 5, 0.2).Rest(6).
		Trapezoid(trace.Sweep, 10*deg, 5, 0).Trapezoid(trace.Sweep, 0, 2, 0).Rest(3)
}

func TestSanity(t *testing.T) {
	c := plainCourse()
	data := Simulate(c, Options{Seed: 3, Rate: 60, NoiseDensity: 0.01 * quantity.AngularSpeed(deg), Bias: [3]quantity.AngularSpeed{0.003, 0.004, -0.005}, Rounding: 0.1 * quantity.AngularSpeed(deg)})
	fmt.Printf("%s\n", data[:400])
	rec, err := trace.Read("x.csv", data, nil)
	if err != nil {
		t.Fatal(err)
	}
	tr := rec.Analyse(trace.Settings{})
	for _, f := range tr.Faults {
		fmt.Println(f)
	}
	for _, s := range tr.Swings {
		fmt.Println(s.Kind)
		for _, f := range s.Faults {
			fmt.Println(f)
		}
		for _, p := range s.Phases {
			fmt.Println(p.Kind, p.From, p.To, p.Start/deg, p.End/deg)
		}
		for _, p := range c.Phases() {
			fmt.Println("   true", p.Kind, p.From, p.To, p.Start/deg, p.End/deg)
		}
		fmt.Println(s.Between(90*deg, 10*deg, true))
		fmt.Println(s.Between(80*deg, 10*deg, true), c.Between(80*deg, 10*deg, true))
		fmt.Print(s.Between(80*deg, 10*deg, true).Budget(quantity.SI))
		fmt.Print(s.Between(10*deg, 0, true).Budget(quantity.SI), c.Between(10*deg, 0, true), "\n")
		fmt.Print(s.TimeTo(80*deg).Budget(quantity.SI), c.Between(0, 80*deg, false), "\n")
		fmt.Print(s.HoldTime().Budget(quantity.SI), c.HoldTime(), "\n")
		fmt.Println(s.PeakRate(false), c.PeakRate(false)/quantity.AngularSpeed(deg), s.PeakRate(true), c.PeakRate(true)/quantity.AngularSpeed(deg), s.ImpactRate(), c.ImpactRate()/quantity.AngularSpeed(deg))
		fmt.Println(s.OpenAngle(), s.BackcheckAngle())
	}
}
