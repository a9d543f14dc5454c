// Package quantity holds the typed SI quantities that the program reckons
// with, reads them as people write them on site, and prints them in the units
// that the reader chose.
//
// A quantity is a named float64 in the coherent SI unit: Length in metres,
// Force in newtons. Units are multiplied in and divided out:
//
//	width := 36 * quantity.Inch
//	inches := float64(width / quantity.Inch)
//
// A Measured is a quantity with its standard uncertainty; Parse reads one and
// Format prints it. Both take ± for an expanded uncertainty with coverage
// factor 2, as JCGM 100:2008, 7.2 has it, so "120 lb ± 5 lb" is a weight with
// a standard uncertainty of 2.5 lb.
//
// A pound (lb) is a mass here and a pound-force (lbf) a force; one written for
// the other is an error that says so, never a guess.
package quantity
