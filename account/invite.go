package account

import (
	"context"
	"crypto/rand"
	"crypto/sha256"
	"crypto/subtle"
	"database/sql"
	"encoding/hex"
	"errors"
	"strings"
	"time"
)

// InvitationLasts is how long a code lets somebody choose a password.
const InvitationLasts = 3 * 24 * time.Hour

// codeMark begins what is kept in the place of a password's hash as long as a code opens the account, so that
// never both do. When it ends and the SHA-256 of the code follow.
const codeMark = "$code$"

// newCode makes a code of 80 random bits, in groups that a person can read out and type, and how it is kept.
func (s *Accounts) newCode() (text, kept string, ends time.Time) {
	ends = s.now().Add(InvitationLasts).Truncate(time.Second)
	letters := strings.ToLower(rand.Text()[:16])
	text = letters[:4] + "-" + letters[4:8] + "-" + letters[8:12] + "-" + letters[12:]
	return text, codeMark + stamp(ends) + "$" + codeSum(text), ends
}

// codeSum is the SHA-256 of a code, however its groups are parted and its letters are written.
func codeSum(code string) string {
	letters := strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= '2' && r <= '7':
			return r
		case r == '0': // no code has one
			return 'o'
		case r == ' ', r == '-', r == '\t':
			return -1
		}
		return '?'
	}, strings.ToLower(code))
	sum := sha256.Sum256([]byte(letters))
	return hex.EncodeToString(sum[:])
}

// Invited tells that nobody chose a password for the account yet, and when the code to do so ends.
func (a *Account) Invited() (ends time.Time, yes bool) {
	rest, yes := strings.CutPrefix(a.hash, codeMark)
	at, _, _ := strings.Cut(rest, "$")
	return when(at), yes
}

// Invite makes an account as Add does, for somebody who chooses the password: with the code, until it ends.
func (s *Accounts) Invite(ctx context.Context, name string, role Role, customer string) (a *Account, code string, err error) {
	name, err = tidy(name)
	if err == nil {
		customer = strings.TrimSpace(customer)
		err = fits(role, customer)
	}
	if err != nil {
		return nil, "", err
	}
	code, kept, _ := s.newCode()
	a, err = s.add(ctx, Invited, name, role, customer, kept)
	if err != nil {
		return nil, "", err
	}
	return a, code, nil
}

// Reset takes the password of an account back and ends its sessions; with the code, until it ends, somebody chooses
// another. Tokens go on.
func (s *Accounts) Reset(ctx context.Context, name string) (code string, ends time.Time, err error) {
	code, kept, ends := s.newCode()
	if err := s.change(ctx, name, Event{What: Reset}, ", hash = ?", kept); err != nil {
		return "", time.Time{}, err
	}
	return code, ends, nil
}

// ErrCode is that a code does not open an account. Why is not told.
var ErrCode = errors.New("this name and this code do not belong together, or the code has ended or was used")

// Choose gives an account the password that its owner chooses, where a code lets them, else ErrCode. The code is used
// up by it and by nothing else: a password that is refused leaves it as it was. Both outcomes are noted, with the
// address that asked.
func (s *Accounts) Choose(ctx context.Context, name, code, password, address string) (*Account, error) {
	a, err := s.Named(ctx, name)
	if err != nil && !errors.Is(err, ErrNone) {
		return nil, err
	}
	known, detail := "", "nobody has the name"
	if a != nil {
		known, detail = a.Name, ""
		ends, invited := a.Invited()
		_, want, _ := strings.Cut(strings.TrimPrefix(a.hash, codeMark), "$")
		switch {
		case !invited:
			detail = "a code, where a password opens the account"
		case subtle.ConstantTimeCompare([]byte(codeSum(code)), []byte(want)) != 1:
			detail = "wrong code"
		case a.Disabled:
			detail = "disabled"
		case !s.now().Before(ends):
			detail = "the code has ended"
		}
	}
	if detail != "" {
		return nil, errors.Join(s.Note(ctx, Event{What: Refused, Name: known, Address: address, Detail: detail}), ErrCode)
	}
	hash, err := s.hash(ctx, a.Name, password)
	if err != nil {
		return nil, err
	}
	err = s.book.Write(ctx, func(tx *sql.Tx) error {
		r, err := tx.ExecContext(ctx, "UPDATE account SET hash = ?, epoch = epoch + 1 WHERE n = ? AND hash = ? AND disabled = 0", hash, a.ID, a.hash)
		if err != nil {
			return err
		}
		if n, err := r.RowsAffected(); err != nil || n != 1 { // somebody was quicker
			return errors.Join(err, ErrCode)
		}
		return s.note(ctx, tx, Event{What: Chosen, Name: a.Name, Address: address})
	})
	if err != nil {
		return nil, err
	}
	return s.Named(ctx, a.Name)
}
