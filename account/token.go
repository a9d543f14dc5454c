package account

import (
	"context"
	"crypto/rand"
	"crypto/sha256"
	"database/sql"
	"errors"
	"fmt"
	"strings"
	"time"
)

// A Token lets a program in, as an account and with a role that may do no more.
type Token struct {
	ID        int64
	Account   string // name
	Purpose   string
	Role      Role
	Made      time.Time
	Ends      time.Time // zero: never
	Used      time.Time // the day of the last use; zero: never
	Withdrawn time.Time // zero: not
}

// tokenMark begins every token, so that one that was left lying about is known for what it is.
const tokenMark = "swing_"

// NewToken makes a token and gives its text, which is kept nowhere. Where days is 0 it does not end.
func (s *Accounts) NewToken(ctx context.Context, name, purpose string, role Role, days int) (text string, id int64, err error) {
	purpose = strings.TrimSpace(purpose)
	if purpose == "" || len(purpose) > 200 || days < 0 {
		return "", 0, unfit("a token needs a purpose, and days from 0; hint: say what it is for, so that it can be withdrawn when that has ended")
	}
	text = tokenMark + strings.ToLower(rand.Text()) // 130 random bits
	now, ends := s.now(), ""
	if days > 0 {
		ends = stamp(now.AddDate(0, 0, days))
	}
	err = s.book.Write(ctx, func(tx *sql.Tx) error {
		a, err := find(ctx, tx, name)
		if err != nil {
			return err
		}
		if role == "" {
			role = a.Role
		}
		// Only an account that has a customer can be an owner.
		if !role.within(a.Role) || role == Owner && a.Role != Owner {
			return unfit("a token of %s, who is %s, cannot have the role %q; hint: give it a role that may do no more", a.Name, a.Role, role)
		}
		sum := sha256.Sum256([]byte(text))
		r, err := tx.ExecContext(ctx, "INSERT INTO token (account, hash, purpose, role, made, ends, used, withdrawn) VALUES (?, ?, ?, ?, ?, ?, '', '')", a.ID, sum[:], purpose, role, stamp(now), ends)
		if err != nil {
			return err
		}
		if id, err = r.LastInsertId(); err != nil {
			return err
		}
		return s.note(ctx, tx, Event{What: TokenMade, Name: a.Name, Detail: fmt.Sprintf("%d: %s", id, purpose)})
	})
	return text, id, err
}

// Tokens are all tokens, in the order in which they were made.
func (s *Accounts) Tokens(ctx context.Context) (all []Token, err error) {
	err = s.book.Read(ctx, func(tx *sql.Tx) error {
		rows, err := tx.QueryContext(ctx, "SELECT t.n, a.name, t.purpose, t.role, t.made, t.ends, t.used, t.withdrawn FROM token t JOIN account a ON a.n = t.account ORDER BY t.n")
		if err != nil {
			return err
		}
		defer rows.Close()
		for rows.Next() {
			var t Token
			var made, ends, used, withdrawn string
			if err := rows.Scan(&t.ID, &t.Account, &t.Purpose, &t.Role, &made, &ends, &used, &withdrawn); err != nil {
				return err
			}
			t.Made, t.Ends, t.Used, t.Withdrawn = when(made), when(ends), when(used), when(withdrawn)
			all = append(all, t)
		}
		return rows.Err()
	})
	return all, err
}

// Withdraw ends a token at once.
func (s *Accounts) Withdraw(ctx context.Context, id int64) error {
	return s.book.Write(ctx, func(tx *sql.Tx) error {
		var name, purpose string
		err := tx.QueryRowContext(ctx, "SELECT a.name, t.purpose FROM token t JOIN account a ON a.n = t.account WHERE t.n = ? AND t.withdrawn = ''", id).Scan(&name, &purpose)
		if errors.Is(err, sql.ErrNoRows) {
			return unfit("there is no token %d that is in force; hint: list the accounts to see the tokens", id)
		} else if err != nil {
			return err
		}
		if _, err := tx.ExecContext(ctx, "UPDATE token SET withdrawn = ? WHERE n = ?", stamp(s.now()), id); err != nil {
			return err
		}
		return s.note(ctx, tx, Event{What: TokenTaken, Name: name, Detail: fmt.Sprintf("%d: %s", id, purpose)})
	})
}

// ByToken gives the account that a token opens, with the token's role, else ErrRefused. Every refusal is
// noted, with the address that asked, and the first use of each day.
func (s *Accounts) ByToken(ctx context.Context, text, address string) (*Account, error) {
	sum := sha256.Sum256([]byte(text))
	var id, account int64
	var role Role
	var ends, used, withdrawn, purpose string
	var a *Account
	err := s.book.Read(ctx, func(tx *sql.Tx) error {
		err := tx.QueryRowContext(ctx, "SELECT n, account, role, ends, used, withdrawn, purpose FROM token WHERE hash = ?", sum[:]).Scan(&id, &account, &role, &ends, &used, &withdrawn, &purpose)
		if errors.Is(err, sql.ErrNoRows) {
			return ErrNone
		} else if err != nil {
			return err
		}
		a, err = scan(tx.QueryRowContext(ctx, "SELECT "+columns+" FROM account WHERE n = ?", account))
		return err
	})
	if err != nil && !errors.Is(err, ErrNone) {
		return nil, err
	}
	now, refused := s.now(), ""
	switch {
	case err != nil:
		return nil, errors.Join(s.Note(ctx, Event{What: TokenNot, Address: address, Detail: "nobody has it"}), ErrRefused)
	case a.Disabled:
		refused = "the account is disabled"
	case withdrawn != "":
		refused = "it is withdrawn"
	case ends != "" && !now.Before(when(ends)):
		refused = "it has ended"
	}
	if refused != "" {
		return nil, errors.Join(s.Note(ctx, Event{What: TokenNot, Name: a.Name, Address: address, Detail: fmt.Sprintf("%d: %s", id, refused)}), ErrRefused)
	}
	if role.within(a.Role) {
		a.Role = role
	}
	if day := now.UTC().Format(time.DateOnly) + "T00:00:00Z"; day != used {
		err = s.book.Write(ctx, func(tx *sql.Tx) error {
			if _, err := tx.ExecContext(ctx, "UPDATE token SET used = ? WHERE n = ?", day, id); err != nil {
				return err
			}
			return s.note(ctx, tx, Event{What: TokenUsed, Name: a.Name, Address: address, Detail: fmt.Sprintf("%d: %s", id, purpose)})
		})
	}
	return a, err
}
