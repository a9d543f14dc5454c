package packet

import (
	"swingwright/internal/paper"
	q "swingwright/quantity"
	"swingwright/takeoff"
)

func noKit(s *sheet) string {
	if s.refused() {
		return "the opening cannot be powered as it is; see the letter"
	}
	return ""
}

// kit is what to take along. The tools are common practice, from memory.
func kit(s *sheet) {
	s.parts()
	s.Heading("Tools")
	t := paper.NewTable("for", "take along")
	t.Columns[0].Width = 38
	for _, row := range s.tools() {
		t.Cells(paper.Cell{Text: row[0], Bold: true, Tick: true}, paper.Cell{Text: row[1]})
	}
	s.Table(t)
	s.Heading("Papers")
	t = paper.NewTable("", "")
	t.Columns[0].Width = s.Width()/2 - 2
	half := (len(s.there) + 1) / 2
	for i := range half { // down the left column first
		cells := []paper.Cell{{Text: s.there[i].title, Tick: true}}
		if i+half < len(s.there) {
			cells = append(cells, paper.Cell{Text: s.there[i+half].title, Tick: true})
		}
		t.Cells(cells...)
	}
	s.Table(t)
}

// parts is the take-off of this opening.
func (s *sheet) parts() {
	o := s.Takeoff
	if o == nil || len(o.Lines)+len(o.Gaps) == 0 && o.Left == "" {
		return
	}
	s.Heading("Parts")
	if o.Left != "" {
		s.Say("None is counted: " + o.Left + ".")
	}
	t := paper.NewTable("what", "how many", "why", "rests on")
	t.Columns[1].Width = 18
	for i := range o.Lines {
		l := &o.Lines[i]
		t.Cells(paper.Cell{Text: lineWords(l), Bold: true, Tick: true}, paper.Cell{Text: lineCount(l, s.units)}, paper.Cell{Text: l.Why}, paper.Cell{Text: string(l.Basis)})
	}
	s.Table(t)
	for i := range o.Gaps {
		s.Item("Not counted: " + o.Gaps[i].What)
	}
}

// lineWords is what to buy, with its sheet.
func lineWords(l *takeoff.Line) string {
	if l.Sheet != "" && l.Sheet != l.What {
		return l.What + ": " + l.Sheet
	}
	return l.What
}

// lineCount is how many, or how long.
func lineCount(l *takeoff.Line, units q.System) string {
	switch {
	case l.Length > 0 && units == q.US:
		return paper.Hold(say("%.0f ft", float64(l.Length/(12*q.Inch))))
	case l.Length > 0:
		return paper.Hold(say("%.1f m", float64(l.Length)))
	}
	return say("%d", l.Count)
}

func (s *sheet) tools() (all [][2]string) {
	add := func(what, with string) { all = append(all, [2]string{what, with}) }
	add("measuring", "tape, steel rule, combination square, levels of 24 in and 6 in (600 and 150 mm), angle finder, taper gauge for gaps, floor marks, stopwatch, thermometer")
	add("forces", "push-pull force gauge that holds its peak, 0 to 50 lbf (200 N)")
	if s.powered() {
		add("torque", "wrench for 20 to 200 lbf-in (2 to 23 N·m), bits as the maker's paper says")
		add("electrical", "meter with least and largest reading, clamp for direct current, non-contact tester, crimper, ferrules, wire labels, spare relay")
		add("drilling", "centre punch, drill guide, bits of 1/8, 3/16, 1/4 and 3/8 in (3, 5, 6.5 and 10 mm) or as the template says, step bit, tape, pencil, awl, wedges, shims, thread locker")
		add("dust and body", "vacuum with a fine filter, cloth, glasses, respirator, gloves, hearing protection; drilling a mineral core makes silica dust")
	}
	add("closer", "keys and screwdrivers for its valves and its spring, rag")
	add("height", "fibreglass step ladder, cones, sign that the door is out of service")
	if s.wireless() {
		add("wireless switches", "spare batteries, marker for the month")
	}
	if s.o.Use.FireRated == "yes" {
		add("fire door", "filler or screws that its listing allows for old holes, camera for label and holes")
	}
	return all
}
