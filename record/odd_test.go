package record

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"swingwright/quantity"
	"swingwright/trace"
)

// phone is an ordinary recorder.
func phone() Options {
	return Options{
		Seed: 7, Rate: 60, Jitter: 0.002, NoiseDensity: quantity.AngularSpeed(0.008 * rad), Rounding: quantity.AngularSpeed(0.1 * rad),
		Bias: [3]quantity.AngularSpeed{0.01, -0.005, 0.008},
	}
}

func analyse(t *testing.T, c *Course, o Options) *trace.Trace {
	t.Helper()
	return analyseText(t, Simulate(c, o))
}

func analyseText(t *testing.T, data []byte) *trace.Trace {
	t.Helper()
	rec, err := trace.Read("odd.csv", data, nil)
	if err != nil {
		t.Fatal(err)
	}
	return rec.Analyse(trace.Settings{})
}

// ordinary is a swing with a latch zone.
func ordinary(c *Course) *Course {
	return c.Turn(trace.Opening, 95*deg, 3).Rest(3).
		Trapezoid(trace.Sweep, 12*deg, 5, 0.1).Trapezoid(trace.Sweep, 0, 3, 0.05)
}

func kindOf(tr *trace.Trace) (kinds []trace.Kind) {
	for _, s := range tr.Swings {
		kinds = append(kinds, s.Kind)
	}
	return kinds
}

// told tells whether a fault of the recording or of a swing has these words.
func told(tr *trace.Trace, words string) bool {
	all := slices.Clone(tr.Faults)
	for _, s := range tr.Swings {
		all = append(all, s.Faults...)
	}
	return slices.ContainsFunc(all, func(f trace.Fault) bool { return strings.Contains(f.Found, words) && f.Better != "" })
}

// within checks a reading of a course: near the truth by what it says of itself.
func within[Q quantity.Quantity](t *testing.T, what string, r trace.Reading[Q], want Q) {
	t.Helper()
	if !r.Known || math.Abs(float64(r.Value-want)) > 3*float64(r.U) {
		t.Errorf("%s: %v, want %v", what, r, want)
	}
}

func TestSeveralSwings(t *testing.T) {
	var c Course
	ordinary(c.Rest(3))
	c.Rest(2).Turn(trace.FalseStart, 8*deg, 1).Turn(trace.FalseStart, 0, 1)
	ordinary(c.Rest(2))
	tr := analyse(t, c.Rest(3), phone())
	if want := []trace.Kind{trace.Full, trace.OnlyAStart, trace.Full}; !slices.Equal(kindOf(tr), want) {
		t.Fatalf("%v, want %v", kindOf(tr), want)
	}
	var times []trace.Reading[quantity.Time]
	for _, s := range tr.Swings {
		times = append(times, s.Between(70*deg, 20*deg, true))
	}
	r := trace.Repeat(times...)
	want := float64(c.Between(70*deg, 20*deg, true))
	if r.N != 2 || math.Abs(float64(r.Mean)-want) > 3*float64(r.U) || !(r.S < 0.01) || r.DF < 1 {
		t.Errorf("%+v, want %.3f", r, want)
	}
}

