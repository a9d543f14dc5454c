package account

import (
	"context"
	"database/sql"
	"errors"
	"time"
)

// Sessions keep what browsers that signed in are known by. They are a store for scs, which
// hands them the SHA-256 of what the browser holds.
type Sessions struct{ of *Accounts }

// Sessions are those of the accounts.
func (s *Accounts) Sessions() Sessions { return Sessions{s} }

// FindCtx is the data of a session, where it is there and has not ended.
func (s Sessions) FindCtx(ctx context.Context, hash string) (data []byte, found bool, err error) {
	err = s.of.book.Read(ctx, func(tx *sql.Tx) error {
		return tx.QueryRowContext(ctx, "SELECT data FROM session WHERE hash = ? AND ends > ?", hash, stamp(s.of.now())).Scan(&data)
	})
	if errors.Is(err, sql.ErrNoRows) {
		return nil, false, nil
	}
	return data, err == nil, err
}

// CommitCtx keeps a session until it ends, and drops those that have ended.
func (s Sessions) CommitCtx(ctx context.Context, hash string, data []byte, ends time.Time) error {
	return s.of.book.Write(ctx, func(tx *sql.Tx) error {
		if _, err := tx.ExecContext(ctx, "DELETE FROM session WHERE ends <= ?", stamp(s.of.now())); err != nil {
			return err
		}
		_, err := tx.ExecContext(ctx, "INSERT OR REPLACE INTO session (hash, data, ends) VALUES (?, ?, ?)", hash, data, stamp(ends))
		return err
	})
}

// DeleteCtx ends a session.
func (s Sessions) DeleteCtx(ctx context.Context, hash string) error {
	return s.of.book.Write(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, "DELETE FROM session WHERE hash = ?", hash)
		return err
	})
}

// Find is FindCtx; scs asks it, Commit and Delete of every store, and calls those above.
func (s Sessions) Find(hash string) ([]byte, bool, error) {
	return s.FindCtx(context.Background(), hash)
}

// Commit is CommitCtx.
func (s Sessions) Commit(hash string, data []byte, ends time.Time) error {
	return s.CommitCtx(context.Background(), hash, data, ends)
}

// Delete is DeleteCtx.
func (s Sessions) Delete(hash string) error { return s.DeleteCtx(context.Background(), hash) }
