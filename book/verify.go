package book

import (
	"bytes"
	"context"
	"crypto/sha256"
	"database/sql"
	"errors"
	"fmt"
	"maps"
	"path/filepath"
	"slices"
)

// A Fault is something in a book that is not as it was kept.
type Fault struct {
	Where string // such as revision 17, set leaf.width, by J. Marlow
	What  string
}

func (f Fault) String() string { return f.Where + ": " + f.What }

// A Verdict is what Verify found.
type Verdict struct {
	Revisions   int64
	Parts       int
	Attachments int
	Seal        string // of the latest revision
	SealAt      int64  // the revision that has the seal that was asked for
	Faults      []Fault
}

// mostFaults are told: who sees that many needs the backup, not more of them.
const mostFaults = 200

// Verify goes through the whole book: the database's own check; that the
// revisions are without a gap and each has the hash that what it says and all
// before it come to; that their splices lead from nothing to the parts as they
// stand; and that every attachment is what it was. Where a seal from a signed paper is
// given, in hexadecimal, at least 16 digits of it, the revision that has it is looked for. The error tells
// that the book could not be gone through; faults stand in the verdict.
func (b *Book) Verify(ctx context.Context, seal string) (*Verdict, error) {
	// A connection of its own: one that has looked through the search before takes
	// what it remembers of it for what stands there (seen with SQLite 3.54.1).
	db, err := sql.Open("sqlite", source(filepath.Join(b.dir, fileName), "deferred", "query_only(1)"))
	if err != nil {
		return nil, err
	}
	defer db.Close()
	tx, err := db.BeginTx(ctx, &sql.TxOptions{ReadOnly: true})
	if err != nil {
		return nil, told(err)
	}
	defer tx.Rollback()
	v := &verifier{ctx: ctx, tx: tx, book: b, parts: map[string]*Part{}, open: map[int64]*Revision{}, seal: seal, Verdict: new(Verdict)}
	v.integrity()
	v.revisions()
	v.standing()
	v.conflicts()
	v.lists()
	v.attachments()
	if seal != "" && v.SealAt == 0 {
		v.fault("the seal "+seal, "no revision has it: the book was altered since it was printed, or is another one")
	}
	return v.Verdict, ctx.Err()
}

type verifier struct {
	*Verdict
	ctx   context.Context
	tx    *sql.Tx
	book  *Book
	parts map[string]*Part    // as the revisions lead to them
	open  map[int64]*Revision // conflicts that are open
	seal  string
	prev  []byte // the hash before
}

func (v *verifier) fault(where, what string, values ...any) {
	if len(v.Faults) < mostFaults {
		v.Faults = append(v.Faults, Fault{where, fmt.Sprintf(what, values...)})
	}
}

// integrity asks the database for faults in its own structures.
func (v *verifier) integrity() {
	rows, err := v.tx.QueryContext(v.ctx, "PRAGMA integrity_check(100)")
	if err != nil {
		v.fault("the database", "%v", told(err))
		return
	}
	defer rows.Close()
	for rows.Next() {
		var line string
		if err := rows.Scan(&line); err != nil {
			v.fault("the database", "%v", err)
		} else if line != "ok" {
			v.fault("the database", "%s", line)
		}
	}
	if err := rows.Err(); err != nil {
		v.fault("the database", "%v", told(err))
	}
}

// revisions goes through the chain. Where a row cannot be read it goes on with the next one that can.
func (v *verifier) revisions() {
	var last, end int64
	if err := v.tx.QueryRowContext(v.ctx, "SELECT coalesce(max(n), 0) FROM revision").Scan(&end); err != nil {
		v.fault("the revisions", "%v", told(err))
	}
	for tries := 0; last < end && tries < mostFaults && v.ctx.Err() == nil; tries++ {
		at, err := v.stretch(last)
		if err == nil {
			break
		}
		v.fault(fmt.Sprintf("revision %d", at+1), "it cannot be read: %v", told(err))
		last, v.prev = at+1, nil
	}
	v.Revisions = end
}

