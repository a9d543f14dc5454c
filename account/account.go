package account

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"swingwright/book"
)

// An Account is somebody who may reach the book.
type Account struct {
	ID       int64
	Name     string
	Role     Role
	Customer string // of an owner: the jobs that they see are those of this customer
	Disabled bool
	Made     time.Time
	hash     string
	epoch    int64
}

// Epoch numbers the stretches between which everybody signed in with the account was put
// out: by another password, or since it was disabled.
func (a *Account) Epoch() int64 { return a.epoch }

// Accounts are those of a book.
type Accounts struct {
	book *book.Book
	now  func() time.Time
	cost cost
	by   Keeper
}

// A Keeper is who changes accounts from another machine.
type Keeper struct {
	Name    string // of the account; empty: whoever is at the machine of the book
	Address string // from which it is asked
}

// Of are the accounts of a book, changed on its machine; now is the clock.
func Of(b *book.Book, now func() time.Time) *Accounts { return &Accounts{b, now, usual, Keeper{}} }

// By are the same accounts, changed by somebody from another machine: the record names them, and they cannot
// take away the last account that keeps accounts.
func (s *Accounts) By(k Keeper) *Accounts {
	c := *s
	c.by = k
	return &c
}

// Unfit is that what somebody wished an account, a password or a token to be cannot be: it says what is needed.
type Unfit string

// Error is what was found and what is needed.
func (u Unfit) Error() string { return string(u) }

func unfit(format string, args ...any) error { return Unfit(fmt.Sprintf(format, args...)) }

// ErrNone is that there is no such account, token or session.
var ErrNone = errors.New("there is no such account")

const columns = "n, name, role, customer, hash, epoch, disabled, made"

type row interface{ Scan(...any) error }

func scan(r row) (*Account, error) {
	a := new(Account)
	var made string
	err := r.Scan(&a.ID, &a.Name, &a.Role, &a.Customer, &a.hash, &a.epoch, &a.Disabled, &made)
	if errors.Is(err, sql.ErrNoRows) {
		return nil, ErrNone
	}
	a.Made = when(made)
	return a, err
}

// stamp is how times are kept.
func stamp(t time.Time) string { return t.UTC().Format(time.RFC3339) }

func when(text string) time.Time {
	t, _ := time.Parse(time.RFC3339, text)
	return t
}

// named is a name as it is kept and looked for: blanks count once, and letters are compared
// as small ones.
func named(name string) string { return strings.ToLower(strings.Join(strings.Fields(name), " ")) }

// tidy is a name as it is kept.
func tidy(name string) (string, error) {
	name = strings.Join(strings.Fields(name), " ")
	if name == "" || utf8.RuneCountInString(name) > 64 || strings.ContainsFunc(name, unicode.IsControl) || !utf8.ValidString(name) {
		return "", unfit("that is no name; hint: give one of at most 64 letters")
	}
	return name, nil
}

// fits refuses a role without the customer that it needs, or with one that it does not.
func fits(role Role, customer string) error {
	switch {
	case !role.Known():
		return unfit("there is no role %q; hint: one of technician, office, owner", role)
	case role == Owner && customer == "":
		return unfit("an owner sees the jobs of a customer, and none is named; hint: name the customer as the job files do")
	case role != Owner && customer != "":
		return unfit("the role %s sees the jobs of all customers; hint: name a customer for an owner only", role)
	case utf8.RuneCountInString(customer) > 200 || strings.ContainsFunc(customer, unicode.IsControl) || !utf8.ValidString(customer):
		return unfit("that is no customer; hint: name the customer as the job files do")
	}
	return nil
}

// Add makes an account; its name is compared without regard to capitals. An owner needs a customer,
// and nobody else has one.
func (s *Accounts) Add(ctx context.Context, name string, role Role, customer, password string) (*Account, error) {
	name, err := tidy(name)
	if err == nil {
		customer = strings.TrimSpace(customer)
		err = fits(role, customer)
	}
	if err != nil {
		return nil, err
	}
	hash, err := s.hash(ctx, name, password)
	if err != nil {
		return nil, err
	}
	return s.add(ctx, Added, name, role, customer, hash)
}

