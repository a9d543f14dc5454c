package opening_test

import (
	"testing"

	"swingwright/opening"
	q "swingwright/quantity"
)

// What has to be known before an operator is chosen is missed where the leaf is to
// be powered, and only there. What must be missed follows from the trade's ladder
// of what stops a job: lock, power, frame, traffic.
func TestMissingWork(t *testing.T) {
	for _, c := range []struct {
		name string
		take func(o *opening.Opening, s *opening.Sheets)
		want []string // fields; with ! where it stops something
	}{
		{"nothing", func(*opening.Opening, *opening.Sheets) {}, nil},
		{"all of it", func(o *opening.Opening, _ *opening.Sheets) {
			o.Lock, o.Power, o.Use.Cycles = opening.Lock{}, opening.Feed{}, q.Measured[q.Ratio]{}
			o.Frame.Sound, o.Frame.Binds, o.Frame.Drift = "", "", q.Measured[q.Angle]{}
		}, []string{"use.cycles_per_day", "!lock.kind", "!power.reachable", "power.electrician", "!frame.sound", "!frame.binds", "frame.drift"}},
		{"all of it, by hand", func(o *opening.Opening, _ *opening.Sheets) {
			o.Use.Operation, o.Use.Cycles = "manual", q.Measured[q.Ratio]{}
			o.Lock, o.Power, o.Frame.Sound = opening.Lock{}, opening.Feed{}, ""
		}, nil},
		{"what frees a lock", func(o *opening.Opening, _ *opening.Sheets) {
			o.Lock = opening.Lock{Kind: "storeroom"}
		}, []string{"!lock.release", "lock.stays_locked"}},
		{"a strike's delay and load", func(o *opening.Opening, _ *opening.Sheets) {
			o.Lock = opening.Lock{Kind: "storeroom", Release: "strike", StaysLocked: "yes"}
		}, []string{"lock.release_delay", "lock.preload"}},
		{"all that the lock's sheet tells", func(o *opening.Opening, s *opening.Sheets) {
			s.Locks = []opening.LockSheet{{Name: "X", Kind: "exit-device", Release: "retraction", ReleaseTime: q.Exactly(q.Time(0.5))}}
			o.Lock = opening.Lock{Sheet: "X", StaysLocked: "no"}
		}, nil},
		{"a delay that the strike's sheet tells", func(o *opening.Opening, s *opening.Sheets) {
			s.Strikes = []opening.StrikeSheet{{Name: "Q", ReleaseTime: q.Exactly(q.Time(0.2))}}
			o.Lock = opening.Lock{Kind: "storeroom", Release: "strike", Strike: "Q", StaysLocked: "no", Preload: q.Exactly(q.Force(9))}
		}, nil},
		{"an electrician where there is no power", func(o *opening.Opening, _ *opening.Sheets) {
			o.Power = opening.Feed{Reachable: "no"}
		}, nil},
		{"where it binds", func(o *opening.Opening, _ *opening.Sheets) { o.Frame.Binds = "yes" }, []string{"frame.binds_at"}},
	} {
		o, s := whole()
		c.take(&o, &s)
		missing(t, c.name, &o, &s, c.want)
	}
}

// Nobody drills a leaf before somebody looked for what is hidden in it.
func TestMissingBeforeDrilling(t *testing.T) {
	o, sheets := whole()
	o.Leaf.Concealed, o.Use.FireRated = "", "yes"
	fields := map[string]bool{}
	for _, g := range opening.Missing(&o, &sheets) {
		fields[g.Field] = true
	}
	if !fields["leaf.concealed"] || !fields["leaf.asbestos_doubt"] {
		t.Errorf("missing: %v", fields)
	}
}
