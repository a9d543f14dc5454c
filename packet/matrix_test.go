package packet

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"swingwright/decision"
	_ "swingwright/internal/steady"
	"swingwright/job"
	"swingwright/opening"
	"swingwright/plan"
)

// pick draws one of a type's choices, or none.
func pick[T interface {
	~string
	Choices() []string
}](t *rapid.T, name string) T {
	var zero T
	return T(rapid.SampledFrom(append([]string{""}, zero.Choices()...)).Draw(t, name))
}

// anyOpening is an opening of which anything may be known or not.
func anyOpening(t *rapid.T) *Opening {
	o := &opening.Opening{ID: "X"}
	o.Use.Operation = pick[opening.Operation](t, "operation")
	o.Use.Activation = pick[opening.Activation](t, "activation")
	o.Use.FireRated = pick[opening.YesNo](t, "fire")
	o.Use.Egress = pick[opening.YesNo](t, "egress")
	o.Leaf.Asbestos = pick[opening.YesNo](t, "asbestos")
	o.Closer.None = pick[opening.YesNo](t, "no closer")
	o.Latch.None = pick[opening.YesNo](t, "no latch")
	o.Lock.Kind = pick[opening.LockKind](t, "lock")
	o.Lock.Release = pick[opening.LockRelease](t, "release")
	o.Lock.StaysLocked = pick[opening.YesNo](t, "stays locked")
	o.Lock.Delayed = pick[opening.YesNo](t, "delayed")
	j := &job.Job{Name: "job"}
	if rapid.Bool().Draw(t, "switch") {
		o.Controls = []opening.Control{{What: "plate", Side: pick[opening.Side](t, "side")}}
	}
	p := plan.Make(o, &j.Sheets, nil, plan.Options{Draws: 2})
	d := decision.Make(p, &j.Sheets, decision.Options{Brief: true})
	return &Opening{Job: j, Plan: p, Decision: d}
}

func TestMatrixHasNoEmptyCell(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		seen := map[string]bool{}
		for _, d := range Duties(anyOpening(t)) {
			for i, cell := range []string{d.Work, d.Provides, d.Installs, d.Wires, d.Answers} {
				if strings.TrimSpace(cell) == "" {
					t.Errorf("%q has an empty cell in column %d", d.Work, i)
				}
			}
			if seen[d.Work] {
				t.Errorf("%q stands twice", d.Work)
			}
			seen[d.Work] = true
			if strings.HasPrefix(d.Provides, nobody) != (d.Answers == nobody) {
				t.Errorf("%q: provided by %q, answered for by %q; who provides something has somebody who answers for it", d.Work, d.Provides, d.Answers)
			}
		}
	})
}

// Every paper is in the packet or stands on its first page with the reason.
func TestEveryPaperIsThereOrExplained(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := anyOpening(t)
		s := newSheet(o, usual)
		if got, want := len(s.there)+len(s.gone), len(kinds()); got != want {
			t.Errorf("%d papers are there or explained, wants %d", got, want)
		}
		first := text(Make(o, usual))
		for _, a := range s.gone {
			if a.why == "" || !strings.Contains(strings.ToLower(flat(first)), strings.ToLower(flat(a.title))) {
				t.Errorf("%q is left out without a word", a.title)
			}
		}
		for _, k := range s.there {
			if !strings.Contains(flat(first), flat(k.title)) {
				t.Errorf("%q has no title", k.title)
			}
		}
	})
}

func flat(text string) string { return strings.Join(strings.Fields(text), " ") }
