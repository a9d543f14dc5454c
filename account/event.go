package account

import (
	"context"
	"database/sql"
	"strings"
	"time"
)

// What happened at the door.
type What string

// What happens.
const (
	SignedIn   What = "signed in"
	Refused    What = "refused"
	Slowed     What = "too many tries"
	SignedOut  What = "signed out"
	TokenUsed  What = "token used" // once a day
	TokenNot   What = "token refused"
	Chosen     What = "password chosen" // by whoever was invited
	Added      What = "account added"
	Invited    What = "account added, to be opened by a code"
	Reset      What = "password taken back, to be chosen by a code"
	RoleSet    What = "role changed"
	Ended      What = "sessions ended"
	Changed    What = "password changed"
	Disabled   What = "account disabled"
	Enabled    What = "account enabled"
	TokenMade  What = "token made"
	TokenTaken What = "token withdrawn"
)

// An Event is something that happened at the door.
type Event struct {
	At      time.Time
	What    What
	Name    string // of the account; what was typed and is no account's name is not kept, since it may be a password
	Address string // from which it was asked; empty: on the machine of the book
	Detail  string
}

// Note keeps an event, at the time of now.
func (s *Accounts) Note(ctx context.Context, e Event) error {
	return s.book.Write(ctx, func(tx *sql.Tx) error { return s.note(ctx, tx, e) })
}

// note keeps an event. What somebody did to an account from elsewhere says who and from where.
func (s *Accounts) note(ctx context.Context, tx *sql.Tx, e Event) error {
	if s.by.Name != "" {
		e.Address = s.by.Address
		if s.by.Name != e.Name {
			e.Detail = strings.TrimSpace(e.Detail + " (by " + s.by.Name + ")")
		}
	}
	_, err := tx.ExecContext(ctx, "INSERT INTO sign_in (at, what, name, address, detail) VALUES (?, ?, ?, ?, ?)", stamp(s.now()), e.What, e.Name, e.Address, e.Detail)
	return err
}

// Events are what happened last, the latest first, at most limit.
func (s *Accounts) Events(ctx context.Context, limit int) (all []Event, err error) {
	err = s.book.Read(ctx, func(tx *sql.Tx) error {
		rows, err := tx.QueryContext(ctx, "SELECT at, what, name, address, detail FROM sign_in ORDER BY n DESC LIMIT ?", limit)
		if err != nil {
			return err
		}
		defer rows.Close()
		for rows.Next() {
			var e Event
			var at string
			if err := rows.Scan(&at, &e.What, &e.Name, &e.Address, &e.Detail); err != nil {
				return err
			}
			e.At = when(at)
			all = append(all, e)
		}
		return rows.Err()
	})
	return all, err
}
