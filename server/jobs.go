package server

import (
	"context"
	"encoding/json"
	"errors"
	"io"
	"net/http"
	"slices"
	"strconv"
	"sync"
	"time"

	"swingwright/book"
	"swingwright/job"
	"swingwright/onsite"
)

// listed is a job as a list shows it.
type listed struct {
	Key      string `json:"key"`
	Name     string `json:"name"`
	Openings int    `json:"openings"`
}

// jobs lists the jobs of the book.
func (s *Server) jobs(r *http.Request) (any, error) {
	who, err := s.person(r)
	if err != nil {
		return nil, err
	}
	parts, err := s.book.Jobs(r.Context())
	if err != nil {
		return nil, err
	}
	counts, err := s.book.Openings(r.Context())
	if err != nil {
		return nil, err
	}
	all := []listed{}
	for _, p := range parts {
		if p.State == book.Live && s.theirs(who, p) {
			all = append(all, listed{Key: p.Key, Name: p.Name, Openings: counts[p.Key]})
		}
	}
	return all, nil
}

// shownJob is a job as the app keeps it.
type shownJob struct {
	Rev       int64               `json:"rev"`  // of the book, at which all of it was so
	Seal      string              `json:"seal"` // of that revision: in a book put back from a backup it may be another
	Tree      job.Tree            `json:"tree"`
	Keys      map[string]string   `json:"keys"`   // of the openings, by their ids
	Places    map[string]int64    `json:"places"` // of the openings in the job, by their keys: they sort so
	Rules     []string            `json:"rules"`  // rulebooks that it is judged by
	Version   string              `json:"rulesVersion"`
	Records   map[string][]record `json:"records"` // notes, attachments and sign-offs, by opening
	Conflicts []conflict          `json:"conflicts"`
}

func (s *Server) newShownJob(ctx context.Context, rev int64) (*shownJob, error) {
	at, err := s.book.Revision(ctx, rev)
	if err != nil {
		return nil, err
	}
	return &shownJob{Rev: rev, Seal: at.Seal(), Keys: map[string]string{}, Places: map[string]int64{}, Records: map[string][]record{}, Conflicts: []conflict{}}, nil
}

// record is a note, an attachment or a sign-off.
type record struct {
	ID       string    `json:"id"`
	N        int64     `json:"n"` // revision
	Kind     book.Kind `json:"kind"`
	Value    string    `json:"value"`
	Who      string    `json:"who"`
	Made     time.Time `json:"made"`
	Seal     string    `json:"seal"`
	Outcome  string    `json:"outcome"`
	Outdated bool      `json:"outdated"`
}

// conflict is a change that was kept and not carried out, beside what it met.
type conflict struct {
	change
	Now change `json:"now"`
}

// change is a revision as the app shows it.
type change struct {
	ID         string       `json:"id"`
	N          int64        `json:"n"`
	Kind       book.Kind    `json:"kind"`
	Subject    string       `json:"subject"`
	Path       string       `json:"path"`
	Value      string       `json:"value"`
	Who        string       `json:"who"`
	Made       time.Time    `json:"made"`
	Device     string       `json:"device"`
	Instrument string       `json:"instrument"`
	Outcome    book.Outcome `json:"outcome"`
	Seal       string       `json:"seal"`
}

func changeOf(r *book.Revision) change {
	return change{r.ID, r.N, r.Kind, r.Subject, r.Path, r.Value, r.Who, r.Made, r.Device, r.Instrument, r.Outcome, r.Seal()}
}

// treesKept keeps the trees of jobs, as long as their texts are the same.
type treesKept struct {
	sync.Mutex
	of map[string]keptTree
}

type keptTree struct {
	digest string
	tree   job.Tree
}

// tree reads the files of a job.
func (t *treesKept) tree(key string, f *book.Files) (job.Tree, error) {
	digest := digestOf(f)
	t.Lock()
	defer t.Unlock()
	if k, ok := t.of[key]; ok && k.digest == digest {
		return k.tree, nil
	}
	tree, err := job.ReadTree(job.Texts(f.Texts), f.Name)
	if err != nil {
		return nil, err
	}
	if t.of == nil {
		t.of = map[string]keptTree{}
	}
	t.of[key] = keptTree{digest, tree}
	return tree, nil
}

// atOf is the revision as of which something is asked for, 0 for the latest.
func atOf(r *http.Request) (int64, error) {
	text := r.FormValue("at")
	if text == "" {
		return 0, nil
	}
	n, err := strconv.ParseInt(text, 10, 64)
	if err != nil || n < 1 {
		return 0, refuse(http.StatusBadRequest, "at is the number of a revision")
	}
	return n, nil
}

// job gives a whole job, as a device takes it along, or as it was after a revision.
func (s *Server) job(r *http.Request) (any, error) {
	ctx, key := r.Context(), r.PathValue("job")
	at, err := atOf(r)
	if err != nil {
		return nil, err
	}
	files, rev, err := s.book.Export(ctx, key, at)
	if err != nil {
		return nil, err
	}
	out, err := s.newShownJob(ctx, rev)
	if err != nil {
		return nil, err
	}
	if at != 0 {
		out.Tree, err = job.ReadTree(job.Texts(files.Texts), files.Name)
	} else {
		out.Tree, err = s.trees.tree(key, files)
	}
	if err != nil {
		return nil, err
	}
	rules, err := s.rules.find(files)
	if err != nil {
		return nil, err
	}
	out.Rules, out.Version = rules.ids, rules.version
	if err := s.parts(ctx, key, out); err != nil || at == 0 {
		return out, err
	}
	out.Conflicts = []conflict{}
	if out.Keys, err = s.keysAt(ctx, out.Keys, at); err != nil {
		return nil, err
	}
	for key, list := range out.Records { // of what hangs on it, what did so then
		out.Records[key] = slices.DeleteFunc(list, func(one record) bool { return one.N > at })
	}
	return out, nil
}