func TestOddEndings(t *testing.T) {
	for _, c := range []struct {
		name   string
		course func(c *Course)
		want   trace.Kind
		words  string
	}{
		{"ends while it closes", func(c *Course) {
			c.Rest(3).Turn(trace.Opening, 90*deg, 3).Rest(2).Trapezoid(trace.Sweep, 40*deg, 3, 0.1)
		}, trace.Interrupted, "the recording ends while the leaf moves"},
		{"ends held open", func(c *Course) { c.Rest(3).Turn(trace.Opening, 90*deg, 3).Rest(4) }, trace.StaysOpen, "does not close again: it rests at 9"},
		{"does not latch", func(c *Course) {
			c.Rest(3).Turn(trace.Opening, 90*deg, 3).Rest(2).Trapezoid(trace.Sweep, 12*deg, 4, 0.1).Trapezoid(trace.Sweep, 4*deg, 3, 0.2).Rest(3)
		}, trace.StaysOpen, "does not close again"},
		{"no rest before", func(c *Course) { ordinary(c).Rest(3) }, trace.Full, "no rest before"},
		{"no rest after", func(c *Course) { ordinary(c.Rest(3)) }, trace.Interrupted, "the recording ends"},
		{"short rest before", func(c *Course) { ordinary(c.Rest(0.8)).Rest(3) }, trace.Full, "it rests for only 0."},
	} {
		var course Course
		c.course(&course)
		tr := analyse(t, &course, phone())
		if got := kindOf(tr); len(got) != 1 || got[0] != c.want || !told(tr, c.words) {
			t.Errorf("%s: %v %v", c.name, got, tr.Faults)
			for _, s := range tr.Swings {
				t.Log(s.Faults)
			}
			continue
		}
		// what it shows is read all the same
		if s := tr.Swings[0]; c.name != "no rest before" {
			within(t, c.name+": opening", s.Between(10*deg, 80*deg, false), course.Between(10*deg, 80*deg, false))
		} else {
			within(t, c.name+": closing", s.Between(80*deg, 10*deg, true), course.Between(80*deg, 10*deg, true))
		}
	}
}

// What was not recorded is not read, and the reason is told.
func TestReasons(t *testing.T) {
	var c Course
	c.Rest(3).Turn(trace.Opening, 60*deg, 3).Trapezoid(trace.Sweep, 0, 4, 0.1).Rest(3)
	s := analyse(t, &c, phone()).Swings[0]
	for _, r := range []fmt.Stringer{
		s.Between(90*deg, 10*deg, true), s.Between(0, 80*deg, false), s.Between(10*deg, 20*deg, true), s.Between(-1, 20*deg, false),
		s.HoldTime(), s.PeakEnergy(quantity.Measured[quantity.Inertia]{}, true),
	} {
		if !strings.HasPrefix(r.String(), "not measured: ") || len(r.String()) < 25 {
			t.Errorf("%v", r)
		}
	}
}

// A recording that went wrong has its fault told; the bad ones give no number.
func TestBadRecordings(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(o *Options)
		words  string
		spoilt bool
	}{
		{"slow", func(o *Options) { o.Rate = 12 }, "slow for times", false},
		{"too slow", func(o *Options) { o.Rate = 6 }, "too slow to tell", true},
		{"slipped", func(o *Options) { o.Slip = 8 * deg }, "gravity turned by", false},
		{"fell off", func(o *Options) { o.Slip = 40 * deg }, "carried about", true},
		{"carried to the leaf and away", func(o *Options) { o.Carried = 8 }, "carried about", false},
		{"clipped", func(o *Options) {
			o.Limit = quantity.AngularSpeed(25 * rad)
			o.Attitude = &upright
		}, "cut off at its largest", true},
		{"bare", func(o *Options) { o.Style.Bare = true }, "there is no acceleration", false},
	} {
		var course Course
		ordinary(course.Rest(3)).Rest(3)
		o := phone()
		c.change(&o)
		tr := analyse(t, &course, o)
		if !told(tr, c.words) || !c.spoilt && (len(tr.Swings) != 1 || tr.Swings[0].Spoilt() != "") {
			t.Errorf("%s: %v", c.name, tr.Faults)
			for _, s := range tr.Swings {
				t.Log(s.Kind, s.Faults)
			}
		}
		for _, s := range tr.Swings {
			if r := s.Between(70*deg, 20*deg, true); r.Known == c.spoilt {
				t.Errorf("%s: %v", c.name, r)
			} else if !c.spoilt {
				within(t, c.name, r, course.Between(70*deg, 20*deg, true))
			}
		}
	}
}

// lines changes a recording line by line; i counts rows of data.
func lines(data []byte, change func(i int, line string) []string) []byte {
	var out []string
	for i, line := range strings.Split(strings.TrimSpace(string(data)), "\n") {
		if i == 0 {
			out = append(out, line)
			continue
		}
		out = append(out, change(i-1, line)...)
	}
	return []byte(strings.Join(out, "\n") + "\n")
}

