package book

import (
	"database/sql"
	"errors"
	"fmt"
	"strings"

	"swingwright/job/amend"
)

// carryOut finds what a change makes of its part, and notes in the revision what
// that was. The part is returned as it is then.
func (w *writer) carryOut(r *Revision) (*Part, error) {
	if r.Kind.begins() {
		return w.begin(r)
	}
	p, err := partOf(w.ctx, w.tx, r.Subject)
	if err != nil {
		return nil, fmt.Errorf("change %s: %w", r.ID, err)
	}
	if p, err = w.where(p, r); err != nil {
		return nil, err
	}
	r.Subject, r.Job = p.Key, p.Job
	now := *p
	wrong := w.make(r, &now)
	if invalid := (*Invalid)(nil); wrong != nil && !errors.As(wrong, &invalid) || r.annotates() {
		return p, wrong
	}
	if wrong == nil && now == *p && r.Kind != Sign && r.Kind != Resolve {
		r.Outcome = Same
		return p, nil
	}
	if r.Against, err = w.against(r, p, &now); err != nil {
		return nil, err
	}
	if r.Against != 0 { // what cannot be made now may have fitted what its maker saw
		r.Outcome = Conflict
		return p, nil
	}
	if wrong != nil {
		return nil, wrong
	}
	if err := w.admit(r, p, &now); err != nil {
		return nil, err
	}
	r.Splice = amend.Between(p.Text, now.Text)
	return &now, nil
}

// begin makes a new part.
func (w *writer) begin(r *Revision) (*Part, error) {
	if _, err := partOf(w.ctx, w.tx, r.Subject); !errors.Is(err, ErrNone) {
		if err == nil {
			err = w.invalid(r, fmt.Sprintf("the key %s again", r.Subject), "give each part a key of its own", nil)
		}
		return nil, err
	}
	p := &Part{n: r.N, Key: r.Subject, Job: r.Job, Kind: r.Kind, File: r.Path, Text: r.Value, State: Live}
	if r.Kind != BeginJob {
		of, err := partOf(w.ctx, w.tx, r.Job)
		if err != nil || of.Kind != BeginJob {
			return nil, w.invalid(r, fmt.Sprintf("the job %s", r.Job), "begin the job first", err)
		}
	}
	if r.Kind == BeginOpening {
		if err := w.layOut(r, p); err != nil {
			return nil, err
		}
	}
	err := fits(p.Kind, &p.Text)
	if err != nil {
		return nil, w.invalid(r, fmt.Sprintf("a text that is no %s", p.Kind), "", err)
	}
	p.rename()
	if r.Against, err = w.taken(p); err != nil {
		return nil, err
	}
	if r.Against != 0 {
		if r.Kind != BeginOpening {
			return nil, w.invalid(r, fmt.Sprintf("another %s of the name %s", r.Kind, p.Name), "change the one that is there, or choose another name", nil)
		}
		r.Outcome, p.State = Conflict, Held
	}
	if err := w.admit(r, nil, p); err != nil {
		return nil, err
	}
	r.Value = "" // it is what was put
	r.Splice = amend.Splice{Put: p.Text}
	return p, nil
}

// layOut writes a new opening as the openings before it are written. One that
// comes out of its file stays as it stood there.
func (w *writer) layOut(r *Revision, p *Part) error {
	if !w.checked {
		return nil
	}
	var before string
	err := w.tx.QueryRowContext(w.ctx, "SELECT text FROM part WHERE job = ? AND kind = ? ORDER BY n DESC LIMIT 1", r.Job, BeginOpening).Scan(&before)
	if errors.Is(err, sql.ErrNoRows) {
		err = w.tx.QueryRowContext(w.ctx, "SELECT text FROM part WHERE key = ?", r.Job).Scan(&before)
	}
	if err != nil {
		return err
	}
	if p.Text, err = amend.Opening(r.Value, amend.Hyphens(before)); err != nil {
		return w.invalid(r, "no opening", "", err)
	}
	return nil
}

