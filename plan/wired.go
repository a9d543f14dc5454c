package plan

import (
	"cmp"
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strings"

	"swingwright/judge"
	"swingwright/logic"
	"swingwright/opening"
	q "swingwright/quantity"
)

// Wired is what a wiring was found to do.
type Wired struct {
	Of      string          // the opening, or the group that shares it
	Wiring  *opening.Wiring // with what hardware sheets and openings tell of its devices
	Doors   []logic.Door
	Proof   *logic.Proof // nil where there is none
	Delays  []logic.Delay
	Clears  []Clearing // one for each drive's door: when its lock may catch again
	Faults  []logic.Fault
	Walked  *Followed    // people followed through a vestibule, nil where none were
	Policy  judge.Policy // by which the spreads of Walked are judged
	Problem error        // why nothing could be proved, nil where something was
}

// Wire proves the wiring of one opening. Where its clearing is given, too, its lock
// has to stay released that long; else as long as is usual.
func Wire(o *opening.Opening, sheets *opening.Sheets, by logic.Effort, clears ...Clearing) *Wired {
	return wire(o.ID, &o.Wiring, []*opening.Opening{o}, sheets, by, clears)
}

// ProveGroup proves the wiring that the openings of a group share, those of the
// group in its order. The members, as many as are given, tell how soon their leaves
// are clear of their locks.
func ProveGroup(g *opening.Group, of []*opening.Opening, sheets *opening.Sheets, by logic.Effort, members ...*Member) *Wired {
	var clears []Clearing
	for _, m := range members {
		clears = append(clears, m.Clears)
	}
	return wire(g.ID, &g.Wiring, of, sheets, by, clears)
}

// WireGroup proves the wiring that the openings of a group share. Where both their
// members are given, too, people are followed through a vestibule, and what is uncertain
// of that is judged by the policy.
func WireGroup(g *opening.Group, of []*opening.Opening, sheets *opening.Sheets, by logic.Effort, policy judge.Policy, members ...*Member) *Wired {
	return ProveGroup(g, of, sheets, by, members...).Following(g, policy, members...)
}

// Following is a proof together with what people meet who are followed through a
// vestibule, where both its members are given; the proof itself stays as it is.
func (w *Wired) Following(g *opening.Group, policy judge.Policy, members ...*Member) *Wired {
	if len(members) != 2 || w.Problem != nil || g.Kind != opening.Vestibule {
		return w
	}
	more, proof := *w, *w.Proof
	proof.Verdicts, more.Faults = slices.Clone(proof.Verdicts), slices.Clone(w.Faults)
	more.Proof, more.Policy = &proof, policy
	more.walk(g, members[0], members[1])
	return &more
}

func wire(id string, given *opening.Wiring, of []*opening.Opening, sheets *opening.Sheets, by logic.Effort, clears []Clearing) *Wired {
	w := &Wired{Of: id, Wiring: filledIn(given, of, sheets), Faults: logic.Faults(given)}
	for _, o := range of {
		door := DoorOf(o)
		c := Clearing{Door: o.ID, Why: "the swing was not reckoned"}
		if i := slices.IndexFunc(clears, func(c Clearing) bool { return c.Door == o.ID }); i >= 0 {
			c = clears[i]
		}
		door.Clear = c.Longest()
		c.Used = cmp.Or(door.Clear, logic.UsualClear)
		w.Doors, w.Clears = append(w.Doors, door), append(w.Clears, c)
	}
	if w.Proof, w.Problem = logic.Prove(w.Wiring, w.Doors, by); w.Problem == nil {
		w.Delays, w.Problem = logic.Delays(w.Wiring, w.Doors)
	}
	return w
}

// Sequence is the sequence of operation, with the times that the leaves take where
// their swings were reckoned; none where nothing could be proved.
func (w *Wired) Sequence() []logic.Passage {
	if w.Problem != nil {
		return nil
	}
	var times []logic.Times
	for _, c := range w.Clears {
		times = append(times, c.Leaf)
	}
	ps, _ := logic.Sequence(w.Wiring, w.Doors, times...) // what fails it failed the proof before
	return ps
}

