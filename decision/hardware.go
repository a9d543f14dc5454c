package decision

import (
	"fmt"
	"slices"
	"strings"

	"swingwright/fact"
	"swingwright/judge"
	"swingwright/opening"
	"swingwright/plan"
	q "swingwright/quantity"
)

// meant: what is the opening meant to be?
func (l *ladder) meant() {
	switch u := &l.o.Use; {
	case u.Operation == "":
		l.put(Rung{Test: "It is known how the leaf is to be opened", Source: practice, Verdict: judge.NotMeasured, Missing: []string{"use.operation"}}, FindOut)
	case !l.powered:
	case l.operator == nil:
		l.put(Rung{
			Test: "An operator was chosen", Source: practice, Verdict: judge.NotMeasured, Missing: []string{"operator.sheet"}, Why: l.suited(),
		}, FindOut)
	}
	if l.powered {
		l.call("licensed electrician", "mains work for the operator, under the local electrical code")
	}
}

// suited names the operators among the job's sheets whose limits of use the leaf keeps.
func (l *ladder) suited() string {
	var names []string
	for i := range l.sheets.Operators {
		s := &l.sheets.Operators[i]
		if l.suits(s) {
			names = append(names, s.Name)
		}
	}
	if len(names) == 0 {
		return "none of the job's operator sheets is for this leaf and closer"
	}
	return "by its limits of use for leaf and closer, " + strings.Join(names, " or ") + " would do"
}

// suits tells that leaf and closer lie within an operator's limits of use, by best
// estimates; what is not known is within.
func (l *ladder) suits(s *opening.OperatorSheet) bool {
	u := &s.Limits
	if !inside(l.p.Facts[fact.LeafWidth], u.WidthMin, u.WidthMax) || !inside(l.p.Facts[fact.LeafMass], u.WeightMin, u.WeightMax) {
		return false
	}
	if s.Kind != opening.AddOn {
		return true
	}
	arm := l.arm == nil || len(u.Arms) == 0 || slices.Contains(u.Arms, l.arm.Kind)
	return inside(l.p.Facts[fact.CloserSize], u.PowerMin, u.PowerMax) && l.o.Closer.None != "yes" && arm
}

// inside tells that a value is not known to lie outside a span.
func inside[Q q.Quantity](f plan.Fact, low, high q.Measured[Q]) bool {
	return !f.Known || !(low.Known && f.Value < float64(low.Value)) && !(high.Known && f.Value > float64(high.Value))
}

// suitable is the first of the job's operators that suits and is such a one; nil
// where none is.
func (l *ladder) suitable(such func(*opening.OperatorSheet) bool) *opening.OperatorSheet {
	for i := range l.sheets.Operators {
		if s := &l.sheets.Operators[i]; such(s) && l.suits(s) {
			return s
		}
	}
	return nil
}

// hardware: can the closer and its arm stay?
func (l *ladder) hardware() {
	c := &l.o.Closer
	addOn := l.addOn()
	const test = "Closer and arm are of a kind that can stay"
	switch {
	case addOn && c.None == "yes":
		l.fails(test, practice, "an add-on drives the closer that is there, and there is none", Refuse, l.ownArm(), Cure{
			What: "fit a closer that the operator's paper permits", Effort: Replacing, Answer: Change, Works: true,
		})
	case c.None == "yes":
		return
	case addOn && (c.Seated == "concealed" || c.Seated == "floor"):
		l.fails(test, practice, fmt.Sprintf("the closer is %s, and an add-on turns the pinion of one on the surface", map[opening.CloserSeat]string{"concealed": "concealed", "floor": "in the floor"}[c.Seated]), Refuse, l.ownArm())
	case l.powered && l.holdsOpen():
		l.fails(test, practice, "closer or arm can hold the leaf open, which no operator and no fire door may have", Refuse, Cure{
			What: "an arm that cannot hold the leaf open", Effort: Replacing, Answer: Change, Works: true,
		})
	case c.Leaks == "yes":
		l.fails(test, practice, "oil at its valves or shaft: a leaking closer is replaced, never adjusted", Repair, Cure{
			What: "a new closer of the same size", Effort: Replacing, Answer: Repair, Works: true,
		})
	case addOn && c.Seated == "":
		l.put(Rung{Test: test, Source: practice, Verdict: judge.NotMeasured, Missing: []string{"closer.mounting"}}, Refuse)
	default:
		l.put(Rung{Test: test, Source: practice, Verdict: judge.Meets}, Refuse)
	}
}

