// Package judge holds a measured or reckoned value with its spread against a
// limit, and says no more than the spread allows.
//
// A value meets a limit when it keeps a guard band's distance on the good side,
// falls short when it is as far on the bad side, and is too close to call in
// between (JCGM 106:2012, clause 8; ISO 14253-1:2017; ILAC-G8:09/2019, 4.2.3).
// The guard band is the spread times a factor that the allowed risk of a wrong
// call sets. Which side is good decides its direction: a least time gets the
// band added, a greatest force gets it taken off.
//
// The functions reckon with pure numbers: value, limit, margin and spread of
// one call are in the same unit, whichever it is. A spread is a standard
// uncertainty (JCGM 100:2008, 2.3.1).
package judge
