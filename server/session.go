package server

import (
	"encoding/json"
	"errors"
	"mime"
	"net/http"
	"strings"

	"swingwright/account"
)

// signedIn is who asks, as the app shows it.
type signedIn struct {
	Needed   bool         `json:"needed"` // whether this server asks anybody to sign in
	Name     string       `json:"name"`   // empty: nobody is signed in
	Role     account.Role `json:"role"`
	Customer string       `json:"customer"`
}

// session tells who is signed in, if anybody.
func (s *Server) session(w http.ResponseWriter, r *http.Request) {
	p, err := s.who(r)
	if err != nil && !errors.Is(err, errSignIn) {
		fail(w, err)
		return
	}
	write(w, http.StatusOK, signedIn{s.door != nil, p.Name, p.Role, p.Customer})
}

// mostTyped is how long name and passwords may be together, in bytes.
const mostTyped = 4 << 10

// typed reads a small JSON text.
func typed(w http.ResponseWriter, r *http.Request, into any) error {
	if kind, _, _ := mime.ParseMediaType(r.Header.Get("Content-Type")); kind != "application/json" {
		return refuse(http.StatusUnsupportedMediaType, "send it as application/json")
	}
	d := json.NewDecoder(http.MaxBytesReader(w, r.Body, mostTyped))
	d.DisallowUnknownFields()
	err := d.Decode(into)
	if _, large := errors.AsType[*http.MaxBytesError](err); err != nil && !large {
		return refuse(http.StatusBadRequest, "it cannot be read: %v", err)
	}
	return err
}

// signIn begins a session for whoever knows name and password.
func (s *Server) signIn(w http.ResponseWriter, r *http.Request) {
	var in struct{ Name, Password string }
	err := typed(w, r, &in)
	if err == nil && s.door == nil {
		err = refuse(http.StatusNotFound, "on this machine nobody has to sign in")
	}
	var a *account.Account
	if err == nil {
		a, err = s.checked(r, in.Name, in.Password)
	}
	if err == nil {
		err = s.door.enter(r.Context(), a, s.now())
	}
	if err != nil {
		fail(w, err)
		return
	}
	write(w, http.StatusOK, signedIn{true, a.Name, a.Role, a.Customer})
}

// checked gives the account that name and password open. Whoever tries often, for one name or from
// one place, has to wait, and no password is looked at meanwhile.
func (s *Server) checked(r *http.Request, name, password string) (*account.Account, error) {
	d, now := s.door, s.now()
	who, from := strings.ToLower(strings.Join(strings.Fields(name), " ")), place(r)
	if wait := max(d.names.wait(who, now), d.places.wait(from, now)); wait > 0 {
		err := later(wait)
		if d.told.take(from, now) {
			err = errors.Join(err, d.accounts.Note(r.Context(), account.Event{What: account.Slowed, Address: address(r)}))
		}
		return nil, err
	}
	d.names.take(who, now)
	d.places.take(from, now)
	a, err := d.accounts.SignIn(r.Context(), name, password, address(r))
	switch {
	case errors.Is(err, account.ErrRefused):
		return nil, refuse(http.StatusUnauthorized, "%v", account.ErrRefused)
	case errors.Is(err, account.ErrBusy):
		return nil, refuse(http.StatusServiceUnavailable, "%v", err)
	}
	return a, err
}

// signOut ends the session of the browser.
func (s *Server) signOut(w http.ResponseWriter, r *http.Request) {
	p, err := s.person(r)
	if err == nil && s.door != nil && !p.byToken {
		err = errors.Join(s.door.sessions.Destroy(r.Context()), s.door.accounts.Note(r.Context(), account.Event{What: account.SignedOut, Name: p.Name, Address: address(r)}))
	}
	if err != nil {
		fail(w, err)
		return
	}
	w.WriteHeader(http.StatusNoContent)
}

// newPassword changes the password of whoever is signed in and knows the present one. All their other sessions end.
func (s *Server) newPassword(w http.ResponseWriter, r *http.Request) {
	var in struct{ Old, New string }
	p, err := s.person(r)
	if err == nil {
		err = typed(w, r, &in)
	}
	if err == nil && (s.door == nil || p.byToken) {
		err = refuse(http.StatusForbidden, "only people who signed in have a password to change")
	}
	if err == nil {
		_, err = s.checked(r, p.Name, in.Old)
	}
	if err == nil {
		if err = s.door.accounts.SetPassword(r.Context(), p.Name, in.New); err != nil {
			err = refuse(http.StatusUnprocessableEntity, "%v", err)
		}
	}
	var a *account.Account
	if err == nil {
		a, err = s.door.accounts.Named(r.Context(), p.Name)
	}
	if err == nil {
		err = s.door.enter(r.Context(), a, s.now())
	}
	if err != nil {
		fail(w, err)
		return
	}
	w.WriteHeader(http.StatusNoContent)
}
