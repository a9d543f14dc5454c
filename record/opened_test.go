package record

import (
	"math"
	"os"
	"testing"

	"swingwright/quantity"
	"swingwright/swing"
	"swingwright/trace"
)

// opens lets a random leaf be opened by a random hand, or driven: every other seed each.
// It reports false where the leaf does not get there.
func (d dice) opens(mv *swing.Mover, seed uint64, c *Course) (want trace.By, ok bool) {
	m, open := d.leaf(mv)
	c.Rest(quantity.Time(d.in(2, 4)))
	lasts := quantity.Time(d.in(1.5, 6))
	want = trace.ByHand
	switch {
	case seed%2 == 0:
		want = trace.ByPower
		if c.Drive(mv, &m).End != swing.Opened {
			return want, false
		}
	case d.chance(0.4):
		c.Turn(trace.Opening, open, lasts)
	case d.chance(0.8):
		shares := []float64{1, d.in(0.3, 1.5)}
		for d.chance(0.5) {
			shares = append(shares, d.in(0.3, 1.5))
		}
		c.Pushes(trace.Opening, open, lasts, shares, d.in(0.3, 0.9))
	default: // a steady push until it is open
		m := m
		if c.Push(mv, &m, m.LargestHandMoment(0, open)+quantity.Torque(d.in(4, 25)), open).End != swing.Struck {
			return want, false
		}
	}
	c.Rest(quantity.Time(d.in(2, 6)))
	if !c.Close(mv, &m).End.Shut() {
		return want, false
	}
	c.Rest(quantity.Time(d.in(2, 4)))
	return want, true
}

// Who opened the leaf is told of most recordings, by hand and driven, and wrongly of
// hardly any; as often as it says that it is sure, it is right. These seeds are not those
// that the odds were fitted to.
func TestWhoOpenedIsTold(t *testing.T) {
	t.Parallel()
	var mv swing.Mover
	var n, told [3]int
	wrong, all := 0, 0
	doubt := 0.0
	for seed := range uint64(600) {
		d := diceOf(90_000 + seed)
		var c Course
		want, ok := d.opens(&mv, seed, &c)
		if !ok {
			continue
		}
		rec, err := trace.Read("simulated", Simulate(&c, d.recorder(seed)), nil)
		if err != nil {
			t.Fatal(err)
		}
		tr := rec.Analyse(trace.Settings{})
		if len(tr.Swings) != 1 || tr.Swings[0].Kind != trace.Full {
			continue
		}
		got := tr.Swings[0].OpenedBy()
		n[want]++
		all++
		if got.By == trace.NotTold {
			if got.Why == "" || got.Sure != 0 {
				t.Errorf("recording %d: %+v", seed, got)
			}
			continue
		}
		told[want]++
		doubt += 1 - float64(got.Sure)
		if got.By != want {
			wrong++
			t.Logf("recording %d was opened %v, told is %v with %.3f", seed, want, got.By, float64(got.Sure))
		}
	}
	if os.Getenv("FIGURES") != "" {
		t.Logf("told of %d of %d by hand and %d of %d driven, %d wrong; %.1f were to be expected by what is said", told[trace.ByHand], n[trace.ByHand], told[trace.ByPower], n[trace.ByPower], wrong, doubt)
	}
	if float64(wrong) > 0.01*float64(all) {
		t.Errorf("%d of %d are told wrongly", wrong, all)
	}
	if told[trace.ByHand] < n[trace.ByHand]*6/10 || told[trace.ByPower] < n[trace.ByPower]*6/10 {
		t.Errorf("told of %d of %d by hand and %d of %d driven only", told[trace.ByHand], n[trace.ByHand], told[trace.ByPower], n[trace.ByPower])
	}
	if math.Abs(float64(wrong)-doubt) > 3*math.Sqrt(doubt+1)+2 {
		t.Errorf("%d are wrong, %.1f were to be expected", wrong, doubt)
	}
}
