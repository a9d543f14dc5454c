package book

import (
	"bytes"
	"context"
	"database/sql"
	"errors"
	"fmt"
	"time"
)

// A Receipt says what became of a change.
type Receipt struct {
	ID       string  `json:"id"`
	Revision int64   `json:"revision"`
	Outcome  Outcome `json:"outcome"`
	Against  int64   `json:"against,omitempty"` // the revision that it is in conflict with
	Again    bool    `json:"again,omitempty"`   // it had been kept already
}

// Apply keeps changes, in order, all or none; now is the time by the clock of the
// book. Once it returns without an error all of them are on the disk. A change
// that was kept before, with the same identity and content, is not kept again. The
// error is an *Invalid, a *Gap, ErrNone, ErrFull, ErrBusy or ErrDamaged, or one of the
// system, and tells by its text which change it was.
func (b *Book) Apply(ctx context.Context, now time.Time, changes ...Change) ([]Receipt, error) {
	return b.apply(ctx, now, true, changes)
}

// apply keeps changes. Those that come out of a job that was read as a whole are
// not checked one by one.
func (b *Book) apply(ctx context.Context, now time.Time, checked bool, changes []Change) ([]Receipt, error) {
	for i := range changes {
		if err := changes[i].check(); err != nil {
			return nil, err
		}
	}
	tx, err := b.write.BeginTx(ctx, nil)
	if err != nil {
		return nil, told(err)
	}
	defer tx.Rollback()
	w := &writer{ctx: ctx, tx: tx, book: b, now: now, checked: checked}
	receipts, err := w.all(changes)
	if err == nil {
		err = tx.Commit()
	}
	if err != nil {
		return nil, told(err)
	}
	return receipts, nil
}

// writer keeps changes within one transaction.
type writer struct {
	ctx     context.Context
	tx      *sql.Tx
	book    *Book
	now     time.Time
	checked bool
	n       int64  // the latest revision
	hash    []byte // its hash
}

func (w *writer) all(changes []Change) ([]Receipt, error) {
	err := w.tx.QueryRowContext(w.ctx, "SELECT n, hash FROM revision ORDER BY n DESC LIMIT 1").Scan(&w.n, &w.hash)
	if err != nil && !errors.Is(err, sql.ErrNoRows) {
		return nil, err
	}
	receipts := make([]Receipt, len(changes))
	for i := range changes {
		if receipts[i], err = w.one(&changes[i]); err != nil {
			return nil, err
		}
	}
	return receipts, nil
}

func (w *writer) one(c *Change) (Receipt, error) {
	sent := c.fingerprint()
	if again, err := w.before(c, sent); err != nil || again != nil {
		return deref(again), err
	}
	if err := w.inOrder(c); err != nil {
		return Receipt{}, err
	}
	if c.Base > w.n {
		return Receipt{}, &Invalid{Change: c.ID, Found: fmt.Sprintf("the base %d", c.Base), Hint: fmt.Sprintf("the book has %d revisions; was it put back from a backup?", w.n)}
	}
	r := &Revision{Change: *c, N: w.n + 1, Kept: w.now.UTC().Truncate(time.Millisecond), Outcome: Kept, sent: sent}
	r.Made = c.Made.UTC().Truncate(time.Millisecond)
	p, err := w.carryOut(r)
	if err != nil {
		return Receipt{}, err
	}
	r.State, r.digest = p.State, p.digest()
	r.hash = r.chain(w.hash)
	if err := w.store(r, p); err != nil {
		return Receipt{}, err
	}
	w.n, w.hash = r.N, r.hash
	return Receipt{ID: r.ID, Revision: r.N, Outcome: r.Outcome, Against: r.Against}, nil
}

func deref(r *Receipt) Receipt {
	if r == nil {
		return Receipt{}
	}
	return *r
}

