package record

import (
	"flag"
	"fmt"
	"strings"
	"testing"

	"swingwright/internal/reference"
	"swingwright/quantity"
	"swingwright/swing"
	"swingwright/trace"
)

// begunSeeds is how many leaves are swung: go test ./record -run Begun -begun 4000
var begunSeeds = flag.Int("begun", 300, "leaves whose recordings begin closed and open")

// openAgain is a way to open a random leaf, by a random hand or driven; it reports false
// where the leaf does not get there.
func (d dice) openAgain(mv *swing.Mover, m *swing.Model, open quantity.Angle, driven bool) func(c *Course) bool {
	return func(c *Course) bool {
		lasts := quantity.Time(d.in(1.5, 6))
		switch {
		case driven:
			return c.Drive(mv, m).End == swing.Opened
		case d.chance(0.4):
			c.Turn(trace.Opening, open, lasts)
		case d.chance(0.8):
			shares := []float64{1, d.in(0.1, 1.5)}
			for d.chance(0.5) {
				shares = append(shares, d.in(0.1, 1.5))
			}
			c.Pushes(trace.Opening, open, lasts, shares, d.in(0.3, 0.9))
		default: // a steady push until it is open
			m := *m
			return c.Push(mv, &m, m.LargestHandMoment(0, open)+quantity.Torque(d.in(4, 25)), open).End == swing.Struck
		}
		return true
	}
}

// taken tells how a recording was taken to begin.
func taken(tr *trace.Trace) trace.Begin {
	switch {
	case len(tr.Swings) == 0 || told(tr, "does not show whether the leaf was closed or open"):
		return trace.BeginNotTold
	case told(tr, "begins with the leaf open"):
		return trace.BegunOpen
	}
	return trace.BegunClosed
}

// begunTally counts recordings of one kind by how they were taken.
type begunTally struct{ n, right, untold, wrong int }

func (b *begunTally) count(got, want trace.Begin) {
	b.n++
	switch got {
	case want:
		b.right++
	case trace.BeginNotTold:
		b.untold++
	default:
		b.wrong++
	}
}

