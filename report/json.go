package report

import (
	"bufio"
	"encoding/json"
	"errors"
	"io"

	"swingwright/decision"
	"swingwright/plan"
)

// format names the layout of the JSON; docs/json.md describes it. The number
// rises when a field changes its meaning or goes away, not when one is added.
const format = "swingwright plans 1"

// JSON writes plans for programs as one document, opening by opening: Start,
// then a Plan for every opening, a Group for every group, then End. Values are in SI; docs/json.md
// describes the layout.
type JSON struct {
	w     *bufio.Writer
	total int
	done  int
	tally tallyJSON
	err   error
	// closed tells that the list of openings has ended, groups how many of these
	// are written.
	closed bool
	groups int
}

// tallyJSON counts the openings by their standing.
type tallyJSON struct {
	InOrder    int  `json:"in_order"`
	Undecided  int  `json:"undecided"`
	FallsShort int  `json:"falls_short"`
	Complete   bool `json:"complete"`
}

// NewJSON starts a JSON document on w. Errors of writing are returned by the
// method during which they happened.
func NewJSON(w io.Writer) *JSON { return &JSON{w: bufio.NewWriter(w)} }

// Start writes what holds for the whole job.
func (j *JSON) Start(h Head) error {
	j.total = h.Openings
	j.text(`{"format":`)
	j.value(format)
	j.text(",\n\"job\":")
	j.value(jobOf(h))
	j.text(",\n\"reckoned_with\":")
	j.value(optionsOf(h.Options))
	j.text(",\n\"rulebooks\":")
	j.value(booksOf(h))
	j.text(",\n\"cautions\":")
	j.value(texts(h.Cautions))
	j.text(",\n\"openings\":[")
	return j.flush()
}

// Plan writes one opening and what was decided of it.
func (j *JSON) Plan(p *plan.Plan, d *decision.Decision) error {
	if j.done > 0 {
		j.text(",")
	}
	j.done++
	j.text("\n")
	out, decided := planOf(p), decisionOf(d)
	out.Decision = &decided
	j.value(out)
	switch plan.Stand(p.Findings) {
	case plan.Good:
		j.tally.InOrder++
	case plan.Undecided:
		j.tally.Undecided++
	case plan.Bad:
		j.tally.FallsShort++
	}
	return j.flush()
}

// End closes the document. It may be called early, when a run was stopped: the
// summary then says that it is not complete.
func (j *JSON) End() error {
	j.tally.Complete = j.done == j.total
	j.closeOpenings()
	j.text("\n],\n\"summary\":")
	j.value(j.tally)
	j.text("}\n")
	return j.flush()
}

func (j *JSON) text(s string) { j.w.WriteString(s) }

func (j *JSON) value(v any) {
	encoded, err := json.Marshal(v)
	if err != nil {
		j.err = errors.Join(j.err, err)
		encoded = []byte("null")
	}
	j.w.Write(encoded)
}

func (j *JSON) flush() error { return errors.Join(j.err, j.w.Flush()) }

// texts is a list that is never null.
func texts(list []string) []string {
	if list == nil {
		return []string{}
	}
	return list
}
