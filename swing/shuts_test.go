package swing

import (
	"testing"

	"pgregory.net/rapid"
	"swingwright/quantity"
)

// The short way agrees with following every closing.
func TestShutsFromAgreesWithFollowingEach(t *testing.T) {
	angles := []quantity.Angle{5 * quantity.Degree, 30 * quantity.Degree, 90 * quantity.Degree}
	shut := 0
	rapid.Check(t, func(t *rapid.T) {
		v, link := typical()
		v[SpringClosed] = rapid.Float64Range(3, 20).Draw(t, "spring")
		v[SpringRise] = rapid.Float64Range(-1, 4).Draw(t, "rise")
		v[CloserLoss] = rapid.Float64Range(0.05, 0.6).Draw(t, "loss")
		v[Pressure] = rapid.Float64Range(-20, 40).Draw(t, "pressure")
		v[BoltForce] = rapid.Float64Range(0, 30).Draw(t, "bolt")
		v[LeanAngle] = rapid.Float64Range(-0.02, 0.02).Draw(t, "lean")
		v[LeanAzimuth] = rapid.Float64Range(-3, 3).Draw(t, "azimuth")
		m, err := New(&v, link)
		if err != nil {
			t.Fatal(err)
		}
		var mv Mover
		var got [3]bool
		mv.ShutsFrom(&m, angles, got[:])
		for i, from := range angles {
			end := mv.Close(&m, from, nil).End
			if late := got[i] && end == TimedOut; got[i] != end.Shut() && !late {
				t.Errorf("from %.0f°: short way says %v, following ends %v", float64(from)/deg, got[i], end)
			} else if end.Shut() {
				shut++
			}
		}
	})
	if shut == 0 {
		t.Error("no leaf ever shut: the test shows nothing")
	}
}

// The chart gives the terms of the equation of motion between its nodes as
// solving the arm does: to 1e-4 of drive and ratio, and through a zone's border
// to 1 % of the resistance, which lasts a degree or two and averages out.
func TestChartAgreesWithTheEquation(t *testing.T) {
	v, link := typical()
	v[SweepOrifice], v[LatchOrifice] = 12, 40
	m, err := New(&v, link)
	if err != nil {
		t.Fatal(err)
	}
	m.chart.valves(&m)
	for theta := 0.0; theta < 92*deg; theta += 0.13 * deg {
		got := m.chart.read(theta)
		psi, n, _ := m.arm.Turn(theta)
		lambda := share(psi, m.v[LatchZone], m.v[Blend])
		for _, c := range []struct {
			name      string
			got, want float64
			within    float64
		}{
			{"n", got.n, n, 1e-4}, {"drive", got.drive, n * m.spring(psi), 1e-4}, {"breeze", got.breeze, m.breeze(theta), 1e-4},
			{"a", got.a, n * n * m.viscous(psi, lambda), 0.01}, {"b", got.b, n * n * n * m.orifice(lambda), 0.01},
		} {
			if d := (c.got - c.want) / c.want; d > c.within || d < -c.within {
				t.Errorf("%s at %.2f°: chart %g, equation %g", c.name, theta/deg, c.got, c.want)
			}
		}
	}
}
