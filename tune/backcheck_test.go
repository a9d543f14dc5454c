package tune

import (
	"math"
	"testing"

	"swingwright/internal/ode"
	"swingwright/quantity"
	"swingwright/swing"
)

// pushed records a leaf pushed open with a constant moment that nobody knows.
func pushed(d *door, push, onset float64, check bool) Curve {
	v := d.turned(usual)
	v[swing.Pressure], v[swing.SealStiffness] = 0, 0
	m, _ := swing.New(&v, d.known.Link)
	psi, _, _ := m.Arm().Turn(onset)
	v[swing.CheckZone], v[swing.CheckViscous] = psi, 0
	if check {
		v[swing.CheckViscous] = 25
	}
	m, _ = swing.New(&v, d.known.Link)
	var segments []ode.Segment
	mv := swing.Mover{Watch: func(s *ode.Segment) { segments = append(segments, *s) }}
	end := mv.Open(&m, m.LargestHandMoment(0, 100*deg)+quantity.Torque(push), 0, 100*deg, nil)
	p := path{segments: segments, end: end}
	c := Curve{U: 0.1 * degree}
	for x := 0.0; x < float64(end.Time); x += 0.01 {
		c.T, c.Theta = append(c.T, x), append(c.Theta, p.at(x)+c.U*d.random.NormFloat64())
	}
	return c
}

// The onset comes out within three of its spreads, whatever the hand's strength; without
// backcheck, none does.
func TestBackcheckOnset(t *testing.T) {
	for seed, onset := range []float64{60 * degree, 65 * degree, 70 * degree, 75 * degree} {
		d := newDoor(uint64(seed))
		for _, push := range []float64{6, 10} {
			c := pushed(d, push, onset, true)
			at, u, err := BackcheckOnset(&c)
			if err != nil {
				t.Errorf("%g degrees, %g N·m: %v", onset/degree, push, err)
				continue
			}
			if off := math.Abs(float64(at)-onset) / float64(u); !(off < 3) {
				t.Errorf("%g degrees, %g N·m: found %.1f within %.1f", onset/degree, push, float64(at)/degree, float64(u)/degree)
			}
			t.Logf("%g degrees: %.1f within %.1f", onset/degree, float64(at)/degree, float64(u)/degree)
		}
		c := pushed(d, 8, onset, false)
		if at, _, err := BackcheckOnset(&c); err == nil {
			t.Errorf("without backcheck: %.1f degrees", float64(at)/degree)
		}
	}
	if _, _, err := BackcheckOnset(&Curve{}); err == nil {
		t.Error("an empty curve shows backcheck")
	}
	closing := newDoor(1).curve(usual, phone)
	if _, _, err := BackcheckOnset(&closing); err == nil {
		t.Error("a closing shows backcheck")
	}
}

// The strength of backcheck comes out within three of its spreads where the push was
// steady, whatever its strength; without backcheck, and of a hand that slackens, none does.
func TestBackcheckStrength(t *testing.T) {
	n, near, slack := 0, 0, 0
	for seed := range uint64(16) {
		d := newDoor(300 + seed)
		v := d.turned(usual)
		v[swing.Pressure], v[swing.SealStiffness], v[swing.CheckViscous] = 0, 0, 0
		onset := (60 + float64(seed%4)*5) * degree
		c := pushed(d, 6+float64(seed%3)*3, onset, true)
		got, err := Backcheck(&c, &v, d.known.Link)
		if err != nil {
			t.Logf("door %d: %v", seed, err)
			continue
		}
		n++
		z := math.Abs(float64(got.Viscous)-25) / float64(got.U)
		if z < 2 {
			near++
		}
		if !(z < 4) || math.Abs(float64(got.Onset)-onset) > 4*float64(got.OnsetU)+degree || !(math.Abs(float64(got.Correlation)) <= 1) {
			t.Errorf("door %d: %.1f within %.1f from %.1f°, want 25 from %.0f°", seed, float64(got.Viscous), float64(got.U), float64(got.Onset)/degree, onset/degree)
		}
		none := pushed(d, 8, onset, false)
		if got, err := Backcheck(&none, &v, d.known.Link); err == nil {
			t.Errorf("door %d without backcheck: %+v", seed, got)
		}
		// a hand that gathers and lets go, with the least jerk
		soft := Curve{U: 0.1 * degree}
		for x := 0.0; x < 1; x += 1.0 / 300 {
			soft.T = append(soft.T, 3*x)
			soft.Theta = append(soft.Theta, 95*degree*x*x*x*(10+x*(6*x-15))+soft.U*d.random.NormFloat64())
		}
		if _, err := Backcheck(&soft, &v, d.known.Link); err == nil {
			slack++
		}
	}
	t.Logf("told of %d of 16, %d within two spreads; of %d slackening hands", n, near, slack)
	if n < 12 || near < n*8/10 || slack > 0 {
		t.Errorf("told of %d of 16, %d within two spreads; of %d slackening hands", n, near, slack)
	}
}
