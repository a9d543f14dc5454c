package decision

import (
	"slices"

	"swingwright/judge"
	"swingwright/opening"
	"swingwright/plan"
	q "swingwright/quantity"
)

// lock: can it be freed before the leaf is driven?
func (l *ladder) lock() {
	if !l.powered {
		return
	}
	lock, sheet := &l.o.Lock, l.sheets.Lock(l.o.Lock.Sheet)
	kind, release := lock.Kind, lock.Release
	if sheet != nil {
		if kind == "" {
			kind = sheet.Kind
		}
		if release == "" {
			release = sheet.Release
		}
	}
	const test = "The lock can be released before the leaf is driven"
	r := Rung{Test: test, Source: practice, Verdict: judge.Meets}
	failed := Refuse
	switch {
	case lock.Delayed == "yes" && release != "retraction" && release != "magnet":
		r.Verdict, r.Why, failed = judge.FallsShort, "it lets people out only after a time, and no signal frees it", Refer
		l.call("authority having jurisdiction, with the access-control integrator", "a lock that lets people out only after a time")
	case kind == "deadbolt" && lock.StaysLocked == "yes":
		r.Verdict, r.Why = judge.FallsShort, "a deadbolt that must stay locked and that only a hand can draw"
		r.Cures = []Cure{electrify("a lock whose bolt a signal can draw")}
	case release == "by-hand-only" && (kind == "none" || kind == "push-pull"):
		// nothing is locked
	case release == "by-hand-only":
		r.Verdict, r.Why = judge.FallsShort, "only a hand can draw its bolt"
		r.Cures = []Cure{electrify(electrified[kind])}
	case release == "" && kind != "none" && kind != "push-pull":
		r.Verdict, r.Missing = judge.NotMeasured, []string{"lock.release"}
	}
	if len(r.Cures) > 0 {
		l.call("access-control integrator", "who releases the lock, and in which order")
	}
	l.put(r, failed)
	if release == "strike" {
		l.strike(kind)
	}
	l.wired()
}

// wired: is the wiring safe in whatever order things happen?
func (l *ladder) wired() {
	w := l.p.Wired
	if w == nil {
		return
	}
	r := Rung{Test: "The wiring is safe in every order of events", Source: practice, Verdict: judge.Meets}
	switch w.Standing() {
	case plan.Bad:
		r.Verdict, r.Why = judge.FallsShort, w.Summary()
		r.Cures = []Cure{{What: "mend the wiring; the command wiring tells the order of events that breaks it", Effort: Repairing, Answer: Repair, Works: true}}
	case plan.Undecided:
		r.Verdict, r.Missing = judge.NotMeasured, []string{"wiring"}
		r.Why = w.Summary()
	}
	l.put(r, Repair)
}

// electrified is what makes a lock of a kind one that a signal can free (common practice).
var electrified = map[opening.LockKind]string{
	"passage": "an electric strike, or a latch that is kept back", "classroom": "an electric strike", "storeroom": "an electric strike",
	"exit-device": "a powered retraction of its latch", "deadbolt": "a lock whose bolt a signal can draw", "magnet": "a release of the magnet",
}

func electrify(with string) Cure {
	if with == "" {
		with = "a release that a signal works"
	}
	return Cure{What: with, Effort: Replacing, Answer: Change, Works: true}
}

// strike: is the electric strike for this bolt, this door and this press of the leaf?
func (l *ladder) strike(kind opening.LockKind) {
	s := l.sheets.Strike(l.o.Lock.Strike)
	if s == nil {
		return
	}
	source := paper("strike", s.Name, s.Page)
	if len(s.Kinds) > 0 && kind != "" {
		r := Rung{Test: "The strike takes this sort of lock", Source: source, Verdict: judge.Meets}
		if !slices.Contains(s.Kinds, kind) {
			r.Verdict, r.Why = judge.FallsShort, "a "+string(kind)+" lock is not among those of its paper"
		}
		l.put(r, Change)
	}
	if s.PreloadMax.Known {
		p := l.o.Lock.Preload
		r := l.number("The locked leaf presses on the strike no more than it can release under", source,
			Number{Dim: q.DimForce, Side: judge.AtMost, Value: float64(p.Value), U: float64(p.WithSpread(p.Value / 10).U), Limit: float64(s.PreloadMax.Value)}, p.Known, "lock.preload")
		if r.Verdict == judge.FallsShort {
			r.Cures = []Cure{{What: "line up strike and latch until the leaf no longer presses on it", Effort: Repairing, Answer: Repair, Works: true}}
		}
		l.put(r, Repair)
	}
	if l.o.Use.FireRated == "yes" {
		r := answered("The strike is listed for fire doors", source, s.ForFire, "yes", "strikes.fire_listed")
		l.put(r, Change)
		if s.Fails == "fail-safe" {
			l.fails("The strike of a fire door keeps it latched without power", practice, "it unlocks when power is lost", Change,
				Cure{What: "a strike that stays locked when power is lost", Effort: Replacing, Answer: Change, Works: true})
		}
	}
}