// keysAt are the keys of openings by the ids that they had after a revision.
func (s *Server) keysAt(ctx context.Context, keys map[string]string, at int64) (map[string]string, error) {
	then := map[string]string{}
	for _, key := range keys {
		p, err := s.book.At(ctx, key, at)
		if errors.Is(err, book.ErrNone) {
			continue // it was not there yet
		} else if err != nil {
			return nil, err
		}
		then[p.Name] = key
	}
	return then, nil
}

// since gives what happened in a job after a revision, the earliest first.
func (s *Server) since(r *http.Request) (any, error) {
	n, err := limit(r)
	if err != nil {
		return nil, err
	}
	after, err := strconv.ParseInt(r.FormValue("after"), 10, 64)
	if err != nil || after < 0 {
		return nil, refuse(http.StatusBadRequest, "after is the number of a revision, 0 for all")
	}
	key := r.PathValue("job")
	if part, err := s.book.Part(r.Context(), key); err != nil {
		return nil, err
	} else if part.Kind != book.BeginJob {
		return nil, nothing(key)
	}
	list, err := s.book.Since(r.Context(), key, after, n)
	all := []change{}
	for _, one := range list {
		all = append(all, changeOf(one))
	}
	return all, err
}

// part gives one opening of a job with what is needed to work at it; without one, what an opening yet to
// be begun needs.
func (s *Server) part(r *http.Request) (any, error) {
	return s.slice(r.Context(), r.PathValue("job"), r.FormValue("opening"), r.FormValue("key"))
}

// parts adds the keys of the openings and what hangs on them.
func (s *Server) parts(ctx context.Context, key string, out *shownJob) error {
	const page = 1000
	for f := (book.Filter{Job: key, Limit: page}); ; {
		entries, err := s.book.List(ctx, f)
		if err != nil {
			return err
		}
		for _, e := range entries {
			out.Keys[e.ID], out.Places[e.Key] = e.Key, e.Place
			if err := s.hangs(ctx, &e, out); err != nil {
				return err
			}
		}
		if len(entries) < page {
			return nil
		}
		f.After = entries[page-1].Key
	}
}

// hangs adds the records and open conflicts of one opening.
func (s *Server) hangs(ctx context.Context, e *book.Entry, out *shownJob) error {
	notes, err := s.book.Annotations(ctx, e.Key)
	if err != nil {
		return err
	}
	for _, a := range notes {
		if !a.Withdrawn {
			out.Records[e.Key] = append(out.Records[e.Key], record{a.ID, a.N, a.Kind, a.Value, a.Who, a.Made, a.Seal(), string(a.Revision.Outcome), a.Outdated})
		}
	}
	if e.Conflicts == 0 {
		return nil
	}
	disputes, err := s.book.Disputes(ctx, e.Key, 100)
	for _, d := range disputes {
		out.Conflicts = append(out.Conflicts, conflict{changeOf(d.Change), changeOf(d.Against)})
	}
	return err
}

// jobRules gives the rulebooks of a job, with lowered formulas.
func (s *Server) jobRules(r *http.Request) (any, error) {
	files, _, err := s.book.Export(r.Context(), r.PathValue("job"), 0)
	if err != nil {
		return nil, err
	}
	rules, err := s.rules.find(files)
	if err != nil {
		return nil, err
	}
	return rules.all, nil
}

// mostAsked is how long a question may be: a recording of some minutes is among them.
const mostAsked = 32 << 20

// ask answers a question as the engine in the browser would.
func (s *Server) ask(w http.ResponseWriter, r *http.Request) {
	if _, err := s.person(r); err != nil {
		fail(w, r, err)
		return
	}
	question := r.PathValue("question")
	if !slices.Contains(onsite.Questions(), question) {
		fail(w, r, refuse(http.StatusNotFound, "nobody can answer %q", question))
		return
	}
	asked, err := io.ReadAll(http.MaxBytesReader(w, r.Body, mostAsked))
	if err != nil {
		fail(w, r, err)
		return
	}
	at, err := atOf(r)
	if err != nil {
		fail(w, r, err)
		return
	}
	files, _, err := s.book.Export(r.Context(), r.PathValue("job"), at)
	if err != nil {
		fail(w, r, err)
		return
	}
	rules, err := s.rules.find(files)
	if err != nil {
		fail(w, r, err)
		return
	}
	s.asking.Lock()
	answer := rules.engine.Answer(question, asked)
	s.asking.Unlock()
	writePacked(w, r, json.RawMessage(answer))
}

// history is what happened to an opening, the latest first.
func (s *Server) history(r *http.Request) (any, error) {
	const most = 200
	list, err := s.book.History(r.Context(), r.PathValue("key"), false, 0, most)
	if err != nil {
		return nil, err
	}
	if len(list) == 0 {
		return nil, refuse(http.StatusNotFound, "there is no such opening")
	}
	all := []change{}
	for _, one := range list {
		all = append(all, changeOf(one))
	}
	return all, nil
}