// stretch goes through the revisions after one, and returns the last that could be read.
func (v *verifier) stretch(last int64) (int64, error) {
	rows, err := v.tx.QueryContext(v.ctx, "SELECT "+revisionColumns+" FROM revision WHERE n > ? ORDER BY n", last)
	if err != nil {
		return last, err
	}
	defer rows.Close()
	for rows.Next() {
		r, err := scanRevision(rows)
		if err != nil {
			return last, err
		}
		if r.N != last+1 {
			v.fault(fmt.Sprintf("revision %d", last+1), "it is missing, with all up to %d", r.N-1)
			v.prev = nil
		}
		v.revision(r)
		last, v.prev = r.N, r.hash
	}
	return last, rows.Err()
}

// revision checks one revision and carries it out.
func (v *verifier) revision(r *Revision) {
	if (v.prev != nil || r.N == 1) && !bytes.Equal(r.chain(v.prev), r.hash) {
		v.fault(r.place(), "its hash is not that of what it says and of all before it: something in it was altered")
	}
	v.Seal = r.Seal()
	if len(v.seal) >= 16 && len(v.seal) <= len(v.Seal) && v.Seal[:len(v.seal)] == v.seal {
		v.SealAt = r.N
	}
	p := v.parts[r.Subject]
	if p == nil {
		p = &Part{n: r.N, Key: r.Subject, Job: r.Job, Kind: r.Kind, File: r.Path}
		v.parts[r.Subject] = p
		if !r.Kind.begins() {
			v.fault(r.place(), "its part %s was never begun", r.Subject)
		}
	}
	text, err := r.Splice.Apply(p.Text)
	if err != nil {
		v.fault(r.place(), "it does not fit the text that the revisions before it lead to: %v", err)
	} else if sum := sha256.Sum256([]byte(text)); !bytes.Equal(sum[:], r.digest) {
		v.fault(r.place(), "it does not lead to the text that it was made for")
	}
	if err == nil {
		p.Text = text
	}
	p.State, p.Last = r.State, r.N
	if r.alters() {
		p.Changed = r.N
	}
	v.dispute(r)
}

// dispute keeps the conflicts that are open.
func (v *verifier) dispute(r *Revision) {
	if r.Outcome == Conflict {
		v.open[r.N] = r
	}
	if r.Kind != Resolve || r.Outcome != Kept {
		return
	}
	maps.DeleteFunc(v.open, func(n int64, c *Revision) bool {
		return c.Subject == r.Subject && (r.Base == Latest || n <= r.Base) && within(c.disputed(), r.Path)
	})
}

// standing compares the parts as they stand with those that the revisions lead to.
func (v *verifier) standing() {
	rows, err := v.tx.QueryContext(v.ctx, "SELECT "+partColumns+" FROM part ORDER BY n")
	if err != nil {
		v.fault("the parts", "%v", told(err))
		return
	}
	defer rows.Close()
	seen := map[string]bool{}
	for rows.Next() {
		var p Part
		if err := rows.Scan(p.fields()...); err != nil {
			v.fault("the parts", "one behind number %d cannot be read: %v", len(seen), told(err))
			return
		}
		seen[p.Key] = true
		v.part(&p)
	}
	if err := rows.Err(); err != nil {
		v.fault("the parts", "%v", told(err))
		return
	}
	for _, key := range slices.Sorted(maps.Keys(v.parts)) {
		if !seen[key] {
			v.fault(v.parts[key].place(), "it is missing from the parts as they stand")
		}
	}
	v.Parts = len(seen)
}

func (v *verifier) part(p *Part) {
	made := v.parts[p.Key]
	if made == nil {
		v.fault(p.place(), "no revision began it")
		return
	}
	made.rename()
	made.Conflicts = p.Conflicts // seen to with the conflicts
	switch {
	case p.Text != made.Text:
		v.fault(made.place(), "its text is not the one that its revisions lead to")
	case *p != *made:
		v.fault(made.place(), "its names or its state are not those that its revisions lead to")
	}
}

