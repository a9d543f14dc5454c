package packet

import (
	"strings"

	"swingwright/internal/paper"
	"swingwright/opening"
)

// release is what frees the leaf, as surveyed or as the lock's sheet says.
func (s *sheet) release() opening.LockRelease {
	if r := s.o.Lock.Release; r != "" {
		return r
	}
	if l := s.sheets.Lock(s.o.Lock.Sheet); l != nil {
		return l.Release
	}
	return ""
}

// lockKind is what the lock is, likewise.
func (s *sheet) lockKind() opening.LockKind {
	if l := s.sheets.Lock(s.o.Lock.Sheet); l != nil && s.o.Lock.Kind == "" {
		return l.Kind
	}
	return s.o.Lock.Kind
}

// asksFor is the head of every request: what, for whom, and by when.
func (s *sheet) asksFor(to string) {
	name := s.o.ID
	if s.o.Name != "" {
		name += ", " + s.o.Name
	}
	s.Pair("Opening", name)
	s.Pair("Job and site", strings.Join(present(s.Job.Name, s.Job.Site), ", "))
	s.Blanks(paper.Blank{Label: "to " + to, Share: 3}, paper.Blank{Label: "from, telephone", Share: 3}, paper.Blank{Label: "needed by", Share: 1.5})
}

// answered is the foot of every request.
func (s *sheet) answered(blanks ...paper.Blank) {
	s.Whole(func() {
		s.Heading("Your answer")
		if len(blanks) > 0 {
			s.Blanks(blanks...)
		}
		s.Blanks(paper.Blank{Label: "what cannot be done so, and why", Share: 1})
		s.Blanks(paper.Blank{Label: "name", Share: 2}, paper.Blank{Label: "licence, where one is needed", Share: 2}, paper.Blank{Label: "date", Share: 1}, paper.Blank{Label: "signature", Share: 2})
	})
}

func noElectrician(s *sheet) string { return s.unpowered() }

// electrician is the rough-in request.
func electrician(s *sheet) {
	s.asksFor("the licensed electrician")
	s.notYet()
	s.Say("We ask you for the mains side of a door operator. How it is done is yours to decide, under the local electrical code and your licence; the figures are those of the makers' papers.")
	s.Heading("Mains")
	t := paper.NewTable("what", "wanted")
	t.Columns[0].Width = 52
	op, supply := s.operator(), s.sheets.Supply(s.o.Power.Sheet)
	t.Row("Operator", s.operatorLoad(op))
	if supply != nil {
		t.Row("Its supply", say("%s: gives %s, %s all the time%s%s", supply.Name, given(s, supply.Volts), given(s, supply.Amps), peak(s, supply), classTwo(supply)))
	} else {
		t.Row("Its supply", "not chosen yet; it is told to you before you begin")
	}
	t.Row("Circuit", "one that is not switched with lights and carries nothing that trips it; its number on the cover and on this sheet")
	t.Row("Disconnect", "one that can be locked off, within sight of the operator, or as the local code has it")
	t.Row("Way of the wire", s.way())
	t.Row("Where it ends", "at the head of the frame, on the side of the operator's body; box and knock-out as its paper shows, clear of the swing and of the cover")
	s.Table(t)
	if f := s.Feeding; f != nil && len(f.Electrician) > 0 {
		s.Heading("By the wiring, yours")
		for _, text := range f.Electrician {
			s.Tick(upper(text))
		}
	}
	s.Heading("Low voltage: boxes and empty raceway")
	t = paper.NewTable("for", "where", "height of its middle", "box and raceway")
	for i := range s.o.Controls {
		c := &s.o.Controls[i]
		t.Row(orElse(c.What, "switch"), s.controlPlace(c), given(s, c.Height), s.controlBox(c))
	}
	if s.release().IsElectric() {
		t.Row("lock: "+releaseWords[s.release()], "at the latch jamb, or through the hinge edge", "height of the lock", "raceway to the operator's supply; the integrator pulls the wire")
	}
	if s.o.Use.FireRated == "yes" {
		t.Row("fire-alarm relay", "within reach of the operator's supply", "as the fire-alarm contractor says", "raceway to the operator; the fire-alarm contractor pulls the wire")
	}
	if t.Len() == 0 {
		t.Row("switches", "not placed yet", unknown, "told to you before you begin")
	}
	s.Table(t)
	s.Framed("Keep in mind", "Firestop every hole through a rated wall. Low voltage and mains keep apart. Nothing is drilled into leaf or frame for this. Leave the circuit off and locked until we have met.")
	s.answered(paper.Blank{Label: "panel", Share: 1}, paper.Blank{Label: "circuit number", Share: 1}, paper.Blank{Label: "breaker", Share: 1}, paper.Blank{Label: "volts measured", Share: 1}, paper.Blank{Label: "ready on", Share: 1})
	s.Figures(s.fromAbove())
}

