package swing

import (
	"testing"

	"swingwright/quantity"
)

// A driveCase is one opening as testdata/opening.py reads it.
type driveCase struct {
	refCase
	Own       bool `json:"own"`
	OwnTrack  bool `json:"own_track"`
	OwnOnLeaf bool `json:"own_on_leaf"`
	OwnBend   int  `json:"own_bend"`
}

// driveCases are 140 openings under power, some begun by a push of the hand,
// some with a hand that helps or hinders.
func driveCases() ([]driveCase, error) {
	var cases []driveCase
	for seed := range uint64(140) {
		m, op, err := randomDriven(seed)
		if err != nil {
			return nil, err
		}
		d := diceOf(seed + 9000)
		c := driveCase{refCase: refOf(m, seed), Own: op.Own, OwnTrack: op.Track, OwnOnLeaf: op.OnLeaf, OwnBend: op.Bend}
		c.From, c.Marks = 0, []float64{10 * deg, 60 * deg, 80 * deg, 90 * deg}
		if d.chance(0.2) {
			c.From = d.in(2, 8) * deg
		}
		switch {
		case d.chance(0.1):
			c.Push = d.in(30, 60)
		case d.chance(0.2):
			c.Push = d.in(-25, 15)
		}
		cases = append(cases, c)
	}
	return cases, nil
}

// Random openings under power agree with an independent program in the time of
// every mark, the peak energy, the ending and where it is: with the chart and the
// usual steps as well as without.
func TestOpeningsAgreeWithSciPy(t *testing.T) {
	if testing.Short() {
		t.Skip("the reference runs take a minute")
	}
	cases, err := driveCases()
	if err != nil {
		t.Fatal(err)
	}
	want, err := motionsBySciPy("testdata/opening.py", cases)
	if err != nil {
		t.Fatal(err)
	}
	for _, run := range []struct {
		name  string
		exact bool
		limits
	}{{"usual", false, limits{2e-3, 1e-3, 0.05 * deg}}, {"exact", true, limits{2e-5, 1e-6, 0.001 * deg}}} {
		t.Run(run.name, func(t *testing.T) {
			mv := Mover{Exact: run.exact}
			ends, units, strained, worst := map[End]int{}, 0, 0, limits{}
			for i := range cases {
				c := &cases[i]
				marks := make([]Mark, len(c.Marks))
				for k, a := range c.Marks {
					marks[k].Angle = quantity.Angle(a)
				}
				got := mv.Drive(&c.model, quantity.Torque(c.Push), quantity.Angle(c.From), marks)
				ends[got.End]++
				if c.Own {
					units++
				}
				if got.Strain.Saturated {
					strained++
				}
				if got.End == Opened { // the end of an opening is timed too
					marks = append(marks, Mark{got.Angle, got.Time})
					want[i].Marks = append(want[i].Marks[:len(c.Marks)], &want[i].Time)
				}
				off, problems := run.apart(&got.Motion, marks, &want[i])
				worst = worst.worst(off)
				for _, p := range problems {
					t.Errorf("opening %d: %s", c.seed, p)
				}
			}
			t.Logf("%d openings, %d by units, %d saturated beyond 70°; endings %v", len(cases), units, strained, ends)
			t.Logf("worst: %.4f ms, energy %.5f %%, angle %.6f°", worst.time*1e3, worst.energy*100, worst.angle/deg)
			if ends[Opened] < 40 || ends[Stalled] < 10 || units < 40 || units > 100 || strained < 10 {
				t.Error("too few of one sort; draw other operators")
			}
		})
	}
}
