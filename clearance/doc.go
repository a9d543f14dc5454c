// Package clearance is the plan geometry of an opening: how far the leaf and
// all that rides on it can turn before something touches, how near things come,
// how wide the way through is, where to lay floor marks, what floor is left for
// the person who works the switch, and how long a cord across the hinges must be.
//
// Everything is seen from above. The hinge pin is the origin, the closed leaf
// lies along +x and swings toward +y, the pull side. A point of the leaf that
// is at p with the leaf closed is at R(θ)p with the leaf open by θ. A left-hand
// leaf is mirrored before it comes here. Lengths are metres and angles radians.
//
// Rules about these distances are data and live elsewhere; here they are only
// measured. Every result is a function of its arguments alone.
package clearance
