// Package onsite answers the questions of the site app: one question and one answer
// at a time, each a JSON text. The same answers come out of the module in the
// browser, which needs no network, and of the server, which needs no module.
package onsite

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"

	"swingwright/job"
	"swingwright/opening"
	"swingwright/phrasebook"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/rulebook"
	"swingwright/service"
)

// An Engine answers questions about openings. It keeps the rulebooks, which are
// handed to it once. It is not safe for use by several goroutines at once.
type Engine struct {
	books      map[string]*rulebook.Book
	collisions []rulebook.Collision
	maker      plan.Maker
	plans      []keptPlan // the latest last
	language   string     // in which the latest answer was given
	phrases    *phrasebook.Book
}

// keptPlan is a plan that was made, and of what.
type keptPlan struct {
	of   string
	plan *plan.Plan
}

// mostPlans is how many plans are kept: pages about one opening ask for the same one.
const mostPlans = 8

// Rules is what an engine is handed before the first question: the rulebooks of the
// jobs that it will be asked about, with lowered formulas.
type Rules struct {
	Books []*rulebook.Book `json:"books"`
	// Collisions are the known differences between them.
	Collisions []rulebook.Collision `json:"collisions"`
}

// New makes an engine that knows the given rulebooks.
func New(r Rules) *Engine {
	e := &Engine{books: map[string]*rulebook.Book{}, collisions: r.Collisions}
	for _, b := range r.Books {
		e.books[b.ID] = b
	}
	return e
}

// Asked is what every question carries.
type Asked struct {
	// Job is the job as job.Tree has it, with at least the opening in question, those
	// that it takes fields over from, and its sheets.
	Job json.RawMessage `json:"job"`
	// Rules are the names of the rulebooks to judge by; those of the job where there are none.
	Rules   []string `json:"rules"`
	Opening string   `json:"opening"`
	Units   string   `json:"units"` // us or si
	Draws   int      `json:"draws"` // 0 for the usual number
	// Narrow asks for pictures that are laid out for the screen of a phone.
	Narrow bool `json:"narrow"`
	// Language is that of the answer, a BCP 47 tag such as en or es-MX; English where
	// there is no phrasebook.
	Language string `json:"language"`

	File string `json:"file"` // read: name of the recording
	Data string `json:"data"` // read: what the recorder wrote
	Open string `json:"open"` // read: the angle at which the leaf was held open, where it was measured
	By   string `json:"by"`   // read: hand or power
	// Begins tells read how the leaf stood at first: closed or open; empty where that was not told.
	Begins string `json:"begins"`

	Field string `json:"field"` // value: path of the field
	Text  string `json:"text"`  // value: what was written

	Complaint string         `json:"complaint"` // service: what is complained of
	Made      []service.Seen `json:"made"`      // service: the tests that were made
}

// questions are what can be asked.
var questions = map[string]func(e *Engine, a *Asked) (any, error){
	"opening": (*Engine).opening,
	"decide":  (*Engine).decide,
	"drawn":   (*Engine).drawn,
	"state":   (*Engine).state,
	"survey":  (*Engine).survey,
	"value":   (*Engine).value,
	"marks":   (*Engine).marks,
	"read":    (*Engine).read,
	"tune":    (*Engine).tune,
	"window":  (*Engine).window,
	"service": (*Engine).service,
}

// Questions lists what can be asked, in the order of the alphabet.
func Questions() []string {
	names := make([]string, 0, len(questions))
	for name := range questions {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}

// Answer answers one question. The answer is always JSON: where there is none it is
// an object with the field "problems", a list of texts for people.
func (e *Engine) Answer(question string, asked []byte) []byte {
	answer, err := e.answer(question, asked)
	if err != nil {
		answer = Problems{problemsOf(err)}
	}
	text, err := json.Marshal(inWords(answer, e.phrases))
	if err != nil {
		text, _ = json.Marshal(Problems{[]string{err.Error()}})
	}
	return text
}

func (e *Engine) answer(question string, asked []byte) (answer any, err error) {
	ask, ok := questions[question]
	if !ok {
		return nil, fmt.Errorf("nobody can answer %q; there are %v", question, Questions())
	}
	var a Asked
	if err := json.Unmarshal(asked, &a); err != nil {
		return nil, fmt.Errorf("the question cannot be read: %w", err)
	}
	if a.Language != e.language {
		e.language, e.phrases = a.Language, phrasebook.For(a.Language)
	}
	return ask(e, &a)
}

// Problems is the answer where there is none.
type Problems struct {
	Problems []string `json:"problems"`
}

// problemsOf tells errors one by one.
func problemsOf(err error) (texts []string) {
	if list, ok := errors.AsType[job.Problems](err); ok {
		for _, p := range list {
			texts = append(texts, p.Error())
		}
		return texts
	}
	if many, ok := err.(interface{ Unwrap() []error }); ok {
		for _, one := range many.Unwrap() {
			texts = append(texts, problemsOf(one)...)
		}
		return texts
	}
	return []string{err.Error()}
}

// units are the reader's.
func (a *Asked) units() quantity.System {
	if job.Units(a.Units) == job.SI {
		return quantity.SI
	}
	return quantity.US
}

// task is a question about one opening that was understood.
type task struct {
	*Asked
	job     *job.Job
	opening *opening.Opening
	books   []*rulebook.Book
	units   quantity.System
}

// understand reads the job and finds the opening and the rulebooks.
func (e *Engine) understand(a *Asked) (*task, error) {
	j, err := decode(a.Job)
	if err != nil {
		return nil, err
	}
	t := &task{Asked: a, job: j, units: a.units()}
	i := slices.IndexFunc(j.Openings, func(o opening.Opening) bool { return o.ID == a.Opening })
	if i < 0 {
		return nil, fmt.Errorf("the job has no opening %q", a.Opening)
	}
	t.opening = &j.Openings[i]
	ids := a.Rules
	if len(ids) == 0 {
		ids = j.Rulebooks
	}
	for _, id := range ids {
		b := e.books[id]
		if b == nil {
			return nil, fmt.Errorf("the rulebook %q is not at hand; load the job again where there is a network", id)
		}
		t.books = append(t.books, b)
	}
	return t, nil
}

// decode reads a tree.
func decode(tree []byte) (*job.Job, error) {
	return job.Decode(job.Texts{"job": string(tree)}, "job")
}

// fewDraws are enough where only best estimates are asked for.
const fewDraws = 64

// plan makes the plan of the opening in question, or takes the one that was made.
func (e *Engine) plan(t *task) *plan.Plan {
	of := fmt.Sprintf("%q %q %d %s", t.Opening, t.Rules, t.Draws, t.Job)
	for _, k := range e.plans {
		if k.of == of {
			return k.plan
		}
	}
	p := e.maker.Make(t.opening, &t.job.Sheets, t.books, e.options(t))
	if len(e.plans) == mostPlans {
		e.plans = e.plans[1:]
	}
	e.plans = append(e.plans, keptPlan{of, p})
	return p
}

func (e *Engine) options(t *task) plan.Options {
	opt := plan.Options{Draws: t.Draws, Climate: t.job.Climate, Groups: t.job.Groups, Openings: t.job.Openings}
	if len(t.books) > 1 {
		opt.Collisions = e.collisions
	}
	return opt
}