func (s *sheet) operatorLoad(op *opening.OperatorSheet) string {
	if op == nil {
		return "not chosen yet; it is told to you before you begin"
	}
	text := op.Name
	if op.Supply != "" {
		return text + ": " + op.Supply + s.page(op.Page)
	}
	return text + say(": %s, %s moving, %s holding", given(s, op.Volts), given(s, op.Moving), given(s, op.Holding)) + s.page(op.Page)
}

func peak(s *sheet, p *opening.SupplySheet) string {
	if !p.Peak.Known {
		return ""
	}
	return ", " + given(s, p.Peak) + " for some seconds"
}

func classTwo(p *opening.SupplySheet) string {
	switch p.ClassTwo {
	case "yes":
		return "; its output is a Class 2 circuit"
	case "no":
		return "; its output is no Class 2 circuit"
	}
	return ""
}

func (s *sheet) way() string {
	text := "length not known: please look"
	if d := s.o.Power.Distance; d.Known {
		text = "about " + s.far(d) + " to the nearest source, as paced on the survey"
	}
	switch s.o.Power.Reachable {
	case "no":
		text += "; on the survey no circuit was found that could be brought here"
	case "":
		text += "; whether a circuit has room for it was not found out"
	}
	return text
}

// controlPlace is where a switch goes.
func (s *sheet) controlPlace(c *opening.Control) string {
	text := "side not known"
	if c.Side != "" {
		text = string(c.Side) + " side"
	}
	if c.FromMiddle.Known {
		text += ", " + s.far(c.FromMiddle) + " from the middle of the doorway"
	}
	return text
}

func (s *sheet) controlBox(c *opening.Control) string {
	switch a := s.sheets.Actuator(c.Sheet); {
	case a == nil:
		return "its sheet is not chosen yet"
	case a.Radio.Known:
		return "none: it works by radio"
	case a.Volts.Known:
		return "box and raceway; " + given(s, a.Volts) + " at the switch"
	}
	return "box and raceway; a contact without voltage"
}

var releaseWords = map[opening.LockRelease]string{
	"": "what frees it is not known", "not-needed": "nothing to free", "strike": "electric strike", "retraction": "motor that draws the latch", "trim": "electrified trim",
	"magnet": "magnet", "dogged": "dogged", "by-hand-only": "by hand only",
}

func noAlarm(s *sheet) string {
	switch {
	case s.unpowered() != "":
		return s.unpowered()
	case s.o.Use.FireRated == "no":
		return "no fire label; where the building wants the operator stopped on alarm all the same, write use.fire_rated"
	}
	return ""
}

