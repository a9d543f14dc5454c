package packet

import (
	"slices"
	"strings"

	"swingwright/internal/draw"
	"swingwright/internal/paper"
	"swingwright/judge"
	"swingwright/logic"
	"swingwright/picture"
	"swingwright/plan"
)

func noWiring(s *sheet) string {
	switch {
	case s.unpowered() != "":
		return s.unpowered()
	case s.wired() == nil:
		return "no wiring is written down: devices, terminals and wires, point to point"
	}
	return ""
}

// wired is the wiring of the opening, or of the group that shares one; nil without.
func (s *sheet) wired() *plan.Wired {
	if s.Wired != nil {
		return s.Wired
	}
	return s.p.Wired
}

// wiring is what to connect with what, and proof of what that does.
func wiring(s *sheet) {
	w := s.wired()
	s.Framed("Isolate", "Isolate before opening a cover, and measure that it is off. Line voltage is a licensed electrician's, under the local electrical code. Connect and test the fire alarm together with its own contractor.")
	if w.Of != s.o.ID {
		s.Say(say("This wiring is that of %s, which the opening shares.", w.Of))
	}
	s.proof(w)
	s.through(w)
	s.releases(w)
	s.Float(s.picture("riser", func() *draw.Scene { return picture.Riser(s.o.Name, w) }))
	s.Float(s.picture("connections", func() *draw.Scene { return picture.Connections(s.o.Name, w) }))
	if w.Problem == nil {
		s.terminals(w.Proof.Machine)
		s.sequence(w.Sequence())
		s.truth(w.Proof.Machine)
		s.alarmMatrix(w.Proof.Machine)
	}
	s.toTry(w)
	s.Note("What is proved is proved of the wiring as it is written down, and of devices that behave as such devices commonly do. Try the lock ten times, the alarm and the loss of power on site.")
}

// toTry is what no wiring shows, to be tried and ticked.
func (s *sheet) toTry(w *plan.Wired) {
	all := w.ToTry()
	if len(all) == 0 {
		return
	}
	s.Heading("To try on site: no wiring shows it")
	t := paper.NewTable("what to try", "found")
	t.Columns[0].Grow, t.Columns[1].Width = 1, 40
	for _, one := range all {
		t.Cells(paper.Cell{Text: one}, paper.Cell{Line: true})
	}
	s.Table(t)
}

// proof tells which rules the wiring keeps, and how each other one is broken.
func (s *sheet) proof(w *plan.Wired) {
	if w.Problem != nil {
		s.Framed("Nothing could be proved", upper(w.Problem.Error()))
	} else {
		how := "Every order of events was followed"
		if !w.Proof.Complete {
			how = "Not every order of events could be followed"
		}
		s.Heading(say("%s: %d states, %d steps", how, w.Proof.States, w.Proof.Steps))
		t := paper.NewTable("", "rule", "tried on site")
		t.Columns[0].Width, t.Columns[1].Grow, t.Columns[2].Width = 24, 1, 24
		for i := range w.Proof.Verdicts {
			v := &w.Proof.Verdicts[i]
			if !v.Applies {
				continue
			}
			word := "proved"
			switch w.OnRule(v) {
			case judge.FallsShort:
				word = "broken"
			case judge.NotMeasured:
				word = "not proved"
			case judge.TooClose:
				word = "too close"
			}
			t.Cells(paper.Cell{Text: word, Bold: word != "proved"}, paper.Cell{Text: v.Rule.String()}, paper.Cell{Line: true})
		}
		s.Table(t)
		for _, v := range w.Proof.Broken() {
			s.broken(w, &v)
		}
	}
	for _, f := range w.Faults {
		s.Framed(map[bool]string{true: "Look at this", false: "Wrong"}[f.Advice], f.Says+" What one sees: "+f.Symptom)
	}
}

