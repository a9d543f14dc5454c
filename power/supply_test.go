package power

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	q "swingwright/quantity"
)

// always is a load that takes the same in every phase.
func always(name string, amps q.Current) Load {
	l := Load{Name: name, Rated: 24, Least: 22}
	for p := range l.Draws {
		l.Draws[p] = amps
	}
	return l
}

// The trade's example: drive 2.0 A moving + strike 0.3 + receiver 0.05 + reader 0.15 +
// relay 0.05 = 2.55 A, 3.2 to 3.8 A, a 4 A supply.
func TestSupplyExample(t *testing.T) {
	drive := always("drive", 0.1)
	drive.Draws[Moving], drive.Draws[Starting] = 2, 5
	tree := Tree{Volts: 24, Loads: []Load{drive, always("strike", 0.3), always("receiver", 0.05), always("reader", 0.15), always("relay", 0.05)}, Sequences: make([]Sequence, 1)}
	d := tree.Demand(0, 1, 1)
	near(t, "sum", float64(d.Sustained), 2.55, 1e-12)
	near(t, "with headroom", float64(d.With), 3.19, 0.01)
	near(t, "size", float64(d.Size), 4, 0)
	near(t, "power", float64(d.Power), 96, 1e-9)
	if got := tree.Demand(5.5, 1, 1); got.Size != 6 {
		t.Errorf("with a peak of 5.5 A and no overload = %v A, want 6", got.Size)
	}
	if got := tree.Demand(5.5, 1, 1.5); got.Size != 4 {
		t.Errorf("with a peak of 5.5 A and half as much again for a moment = %v A, want 4", got.Size)
	}
	if got := tree.Demand(100, 1, 1); got.Size != 0 {
		t.Errorf("for 100 A = %v A, want none", got.Size)
	}
	near(t, "at half diversity", float64(tree.Demand(0, 0.5, 1).Sustained), 0.65+0.5*1.9, 1e-12)
}

// NEC Chapter 9 Table 11, nameplate columns (from memory; 100 VA at 20 to 30 V and 5 mA
// above 30 V by a trade journal).
func TestClassTwo(t *testing.T) {
	for _, c := range []struct{ volts, amps, power float64 }{{12, 5, 60}, {20, 5, 100}, {24, 100. / 24, 100}, {30, 100. / 30, 100}, {48, 0.005, math.Inf(1)}} {
		got := ClassTwoLimit(q.Voltage(c.volts))
		near(t, "current", float64(got.Current), c.amps, 1e-12)
		if float64(got.Power) != c.power {
			t.Errorf("%v V: %v VA, want %v", c.volts, got.Power, c.power)
		}
	}
}

// The trade's examples: 0.15 A for 4 h and 10 openings of 2 A for 4 s and 0.6 A for 7 s
// take 0.63 A·h, 0.93 with age and cold, a 1.2 A·h battery; 24 h at 60 openings 3.8 and
// 5.6 A·h.
func TestBatteryExamples(t *testing.T) {
	for _, c := range []struct{ hours, openings, taken, needs, next float64 }{
		{4, 10, 0.63, 0.93, 1.2},
		{24, 60, 3.8, 5.6, 7},
	} {
		s := Standby{Time: q.Time(c.hours * 3600), Idle: 0.15, Openings: c.openings, Cycle: []Stretch{{4, 2}, {7, 0.6}}, Aged: Aged, Cold: Cold, Peukert: 1}
		near(t, "taken", float64(s.Taken()/q.AmpereHour), c.taken, 0.006)
		near(t, "needed", float64(s.Needs()/q.AmpereHour), c.needs, 0.01)
		near(t, "battery", float64(NextCapacity(s.Needs())/q.AmpereHour), c.next, 1e-9)
		near(t, "lasts", float64(s.Lasts(s.Needs())), float64(s.Time), 1e-6*float64(s.Time))
		s.Peukert = Peukert
		if n := s.Needs(); !(n > s.Taken()) || math.Abs(float64(s.Lasts(n)-s.Time)) > 1e-6*float64(s.Time) {
			t.Errorf("with the rate counted it needs %v and lasts %v", n, s.Lasts(n))
		}
	}
}

// A battery emptied at a steady current: Peukert's law in its closed form. C·(I20/I)^(k-1)
// is what is left at the current I; 7 A·h at 1 A with k = 1.2 give 7·0.35^0.2 = 5.674 A·h.
func TestPeukert(t *testing.T) {
	s := Standby{Time: 3600, Idle: 1, Aged: 1, Cold: 1, Peukert: 1.2}
	near(t, "hours", float64(s.Lasts(7*q.AmpereHour))/3600, 7*math.Pow(0.35, 0.2), 1e-9)
	s.Time = q.Time(7 * math.Pow(0.35, 0.2) * 3600)
	near(t, "needs", float64(s.Needs()/q.AmpereHour), 7, 1e-9)
}