func stamp(line string) (t float64, rest string) {
	at, rest, _ := strings.Cut(line, ",")
	if _, err := fmt.Sscan(at, &t); err != nil {
		panic(err)
	}
	return t, rest
}

func TestClocks(t *testing.T) {
	var c Course
	ordinary(c.Rest(3)).Rest(4)
	ordinary(&c).Rest(3)
	second := float64(c.Lasts()) / 2
	o := phone()
	data := Simulate(&c, o)
	restamp := func(f func(t float64) float64) func(i int, line string) []string {
		return func(_ int, line string) []string {
			t, rest := stamp(line)
			return []string{fmt.Sprintf("%.5f,%s", f(t), rest)}
		}
	}
	for _, x := range []struct {
		name   string
		change func(i int, line string) []string
		words  string
		full   int
	}{
		{"as it is", func(_ int, line string) []string { return []string{line} }, "", 2},
		{"runs back at rest", restamp(func(t float64) float64 {
			if t > second {
				return t - 15
			}
			return t
		}), "the clock ran back by 1", 2},
		{"leaps ahead at rest", restamp(func(t float64) float64 {
			if t > second {
				return t + 3600
			}
			return t
		}), "the clock leapt ahead by 3", 2},
		{"runs back while it closes", restamp(func(t float64) float64 {
			if t > 12 {
				return t - 7
			}
			return t
		}), "the clock ran back", 1},
		{"every row twice", func(_ int, line string) []string { return []string{line, line} }, "stand there twice", 2},
		{"stamps of 0.05 s", restamp(func(t float64) float64 { return math.Floor(t*20) / 20 }), "have the stamp of the row before", 2},
		{"neighbours exchanged", func() func(i int, line string) []string {
			held := ""
			return func(i int, line string) []string {
				switch {
				case i%50 == 10:
					held = line
					return nil
				case held != "":
					out := []string{line, held}
					held = ""
					return out
				}
				return []string{line}
			}
		}(), "out of order", 2},
		{"a gap of 0.4 s while it closes", func(_ int, line string) []string {
			if t, _ := stamp(line); t > 12 && t < 12.4 {
				return nil
			}
			return []string{line}
		}, "a gap of 0.4", 1},
		{"a gap of 0.4 s at rest", func(_ int, line string) []string {
			if t, _ := stamp(line); t > 1 && t < 1.4 {
				return nil
			}
			return []string{line}
		}, "", 2},
		{"empty cells", func(i int, line string) []string {
			if i%7 == 3 {
				cells := strings.Split(line, ",")
				cells[2] = []string{"", "NaN", "null"}[i%3]
				line = strings.Join(cells, ",")
			}
			return []string{line}
		}, "", 2},
	} {
		tr := analyseText(t, lines(data, x.change))
		full := 0
		for _, s := range tr.Swings {
			if s.Kind != trace.Full {
				continue
			}
			full++
			r, want := s.Between(70*deg, 20*deg, true), float64(c.Between(70*deg, 20*deg, true))
			if !r.Known || math.Abs(float64(r.Value)-want) > 0.02*want+0.05 {
				t.Errorf("%s: %v, want %.3f", x.name, r, want)
			}
		}
		if full != x.full || x.words != "" && !told(tr, x.words) {
			t.Errorf("%s: %d full swings of %v; %v", x.name, full, kindOf(tr), tr.Faults)
			for _, s := range tr.Swings {
				t.Log(s.Kind, s.Faults)
			}
		}
	}
}

// Rates called alpha, beta and gamma are sorted by the axis they turn about,
// whichever text their recorder followed.
func TestGreekAxes(t *testing.T) {
	var c Course
	ordinary(c.Rest(3)).Rest(3)
	data := string(Simulate(&c, phone()))
	header, rest, _ := strings.Cut(data, "\n")
	_ = header
	for _, names := range [][3]string{{"alpha", "beta", "gamma"}, {"beta", "gamma", "alpha"}} {
		var b strings.Builder
		fmt.Fprintf(&b, "time (s),rotation rate %s (deg/s),rotation rate %s (deg/s),rotation rate %s (deg/s),ax (m/s2),ay (m/s2),az (m/s2)\n", names[0], names[1], names[2])
		tr := analyseText(t, []byte(b.String()+rest))
		if len(tr.Swings) != 1 || tr.Swings[0].Kind != trace.Full {
			t.Errorf("%v: %v", names, tr.Faults)
			continue
		}
		within(t, names[0], tr.Swings[0].Between(70*deg, 20*deg, true), c.Between(70*deg, 20*deg, true))
	}
}

