// Package power reckons how a supply feeds the devices of an opening: what the
// wires take of its voltage in every moment of the sequence, whether the supply
// can give what is asked of it, how long a battery carries on, and how full a
// conduit is. It knows nothing of jobs and files.
//
// A supply and what it feeds are a [Tree]: runs of two conductors, out and back, and
// loads at their ends. Everything is direct current, or alternating current at a power
// factor of one, in which small low-voltage circuits are reckoned alike.
package power
