package server

import (
	"context"
	"fmt"
	"net/http"
	"slices"
	"sync"

	"swingwright/book"
)

// A need is what somebody must be let do before a route answers. Each route has one, so that none is
// left open by being forgotten.
type need int

const (
	anyone need = iota // signed in or not
	sees               // signed in; and what the path names must be theirs to see
	enters             // the same, and they may change something
	own                // a person who signed in, about what is theirs; no program
	keeps              // a person who signed in and keeps the accounts; to change something, with a password given lately
)

// A route is a path, who may ask for it, and what answers.
type route struct {
	pattern string
	need    need
	answer  http.HandlerFunc
}

// guarded answers those that may ask.
func (s *Server) guarded(rt route) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		if err := s.bounded(r); err != nil {
			fail(w, r, err)
			return
		}
		if rt.need == anyone {
			rt.answer(w, r)
			return
		}
		p, err := s.who(r)
		if err == nil {
			err = s.may(r, p, rt.need)
		}
		if err != nil {
			fail(w, r, err)
			return
		}
		rt.answer(w, r.WithContext(context.WithValue(r.Context(), personKey{}, p)))
	}
}

// bounded refuses what no client of ours sends, before anything is looked up.
func (s *Server) bounded(r *http.Request) error {
	if encoding := r.Header.Get("Content-Encoding"); encoding != "" && encoding != "identity" {
		return refuse(http.StatusUnsupportedMediaType, "send contents as they are, not packed as %.20q", encoding)
	}
	if s.door == nil {
		return nil
	}
	// Browsers say where a request that changes something comes from. What a page elsewhere makes an
	// old browser send, without saying so, has the cookie but no token.
	if !reads(r) && r.Header.Get("Authorization") == "" && r.Header.Get("Origin") == "" && r.Header.Get("Sec-Fetch-Site") == "" {
		return refuse(http.StatusForbidden, "say with Origin where the request comes from, or send a token")
	}
	if from, now := place(r), s.now(); !s.door.requests.take(from, now) {
		return later(s.door.requests.wait(from, now))
	}
	return nil
}

// may refuses what somebody may not do. What is another customer's is not there for them: nobody
// learns by asking what else the book holds.
func (s *Server) may(r *http.Request, p Person, n need) error {
	switch {
	case n == enters && !p.Role.Enters():
		return refuse(http.StatusForbidden, "the role %s sees and changes nothing", p.Role)
	case n == own || n == keeps:
		return s.mayKeep(r, p, n)
	}
	if p.Role.SeesAll() {
		return nil
	}
	ctx := r.Context()
	if key := r.PathValue("job"); key != "" {
		return s.maySee(ctx, p, key)
	}
	if key := r.PathValue("key"); key != "" {
		part, err := s.book.Part(ctx, key)
		if err != nil {
			return err
		}
		if s.maySee(ctx, p, part.Job) != nil {
			return nothing(key)
		}
	}
	if hash := r.PathValue("hash"); hash != "" {
		return s.mayOpen(ctx, p, hash)
	}
	return nil
}

// mayKeep refuses what is about accounts. A program keeps none, and asks for nothing of its account: who steals a
// token comes in as long as that, and no longer.
func (s *Server) mayKeep(r *http.Request, p Person, n need) error {
	switch {
	case s.door == nil:
		return refuse(http.StatusNotFound, "on this machine nobody has to sign in, and the command account keeps accounts")
	case p.byToken:
		return refuse(http.StatusForbidden, "only people who signed in do this, no program")
	case n == keeps && !p.Role.Keeps():
		return refuse(http.StatusForbidden, "the role %s keeps no accounts", p.Role)
	case n == keeps && !reads(r):
		return s.fresh(p)
	}
	return nil
}

// fresh refuses who did not give their password lately: a phone that lies about signed in makes no accounts.
func (s *Server) fresh(p Person) error {
	if s.now().Sub(p.given) > freshFor {
		return refuse(http.StatusForbidden, "give your password once more: it is too long ago that you did")
	}
	return nil
}

// reads tells a request that changes nothing.
func reads(r *http.Request) bool { return r.Method == http.MethodGet || r.Method == http.MethodHead }

// nothing is what the book says of a key that it does not have.
func nothing(key string) error { return fmt.Errorf("%w: the key %.64q", book.ErrNone, key) }

// maySee refuses jobs that are not somebody's to see.
func (s *Server) maySee(ctx context.Context, p Person, key string) error {
	if p.Role.SeesAll() {
		return nil
	}
	part, err := s.book.Part(ctx, key)
	if err != nil {
		return err
	}
	if part.Kind != book.BeginJob || !s.theirs(p, part) {
		return nothing(key)
	}
	return nil
}

// theirs tells whether a job is somebody's to see.
func (s *Server) theirs(p Person, job *book.Part) bool {
	if job.State != book.Live {
		return p.Role.SeesAll()
	}
	return p.Role.SeesAll() || p.Customer != "" && s.customers.of(job) == p.Customer
}

// mayOpen refuses contents that nothing of their jobs names.
func (s *Server) mayOpen(ctx context.Context, p Person, hash string) error {
	jobs, err := s.book.Jobs(ctx)
	if err != nil {
		return err
	}
	for _, job := range slices.DeleteFunc(jobs, func(j *book.Part) bool { return !s.theirs(p, j) }) {
		if found, err := s.book.Attached(ctx, job.Key, hash); found || err != nil {
			return err
		}
	}
	return fmt.Errorf("%w: the attachment %.80q", book.ErrNone, hash)
}

// customersKept keeps whose jobs are, as long as the jobs are the same.
type customersKept struct {
	sync.Mutex
	by map[string]keptCustomer
}

type keptCustomer struct {
	changed  int64
	customer string
}

func (c *customersKept) of(job *book.Part) string {
	c.Lock()
	defer c.Unlock()
	if k, ok := c.by[job.Key]; ok && k.changed == job.Changed {
		return k.customer
	}
	if c.by == nil {
		c.by = map[string]keptCustomer{}
	}
	k := keptCustomer{job.Changed, job.Customer()}
	c.by[job.Key] = k
	return k.customer
}