// The rate about one axis of the device alone is read, with the warning that this has to be
// the hinge's; one called the rate about the hinge is not warned of.
func TestLoneAxis(t *testing.T) {
	var c Course
	ordinary(c.Rest(3)).Rest(3)
	for name, warned := range map[string]bool{"gyro_z (deg/s)": true, "rate (deg/s)": false} {
		var b strings.Builder
		b.WriteString("time (s)," + name + "\n")
		for i := range int(c.Lasts() * 60) {
			_, rate := c.At(quantity.Time(i) / 60)
			fmt.Fprintf(&b, "%.4f,%.2f\n", float64(i)/60, float64(rate)/rad+0.3)
		}
		tr := analyseText(t, []byte(b.String()))
		if len(tr.Swings) != 1 || told(tr, "has to be that about the hinge") != warned {
			t.Errorf("%s: %v %v", name, kindOf(tr), tr.Faults)
			continue
		}
		within(t, name, tr.Swings[0].Between(70*deg, 20*deg, true), c.Between(70*deg, 20*deg, true))
	}
}

// An angle that was recorded is read as it is.
func TestRecordedAngle(t *testing.T) {
	var c Course
	ordinary(c.Rest(3)).Rest(3)
	var b strings.Builder
	b.WriteString("# angle finder\nt_ms;opening angle (deg)\n")
	for i := range int(c.Lasts() * 50) {
		angle, _ := c.At(quantity.Time(i) / 50)
		b.WriteString(strings.ReplaceAll(fmt.Sprintf("%d;%.1f\n", 20*i, float64(angle)/rad), ".", ","))
	}
	tr := analyseText(t, []byte(b.String()))
	if len(tr.Swings) != 1 || tr.Swings[0].Kind != trace.Full {
		t.Fatalf("%v %v", kindOf(tr), tr.Faults)
	}
	s := tr.Swings[0]
	within(t, "closing", s.Between(70*deg, 20*deg, true), c.Between(70*deg, 20*deg, true))
	within(t, "open angle", s.OpenAngle(), c.OpenAngle())
	within(t, "latch", s.Between(10*deg, 0, true), c.Between(10*deg, 0, true))
	within(t, "start", s.TimeTo(80*deg), c.Between(0, 80*deg, false))
}

// Still devices, and ones that are carried about, show no swing.
func TestNoSwing(t *testing.T) {
	var c Course
	if tr := analyse(t, c.Rest(20), phone()); len(tr.Swings) != 0 || !told(tr, "does not swing") {
		t.Errorf("at rest: %v %v", kindOf(tr), tr.Faults)
	}
	var b strings.Builder
	b.WriteString("time (s),gx (deg/s),gy (deg/s),gz (deg/s)\n")
	for i := range 1000 {
		x := float64(i) / 50
		fmt.Fprintf(&b, "%.3f,%.2f,%.2f,%.2f\n", x, 50*math.Sin(7*x), 60*math.Cos(5*x), 40*math.Sin(11*x))
	}
	tr := analyseText(t, []byte(b.String()))
	for _, s := range tr.Swings {
		if s.Spoilt() == "" {
			t.Errorf("carried about: %v", s.Kind)
		}
	}
}