// DoorOf is what the logic has to know of an opening beyond its wiring.
func DoorOf(o *opening.Opening) logic.Door {
	locked := []opening.LockRelease{"strike", "retraction", "trim", "magnet", "by-hand-only"}
	return logic.Door{
		ID:          o.ID,
		FireRated:   o.Use.FireRated == "yes",
		StaysLocked: o.Lock.StaysLocked == "yes",
		Preload:     o.Lock.Preload,
		LockedByOld: slices.Contains(locked, o.Lock.Release) && o.Lock.Kind != "none" && o.Lock.Kind != "push-pull",
	}
}

// filledIn is a wiring with the release of its locks as the openings and the
// hardware sheets tell it, where the wiring itself does not.
func filledIn(given *opening.Wiring, of []*opening.Opening, sheets *opening.Sheets) *opening.Wiring {
	w := *given
	w.Devices = slices.Clone(given.Devices)
	for i := range w.Devices {
		d := &w.Devices[i]
		if !d.Kind.IsLock() {
			continue
		}
		if s := sheets.Strike(d.Sheet); s != nil && d.Kind == opening.ElectricStrike {
			fill(d, s.ReleaseTime, s.Fails)
			d.PreloadMax = d.PreloadMax.Or(s.PreloadMax)
		} else if s := sheets.Lock(d.Sheet); s != nil {
			fill(d, s.ReleaseTime, s.Fails)
		}
		for k, o := range of {
			if (d.Opening == o.ID || d.Opening == "" && k == 0) && o.Lock.ReleaseDelay.Known && !given.Devices[i].Release.Known {
				d.Release = o.Lock.ReleaseDelay // what was tried on site outranks the paper
			}
		}
	}
	return &w
}

func fill(d *opening.Device, release q.Measured[q.Time], fails opening.FailMode) {
	if d.Fails == "" {
		d.Fails = fails
	}
	if d.Release = d.Release.Or(release); d.Kind == opening.Magnet {
		d.Residual = d.Residual.Or(release)
	}
}

// ToTry is what has to be tried on site, since no wiring shows it; nothing where
// nothing could be proved.
func (w *Wired) ToTry() []string {
	if w.Proof == nil {
		return nil
	}
	return w.Proof.ToTry()
}

// Standing is how the wiring stands: Bad with a broken rule or a fault, Undecided
// where not everything could be looked at, or where the spread of times leaves it open.
func (w *Wired) Standing() Standing {
	return w.standing(func(logic.Rule) bool { return true }, func(string) bool { return true })
}

// standing is the same by some of the rules and faults.
func (w *Wired) standing(rules func(logic.Rule) bool, faults func(key string) bool) Standing {
	if slices.ContainsFunc(w.Faults, func(f logic.Fault) bool { return !f.Advice && faults(f.Key) }) {
		return Bad
	}
	if w.Problem != nil {
		return Undecided
	}
	s := Good
	if !w.Proof.Complete {
		s = Undecided
	}
	for i := range w.Proof.Verdicts {
		v := &w.Proof.Verdicts[i]
		if !rules(v.Rule) {
			continue
		}
		switch w.OnRule(v) {
		case judge.FallsShort:
			return Bad
		case judge.NotMeasured, judge.TooClose:
			s = Undecided
		}
	}
	return s
}

// OnRule is what came of a rule: one that is broken as things stand falls short; one
// that people followed through a vestibule do not see broken is too close to call where
// it is in too many of the draws.
func (w *Wired) OnRule(v *logic.Verdict) judge.Verdict {
	switch {
	case !v.Applies:
		return judge.DoesNotApply
	case v.Broken:
		return judge.FallsShort
	case v.Undone:
		return judge.NotMeasured
	case w.Walked != nil && w.Walked.Verdict(v.Rule, w.Policy) != judge.Meets:
		return judge.TooClose
	}
	return judge.Meets
}

