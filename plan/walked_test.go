package plan

import (
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"swingwright/job"
	"swingwright/judge"
	"swingwright/logic"
	"swingwright/opening"
	q "swingwright/quantity"
	"swingwright/transit"
)

// followedThrough is the demonstration's, changed.
func followedThrough(t *testing.T, change func(g *opening.Group, of []*opening.Opening)) *Wired {
	t.Helper()
	j, err := job.Decode(os.DirFS("../demo/harbour-street-clinic"), "job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	g := &j.Groups[slices.IndexFunc(j.Groups, func(g opening.Group) bool { return g.ID == "street vestibule" })]
	var of []*opening.Opening
	for _, id := range g.Of {
		of = append(of, demoOpening(t, j, id))
	}
	if change != nil {
		change(g, of)
	}
	var members []*Member
	for _, o := range of {
		members = append(members, Make(o, &j.Sheets, nil, Options{Draws: 64}).Member(&j.Sheets))
	}
	few := logic.Effort{States: 1000, Tick: 0.5} // the proof is not the matter here
	w := WireGroup(g, of, &j.Sheets, few, judge.Policy{}, members...)
	if w.Problem != nil {
		t.Fatal(w.Problem)
	}
	return w
}

func seconds(t q.Time) q.Measured[q.Time] { return q.Exactly(t) }

// delayed sets the relays that start the second door, and what the group says of it.
func delayed(relays, says q.Time) func(g *opening.Group, of []*opening.Opening) {
	return func(g *opening.Group, of []*opening.Opening) {
		for _, name := range []string{"then 103", "then 106"} {
			g.Wiring.Device(name).OnDelay = seconds(relays)
		}
		g.Delay = seconds(says)
	}
}

// The demonstration's vestibule passes, and each fault that it might have had is told
// as what it is.
func TestPeopleAreFollowedThroughTheStreetVestibule(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(g *opening.Group, of []*opening.Opening)
		broke  []logic.Rule
		faults []string
		says   string
	}{
		{"as it is", nil, nil, nil, ""},
		{"relays left at 5 s", delayed(5, 1), []logic.Rule{logic.ClearOfLeaf}, []string{DelayDiffers, DelayDiffers}, "closes on the second person"},
		{"relays and paper at 5 s", delayed(5, 5), []logic.Rule{logic.ClearOfLeaf}, nil, ""},
		{"106 held for 1 s", func(g *opening.Group, of []*opening.Opening) { of[1].Operator.Dwell = seconds(1) }, []logic.Rule{logic.ClearOfLeaf}, nil, "106 closes on the person"},
		{"late, and no plate between", func(g *opening.Group, of []*opening.Opening) {
			delayed(0.2, 0.2)(g, of)
			for _, o := range of {
				o.Operator.Dwell = seconds(0.5)
			}
			g.Wiring.Devices = slices.DeleteFunc(g.Wiring.Devices, func(d opening.Device) bool { return d.Name == "plate between" })
			g.Wiring.Wires = slices.DeleteFunc(g.Wiring.Wires, func(w opening.Wire) bool { return strings.HasPrefix(w.From, "plate between") })
		}, []logic.Rule{logic.BothServed, logic.ClearOfLeaf}, nil, "nothing opens it"},
		{"a leaf said to swing nowhere", func(g *opening.Group, of []*opening.Opening) { g.SwingsIn = q.Exactly(q.Length(0)) }, nil, []string{SwingDiffers}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			w := followedThrough(t, c.change)
			if w.Walked == nil {
				t.Fatal(w.Proof.Verdicts[len(w.Proof.Verdicts)-1].Why)
			}
			var broke []logic.Rule
			var faults []string
			said := ""
			for i := range w.Proof.Verdicts {
				if v := &w.Proof.Verdicts[i]; v.Rule.OfWalk() && w.OnRule(v) != judge.Meets {
					broke = append(broke, v.Rule)
					said += v.Symptom
				}
			}
			for _, f := range w.Faults {
				if ofGroup(f.Key) {
					faults = append(faults, f.Key)
				}
			}
			if !slices.Equal(broke, c.broke) || !slices.Equal(faults, c.faults) || !strings.Contains(said, c.says) {
				t.Errorf("broke %v, want %v; faults %v, want %v; said %q, want %q in it", broke, c.broke, faults, c.faults, said, c.says)
			}
			for i := range w.Walked.Ways {
				t.Log(w.Walked.Ways[i].From, WayWords(&w.Walked.Ways[i], judge.Policy{}))
			}
		})
	}
}

// Held longer by what was said to be short, a way meets.
func TestWhatIsShortMendsIt(t *testing.T) {
	hold := q.Time(1)
	w := followedThrough(t, func(g *opening.Group, of []*opening.Opening) { of[1].Operator.Dwell = seconds(hold) })
	way := &w.Walked.Ways[0]
	if way.SpareVerdict(1, judge.Policy{}) != judge.FallsShort && way.SpareVerdict(1, judge.Policy{}) != judge.TooClose {
		t.Fatalf("held for %v: %v", hold, WayWords(way, judge.Policy{}))
	}
	if !(way.SpareU[1] > 0) || math.IsInf(float64(way.SpareU[1]), 0) || len(way.Drivers[1]) == 0 {
		t.Errorf("spread %v by %v", way.SpareU[1], way.Drivers[1])
	}
	hold += q.Time(holdMore(way.Spare[1], way.SpareU[1], judge.Policy{}))
	w = followedThrough(t, func(g *opening.Group, of []*opening.Opening) { of[1].Operator.Dwell = seconds(hold) })
	if way := &w.Walked.Ways[0]; way.SpareVerdict(1, judge.Policy{}) != judge.Meets {
		t.Errorf("held for %v: %v", hold, WayWords(way, judge.Policy{}))
	}
}

// The spread by draws is that of the linear law where nobody waits: from the street 106
// is on the path at delay + opening + hold + usable, and people are clear of it at a share
// of 103's opening and a walk.
func TestSpreadOfAWay(t *testing.T) {
	w := followedThrough(t, nil)
	way := &w.Walked.Ways[0]
	if way.Wait > 0 {
		t.Fatal("they wait")
	}
	j, _ := job.Decode(os.DirFS("../demo/harbour-street-clinic"), "job.yaml")
	a, b := Make(demoOpening(t, j, "103"), &j.Sheets, nil, Options{Draws: 64}).Cycle(&j.Sheets), Make(demoOpening(t, j, "106"), &j.Sheets, nil, Options{Draws: 64}).Cycle(&j.Sheets)
	u := math.Hypot(transit.Enters*float64(a.Spread.Opening), math.Hypot(float64(transit.Spread(b.Spread)), float64(handTimed)))
	if got := float64(way.SpareU[1]); math.Abs(got-u) > 0.15*u { // 64 draws of a time in steps of 0.1 s
		t.Errorf("u = %.3f s, want %.3f s", got, u)
	}
}

// Without the distance between the doors nothing is said to be proved.
func TestNobodyIsFollowedWithoutTheDistance(t *testing.T) {
	w := followedThrough(t, func(g *opening.Group, of []*opening.Opening) { g.Between = q.Measured[q.Length]{} })
	if v := verdictOn(w, logic.NotTrapped); !v.Undone || !strings.Contains(v.Why, "between") || w.Standing() == Good {
		t.Errorf("without the distance: %+v", v)
	}
}

func verdictOn(w *Wired, r logic.Rule) logic.Verdict {
	return w.Proof.Verdicts[slices.IndexFunc(w.Proof.Verdicts, func(v logic.Verdict) bool { return v.Rule == r })]
}
