// Package logic proves what the wiring of an opening does. From the devices and
// the wires it makes a finite machine: contacts, coils and inputs are worked out
// electrically, from what is joined to what, and never from what a thing is
// called; time passes in ticks. It then follows every order in which people, the
// panel, the mains and time can act on it, and proves each rule of safety, or
// gives a shortest way to break it.
//
// The machine is taken apart for that. What an event does hangs on where
// everything stands and not on how far counters are that have yet to run, so it is
// worked out once for each such configuration; the states that are followed are
// the number of one, and its counters. What no rule can tell apart any more is made
// alike. Neither changes a verdict, or how few events break a rule; tests hold both
// against a search that makes nothing short, and against another model checker.
//
// What is taken for granted of the devices is common practice and is listed with
// the result: a drive takes a start while it has power, is enabled and hears no
// alarm; a lock follows its coil after its release time; a leaf that nobody
// drives is shut by its closer.
//
// Time. Delays, releases and pulses count in ticks, delays rounded down and
// releases up, so that rounding never hides a fault. How long a leaf opens, is
// held and closes is left free, and so is the rest of a pulse that outlasts
// everything that has to happen within it: whatever is proved holds for every
// such time.
package logic
