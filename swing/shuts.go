package swing

import (
	"math"

	"swingwright/quantity"
)

// ShutsFrom tells, for angles in rising order, whether the leaf let go at rest
// there shuts. Two closings of one leaf cannot cross in the plane of angle and
// rate: one that comes from farther out passes the smaller angle no slower than
// one that begins there at rest. So where the leaf shuts from an angle, it shuts
// from a larger one too, unless it could come to rest on the way, and it shuts from
// the first one where nothing can hold it anywhere below; only else is the closing
// followed, up to Limit. failed tells that one could not be. A leaf
// that shuts the short way does so sooner or later: it may take longer than Limit.
func (mv *Mover) ShutsFrom(m *Model, angles []quantity.Angle, shuts []bool) (failed bool) {
	shut, below := true, quantity.Angle(0)
	for i, from := range angles {
		if !shut || m.mayRest(below, from) {
			end := mv.Close(m, from, nil).End
			shut = end.Shut()
			failed = failed || end == Unfinished
		}
		shuts[i], below = shut, from
	}
	return failed
}

// surely is by which share of the spring's torque it must outdo all else for a leaf
// not to rest, between angles at which that was looked at; assumed.
const surely = 1e-3

// mayRest tells whether friction, air, seals, the bolt or an operator turned
// along could hold the leaf somewhere between two angles: it looks at the nodes of
// the chart between, at both ends, and where bolt and seals begin and cease to act.
func (m *Model) mayRest(from, to quantity.Angle) bool {
	lo, hi := float64(from), float64(to)
	if !m.chart.covers(hi) {
		return true
	}
	for i := math.Floor((lo-chartFrom)/chartStep) + 1; chartFrom+i*chartStep < hi; i++ {
		if m.mayHold(chartFrom + i*chartStep) {
			return true
		}
	}
	clears, meets, seals := m.v[BoltClears], m.v[BoltMeets], m.v[SealMeets]
	for _, theta := range [...]float64{lo, clears, math.Nextafter(clears, hi), meets, seals, hi} {
		if theta >= lo && theta <= hi && m.mayHold(theta) {
			return true
		}
	}
	return false
}

// mayHold tells whether the leaf, on its way to close, could rest at theta.
func (m *Model) mayHold(theta float64) bool {
	c := m.chart.read(theta)
	torque := c.breeze + m.push(theta) - c.drive*(1-m.v[CloserLoss]) + m.v[HingeFriction] + m.backDrive(theta)
	if theta > m.v[BoltClears] && theta <= m.v[BoltMeets] {
		torque += m.bolt
	}
	return !(torque < -surely*math.Abs(c.drive))
}
