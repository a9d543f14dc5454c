package packet

import (
	"math"
	"strconv"
	"strings"

	"swingwright/decision"
	"swingwright/fact"
	"swingwright/internal/paper"
	"swingwright/judge"
	"swingwright/opening"
	"swingwright/plan"
	q "swingwright/quantity"
)

func noWork(s *sheet) string {
	if s.refused() {
		return "the opening cannot be powered as it is; see the letter"
	}
	return ""
}

// work is the steps in an order in which none undoes an earlier one, with the
// settings and what to expect. The order is common practice.
func work(s *sheet) {
	s.notYet()
	s.Say("Tick each step as it is done. The order matters: a later step does not undo an earlier one. T and a number point to the commissioning sheet.")
	s.beware()
	s.Note(s.standingWords())
	s.Heading("Settings and what to expect")
	s.settings()
	s.Heading("Steps")
	for i, text := range s.steps() {
		s.Todo(strconv.Itoa(i+1), text)
	}
	if len(s.p.Room.Marks) > 0 {
		s.Heading("Floor marks")
		s.floorMarks()
	}
	s.Heading("What was done otherwise, and why")
	s.LinesToFoot(func() {
		s.Blanks(paper.Blank{Label: "done by", Share: 2}, paper.Blank{Label: "date", Share: 1}, paper.Blank{Label: "signature", Share: 2})
	})
}

// notYet warns where something has to be changed, or answered by others, before the
// work begins; what follows then holds for the opening as it was found.
func (s *sheet) notYet() {
	if !s.powered() {
		return
	}
	switch s.Decision.Answer {
	case decision.Change:
		s.Framed("Not as it is", "Something has to be changed before this opening is powered; the first page and the steps tell what. Settings and times below are those of the opening as it was found: reckon it again with the change.")
	case decision.Refer:
		s.Framed("Not before others have answered", "Somebody else has to answer first; the letter tells who and for what. Nothing is fitted until then.")
	}
}

// settings are what to set, to what, and what that comes to.
func (s *sheet) settings() {
	t := paper.NewTable("what", "set to", "expect", "limit here", "found")
	t.Columns[4].Width = 22
	row := func(what, set, expect, limit string) {
		t.Cells(paper.Cell{Text: what}, paper.Cell{Text: set, Bold: true}, paper.Cell{Text: orElse(expect, "–")}, paper.Cell{Text: orElse(limit, "–")}, paper.Cell{Line: true})
	}
	s.closerRows(row)
	if s.powered() {
		s.operatorRows(row)
	}
	s.Table(t)
	if s.Window != nil && s.Window.Open() {
		s.Note("The closer's settings are those that spare most for every limit at once, by best estimates: set, measure, and turn by an eighth where it is not so.")
	}
}

type rowFunc func(what, set, expect, limit string)

func (s *sheet) closerRows(row rowFunc) {
	c := &s.o.Closer
	if c.None == "yes" {
		return
	}
	if w := s.Window; w != nil && w.Open() && w.Best != nil {
		row("closer spring", say("power %.1f", float64(w.Best.Power.Setting)), "push "+s.amount(q.DimForce, float64(w.HandOpen), 0)+" at the handle, power off", s.short(fact.HandToOpen))
		row("sweep valve", turned(w.SweepSet), say("%.1f s from 90 to 12 deg", float64(w.Marks[1].Time)), s.short(fact.CloseTime90To12))
		row("latch valve", turned(w.LatchSet), say("%.1f s from 10 deg to closed", float64(w.Marks[3].Time-w.Marks[2].Time)), s.short(fact.CloseTime10ToClosed))
		return
	}
	row("closer spring", "power "+given(s, c.Size)+", as found", "push "+s.predicted(fact.HandToOpen), s.short(fact.HandToOpen))
	row("sweep valve", "as found", s.fact(fact.CloseTime90To12)+" from 90 to 12 deg", s.short(fact.CloseTime90To12))
	row("latch valve", "as found", s.fact(fact.CloseTime10ToClosed)+" from 10 deg to closed", s.short(fact.CloseTime10ToClosed))
	row("backcheck", "smooth, from "+s.fact(fact.BackcheckFrom), "", s.short(fact.PoweredBackcheckFrom))
}

// turned is the place of a valve.
func turned(t q.Turns) string {
	if math.IsNaN(float64(t)) {
		return "by the time beside"
	}
	return say("%.2f turns open from shut", float64(t))
}