// before finds the receipt of a change that was kept already.
func (w *writer) before(c *Change, sent []byte) (*Receipt, error) {
	r := Receipt{ID: c.ID, Again: true}
	var then []byte
	err := w.tx.QueryRowContext(w.ctx, "SELECT n, outcome, against, sent FROM revision WHERE id = ?", c.ID).Scan(&r.Revision, &r.Outcome, &r.Against, &then)
	switch {
	case errors.Is(err, sql.ErrNoRows):
		return nil, nil
	case err != nil:
		return nil, err
	case !bytes.Equal(sent, then):
		return nil, &Invalid{Change: c.ID, Found: fmt.Sprintf("the identity of another change, revision %d", r.Revision), Hint: "give each change an identity of its own"}
	}
	return &r, nil
}

// inOrder refuses a change of a device that has kept back an earlier one.
func (w *writer) inOrder(c *Change) error {
	if c.Seq == 0 {
		return nil
	}
	var last int64
	err := w.tx.QueryRowContext(w.ctx, "SELECT coalesce(max(seq), 0) FROM revision WHERE device = ? AND seq > 0", c.Device).Scan(&last)
	switch {
	case err != nil:
		return err
	case c.Seq <= last:
		return &Invalid{Change: c.ID, Found: fmt.Sprintf("number %d of device %s, which another change has", c.Seq, c.Device), Hint: fmt.Sprintf("its next number is %d", last+1)}
	case c.Seq > last+1:
		return &Gap{Device: c.Device, Awaited: last + 1, Sent: c.Seq}
	}
	return nil
}

const insertRevision = "INSERT INTO revision (" + revisionColumns + ") VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"

// putPart writes a part over what it was; to replace the row would count its opening anew.
const putPart = "INSERT INTO part (" + partColumns + ") VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT (n) DO UPDATE SET (" + partColumns + ") = (excluded.n, excluded.key, excluded.job, excluded.kind, excluded.file, excluded.name, excluded.title, excluded.text, excluded.state, excluded.last, excluded.changed, excluded.conflicts)"

// store writes a revision and what has changed with it.
func (w *writer) store(r *Revision, p *Part) error {
	p.Last = r.N
	if r.alters() {
		p.Changed = r.N
	}
	if err := w.exec(insertRevision, r.values()...); err != nil {
		return err
	}
	if err := w.exec("INSERT INTO conflict SELECT ?, ?, ?, ?, 0 WHERE ? = ?", r.N, r.Subject, r.disputed(), r.Against, r.Outcome, Conflict); err != nil {
		return err
	}
	if r.Kind == Resolve && r.Outcome == Kept {
		if err := w.settle(r); err != nil {
			return err
		}
	}
	if err := w.tx.QueryRowContext(w.ctx, "SELECT count(*) FROM conflict WHERE subject = ? AND settled = 0", p.Key).Scan(&p.Conflicts); err != nil {
		return err
	}
	if err := w.exec(putPart, p.values()...); err != nil {
		return err
	}
	if !r.alters() && !r.annotates() {
		return nil
	}
	return w.index(p)
}

// settle closes the conflicts that a resolution was about.
func (w *writer) settle(r *Revision) error {
	rows, err := w.tx.QueryContext(w.ctx, "SELECT n, path FROM conflict WHERE subject = ? AND settled = 0", r.Subject)
	if err != nil {
		return err
	}
	defer rows.Close()
	var settled []int64
	for rows.Next() {
		var n int64
		var path string
		if err := rows.Scan(&n, &path); err != nil {
			return err
		}
		if (r.Base == Latest || n <= r.Base) && within(path, r.Path) {
			settled = append(settled, n)
		}
	}
	if err := errors.Join(rows.Err(), rows.Close()); err != nil {
		return err
	}
	for _, n := range settled {
		if err := w.exec("UPDATE conflict SET settled = ? WHERE n = ?", r.N, n); err != nil {
			return err
		}
	}
	return nil
}

func (w *writer) exec(query string, values ...any) error {
	_, err := w.tx.ExecContext(w.ctx, query, values...)
	return err
}
