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
	l := Leaf{Opens: 4, Hold: hold, Usable: 3, Closes: 5, Width: 3 * q.Foot}
	return &Traffic{Leaves: [2]Leaf{l, l}, Between: gap, Person: 4 * q.Foot, Near: 3 * q.Foot, Enters: 0.6, Speed: v}
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

// Where people can stand follows by hand: of 90 in, with a leaf of 36 in that swings
// in at B and a person of 48 in, 54 in are left before B's sweep.
func TestStandsClearOfBothLeaves(t *testing.T) {
	for _, c := range []struct {
		name           string
		gap            q.Length
		a, b           Swing
		before, short  q.Length
		moves          bool
		start, through q.Length // where people start, and how far their front goes until they are through
	}{
		{"not known", 90 * q.Inch, EitherWay, EitherWay, 36 * q.Inch, 30 * q.Inch, false, 0, 174 * q.Inch},
		{"both away, before A's doorway only", 90 * q.Inch, SwingsOut, SwingsOut, 36 * q.Inch, -42 * q.Inch, false, -36 * q.Inch, 174 * q.Inch},
		{"A swings in: moved up to B", 90 * q.Inch, SwingsIn, SwingsOut, 6 * q.Inch, -6 * q.Inch, true, 0, 174 * q.Inch},
		{"B swings in", 90 * q.Inch, SwingsOut, SwingsIn, 36 * q.Inch, -6 * q.Inch, false, -36 * q.Inch, 138 * q.Inch},
		{"both swing in: no room", 90 * q.Inch, SwingsIn, SwingsIn, 36 * q.Inch, 30 * q.Inch, false, 0, 138 * q.Inch},
		{"both swing in: room", 120 * q.Inch, SwingsIn, SwingsIn, 36 * q.Inch, 0, false, 0, 168 * q.Inch},
	} {
		x := usualTraffic(c.gap, 1, 5)
		x.Leaves[0].Swing, x.Leaves[1].Swing = c.a, c.b
		s := x.stand(0)
		for what, pair := range map[string][2]float64{
			"before": {float64(s.Before), float64(c.before)}, "short": {float64(s.Short), float64(c.short)},
			"start": {x.startsAt(0), float64(c.start)}, "through": {x.clearOf(0, 1), float64(c.through)},
		} {
			if math.Abs(pair[0]-pair[1]) > 1e-9 {
				t.Errorf("%s: %s %.4f m, want %.4f m", c.name, what, pair[0], pair[1])
			}
		}
		if s.MoveUp != c.moves {
			t.Errorf("%s: moves up: %v", c.name, s.MoveUp)
		}
	}
}

// In 90 in, with A's leaf swinging in and B late, somebody who stands 3 ft before B has
// A's leaf on them; where B is known to swing away they move up to it and are clear.
func TestMovesUpOutOfTheSweep(t *testing.T) {
	late := usualTraffic(90*q.Inch, 2*q.FootPerSecond, 1)
	for _, c := range []struct {
		a, b   Swing
		closes bool
	}{{EitherWay, EitherWay, true}, {SwingsIn, SwingsOut, false}, {SwingsIn, SwingsIn, true}} {
		late.Leaves[0].Swing, late.Leaves[1].Swing = c.a, c.b
		late.Leaves[1].Hold = 15
		ways, err := WalkAlone(&without(8).Wiring, lobbyDoors, late)
		if err != nil {
			t.Fatal(err)
		}
		if got := !(ways[0].Spare[0] >= 0); got != c.closes {
			t.Errorf("swings %v, %v: A closes on them: %v, %+v", c.a, c.b, got, ways[0])
		}
	}
}

// By hand: A is 0.6 open at 2.4 s and held until 4 + 5 = 9 s, and on the path at 12 s. To
// be clear of it, 7 ft at 2 ft/s, takes 3.5 s, so who comes in until 8.5 s is. B starts
// at 2 s, is open at 6 s, held until 11 s and shut at 16 s; people stop 3 ft before it, 9 ft
// from A, 4.5 s on the way, so who comes from about 6.5 s on finds it closing.
func TestSlipsIn(t *testing.T) {
	for _, c := range []struct {
		rig   *rig
		meets Exit
	}{{lobby(), ByPlate}, {without(2), ByHand}, {magnets(without(2)), NoExit}} {
		w, err := Walk(&c.rig.Wiring, lobbyDoors, usualTraffic(12*q.Foot, 2*q.FootPerSecond, 5))
		if err != nil {
			t.Fatal(err)
		}
		late := 0.
		if c.meets == NoExit {
			late = 0.8 // the drive waits for its magnet
		}
		i := slices.IndexFunc(w.Slips, func(s Slip) bool { return s.Behind && s.From == "A" })
		s := w.Slips[i]
		for what, pair := range map[string][2]float64{"until": {float64(s.Until), 9 + late}, "caught": {float64(s.Caught), 8.5 + late}, "shut": {float64(s.Shut), 6.5 + late}} {
			if math.Abs(pair[0]-pair[1]) > 0.35 {
				t.Errorf("exit %d: %s %.1f s, want %.1f s", c.meets, what, pair[0], pair[1])
			}
		}
		if s.Meets != c.meets || w.Broken(NotTrapped) != (c.meets == NoExit) {
			t.Errorf("they get out by %v, trapped %v; want %v", s.Meets, w.Broken(NotTrapped), c.meets)
		}
		if c.meets == NoExit {
			t.Log(w.Verdicts[0].Symptom, w.Verdicts[0].Story.Text())
		}
	}
}

// By hand: A starts at once, is open at 4 s, held 5 s and shut 6 s later; B 2 s after.
// Pressed again 2 s after A is open it is held 5 s from then.
func TestSequenceInTime(t *testing.T) {
	leaf := Times{Opens: 4, Hold: 5, Closes: 6}
	ps, err := Sequence(&lobby().Wiring, lobbyDoors, leaf, leaf)
	if err != nil {
		t.Fatal(err)
	}
	for when, lines := range map[string][]string{
		"Somebody outside presses plate out": {
			"After 2.0 s: to B picks up; drive B starts the leaf.", "After 4.0 s: the leaf of A stands fully open.",
			"After 6.0 s: the leaf of B stands fully open.", "After 9.0 s: the hold time ends; the leaf of A begins to close.",
			"After 15.0 s: the leaf of A is shut.", "After 17.0 s: the leaf of B is shut.", "At rest: leaf of A shut, leaf of B shut.",
		},
		"plate in is pressed again while the leaf is held open": {"After 5.0 s: the hold time ends; the leaf of B begins to close."},
		"The mains come on, with everything as it is left":      {"Nothing moves and nothing is released.", "At rest: leaf of A shut, leaf of B shut."},
	} {
		i := slices.IndexFunc(ps, func(p Passage) bool { return p.When == when })
		if i < 0 {
			t.Errorf("nothing is told of %q", when)
			continue
		}
		for _, line := range lines {
			if !slices.ContainsFunc(ps[i].Then, func(s string) bool { return sameWords(s, line) }) {
				t.Errorf("%s: no %q in %q", when, line, ps[i].Then)
			}
		}
	}
}

// sameWords tells sentences that say the same clauses, in whatever order.
func sameWords(a, b string) bool {
	clauses := func(s string) []string {
		_, said, found := strings.Cut(strings.TrimSuffix(s, "."), ": ")
		if !found {
			said = s
		}
		return slices.Sorted(slices.Values(strings.Split(said, "; ")))
	}
	return strings.SplitN(a, ":", 2)[0] == strings.SplitN(b, ":", 2)[0] && slices.Equal(clauses(a), clauses(b))
}
