package book

import (
	"context"
	"database/sql"
)

// Write does something in one transaction that writes, and keeps all of it or nothing. It
// is for what is kept in the book beside its revisions, such as accounts: revisions and
// all that is made from them are written by the methods for them alone.
func (b *Book) Write(ctx context.Context, do func(*sql.Tx) error) error {
	tx, err := b.write.BeginTx(ctx, nil)
	if err != nil {
		return told(err)
	}
	defer tx.Rollback()
	if err := do(tx); err != nil {
		return told(err)
	}
	return told(tx.Commit())
}

// Read does something in one transaction that sees one state of the book and cannot write.
func (b *Book) Read(ctx context.Context, do func(*sql.Tx) error) error {
	tx, err := b.read.BeginTx(ctx, &sql.TxOptions{ReadOnly: true})
	if err != nil {
		return told(err)
	}
	defer tx.Rollback()
	return told(do(tx))
}

// Dir is the folder of the book.
func (b *Book) Dir() string { return b.dir }

// Attached tells whether a revision of a job names a content by its hash.
func (b *Book) Attached(ctx context.Context, job, digest string) (found bool, err error) {
	if !seenHash.MatchString(digest) {
		return false, nil
	}
	err = b.read.QueryRowContext(ctx, "SELECT EXISTS (SELECT 1 FROM revision WHERE job = ? AND kind IN (?, ?) AND instr(value, ?) > 0)", job, Attach, Sign, digest).Scan(&found)
	return found, told(err)
}

// EnteredBy is who entered the change of an identity; empty where none was kept.
func (b *Book) EnteredBy(ctx context.Context, id string) (who string, err error) {
	err = b.read.QueryRowContext(ctx, "SELECT coalesce((SELECT who FROM revision WHERE id = ?), '')", id).Scan(&who)
	return who, told(err)
}
