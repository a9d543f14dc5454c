package report

import (
	"swingwright/judge"
	"swingwright/opening"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/rulebook"
	"swingwright/swing"
)

type jobJSON struct {
	Name     string `json:"name"`
	Customer string `json:"customer"`
	Site     string `json:"site"`
	Date     string `json:"date"`
	Openings int    `json:"openings"`
}

func jobOf(h Head) jobJSON {
	return jobJSON{h.Job.Name, h.Job.Customer, h.Job.Site, h.Job.Date, h.Openings}
}

type optionsJSON struct {
	Draws int     `json:"draws"`
	Seed  uint64  `json:"seed"`
	Risk  float64 `json:"risk"`
}

func optionsOf(o plan.Options) optionsJSON {
	risk := o.Policy.Risk
	if risk == 0 {
		risk = judge.DefaultRisk
	}
	return optionsJSON{o.Draws, o.Seed, risk}
}

type bookJSON struct {
	ID      string        `json:"id"`
	Work    string        `json:"work"`
	Edition string        `json:"edition"`
	Title   string        `json:"title"`
	Place   string        `json:"place"`
	From    rulebook.Date `json:"from"`
	Until   rulebook.Date `json:"until"`
	InForce bool          `json:"in_force"` // on the day of the survey
}

func booksOf(h Head) []bookJSON {
	books := make([]bookJSON, len(h.Books))
	for i, b := range h.Books {
		books[i] = bookJSON{b.ID, b.Work, b.Edition, b.Title, b.Place, b.From, b.Until, b.InForce(rulebook.Date(h.Job.Date))}
	}
	return books
}

// planJSON is one opening.
type planJSON struct {
	ID         string               `json:"id"`
	Name       string               `json:"name"`
	Standing   string               `json:"standing"`
	Model      map[string]valueJSON `json:"model"`
	Linkage    linkageJSON          `json:"linkage"`
	Drive      driveJSON            `json:"drive"`
	Conditions map[string]valueJSON `json:"conditions"`
	Results    resultsJSON          `json:"results"`
	Room       *roomJSON            `json:"room"`
	Passing    *passingJSON         `json:"passing"`
	Findings   []findingJSON        `json:"findings"`
	Gaps       []gapJSON            `json:"gaps"`
	Doubts     []doubtJSON          `json:"doubts"`
	Notes      []string             `json:"notes"`
	Cautions   []cautionJSON        `json:"cautions"`
	Collisions []meetingJSON        `json:"collisions"`
	Problem    string               `json:"problem,omitempty"`
	Decision   *decisionJSON        `json:"decision,omitempty"`
}

type cautionJSON struct {
	Matter string `json:"matter"`
	Text   string `json:"text"`
}

func cautionsOf(p *plan.Plan) []cautionJSON {
	out := make([]cautionJSON, len(p.Cautions))
	for i, c := range p.Cautions {
		out[i] = cautionJSON(c)
	}
	return out
}

func planOf(p *plan.Plan) planJSON {
	out := planJSON{
		ID: p.Opening.ID, Name: p.Opening.Name, Standing: standWords[plan.Stand(p.Findings)].word,
		Model: modelOf(p), Linkage: linkageOf(p.Resolved.Link), Drive: driveOf(p.Resolved), Conditions: conditionsOf(p.Resolved),
		Results: resultsOf(p), Room: roomOf(p), Passing: passingOf(p), Findings: make([]findingJSON, len(p.Findings)),
		Gaps: gapsOf(p.Gaps), Doubts: doubtsOf(p.Doubts), Notes: texts(p.Resolved.Notes), Cautions: cautionsOf(p), Collisions: meetingsOf(p),
	}
	for i := range p.Findings {
		out.Findings[i] = findingOf(p, &p.Findings[i])
	}
	if p.Problem != nil {
		out.Problem = p.Problem.Error()
	}
	return out
}

// valueJSON is a quantity of the resolved model.
type valueJSON struct {
	Symbol  string `json:"symbol,omitempty"`
	Value   number `json:"value"`
	U       number `json:"u"` // standard uncertainty
	Unit    string `json:"unit"`
	Source  string `json:"source"`
	Assumed bool   `json:"assumed"`
	Meaning string `json:"meaning,omitempty"`
}

func rowOf(d quantity.Dimension, r plan.Row) valueJSON {
	v := valueJSON{Value: number(r.Value), U: number(r.U), Unit: quantity.SIUnit(d), Source: r.Source, Assumed: r.Assumed}
	if !r.Known {
		v.Source = "not known"
	}
	return v
}

// modelOf lists the values that the plan's best estimates were reckoned with.
func modelOf(p *plan.Plan) map[string]valueJSON {
	model := make(map[string]valueJSON, swing.NumValues)
	values := p.Values()
	for i, r := range p.Resolved.Rows {
		s := &swing.Symbols[i]
		v := rowOf(s.Dim, r)
		v.Symbol, v.Meaning = s.Symbol, s.Meaning
		if number(values[i]) != v.Value {
			v.Value, v.Source, v.Assumed = number(values[i]), "set so that the leaf closes in the times found", false
		}
		model[s.Key] = v
	}
	return model
}

type linkageJSON struct {
	Closer bool `json:"closer"`
	Track  bool `json:"track"`
	OnLeaf bool `json:"on_leaf"`
	Bend   int  `json:"bend"`
	Latch  bool `json:"latch"`
}

func linkageOf(l swing.Linkage) linkageJSON { return linkageJSON(l) }

type driveJSON struct {
	Fitted    bool `json:"fitted"`
	Own       bool `json:"own"`
	Track     bool `json:"track"`
	OnLeaf    bool `json:"on_leaf"`
	Bend      int  `json:"bend"`
	LetsGo    bool `json:"lets_go"`
	TimedWith bool `json:"timed_with"`
}

func driveOf(r *plan.Resolved) driveJSON {
	d := r.Drive
	return driveJSON{d.Fitted, d.Own, d.Track, d.OnLeaf, d.Bend, d.LetsGo, r.TimedWith}
}

// conditionsOf are the inputs beside the model's own values.
func conditionsOf(r *plan.Resolved) map[string]valueJSON {
	return map[string]valueJSON{
		"pressure_most":  rowOf(quantity.DimPressure, r.Most),
		"pressure_least": rowOf(quantity.DimPressure, r.Least),
		"handle":         rowOf(quantity.DimLength, r.Handle),
		"sweep_found":    rowOf(quantity.DimTime, r.Found.Sweep),
		"latch_found":    rowOf(quantity.DimTime, r.Found.Latch),
	}
}

// gapJSON is something that the computation needs and the record lacks.
type gapJSON struct {
	Field string `json:"field"`
	Stops string `json:"stops,omitempty"`
	Why   string `json:"why"`
	How   string `json:"how"`
}

func gapsOf(all []opening.Gap) []gapJSON {
	gaps := make([]gapJSON, len(all))
	for i, g := range all {
		gaps[i] = gapJSON(g)
	}
	return gaps
}

// doubtJSON is a value that is hard to believe.
type doubtJSON struct {
	Field string `json:"field"`
	Found string `json:"found"`
	Usual string `json:"usual,omitempty"`
	Say   string `json:"say"`
}

func doubtsOf(all []opening.Doubt) []doubtJSON {
	doubts := make([]doubtJSON, len(all))
	for i, d := range all {
		doubts[i] = doubtJSON(d)
	}
	return doubts
}
