package server

import (
	"context"
	"encoding/json"
	"errors"
	"slices"
	"sync"
	"time"

	"swingwright/book"
	"swingwright/job"
	"swingwright/onsite"
)

// reckoner reckons how openings stand, for lists, and keeps that in the book: one after another, beside what else is
// asked, and no job that nobody has looked at.
type reckoner struct {
	sync.Mutex
	shown []look // what somebody has before them, the latest first
	jobs  []string
	busy  bool
}

// look is what of a job somebody has before them.
type look struct {
	job  string
	keys []string
}

// mostLooks is how many looks are remembered: whoever looked longer ago looks again, or not.
const mostLooks = 16

// stretch is how many openings are reckoned for one reading of their job.
const stretch = 64

// wants takes up what somebody looks at, and the rest of its job after that.
func (s *Server) wants(job string, keys []string) {
	r := &s.reckoner
	r.Lock()
	defer r.Unlock()
	r.shown = slices.DeleteFunc(r.shown, func(l look) bool { return l.job == job && slices.Equal(l.keys, keys) })
	r.shown = append([]look{{job, keys}}, r.shown...)
	r.shown = r.shown[:min(len(r.shown), mostLooks)]
	if !slices.Contains(r.jobs, job) {
		r.jobs = append(r.jobs, job)
	}
	if !r.busy {
		r.busy = true
		go s.reckon()
	}
}

// next is what is to be reckoned now; a look without keys is the rest of a job.
func (r *reckoner) next() (look, bool) {
	r.Lock()
	defer r.Unlock()
	if len(r.shown) > 0 {
		l := r.shown[0]
		r.shown = r.shown[1:]
		return l, true
	}
	if len(r.jobs) > 0 {
		return look{job: r.jobs[0]}, true
	}
	r.busy = false
	return look{}, false
}

// done strikes off a job of which nothing is left to be reckoned, or nothing can be.
func (r *reckoner) done(job string) {
	r.Lock()
	defer r.Unlock()
	r.jobs = slices.DeleteFunc(r.jobs, func(j string) bool { return j == job })
}

// another tells that somebody has looked at something meanwhile.
func (r *reckoner) another() bool {
	r.Lock()
	defer r.Unlock()
	return len(r.shown) > 0
}

// reckon reckons until nothing is left.
func (s *Server) reckon() {
	ctx := context.Background()
	for {
		l, ok := s.reckoner.next()
		if !ok {
			return
		}
		keys := l.keys
		if keys == nil {
			stale, err := s.book.Stale(ctx, l.job, stretch)
			if err != nil || len(stale) == 0 {
				s.reckoner.done(l.job)
				continue
			}
			for _, e := range stale {
				keys = append(keys, e.Key)
			}
		}
		kept, err := s.reckonAll(ctx, l, keys)
		if l.keys == nil && (err != nil || kept == 0) { // what is wrong with the job is told to whoever opens it
			s.reckoner.done(l.job)
		}
	}
}

// reckonAll reckons openings of a job as the book is now, and tells how many it kept. It breaks off the rest of a job where
// somebody has looked at something meanwhile.
func (s *Server) reckonAll(ctx context.Context, l look, keys []string) (kept int, err error) {
	files, rev, err := s.book.Export(ctx, l.job, 0)
	if err != nil {
		return 0, err
	}
	tree, err := s.trees.tree(l.job, files)
	if err != nil {
		return 0, err
	}
	rules, err := s.rules.find(files)
	if err != nil {
		return 0, err
	}
	for _, key := range keys {
		if l.keys == nil && s.reckoner.another() {
			return max(kept, 1), nil
		}
		summary, err := s.summary(ctx, tree, rules, key)
		if err != nil {
			return kept, err
		}
		if err := s.book.SaveSummary(ctx, key, rev, summary); err != nil {
			return kept, err
		}
		kept++
	}
	return kept, nil
}

// reckoned is what a summary holds besides: the answer to "state", or why there is none.
type reckoned struct {
	*onsite.State
	Problems []string `json:"problems,omitempty"`
}

// summary reckons how an opening stands, as the app would ask it.
func (s *Server) summary(ctx context.Context, tree job.Tree, rules *jobRules, key string) (book.Summary, error) {
	part, err := s.book.Part(ctx, key)
	if err != nil {
		return book.Summary{}, err
	}
	asked, err := json.Marshal(map[string]any{"job": tree.Part(part.Name), "rules": rules.ids, "opening": part.Name})
	if err != nil {
		return book.Summary{}, err
	}
	s.asking.Lock()
	text := rules.engine.Answer("state", asked)
	s.asking.Unlock()
	var r reckoned
	if err := json.Unmarshal(text, &r); err != nil {
		return book.Summary{}, err
	}
	out := book.Summary{Detail: string(text)}
	if r.State != nil {
		out.State, out.Missing = r.Standing, r.Gaps
	}
	out.Due, err = s.due(ctx, key)
	return out, err
}

// due is the day on which the yearly inspection is due, a year after the last sign-off (common practice); empty
// where nobody signed.
func (s *Server) due(ctx context.Context, key string) (string, error) {
	notes, err := s.book.Annotations(ctx, key)
	if err != nil {
		return "", err
	}
	var last time.Time
	for _, a := range notes {
		if a.Kind == book.Sign && !a.Withdrawn && a.Made.After(last) {
			last = a.Made
		}
	}
	if last.IsZero() {
		return "", nil
	}
	return last.AddDate(1, 0, 0).Format(time.DateOnly), nil
}

// standing is the head of a list: how the whole job stands.
type standing struct {
	Rev       int64          `json:"rev"` // the latest revision of the job
	Name      string         `json:"name"`
	Customer  string         `json:"customer"`
	Site      string         `json:"site"`
	Units     string         `json:"units"`
	Openings  int            `json:"openings"`
	States    map[string]int `json:"states"` // how many by the state of their summary; under the empty word those without one
	Stale     bool           `json:"stale"`  // some are being reckoned
	Conflicts int            `json:"conflicts"`
}

func (s *Server) standing(ctx context.Context, part *book.Part) (*standing, error) {
	b, err := s.book.Standing(ctx, part.Key)
	if err != nil {
		return nil, err
	}
	head := part.Plain("job", "customer", "site", "units")
	out := &standing{b.Rev, head[0], head[1], head[2], head[3], 0, b.States, b.Stale, b.Conflicts}
	for _, n := range b.States {
		out.Openings += n
	}
	return out, nil
}

// slice gives one opening of a job with what is needed to work at it, as a job of its own.
func (s *Server) slice(ctx context.Context, jobKey, id, key string) (*shownJob, error) {
	if id != "" {
		var err error
		if key, err = s.book.Find(ctx, jobKey, id); err != nil {
			return nil, err
		}
	}
	sl, err := s.book.Slice(ctx, jobKey, key)
	if err != nil {
		return nil, err
	}
	out, err := s.newShownJob(ctx, sl.Rev)
	if err != nil {
		return nil, err
	}
	if out.Tree, err = job.ReadPartTree(job.Texts(sl.Files.Texts), sl.Files.Name, func(string, string) bool { return true }); err != nil {
		return nil, err
	}
	rules, err := s.rules.find(sl.Files)
	if err != nil {
		return nil, err
	}
	out.Rules, out.Version = rules.ids, rules.version
	for i := range sl.Openings {
		e := &sl.Openings[i]
		out.Keys[e.ID], out.Places[e.Key] = e.Key, e.Place
		err = errors.Join(err, s.hangs(ctx, e, out))
	}
	return out, err
}
