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
// the first one where nothing can hold it anywhere below. And where it comes to rest
// from farther out, it does not shut from an angle it had passed. Only else is the
// closing followed, up to Limit. failed tells that one could not be. A leaf
// that shuts the short way does so sooner or later: it may take longer than Limit.
func (mv *Mover) ShutsFrom(m *Model, angles []quantity.Angle, shuts []bool) (failed bool) {
	follow := func(from quantity.Angle) Motion {
		out := mv.Close(m, from, nil)
		failed = failed || out.End == Unfinished
		return out
	}
	var top Motion // from the largest angle, followed where that tells of one between
	shut, below, last := true, quantity.Angle(0), len(angles)-1
	for i, from := range angles {
		switch {
		case shut && !m.mayRest(below, from):
			shut = true
		case i == 0:
			shut = follow(from).End.Shut()
		default:
			if top.From == 0 {
				top = follow(angles[last])
			}
			if shut = top.End.Shut(); i < last && (top.End != RestsOpen || top.Angle >= from) {
				shut = follow(from).End.Shut()
			}
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
	for i := int((lo-chartFrom)/chartStep) + 1; chartFrom+float64(i)*chartStep < hi; i++ {
		if at := &m.chart.node[i].at; m.mayHold(chartFrom+float64(i)*chartStep, at.breeze, at.drive) {
			return true
		}
	}
	clears, meets, seals := m.v[BoltClears], m.v[BoltMeets], m.v[SealMeets]
	for _, theta := range [...]float64{lo, clears, math.Nextafter(clears, hi), meets, seals, hi} {
		if theta >= lo && theta <= hi {
			if at := m.chart.read(theta); m.mayHold(theta, at.breeze, at.drive) {
				return true
			}
		}
	}
	return false
}

// mayHold tells whether the leaf, on its way to close, could rest at theta, where
// air and plumb put breeze on it and the closer drive, N·m.
func (m *Model) mayHold(theta, breeze, drive float64) bool {
	torque := breeze + m.push(theta) - drive*(1-m.v[CloserLoss]) + m.v[HingeFriction] + m.backDrive(theta)
	if theta > m.v[BoltClears] && theta <= m.v[BoltMeets] {
		torque += m.bolt
	}
	return !(torque < -surely*math.Abs(drive))
}