func (l *ladder) holdsOpen() bool {
	return l.o.Closer.HoldOpen == "yes" || l.arm != nil && l.arm.Limits.HoldsOpen == "yes"
}

// ownArm is a unit with its own arm in place of an add-on, named where the job has one.
func (l *ladder) ownArm() Cure {
	if s := l.suitable(func(s *opening.OperatorSheet) bool { return s.Kind == opening.OwnArm }); s != nil {
		return Cure{What: "a unit with an arm of its own: " + s.Name + " is for this leaf", Effort: Replacing, Answer: Change, Works: true}
	}
	return Cure{What: "a unit with an arm of its own; the job has no sheet of one for this leaf", Effort: Replacing, Answer: Change}
}

// limitsOfUse: does the leaf lie within what the papers allow?
func (l *ladder) limitsOfUse() {
	if l.operator != nil && l.powered {
		l.operatorLimits(l.operator)
	}
	if l.closer != nil && l.o.Closer.None != "yes" {
		l.closerLimits()
	}
}

func (l *ladder) operatorLimits(s *opening.OperatorSheet) {
	u, source := &s.Limits, paper("operator", s.Name, s.Page)
	bigger := Cure{What: "an operator of another class", Effort: Replacing, Answer: Change, Works: true}
	if other := l.suitable(func(s *opening.OperatorSheet) bool { return s != l.operator }); other != nil {
		bigger.What = other.Name + ", whose limits of use the leaf keeps"
	}
	width, mass := l.p.Facts[fact.LeafWidth], l.p.Facts[fact.LeafMass]
	within(l, "Leaf width is within the operator's limits", source, u.WidthMin, u.WidthMax, width, bigger, "leaf.width")
	within(l, "Leaf weight is within the operator's limits", source, u.WeightMin, u.WeightMax, mass, bigger, "leaf.weight")
	within(l, "Open angle is within the operator's limits", source, u.OpenMin, u.OpenMax, l.p.Facts[fact.PoweredOpenAngle],
		Cure{What: "set another open angle", Effort: Adjusting, Answer: Repair, Works: true}, "operator.open_angle")
	within(l, "The reveal is within the operator's limits", source, q.Measured[q.Length]{}, u.RevealMax, l.p.Facts[fact.DoorwayDepth],
		Cure{What: "a longer arm or a track, if the maker has one", Effort: Replacing, Answer: Change}, "doorway.depth")
	l.temperature(source, u.Coldest, u.Hottest)
	if s.Kind == opening.AddOn {
		l.armAllowed(source, u.Arms)
	}
}

// within puts a rung for a span that a paper states, with its cure unless it is met; what
// the paper does not state is not limited.
func within[Q q.Quantity](l *ladder, test, source string, low, high q.Measured[Q], f plan.Fact, cure Cure, field string) {
	r, stated := span(l, test, source, low, high, f, field)
	if !stated {
		return
	}
	if r.Verdict != judge.Meets {
		r.Cures = []Cure{cure}
	}
	l.put(r, Change)
}

// span is the worse rung of the ends of a span that a paper states; false where it
// states none.
func span[Q q.Quantity](l *ladder, test, source string, low, high q.Measured[Q], f plan.Fact, field string) (worst Rung, stated bool) {
	for _, end := range [...]struct {
		side  judge.Side
		limit q.Measured[Q]
	}{{judge.AtLeast, low}, {judge.AtMost, high}} {
		if !end.limit.Known {
			continue
		}
		n := Number{Dim: end.limit.Value.Dimension(), Side: end.side, Value: f.Value, U: f.U, Limit: float64(end.limit.Value)}
		r := l.number(test, source, n, f.Known, field)
		if !stated || severity(r.Verdict) > severity(worst.Verdict) {
			worst, stated = r, true
		}
	}
	return worst, stated
}

