package packet

import (
	"math"
	"strings"

	"swingwright/internal/draw"
	"swingwright/internal/paper"
	"swingwright/judge"
	"swingwright/picture"
	"swingwright/plan"
	"swingwright/power"
	q "swingwright/quantity"
)

func noPower(s *sheet) string {
	f := s.Feeding
	switch {
	case s.unpowered() != "":
		return s.unpowered()
	case f == nil:
		return "nobody looked at its power"
	case len(f.Circuits)+len(f.Faults) == 0:
		return "no wiring is written down: devices, cables and wires, point to point"
	}
	return ""
}

// powerPaper is what every device has in its worst moment, and by which wires.
func powerPaper(s *sheet) {
	f := s.Feeding
	s.notYet()
	for _, c := range f.Cautions {
		if c.Matter != standingMatter {
			s.Framed(upper(c.Matter), c.Text)
		}
	}
	if len(f.Faults) > 0 {
		s.Heading("What is wrong with the wiring, or missing from it")
		for i := range f.Faults {
			s.Item(faultWords(&f.Faults[i]))
		}
	}
	for i := range f.Circuits {
		s.circuit(&f.Circuits[i])
	}
	for i := range f.Branches {
		b := &f.Branches[i]
		if len(b.Statements) == 0 {
			continue
		}
		s.Heading("Branch circuit " + b.Breaker.Name + ", " + s.rounded(q.DimVoltage, float64(b.Tree.Volts), 10) + ", " + s.rounded(q.DimCurrent, float64(b.Rated), 100))
		s.statements("of the circuit", b.Statements)
		for _, what := range b.Missing {
			s.Note("Its cables are not reckoned: " + what + ".")
		}
	}
	s.conduits()
	for i := range f.Cords {
		if c := &f.Cords[i]; len(c.Statements) > 0 {
			s.Heading("Cord across the hinges")
			s.statements("of the cord", c.Statements)
			if c.Statements[1].Verdict != judge.Meets {
				s.Note(upper(c.Statements[0].Say) + ".")
			}
		}
	}
	for _, part := range []struct {
		title string
		all   []string
	}{{"A licensed electrician's", f.Electrician}, {"Others were named for", f.Others}, {"Missing", f.Missing}} {
		if len(part.all) > 0 {
			s.Heading(part.title)
		}
		for _, text := range part.all {
			s.Item(upper(text))
		}
	}
	var pictures []*draw.Scene
	for _, one := range picture.Feeding(f) {
		pictures = append(pictures, one.Scene)
	}
	s.Figures(pictures...)
}

func faultWords(f *power.Fault) string {
	text := f.Where + ": " + f.What
	if f.Hazard {
		text = "Hazard. " + text
	}
	if f.Hint != "" {
		text += "; " + f.Hint
	}
	if f.Source != "" {
		text += " (" + f.Source + ")"
	}
	return text + "."
}

