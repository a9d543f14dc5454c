package record

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"swingwright/quantity"
	"swingwright/swing"
	"swingwright/trace"
)

// tally counts how far readings lie from the truth, in standard uncertainties.
type tally struct {
	n, one, two, missing int
	errors               []float64 // in the unit of what is read
	z                    []float64
}

func (ty *tally) add(known bool, got, u, want float64) {
	if !known || math.IsNaN(want) {
		ty.missing++
		return
	}
	ty.n++
	z := math.Abs(got-want) / u
	if z <= 1 {
		ty.one++
	}
	if z <= 1.96 {
		ty.two++
	}
	ty.errors = append(ty.errors, math.Abs(got-want))
	ty.z = append(ty.z, (got-want)/u)
}

// quantile of the errors.
func (ty *tally) quantile(share float64) float64 {
	if ty.n == 0 {
		return math.NaN()
	}
	e := slices.Clone(ty.errors)
	slices.Sort(e)
	return e[min(len(e)-1, int(share*float64(len(e))))]
}

func (ty *tally) String() string {
	mean, square := 0.0, 0.0
	for _, z := range ty.z {
		mean += z / float64(ty.n)
		square += z * z / float64(ty.n)
	}
	return fmt.Sprintf("n %4d  missing %3d  68%%: %.1f  95%%: %.1f  mean z %+.2f  rms z %.2f  error 68%% %.4g 95%% %.4g", ty.n, ty.missing, 100*float64(ty.one)/float64(ty.n), 100*float64(ty.two)/float64(ty.n), mean, math.Sqrt(square), ty.quantile(0.68), ty.quantile(0.95))
}

type tallies map[string]*tally

func (ts tallies) of(name string) *tally {
	if ts[name] == nil {
		ts[name] = new(tally)
	}
	return ts[name]
}

func add[Q quantity.Quantity](ts tallies, name string, r trace.Reading[Q], want Q) {
	ts.of(name).add(r.Known, float64(r.Value), float64(r.U), float64(want))
}