func (s *sheet) operatorRows(row rowFunc) {
	op := &s.o.Operator
	set := func(m string) string { return orElse(m, "as the sheet says") }
	angle := ""
	if op.OpenAngle.Known {
		angle = exact(s, op.OpenAngle.Value)
	}
	row("open angle", set(angle), "clear width "+s.fact(fact.PoweredClearWidth), s.short(fact.PoweredClearWidth))
	speed := ""
	if op.Setting.Known {
		speed = "mark " + exact(s, op.Setting.Value)
	} else if op.Speed.Known {
		speed = exact(s, op.Speed.Value)
	}
	row("opening speed", set(speed), s.fact(fact.PoweredTimeToCheck)+" to backcheck or 80 deg", s.short(fact.PoweredTimeToCheck))
	row("opening, all the way", "–", s.fact(fact.PoweredTimeToOpen), s.short(fact.PoweredTimeToOpen))
	dwell := ""
	if op.Dwell.Known {
		dwell = exact(s, op.Dwell.Value)
	}
	row("hold open", set(dwell), s.fact(fact.PoweredDwell), s.short(fact.PoweredDwell))
	row("force that stops it", "–", s.predicted(fact.PoweredStallMoment), s.short(fact.PoweredStallMoment))
	if s.release().IsElectric() {
		row("lock delay", s.lockDelay(), "leaf free before it is pushed", "–")
	}
}

// lockDelay is how long the operator waits for the lock: its release and a fifth of
// a second to spare, by the tenth (common practice).
func (s *sheet) lockDelay() string {
	release := s.releaseTime()
	if !release.Known {
		return "release time not known: time it five times, take the worst, add 0.2 s"
	}
	wait := math.Ceil(10*(float64(release.Value)+0.2)-1e-9) / 10
	return say("%.1f s after the release", wait)
}

// releaseTime is the lock's, as timed on site, else as its sheets say.
func (s *sheet) releaseTime() q.Measured[q.Time] {
	l := &s.o.Lock
	if l.ReleaseDelay.Known {
		return l.ReleaseDelay
	}
	if strike := s.sheets.Strike(l.Strike); strike != nil && strike.ReleaseTime.Known {
		return strike.ReleaseTime
	}
	if lock := s.sheets.Lock(l.Sheet); lock != nil {
		return lock.ReleaseTime
	}
	return q.Measured[q.Time]{}
}

// short is the strictest limit on a fact without its source.
func (s *sheet) short(id fact.ID) string {
	if f := s.strictest(id); f != nil {
		return s.bound(f)
	}
	return ""
}

// steps are what is done, in order.
func (s *sheet) steps() (all []string) {
	add := func(format string, args ...any) { all = append(all, say(format, args...)) }
	add("Make safe. Cones and a sign on both sides; tell who is in charge. Wedge the leaf when anybody works at it. %s", s.isolate())
	add("Arm off: swing the leaf by hand from closed to open. It moves freely (at most 1.5 lbf (6.7 N) at the latch edge; figure from memory), binds nowhere, and stays where it is let go (T1).")
	mend, adjust := s.repairs()
	all = append(all, mend...)
	if s.o.Closer.None != "yes" {
		add("Closer by itself: set spring, sweep, latch, then backcheck, in this order, an eighth of a turn at a time, and time three closings after each. Never unscrew a valve past its stop; the spring is loaded even when the leaf stands still.")
	}
	all = append(all, adjust...)
	add("Record the leaf as it is by hand, before anything is fitted: T1 to T4 and T10, with the temperature at the closer.")
	if !s.powered() {
		add("Let it close and latch from fully open, from half, from 30 degrees and from 5, each three times, fans on and off (T22).")
		return append(all, "Record everything on the commissioning sheet, also what was left as found.")
	}
	if s.o.Operator.Fitted != "yes" {
		add("Mount the operator by its template: check the printed bar, mark from the named edges, look at both faces for glass, rods and wires before drilling%s. Pilot first, then full size. Tighten by the maker's torque%s, and mark every tightened screw (T24). Arm square, nothing under strain.", s.fireDrill(), colon(s.torques()))
	} else {
		add("The operator is fitted. Check every screw by the maker's torque%s (T24), its arm, its cover and the cord.", colon(s.torques()))
	}
	add("Power: mains by the licensed electrician only. Measure at the operator's terminals while it moves and the lock works%s (T17).", s.voltage())
	if s.o.DoorLoop.Frame.Known() || s.o.DoorLoop.Leaf.Known() {
		add("Cord across the hinges: swing to the widest; it neither stretches nor is pinched. Then set the closed position.")
	}
	add("Teach closed, then open%s: at least 1/2 in (13 mm) before anything stops the leaf (T15, T25).", s.openAt())
	add("Set the opening speed; time it from the first movement, not from the press (T5, T6). Too quick is worse than too slow.")
	add("Set the hold, counted from the moment it stands open (T7).")
	add("Time the closing again with the operator on: it may have changed (T8, T9).")
	add("Forces: by hand with power off (T12), and what stops the leaf, opening and closing (T11).")
	add("Obstruction: a soft block at 45 degrees, then a hand. It stops or turns back and pushes no harder than T11 allows (T13).")
	if s.release().IsElectric() {
		add("Lock: ten times from the press to open, also while somebody leans on the leaf. The bolt is free before the leaf is pushed; wait %s (T19).", s.lockDelay())
	}
	if s.o.Lock.StaysLocked == "yes" {
		add("Locked: the outside switch does nothing, the inside one lets out, and the leaf opens by hand from inside.")
	}
	if s.o.Use.FireRated != "no" {
		add("Alarm, together with the fire-alarm contractor: on alarm the operator lets go, presses do nothing, the leaf closes and latches; after reset no old press opens it (T20).")
	}
	add("Power off and on: the leaf opens by hand, closes by itself, and does not open when power comes back (T21).")
	if s.wireless() {
		add("Wireless switches: ten presses each from the worst place (T18). Write the month on the battery.")
	}
	add("Let it close and latch from fully open, from half, from 30 degrees and from 5, each three times, fans on and off (T22).")
	add("Signs and cover on; take away tools, cones and dust (T23).")
	return append(all, "Record everything on the commissioning sheet; show the owner how it works and the daily check; both sign.")
}

