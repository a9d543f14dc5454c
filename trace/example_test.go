package trace_test

import (
	"fmt"

	"swingwright/quantity"
	"swingwright/record"
	"swingwright/trace"
)

// A swing of a phone taped to the leaf in any attitude, with the chord of the open
// leaf measured by tape.
func Example() {
	const deg = quantity.Degree
	var c record.Course
	c.Rest(3).Turn(trace.Opening, 95*deg, 4).Rest(5).
		Trapezoid(trace.Sweep, 12*deg, 5, 0.1).Trapezoid(trace.Sweep, 0, 3, 0.1).Rest(3)
	file := record.Simulate(&c, record.Options{
		Seed: 1, Rate: 60, NoiseDensity: 1.5e-4, Bias: [3]quantity.AngularSpeed{0.01, -0.01, 0.02}, Scale: 0.01,
	})

	rec, err := trace.Read("door.csv", file, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	t := rec.Analyse(trace.Settings{
		Chord: quantity.Give[quantity.Length](1.327, 0.003), Radius: quantity.Exactly[quantity.Length](0.9),
	})
	for _, s := range t.Swings {
		fmt.Println(s.Kind)
		for _, p := range s.Phases {
			fmt.Printf("%4.1f s to %4.1f s: %v\n", float64(p.From), float64(p.To), p.Kind)
		}
		fmt.Println("80° to 10°:", s.Between(80*deg, 10*deg, true))
		fmt.Print(s.Between(80*deg, 10*deg, true).Budget(quantity.SI))
		fmt.Println("peak energy:", s.PeakEnergy(quantity.Give[quantity.Inertia](17, 0.5), true))
		fmt.Println("100° to 10°:", s.Between(100*deg, 10*deg, true))
	}
	// Output:
	// full swing
	//  0.0 s to  3.1 s: rest
	//  3.1 s to  6.9 s: opening
	//  6.9 s to 12.0 s: held
	// 12.0 s to 16.8 s: sweep
	// 16.8 s to 20.0 s: latch zone
	// 20.0 s to 23.0 s: closed
	// 80° to 10°: 4.536 ± 0.013 s
	// gyro noise                               0.0018 s
	// scale, by the measured open angle        0.0063 s
	// bias                                     0.0005 s
	// closure: leftover spread evenly          0.0004 s
	// sampling                                 0.0000 s
	// standard uncertainty                     0.0065 s
	// value ± expanded uncertainty (k = 2)     4.536 ± 0.013 s
	// peak energy: 0.889 ± 0.054 J
	// 100° to 10°: not measured: the closing that ends the swing does not pass 100.0°
}