func TestMany(t *testing.T) {
	var mv swing.Mover
	ts := make(tallies)
	phases, bad := 0, 0
	for seed := range uint64(500) {
		d := diceOf(seed)
		c, m := d.course(&mv)
		o := d.recorder(seed)
		data := Simulate(c, o)
		rec, err := trace.Read("simulated", data, nil)
		if err != nil {
			t.Fatalf("%d: %v", seed, err)
		}
		open, chord := c.OpenAngle(), 0.0
		r := 0.7 + 0.3*d.Float64()
		chord = 2*r*math.Sin(float64(open)/2) + 0.003*d.NormFloat64()
		set := trace.Settings{Chord: quantity.Give(quantity.Length(chord), 0.003), Radius: quantity.Exactly(quantity.Length(r))}
		if seed < 0 {
			break
		}
		for _, with := range []trace.Settings{{}, set} {
			name := "no chord "
			if with.Chord.Known {
				name = "chord    "
			}
			tr := rec.Analyse(with)
			if len(tr.Swings) != 1 {
				t.Logf("%d: %d swings %v", seed, len(tr.Swings), tr.Faults)
				bad++
				continue
			}
			s := tr.Swings[0]
			if s.Kind != trace.Full {
				t.Logf("%d: %v %v", seed, s.Kind, s.Faults)
			}
			if with.Chord.Known {
				if ok, why := sameKinds(s.Phases, c.Phases()); ok {
					phases++
				} else {
					t.Logf("%d: %s", seed, why)
				}
			}
			for _, w := range [][2]quantity.Angle{{90 * deg, 10 * deg}, {90 * deg, 12 * deg}, {80 * deg, 10 * deg}, {70 * deg, 20 * deg}} {
				x := s.Between(w[0], w[1], true)
				add(ts, name+fmt.Sprintf("close %.0f-%.0f", w[0]/deg, w[1]/deg), x, c.Between(w[0], w[1], true))
				add(ts, name+"marks", x, c.Between(w[0], w[1], true))
				if x.Known && math.Abs(float64(x.Value-c.Between(w[0], w[1], true))) > 4*float64(x.U) {
					t.Logf("%d: %v %v want %v", seed, w, x, c.Between(w[0], w[1], true))
				}
			}
			add(ts, name+"close 10-0", s.Between(10*deg, 0, true), c.Between(10*deg, 0, true))
			if with.Chord.Known {
				x := s.Between(10*deg, 0, true)
				t.Logf("E10 %d rate %.0f err %.4f u %.4f impact %.2f zone %.1f bounce %v", seed, o.Rate, x.Value-c.Between(10*deg, 0, true), x.U, c.ImpactRate()/quantity.AngularSpeed(deg), c.zone/deg, len(c.parts))
			}
			add(ts, name+"open 10-80", s.Between(10*deg, 80*deg, false), c.Between(10*deg, 80*deg, false))
			add(ts, name+"marks", s.Between(10*deg, 80*deg, false), c.Between(10*deg, 80*deg, false))
			if x := s.TimeTo(80 * deg); x.Known && math.Abs(float64(x.Value-c.Between(0, 80*deg, false))) > 4*float64(x.U) {
				t.Logf("%d: start %v want %v", seed, x, c.Between(0, 80*deg, false))
			}
			add(ts, name+"open 0-80", s.TimeTo(80*deg), c.Between(0, 80*deg, false))
			if x := s.HoldTime(); x.Known && math.Abs(float64(x.Value-c.HoldTime())) > 4*float64(x.U) {
				t.Logf("%d: hold %v want %v", seed, x, c.HoldTime())
			}
			if x := s.Between(10*deg, 0, true); x.Known && math.Abs(float64(x.Value-c.Between(10*deg, 0, true))) > 4*float64(x.U) {
				t.Logf("%d: latch %v want %v", seed, x, c.Between(10*deg, 0, true))
			}
			if x := s.ImpactRate(); x.Known && math.Abs(float64(x.Value-c.ImpactRate())) > 4*float64(x.U) {
				t.Logf("%d: impact %v want %v", seed, x, c.ImpactRate()/quantity.AngularSpeed(deg))
			}
			add(ts, name+"hold", s.HoldTime(), c.HoldTime())
			add(ts, name+"open angle", s.OpenAngle(), open)
			add(ts, name+"peak opening", s.PeakRate(false), c.PeakRate(false))
			add(ts, name+"peak closing", s.PeakRate(true), c.PeakRate(true))
			add(ts, name+"impact", s.ImpactRate(), c.ImpactRate())
			inertia := quantity.Exactly(m.Inertia())
			want := 0.5 * float64(m.Inertia()) * math.Pow(float64(c.PeakRate(true)), 2)
			e := s.PeakEnergy(inertia, true)
			add(ts, name+"energy", e, quantity.Energy(want))
			ts.of(name+"energy, relative").add(e.Known, float64(e.Value)/want, float64(e.U)/want, 1)
		}
	}
	var names []string
	for n := range ts {
		names = append(names, n)
	}
	slices.Sort(names)
	for _, n := range names {
		t.Logf("%-28s %v", n, ts[n])
	}
	t.Logf("phases %d bad %d", phases, bad)
}

// sameKinds tells that two lists of phases agree: kinds in turn, and borders.
func sameKinds(got, want []trace.Phase) (bool, string) {
	kinds := func(list []trace.Phase) (k []trace.PhaseKind) {
		for _, p := range list {
			if p.Kind == trace.LatchZone { // which one model has plainly and another hardly
				continue
			}
			k = append(k, p.Kind)
		}
		return k
	}
	if !slices.Equal(kinds(got), kinds(want)) {
		return false, fmt.Sprint(kinds(got), " want ", kinds(want))
	}
	return true, ""
}