// circuit is one supply with what it feeds.
func (s *sheet) circuit(d *plan.Fed) {
	title := "Supply " + d.Supply.Name + ", " + s.rounded(q.DimVoltage, float64(d.Tree.Volts), 10)
	if d.Rated > 0 {
		title += ", " + s.rounded(q.DimCurrent, float64(d.Rated), 100)
	}
	s.Heading(title)
	if d.Course == nil {
		s.Say("It is not reckoned until what is missing is there.")
		return
	}
	t := paper.NewTable("device", "in its worst moment", "takes", "has", "needs at least", "", "measured")
	t.Columns[1].Grow, t.Columns[6].Width = 1, 22
	for i := range d.Devices {
		one := &d.Devices[i]
		if !one.Works {
			t.Cells(paper.Cell{Text: one.Device.Name, Bold: true}, paper.Cell{Text: "asked for nothing"}, paper.Cell{Text: "–"}, paper.Cell{Text: "–"}, paper.Cell{Text: "–"}, paper.Cell{Text: one.Verdict.String()}, paper.Cell{Line: true})
			continue
		}
		has := s.amount(q.DimVoltage, float64(one.Volts), float64(one.U))
		switch {
		case one.NearCollapse():
			has = s.rounded(q.DimVoltage, float64(one.Volts), 10) + ", near collapse"
		case one.Ending != power.Fed:
			has = "it " + one.Ending.String()
		}
		takes := d.LoadOf(one).Draws[one.Phase]
		t.Cells(paper.Cell{Text: one.Device.Name, Bold: true}, paper.Cell{Text: one.Phase.String()}, paper.Cell{Text: s.rounded(q.DimCurrent, float64(takes), 100)}, paper.Cell{Text: has},
			paper.Cell{Text: s.rounded(q.DimVoltage, float64(one.LeastItWorksAt), 10)}, paper.Cell{Text: verdict(one.Verdict, false), Bold: one.Verdict != judge.Meets}, paper.Cell{Line: true})
	}
	s.Table(t)
	t = paper.NewTable("run", "gauge", "length", "carries at most", "takes then", "smallest that does", "pulled")
	t.Columns[0].Grow, t.Columns[6].Width = 1, 12
	for k := range d.Tree.Runs {
		r, use := &d.Tree.Runs[k], &d.Course.Runs[k]
		smallest := "no gauge does"
		if d.Smallest != nil {
			smallest = d.Smallest[k].String()
		}
		t.Cells(paper.Cell{Text: r.Name, Bold: true}, paper.Cell{Text: paper.Hold(r.Gauges())}, paper.Cell{Text: s.far(d.Cables[k].Length)}, paper.Cell{Text: s.rounded(q.DimCurrent, float64(use.Amps), 100)},
			paper.Cell{Text: s.rounded(q.DimVoltage, float64(use.Drop), 100)}, paper.Cell{Text: paper.Hold(smallest)}, paper.Cell{Tick: true})
	}
	s.Table(t)
	s.statements("of the supply", d.Statements)
	for _, note := range d.Notes {
		s.Note(upper(note) + ".")
	}
}

// statements are what is judged of a supply and its battery, a branch circuit or a cord.
func (s *sheet) statements(of string, all []plan.Statement) {
	t := paper.NewTable(of, "is", "limit", "", "by")
	for i := range all {
		one := &all[i]
		is := "–"
		if !math.IsNaN(one.Value) {
			is = s.rounded(one.Dim, one.Value, places(one.Dim))
		}
		t.Row(one.What, is, one.Side.String()+" "+s.rounded(one.Dim, one.Limit, places(one.Dim)), verdict(one.Verdict, !one.Published), one.Source)
	}
	s.Table(t)
}

// places are the parts of a unit that a statement is written to: hundredths, of lengths
// tenths of a millimetre.
func places(d q.Dimension) float64 {
	if d == q.DimLength {
		return 1e4
	}
	return 100
}

// verdict is a verdict in words; advice fails nothing.
func verdict(v judge.Verdict, advice bool) string {
	if advice {
		return v.String() + " (advice)"
	}
	return v.String()
}

// conduits are how full the conduits are.
func (s *sheet) conduits() {
	t := paper.NewTable("conduit", "filled", "limit", "", "by")
	for i := range s.Feeding.Conduits {
		c := &s.Feeding.Conduits[i]
		filled := "–"
		if c.Why == "" || c.Fill.Share > 0 {
			filled = say("%.0f\u00a0%%", 100*float64(c.Fill.Share))
		}
		t.Row(c.Conduit.Name, filled, say("at most %.0f\u00a0%%", 100*float64(c.Fill.Limit)), c.Verdict.String(), strings.Join(present(c.Source, c.Why), "; "))
	}
	if t.Len() > 0 {
		s.Heading("Conduits")
		s.Table(t)
	}
}

// rounded is a value to so many parts of its SI unit.
func (s *sheet) rounded(d q.Dimension, si, parts float64) string {
	return s.amount(d, math.Round(si*parts)/parts, 0)
}