// severity orders verdicts from met to falling short.
func severity(v judge.Verdict) int {
	switch v {
	case judge.Meets, judge.DoesNotApply:
		return 0
	case judge.NotMeasured:
		return 1
	case judge.TooClose:
		return 2
	}
	return 3
}

func (l *ladder) temperature(source string, coldest, hottest q.Measured[q.Temperature]) {
	now := l.o.Air.Temperature
	if now.Known {
		within(l, "Temperature is within the paper's limits", source, coldest, hottest, plan.Fact{Known: true, Value: float64(now.Value), U: float64(now.U)},
			Cure{What: "a vestibule, or hardware for that temperature", Effort: Replacing, Answer: Change, Works: true}, "air.temperature")
	}
}

// armAllowed: is the arm of a kind that the operator takes?
func (l *ladder) armAllowed(source string, kinds []opening.ArmKind) {
	if len(kinds) == 0 || l.arm == nil {
		return
	}
	r := Rung{Test: "The arm is of a kind that the operator takes", Source: source, Verdict: judge.Meets}
	if !slices.Contains(kinds, l.arm.Kind) {
		r.Verdict, r.Why = judge.FallsShort, fmt.Sprintf("a %s arm is not among them", l.arm.Kind)
		for _, a := range l.p.OtherArms(l.sheets) {
			if s := l.sheets.Arm(a.Name); s != nil && slices.Contains(kinds, s.Kind) {
				r.Cures = append(r.Cures, l.withArm(&a)...)
			}
		}
		r.Cures = append(sorted(r.Cures), l.ownArm())
	}
	l.put(r, Refuse)
}

// closerLimits: is the closer for this leaf at this power?
func (l *ladder) closerLimits() {
	c, s := &l.o.Closer, l.closer
	source := paper("closer", s.Name, s.Page)
	if c.Size.Known {
		width, weight := sizeLimits(s, c.Size.Value)
		stronger := Cure{What: "a closer, or a power, for this leaf", Effort: Replacing, Answer: Change, Works: true}
		within(l, "Leaf width suits the closer's power", source, q.Measured[q.Length]{}, width, l.p.Facts[fact.LeafWidth], stronger, "leaf.width")
		within(l, "Leaf weight suits the closer's power", source, q.Measured[q.Mass]{}, weight, l.p.Facts[fact.LeafMass], stronger, "leaf.weight")
	}
	if l.arm != nil && len(s.Limits.Arms) > 0 {
		r := Rung{Test: "The closer takes this kind of arm", Source: source, Verdict: judge.Meets}
		if !slices.Contains(s.Limits.Arms, l.arm.Kind) {
			r.Verdict, r.Why = judge.FallsShort, fmt.Sprintf("a %s arm is not among those of its paper", l.arm.Kind)
		}
		l.put(r, Change)
	}
	if l.operator == nil {
		l.temperature(source, s.Limits.Coldest, s.Limits.Hottest)
	}
	if l.o.Use.FireRated == "yes" {
		if answer := firstAnswer(l.o.Closer.ForFire, s.Limits.ForFire); answer != "" {
			l.put(answered("The closer is marked for fire doors", source, answer, "yes", "closer.fire_suitable"), Change)
		}
	}
}

func firstAnswer(all ...opening.YesNo) opening.YesNo {
	for _, a := range all {
		if a != "" {
			return a
		}
	}
	return ""
}

// sizeLimits are the limits of the weakest marked power that is at least the one set.
func sizeLimits(s *opening.CloserSheet, size q.Ratio) (q.Measured[q.Length], q.Measured[q.Mass]) {
	for i := range s.Powers {
		if s.Powers[i].Size.Value >= size {
			return s.Powers[i].Width, s.Powers[i].Weight
		}
	}
	return q.Measured[q.Length]{}, q.Measured[q.Mass]{}
}
