// Package ode follows the motion of one turning body whose acceleration is
// known from time, angle and rate, and finds the moments at which something
// happens on the way.
//
// A [Solver] takes steps with the explicit Runge-Kutta pair of orders 5 and 4
// of Dormand and Prince, and where that is stiff with the Rosenbrock method RODAS;
// a [Segment] is one such step with the curve inside it,
// and is where crossings are looked for. Motions with breaks (a valve opens, a
// stop is met) are made of phases: run one smooth phase up to its crossing,
// take the state there, and [Solver.Start] the next.
//
// The curve is not the pair's own free interpolant (HNW II.6) but the quintic
// through angle, rate and acceleration at both ends, which a body's equation
// gives for nothing. It is of the same order and about as exact, its rate is
// the derivative of its angle, and a polynomial of one piece can be searched
// for crossings without missing any.
//
// The package is a numeric kernel and knows no doors: its numbers are plain
// float64 in SI, time in seconds, angle in radians, rate in radians per second,
// acceleration in radians per second squared.
//
// Sources: Dormand, Prince, "A family of embedded Runge-Kutta formulae",
// J. Comput. Appl. Math. 6 (1980) 19-26; Hairer, Nørsett, Wanner, "Solving
// Ordinary Differential Equations I", 2nd revised edition, 1993, cited below as
// HNW, and the same, volume II, cited as HW.
package ode
