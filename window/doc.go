// Package window finds the spring settings at which one opening satisfies
// everything asked of it at once, or tells which demands exclude each other, by
// how much, and what change would let them agree. It also follows one setting
// through the months of a year.
//
// # What is reckoned
//
// A demand is a limit on what the leaf does at a spring setting q and valve
// resistances (a_S, a_L). The window is every q within the closer's marked powers
// for which some pair of resistances within the valves' range satisfies all
// demands. Four facts make it an interval with edges that bisection finds:
//
//   - a stronger spring asks more of a hand and gives more closing moment, at
//     every angle;
//   - more resistance in either valve makes the leaf slower at every angle, since
//     closings of one leaf do not cross in the plane of angle and rate: least times
//     and greatest energies are kept by all resistances above some, latching and
//     greatest times by all below some;
//   - so the least resistances that keep the slow demands are the best for the
//     quick ones, and only they need be tried;
//   - with the resistances so matched, a stronger spring latches the better.
//
// The first follows from the spring, which [Question.Check] asks to rise with the
// setting; the second from the equation of motion; the last is held by a property
// test. Of the pairs of least resistances the one of the trade is taken: the sweep
// valve keeps the demands that lie for the most part above the latch zone, the
// latch valve the others (order of work: spring, sweep, latch; common practice). A
// valve that cannot give enough leaves its demands to the other one.
//
// A mark that the leaf never passes counts as passed infinitely late: a least time
// to it is kept, a greatest one is not.
package window
