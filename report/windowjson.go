package report

import (
	"encoding/json"
	"io"

	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/window"
)

// windowFormat names the layout of a window's JSON; docs/json.md describes it.
const windowFormat = "swingwright window 1"

type windowJSON struct {
	Format    string         `json:"format"`
	Opening   string         `json:"opening"`
	Found     *bool          `json:"found"`
	Marked    *spanJSON      `json:"marked"`
	Window    *spanJSON      `json:"window"`
	Setting   *settingJSON   `json:"setting"`
	Demands   []demandJSON   `json:"demands"`
	Conflicts []conflictJSON `json:"conflicts"`
	Changes   []changeJSON   `json:"changes"`
	Missing   []string       `json:"missing"`
	Left      []string       `json:"left"`
	Notes     []string       `json:"notes"`
	Seasons   *seasonsJSON   `json:"seasons"`
	Cautions  []cautionJSON  `json:"cautions"`
}

// spanJSON is power settings from low to high.
type spanJSON struct {
	Low  number `json:"low"`
	High number `json:"high"`
}

type settingJSON struct {
	Power      number     `json:"power"`
	Sweep      [2]number  `json:"sweep"`
	Latch      [2]number  `json:"latch"`
	SweepTurns [2]number  `json:"sweep_turns"`
	LatchTurns [2]number  `json:"latch_turns"`
	SweepAt    number     `json:"sweep_turns_set"`
	LatchAt    number     `json:"latch_turns_set"`
	SweepSet   number     `json:"sweep_set"`
	LatchSet   number     `json:"latch_set"`
	Margin     number     `json:"margin"`
	Marks      []markJSON `json:"marks"`
	HandStart  number     `json:"hand_start"`
	HandOpen   number     `json:"hand_open"`
}

type demandJSON struct {
	Name   string    `json:"name"`
	What   string    `json:"what"`
	Source string    `json:"source"`
	Kind   string    `json:"kind"`
	Side   string    `json:"side"`
	Unit   string    `json:"unit"`
	Limit  number    `json:"limit"`
	From   number    `json:"from"`
	To     number    `json:"to"`
	At     number    `json:"at"`
	Holds  *spanJSON `json:"holds"`
	Value  *number   `json:"value"`
	Margin *number   `json:"margin"`
}

type conflictJSON struct {
	Of []giveJSON `json:"of"`
}

type giveJSON struct {
	Demand string `json:"demand"`
	By     number `json:"by"`
	Enough bool   `json:"enough"`
}

type changeJSON struct {
	Kind   string    `json:"kind"`
	Arm    string    `json:"arm,omitempty"`
	Unit   string    `json:"unit"`
	From   number    `json:"from"`
	To     number    `json:"to"`
	Share  number    `json:"share"`
	Opens  bool      `json:"opens"`
	Window *spanJSON `json:"window"`
	Waived []string  `json:"waived"`
}

// WindowJSON writes what Window does for programs, in SI; docs/json.md describes
// the layout.
func WindowJSON(to io.Writer, p *plan.Plan, w *plan.Window, s *plan.Seasons) error {
	out := windowJSON{
		Format: windowFormat, Opening: p.Opening.ID, Demands: []demandJSON{}, Conflicts: []conflictJSON{}, Changes: []changeJSON{},
		Missing: texts(w.Missing), Left: texts(w.Left), Notes: texts(w.Notes), Cautions: cautionsOf(p), Seasons: seasonsOf(s),
	}
	if len(w.Missing) == 0 {
		found := w.Open()
		out.Found, out.Marked, out.Window = &found, spanOf(w.Settings), spanOf(w.Window)
		out.Setting = settingOf(w)
	}
	for i, h := range w.Held {
		out.Demands = append(out.Demands, demandOf(w, i, h))
	}
	for _, c := range w.Conflicts {
		one := conflictJSON{}
		for _, g := range c.Of {
			one.Of = append(one.Of, giveJSON{g.Demand.Name, number(g.By), g.Enough})
		}
		out.Conflicts = append(out.Conflicts, one)
	}
	for _, c := range w.Changes {
		out.Changes = append(out.Changes, changeJSON{
			Kind: c.Kind.String(), Arm: c.Arm, Unit: quantity.SIUnit(c.Dim), From: number(c.From), To: number(c.To), Share: number(c.Share),
			Opens: c.Opens, Window: spanOf(c.Window), Waived: texts(c.Waived),
		})
	}
	encoder := json.NewEncoder(to)
	encoder.SetIndent("", " ")
	return encoder.Encode(out)
}

// spanOf is nil where there is no setting in it.
func spanOf(s window.Span) *spanJSON {
	if s.Empty() {
		return nil
	}
	return &spanJSON{number(s.Low), number(s.High)}
}

func settingOf(w *plan.Window) *settingJSON {
	b := w.Best
	if b == nil {
		return nil
	}
	out := &settingJSON{
		Power: number(b.Power.Setting), SweepSet: number(b.SweepSet), LatchSet: number(b.LatchSet), Margin: number(b.Margin),
		HandStart: number(w.HandStart), HandOpen: number(w.HandOpen),
		SweepAt: number(w.SweepSet), LatchAt: number(w.LatchSet), Marks: marksOf(w.Marks[:]),
	}
	for i := range 2 {
		out.Sweep[i], out.Latch[i] = number(b.Sweep[i]), number(b.Latch[i])
		out.SweepTurns[i], out.LatchTurns[i] = number(w.Sweep[i]), number(w.Latch[i])
	}
	return out
}

func demandOf(w *plan.Window, i int, h window.Held) demandJSON {
	d := &h.Demand
	out := demandJSON{
		Name: d.Name, What: d.What, Source: d.Source, Kind: d.Kind.String(), Side: d.Kind.Side().String(), Unit: quantity.SIUnit(d.Kind.Dim()),
		Limit: number(d.Limit), From: number(d.From), To: number(d.To), At: number(d.At), Holds: spanOf(h.Span),
	}
	if w.Best != nil {
		value, margin := number(w.Best.Kept[i].Value), number(w.Best.Kept[i].Margin)
		out.Value, out.Margin = &value, &margin
	}
	return out
}
