package server

import (
	"context"
	"net/http"
	"strconv"
	"time"

	"swingwright/account"
)

// kept are the accounts, changed by whoever asks: the record names them.
func (s *Server) kept(r *http.Request, p Person) *account.Accounts {
	return s.door.accounts.By(account.Keeper{Name: p.Name, Address: address(r)})
}

// shownAccount is an account as whoever keeps accounts sees it.
type shownAccount struct {
	ID       int64        `json:"id"`
	Name     string       `json:"name"`
	Role     account.Role `json:"role"`
	Customer string       `json:"customer"`
	Disabled bool         `json:"disabled"`
	Made     time.Time    `json:"made"`
	Invited  *time.Time   `json:"invited"` // nobody chose its password yet; when the code to do so ends
}

func shown(a *account.Account) shownAccount {
	out := shownAccount{ID: a.ID, Name: a.Name, Role: a.Role, Customer: a.Customer, Disabled: a.Disabled, Made: a.Made}
	if ends, yes := a.Invited(); yes {
		out.Invited = &ends
	}
	return out
}

// accounts lists all accounts, and the customers that an owner may be of.
func (s *Server) accounts(r *http.Request) (any, error) {
	all, err := s.door.accounts.List(r.Context())
	if err != nil {
		return nil, err
	}
	jobs, err := s.book.Jobs(r.Context())
	if err != nil {
		return nil, err
	}
	out := struct {
		Accounts  []shownAccount `json:"accounts"`
		Customers []string       `json:"customers"`
	}{[]shownAccount{}, []string{}}
	for _, a := range all {
		out.Accounts = append(out.Accounts, shown(a))
	}
	seen := map[string]bool{"": true}
	for _, j := range jobs {
		if c := s.customers.of(j); !seen[c] {
			seen[c] = true
			out.Customers = append(out.Customers, c)
		}
	}
	return out, nil
}

// named is the account that a path names.
func (s *Server) named(r *http.Request) (*account.Account, error) {
	id, err := strconv.ParseInt(r.PathValue("account"), 10, 64)
	if err != nil {
		return nil, refuse(http.StatusNotFound, "%v", account.ErrNone)
	}
	a, err := s.door.accounts.Numbered(r.Context(), id)
	return a, keeping(err)
}

// account tells of one account, with its sessions and tokens.
func (s *Server) account(r *http.Request) (any, error) {
	a, err := s.named(r)
	if err != nil {
		return nil, err
	}
	sessions, err := s.door.sessionsOf(r.Context(), a, s.now())
	if err != nil {
		return nil, err
	}
	tokens, err := s.tokensOf(r.Context(), a.Name)
	if err != nil {
		return nil, err
	}
	return struct {
		shownAccount
		Sessions []shownSession `json:"sessions"`
		Tokens   []shownToken   `json:"tokens"`
	}{shown(a), sessions, tokens}, nil
}

// invited is an account with the code that lets its owner choose a password. It is told this once.
type invited struct {
	shownAccount
	Code string `json:"code"`
}

// invite makes an account for somebody who chooses the password.
func (s *Server) invite(w http.ResponseWriter, r *http.Request) {
	var in struct {
		Name, Customer string
		Role           account.Role
	}
	s.keeping(w, r, &in, func(of *account.Accounts, _ *account.Account) (any, error) {
		a, code, err := of.Invite(r.Context(), in.Name, in.Role, in.Customer)
		if err != nil {
			return nil, err
		}
		return invited{shown(a), code}, nil
	})
}

// setRole gives an account another role.
func (s *Server) setRole(w http.ResponseWriter, r *http.Request) {
	var in struct {
		Role     account.Role
		Customer string
	}
	s.keeping(w, r, &in, func(of *account.Accounts, a *account.Account) (any, error) {
		return nil, of.SetRole(r.Context(), a.Name, in.Role, in.Customer)
	})
}

// setDisabled shuts an account out, or lets it in again.
func (s *Server) setDisabled(w http.ResponseWriter, r *http.Request) {
	var in struct{ Disabled bool }
	s.keeping(w, r, &in, func(of *account.Accounts, a *account.Account) (any, error) {
		if in.Disabled {
			return nil, of.Disable(r.Context(), a.Name)
		}
		return nil, of.Enable(r.Context(), a.Name)
	})
}

// reset takes a password back; its owner chooses another.
func (s *Server) reset(w http.ResponseWriter, r *http.Request) {
	s.keeping(w, r, nil, func(of *account.Accounts, a *account.Account) (any, error) {
		code, _, err := of.Reset(r.Context(), a.Name)
		if err != nil {
			return nil, err
		}
		now, err := of.Numbered(r.Context(), a.ID)
		if err != nil {
			return nil, err
		}
		return invited{shown(now), code}, nil
	})
}

// endSessions puts out everybody who signed in with an account.
func (s *Server) endSessions(w http.ResponseWriter, r *http.Request) {
	s.keeping(w, r, nil, func(of *account.Accounts, a *account.Account) (any, error) {
		return nil, of.EndSessions(r.Context(), a.Name)
	})
}

// keeping reads what was typed, where something is, finds the account of the path, where it names one, and answers
// with what came of a change: nothing, or a value.
func (s *Server) keeping(w http.ResponseWriter, r *http.Request, in any, change func(*account.Accounts, *account.Account) (any, error)) {
	p, err := s.person(r)
	if err == nil && in != nil {
		err = typed(w, r, in)
	}
	var a *account.Account
	if err == nil && r.PathValue("account") != "" {
		a, err = s.named(r)
	}
	var value any
	if err == nil {
		value, err = change(s.kept(r, p), a)
	}
	if err := keeping(err); err != nil {
		fail(w, r, err)
		return
	}
	if value == nil {
		w.WriteHeader(http.StatusNoContent)
		return
	}
	write(w, r, http.StatusOK, value)
}

// shownEvent is what happened at the door.
type shownEvent struct {
	At      time.Time    `json:"at"`
	What    account.What `json:"what"`
	Name    string       `json:"name"`
	Address string       `json:"address"`
	Detail  string       `json:"detail"`
}

// signIns are what happened at the door last, the latest first.
func (s *Server) signIns(r *http.Request) (any, error) {
	n, err := limit(r)
	if err != nil {
		return nil, err
	}
	return s.events(r.Context(), n)
}

func (s *Server) events(ctx context.Context, n int) ([]shownEvent, error) {
	events, err := s.door.accounts.Events(ctx, n)
	all := []shownEvent{}
	for _, e := range events {
		all = append(all, shownEvent(e))
	}
	return all, err
}
