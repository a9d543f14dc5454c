package book

import (
	"context"
	"errors"
	"fmt"
	"strings"
)

// against is the revision that a change is in conflict with, or 0: the latest one
// of another device that its maker had not seen and that is about the same field,
// or one that took its name. The part is told as it is and as the change would make it.
func (w *writer) against(r *Revision, p, now *Part) (int64, error) {
	if now.Kind == BeginOpening && now.State == Live && (now.Name != p.Name || p.State != Live) {
		n, err := w.taken(now)
		if err == nil && n != 0 && r.Kind == Resolve {
			err = w.invalid(r, fmt.Sprintf("the id %s, which another opening has", now.Name), "give it one of its own", nil)
		}
		if n != 0 || err != nil {
			return n, err
		}
	}
	if r.Kind == Sign && r.Seen != "" && r.Seen != Digest(p.Text) {
		return p.Changed, nil
	}
	if r.Base == Latest {
		return 0, nil
	}
	rows, err := w.tx.QueryContext(w.ctx, "SELECT n, kind, path FROM revision WHERE subject = ? AND n > ? AND outcome = ? AND (device <> ? OR device = '') ORDER BY n DESC",
		r.Subject, r.Base, Kept, r.Device)
	if err != nil {
		return 0, err
	}
	defer rows.Close()
	for rows.Next() {
		var n int64
		var other Change
		if err := rows.Scan(&n, &other.Kind, &other.Path); err != nil {
			return 0, err
		}
		if meet(&r.Change, &other) {
			return n, nil
		}
	}
	return 0, errors.Join(rows.Err(), rows.Close())
}

// meet tells whether two changes of one part, made without knowing of each other,
// are about the same thing.
func meet(a, b *Change) bool {
	switch {
	case a.annotates() || b.annotates():
		return false
	case a.Kind == Sign || b.Kind == Sign:
		return a.Kind.alters() || b.Kind.alters()
	case a.Kind == Add && b.Kind == Add:
		return false // both are kept, one behind the other
	case a.Kind == Add:
		return b.Kind != Remove && within(a.Path, b.Path)
	case b.Kind == Add:
		return a.Kind != Remove && within(b.Path, a.Path)
	}
	return within(a.about(), b.about()) || within(b.about(), a.about())
}

// annotates tells a change that adds something to a part, or takes back such a
// thing, and leaves the part as it is.
func (c *Change) annotates() bool {
	return c.Kind == Attach || c.Kind == Note || (c.Kind == Withdraw || c.Kind == Restore) && c.Path != ""
}

// alters tells a revision that changed the text or the state of its part.
func (r *Revision) alters() bool {
	return r.Outcome == Kept && r.Kind.alters() && !r.annotates() || r.Kind.begins()
}

// disputed is the field that a conflict is about: of two openings that were begun with one id, that.
func (r *Revision) disputed() string {
	if r.Kind.begins() {
		return "id"
	}
	return r.Path
}

// about is the field that a change is about. To take out an item moves those
// behind it, so it is about the whole list.
func (c *Change) about() string {
	if i := strings.LastIndexByte(c.Path, '['); c.Kind == Remove && i >= 0 {
		return c.Path[:i]
	}
	return c.Path
}

// within tells a field that is another one or inside it; the empty path is the whole part.
func within(path, of string) bool {
	rest, ok := strings.CutPrefix(path, of)
	return ok && (of == "" || rest == "" || rest[0] == '.' || rest[0] == '[')
}

// A Dispute is a conflict: a change that was kept and not carried out, and what it met.
type Dispute struct {
	Change  *Revision // not carried out
	Against *Revision // carried out before it
	Settled int64     // the revision that resolved it; 0 while it is open
}

// Disputes are the open conflicts of a part, or of all parts where the key is
// empty; the earliest first, at most limit of them.
func (b *Book) Disputes(ctx context.Context, key string, limit int) ([]Dispute, error) {
	rows, err := b.read.QueryContext(ctx, "SELECT n, against FROM conflict WHERE settled = 0 AND (subject = ? OR ? = '') ORDER BY n LIMIT ?", key, key, limit)
	if err != nil {
		return nil, told(err)
	}
	defer rows.Close()
	var pairs [][2]int64
	for rows.Next() {
		var pair [2]int64
		if err := rows.Scan(&pair[0], &pair[1]); err != nil {
			return nil, told(err)
		}
		pairs = append(pairs, pair)
	}
	if err := errors.Join(rows.Err(), rows.Close()); err != nil {
		return nil, told(err)
	}
	list := make([]Dispute, len(pairs))
	for i, pair := range pairs {
		if list[i].Change, err = b.Revision(ctx, pair[0]); err != nil {
			return nil, err
		}
		if list[i].Against, err = b.Revision(ctx, pair[1]); err != nil {
			return nil, err
		}
	}
	return list, nil
}
