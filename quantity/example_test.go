package quantity_test

import (
	"fmt"

	"swingwright/quantity"
)

func ExampleParse() {
	width, err := quantity.Parse[quantity.Length](`3'-0" ± 1/16"`)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(quantity.Format(width, quantity.SI))
	fmt.Println(quantity.Format(width, quantity.US))
	// Output:
	// 914.4 ± 1.6 mm
	// 36 ± 1/16 in
}

func ExampleParse_wrongUnit() {
	_, err := quantity.Parse[quantity.Force]("5 lb")
	fmt.Println(err)
	_, err = quantity.Parse[quantity.Length]("36")
	fmt.Println(err)
	// Output:
	// "5 lb" is not a force: lb is a mass; write lbf or N
	// "36" is not a length: it has no unit; write in, ft, mm, cm or m
}

func ExampleFormat() {
	weight := quantity.Give(120*quantity.Pound, 2.5*quantity.Pound)
	fmt.Println(quantity.Format(weight, quantity.US))
	fmt.Println(quantity.Format(weight, quantity.SI))
	fmt.Println(quantity.Format(quantity.Measured[quantity.Mass]{}, quantity.SI))
	// Output:
	// 120.0 ± 5.0 lb
	// 54.4 ± 2.3 kg
	// unknown
}

func ExampleFormatValue() {
	fmt.Println(quantity.FormatValue(3.5*quantity.Second, quantity.SI, 2))
	fmt.Println(quantity.FormatValue(35.75*quantity.Inch, quantity.US, -1))
	// Output:
	// 3.50 s
	// 35-3/4 in
}

func ExampleParseNominal() {
	width, height, err := quantity.ParseNominal("3070")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(float64(width/quantity.Inch), "x", float64(height/quantity.Inch), "in")
	// Output:
	// 36 x 84 in
}

func ExampleInUnit() {
	pounds, err := quantity.InUnit(quantity.DimMass, 56.69904625, "lb")
	fmt.Println(pounds, err)
	_, err = quantity.InUnit(quantity.DimMass, 56.69904625, "lbf")
	fmt.Println(err)
	// Output:
	// 125 <nil>
	// "lbf" is a unit of force, not of mass: use lb, oz, kg or g
}

func ExampleUnitFactor() {
	d, factor, offset, _ := quantity.UnitFactor("in")
	fmt.Println(d, factor, offset)
	d, factor, offset, _ = quantity.UnitFactor("°C")
	fmt.Println(d, factor, offset)
	// Output:
	// length 0.0254 0
	// temperature 1 273.15
}
