package book

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"time"

	"swingwright/job/amend"
)

// Revision is the revision of a number.
func (b *Book) Revision(ctx context.Context, n int64) (*Revision, error) {
	r, err := scanRevision(b.read.QueryRowContext(ctx, "SELECT "+revisionColumns+" FROM revision WHERE n = ?", n))
	if errors.Is(err, sql.ErrNoRows) {
		return nil, fmt.Errorf("%w: revision %d", ErrNone, n)
	}
	return r, told(err)
}

// History is what happened to a part, the latest first: at most limit revisions
// before the one of a number, or from the latest where that is 0. Of a job's key it is
// what happened in the whole job where whole is true.
func (b *Book) History(ctx context.Context, key string, whole bool, before int64, limit int) ([]*Revision, error) {
	column := "subject"
	if whole {
		column = "job"
	}
	return revisions(b.read.QueryContext(ctx, "SELECT "+revisionColumns+" FROM revision WHERE "+column+" = ? AND (n < ? OR ? = 0) ORDER BY n DESC LIMIT ?", key, before, before, limit))
}

// Since is what happened in a job after a revision, the earliest first, at most limit
// revisions: what a device that has the job needs to come up to date.
func (b *Book) Since(ctx context.Context, job string, after int64, limit int) ([]*Revision, error) {
	return revisions(b.read.QueryContext(ctx, "SELECT "+revisionColumns+" FROM revision WHERE job = ? AND n > ? ORDER BY n LIMIT ?", job, after, limit))
}

// Sent is the last number among the changes of a device, and the revision that has it; 0 where the book has none. A
// device that made more finds by it that the book was put back from a backup.
func (b *Book) Sent(ctx context.Context, device string) (seq, n int64, err error) {
	err = b.read.QueryRowContext(ctx, "SELECT seq, n FROM revision WHERE device = ? AND seq > 0 ORDER BY seq DESC LIMIT 1", device).Scan(&seq, &n)
	if errors.Is(err, sql.ErrNoRows) {
		return 0, 0, nil
	}
	return seq, n, told(err)
}

// AsOf is the latest revision that the book had kept at a time, 0 where it had none.
func (b *Book) AsOf(ctx context.Context, t time.Time) (n int64, err error) {
	err = b.read.QueryRowContext(ctx, "SELECT coalesce(max(n), 0) FROM revision WHERE kept <= ?", stamp(t)).Scan(&n)
	return n, told(err)
}

// At is a part as it was after a revision of the book; its conflicts are not
// counted. The error is ErrNone where it had not been begun.
func (b *Book) At(ctx context.Context, key string, n int64) (*Part, error) {
	tx, err := b.read.BeginTx(ctx, &sql.TxOptions{ReadOnly: true})
	if err != nil {
		return nil, told(err)
	}
	defer tx.Rollback()
	p, err := partOf(ctx, tx, key)
	if err != nil {
		return nil, err
	}
	list, err := revisions(tx.QueryContext(ctx, "SELECT "+revisionColumns+" FROM revision WHERE subject = ? AND n > ? ORDER BY n DESC", key, n))
	if err != nil {
		return nil, err
	}
	if err := back(ctx, tx, p, n, list); err != nil {
		return nil, err
	}
	return p, nil
}

// Replaced is what a revision's field held before it, on one line; empty where it held nothing.
func (b *Book) Replaced(ctx context.Context, r *Revision) (string, error) {
	if r.Path == "" || r.Kind.begins() || r.annotates() {
		return "", nil
	}
	p, err := b.At(ctx, r.Subject, r.N-1)
	if err != nil {
		return "", err
	}
	before, _ := amend.Get(p.Text, r.Path)
	return before, nil
}

// back undoes the revisions of a part that came after a number; they are given latest first.
func back(ctx context.Context, q querier, p *Part, n int64, list []*Revision) error {
	if p.n > n {
		return fmt.Errorf("%w: %s was begun later, at revision %d", ErrNone, p.Key, p.n)
	}
	for _, r := range list {
		var err error
		if p.Text, err = r.Splice.Undo(p.Text); err != nil {
			return fmt.Errorf("%w: revision %d does not lead to the text that stands there: %w", ErrDamaged, r.N, err)
		}
	}
	p.Conflicts = 0
	p.rename()
	err := q.QueryRowContext(ctx, "SELECT n, state FROM revision WHERE subject = ? AND n <= ? ORDER BY n DESC LIMIT 1", p.Key, n).Scan(&p.Last, &p.State)
	if err != nil {
		return told(err)
	}
	return told(q.QueryRowContext(ctx, "SELECT max(n) FROM revision WHERE subject = ? AND n <= ? AND (outcome = 'kept' AND kind NOT IN ('note', 'attach', 'sign') AND NOT (kind IN ('withdraw', 'restore') AND path <> '') OR n = ?)", p.Key, n, p.n).Scan(&p.Changed))
}