// Summary is the outcome in one sentence, for where the wiring is not the matter, but
// for what people meet in a vestibule.
func (w *Wired) Summary() string {
	var wrong []string
	if w.Proof != nil {
		for _, v := range w.Proof.Broken() {
			if !v.Rule.OfWalk() {
				wrong = append(wrong, "not kept: "+strings.TrimSuffix(v.Rule.String(), "."))
			}
		}
	}
	for _, f := range w.Faults {
		if !f.Advice && !ofGroup(f.Key) {
			wrong = append(wrong, strings.TrimSuffix(f.Says, "."))
		}
	}
	switch {
	case len(wrong) > 0:
		return strings.Join(wrong, "; ")
	case w.Problem != nil:
		return w.Problem.Error()
	case !w.Proof.Complete:
		return fmt.Sprintf("not every order of events could be followed: it has more than %d states", w.Proof.States)
	}
	return ""
}

// wired proves the wiring of an opening unless one of the last ones had the same.
func (mk *Maker) wired(p *Plan, sheets *opening.Sheets) *Wired {
	o := p.Opening
	if o.Wiring.None() {
		return nil
	}
	clears := p.Clearing()
	door := DoorOf(o)
	door.ID = ""
	again := *mk.remembered([]any{filledIn(&o.Wiring, []*opening.Opening{o}, sheets), door, clears.Longest()}, func() *Wired { return Wire(o, sheets, logic.Effort{}, clears) })
	clears.Used = cmp.Or(clears.Longest(), logic.UsualClear)
	again.Of, again.Clears = o.ID, []Clearing{clears}
	return &again
}

// ProveGroup is [ProveGroup] in full, unless one of the last wirings was the same.
func (mk *Maker) ProveGroup(g *opening.Group, of []*opening.Opening, sheets *opening.Sheets, members ...*Member) *Wired {
	takes := []any{g.ID, filledIn(&g.Wiring, of, sheets)}
	for _, o := range of {
		takes = append(takes, DoorOf(o))
	}
	for _, m := range members {
		takes = append(takes, m.Clears)
	}
	return mk.remembered(takes, func() *Wired { return ProveGroup(g, of, sheets, logic.Effort{}, members...) })
}

// remembered proves a wiring unless it remembers one for which a proof takes in the same:
// hardware sheets and locks matter too.
func (mk *Maker) remembered(takes any, prove func() *Wired) *Wired {
	key, err := json.Marshal(takes)
	if known := mk.wirings[string(key)]; err == nil && known != nil {
		return known
	}
	if mk.wirings == nil || len(mk.wirings) >= mostWirings {
		mk.wirings = make(map[string]*Wired, mostWirings)
	}
	w := prove()
	mk.wirings[string(key)] = w
	return w
}

// mostWirings are remembered: the doors of a site are wired in a few ways.
const mostWirings = 32

// TakeWiring adds to a group what its wiring was found to do, and what people meet in
// a vestibule that is wired so. That outranks what was reckoned from a delay on paper.
func (g *Group) TakeWiring(w *Wired) {
	g.takeProof(w)
	g.takeWalk(w)
}

func (g *Group) takeProof(w *Wired) {
	s := Statement{What: "The wiring is safe in every order of events", YesNo: true, Value: 1, Limit: 1, Side: judge.AtLeast, Verdict: judge.Meets, Source: "common practice", Say: w.Summary()}
	switch w.standing(func(r logic.Rule) bool { return !r.OfWalk() }, func(key string) bool { return !ofGroup(key) }) {
	case Bad:
		s.Verdict, s.Value, s.Margin = judge.FallsShort, 0, -1
	case Undecided:
		s.Verdict, s.Value, s.Margin = judge.NotMeasured, math.NaN(), math.NaN()
		s.U = math.NaN()
		if w.Problem == nil {
			s.Say = "nothing that was followed breaks a rule, and not everything was: its orders of events are too many"
		}
	}
	g.Statements = append(g.Statements, s)
}
