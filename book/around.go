package book

import (
	"context"
	"database/sql"
	"slices"

	"swingwright/job/amend"
)

// A Slice is one opening of a job and what is needed to work at it: what stands around the openings, those that
// it takes its fields over from, and the one before it, as a survey goes from door to door.
type Slice struct {
	Files    *Files
	Openings []Entry // those in it, in the order of the job, without summaries
	Rev      int64   // of the book, at which all of it was so
}

// Slice gives the slice of a live opening. Where no key is given it is that of an opening yet to be begun: the last one
// stands before it. The error is ErrNone where the job has no such opening.
func (b *Book) Slice(ctx context.Context, job, key string) (*Slice, error) {
	tx, err := b.read.BeginTx(ctx, &sql.TxOptions{ReadOnly: true})
	if err != nil {
		return nil, told(err)
	}
	defer tx.Rollback()
	s := &Slice{}
	if err := tx.QueryRowContext(ctx, "SELECT coalesce(max(n), 0) FROM revision").Scan(&s.Rev); err != nil {
		return nil, told(err)
	}
	around, err := partsOf(tx.QueryContext(ctx, "SELECT "+partColumns+" FROM part WHERE job = ? AND kind <> ? AND (state = ? OR kind = ?) ORDER BY n", job, BeginOpening, Live, BeginJob))
	if err != nil {
		return nil, err
	}
	if len(around) == 0 {
		return nil, none(job)
	}
	openings, err := alongside(ctx, tx, job, key)
	if err != nil {
		return nil, err
	}
	for _, p := range openings {
		s.Openings = append(s.Openings, Entry{Key: p.Key, Job: p.Job, ID: p.Name, Name: p.Title, State: p.State, Conflicts: p.Conflicts, Changed: p.Changed, Place: p.n})
	}
	texts, name := put(append(around, openings...))
	s.Files = &Files{Name: name, Texts: texts}
	return s, nil
}

// alongside are the openings of a slice, in the order of the job.
func alongside(ctx context.Context, q querier, job, key string) ([]*Part, error) {
	var all []*Part
	take := func(p *Part) error {
		more, err := followed(ctx, q, p)
		for _, one := range append([]*Part{p}, more...) {
			if !slices.ContainsFunc(all, func(a *Part) bool { return a.Key == one.Key }) {
				all = append(all, one)
			}
		}
		return err
	}
	before := int64(1) << 62
	if key != "" {
		p, err := partOf(ctx, q, key)
		if err != nil {
			return nil, err
		}
		if p.Job != job || p.Kind != BeginOpening || p.State != Live {
			return nil, none(key)
		}
		before = p.n
		if err := take(p); err != nil {
			return nil, err
		}
	}
	const most = 20 // alternates in a row, among which one that is none is looked for
	earlier, err := partsOf(q.QueryContext(ctx, "SELECT "+partColumns+" FROM part WHERE job = ? AND kind = ? AND state = ? AND n < ? ORDER BY n DESC LIMIT ?", job, BeginOpening, Live, before, most))
	if err != nil {
		return nil, err
	}
	for _, p := range earlier {
		if amend.Plain(p.Text, "in_place_of")[0] == "" {
			if err := take(p); err != nil {
				return nil, err
			}
			break
		}
	}
	slices.SortFunc(all, func(a, b *Part) int { return int(a.n - b.n) })
	return all, nil
}

// A Standing is how a whole job stands, for the head of a list.
type Standing struct {
	Rev       int64          // the latest revision of the job
	States    map[string]int // live openings by the state of their summary
	Stale     bool           // one of them has no summary, or an old one
	Conflicts int            // how many are open
}

// Standing tells how a job stands. It takes no longer where the job is large.
func (b *Book) Standing(ctx context.Context, job string) (*Standing, error) {
	s := &Standing{}
	var err error
	if s.States, err = b.Count(ctx, job); err != nil {
		return nil, err
	}
	err = b.read.QueryRowContext(ctx, `SELECT (SELECT coalesce(max(n), 0) FROM revision WHERE job = ?), EXISTS (SELECT 1 FROM standing WHERE job = ? AND stale = 1),
		(SELECT coalesce(sum(conflicts), 0) FROM part WHERE conflicts > 0 AND job = ?)`, job, job, job).Scan(&s.Rev, &s.Stale, &s.Conflicts)
	return s, told(err)
}
