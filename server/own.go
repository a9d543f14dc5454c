package server

import (
	"context"
	"fmt"
	"net/http"
	"slices"
	"strconv"
	"time"

	"swingwright/account"
)

// shownSession is a browser that somebody signed in with, as they see it.
type shownSession struct {
	ID   string    `json:"id"` // opens nothing
	From string    `json:"from"`
	With string    `json:"with"` // what the browser said that it is
	On   time.Time `json:"on"`   // when it began
	Used time.Time `json:"used"` // to the hour
	This bool      `json:"this"` // the one that asks
}

// heldSession is a session with what it is kept by.
type heldSession struct {
	shownSession
	hash string
}

// held are the sessions of an account that go on, the latest first.
func (d *door) held(ctx context.Context, a *account.Account, now time.Time) ([]heldSession, error) {
	all, err := d.accounts.Sessions().AllCtx(ctx)
	if err != nil {
		return nil, err
	}
	here := d.sessions.GetString(ctx, inMark)
	list := []heldSession{}
	for hash, data := range all {
		_, values, err := d.sessions.Codec.Decode(data)
		if err != nil {
			return nil, fmt.Errorf("a session cannot be read: %w", err)
		}
		number := func(key string) int64 { n, _ := values[key].(int64); return n }
		text := func(key string) string { t, _ := values[key].(string); return t }
		used := time.Unix(number(inSeen), 0)
		if a.Disabled || number(inAccount) != a.ID || number(inEpoch) != a.Epoch() || now.Sub(used) > sessionIdle {
			continue
		}
		mark := text(inMark)
		list = append(list, heldSession{shownSession{mark, text(inFrom), text(inWith), time.Unix(number(inGiven), 0).UTC(), used.UTC(), mark != "" && mark == here}, hash})
	}
	slices.SortFunc(list, func(x, y heldSession) int { return y.On.Compare(x.On) })
	return list, nil
}

// sessionsOf are the sessions of an account, as they are shown.
func (d *door) sessionsOf(ctx context.Context, a *account.Account, now time.Time) ([]shownSession, error) {
	held, err := d.held(ctx, a, now)
	list := []shownSession{}
	for _, h := range held {
		list = append(list, h.shownSession)
	}
	return list, err
}

// mine are the sessions of whoever asks.
func (s *Server) mine(r *http.Request) ([]heldSession, error) {
	p, err := s.person(r)
	if err != nil {
		return nil, err
	}
	a, err := s.door.accounts.ByID(r.Context(), p.account)
	if err != nil {
		return nil, keeping(err)
	}
	return s.door.held(r.Context(), a, s.now())
}

// sessions lists the sessions of whoever asks.
func (s *Server) sessions(r *http.Request) (any, error) {
	held, err := s.mine(r)
	list := []shownSession{}
	for _, h := range held {
		list = append(list, h.shownSession)
	}
	return list, err
}

// endSession ends one of the sessions of whoever asks.
func (s *Server) endSession(w http.ResponseWriter, r *http.Request) {
	s.endThose(w, r, func(one shownSession) bool { return one.ID != "" && one.ID == r.PathValue("session") }, true)
}

// endOthers ends all sessions of whoever asks but the one that asks.
func (s *Server) endOthers(w http.ResponseWriter, r *http.Request) {
	s.endThose(w, r, func(one shownSession) bool { return !one.This }, false)
}

func (s *Server) endThose(w http.ResponseWriter, r *http.Request, end func(shownSession) bool, some bool) {
	held, err := s.mine(r)
	n := 0
	for _, h := range held {
		if err != nil || !end(h.shownSession) {
			continue
		}
		n++
		if err = s.door.accounts.Sessions().DeleteCtx(r.Context(), h.hash); err == nil && h.This {
			err = s.door.sessions.Destroy(r.Context())
		}
	}
	if err == nil && n == 0 && some {
		err = refuse(http.StatusNotFound, "there is no such session")
	}
	if err == nil && n > 0 {
		p, _ := s.person(r)
		err = s.door.accounts.Note(r.Context(), account.Event{What: account.Ended, Name: p.Name, Address: address(r), Detail: strconv.Itoa(n)})
	}
	if err != nil {
		fail(w, r, err)
		return
	}
	w.WriteHeader(http.StatusNoContent)
}

// shownToken is a token without its text, which nobody has but who was given it.
type shownToken struct {
	ID        int64        `json:"id"`
	Purpose   string       `json:"purpose"`
	Role      account.Role `json:"role"`
	Made      time.Time    `json:"made"`
	Ends      *time.Time   `json:"ends"`      // null: never
	Used      *time.Time   `json:"used"`      // the day; null: never
	Withdrawn *time.Time   `json:"withdrawn"` // null: not
}

func (s *Server) tokensOf(ctx context.Context, name string) ([]shownToken, error) {
	all, err := s.door.accounts.Tokens(ctx)
	list := []shownToken{}
	some := func(t time.Time) *time.Time {
		if t.IsZero() {
			return nil
		}
		return &t
	}
	for _, t := range all {
		if t.Account == name {
			list = append(list, shownToken{t.ID, t.Purpose, t.Role, t.Made, some(t.Ends), some(t.Used), some(t.Withdrawn)})
		}
	}
	return list, err
}

// tokens lists the tokens of whoever asks.
func (s *Server) tokens(r *http.Request) (any, error) {
	p, err := s.person(r)
	if err != nil {
		return nil, err
	}
	return s.tokensOf(r.Context(), p.Name)
}

// newToken makes a token of whoever asks, and tells its text this once.
func (s *Server) newToken(w http.ResponseWriter, r *http.Request) {
	var in struct {
		Purpose string
		Role    account.Role
		Days    int
	}
	p, err := s.person(r)
	if err == nil {
		err = s.fresh(p)
	}
	if err == nil {
		err = typed(w, r, &in)
	}
	var text string
	var id int64
	if err == nil {
		text, id, err = s.kept(r, p).NewToken(r.Context(), p.Name, in.Purpose, in.Role, in.Days)
	}
	if err := keeping(err); err != nil {
		fail(w, r, err)
		return
	}
	write(w, r, http.StatusOK, struct {
		ID    int64  `json:"id"`
		Token string `json:"token"`
	}{id, text})
}

// withdraw ends a token: one's own, or, for who keeps accounts, anybody's. To end access asks for no password.
func (s *Server) withdraw(w http.ResponseWriter, r *http.Request) {
	p, err := s.person(r)
	var all []account.Token
	if err == nil {
		all, err = s.door.accounts.Tokens(r.Context())
	}
	id, wrong := strconv.ParseInt(r.PathValue("token"), 10, 64)
	i := slices.IndexFunc(all, func(t account.Token) bool { return t.ID == id && t.Withdrawn.IsZero() })
	switch {
	case err != nil:
	case wrong != nil || i < 0 || all[i].Account != p.Name && !p.Role.Keeps():
		err = refuse(http.StatusNotFound, "there is no token %.20q that is in force", r.PathValue("token"))
	default:
		err = keeping(s.kept(r, p).Withdraw(r.Context(), id))
	}
	if err != nil {
		fail(w, r, err)
		return
	}
	w.WriteHeader(http.StatusNoContent)
}
