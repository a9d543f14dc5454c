// Package server serves a book over HTTP: the site app, and the JSON that it and
// others speak with. By itself it answers this machine alone, without a sign-in; SignIn
// opens it to others, who need an account.
package server

import (
	"encoding/json"
	"errors"
	"fmt"
	"net"
	"net/http"
	"strings"
	"sync"
	"time"

	"github.com/andybalholm/brotli"

	"swingwright/app"
	"swingwright/book"
	"swingwright/job"
	"swingwright/plan"
)

// A Server serves one book.
type Server struct {
	book      *book.Book
	app       *app.App
	now       func() time.Time
	handler   http.Handler
	rules     rulesKept
	trees     treesKept
	customers customersKept
	reckoner  reckoner
	door      *door // nil: whoever is at this machine comes in
	hosts     func(string) bool
	asking    sync.Mutex // one question is answered at a time: each takes a whole core
	printing  sync.Mutex // and so are papers made, since a wiring that openings share is proved for seconds
	maker     plan.Maker // of their plans; it remembers proofs from one to the next
	// Before is called before the book is read, and After after changes were kept; both
	// may be nil. By them a job file beside the book follows it.
	Before, After func()
	// Program tells this build of the program from others, as the stamp of papers has it;
	// it may be empty. It is to be set before the first request.
	Program string
}

// New makes a server of an app for a book that is open; now is the clock of the book.
func New(b *book.Book, a *app.App, now func() time.Time) *Server {
	s := &Server{book: b, app: a, now: now, hosts: loopback}
	s.handler = s.routes()
	return s
}

// list is the one place where a path meets what answers it, and who may ask.
func (s *Server) list() []route {
	return []route{
		{"GET /api/openapi.json", anyone, s.described},
		{"GET /api/session", anyone, s.session},
		{"POST /api/session", anyone, s.signIn},
		{"DELETE /api/session", sees, s.signOut},
		{"POST /api/password", own, s.newPassword},
		{"POST /api/invitation", anyone, s.choose},
		{"GET /api/sessions", own, s.answer(s.sessions)},
		{"DELETE /api/sessions", own, s.endOthers},
		{"DELETE /api/sessions/{session}", own, s.endSession},
		{"GET /api/tokens", own, s.answer(s.tokens)},
		{"POST /api/tokens", own, s.newToken},
		{"DELETE /api/tokens/{token}", own, s.withdraw},
		{"GET /api/accounts", keeps, s.answer(s.accounts)},
		{"POST /api/accounts", keeps, s.invite},
		{"GET /api/accounts/{account}", keeps, s.answer(s.account)},
		{"PUT /api/accounts/{account}/role", keeps, s.setRole},
		{"PUT /api/accounts/{account}/disabled", keeps, s.setDisabled},
		{"POST /api/accounts/{account}/reset", keeps, s.reset},
		{"DELETE /api/accounts/{account}/sessions", keeps, s.endSessions},
		{"GET /api/sign-ins", keeps, s.answer(s.signIns)},
		{"GET /api/jobs", sees, s.answer(s.jobs)},
		{"GET /api/jobs/{job}", sees, s.answer(s.job)},
		{"GET /api/jobs/{job}/changes", sees, s.answer(s.since)},
		{"GET /api/jobs/{job}/rules", sees, s.answer(s.jobRules)},
		{"GET /api/jobs/{job}/openings", sees, s.answer(s.openings)},
		{"GET /api/jobs/{job}/part", sees, s.answer(s.part)},
		{"POST /api/jobs/{job}/ask/{question}", sees, s.ask},
		{"GET /api/search", sees, s.answer(s.search)},
		{"GET /api/openings/{key}", sees, s.answer(s.opening)},
		{"GET /api/openings/{key}/history", sees, s.answer(s.history)},
		{"GET /api/openings/{key}/packet.pdf", sees, s.packet},
		{"POST /api/changes", enters, s.changes},
		{"GET /api/devices/{device}", enters, s.answer(s.sent)},
		{"PUT /api/attachments/{hash}", enters, s.putAttachment},
		{"GET /api/attachments/{hash}", sees, s.attachment},
	}
}

func (s *Server) routes() http.Handler {
	mux := http.NewServeMux()
	for _, rt := range s.list() {
		mux.HandleFunc(rt.pattern, s.guarded(rt))
	}
	mux.HandleFunc("/api/", func(w http.ResponseWriter, r *http.Request) {
		http.Error(w, inTongue(r, "there is nothing here"), http.StatusNotFound)
	})
	mux.HandleFunc("GET /o/{key}", s.label)
	mux.Handle("/", s.app)
	return s.here(headers(http.NewCrossOriginProtection().Handler(s.remembering(mux))))
}

// label answers the address on a label with the app, which finds the opening itself, also
// where there is no network.
func (s *Server) label(w http.ResponseWriter, r *http.Request) {
	r = r.Clone(r.Context())
	r.URL.Path = "/"
	s.app.ServeHTTP(w, r)
}

