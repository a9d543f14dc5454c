package onsite

import (
	"strings"

	"swingwright/decision"
	"swingwright/internal/draw"
	"swingwright/opening"
	"swingwright/picture"
	"swingwright/plan"
	"swingwright/report"
)

// Picture is a picture as the app shows it, and what it shows in words and numbers.
type Picture struct {
	Name  string     `json:"name"`
	Title string     `json:"title"`
	SVG   string     `json:"svg"`
	Says  string     `json:"says"`  // in a sentence or two
	Words []string   `json:"words"` // what is written in it
	Head  []string   `json:"head"`  // of the table of what it shows; none where there is none
	Rows  [][]string `json:"rows"`
}

// Opened is the answer to "opening".
type Opened struct {
	*report.Card
	// Predicted are the facts as they would be reckoned had nothing been measured; none
	// where nothing was.
	Predicted []report.CardFact `json:"predicted"`
	Picture   Picture           `json:"picture"` // from above
}

// opening answers what one opening is like.
func (e *Engine) opening(a *Asked) (any, error) {
	t, err := e.understand(a)
	if err != nil {
		return nil, err
	}
	p := e.plan(t)
	out := &Opened{Card: report.NewCard(p, nil, t.units), Predicted: []report.CardFact{}}
	if len(t.opening.Readings) > 0 {
		unread := *t.opening
		unread.Readings = nil
		opt := e.options(t)
		opt.Draws = fewDraws
		out.Predicted = report.NewCard(e.maker.Make(&unread, &t.job.Sheets, nil, opt), nil, t.units).Facts
	}
	out.Picture, err = drawn("plan", e.to(a, t).Plan(p))
	return out, err
}

// Decided is the answer to "decide".
type Decided struct {
	Answer string            `json:"answer"`
	Rungs  []report.CardRung `json:"rungs"`
	Calls  []decision.Call   `json:"calls"`
}

// decide answers what is to be done with one opening. It takes longer than what the
// opening is like, since every cure is reckoned again.
func (e *Engine) decide(a *Asked) (any, error) {
	t, err := e.understand(a)
	if err != nil {
		return nil, err
	}
	p := e.plan(t)
	c := report.NewCard(p, decision.Make(p, &t.job.Sheets, decision.Options{}), t.units)
	return Decided{c.Answer, c.Rungs, c.Calls}, nil
}

// Drawn is the answer to "drawn".
type Drawn struct {
	Pictures []Picture `json:"pictures"`
}

// drawn answers with the pictures of the leaf in motion.
func (e *Engine) drawn(a *Asked) (any, error) {
	t, err := e.understand(a)
	if err != nil {
		return nil, err
	}
	p, out := e.plan(t), Drawn{}
	for _, one := range []picture.Named{{Name: "closing", Scene: e.to(a, t).Closing(p)}, {Name: "hand-force", Scene: e.to(a, t).HandForce(p)}} {
		drawn, err := drawn(one.Name, one.Scene)
		if err != nil {
			return nil, err
		}
		out.Pictures = append(out.Pictures, drawn)
	}
	return out, nil
}

// to is the reader of pictures.
// to is how whoever asked wants pictures.
func (e *Engine) to(a *Asked, t *task) picture.In {
	return picture.In{Units: t.units, Phrases: e.phrases, Narrow: a.Narrow}
}

func drawn(name string, s *draw.Scene) (Picture, error) {
	var svg strings.Builder
	if err := draw.WriteSVG(&svg, s); err != nil {
		return Picture{}, err
	}
	out := Picture{Name: name, Title: s.Title, SVG: svg.String(), Says: s.Description, Words: s.Words, Head: []string{}, Rows: [][]string{}}
	if s.Table != nil {
		out.Head, out.Rows = s.Table.Head, s.Table.Rows
	}
	return out, nil
}

// State is the answer to "state": what a list shows of one opening.
type State struct {
	ID       string `json:"id"`
	Standing string `json:"standing"`
	Accepted string `json:"accepted"`
	Gaps     int    `json:"gaps"`  // things missing
	Stops    int    `json:"stops"` // of these, without which something cannot be reckoned
	Doubts   int    `json:"doubts"`
	Measure  int    `json:"measure"` // things that still want a measurement
}

// state answers how one opening stands, in a few numbers.
func (e *Engine) state(a *Asked) (any, error) {
	t, err := e.understand(a)
	if err != nil {
		return nil, err
	}
	p := e.plan(t)
	s := &State{ID: t.opening.ID, Standing: report.StandingWord(plan.Stand(p.Findings)), Accepted: report.StandingWord(report.AcceptanceStanding(p)),
		Gaps: len(p.Gaps), Doubts: len(p.Doubts), Stops: stops(p.Gaps), Measure: len(report.NewCard(p, nil, t.units).Measure)}
	return s, nil
}

// stops counts the gaps that stop something.
func stops(gaps []opening.Gap) (n int) {
	for _, g := range gaps {
		if g.Stops != "" {
			n++
		}
	}
	return n
}