// One chord gives the scale to all swings, though some do not open as far.
func TestChordOfOneSwing(t *testing.T) {
	var c Course
	ordinary(c.Rest(3)).Rest(2)
	c.Turn(trace.Opening, 60*deg, 3).Rest(2).Trapezoid(trace.Sweep, 0, 4, 0.1).Rest(3)
	o := phone()
	o.Scale = 0.03
	rec, err := trace.Read("chord.csv", Simulate(&c, o), nil)
	if err != nil {
		t.Fatal(err)
	}
	tr := rec.Analyse(trace.Settings{Open: quantity.Give[quantity.Angle](95*deg, 0.2*deg)})
	if len(tr.Swings) != 2 {
		t.Fatalf("%v %v", kindOf(tr), tr.Faults)
	}
	within(t, "first", tr.Swings[0].OpenAngle(), 95*deg)
	within(t, "second", tr.Swings[1].OpenAngle(), 60*deg)
	if u := tr.Swings[1].OpenAngle().U; u > 0.2*deg {
		t.Errorf("the second is good to %.2f°", u/deg)
	}
	wrong := rec.Analyse(trace.Settings{Open: quantity.Give[quantity.Angle](130*deg, deg)})
	if !told(wrong, "the measured open angle is 130.0°") || wrong.Swings[0].OpenAngle().Known {
		t.Errorf("a wrong chord: %v %v", wrong.Swings[0].OpenAngle(), wrong.Faults)
	}
}

// A bias that rounding hides, with too little noise to show, is told; closure takes
// out what it does, and what is left is within what is said.
func TestHiddenBias(t *testing.T) {
	var c Course
	ordinary(c.Rest(3)).Rest(3)
	o := Options{Seed: 3, Rate: 60, NoiseDensity: quantity.AngularSpeed(0.003 * rad), Rounding: quantity.AngularSpeed(0.1 * rad), Attitude: &upright}
	o.Bias[2] = quantity.AngularSpeed(0.03 * rad)
	tr := analyse(t, &c, o)
	if len(tr.Swings) != 1 || !told(tr, "rounded so coarsely") {
		t.Fatalf("%v %v", kindOf(tr), tr.Faults)
	}
	within(t, "open angle", tr.Swings[0].OpenAngle(), 95*deg)
	if off := math.Abs(float64(tr.Swings[0].OpenAngle().Value-95*deg)) / rad; off > 0.1 {
		t.Errorf("off by %.3f°", off)
	}
}

// Sensors that write in turn, each leaving the other's cells empty, are read
// together.
func TestSensorsInTurn(t *testing.T) {
	var c Course
	ordinary(c.Rest(3)).Rest(3)
	data := lines(Simulate(&c, phone()), func(_ int, line string) []string {
		cells := strings.Split(line, ",")
		at, rates, accels := cells[0], strings.Join(cells[1:4], ","), strings.Join(cells[4:], ",")
		return []string{at + "," + rates + ",,,", at + ",,,," + accels}
	})
	tr := analyseText(t, data)
	if len(tr.Swings) != 1 || tr.Vertical != "gravity" {
		t.Fatalf("%v by %s: %v", kindOf(tr), tr.Vertical, tr.Faults)
	}
	within(t, "closing", tr.Swings[0].Between(70*deg, 20*deg, true), c.Between(70*deg, 20*deg, true))
}

// Some phones give gravity the other way round (those of one system point it down where the draft of the W3C has it
// up); a recording of theirs is read as any other.
func TestGravityTurned(t *testing.T) {
	var c Course
	ordinary(c.Rest(3)).Rest(3)
	data := lines(Simulate(&c, phone()), func(i int, line string) []string {
		cells := strings.Split(line, ",")
		for k := 4; k < len(cells) && i > 0; k++ {
			if rest, negative := strings.CutPrefix(cells[k], "-"); negative {
				cells[k] = rest
			} else {
				cells[k] = "-" + cells[k]
			}
		}
		return []string{strings.Join(cells, ",")}
	})
	tr := analyseText(t, data)
	if len(tr.Swings) != 1 || tr.Vertical != "gravity" || len(tr.Faults) > 0 {
		t.Fatalf("%v by %s: %v", kindOf(tr), tr.Vertical, tr.Faults)
	}
	within(t, "closing", tr.Swings[0].Between(70*deg, 20*deg, true), c.Between(70*deg, 20*deg, true))
	within(t, "open angle", tr.Swings[0].OpenAngle(), 95*deg)
}
