package report

import (
	"fmt"
	"math"
	"strings"

	"swingwright/judge"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/trace"
)

// A Recording is a recording of an opening's swings, read and judged.
type Recording struct {
	Trace    *trace.Trace
	Columns  []trace.Column
	File     string
	Recorded []plan.Recorded
	Plan     *plan.Plan // made with what was recorded
	Kept     *KeptIn    // nil where nothing was to be kept
}

// KeptIn tells what of a recording was kept where.
type KeptIn struct {
	File, Of string
	N        int  // readings that were added
	Before   bool // the recording was in the file already: nothing was added
}

// String tells it in words.
func (k *KeptIn) String() string {
	if k.Before {
		return fmt.Sprintf("nothing was added: %s holds this recording for %s already; to keep it as it is read now, take its entry out there first", k.File, k.Of)
	}
	return fmt.Sprintf("%s of %s kept in %s; they count once the job lists that file under reading_files", quantity.Counted(k.N, "reading", "readings"), k.Of, k.File)
}

// Recording writes what a recording shows: what was understood of it, its swings, what
// was measured with its uncertainty, and the rules that these values are judged by.
func (t *Text) Recording(r *Recording) error {
	t.heading(r.Plan)
	t.understood(r)
	for i, s := range r.Trace.Swings {
		t.swing(i, s)
	}
	t.measured(r)
	t.accepted(r)
	if r.Kept != nil {
		t.head("Kept")
		t.paragraph("*", r.Kept.String())
	}
	t.remarks(r.Plan)
	return t.flush()
}

// understood says what the file was taken for.
func (t *Text) understood(r *Recording) {
	tab := t.table(8, 30)
	var used, unused []string
	for _, c := range r.Columns {
		name := strings.TrimSpace(c.Name)
		if c.Role == trace.Unused {
			unused = append(unused, name)
			continue
		}
		used = append(used, fmt.Sprintf("%s as %s, %s", name, c.Role, orDash(c.Unit)))
	}
	tab.add("Recording", r.File+": "+quantity.Counted(len(r.Trace.Swings), "swing", "swings")+fmt.Sprintf(", about %.0f samples a second", r.Trace.Sampled))
	tab.add("Columns", strings.Join(used, "; "))
	if len(unused) > 0 {
		tab.add("Not used", strings.Join(unused, ", "))
	}
	if r.Trace.Vertical != "" {
		tab.add("Vertical", r.Trace.Vertical)
	}
	t.put(tab)
	t.faults(r.Trace.Faults)
}

func (t *Text) faults(all []trace.Fault) {
	for _, f := range all {
		mark := "!"
		if f.Spoils {
			mark = "!!"
		}
		t.paragraph(mark, f.String())
	}
}

// swing writes the phases of one swing and what is wrong with its recording.
func (t *Text) swing(i int, s *trace.Swing) {
	t.head(fmt.Sprintf("Swing %d: %s", i+1, s.Kind))
	tab := t.section(14, 12, 12, 20)
	tab.add("phase", "from", "lasts", "leaf")
	for _, ph := range s.Phases {
		tab.add(ph.Kind.String(), fmt.Sprintf("%.2f s", float64(ph.From)), fmt.Sprintf("%.2f s", float64(ph.To-ph.From)),
			hold(degreesTo1(ph.Start))+" to "+hold(degreesTo1(ph.End)))
	}
	t.put(tab)
	t.opened(s.OpenedBy())
	t.faults(s.Faults)
}

// opened writes by whom or what the leaf was opened.
func (t *Text) opened(o trace.Opened) {
	if o.By == trace.NotTold {
		t.paragraph("..", "whether it was opened by hand or under power is not told: "+o.Why)
		return
	}
	// certainty on simulated openings is not certainty
	t.paragraph("*", fmt.Sprintf("opened %s, by how its rate holds: %.0f %% sure", o.By, math.Min(100*float64(o.Sure), 99)))
}

func degreesTo1(a quantity.Angle) string { return fmt.Sprintf("%.1f deg", float64(a/quantity.Degree)) }

// measured writes every value with its uncertainty and, on request, its budget.
func (t *Text) measured(r *Recording) {
	t.head("Measured")
	tab := t.section(26, 16, 10, 20)
	tab.add("what", "value", "swings", "scatter")
	var without []string
	for i := range r.Recorded {
		m := &r.Recorded[i]
		if !m.Known() {
			without = append(without, m.ID.String()+": "+m.Why)
			continue
		}
		d := m.ID.Fact().Dim
		scatter := "-"
		if !math.IsNaN(m.S) {
			scatter = t.amount(d, m.S)
		}
		tab.add(m.ID.String(), t.spread(d, m.Value, m.U), fmt.Sprint(m.N), scatter)
		if t.style.Why {
			tab.note("from " + budget(m))
		}
	}
	t.put(tab)
	for _, text := range without {
		t.paragraph("..", text)
	}
}

// budget lists what the uncertainty of a value comes from, as shares of its square.
func budget(m *plan.Recorded) string {
	sum := 0.0
	for _, term := range m.Terms {
		sum += float64(term.U) * float64(term.U)
	}
	var parts []string
	for _, term := range m.Terms {
		if share := float64(term.U) * float64(term.U) / sum; share >= 0.005 {
			parts = append(parts, fmt.Sprintf("%s %.0f %%", term.Name, 100*share))
		}
	}
	return strings.Join(parts, ", ")
}

// accepted is the sheet of acceptance: every finding about something measured, and
// what is still not measured.
func (t *Text) accepted(r *Recording) {
	t.head("Held against the rules")
	tab := t.section(12, 20, 14, 14, 14)
	tab.add("verdict", "rule", "measured", "limit", "where")
	var open []string
	for i := range r.Plan.Findings {
		f := &r.Plan.Findings[i]
		switch {
		case f.Verdict == judge.DoesNotApply:
		case f.Origin == plan.Read:
			t.finding(tab, r.Plan, f)
		case f.Origin != plan.Surveyed && !f.Rule.Advice && timed(f):
			open = append(open, f.Rule.Title)
		}
	}
	if len(tab.rows) > 1 {
		t.put(tab)
	}
	if len(open) > 0 {
		t.paragraph("..", "still to be measured, computed or not known so far: "+strings.Join(open, "; "))
	}
}

// timed tells a finding about something that moves or is pushed.
func timed(f *plan.Finding) bool {
	name := f.Rule.Of.String()
	for _, part := range []string{"closing.", "powered.", "hand."} {
		if strings.HasPrefix(name, part) {
			return true
		}
	}
	return false
}

// RecordingStanding is how what was measured stands: Undecided where nothing was.
func RecordingStanding(r *Recording) plan.Standing {
	var measured []plan.Finding
	for i := range r.Plan.Findings {
		if f := &r.Plan.Findings[i]; f.Origin == plan.Read {
			measured = append(measured, *f)
		}
	}
	if len(measured) == 0 {
		return plan.Undecided
	}
	return plan.Stand(measured)
}