// conflicts compares the conflicts that stand open with those that the revisions leave open.
func (v *verifier) conflicts() {
	rows, err := v.tx.QueryContext(v.ctx, "SELECT n FROM conflict WHERE settled = 0")
	if err != nil {
		v.fault("the conflicts", "%v", told(err))
		return
	}
	defer rows.Close()
	count := map[string]int{}
	for rows.Next() {
		var n int64
		if err := rows.Scan(&n); err != nil {
			v.fault("the conflicts", "%v", err)
			return
		}
		if r := v.open[n]; r == nil {
			v.fault(fmt.Sprintf("revision %d", n), "a conflict stands open that is none")
		} else {
			count[r.Subject]++
			delete(v.open, n)
		}
	}
	if err := rows.Err(); err != nil {
		v.fault("the conflicts", "%v", told(err))
	}
	for _, r := range v.open {
		v.fault(r.place(), "it is a conflict that nobody resolved, and does not stand open")
	}
	v.counts(count)
}

func (v *verifier) counts(count map[string]int) {
	rows, err := v.tx.QueryContext(v.ctx, "SELECT key, conflicts FROM part WHERE conflicts <> 0")
	if err != nil {
		v.fault("the conflicts", "%v", told(err))
		return
	}
	defer rows.Close()
	for rows.Next() {
		var key string
		var n int
		if err := rows.Scan(&key, &n); err != nil {
			v.fault("the conflicts", "%v", err)
			return
		}
		if count[key] != n {
			v.fault("the part "+key, "it counts %d open conflicts and has %d", n, count[key])
		}
		delete(count, key)
	}
	for key, n := range count {
		v.fault("the part "+key, "it counts no open conflict and has %d", n)
	}
}

// lists compares what lists count and call old with the parts and summaries that it follows from.
func (v *verifier) lists() {
	for _, c := range []struct{ what, query string }{
		{"stands otherwise in the lists than its summary and its revisions say", `SELECT coalesce(made.job, kept.job) FROM
			(SELECT p.n, p.job, coalesce(s.state, '') AS state, coalesce(s.as_of, 0) < max(p.last, (SELECT max(changed) FROM part WHERE job = p.job AND kind <> 'opening')) AS stale
			 FROM part p LEFT JOIN summary s ON s.part = p.n WHERE p.kind = 'opening' AND p.state = 'live') made
			FULL JOIN standing kept ON kept.part = made.n
			WHERE made.n IS NULL OR kept.part IS NULL OR made.job <> kept.job OR made.state <> kept.state OR made.stale > kept.stale`},
		{"has other numbers of openings in the lists than it has openings", `SELECT coalesce(made.job, kept.job) FROM (SELECT job, state, count(*) AS n FROM standing GROUP BY job, state) made
			FULL JOIN tally kept ON kept.job = made.job AND kept.state = made.state WHERE made.n IS NOT kept.n`},
	} {
		rows, err := v.tx.QueryContext(v.ctx, c.query)
		if err != nil {
			v.fault("the lists", "%v", told(err))
			return
		}
		defer rows.Close()
		for rows.Next() {
			var job string
			if err := rows.Scan(&job); err != nil {
				v.fault("the lists", "%v", err)
				return
			}
			v.fault("the job "+job, "it %s", c.what)
		}
		if err := rows.Err(); err != nil {
			v.fault("the lists", "%v", told(err))
		}
	}
}

// attachments reads every content that a revision names.
func (v *verifier) attachments() {
	used, err := v.book.attached(v.ctx)
	if err != nil {
		v.fault("the attachments", "%v", err)
		return
	}
	for _, digest := range slices.Sorted(maps.Keys(used)) {
		v.Attachments++
		switch _, err := v.book.Content(digest); {
		case errors.Is(err, ErrNone):
			v.fault(fmt.Sprintf("revision %d", used[digest]), "its attachment %s is missing", digest)
		case errors.Is(err, ErrDamaged):
			v.fault(fmt.Sprintf("revision %d", used[digest]), "its attachment %s is not what it was", digest)
		case err != nil:
			v.fault(fmt.Sprintf("revision %d", used[digest]), "its attachment %s cannot be read: %v", digest, err)
		}
	}
}

// place tells a revision from others, for people.
func (r *Revision) place() string {
	return fmt.Sprintf("revision %d (%s %s of %.20s, by %.40s)", r.N, r.Kind, r.Path, r.Subject, r.Who)
}

func (p *Part) place() string {
	named := *p
	named.rename()
	return fmt.Sprintf("%s %.40s (part %.20s)", p.Kind, named.Name, p.Key)
}
