package server

import (
	"errors"
	"fmt"
	"net"
	"net/http"
	"net/netip"
	"strings"
	"time"

	"github.com/alexedwards/scs/v2"

	"swingwright/account"
	"swingwright/book"
)

// A Person is who is behind a request.
type Person struct {
	Name     string // empty: whoever is at this machine, who says in each change who it was
	Role     account.Role
	Customer string // of an owner
	byToken  bool
	account  int64     // number
	given    time.Time // when the password was given that they signed in with
}

// local is whoever is at this machine: for one person on one machine there is no sign-in.
var local = Person{Role: account.Technician}

type personKey struct{}

// person is who was found to be behind a request.
func (s *Server) person(r *http.Request) (Person, error) {
	p, ok := r.Context().Value(personKey{}).(Person)
	if !ok {
		return Person{}, errSignIn
	}
	return p, nil
}

// A door is how people and programs come in from other machines.
type door struct {
	accounts *account.Accounts
	sessions *scs.SessionManager
	names    limits // tries of one name
	places   limits // tries from one address
	requests limits // of one person, or from one address
	told     limits // of what is noted again and again
}

// How long a browser is known. A phone goes into basements for days: it must not be put
// out over a weekend, and one that was lost must not be let in for ever.
const (
	sessionLasts = 30 * 24 * time.Hour
	sessionIdle  = 7 * 24 * time.Hour
	seenEach     = time.Hour // no oftener is it written down that a session was used
	freshFor     = 15 * time.Minute
)

// SignIn lets in, from now on, only people and programs that have an account, whatever machine
// they ask from; hosts tells the names and addresses that this server goes by. It is for a
// server that is reached over TLS: browsers keep its cookie for nothing else. It is called before
// the server serves.
func (s *Server) SignIn(accounts *account.Accounts, hosts func(host string) bool) {
	m := scs.New()
	m.Store = accounts.Sessions()
	m.HashTokenInStore = true
	m.Lifetime = sessionLasts
	m.Cookie.Name = "__Host-swingwright"
	m.Cookie.Secure, m.Cookie.HttpOnly, m.Cookie.Path, m.Cookie.SameSite = true, true, "/", http.SameSiteLaxMode
	m.ErrorFunc = fail
	s.hosts = hosts
	s.door = &door{
		accounts: accounts,
		sessions: m,
		names:    limits{every: time.Minute, burst: 10},
		places:   limits{every: 3 * time.Second, burst: 20},
		requests: limits{every: 20 * time.Millisecond, burst: 300},
		told:     limits{every: time.Minute, burst: 1},
	}
}

var errSignIn = refuse(http.StatusUnauthorized, "sign in first")

// who finds who is behind a request.
func (s *Server) who(r *http.Request) (Person, error) {
	d := s.door
	if d == nil {
		return local, nil
	}
	if text, ok := strings.CutPrefix(r.Header.Get("Authorization"), "Bearer "); ok {
		return d.program(r, text, s.now())
	}
	if r.Header.Get("Authorization") != "" {
		return Person{}, refuse(http.StatusUnauthorized, "send a token as Authorization: Bearer …, or sign in")
	}
	return d.browser(r, s.now())
}

// program finds whose token it is.
func (d *door) program(r *http.Request, text string, now time.Time) (Person, error) {
	from := place(r)
	if wait := d.places.wait(from, now); wait > 0 {
		return Person{}, later(wait)
	}
	a, err := d.accounts.ByToken(r.Context(), text, address(r))
	if errors.Is(err, account.ErrRefused) {
		d.places.take(from, now)
		return Person{}, refuse(http.StatusUnauthorized, "this token opens nothing, or nothing any more")
	} else if err != nil {
		return Person{}, err
	}
	return Person{Name: a.Name, Role: a.Role, Customer: a.Customer, byToken: true, account: a.ID}, nil
}

// The fields of a session.
const (
	inAccount = "account" // number
	inEpoch   = "epoch"   // of the account, as it was at the sign-in
	inSeen    = "seen"    // when it was used, in seconds
	inGiven   = "given"   // when the password was given, in seconds: when it began
	inMark    = "mark"    // what it is called before its owner, and opens nothing
	inFrom    = "from"    // the address that it began from
	inWith    = "with"    // what the browser said that it is
)

// browser finds who signed in with the browser.
func (d *door) browser(r *http.Request, now time.Time) (Person, error) {
	ctx := r.Context()
	id := d.sessions.GetInt64(ctx, inAccount)
	if id == 0 {
		return Person{}, errSignIn
	}
	seen := time.Unix(d.sessions.GetInt64(ctx, inSeen), 0)
	a, err := d.accounts.ByID(ctx, id)
	if err != nil && !errors.Is(err, account.ErrNone) {
		return Person{}, err
	}
	if err != nil || a.Epoch() != d.sessions.GetInt64(ctx, inEpoch) || now.Sub(seen) > sessionIdle {
		return Person{}, errors.Join(d.sessions.Destroy(ctx), errSignIn)
	}
	if now.Sub(seen) > seenEach {
		d.sessions.Put(ctx, inSeen, now.Unix())
	}
	return Person{Name: a.Name, Role: a.Role, Customer: a.Customer, account: a.ID, given: time.Unix(d.sessions.GetInt64(ctx, inGiven), 0)}, nil
}

// enter begins a session, under a name that nobody has seen before: whoever put a
// session of their own into this browser does not come in with it.
func (d *door) enter(r *http.Request, a *account.Account, now time.Time) error {
	ctx := r.Context()
	if err := d.sessions.RenewToken(ctx); err != nil {
		return err
	}
	d.sessions.Put(ctx, inAccount, a.ID)
	d.sessions.Put(ctx, inEpoch, a.Epoch())
	d.sessions.Put(ctx, inSeen, now.Unix())
	d.sessions.Put(ctx, inGiven, now.Unix())
	d.sessions.Put(ctx, inMark, book.NewID())
	d.sessions.Put(ctx, inFrom, address(r))
	d.sessions.Put(ctx, inWith, fmt.Sprintf("%.200s", strings.ToValidUTF8(r.UserAgent(), "?")))
	return nil
}

// address is the machine that asks.
func address(r *http.Request) string {
	host, _, err := net.SplitHostPort(r.RemoteAddr)
	if err != nil {
		return r.RemoteAddr
	}
	return host
}

// place is where a request comes from, for limits: of IPv6 a network, since one
// machine has as many addresses as it likes.
func place(r *http.Request) string {
	ip, err := netip.ParseAddr(address(r))
	if err != nil {
		return address(r)
	}
	ip = ip.Unmap().WithZone("")
	if ip.Is6() {
		if net, err := ip.Prefix(64); err == nil {
			return net.String()
		}
	}
	return ip.String()
}
