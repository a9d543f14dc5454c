package report

import (
	"fmt"

	"swingwright/plan"
	"swingwright/tune"
)

// A TuningCard is advice on what to turn, as a small screen shows it.
type TuningCard struct {
	Missing   []string     `json:"missing"`
	Do        string       `json:"do"`
	Moves     []CardMove   `json:"moves"`
	Notes     []string     `json:"notes"`
	Restore   string       `json:"restore"`
	Now       CardState    `json:"now"`
	To        CardState    `json:"to"`
	Demands   []CardDemand `json:"demands"`
	Times     []CardTime   `json:"times"`
	Conflicts [][]string   `json:"conflicts"` // demands that exclude each other
	Cannot    []string     `json:"cannot"`    // what cannot be told of this closer
	Left      []string     `json:"left"`      // demands that could not be put
}

// CardState is a setting of a closer: spring power as marked, turns open from seated.
type CardState struct {
	Power float64 `json:"power"`
	Sweep float64 `json:"sweep"`
	Latch float64 `json:"latch"`
}

// CardMove is one thing to turn.
type CardMove struct {
	Part    string  `json:"part"`
	More    bool    `json:"more"`  // farther open, or stronger
	Turns   float64 `json:"turns"` // by how much; zero for the spring
	From    float64 `json:"from"`
	To      float64 `json:"to"`
	Learned bool    `json:"learned"`
	Say     string  `json:"say"`
}

// CardDemand is a demand as it is kept now and after the turn.
type CardDemand struct {
	What         string `json:"what"`
	Source       string `json:"source"`
	Limit        string `json:"limit"`
	Now          string `json:"now"`
	Verdict      string `json:"verdict"`
	After        string `json:"after"`
	VerdictAfter string `json:"verdict_after"`
}

// CardTime is a time between two marks now and after the turn.
type CardTime struct {
	From  string `json:"from"`
	To    string `json:"to"`
	Now   string `json:"now"`
	After string `json:"after"`
}

// NewTuningCard makes the card of a tuning.
func NewTuningCard(w *plan.Tuning, style Style) *TuningCard {
	c := &TuningCard{Missing: texts(w.Missing), Moves: []CardMove{}, Notes: []string{}, Demands: []CardDemand{}, Times: []CardTime{}, Conflicts: [][]string{}, Cannot: []string{}, Left: texts(w.Left)}
	if w.Advice == nil {
		return c
	}
	t := Text{style: style}
	c.Do, c.Notes, c.Restore = w.Do.String(), texts(w.Notes), w.Restore.String()
	c.Now, c.To = cardState(w.Now.State), cardState(w.To)
	for _, m := range w.Moves {
		move := CardMove{Part: m.Part.String(), More: m.More, Turns: float64(m.Turns), From: float64(m.From), To: float64(m.To), Learned: m.Learned, Say: m.String()}
		if m.Part == tune.SpringPart {
			move.From, move.To = float64(m.PowerFrom), float64(m.PowerTo)
		}
		c.Moves = append(c.Moves, move)
	}
	for i := range w.Now.Demands {
		d := &w.Now.Demands[i]
		dim := d.Demand.Kind.Dim()
		one := CardDemand{What: d.Demand.What, Source: d.Demand.Source, Limit: d.Demand.Kind.Side().String() + " " + t.amount(dim, d.Demand.Limit),
			Now: t.spread(dim, d.Value, d.U), Verdict: d.Verdict.String()}
		if w.After != nil {
			then := &w.After.Demands[i]
			one.After, one.VerdictAfter = t.spread(dim, then.Value, then.U), then.Verdict.String()
		}
		c.Demands = append(c.Demands, one)
	}
	c.times(w)
	for i := range w.Conflicts {
		var names []string
		for _, g := range w.Conflicts[i].Of {
			names = append(names, fmt.Sprintf("%s (%s)", g.Demand.What, g.Demand.Source))
		}
		c.Conflicts = append(c.Conflicts, names)
	}
	if w.Fit != nil {
		c.Cannot = texts(w.Fit.CannotTell)
	}
	return c
}

func cardState(s tune.State) CardState {
	return CardState{Power: float64(s.Power), Sweep: float64(s.Sweep), Latch: float64(s.Latch)}
}

// times puts the times now and after the turn beside each other.
func (c *TuningCard) times(w *plan.Tuning) {
	for _, now := range w.Now.Times() {
		one := CardTime{From: degrees(now.From), To: degrees(now.To), Now: spreadTime(now)}
		if w.After != nil {
			for _, then := range w.After.Times() {
				if then.From == now.From && then.To == now.To {
					one.After = spreadTime(then)
				}
			}
		}
		c.Times = append(c.Times, one)
	}
}
