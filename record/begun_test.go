package record

import (
	"os"
	"testing"

	"swingwright/quantity"
	"swingwright/swing"
	"swingwright/trace"
)

// A recording that begins with the leaf held open is recognised: it is read from its first
// closing on. Where hands open it that is nearly always so; a drive ends its opening as
// abruptly as the frame a closing, and then it is so for most. What begins with the leaf
// closed is hardly ever taken for one.
func TestRecordingBegunOpen(t *testing.T) {
	t.Parallel()
	var mv swing.Mover
	for name, driven := range map[string]bool{"by hand": false, "driven": true} {
		n, known, wrong, alarms := 0, 0, 0, 0
		for seed := range uint64(400) {
			d := diceOf(70_000 + seed)
			m, open := d.leaf(&mv)
			again := func(c *Course) bool {
				switch {
				case driven:
					return c.Drive(&mv, &m).End == swing.Opened
				case d.chance(0.5):
					c.Turn(trace.Opening, open, quantity.Time(d.in(1.5, 5)))
				default:
					c.Pushes(trace.Opening, open, quantity.Time(d.in(1.5, 5)), []float64{1, d.in(0.3, 1.5), d.in(0.1, 1)}, d.in(0.3, 0.9))
				}
				return true
			}
			var c Course
			c.Rest(3)
			if !again(&c) {
				continue
			}
			begins := c.Lasts()
			c.Rest(quantity.Time(d.in(2, 4)))
			if !c.Close(&mv, &m).End.Shut() {
				continue
			}
			c.Rest(quantity.Time(d.in(2, 4)))
			if !again(&c) {
				continue
			}
			c.Rest(quantity.Time(d.in(1, 6)))
			if seed%2 == 0 {
				if !c.Close(&mv, &m).End.Shut() {
					continue
				}
				c.Rest(quantity.Time(d.in(2, 4)))
			}
			n++
			late := c.After(begins)
			o := d.recorder(seed)
			tr := analyse(t, late, o)
			if told(tr, "begins with the leaf open") {
				known++
			}
			truth := late.Between(80*deg, 10*deg, true)
			for _, s := range tr.Swings {
				r := s.Between(80*deg, 10*deg, true)
				if s.Kind == trace.Full && r.Known && (r.Value < truth*9/10 || r.Value > truth*11/10) {
					wrong++
				}
			}
			if tr := analyse(t, &c, o); told(tr, "begins with the leaf open") {
				alarms++
			}
		}
		if os.Getenv("FIGURES") != "" {
			t.Logf("%s: of %d that began open %d were recognised, %d read the wrong way round; of as many that began closed %d were taken for such", name, n, known, wrong, alarms)
		}
		least := 0.95
		if driven { // both ends are abrupt, and a closing may be as even as a drive
			least = 0.7
		}
		if float64(known) < least*float64(n) || float64(alarms) > 0.01*float64(n)+1 {
			t.Errorf("%s: of %d that began open %d were recognised, %d read the wrong way round; of as many that began closed %d were taken for such", name, n, known, wrong, alarms)
		}
	}
}
