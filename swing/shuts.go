package swing

import "swingwright/quantity"

// ShutsFrom tells, for angles in rising order, whether the leaf let go at rest
// there shuts. Two closings of one leaf cannot cross in the plane of angle and
// rate: one that comes from farther out passes the smaller angle no slower than
// one that begins there at rest. So where the leaf shuts from an angle, it shuts
// from a larger one too, unless it could come to rest on the way; only then is
// the closing followed, up to Limit. failed tells that one could not be. A leaf
// that shuts the short way does so sooner or later: from the larger angle it may
// take longer than Limit.
func (mv *Mover) ShutsFrom(m *Model, angles []quantity.Angle, shuts []bool) (failed bool) {
	for i, from := range angles {
		if i > 0 && shuts[i-1] && !m.mayRest(angles[i-1], from) {
			shuts[i] = true
			continue
		}
		end := mv.Close(m, from, nil).End
		shuts[i] = end.Shut()
		failed = failed || end == Unfinished
	}
	return failed
}

// mayRest tells whether friction, air, seals or the bolt could hold the leaf
// somewhere between two angles, by the nodes of its chart.
func (m *Model) mayRest(from, to quantity.Angle) bool {
	c := &m.chart
	if !c.covers(float64(to)) || m.motor.coupled {
		return true
	}
	first := max(0, int((float64(from)-chartFrom)/chartStep))
	last := min(nodes-1, int((float64(to)-chartFrom)/chartStep)+1)
	for i := first; i <= last; i++ {
		theta := chartFrom + float64(i)*chartStep
		at := &c.node[i].at
		torque := at.breeze + m.push(theta) - at.drive + at.drive*m.v[CloserLoss] + m.v[HingeFriction]
		if theta > m.v[BoltClears] && theta <= m.v[BoltMeets] {
			torque += m.bolt
		}
		if !(torque < 0) {
			return true
		}
	}
	return false
}
