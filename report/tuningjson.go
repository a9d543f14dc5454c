package report

import (
	"encoding/json"
	"io"

	"swingwright/judge"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/tune"
)

// tuningFormat names the layout of an advice's JSON; docs/json.md describes it.
const tuningFormat = "swingwright tuning 1"

type tuningJSON struct {
	Format   string          `json:"format"`
	Opening  string          `json:"opening"`
	Do       string          `json:"do"` // empty where something is missing
	Moves    []moveJSON      `json:"moves"`
	Asks     []string        `json:"asks"` // readings that would tell most of what is left open
	Restore  *stateJSON      `json:"restore"`
	Asked    []foreseenJSON  `json:"asked"`
	Times    []foretoldJSON  `json:"times"`
	Cannot   []string        `json:"cannot_tell"`
	Notes    []string        `json:"notes"`
	Missing  []string        `json:"missing"`
	Left     []string        `json:"left"`
	Checks   []checkedJSON   `json:"backcheck"`
	Foretold trackRecordJSON `json:"track"`
}

type checkedJSON struct {
	Recording   string `json:"recording"`
	Onset       number `json:"onset"`
	OnsetU      number `json:"onset_u"`
	Viscous     number `json:"viscous"`
	ViscousU    number `json:"viscous_u"`
	Correlation number `json:"correlation"`
	Why         string `json:"why,omitempty"`
}

type moveJSON struct {
	Part    string `json:"part"`
	More    bool   `json:"more"`
	Turns   number `json:"turns"`
	Learned bool   `json:"learned"`
	Says    string `json:"says"`
}

type stateJSON struct {
	Power number `json:"power"`
	Sweep number `json:"sweep"`
	Latch number `json:"latch"`
}

type foreseenJSON struct {
	Demand string       `json:"demand"`
	Source string       `json:"source"`
	Limit  number       `json:"limit"`
	Unit   string       `json:"unit"`
	Now    outcomeJSON  `json:"now"`
	After  *outcomeJSON `json:"after"`
}

type outcomeJSON struct {
	Value   number        `json:"value"`
	U       number        `json:"u"`
	Verdict judge.Verdict `json:"verdict"`
}

type foretoldJSON struct {
	From  number `json:"from"`
	To    number `json:"to"`
	Now   number `json:"now"`
	NowU  number `json:"now_u"`
	After number `json:"after"`
	ThenU number `json:"after_u"`
}

type trackRecordJSON struct {
	N       int    `json:"n"`
	Miss    number `json:"miss"`
	Within2 number `json:"within_2"`
}

// TuningJSON writes what to turn next for programs, all values in SI, turns in turns.
func TuningJSON(w io.Writer, p *plan.Plan, t *plan.Tuning) error {
	out := tuningJSON{
		Format: tuningFormat, Opening: p.Opening.ID, Moves: []moveJSON{}, Asks: []string{}, Asked: []foreseenJSON{}, Times: []foretoldJSON{},
		Checks: []checkedJSON{}, Cannot: []string{}, Notes: []string{}, Missing: texts(t.Missing), Left: texts(t.Left),
		Foretold: trackRecordJSON{t.Track.N, number(t.Track.Miss), number(t.Track.Within2)},
	}
	for i := range t.Checks {
		c := &t.Checks[i]
		out.Checks = append(out.Checks, checkedJSON{c.Name, number(c.Onset), number(c.OnsetU), number(c.Viscous), number(c.U), number(c.Correlation), c.Why})
	}
	if a := t.Advice; a != nil {
		out.advised(a)
	}
	return json.NewEncoder(w).Encode(out)
}

// advised fills in what is advised.
func (out *tuningJSON) advised(a *tune.Advice) {
	out.Do, out.Notes = a.Do.String(), texts(a.Notes)
	out.Restore = &stateJSON{number(a.Restore.Power), number(a.Restore.Sweep), number(a.Restore.Latch)}
	for _, m := range a.Moves {
		out.Moves = append(out.Moves, moveJSON{m.Part.String(), m.More, number(m.Turns), m.Learned, m.String()})
	}
	for i := range a.Asks {
		out.Asks = append(out.Asks, a.Asks[i].String())
	}
	if a.Fit != nil {
		out.Cannot = texts(a.Fit.CannotTell)
		out.Notes = append(out.Notes, a.Fit.Remarks()...)
	}
	if a.Now == nil {
		return
	}
	for i := range a.Now.Demands {
		d := &a.Now.Demands[i]
		one := foreseenJSON{Demand: d.Demand.What, Source: d.Demand.Source, Limit: number(d.Demand.Limit), Unit: quantity.SIUnit(d.Demand.Kind.Dim()), Now: outcomeOf(d)}
		if a.After != nil {
			after := outcomeOf(&a.After.Demands[i])
			one.After = &after
		}
		out.Asked = append(out.Asked, one)
	}
	for _, now := range a.Now.Times() {
		one := foretoldJSON{From: number(now.From), To: number(now.To), Now: number(now.Time), NowU: number(now.U)}
		if a.After != nil {
			for _, then := range a.After.Times() {
				if then.From == now.From && then.To == now.To {
					one.After, one.ThenU = number(then.Time), number(then.U)
				}
			}
		}
		out.Times = append(out.Times, one)
	}
}

func outcomeOf(f *tune.Foreseen) outcomeJSON {
	return outcomeJSON{number(f.Value), number(f.U), f.Verdict}
}
