package book

import (
	"crypto/sha256"
	"database/sql"
	"fmt"
	"time"

	"swingwright/job/amend"
)

// Outcome is what became of a change.
type Outcome string

// The outcomes.
const (
	Kept     Outcome = "kept"     // carried out
	Same     Outcome = "same"     // kept; things were so already
	Conflict Outcome = "conflict" // kept and not carried out, until somebody resolves it
)

// State is whether a part counts.
type State string

// The states of a part.
const (
	Live      State = "live"
	Withdrawn State = "withdrawn" // taken back
	Held      State = "held"      // an opening whose id another one has; resolving its id makes it live
)

// A Revision is a change as it is kept. Where a change gave a whole text, by beginning
// a part or rewriting it, the Value is empty: the text is what the splice put.
type Revision struct {
	Change
	N       int64        `json:"revision"` // 1, 2, 3 and so on through the book
	Kept    time.Time    `json:"kept"`     // when it was kept, by the clock of the book
	Outcome Outcome      `json:"outcome"`
	Against int64        `json:"against,omitempty"` // the revision that it is in conflict with, or 0
	Splice  amend.Splice `json:"splice"`            // what it did to the text of its part
	State   State        `json:"state"`             // of the part, after it
	sent    []byte       // SHA-256 of the change as it was sent
	digest  []byte       // SHA-256 of the part's text, after it
	hash    []byte
}

// Seal is the hash of the revision, in hexadecimal: it covers the whole book up to here.
func (r *Revision) Seal() string { return fmt.Sprintf("%x", r.hash) }

// chain is the hash of a revision behind that of the revision before it. The
// encoding is each field behind its length, so no two revisions have the same.
func (r *Revision) chain(before []byte) []byte {
	h := sha256.New()
	write(h, "swingwright revision 1", string(before), fmt.Sprint(r.N))
	r.sum(h)
	write(h, string(r.sent), stamp(r.Kept), string(r.Outcome), fmt.Sprint(r.Against),
		fmt.Sprint(r.Splice.At), r.Splice.Cut, r.Splice.Put, string(r.State), string(r.digest))
	return h.Sum(nil)
}

const revisionColumns = "n, id, sent, kind, job, subject, path, value, seen, base, device, seq, who, instrument, made, kept, outcome, against, place, cut, put, state, digest, hash"

func (r *Revision) fields() []any {
	return []any{&r.N, &r.ID, &r.sent, &r.Kind, &r.Job, &r.Subject, &r.Path, &r.Value, &r.Seen, &r.Base, &r.Device, &r.Seq, &r.Who, &r.Instrument,
		(*kept)(&r.Made), (*kept)(&r.Kept), &r.Outcome, &r.Against, &r.Splice.At, &r.Splice.Cut, &r.Splice.Put, &r.State, &r.digest, &r.hash}
}

// values are what is written into the columns.
func (r *Revision) values() []any {
	return []any{r.N, r.ID, r.sent, r.Kind, r.Job, r.Subject, r.Path, r.Value, r.Seen, r.Base, r.Device, r.Seq, r.Who, r.Instrument,
		stamp(r.Made), stamp(r.Kept), r.Outcome, r.Against, r.Splice.At, r.Splice.Cut, r.Splice.Put, r.State, r.digest, r.hash}
}

// kept is a time as it is kept.
type kept time.Time

// Scan reads the text of a column; it is for database/sql.
func (k *kept) Scan(value any) error {
	text, ok := value.(string)
	if !ok {
		return fmt.Errorf("a time is kept as %T", value)
	}
	t, err := time.Parse(time.RFC3339, text)
	if err == nil && stamp(t) != text {
		err = fmt.Errorf("the time %q is not written as the book writes times", text)
	}
	*k = kept(t)
	return err
}

type row interface{ Scan(...any) error }

func scanRevision(r row) (*Revision, error) {
	v := new(Revision)
	return v, r.Scan(v.fields()...)
}

// revisions gathers the rows of a query for revisionColumns.
func revisions(rows *sql.Rows, err error) ([]*Revision, error) {
	if err != nil {
		return nil, told(err)
	}
	defer rows.Close()
	var list []*Revision
	for rows.Next() {
		r, err := scanRevision(rows)
		if err != nil {
			return nil, told(err)
		}
		list = append(list, r)
	}
	return list, told(rows.Err())
}
