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
		return tx.QueryRowContext(ctx, "SELECT data FROM session WHERE hash = ? AND ends > ? AND data <> x''", hash, stamp(s.of.now())).Scan(&data)
	})
	if errors.Is(err, sql.ErrNoRows) {
		return nil, false, nil
	}
	return data, err == nil, err
}

// AllCtx are the data of all sessions that have not ended, by what FindCtx finds them by.
func (s Sessions) AllCtx(ctx context.Context) (map[string][]byte, error) {
	all := map[string][]byte{}
	err := s.of.book.Read(ctx, func(tx *sql.Tx) error {
		rows, err := tx.QueryContext(ctx, "SELECT hash, data FROM session WHERE ends > ? AND data <> x''", stamp(s.of.now()))
		if err != nil {
			return err
		}
		defer rows.Close()
		for rows.Next() {
			var hash string
			var data []byte
			if err := rows.Scan(&hash, &data); err != nil {
				return err
			}
			all[hash] = data
		}
		return rows.Err()
	})
	return all, err
}

// CommitCtx keeps a session until it ends, and drops those that have ended. One that was ended by DeleteCtx is not
// begun again by a request that was under way meanwhile.
func (s Sessions) CommitCtx(ctx context.Context, hash string, data []byte, ends time.Time) error {
	return s.of.book.Write(ctx, func(tx *sql.Tx) error {
		if _, err := tx.ExecContext(ctx, "DELETE FROM session WHERE ends <= ?", stamp(s.of.now())); err != nil {
			return err
		}
		_, err := tx.ExecContext(ctx, "INSERT INTO session (hash, data, ends) VALUES (?, ?, ?) ON CONFLICT (hash) DO UPDATE SET data = excluded.data, ends = excluded.ends WHERE data <> x''", hash, data, stamp(ends))
		return err
	})
}

// DeleteCtx ends a session. It stays, empty, until it would have ended by itself.
func (s Sessions) DeleteCtx(ctx context.Context, hash string) error {
	return s.of.book.Write(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, "UPDATE session SET data = x'' WHERE hash = ?", hash)
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
