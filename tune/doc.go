// Package tune finds what a closer is like from how its leaf was seen to close, and what
// to turn so that everything demanded of the opening is kept.
//
// # The way of the data
//
// A [Record] holds what was measured at each [State] of the closer: curves of angle over
// time, laps, gauged forces, and whether the leaf latched. [Identify] fits the swing model
// to all of it at once, with what was [Known] before as pseudo-observations, and gives a
// [Fit]: every quantity with its covariance, the misfit, what was left out, and what the
// record cannot tell. [LearnValve] makes a valve's law of the resistances found at several
// turns. [Advise] looks for a set of turns that keeps all demands with the best margin,
// and foretells what it will come to. [Score] tells how good foretold times were.
//
// # What cannot be told
//
// A closing shows torque over resistance, and resistance over inertia in its first moment
// only. A spring and valves all a tenth stronger give the same curve. So torque and
// damping come apart only where a force is gauged or the leaf's inertia is trusted, and a
// Fit says so.
package tune
