package logic

import (
	"math"
	"slices"
	"strings"
	"testing"

	"swingwright/opening"
	q "swingwright/quantity"
)

// usualTraffic is a person in a wheelchair, 4 ft long, between doors so far apart
// that open in 4 s.
func usualTraffic(gap q.Length, v q.Speed, hold q.Time) *Traffic {
	l := LeafTimes{Opens: 4, Hold: hold, Usable: 3, Closes: 5}
	return &Traffic{Leaves: [2]LeafTimes{l, l}, Between: gap, Person: 4 * q.Foot, Clear: 3 * q.Foot, Near: 3 * q.Foot, Enters: 0.6, Speed: v}
}

var lobbyDoors = []Door{{ID: "A"}, {ID: "B"}}

// without is the lobby without the plate between, its second door so late.
func without(delay q.Time) *rig {
	r := lobby()
	r.remove("plate between")
	for _, name := range []string{"to A", "to B"} {
		r.set(name, func(d *opening.Device) { d.OnDelay = seconds(delay) })
	}
	return r
}

// magnets holds each door by a magnet that lets go while its drive starts, and
// for nobody who wants out by hand.
func magnets(r *rig) *rig {
	for _, d := range []string{"A", "B"} {
		name, drive := "magnet "+d, "drive "+d
		r.add(name, opening.Magnet, at(d))
		r.set(drive, func(d *opening.Device) { d.OnDelay = seconds(0.8) })
		r.join("supply.+", drive+".LOCK C")
		r.join(drive+".LOCK NC", name+".+")
		r.join("supply.-", name+".-")
	}
	return r
}

// The expected outcomes follow by hand from the times: with 24 ft at 1.5 ft/s a
// person is 3 ft before the second door 14 s after the first is 0.6 open (2.4 s) and
// clear of it 20.7 s after. With a delay of 10 s and a hold of 7 s the second door
// starts to close at 21 s, reaches the path at 24 s and is shut at 26 s. Somebody who
// presses as the relay is busy, until 10.5 s, and goes in at once through the open
// door is there at 24.4 s.
func TestWalk(t *testing.T) {
	for _, c := range []struct {
		name  string
		rig   *rig
		doors *Traffic
		broke []Rule
		deaf  string
	}{
		{"plate between, held long", lobby(), usualTraffic(12*q.Foot, 2*q.FootPerSecond, 15), nil, ""},
		{"held too short", lobby(), usualTraffic(12*q.Foot, 2*q.FootPerSecond, 1), []Rule{ClearOfLeaf}, ""},
		{"held too short for one person, and nothing between", without(2), usualTraffic(12*q.Foot, 2*q.FootPerSecond, 0), []Rule{BothServed, ClearOfLeaf}, ""},
		{"the second one is not heard", without(10), usualTraffic(24*q.Foot, 1.5*q.FootPerSecond, 7), []Rule{BothServed, ClearOfLeaf}, "was still busy"},
		{"nor can go by hand", magnets(without(10)), usualTraffic(24*q.Foot, 1.5*q.FootPerSecond, 7), []Rule{NotTrapped, BothServed, ClearOfLeaf}, "was still busy"},
	} {
		t.Run(c.name, func(t *testing.T) {
			w, err := Walk(&c.rig.Wiring, lobbyDoors, c.doors)
			if err != nil {
				t.Fatal(err)
			}
			t.Logf("%d runs to %v; %+v", w.Runs, w.Longest, w.Ways)
			var got []Rule
			for _, v := range w.Verdicts {
				if !v.Broken {
					continue
				}
				got = append(got, v.Rule)
				t.Logf("%s: %s\n  %s", v.Rule.Key(), v.Symptom, strings.Join(v.Story.Text(), "\n  "))
				if v.Rule == BothServed && !strings.Contains(v.Symptom, c.deaf) {
					t.Errorf("symptom %q, want %q in it", v.Symptom, c.deaf)
				}
				for _, s := range v.Story.Signals {
					if len(s.Levels) != v.Story.Events+1 {
						t.Errorf("signal %s has %d levels after %d events", s.Name, len(s.Levels), v.Story.Events)
					}
				}
			}
			if !slices.Equal(got, c.broke) {
				t.Errorf("broke %v, want %v", keys(got), keys(c.broke))
			}
		})
	}
}

// One person's times by hand: 0.6 of 4 s, then 12 + 3 + 4 ft at 2 ft/s are 11.9 s.
// A starts at 0, is open at 4 s, held 5 s and on the path 3 s later, at 12 s; the
// person is clear of it 2.4 s + 3.5 s after the press, 6.1 s before that. B starts
// 2 s later: 2.1 s are left there. A tick or two go by rounding.
func TestWalkAlone(t *testing.T) {
	w, err := Walk(&lobby().Wiring, lobbyDoors, usualTraffic(12*q.Foot, 2*q.FootPerSecond, 5))
	if err != nil {
		t.Fatal(err)
	}
	for _, way := range w.Ways {
		for what, pair := range map[string][2]q.Time{"time": {way.Time, 11.9}, "first": {way.Spare[0], 6.1}, "second": {way.Spare[1], 2.1}} {
			if math.Abs(float64(pair[0]-pair[1])) > 0.35 {
				t.Errorf("from %s: %s %v, want %v", way.From, what, pair[0], pair[1])
			}
		}
		if !way.Through || way.Asks || way.Wait != 0 {
			t.Errorf("%+v", way)
		}
	}
}

func TestWalkAsksForTimes(t *testing.T) {
	bad := usualTraffic(12*q.Foot, 0, 5)
	if _, err := Walk(&lobby().Wiring, lobbyDoors, bad); err == nil {
		t.Error("people who do not move were followed")
	}
	r := lobby()
	r.remove("plate out")
	if _, err := Walk(&r.Wiring, lobbyDoors, usualTraffic(12*q.Foot, 1, 5)); err == nil {
		t.Error("a way that nothing starts was followed")
	}
}

// A passage of the night counts from what is done in it, not from the evening
// before; and a plate that does nothing says so.
func TestSequenceCountsFromWhatIsDone(t *testing.T) {
	for _, c := range trials() {
		ps, err := Sequence(&c.rig.Wiring, c.doors)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range ps {
			for i, line := range p.Then {
				if strings.HasPrefix(line, "At once") && i > 0 {
					t.Errorf("%s, %s: %q", c.name, p.When, p.Then)
				}
				if i > 0 && !strings.HasPrefix(line, "Then") && strings.SplitN(line, ":", 2)[0] == strings.SplitN(p.Then[i-1], ":", 2)[0] {
					t.Errorf("%s, %s: the same time twice: %q", c.name, p.When, p.Then)
				}
			}
		}
	}
}
