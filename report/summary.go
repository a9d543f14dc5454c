package report

import (
	"fmt"
	"strings"

	"swingwright/decision"
	"swingwright/judge"
	"swingwright/plan"
	"swingwright/quantity"
)

// tally keeps one line per opening for the end of a report.
type tally struct {
	lines  []tallyLine
	stands [3]int // how many openings by standing
}

type tallyLine struct {
	stand    plan.Standing
	answer   decision.Answer
	id, name string
	verdicts [judge.DoesNotApply + 1]int
}

func (t *tally) count(p *plan.Plan, d *decision.Decision) {
	line := tallyLine{stand: plan.Stand(p.Findings), answer: d.Answer, id: p.Opening.ID, name: p.Opening.Name}
	for i := range p.Findings {
		if f := &p.Findings[i]; !f.Rule.Advice {
			line.verdicts[f.Verdict]++
		}
	}
	t.lines = append(t.lines, line)
	t.stands[line.stand]++
}

// standWords are the standings as people read them, with their marks.
var standWords = [...]struct {
	mark, word string
	tint       tint
}{
	plan.Good:      {"ok", "in order", green},
	plan.Undecided: {"??", "undecided", yellow},
	plan.Bad:       {"!!", "falls short", red},
}

// summary writes one line for every opening.
func (t *Text) summary() {
	t.blank()
	t.title(t.said("Openings"), '=')
	tab := t.table(14, 4, 14, 12, 20)
	tab.add("rules", "", "what to do", "opening", "findings")
	for _, l := range t.tally.lines {
		w := standWords[l.stand]
		tab.rows = append(tab.rows, row{
			cells: []string{w.mark + noBreak + hold(w.word), l.id, hold(l.answer.String()), l.name, l.counts()}, tint: w.tint,
		})
	}
	t.put(tab)
	t.blank()
	t.w.WriteString("  " + t.said(quantity.Counted(len(t.tally.lines), "opening", "openings")+": "+t.tally.sum()) + "\n")
}

func (t *tally) sum() string {
	var parts []string
	for s, w := range standWords {
		if n := t.stands[s]; n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", n, w.word))
		}
	}
	return strings.Join(parts, ", ")
}

func (l *tallyLine) counts() string {
	var parts []string
	for _, v := range []struct {
		verdict judge.Verdict
		words   string
	}{{judge.FallsShort, "short"}, {judge.TooClose, "too close"}, {judge.NotMeasured, "not measured"}, {judge.Meets, "met"}} {
		if n := l.verdicts[v.verdict]; n > 0 {
			parts = append(parts, hold(fmt.Sprintf("%d %s", n, v.words)))
		}
	}
	if len(parts) == 0 {
		return "no rule applies"
	}
	return strings.Join(parts, ", ")
}

// legend explains the marks.
func (t *Text) legend() {
	t.blank()
	tab := t.table(3, 30)
	for _, l := range [][2]string{
		{"ok", "meets the limit, spread included"},
		{"!!", "falls short of a confirmed limit; ! alone: of advice, or of a limit that nobody has compared with its text yet"},
		{"??", "too close to call: measure what the finding names, or change a setting"},
		{"..", "not measured, or a limit that needs something not known"},
		{"-", "does not apply here"},
		{"±", "twice the standard uncertainty; for a finding, that of the distance between value and limit"},
	} {
		tab.add(l[0], l[1])
	}
	t.put(tab)
	t.paragraphAt(2, "This is a computation. It certifies nothing: locally adopted codes, the hardware maker's paper and the licensed person on site come first.")
}

func (t *Text) paragraphAt(indent int, text string) {
	t.blank()
	for _, line := range wrap(t.said(text), t.style.width()-indent) {
		t.w.WriteString(strings.Repeat(" ", indent) + line + "\n")
	}
}
