package swing

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"os/exec"
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

// askOpening hands cases to testdata/opening.py.
func askOpening(cases []driveCase) ([]refMotion, error) {
	if python() == "" {
		return nil, fmt.Errorf("no Python with SciPy found, which the reference runs need; install it (Debian: apt-get install python3-scipy) or pass -short to leave them out")
	}
	in, err := json.Marshal(map[string][]driveCase{"cases": cases})
	if err != nil {
		return nil, err
	}
	cmd := exec.Command(python(), "testdata/opening.py")
	cmd.Env = append(os.Environ(), "PYTHONDONTWRITEBYTECODE=1") // it reads closing.py
	cmd.Stdin, cmd.Stderr = bytes.NewReader(in), os.Stderr
	text, err := cmd.Output()
	if err != nil {
		return nil, fmt.Errorf("testdata/opening.py: %w", err)
	}
	var out struct{ Motions []refMotion }
	if err := json.Unmarshal(text, &out); err != nil {
		return nil, err
	}
	if len(out.Motions) != len(cases) {
		return nil, fmt.Errorf("testdata/opening.py returned %d motions of %d", len(out.Motions), len(cases))
	}
	return out.Motions, nil
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
	want, err := askOpening(cases)
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
				c.compare(t, &got, marks, &want[i], run.limits, &worst)
			}
			t.Logf("%d openings, %d by units, %d saturated beyond 70°; endings %v", len(cases), units, strained, ends)
			t.Logf("worst: %.4f ms, energy %.5f %%, angle %.6f°", worst.time*1e3, worst.energy*100, worst.angle/deg)
			if ends[Opened] < 40 || ends[Stalled] < 10 || units < 40 || units > 100 || strained < 10 {
				t.Error("too few of one sort; draw other operators")
			}
		})
	}
}

func (c *driveCase) compare(t *testing.T, got *Powered, marks []Mark, want *refMotion, allowed limits, worst *limits) {
	if got.End.String() != want.End {
		t.Errorf("opening %d: %v at %.3f° after %.3f s, SciPy: %s at %.3f° after %.3f s", c.seed,
			got.End, float64(got.Angle)/deg, got.Time, want.End, want.Angle/deg, want.Time)
		return
	}
	times := func(what string, got, want float64) {
		if math.IsNaN(got) && math.IsNaN(want) {
			return
		}
		off := math.Abs(got - want)
		if !(off <= allowed.time) {
			t.Errorf("opening %d: %s at %.5f s, SciPy: %.5f s", c.seed, what, got, want)
		}
		worst.time = max(worst.time, off)
	}
	for i, m := range marks {
		at := math.NaN()
		if want.Marks[i] != nil {
			at = *want.Marks[i]
		}
		times(fmt.Sprintf("%.0f°", float64(m.Angle)/deg), float64(m.Time), at)
	}
	if got.End == Opened {
		times("fully open", float64(got.Time), want.Time)
	}
	energy := math.Abs(float64(got.Energy) - want.Energy)
	if want.Energy > 0 {
		energy /= want.Energy
	}
	angle := math.Abs(float64(got.Angle) - want.Angle)
	if !(energy <= allowed.energy) || !(angle <= allowed.angle) {
		t.Errorf("opening %d: peak %.6g J, ends at %.5f°; SciPy: %.6g J, %.5f°", c.seed, got.Energy, float64(got.Angle)/deg, want.Energy, want.Angle/deg)
	}
	worst.energy, worst.angle = max(worst.energy, energy), max(worst.angle, angle)
}