// fits tells a text that cannot be a part of its kind: openings stand in parts of
// their own, one in each.
func fits(kind Kind, text *string) (err error) {
	switch kind {
	case BeginOpening:
		*text, err = amend.Opening(*text, amend.Hyphens(*text))
	case BeginJob, BeginEnding:
		if cut, wrong := amend.Split(*text); wrong != nil {
			err = wrong
		} else if _, given := amend.Get(*text, "openings"); given || len(cut.Openings) > 0 {
			err = errors.New("it holds openings; each is a part of its own")
		}
	}
	return err
}

// taken is the revision that began another live part of the same name in the job, or 0.
func (w *writer) taken(p *Part) (n int64, err error) {
	if p.Kind == BeginJob {
		return 0, nil
	}
	err = w.tx.QueryRowContext(w.ctx, "SELECT n FROM part WHERE job = ? AND kind = ? AND name = ? AND state = ? AND key <> ?", p.Job, p.Kind, p.Name, Live, p.Key).Scan(&n)
	if errors.Is(err, sql.ErrNoRows) {
		return 0, nil
	}
	return n, err
}

// where is the part that a change of a job belongs to: what follows the openings
// is a part of its own.
func (w *writer) where(p *Part, r *Revision) (*Part, error) {
	key, _, _ := strings.Cut(r.Path, ".")
	key, _, _ = strings.Cut(key, "[")
	if p.Kind != BeginJob || key == "" || r.Kind == Withdraw || r.Kind == Restore {
		return p, nil
	}
	if key == "openings" {
		return nil, w.invalid(r, "the list of all openings", "name an opening as the subject", nil)
	}
	endings, err := partsOf(w.tx.QueryContext(w.ctx, "SELECT "+partColumns+" FROM part WHERE job = ? AND kind = ? AND state = ?", p.Key, BeginEnding, Live))
	for _, e := range endings {
		if _, given := amend.Get(e.Text, key); given {
			return e, err
		}
	}
	return p, err
}

// make does to a part what a change asks for.
func (w *writer) make(r *Revision, p *Part) error {
	var s amend.Splice
	var err error
	switch r.Kind {
	case Set:
		s, err = amend.Set(p.Text, r.Path, r.Value)
	case Add:
		s, err = amend.Add(p.Text, r.Path, r.Value)
	case Remove:
		s, err = amend.Remove(p.Text, r.Path)
	case Resolve:
		if r.Path != "" {
			s, err = amend.Set(p.Text, r.Path, r.Value)
		}
	case Rewrite:
		if err = fits(p.Kind, &r.Value); err == nil {
			s = amend.Between(p.Text, r.Value)
		}
		r.Value = "" // it is what was put
	case Attach:
		return w.attach(r)
	case Sign:
		return w.sign(r)
	case Withdraw, Restore:
		return w.takeBack(r, p)
	}
	if err != nil {
		return w.invalid(r, "a change that cannot be made", "", err)
	}
	if p.Text, err = s.Apply(p.Text); err != nil {
		return err
	}
	p.rename()
	if p.Kind == BeginOpening && p.State == Held && r.Kind == Resolve {
		p.State = Live
	}
	return nil
}

// takeBack withdraws or restores a part, or something that was added to it.
func (w *writer) takeBack(r *Revision, p *Part) error {
	if r.Path == "" {
		if r.Kind == Withdraw {
			p.State = Withdrawn
		} else if p.State == Withdrawn {
			p.State = Live
		}
		return nil
	}
	var kind Kind
	err := w.tx.QueryRowContext(w.ctx, "SELECT kind FROM revision WHERE id = ? AND subject = ?", r.Path, r.Subject).Scan(&kind)
	if errors.Is(err, sql.ErrNoRows) || err == nil && kind != Attach && kind != Note && kind != Sign {
		return w.invalid(r, fmt.Sprintf("%.64q, which is no note, attachment or sign-off of this part", r.Path), "name the change that made it", nil)
	}
	return err
}

func (w *writer) invalid(r *Revision, found, hint string, err error) error {
	return &Invalid{Change: r.ID, Found: found, Hint: hint, Err: err}
}