func (s *sheet) isolate() string {
	if s.powered() {
		return "Isolate the power before any cover is opened, and lock it off."
	}
	return ""
}

// colon leads in a text; nothing leads in nothing.
func colon(text string) string {
	if text == "" {
		return ""
	}
	return ": " + text
}

func (s *sheet) fireDrill() string {
	if s.o.Use.FireRated == "yes" {
		return ". This is a fire door: only what its label's listing and the fire-door sheet allow, and every hole is written there"
	}
	return ""
}

// voltage is what the operator needs, a tenth less at the worst moment (common practice).
func (s *sheet) voltage() string {
	if op := s.operator(); op != nil && op.Volts.Known {
		return ": at least " + s.amount(q.DimVoltage, 0.9*float64(op.Volts.Value), 0)
	}
	return ""
}

func (s *sheet) openAt() string {
	if s.o.Operator.OpenAngle.Known {
		return " at " + exact(s, s.o.Operator.OpenAngle.Value)
	}
	return ""
}

// wireless tells that a switch works by radio.
func (s *sheet) wireless() bool {
	for i := range s.o.Controls {
		if a := s.sheets.Actuator(s.o.Controls[i].Sheet); a != nil && a.Radio.Known {
			return true
		}
	}
	return false
}

// repairs are the cures that the decision asks for, each with the test that it mends:
// work on what is there, and what is done by setting. Where the settings are told
// that keep every limit, a test that asks for others waits for how these turn out.
func (s *sheet) repairs() (mend, adjust []string) {
	seen := map[string]bool{}
	set := s.Window != nil && s.Window.Open()
	for i := range s.Decision.Rungs {
		r := &s.Decision.Rungs[i]
		if r.Verdict == judge.Meets || r.Answer == decision.FindOut || r.Answer == decision.Go {
			continue
		}
		text := "Mend first: " + lower(r.Test) + "."
		if c := r.Cure(); c != nil {
			if text = s.mended(r); text == "" {
				continue
			}
			if c.But != "" {
				text += " " + upper(c.But) + "."
			}
		} else if r.Why != "" {
			text += " " + upper(r.Why) + "."
		}
		setting := r.Cure() != nil && r.Cure().Effort == decision.Adjusting
		if setting && set {
			if strings.HasPrefix(r.Cure().What, "set the spring to") {
				continue // those of the table above
			}
			text = "Where it does not hold with the settings above that " + lower(r.Test) + ": " + r.Cure().What + "."
			if r.Cure().But != "" {
				text += " " + upper(r.Cure().But) + "."
			}
		}
		switch {
		case seen[text]:
		case setting:
			adjust = append(adjust, text)
		default:
			mend = append(mend, text)
		}
		seen[text] = true
	}
	return mend, adjust
}

// floorMarks are the places of the marks, in both units.
func (s *sheet) floorMarks() {
	t := paper.NewTable("leaf angle", "straight on the floor", "or", "± of the angle", "for")
	for i := range s.p.Room.Marks {
		m := &s.p.Room.Marks[i]
		other := q.US
		if s.units == q.US {
			other = q.SI
		}
		t.Row(angle(m), paper.Hold(q.ByTape(m.Chord, s.units)), paper.Hold(q.ByTape(m.Chord, other)), paper.Hold(q.FormatValue(2*m.U, q.SI, 2)), orElse(m.For, "–"))
	}
	s.Table(t)
	s.Note("Straight from the latch edge of the closed leaf to the latch edge at the angle, at the same height; lay the tape on the floor.")
}

func angle(m *plan.FloorMark) string {
	return strings.TrimSuffix(say("%.1f", float64(m.Angle/q.Degree)), ".0") + " deg"
}

// startWords are what starts a leaf, as a sentence says it.
var startWords = map[opening.Activation]string{
	"": "something not known", "none": "hand", "switch": "a switch", "touchless": "a touchless switch",
	"access-control": "access control", "push-pull": "pushing or pulling the leaf", "sensor": "a sensor",
}
