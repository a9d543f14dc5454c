package swing

import (
	"math"

	"swingwright/linkage"
)

// sines are sine and cosine of the angles of a chart's and a course's nodes.
var sines = func() (table [courseNodes]struct{ sin, cos float64 }) {
	for i := range table {
		table[i].sin, table[i].cos = math.Sincos(chartFrom + float64(i)*chartStep)
	}
	return table
}()

// closedNode is the node of the closed leaf.
const closedNode = 3

// turned is the pinion's turn from one node to the next, rad, from the ratio n at
// the node before these, at both, and at the one after: the integral of the cubic through
// them, off by 11/720 of the step's fifth power times n's fourth derivative
// (Adams, Moulton; Hairer, Nørsett, Wanner, III.1).
func turned(before, from, to, after float64) float64 {
	return chartStep / 24 * (13*(from+to) - before - after)
}

// smooth tells that the ratio changes little from one node to the next: an arm near the end of
// its reach is nothing for a chart. Beyond it n is not a number.
func smooth(before, n float64) bool { return math.Abs(n-before) < 0.1*math.Abs(n) }

// ratioAt is the ratio of an arm at a node, NaN out of reach.
func ratioAt(a *linkage.Arm, i int) float64 {
	n, _ := a.RatioAt(sines[i].sin, sines[i].cos)
	return n
}
