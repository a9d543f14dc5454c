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
	Keeps    bool         `json:"keeps"` // accounts
	Fresh    bool         `json:"fresh"` // the password was given lately enough to change accounts
}

func (s *Server) signedIn(p Person) signedIn {
	return signedIn{s.door != nil, p.Name, p.Role, p.Customer, s.door != nil && p.Name != "" && p.Role.Keeps() && !p.byToken, s.door != nil && p.Name != "" && !p.byToken && s.fresh(p) == nil}
}

// session tells who is signed in, if anybody.
func (s *Server) session(w http.ResponseWriter, r *http.Request) {
	p, err := s.who(r)
	if err != nil && !errors.Is(err, errSignIn) {
		fail(w, r, err)
		return
	}
	write(w, r, http.StatusOK, s.signedIn(p))
}

// begin begins a session of an account, and tells of it.
func (s *Server) begin(w http.ResponseWriter, r *http.Request, a *account.Account) {
	now := s.now()
	if err := s.door.enter(r, a, now); err != nil {
		fail(w, r, err)
		return
	}
	write(w, r, http.StatusOK, s.signedIn(Person{Name: a.Name, Role: a.Role, Customer: a.Customer, given: now}))
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

// asksFor refuses to open an account where nobody has to.
func (s *Server) asksFor() error {
	if s.door == nil {
		return refuse(http.StatusNotFound, "on this machine nobody has to sign in")
	}
	return nil
}

// signIn begins a session for whoever knows name and password.
func (s *Server) signIn(w http.ResponseWriter, r *http.Request) {
	var in struct{ Name, Password string }
	err := s.asksFor()
	if err == nil {
		err = typed(w, r, &in)
	}
	var a *account.Account
	if err == nil {
		a, err = s.checked(r, in.Name, in.Password)
	}
	if err != nil {
		fail(w, r, err)
		return
	}
	s.begin(w, r, a)
}

// choose lets whoever was invited choose a password, and begins their session.
func (s *Server) choose(w http.ResponseWriter, r *http.Request) {
	var in struct{ Name, Code, Password string }
	err := s.asksFor()
	if err == nil {
		err = typed(w, r, &in)
	}
	var a *account.Account
	if err == nil {
		a, err = s.tried(r, in.Name, func() (*account.Account, error) {
			return s.door.accounts.Choose(r.Context(), in.Name, in.Code, in.Password, address(r))
		})
	}
	if err != nil {
		fail(w, r, err)
		return
	}
	s.begin(w, r, a)
}

// checked gives the account that name and password open.
func (s *Server) checked(r *http.Request, name, password string) (*account.Account, error) {
	return s.tried(r, name, func() (*account.Account, error) {
		return s.door.accounts.SignIn(r.Context(), name, password, address(r))
	})
}

// tried tries what may open an account. Whoever tries often, for one name or from
// one place, has to wait, and nothing is looked at meanwhile.
func (s *Server) tried(r *http.Request, name string, try func() (*account.Account, error)) (*account.Account, error) {
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
	a, err := try()
	switch {
	case errors.Is(err, account.ErrRefused):
		return nil, refuse(http.StatusUnauthorized, "%v", account.ErrRefused)
	case errors.Is(err, account.ErrCode):
		return nil, refuse(http.StatusUnauthorized, "%v", account.ErrCode)
	}
	return a, keeping(err)
}

// keeping gives the errors of the accounts their statuses: what they refuse, whoever asked can mend.
func keeping(err error) error {
	switch {
	case err == nil:
		return nil
	case errors.Is(err, account.ErrNone):
		return refuse(http.StatusNotFound, "%v", err)
	case errors.Is(err, account.ErrLast):
		return refuse(http.StatusConflict, "%v", err)
	case errors.Is(err, account.ErrBusy):
		return refuse(http.StatusServiceUnavailable, "%v", err)
	}
	if _, ok := errors.AsType[account.Unfit](err); ok {
		return refuse(http.StatusUnprocessableEntity, "%v", err)
	}
	return err
}

// signOut ends the session of the browser.
func (s *Server) signOut(w http.ResponseWriter, r *http.Request) {
	p, err := s.person(r)
	if err == nil && s.door != nil && !p.byToken {
		err = errors.Join(s.door.sessions.Destroy(r.Context()), s.door.accounts.Note(r.Context(), account.Event{What: account.SignedOut, Name: p.Name, Address: address(r)}))
	}
	if err != nil {
		fail(w, r, err)
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
	if err == nil {
		_, err = s.checked(r, p.Name, in.Old)
	}
	if err == nil {
		err = keeping(s.kept(r, p).SetPassword(r.Context(), p.Name, in.New))
	}
	var a *account.Account
	if err == nil {
		a, err = s.door.accounts.Named(r.Context(), p.Name)
	}
	if err == nil {
		err = s.door.enter(r, a, s.now())
	}
	if err != nil {
		fail(w, r, err)
		return
	}
	w.WriteHeader(http.StatusNoContent)
}