// alarm is the interface request to the fire-alarm contractor. NFPA 80-2010, 6.1.4,
// read second-hand: a device disconnects the operator at the time of fire, so that the
// leaf closes and latches whatever power or hands do.
func alarm(s *sheet) {
	s.asksFor("the fire-alarm contractor")
	if s.o.Use.FireRated == "" {
		s.Framed("Not settled yet", "Nobody wrote down whether this opening is fire rated. Please tell us whether the alarm has to act here.")
	}
	s.Say("An operator is fitted to this door. Nobody but you touches the panel and its modules. We ask for one relay near the operator, and for a date on which we test together.")
	s.Heading("What we need")
	t := paper.NewTable("what", "wanted")
	t.Columns[0].Width = 46
	t.Row("Door", s.doorLabel())
	t.Row("Relay", "one contact without voltage, panel-side, not on the sounder circuit, so that silencing the sounders does not bring the operator back")
	t.Row("State", "closed while all is well; open on alarm, and open when its wire breaks or its power fails, so that the door closes")
	t.Row("Load", "a signal input of the operator, low voltage; or its motor supply where the maker's paper wants it so: "+s.operatorLoad(s.operator()))
	if s.release().IsElectric() {
		t.Row("Lock", "the same alarm acts on the "+releaseWords[s.release()]+s.lockOnAlarm())
	}
	t.Row("Who programs", "you; which detectors and zones act here is settled with the authority having jurisdiction")
	s.Table(t)
	s.Heading("What must happen")
	t = paper.NewTable("event", "operator", "leaf", "lock", "seen")
	t.Columns[4].Width = 18
	for _, e := range [...][4]string{
		{"alarm, leaf closed", "dead to every press", "stays closed and latched", s.lockState("alarm")},
		{"alarm, leaf held open", "lets go at once", "closes by itself and latches", s.lockState("alarm")},
		{"alarm, leaf opening", "stops driving", "closes by itself and latches", s.lockState("alarm")},
		{"sounders silenced", "still dead", "stays closed", s.lockState("alarm")},
		{"panel reset", "works again; no old press opens the leaf", "stays closed", s.lockState("normal")},
		{"wire to the relay cut", "as on alarm", "closes and latches", s.lockState("alarm")},
		{"mains off", "dead", "opens by hand, closes and latches", s.lockState("power")},
		{"mains back", "works again; does not open by itself", "stays closed", s.lockState("normal")},
	} {
		t.Cells(paper.Cell{Text: e[0], Bold: true}, paper.Cell{Text: e[1]}, paper.Cell{Text: e[2]}, paper.Cell{Text: e[3]}, paper.Cell{Line: true})
	}
	s.Table(t)
	s.Note("A power-operated fire door: a releasing device disconnects the operator at the time of fire, so that the leaf closes and latches regardless of power or hands (NFPA 80, 6.1.4, read second-hand). Authorities differ on details: please have theirs in writing.")
	s.answered(paper.Blank{Label: "module and address", Share: 1}, paper.Blank{Label: "place of the relay", Share: 1}, paper.Blank{Label: "normal state, terminals", Share: 1}, paper.Blank{Label: "test together on", Share: 1})
	s.Heading("Test together")
	s.Blanks(paper.Blank{Label: "alarm given at", Share: 1}, paper.Blank{Label: "seconds until closed and latched", Share: 1.4}, paper.Blank{Label: "seen by (fire-alarm contractor)", Share: 1.6}, paper.Blank{Label: "seen by (authority)", Share: 1.6})
}

func (s *sheet) doorLabel() string {
	text := "fire rated"
	switch s.o.Use.FireRated {
	case "no":
		text = "not fire rated"
	case "":
		text = "whether it is fire rated is not known"
	}
	if s.o.Fire.LabelTime.Known {
		text += ", label " + s.labelTime()
	}
	if s.o.Fire.SmokeControl == "yes" {
		text += ", keeps smoke back"
	}
	if s.o.Use.Egress == "yes" {
		text += ", on a way out"
	}
	return text
}

// failMode is what the lock does without power; empty where no sheet tells.
func (s *sheet) failMode() opening.FailMode {
	if s.release() == "strike" {
		if k := s.sheets.Strike(s.o.Lock.Strike); k != nil {
			return k.Fails
		}
	}
	if l := s.sheets.Lock(s.o.Lock.Sheet); l != nil {
		return l.Fails
	}
	return ""
}

func (s *sheet) lockOnAlarm() string {
	switch s.failMode() {
	case "fail-secure":
		return ": it stays latched, and people get out by hand"
	case "fail-safe":
		return ": it lets go, and the latch holds"
	}
	return ": whether it stays latched or lets go without power is not known; look on its label"
}