// remembering keeps who signed in from one request to the next.
func (s *Server) remembering(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if s.door == nil || !strings.HasPrefix(r.URL.Path, "/api/") {
			next.ServeHTTP(w, r)
			return
		}
		s.door.sessions.LoadAndSave(next).ServeHTTP(w, r)
	})
}

// ServeHTTP answers one request.
func (s *Server) ServeHTTP(w http.ResponseWriter, r *http.Request) { s.handler.ServeHTTP(w, r) }

// headers keep the pages to themselves: nothing is loaded from elsewhere, nothing runs
// that is not a file of the app, and no other site may frame it.
func headers(next http.Handler) http.Handler {
	const policy = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' blob:; connect-src 'self'; worker-src 'self'; " +
		"manifest-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Permissions-Policy", "accelerometer=(self), gyroscope=(self), camera=(self), geolocation=(), microphone=()")
		next.ServeHTTP(w, r)
	})
}

// here refuses requests that were meant for another host: a page elsewhere may let its
// own name point to this machine.
func (s *Server) here(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		host := r.Host
		if name, _, err := net.SplitHostPort(host); err == nil {
			host = name
		}
		host = strings.Trim(host, "[]")
		if !s.hosts(host) {
			http.Error(w, inTongue(r, "this server goes by another name"), http.StatusMisdirectedRequest)
			return
		}
		next.ServeHTTP(w, r)
	})
}

// loopback tells the names of this machine for itself.
func loopback(host string) bool {
	ip := net.ParseIP(host)
	return host == "localhost" || ip != nil && ip.IsLoopback()
}

// answer makes a handler of what gives a value, which is written as JSON.
func (s *Server) answer(get func(r *http.Request) (any, error)) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		_, err := s.person(r)
		if err == nil && s.Before != nil {
			s.Before()
		}
		var value any
		if err == nil {
			value, err = get(r)
		}
		if err != nil {
			fail(w, r, err)
			return
		}
		writePacked(w, r, value)
	}
}

// worthPacking is from how many bytes on an answer is packed: less goes into one packet anyway.
const worthPacking = 1400

// writePacked writes an answer, packed where whoever asks can unpack it and there is much of it: a phone
// out of town waits longer for the line than for that. Nothing secret stands in answers beside
// what somebody else chose, so that their length tells nothing (as in RFC 9110, 17.6).
func writePacked(w http.ResponseWriter, r *http.Request, value any) {
	text, err := json.Marshal(value)
	if err != nil {
		fail(w, r, err)
		return
	}
	h := w.Header()
	h.Set("Content-Type", "application/json")
	h.Set("Cache-Control", "no-store")
	h.Set("Vary", "Accept-Encoding")
	if len(text) < worthPacking || !app.Brotli(r) {
		w.Write(text)
		return
	}
	h.Set("Content-Encoding", "br")
	packed := brotli.NewWriterLevel(w, 4)
	packed.Write(text)
	packed.Close()
}

func write(w http.ResponseWriter, r *http.Request, status int, value any) {
	text, err := json.Marshal(value)
	if err != nil {
		fail(w, r, err)
		return
	}
	w.Header().Set("Content-Type", "application/json")
	w.Header().Set("Cache-Control", "no-store")
	w.WriteHeader(status)
	w.Write(text)
}

// errTold is an error that is the asker's, with its status.
type errTold struct {
	status int
	text   string
}

func (e errTold) Error() string { return e.text }

func refuse(status int, format string, args ...any) error {
	return errTold{status, fmt.Sprintf(format, args...)}
}

// fail maps kinds of errors to HTTP statuses, in this one place.
func fail(w http.ResponseWriter, r *http.Request, err error) {
	status := http.StatusInternalServerError
	if wait, ok := errors.AsType[errLater](err); ok {
		status = http.StatusTooManyRequests
		wait.tell(w.Header())
	} else if told, ok := errors.AsType[errTold](err); ok {
		status = told.status
	} else if _, ok := errors.AsType[*book.Invalid](err); ok {
		status = http.StatusUnprocessableEntity
	} else if _, ok := errors.AsType[job.Problems](err); ok { // in the middle of an import it was no whole job
		status = http.StatusUnprocessableEntity
	} else if _, ok := errors.AsType[*book.Gap](err); ok {
		status = http.StatusConflict
	} else if _, ok := errors.AsType[*http.MaxBytesError](err); ok {
		status = http.StatusRequestEntityTooLarge
	} else {
		for known, code := range map[error]int{book.ErrNone: http.StatusNotFound, book.ErrFull: http.StatusInsufficientStorage, book.ErrBusy: http.StatusServiceUnavailable} {
			if errors.Is(err, known) {
				status = code
			}
		}
	}
	http.Error(w, inTongue(r, err.Error()), status)
}
