package book

import (
	"context"
	"database/sql"
	"io/fs"
	"time"
)

// ApplyUnchecked keeps changes without reading the job that they lead to, to make
// large books in little time.
func (b *Book) ApplyUnchecked(ctx context.Context, now time.Time, changes ...Change) ([]Receipt, error) {
	return b.apply(ctx, now, false, changes)
}

// Database is the connection that writes.
func (b *Book) Database() *sql.DB { return b.write }

// Schema are the steps of the schema that are written in SQL.
func Schema() fs.FS { return schema }

// InGo is how many others there are.
func InGo() int { return len(inGo()) }

// OpenWith opens a book as a program does that knows other steps of the schema.
func OpenWith(ctx context.Context, dir string, steps fs.FS) (*Book, error) {
	return open(ctx, dir, steps, false)
}

// Reseal gives all revisions the hashes of what they say now, as somebody would who altered them and knows how.
func (b *Book) Reseal(ctx context.Context) error {
	return b.Write(ctx, func(tx *sql.Tx) error {
		list, err := revisions(tx.QueryContext(ctx, "SELECT "+revisionColumns+" FROM revision ORDER BY n"))
		var before []byte
		for _, r := range list {
			before = r.chain(before)
			if _, err := tx.ExecContext(ctx, "UPDATE revision SET hash = ? WHERE n = ?", before, r.N); err != nil {
				return err
			}
		}
		return err
	})
}
