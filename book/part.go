package book

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"errors"
	"fmt"
	"path"
	"strings"

	"swingwright/job/amend"
)

// A Part is a piece of a job's text as it is now.
type Part struct {
	Key, Job  string
	Kind      Kind   // the kind of change that began it
	File      string // of a job and of a file beside it: its name
	Name      string // of an opening its id, of a job its name
	Title     string // of an opening its name
	Text      string
	State     State
	Last      int64 // its latest revision
	Changed   int64 // the latest that changed its text or state
	Conflicts int   // how many are open
	n         int64 // the revision that began it
}

const partColumns = "n, key, job, kind, file, name, title, text, state, last, changed, conflicts"

func (p *Part) fields() []any {
	return []any{&p.n, &p.Key, &p.Job, &p.Kind, &p.File, &p.Name, &p.Title, &p.Text, &p.State, &p.Last, &p.Changed, &p.Conflicts}
}

func (p *Part) values() []any {
	return []any{p.n, p.Key, p.Job, p.Kind, p.File, p.Name, p.Title, p.Text, p.State, p.Last, p.Changed, p.Conflicts}
}

// querier is a database or a transaction of one.
type querier interface {
	QueryContext(context.Context, string, ...any) (*sql.Rows, error)
	QueryRowContext(context.Context, string, ...any) *sql.Row
}

// partOf finds a part by its key.
func partOf(ctx context.Context, q querier, key string) (*Part, error) {
	p := new(Part)
	err := q.QueryRowContext(ctx, "SELECT "+partColumns+" FROM part WHERE key = ?", key).Scan(p.fields()...)
	if errors.Is(err, sql.ErrNoRows) {
		return nil, none(key)
	}
	return p, told(err)
}

func none(key string) error { return fmt.Errorf("%w: the key %.64q", ErrNone, key) }

// partsOf gathers the parts of a query for partColumns.
func partsOf(rows *sql.Rows, err error) ([]*Part, error) {
	if err != nil {
		return nil, told(err)
	}
	defer rows.Close()
	var list []*Part
	for rows.Next() {
		p := new(Part)
		if err := rows.Scan(p.fields()...); err != nil {
			return nil, told(err)
		}
		list = append(list, p)
	}
	return list, told(rows.Err())
}

// rename takes the part's names from its text.
func (p *Part) rename() {
	switch p.Kind {
	case BeginOpening:
		names := amend.Plain(p.Text, "id", "name")
		p.Name, p.Title = names[0], names[1]
	case BeginJob:
		names := amend.Plain(p.Text, "job", "site")
		p.Name, p.Title = names[0], names[1]
	case BeginFile:
		p.Name = p.File
	}
}

func (p *Part) digest() []byte {
	sum := sha256.Sum256([]byte(p.Text))
	return sum[:]
}

// Part is the part of a key.
func (b *Book) Part(ctx context.Context, key string) (*Part, error) { return partOf(ctx, b.read, key) }

// Find is the key of the live opening of an id in a job; the error is ErrNone where there is none.
func (b *Book) Find(ctx context.Context, job, id string) (key string, err error) {
	err = b.read.QueryRowContext(ctx, "SELECT key FROM part WHERE job = ? AND kind = ? AND name = ? AND state = ?", job, BeginOpening, id, Live).Scan(&key)
	if errors.Is(err, sql.ErrNoRows) {
		return "", fmt.Errorf("%w: the opening %.64q", ErrNone, id)
	}
	return key, told(err)
}

// local tells a path that stays in the folder that it starts from.
func local(name string) bool {
	return name != "" && name != "." && path.Clean(name) == name && !path.IsAbs(name) && name != ".." && !strings.HasPrefix(name, "../") && !strings.ContainsAny(name, "\\:")
}

// Customer is who the work is for, of a job; empty where it does not say.
func (p *Part) Customer() string {
	if p.Kind != BeginJob {
		return ""
	}
	return strings.TrimSpace(amend.Plain(p.Text, "customer")[0])
}

// Plain are the texts of fields at the top of a part, each empty where it does not say.
func (p *Part) Plain(fields ...string) []string { return amend.Plain(p.Text, fields...) }