// Recordings of the same leaf that begin closed and open, and end so, opened by hand and
// driven: hardly any is read the wrong way round; where the moves do not tell which it is,
// no number is given, and that is so for hardly any that begins closed. Once it is said how
// it begins, it is read. The page of validation tells the rows.
func TestBegunValidation(t *testing.T) {
	t.Parallel()
	var mv swing.Mover
	var page strings.Builder
	page.WriteString(`## Which way round a recording is read (package trace)

Simulated leaves, hands, drives and recorders, none of which the odds were fitted to; of a recording that does not tell whether it began
with the leaf closed or open no number is given.

| Opened | Begins | Moves | Recordings | Right | Not told | Wrong way round | Open |
|---|---|---|---|---|---|---|---|
`)
	for _, how := range []struct {
		name   string
		driven bool
		seeds  uint64
	}{{"by hand", false, 1_100_000}, {"driven", true, 1_200_000}} {
		tallies := map[string]*begunTally{}
		for seed := range uint64(*begunSeeds) {
			d := diceOf(how.seeds + seed)
			m, open := d.leaf(&mv)
			opens := d.openAgain(&mv, &m, open, how.driven)
			closes := func(c *Course) bool { return c.Close(&mv, &m).End.Shut() }
			var c Course
			c.Rest(3)
			var cuts []quantity.Time // ends of rests
			whole := true
			for k := 0; k < 4 && whole; k++ {
				if whole = k%2 == 0 && opens(&c) || k%2 == 1 && closes(&c); whole {
					from := c.Lasts()
					c.Rest(quantity.Time(d.in(2, 6)))
					cuts = append(cuts, from)
				}
			}
			if !whole {
				continue
			}
			o := d.recorder(seed)
			for _, kind := range []struct {
				name        string
				first, last int // moves
			}{{"open, close", 0, 1}, {"open, close, open", 0, 2}, {"open, close, open, close", 0, 3}, {"open", 0, 0}, {"close, open", 1, 2}, {"close, open, close", 1, 3}, {"close", 1, 1}} {
				part := &c
				if kind.last < 3 {
					part = c.Before(cuts[kind.last] + 2)
				}
				want, begins := trace.BegunClosed, "closed"
				if kind.first > 0 {
					part, want, begins = part.After(cuts[0]), trace.BegunOpen, "open"
				}
				name := begins + " | " + kind.name
				if tallies[name] == nil {
					tallies[name] = &begunTally{}
				}
				rec, err := trace.Read("simulated", Simulate(part, o), nil)
				if err != nil {
					t.Fatal(err)
				}
				tr := rec.Analyse(trace.Settings{})
				got := taken(tr)
				tallies[name].count(got, want)
				truth := part.Between(80*deg, 10*deg, true)
				for _, s := range tr.Swings {
					r := s.Between(80*deg, 10*deg, true)
					if got == trace.BeginNotTold && (r.Known || s.Spoilt() == "") {
						t.Errorf("%s, leaf %d: %s is told although it may be the wrong way round", how.name, seed, name)
					}
				}
				if got == trace.BeginNotTold || got != want {
					t.Logf("%s, leaf %d, %s: taken for %d", how.name, seed, name, got)
					tr = rec.Analyse(trace.Settings{Begins: want})
					if len(tr.Swings) > 0 && taken(tr) != want {
						t.Errorf("%s, leaf %d, %s: what was said of its begin does not count", how.name, seed, name)
					}
				}
				if len(tr.Swings) == 0 { // taken for carried about
					continue
				}
				if s := tr.Swings[0]; kind.name != "open" && kind.name != "close" {
					within := s.Between(80*deg, 10*deg, true)
					if kind.last-kind.first == 1 && within.Known && (within.Value < truth*9/10 || within.Value > truth*11/10) {
						t.Errorf("%s, leaf %d, %s: closes in %v, truly %v", how.name, seed, name, within, truth)
					}
				}
			}
		}
		for _, name := range []string{
			"closed | open, close", "closed | open, close, open", "closed | open, close, open, close", "closed | open",
			"open | close, open", "open | close, open, close", "open | close",
		} {
			b := tallies[name]
			asked := "wrong ≤ 0.5 %"
			if strings.HasPrefix(name, "closed | open, close") {
				asked = "right ≥ 99 %"
				if b.right*100 < b.n*99 {
					t.Errorf("%s, %s: %+v", how.name, name, *b)
				}
			}
			if b.wrong*200 > b.n {
				t.Errorf("%s, %s: %+v", how.name, name, *b)
			}
			fmt.Fprintf(&page, "| %s | %s | %d | %d | %d | %d | %s |\n", how.name, name, b.n, b.right, b.untold, b.wrong, asked)
		}
	}
	t.Log(page.String())
	if *begunSeeds != 300 {
		return
	}
	if err := reference.Section(page.String(), "record", *update); err != nil {
		t.Error(err)
	}
}

// A leaf that does not latch ends its closing as gently as a hand an opening, and is seldom
// taken for one that began open all the same.
func TestBegunAndNotLatched(t *testing.T) {
	t.Parallel()
	var mv swing.Mover
	var b begunTally
	for seed := uint64(1_300_000); b.n < 300; seed++ {
		d := diceOf(seed)
		m, open := d.leaf(&mv)
		v := *m.Values()
		v[swing.BoltForce], v[swing.BoltRadius], v[swing.BoltClears], v[swing.BoltMeets] = d.in(50, 200), v[swing.LeafWidth]-0.02, 0.5*rad, d.in(2, 5)*rad
		v[swing.SealStiffness], v[swing.SealMeets] = d.log(100, 2000), d.in(1, 6)*rad
		link := m.Linkage()
		link.Latch = true
		stiff, err := swing.New(&v, link)
		if err != nil || stiff.SetDrive(swing.Drive{Fitted: true}) != nil {
			continue
		}
		var c Course
		c.Rest(3)
		if !d.openAgain(&mv, &stiff, open, seed%2 == 0)(&c) {
			continue
		}
		c.Rest(quantity.Time(d.in(2, 6)))
		if c.Close(&mv, &stiff).End.Shut() || c.Angle() > 20*deg {
			continue
		}
		tr := analyse(t, c.Rest(3), d.recorder(seed))
		b.count(taken(tr), trace.BegunClosed)
	}
	t.Logf("%+v", b)
	if b.wrong > b.n/100 || b.untold > b.n/20 {
		t.Errorf("%+v", b)
	}
}
