package packet

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"reflect"
	"slices"
	"sync"

	"swingwright/decision"
	"swingwright/internal/paper"
	"swingwright/job"
	"swingwright/opening"
	"swingwright/plan"
	"swingwright/report"
	"swingwright/rulebook"
	"swingwright/takeoff"
)

// A Source is a job with whatever else the papers of its openings are made from. It must
// not be changed once it was asked for something; several goroutines may ask it at once.
type Source struct {
	Job        *job.Job
	Books      []*rulebook.Book // that the openings are judged by
	Collisions []rulebook.Collision
	// Draws are with which the plans are made: their number, seed and policy, and how many
	// workers share them. What the job tells is filled in.
	Draws plan.Options
	// Program tells one build of the program from another. It goes into the stamps.
	Program string
	// Brief leaves out the long search for what would open a window of settings.
	Brief bool

	once   sync.Once
	common []byte   // hash of what all openings share
	failed error    // why there is none
	units  sync.Map // of the openings that share a wiring, by group
}

// Dated is what papers say of their date where nobody says anything else: the job's own.
func (s *Source) Dated() string {
	if s.Job.Date == "" {
		return ""
	}
	return "survey of " + s.Job.Date
}

// Part is as much of the job as the papers of an opening rest on, with that opening as its
// first and those that share a wiring with it behind. The papers are made from nothing
// else of the job, so a stamp of the part is one of all that they can tell.
//
// Most sheets are found by their names. The decision tries all operators of the job for an
// opening that is to be powered, and the window of settings all arms for a closer whose
// sheet gives its powers; openings where neither is so are made without the others. Of the
// rates only the length of cable that is bought on top shows on an opening's papers.
func (s *Source) Part(o *opening.Opening) *job.Job {
	j := s.Job
	part := &job.Job{Name: j.Name, Customer: j.Customer, Site: j.Site, Date: j.Date, Openings: []opening.Opening{*o}}
	part.Rates.CableExtra = j.Rates.CableExtra
	if g := opening.Sharing(j.Groups, o.ID); g != nil {
		part.Groups = []opening.Group{*g}
		for i := range j.Openings {
			if other := &j.Openings[i]; other.ID != o.ID && slices.Contains(g.Of, other.ID) {
				part.Openings = append(part.Openings, *other)
			}
		}
	}
	named := map[string]bool{}
	texts(reflect.ValueOf(part.Openings), named)
	texts(reflect.ValueOf(part.Groups), named)
	part.Sheets = j.Sheets.Named(func(name string) bool { return named[name] })
	for i := range part.Openings {
		one := &part.Openings[i]
		if one.Use.Outdoors() {
			part.Climate = j.Climate
		}
		if one.Use.Powered() {
			part.Sheets.Operators = j.Sheets.Operators
		}
		if c := part.Sheets.Closer(one.Closer.Sheet); c != nil && len(c.Powers) > 0 {
			part.Sheets.Arms = j.Sheets.Arms
		}
	}
	return part
}

// texts gathers all texts in a value: whatever names a sheet is one of them.
func texts(v reflect.Value, all map[string]bool) {
	switch v.Kind() {
	case reflect.String:
		all[v.String()] = true
	case reflect.Struct:
		for i := range v.NumField() {
			texts(v.Field(i), all)
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			texts(v.Index(i), all)
		}
	}
}

// Gather makes the plan of an opening, decides on it, and reckons what its papers need
// besides that comes quickly; [Source.Complete] adds the rest.
func (s *Source) Gather(mk *plan.Maker, o *opening.Opening) *Opening {
	one := &Opening{Job: s.Part(o)}
	if s.shares(one.Job) {
		s.together(mk, one)
	} else {
		one.Plan = mk.Make(&one.Job.Openings[0], &one.Job.Sheets, s.Books, s.options(one.Job))
	}
	sheets, judged := &one.Job.Sheets, decision.Options{Policy: s.Draws.Policy, Brief: s.Brief}
	one.Decision = decision.Make(one.Plan, sheets, judged)
	one.Holes, one.Feeding = one.Plan.Holes(sheets, judged.Policy), one.Plan.Power(sheets, judged.Policy)
	return one
}

// shares tells that the first opening of a part has no wiring of its own and shares one
// with others, all of which are there.
func (s *Source) shares(part *job.Job) bool {
	return len(part.Groups) > 0 && part.Openings[0].Wiring.None() && len(part.Openings) == len(part.Groups[0].Of)
}

// unit is the openings that share a wiring: what it does turns on how all their leaves
// move, so their plans are made together, and wait until each is asked for.
type unit struct {
	sync.Mutex
	parts map[string]*job.Job
	plans map[string]*plan.Plan
	wired *plan.Wired
}

// together takes the plan of an opening, and the proof of the wiring, from those that
// share it; the first of them to be asked for makes them.
func (s *Source) together(mk *plan.Maker, one *Opening) {
	g := &one.Job.Groups[0]
	kept, _ := s.units.LoadOrStore(g.ID, new(unit))
	u := kept.(*unit)
	u.Lock()
	defer u.Unlock()
	id := one.Job.Openings[0].ID
	if u.plans[id] == nil {
		u.make(s, mk, one.Job)
	}
	one.Job, one.Plan, one.Wired = u.parts[id], u.plans[id], u.wired
	delete(u.parts, id)
	delete(u.plans, id)
}