// add makes an account that something opens already.
func (s *Accounts) add(ctx context.Context, what What, name string, role Role, customer, hash string) (*Account, error) {
	if err := s.book.Private(); err != nil {
		return nil, err
	}
	err := s.book.Write(ctx, func(tx *sql.Tx) error {
		if _, err := find(ctx, tx, name); err == nil {
			return unfit("there is an account %q already; hint: choose another name, or change its password", name)
		} else if !errors.Is(err, ErrNone) {
			return err
		}
		_, err := tx.ExecContext(ctx, "INSERT INTO account (name, role, customer, hash, epoch, disabled, made) VALUES (?, ?, ?, ?, 1, 0, ?)", name, role, customer, hash, stamp(s.now()))
		if err == nil {
			err = s.note(ctx, tx, Event{What: what, Name: name, Detail: strings.TrimSpace(string(role) + " " + customer)})
		}
		return err
	})
	if err != nil {
		return nil, err
	}
	return s.Named(ctx, name)
}

func (s *Accounts) hash(ctx context.Context, name, password string) (hash string, err error) {
	p, err := choose(name, password)
	if err != nil {
		return "", err
	}
	err = inTurn(ctx, func() { hash = hashed(p, s.cost) })
	return hash, err
}

// find goes through the accounts, which are few, so that names can be compared as people do.
func find(ctx context.Context, tx *sql.Tx, name string) (*Account, error) {
	all, err := list(ctx, tx)
	if err != nil {
		return nil, err
	}
	for _, a := range all {
		if named(a.Name) == named(name) {
			return a, nil
		}
	}
	return nil, ErrNone
}

func list(ctx context.Context, tx *sql.Tx) (all []*Account, err error) {
	rows, err := tx.QueryContext(ctx, "SELECT "+columns+" FROM account ORDER BY n")
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	for rows.Next() {
		a, err := scan(rows)
		if err != nil {
			return nil, err
		}
		all = append(all, a)
	}
	return all, rows.Err()
}

// List are all accounts, in the order in which they were made.
func (s *Accounts) List(ctx context.Context) (all []*Account, err error) {
	err = s.book.Read(ctx, func(tx *sql.Tx) (err error) { all, err = list(ctx, tx); return err })
	return all, err
}

// Named is the account of a name; the error is ErrNone where there is none.
func (s *Accounts) Named(ctx context.Context, name string) (a *Account, err error) {
	err = s.book.Read(ctx, func(tx *sql.Tx) (err error) { a, err = find(ctx, tx, name); return err })
	return a, err
}

// ByID is the account of a number that is not disabled; the error is ErrNone where there is none.
func (s *Accounts) ByID(ctx context.Context, id int64) (a *Account, err error) {
	err = s.book.Read(ctx, func(tx *sql.Tx) (err error) {
		a, err = scan(tx.QueryRowContext(ctx, "SELECT "+columns+" FROM account WHERE n = ? AND disabled = 0", id))
		return err
	})
	return a, err
}

// Numbered is the account of a number, disabled or not; the error is ErrNone where there is none.
func (s *Accounts) Numbered(ctx context.Context, id int64) (a *Account, err error) {
	err = s.book.Read(ctx, func(tx *sql.Tx) (err error) {
		a, err = scan(tx.QueryRowContext(ctx, "SELECT "+columns+" FROM account WHERE n = ?", id))
		return err
	})
	return a, err
}

