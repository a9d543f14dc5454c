package server

import (
	"context"
	"net/http"
	"strconv"

	"swingwright/book"
)

// entry is an opening as a list shows it.
type entry struct {
	Key       string        `json:"key"`
	Job       string        `json:"job"`
	ID        string        `json:"id"`
	Name      string        `json:"name"`
	InPlaceOf string        `json:"in_place_of"` // the opening that it is an alternative to
	Conflicts int           `json:"conflicts"`
	Summary   *book.Summary `json:"summary"` // null where nobody reckoned it yet
	Stale     bool          `json:"stale"`   // it is being reckoned: nobody did so before, or something was entered since
}

// page is one page of a list.
type page struct {
	Openings []entry   `json:"openings"`
	After    string    `json:"after"` // what to ask with for the next page; empty: this was the last
	Job      *standing `json:"job"`
}

// The lengths of pages.
const (
	usualPage = 50
	mostPage  = 1000
)

// limit is how many are asked for.
func limit(r *http.Request) (int, error) {
	text := r.FormValue("limit")
	if text == "" {
		return usualPage, nil
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < 1 || n > mostPage {
		return 0, refuse(http.StatusBadRequest, "limit is a number from 1 to %d", mostPage)
	}
	return n, nil
}

// openings lists openings of a job, page by page.
func (s *Server) openings(r *http.Request) (any, error) {
	n, err := limit(r)
	if err != nil {
		return nil, err
	}
	f := book.Filter{Job: r.PathValue("job"), Summary: r.FormValue("state"), DueBefore: r.FormValue("due"), Missing: r.FormValue("missing") != "", Conflicts: r.FormValue("conflicts") != "",
		Words: r.FormValue("q"), After: r.FormValue("after"), Limit: n}
	part, err := s.book.Part(r.Context(), f.Job)
	if err != nil {
		return nil, err
	} else if part.Kind != book.BeginJob {
		return nil, nothing(f.Job)
	}
	if f.After != "" { // the place of an opening elsewhere would tell that it is there
		if part, err := s.book.Part(r.Context(), f.After); err != nil {
			return nil, err
		} else if part.Job != f.Job {
			return nil, nothing(f.After)
		}
	}
	list, err := s.book.List(r.Context(), f)
	if err != nil {
		return nil, err
	}
	out := page{Openings: []entry{}}
	var stale []string
	for _, e := range list {
		if e.Stale {
			stale = append(stale, e.Key)
		}
		out.Openings = append(out.Openings, entry{e.Key, e.Job, e.ID, e.Name, e.InPlaceOf, e.Conflicts, e.Summary, e.Stale})
	}
	if len(list) == n {
		out.After = list[n-1].Key
	}
	if out.Job, err = s.standing(r.Context(), part); err == nil && out.Job.Stale {
		s.wants(f.Job, stale)
	}
	return out, err
}

// found is something that a search found.
type found struct {
	Key   string    `json:"key"`
	Job   string    `json:"job"`
	Kind  book.Kind `json:"kind"`
	Name  string    `json:"name"`
	Title string    `json:"title"`
}

// search finds what holds all of the words asked for, in one job or in all that are
// somebody's to see.
func (s *Server) search(r *http.Request) (any, error) {
	ctx, words := r.Context(), r.FormValue("q")
	n, err := limit(r)
	if err != nil {
		return nil, err
	}
	p, err := s.person(r)
	if err != nil {
		return nil, err
	}
	within := []string{r.FormValue("job")}
	if job := within[0]; job != "" {
		if err := s.maySee(ctx, p, job); err != nil {
			return nil, err
		}
	} else if !p.Role.SeesAll() {
		if within, err = s.jobsOf(ctx, p); err != nil {
			return nil, err
		}
	}
	all := []found{}
	for _, job := range within {
		if len(all) >= n {
			break
		}
		list, err := s.book.Search(ctx, job, words, n-len(all))
		if err != nil {
			return nil, err
		}
		for _, f := range list {
			if f.State == book.Live {
				all = append(all, found{f.Key, f.Job, f.Kind, f.Name, f.Title})
			}
		}
	}
	return all, nil
}

// jobsOf are the keys of the jobs that are somebody's to see.
func (s *Server) jobsOf(ctx context.Context, p Person) ([]string, error) {
	jobs, err := s.book.Jobs(ctx)
	if err != nil {
		return nil, err
	}
	var keys []string
	for _, j := range jobs {
		if s.theirs(p, j) {
			keys = append(keys, j.Key)
		}
	}
	return keys, nil
}

// shownOpening is an opening with what hangs on it.
type shownOpening struct {
	Key       string     `json:"key"`
	Job       string     `json:"job"`
	ID        string     `json:"id"`
	Name      string     `json:"name"`
	State     book.State `json:"state"`
	Text      string     `json:"text"` // as it stands in the job file
	Records   []record   `json:"records"`
	Conflicts []conflict `json:"conflicts"`
	History   []change   `json:"history"` // the latest first
}

// opening gives one opening, with what happened to it last.
func (s *Server) opening(r *http.Request) (any, error) {
	ctx, key := r.Context(), r.PathValue("key")
	part, err := s.book.Part(ctx, key)
	if err != nil {
		return nil, err
	}
	if part.Kind != book.BeginOpening {
		return nil, nothing(key)
	}
	var all shownJob
	all.Records, all.Conflicts = map[string][]record{}, []conflict{}
	if err := s.hangs(ctx, &book.Entry{Key: key, Conflicts: part.Conflicts}, &all); err != nil {
		return nil, err
	}
	list, err := s.book.History(ctx, key, false, 0, usualPage)
	if err != nil {
		return nil, err
	}
	out := shownOpening{key, part.Job, part.Name, part.Title, part.State, part.Text, all.Records[key], all.Conflicts, []change{}}
	if out.Records == nil {
		out.Records = []record{}
	}
	for _, one := range list {
		out.History = append(out.History, changeOf(one))
	}
	return out, nil
}