// At 50 °F the table's 1.19 is the trade's share of 0.85.
func TestColdShare(t *testing.T) {
	at := func(f float64) float64 { return float64(ColdShare(q.Temperature((f + 459.67) * 5 / 9))) }
	near(t, "77 °F", at(77), 1, 1e-9)
	near(t, "50 °F", at(50), float64(Cold), 0.011)
	near(t, "25 °F", at(25), 1/1.52, 1e-9)
	near(t, "47.5 °F", at(47.5), 1/1.22, 1e-9)
	last := 1.1
	for f := 100.; f > -80; f-- {
		if s := at(f); s > last || s < 0.19 {
			t.Fatalf("%v °F: %v after %v", f, s, last)
		} else {
			last = s
		}
	}
}

func TestBatteryProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := func(low, high float64, name string) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		s := Standby{Time: q.Time(f(1, 1e6, "time")), Idle: q.Current(f(0, 2, "idle")), Openings: f(0, 1000, "openings"),
			Cycle: []Stretch{{q.Time(f(0, 10, "for")), q.Current(f(0, 20, "amps"))}}, Aged: q.Ratio(f(0.3, 1, "aged")), Cold: q.Ratio(f(0.3, 1, "cold")), Peukert: q.Ratio(f(1, 1.4, "k"))}
		needs := s.Needs()
		if s.Taken() > 0 && (needs < s.Taken() || !(s.Lasts(needs) >= s.Time*(1-1e-9)) || s.Lasts(needs*0.999) > s.Time) {
			t.Fatalf("%+v needs %v, which lasts %v", s, needs, s.Lasts(needs))
		}
		more := s
		more.Idle += 0.1
		if more.Needs() < needs {
			t.Fatal("a larger load needs a smaller battery")
		}
	})
}

// Tubing: the published inside areas, in² (NEC Chapter 9 Table 4, from memory), are those
// of the diameters; and the published numbers of wires that fill it (Annex C, Table C.1,
// THHN, from memory: 14 AWG is 0.0097 in², 12 AWG 0.0133 in²), by the rule of 40 %.
func TestTubing(t *testing.T) {
	areas := map[string]float64{"1/2": 0.304, "3/4": 0.533, "1": 0.864, "1-1/4": 1.496, "1-1/2": 2.036, "2": 3.356}
	for _, size := range Tubes {
		d, ok := Tube(size)
		if !ok {
			t.Fatal(size)
		}
		near(t, size, math.Pi/4*math.Pow(float64(d/q.Inch), 2), areas[size], 0.0006)
	}
	for _, c := range []struct {
		tube string
		area float64
		fit  int
	}{{"1/2", 0.0097, 12}, {"3/4", 0.0097, 21}, {"1/2", 0.0133, 9}, {"3/4", 0.0133, 16}, {"1", 0.0133, 25}} {
		d, _ := Tube(c.tube)
		wire := q.Length(math.Sqrt(4*c.area/math.Pi)) * q.Inch
		for n := 3; n < 40; n++ {
			cables := make([]q.Length, n)
			for i := range cables {
				cables[i] = wire
			}
			// the annex counts a last wire from 0.8 on as whole, for wires of one size; cables here do not
			if f := FillOf(d, cables); f.Fits() != (n <= c.fit) {
				t.Errorf("%s with %d of %.4f in²: %.3f of %.2f", c.tube, n, c.area, f.Share, f.Limit)
			}
		}
	}
	if _, ok := Tube("9"); ok {
		t.Error("a size 9 is known")
	}
}

func TestFillLimits(t *testing.T) {
	for n, want := range map[int]q.Ratio{1: 0.53, 2: 0.31, 3: 0.40, 9: 0.40} {
		if got := FillLimit(n); got != want {
			t.Errorf("%d cables: %v, want %v", n, got, want)
		}
	}
	// one cable of 0.5 in in 3/4 in tubing: 0.25/0.679 = 36.8 %, within 53 %
	d, _ := Tube("3/4")
	one := FillOf(d, []q.Length{0.5 * q.Inch})
	near(t, "one", float64(one.Share), 0.25/(0.824*0.824), 1e-12)
	two := FillOf(d, []q.Length{0.5 * q.Inch, 0.5 * q.Inch})
	if !one.Fits() || two.Fits() || two.Smallest != "1-1/4" {
		t.Errorf("one %+v, two %+v", one, two)
	}
	if f := FillOf(d, []q.Length{10 * q.Inch}); f.Smallest != "" {
		t.Errorf("10 in fit %q", f.Smallest)
	}
}

// Usual outer diameters of cables (from memory): 22 AWG 2 conductors about 0.15 in, 18
// AWG 2 about 0.2 in, 18 AWG 6 about 0.3 in; what is assumed is to be no less than nine tenths
// and no more than half as much again.
func TestCableDiameter(t *testing.T) {
	for _, c := range []struct {
		g    Gauge
		n    int
		inch float64
	}{{22, 2, 0.15}, {18, 2, 0.2}, {18, 6, 0.3}, {22, 4, 0.17}} {
		got := float64(CableDiameter(c.g, c.n) / q.Inch)
		if got < 0.9*c.inch || got > 1.5*c.inch {
			t.Errorf("%v, %d conductors: %.3f in, about %.2f wanted", c.g, c.n, got, c.inch)
		}
	}
}
