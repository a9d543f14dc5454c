package logic

import (
	"runtime"
	"testing"

	"pgregory.net/rapid"

	q "swingwright/quantity"
)

// agree holds the search against one that makes nothing short: the same rules are
// broken, in as few events.
func agree(t interface {
	Helper()
	Fatalf(string, ...any)
}, m *Machine, limit int) (states, all int) {
	t.Helper()
	want := m.exploreFully(limit)
	if !want.complete {
		return 0, 0
	}
	f, err := m.factor()
	if err != nil {
		t.Fatalf("%v", err)
	}
	got := f.explore(limit, nil)
	if !got.complete || got.len() > len(want.states) {
		t.Fatalf("%d states, complete %v; following everything there are %d", got.len(), got.complete, len(want.states))
	}
	for _, r := range Rules() {
		if does, _ := m.applies(r); !does {
			continue
		}
		for _, n := range []int{int(r), sagShift + int(r)} { // with mains and battery, and as that runs low
			events := -1
			if got.broken[n].found {
				events = got.story(got.broken[n]).Events
			}
			if events != want.events[n] {
				t.Fatalf("%s, %d: broken in %d events; following everything in %d (-1: never)", r.Key(), n, events, want.events[n])
			}
		}
	}
	return got.len(), len(want.states)
}

// TestAgreesWithFull holds the search of every trial against a full one.
func TestAgreesWithFull(t *testing.T) {
	for _, c := range trials() {
		m, err := Compile(&c.rig.Wiring, c.doors, max(c.tick, 0.25))
		if err != nil {
			t.Fatal(err)
		}
		t.Run(c.name, func(t *testing.T) {
			states, all := agree(t, m, MostStates)
			if all == 0 {
				t.Fatal("not everything was followed")
			}
			t.Logf("%d states of %d", states, all)
		})
	}
}

// TestAgreesWithFullAnyWiring does so for wirings that nobody planned.
func TestAgreesWithFullAnyWiring(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := wirings(t)
		doors := []Door{{ID: "1", FireRated: rapid.Bool().Draw(t, "fire"), StaysLocked: rapid.Bool().Draw(t, "locked"), LockedByOld: rapid.Bool().Draw(t, "by hand")}}
		if rapid.Bool().Draw(t, "two") {
			doors = append(doors, Door{ID: "2"})
			for i := range w.Devices {
				w.Devices[i].Opening = rapid.SampledFrom([]string{"1", "2"}).Draw(t, "door")
			}
		}
		if m, err := Compile(w, doors, q.Time(0.5)); err == nil {
			agree(t, m, 3000)
		}
	})
}

// TestWorkersChangeNothing holds that the number of workers changes no state, no
// order and no story.
func TestWorkersChangeNothing(t *testing.T) {
	r := lobby()
	m, err := Compile(&r.Wiring, twoDoors, 0.5)
	if err != nil {
		t.Fatal(err)
	}
	var first *explored
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(0))
	for _, workers := range []int{1, 2, 5} {
		runtime.GOMAXPROCS(workers)
		f, err := m.factor()
		if err != nil {
			t.Fatal(err)
		}
		x := f.explore(MostStates, nil)
		if first == nil {
			first = x
			continue
		}
		if x.len() != first.len() || x.broken != first.broken || x.steps != first.steps {
			t.Fatalf("%d workers: %d states, %d steps; one: %d and %d", workers, x.len(), x.steps, first.len(), first.steps)
		}
		for i := range x.keys {
			if x.keys[i] != first.keys[i] || x.parent[i] != first.parent[i] || x.via[i] != first.via[i] {
				t.Fatalf("%d workers: state %d differs", workers, i)
			}
		}
	}
}

// BenchmarkExplore follows an office door and a vestibule, made short and in full.
func BenchmarkExplore(b *testing.B) {
	for _, c := range []trial{{"office", office(), fireDoor, 0.25, nil}, {"lobby", lobby(), twoDoors, 0.5, nil}} {
		m, err := Compile(&c.rig.Wiring, c.doors, c.tick)
		if err != nil {
			b.Fatal(err)
		}
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				f, err := m.factor()
				if err != nil {
					b.Fatal(err)
				}
				b.ReportMetric(float64(f.explore(MostStates, nil).len()), "states")
			}
		})
		b.Run(c.name+"/full", func(b *testing.B) {
			for b.Loop() {
				b.ReportMetric(float64(len(m.exploreFully(MostStates).states)), "states")
			}
		})
	}
}