// broken is a rule that is not kept, with a shortest way there.
func (s *sheet) broken(w *plan.Wired, v *logic.Verdict) {
	s.Framed("Not kept: "+v.Rule.String(), "What one sees: "+v.Symptom+" Do not switch it on before the wiring is mended and proved again.")
	if len(v.Story.Text()) == 0 {
		s.Say("It comes so as soon as power is on, with nobody doing anything.")
	}
	s.Float(s.picture("timing "+v.Rule.Key(), func() *draw.Scene { return picture.Timing(w.Of, v) }))
}

// releases are what the locks need.
func (s *sheet) releases(w *plan.Wired) {
	all := w.Delays
	if len(all) == 0 {
		return
	}
	s.Heading("What the locks need")
	t := paper.NewTable("lock", "drive", "free after", "drive waits at least", "drive waits", "tried")
	t.Columns[5].Width = 20
	for _, d := range all {
		free := say("%.2f\u00a0s", float64(d.Release))
		if !d.Measured {
			free += ", not from tries on site"
		}
		waits := "never for it"
		if d.Known {
			waits = say("%.2f\u00a0s", float64(d.Set))
		}
		t.Cells(paper.Cell{Text: d.Lock, Bold: true}, paper.Cell{Text: d.Drive}, paper.Cell{Text: free}, paper.Cell{Text: say("%.2f\u00a0s", float64(d.Needed)), Bold: true}, paper.Cell{Text: waits, Bold: !d.Known || d.Set < d.Needed}, paper.Cell{Line: true})
	}
	s.Table(t)
	for _, c := range w.Clears {
		if slices.ContainsFunc(all, func(d logic.Delay) bool { return d.Door == c.Door }) {
			s.Say(c.Words())
		}
	}
}

// terminals is the map of inputs and outputs, to be ticked as it is connected.
func (s *sheet) terminals(m *logic.Machine) {
	s.Heading("Terminals")
	t := paper.NewTable("terminal", "function", "normally", "goes to", "")
	t.Columns[3].Grow, t.Columns[4].Width = 1, 6
	last := ""
	for _, c := range m.Connections() {
		if c.Device != last {
			t.Part(c.Device)
			last = c.Device
		}
		t.Cells(paper.Cell{Text: c.Terminal, Bold: true}, paper.Cell{Text: strings.ReplaceAll(string(c.Function), "-", " ")}, paper.Cell{Text: orElse(c.Normal, "–")}, paper.Cell{Text: strings.Join(c.To, ", ")}, paper.Cell{Tick: true})
	}
	s.Table(t)
}

// sequence is the sequence of operation.
func (s *sheet) sequence(all []logic.Passage) {
	s.Heading("Sequence of operation")
	part := ""
	for i, p := range all {
		if p.Part != part {
			part = p.Part
			s.Subheading(part)
		}
		s.Todo(say("%d", i+1), upper(p.When)+". "+strings.Join(p.Then, " "))
	}
}

// truth is what comes of everything that people can do.
func (s *sheet) truth(m *logic.Machine) {
	s.Heading("Truth table: what comes of it")
	of := m.TruthTable()
	t := paper.NewTable(slices.Concat([]string{"somebody does"}, of.Conditions)...)
	for _, r := range of.Rows {
		cells := []paper.Cell{{Text: r.Ask, Bold: true}}
		for _, c := range r.Comes {
			cells = append(cells, paper.Cell{Text: c.String()})
		}
		t.Cells(cells...)
	}
	s.Table(t)
}

// alarmMatrix is what each drive and lock does in each state of panel and mains.
func (s *sheet) alarmMatrix(m *logic.Machine) {
	s.Heading("Fire alarm: what each device does")
	if !m.Alarmed() {
		s.Say("No fire alarm comes here. Ask the authority having jurisdiction in writing whether one has to.")
		return
	}
	t := paper.NewTable(slices.Concat([]string{"device"}, logic.AlarmColumns)...)
	for _, r := range m.AlarmMatrix() {
		cells := []paper.Cell{{Text: r.Device, Bold: true}}
		for _, c := range r.Cells {
			text := c.Does
			if !c.Right() {
				text += "; should be: " + c.Should
			}
			cells = append(cells, paper.Cell{Text: text, Bold: !c.Right()})
		}
		t.Cells(cells...)
	}
	s.Table(t)
}
