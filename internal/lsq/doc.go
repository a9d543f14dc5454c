// Package lsq fits parameters to observations by least squares: damped Gauss-Newton steps
// (Levenberg, Quart. Appl. Math. 2 (1944) 164-168; Marquardt, J. SIAM 11 (1963) 431-441)
// within bounds, with losses that outliers cannot drag along, and tells how well the
// observations determine the parameters.
//
// Parameters are given and returned in their own units. Inside, one that is marked Log is
// reckoned with by its logarithm, and so are its steps, its spread and its covariances:
// those of a logarithm are shares of the value.
//
// Residuals are misfits over their standard uncertainty, pure numbers. The same problem
// gives the same bits.
package lsq
