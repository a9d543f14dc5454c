package opening_test

import (
	"strings"
	"testing"

	"swingwright/opening"
	q "swingwright/quantity"
)

// Slips that surveys of lock, power and frame show. The spans are the plausible
// ones of the trade: 1 to 3000 openings a day, release in 3 s, 40 lbf on a strike,
// 400 ft to the source, 6 to 240 V, 0.02 to 16 A.
func TestImplausibleWork(t *testing.T) {
	for _, c := range []struct {
		name string
		slip func(o *opening.Opening, s *opening.Sheets)
		want string // how the only doubt begins; empty where there must be none
	}{
		{"nothing", func(*opening.Opening, *opening.Sheets) {}, ""},
		{"never powered", func(o *opening.Opening, _ *opening.Sheets) { o.Use.Cycles = q.Exactly(q.Ratio(0)) }, "use.cycles_per_day: 0 is outside the usual 1 to 3000: "},
		{"never powered, by hand", func(o *opening.Opening, _ *opening.Sheets) {
			o.Use.Operation, o.Use.Cycles = "manual", q.Exactly(q.Ratio(0))
		}, ""},
		{"openings a year", func(o *opening.Opening, _ *opening.Sheets) { o.Use.Cycles = q.Exactly(q.Ratio(20000)) }, "use.cycles_per_day: 20000"},
		{"milliseconds", func(o *opening.Opening, _ *opening.Sheets) { o.Lock.ReleaseDelay = q.Exactly(q.Time(250)) }, "lock.release_delay: 250 s is outside"},
		{"newtons for pounds", func(o *opening.Opening, _ *opening.Sheets) { o.Lock.Preload = q.Exactly(60 * q.PoundForce) }, "lock.preload: "},
		{"metres for feet", func(o *opening.Opening, _ *opening.Sheets) { o.Power.Distance = q.Exactly(q.Length(150)) }, "power.distance: "},
		{"a passage set that stays locked", func(o *opening.Opening, _ *opening.Sheets) {
			o.Lock.StaysLocked, o.Lock.Release = "yes", "strike"
		}, "lock.stays_locked: yes: a lock of kind passage keeps nobody out"},
		{"a storeroom lock that is dogged", func(o *opening.Opening, _ *opening.Sheets) {
			o.Lock = opening.Lock{Kind: "storeroom", Release: "dogged", StaysLocked: "no"}
		}, "lock.release: dogged: only the bar"},
		{"locked and dogged", func(o *opening.Opening, _ *opening.Sheets) {
			o.Lock = opening.Lock{Kind: "exit-device", Release: "dogged", StaysLocked: "yes"}
		}, "lock.release: dogged: a leaf that has to stay locked"},
		{"binds nowhere at 60 degrees", func(o *opening.Opening, _ *opening.Sheets) { o.Frame.BindsAt = q.Exactly(60 * q.Degree) }, "frame.binds_at: "},
		{"a full turn of drift", func(o *opening.Opening, _ *opening.Sheets) { o.Frame.Drift = q.Exactly(100 * q.Degree) }, "frame.drift: "},
		{"milliamperes for amperes", func(o *opening.Opening, s *opening.Sheets) {
			s.Strikes = []opening.StrikeSheet{{Name: "Q", Volts: q.Exactly(q.Voltage(24)), Hold: q.Exactly(q.Current(250))}}
			o.Lock.Strike = "Q"
		}, "sheets.strikes[Q].current_hold: 250 A is outside"},
		{"currents exchanged", func(o *opening.Opening, s *opening.Sheets) {
			s.Locks = []opening.LockSheet{{Name: "X", Hold: q.Exactly(q.Current(1)), Inrush: q.Exactly(q.Current(0.25))}}
			o.Lock.Sheet = "X"
		}, "sheets.locks[X].current_inrush: 0.25 A: it is below"},
		{"millivolts", func(o *opening.Opening, s *opening.Sheets) {
			s.Operators = []opening.OperatorSheet{{Name: "D", Volts: q.Exactly(q.Voltage(24000))}}
			o.Operator.Sheet = "D"
		}, "sheets.operators[D].volts: 24000 V is outside"},
		{"a sheet that the opening does not name", func(_ *opening.Opening, s *opening.Sheets) {
			s.Strikes = []opening.StrikeSheet{{Name: "Q", Hold: q.Exactly(q.Current(250))}}
		}, ""},
	} {
		o, s := whole()
		o.Closer.Gauged = nil
		c.slip(&o, &s)
		got := append(opening.Implausible(&o), opening.ImplausibleHardware(&o, &s)...)
		switch {
		case c.want == "" && len(got) > 0:
			t.Errorf("%s: doubts %v, want none", c.name, got)
		case c.want != "" && (len(got) != 1 || !strings.HasPrefix(got[0].String(), c.want)):
			t.Errorf("%s: doubts %v, want one that begins with %q", c.name, got, c.want)
		}
	}
}

// Leaves of glass are thin and swing-clear hinges have their pin far off the edge;
// neither is a slip.
func TestThinGlassAndSwingClearHingesArePlausible(t *testing.T) {
	o, _ := whole()
	o.Closer.Gauged = nil
	o.Leaf.Thickness, o.Frame.PinAlong = q.Exactly(0.5*q.Inch), q.Exactly(2.25*q.Inch)
	o.Leaf.Layers = []opening.Layer{{Material: "glass", Thickness: q.Exactly(0.5 * q.Inch)}}
	if d := opening.Implausible(&o); len(d) > 0 {
		t.Errorf("doubts %v", d)
	}
	o.Leaf.Layers = append(o.Leaf.Layers, opening.Layer{Material: "oak", Thickness: q.Exactly(0.5 * q.Inch)})
	if d := opening.Implausible(&o); len(d) != 1 {
		t.Errorf("a leaf of glass and oak, 1/2 in thick: doubts %v, want one", d)
	}
}
