package logic

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	_ "swingwright/internal/steady"
	"swingwright/opening"
)

// wirings draws wirings that nobody planned: any devices, any wires.
func wirings(t *rapid.T) *opening.Wiring {
	kinds := opening.DeviceKind("").Choices()
	w := new(opening.Wiring)
	var ends []string
	for i := range rapid.IntRange(1, 8).Draw(t, "devices") {
		d := opening.Device{
			Name: fmt.Sprint("d", i), Kind: opening.DeviceKind(rapid.SampledFrom(kinds).Draw(t, "kind")),
			Side:   opening.DeviceSide(rapid.SampledFrom([]string{"", "inside", "outside", "between"}).Draw(t, "side")),
			Normal: opening.ContactState(rapid.SampledFrom([]string{"", "open", "closed"}).Draw(t, "normal")),
			Fails:  opening.FailMode(rapid.SampledFrom([]string{"", "fail-safe"}).Draw(t, "fails")),
		}
		if rapid.Bool().Draw(t, "timed") {
			d.OnDelay = seconds(1)
			d.Hold = seconds(2)
		}
		if rapid.Bool().Draw(t, "level") {
			d.StartBy = opening.WhileShut
		}
		w.Devices = append(w.Devices, d)
		for _, p := range d.Points() {
			ends = append(ends, d.Name+"."+p.Name)
		}
	}
	if len(ends) < 2 {
		return w
	}
	for range rapid.IntRange(0, 20).Draw(t, "wires") {
		w.Wires = append(w.Wires, opening.Wire{From: rapid.SampledFrom(ends).Draw(t, "from"), To: rapid.SampledFrom(ends).Draw(t, "to")})
	}
	return w
}

// TestAnyWiringIsProved holds that no wiring, however absurd, makes the search fail
// or run on, that every story replays to the breach that it tells of, and that the
// same wiring gives the same proof.
func TestAnyWiringIsProved(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := wirings(t)
		doors := []Door{{ID: "1", FireRated: rapid.Bool().Draw(t, "fire"), StaysLocked: rapid.Bool().Draw(t, "locked"), LockedByOld: rapid.Bool().Draw(t, "by hand")}}
		const limit = 3000
		p, err := Prove(w, doors, Effort{States: limit, Tick: 0.5})
		if err != nil {
			return // too large: told
		}
		if p.States > limit+100 {
			t.Fatalf("%d states of at most %d", p.States, limit)
		}
		for _, v := range p.Verdicts {
			if v.Broken && (v.Symptom == "" || v.Story == nil) || v.Broken && v.Undone || !v.Applies && v.Why == "" {
				t.Fatalf("%s: %+v", v.Rule.Key(), v)
			}
		}
		again, _ := Prove(w, doors, Effort{States: limit, Tick: 0.5})
		if again.States != p.States || again.Steps != p.Steps || len(again.Broken()) != len(p.Broken()) {
			t.Fatalf("%d states, then %d", p.States, again.States)
		}
		if _, err := Sequence(w, doors); err != nil {
			t.Fatal(err)
		}
		if _, err := Delays(w, doors); err != nil {
			t.Fatal(err)
		}
		Faults(w)
		p.Machine.AlarmMatrix()
		p.Machine.Connections()
	})
}

// TestStopped holds that a search stops when it is told to, and proves nothing then.
func TestStopped(t *testing.T) {
	r := office()
	p, err := Prove(&r.Wiring, fireDoor, Effort{Progress: func(int) bool { return false }})
	if err != nil {
		t.Fatal(err)
	}
	if p.Complete || p.Verdicts[InsideWorks].Broken || !p.Verdicts[InsideWorks].Undone {
		t.Errorf("complete %v, %+v", p.Complete, p.Verdicts[InsideWorks])
	}
}
