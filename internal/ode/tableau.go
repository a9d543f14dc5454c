package ode

// The coefficients of Dormand and Prince's pair (HNW table II.5.2). The last
// row of a is the weights of the fifth-order solution, so that the last stage
// of a step is the first of the next.
const (
	c2 = 1. / 5
	c3 = 3. / 10
	c4 = 4. / 5
	c5 = 8. / 9

	a21 = 1. / 5
	a31 = 3. / 40
	a32 = 9. / 40
	a41 = 44. / 45
	a42 = -56. / 15
	a43 = 32. / 9
	a51 = 19372. / 6561
	a52 = -25360. / 2187
	a53 = 64448. / 6561
	a54 = -212. / 729
	a61 = 9017. / 3168
	a62 = -355. / 33
	a63 = 46732. / 5247
	a64 = 49. / 176
	a65 = -5103. / 18656
	a71 = 35. / 384
	a73 = 500. / 1113
	a74 = 125. / 192
	a75 = -2187. / 6784
	a76 = 11. / 84

	// Fifth-order weights less fourth-order weights: the error estimate.
	e1 = 71. / 57600
	e3 = -71. / 16695
	e4 = 71. / 1920
	e5 = -17253. / 339200
	e6 = 22. / 525
	e7 = -1. / 40
)