// lockState is what the lock does in a state of the building.
func (s *sheet) lockState(state string) string {
	switch {
	case !s.release().IsElectric():
		return "latches by itself"
	case state == "normal":
		return "as before"
	case s.failMode() == "fail-secure":
		return "latched; free from inside by hand"
	case s.failMode() == "fail-safe":
		return "let go; the latch holds"
	}
	return "not known: ask"
}

func noAccess(s *sheet) string {
	switch {
	case s.unpowered() != "":
		return s.unpowered()
	case !s.release().IsElectric() && s.o.Use.Activation != "access-control" && s.o.Lock.StaysLocked != "yes" && s.o.Lock.Delayed != "yes":
		return "no lock has to be released by a signal, and no access control starts the leaf"
	}
	return ""
}

// access is the interface request to the access-control integrator. What stands in the
// tables is common practice.
func access(s *sheet) {
	s.asksFor("the access-control integrator")
	s.Say("An operator is fitted to this door. It may push only when the lock is free, and it must not be started from outside while the door has to stay locked. We ask for your side of it.")
	s.Heading("What is there")
	t := paper.NewTable("what", "as surveyed", "what", "as surveyed")
	t.Columns[1].Grow, t.Columns[3].Grow = 1, 1
	t.Row("Lock", orElse(string(s.lockKind()), unknown), "Free after the signal", given(s, s.releaseTime()))
	t.Row("Freed by", releaseWords[s.release()], "Has to stay locked at some hours", orElse(string(s.o.Lock.StaysLocked), unknown))
	t.Row("Without power", orElse(string(s.failMode()), unknown), "Lets out only after a time", orElse(string(s.o.Lock.Delayed), unknown))
	s.Table(t)
	s.Heading("What must happen")
	t = paper.NewTable("event", "lock", "operator", "access control", "seen")
	t.Columns[4].Width = 14
	outside := "starts after the delay"
	if s.o.Lock.StaysLocked != "no" {
		outside = "dead while locked; starts after the delay while unlocked"
	}
	for _, e := range [...][4]string{
		{"valid card outside, then the switch", "released", "starts " + s.lockDelay() + " at the soonest", "no forced alarm"},
		{"outside switch alone", "not released by it", outside, "nothing"},
		{"inside switch", "released", "starts after the delay", "request to exit: no forced alarm"},
		{"leaf opening", "stays released until past 15 deg, or 3 s at least", "drives", "held-open time longer than one opening"},
		{"leaf does not come free", "released again, once", "stops within 5 deg in 2 s, then waits for a new press", "may report"},
		{"night", "locked", "dead from outside", "out by hand at all times"},
		{"power lost", s.lockState("power"), "dead; leaf opens by hand", "as you say"},
	} {
		t.Cells(paper.Cell{Text: e[0], Bold: true}, paper.Cell{Text: e[1]}, paper.Cell{Text: e[2]}, paper.Cell{Text: e[3]}, paper.Cell{Line: true})
	}
	s.Table(t)
	s.Framed("Way out", "Whatever is locked, the leaf opens from inside by hand, with power or without. A lock that delays, and a magnet without a release beside it, go to the authority having jurisdiction first.")
	s.Whole(func() {
		s.Heading("What we ask from you")
		t := paper.NewTable("")
		for _, text := range []string{
			"A contact without voltage that closes while the card is valid, in series with the outside switch.",
			"An input for the inside switch, as request to exit, so that no alarm is given for it.",
			"The hours at which the door is locked, and who changes them.",
			"Who supplies the lock's power: volts, amperes, and where.",
		} {
			t.Cells(paper.Cell{Text: text, Tick: true})
		}
		s.Table(t)
	})
	s.answered(paper.Blank{Label: "controller, door number", Share: 1}, paper.Blank{Label: "relay, terminals", Share: 1}, paper.Blank{Label: "request to exit, terminals", Share: 1.2}, paper.Blank{Label: "ready on", Share: 1})
}
