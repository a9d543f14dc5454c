package record

import (
	"math"
	"testing"

	"swingwright/quantity"
	"swingwright/swing"
	"swingwright/trace"
)

// Backcheck is found where the model's begins, within what is said of it, on most
// leaves that are pushed open: many brake too gently to show. It is found on none
// without.
func TestBackcheckAngle(t *testing.T) {
	t.Parallel()
	var mv swing.Mover
	n, found, near, without, wrong := 0, 0, 0, 0, 0
	for seed := uint64(0); n < 100; seed++ {
		d := diceOf(seed)
		m, open := d.leaf(&mv)
		var c Course
		c.Rest(3)
		push := m.LargestHandMoment(0, open) + quantity.Torque(d.in(8, 25))
		if end := c.Push(&mv, &m, push, open); end.End != swing.Struck {
			continue
		}
		c.Rest(2)
		c.Close(&mv, &m)
		c.Rest(3)
		rec, err := trace.Read("simulated", Simulate(&c, d.recorder(seed)), nil)
		if err != nil {
			t.Fatal(err)
		}
		s := rec.Analyse(trace.Settings{}).Swings[0]
		r := s.BackcheckAngle()
		onset, _ := m.LeafAngle(quantity.Angle(m.Values()[swing.CheckZone]))
		if m.Values()[swing.CheckViscous] == 0 {
			if without++; r.Known {
				wrong++
			}
			continue
		}
		n++
		if !r.Known {
			continue
		}
		found++
		if math.Abs(float64(r.Value-onset)) < 1.96*float64(r.U) {
			near++
		}
	}
	if found < n/2 || near < found*9/10 {
		t.Errorf("of %d backchecks %d are found, %d of them where they are", n, found, near)
	}
	if without < 20 || wrong > 0 {
		t.Errorf("of %d leaves without backcheck %d show it", without, wrong)
	}
}