// change changes an account, ends its sessions, and notes what was done.
func (s *Accounts) change(ctx context.Context, name string, e Event, set string, values ...any) error {
	return s.book.Write(ctx, func(tx *sql.Tx) error {
		a, err := find(ctx, tx, name)
		if err != nil {
			return err
		}
		before, err := keepers(ctx, tx)
		if err != nil {
			return err
		}
		if _, err = tx.ExecContext(ctx, "UPDATE account SET epoch = epoch + 1"+set+" WHERE n = ?", append(values, a.ID)...); err != nil {
			return err
		}
		after, err := keepers(ctx, tx)
		if err != nil {
			return err
		}
		if before > 0 && after == 0 && s.by.Name != "" { // who is at the machine of the book can mend it
			return ErrLast
		}
		e.Name = a.Name
		return s.note(ctx, tx, e)
	})
}

// ErrLast is that nobody could keep the accounts any more.
var ErrLast = errors.New("nobody would be left who keeps the accounts; hint: give somebody else the role office first, and have them sign in once")

// keepers counts the accounts that keep accounts and can sign in.
func keepers(ctx context.Context, tx *sql.Tx) (n int, err error) {
	all, err := list(ctx, tx)
	for _, a := range all {
		if _, invited := a.Invited(); a.Role.Keeps() && !a.Disabled && !invited {
			n++
		}
	}
	return n, err
}

// SetPassword gives an account another password and ends its sessions; tokens go on.
func (s *Accounts) SetPassword(ctx context.Context, name, password string) error {
	hash, err := s.hash(ctx, name, password)
	if err != nil {
		return err
	}
	return s.change(ctx, name, Event{What: Changed}, ", hash = ?", hash)
}

// SetRole gives an account another role, with a customer where it is an owner's, and ends its sessions. Its tokens
// may do no more than the role from now on.
func (s *Accounts) SetRole(ctx context.Context, name string, role Role, customer string) error {
	customer = strings.TrimSpace(customer)
	if err := fits(role, customer); err != nil {
		return err
	}
	return s.change(ctx, name, Event{What: RoleSet, Detail: strings.TrimSpace(string(role) + " " + customer)}, ", role = ?, customer = ?", role, customer)
}

// Disable shuts an account out at once, with its sessions and tokens.
func (s *Accounts) Disable(ctx context.Context, name string) error {
	return s.change(ctx, name, Event{What: Disabled}, ", disabled = 1")
}

// Enable lets an account in again that was disabled.
func (s *Accounts) Enable(ctx context.Context, name string) error {
	return s.change(ctx, name, Event{What: Enabled}, ", disabled = 0")
}

// EndSessions puts out everybody who signed in with an account; tokens go on.
func (s *Accounts) EndSessions(ctx context.Context, name string) error {
	return s.change(ctx, name, Event{What: Ended}, "")
}

// ErrRefused is that name and password do not belong together; which of the two is
// wrong is not told.
var ErrRefused = errors.New("this name and this password do not belong together")

// SignIn gives the account that a name and a password open, else ErrRefused. Both outcomes are noted, with
// the address that asked.
func (s *Accounts) SignIn(ctx context.Context, name, password, address string) (*Account, error) {
	a, err := s.Named(ctx, name)
	if err != nil && !errors.Is(err, ErrNone) {
		return nil, err
	}
	hash, known, detail := nobody, "", "nobody has the name"
	if a != nil {
		hash, known, detail = a.hash, a.Name, "wrong password"
		if _, invited := a.Invited(); invited { // no answer is quicker than others
			hash, detail = nobody, "no password was chosen yet"
		}
	}
	good := false
	if p, err := prepared(password); err == nil {
		if err := inTurn(ctx, func() { good = matches(hash, p) }); err != nil {
			return nil, err
		}
	}
	if a == nil || !good || a.Disabled {
		if good && a != nil {
			detail = "disabled"
		}
		return nil, errors.Join(s.Note(ctx, Event{What: Refused, Name: known, Address: address, Detail: detail}), ErrRefused)
	}
	return a, s.Note(ctx, Event{What: SignedIn, Name: a.Name, Address: address})
}