// make makes the plans of all openings of a part.
func (u *unit) make(s *Source, mk *plan.Maker, part *job.Job) {
	u.parts, u.plans = map[string]*job.Job{}, map[string]*plan.Plan{}
	g := &part.Groups[0]
	var of []*opening.Opening
	var members []*plan.Member
	for _, id := range g.Of {
		own := *part // with the same sheets: plan and decision tell them apart by where they lie
		own.Openings = slices.Clone(part.Openings)
		at := slices.IndexFunc(own.Openings, func(o opening.Opening) bool { return o.ID == id })
		own.Openings[0], own.Openings[at] = own.Openings[at], own.Openings[0]
		p := mk.Make(&own.Openings[0], &own.Sheets, s.Books, s.options(&own))
		of, members = append(of, p.Opening), append(members, p.Member(&own.Sheets))
		u.parts[id], u.plans[id] = &own, p
	}
	u.wired = mk.ProveGroup(g, of, &part.Sheets, members...).Following(g, s.Draws.Policy, members...)
}

func (s *Source) options(part *job.Job) plan.Options {
	opt := s.Draws.WithDefaults()
	opt.Climate, opt.Groups, opt.Openings, opt.Collisions, opt.Wiring = part.Climate, part.Groups, part.Openings, s.Collisions, true
	return opt
}

// Complete adds what takes longer to what was gathered: the window of settings, and what
// the opening takes. It fails where the rates of the job make no sense.
func (s *Source) Complete(o *Opening) error {
	find := o.Plan.Window
	if s.Brief {
		find = o.Plan.HasWindow
	}
	var err error
	if o.Window, err = find(&o.Job.Sheets); err != nil {
		o.Window = nil // the question makes no sense here; papers then show the settings as found
	}
	counted, err := takeoff.Make(o.Job, []takeoff.Item{takeoff.NewItem(o.Plan.Opening, o.Decision)})
	if err != nil {
		return err
	}
	if len(counted.Openings) > 0 {
		o.Takeoff = &counted.Openings[0]
	}
	return nil
}

// Write writes the papers of an opening that was gathered and completed, with their stamp
// and, inside the file, what was reckoned and judged of the opening, for programs. It
// returns what [Write] does.
func (s *Source) Write(w io.Writer, o *Opening, opt Options) (lacking []rune, err error) {
	found, err := s.findings(o)
	if err != nil {
		return nil, err
	}
	opt.Attached = []paper.Attached{found}
	if opt.Stamp, err = s.stamp(o.Job, opt); err != nil {
		return nil, err
	}
	return Write(w, o, opt)
}

// findings is what check --json says of the opening.
func (s *Source) findings(o *Opening) (paper.Attached, error) {
	var buf bytes.Buffer
	out := report.NewJSON(&buf)
	head := report.Head{Job: o.Job, Openings: 1, Books: s.Books, Cautions: report.Cautions(o.Job, s.Books), Options: s.options(o.Job)}
	err := errors.Join(out.Start(head), out.Plan(o.Plan, o.Decision), out.End())
	return paper.Attached{Name: "findings.json", About: "what was reckoned and judged of this opening, for programs", Content: buf.Bytes()}, err
}

// stampFormat is raised when stamps are made otherwise.
const stampFormat = "swingwright packet 3"

// Stamp is the hash of everything that the papers of an opening are made from: the
// program, how they shall look, the rulebooks, and as much of the job as they rest on.
func (s *Source) Stamp(o *opening.Opening, opt Options) (string, error) {
	return s.stamp(s.Part(o), opt)
}

func (s *Source) stamp(part *job.Job, opt Options) (string, error) {
	opt.Attached, opt.Stamp = nil, ""
	s.once.Do(func() { s.common, s.failed = s.ground() })
	if s.failed != nil {
		return "", s.failed
	}
	sum, err := hashed(s.common, opt, part)
	return hex.EncodeToString(sum), err
}

// ground is the hash of what all openings have in common.
func (s *Source) ground() ([]byte, error) {
	opt := s.Draws.WithDefaults()
	return hashed(stampFormat, s.Program, opt.Draws, opt.Seed, opt.Policy, s.Brief, s.Books, s.Collisions)
}

// StampJob is the hash of everything that the papers of the whole job are made from; files
// are those of the job.
func (s *Source) StampJob(opt Options, files []paper.Attached) (string, error) {
	opt.Attached, opt.Stamp = nil, ""
	common, err := s.ground()
	if err != nil {
		return "", err
	}
	sum, err := hashed(common, opt, s.Job, files)
	return hex.EncodeToString(sum), err
}

// hashed is the hash of values, written as JSON.
func hashed(values ...any) ([]byte, error) {
	sum := sha256.New()
	for _, v := range values {
		text, err := json.Marshal(v)
		if err != nil {
			return nil, fmt.Errorf("hash of the inputs: %w", err)
		}
		fmt.Fprintf(sum, "%d\n%s\n", len(text), text)
	}
	return sum.Sum(nil), nil
}
