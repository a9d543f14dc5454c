package server

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"mime"
	"net/http"
	"slices"
	"strconv"

	"swingwright/book"
)

// Limits of what is sent.
const (
	mostChanges    = 500      // in one request
	mostSent       = 20 << 20 // bytes of one request
	mostAttachment = 25 << 20 // bytes of one attachment
)

// kept is what became of a change.
type kept struct {
	ID      string       `json:"id"`
	N       int64        `json:"n"`
	Outcome book.Outcome `json:"outcome"`
}

// taken is the answer to changes that were sent.
type taken struct {
	Kept []kept `json:"kept"`
	// Refused is the first change that can never be kept as it is; those before it were kept.
	Refused *refused `json:"refused,omitempty"`
}

type refused struct {
	ID  string `json:"id"`
	Why string `json:"why"`
}

// sent tells what the book has of a device: where it was put back from a backup, less than the device had sent, or
// something else at a revision that the device had seen.
func (s *Server) sent(r *http.Request) (any, error) {
	seal := ""
	if text := r.FormValue("seen"); text != "" {
		n, err := strconv.ParseInt(text, 10, 64)
		if err != nil || n < 1 {
			return nil, refuse(http.StatusBadRequest, "seen is the number of a revision")
		}
		if at, err := s.book.Revision(r.Context(), n); err == nil {
			seal = at.Seal()
		} else if !errors.Is(err, book.ErrNone) {
			return nil, err
		}
	}
	seq, rev, err := s.book.Sent(r.Context(), r.PathValue("device"))
	if err != nil {
		return nil, err
	}
	head, _, err := s.book.Head(r.Context())
	return struct {
		Seq  int64  `json:"seq"`  // the last number that it has
		Rev  int64  `json:"rev"`  // the revision of that
		Head int64  `json:"head"` // the latest revision of all
		Seal string `json:"seal"` // of the revision that was seen; empty where there is none
	}{seq, rev, head, seal}, err
}

// changes keeps changes in the order given. A change that was kept before is
// acknowledged again and not kept twice.
func (s *Server) changes(w http.ResponseWriter, r *http.Request) {
	p, err := s.person(r)
	if err != nil {
		fail(w, r, err)
		return
	}
	if kind, _, _ := mime.ParseMediaType(r.Header.Get("Content-Type")); kind != "application/json" {
		fail(w, r, refuse(http.StatusUnsupportedMediaType, "send changes as application/json"))
		return
	}
	d := json.NewDecoder(http.MaxBytesReader(w, r.Body, mostSent))
	d.DisallowUnknownFields()
	var all []book.Change
	if err := d.Decode(&all); err != nil {
		if _, large := errors.AsType[*http.MaxBytesError](err); !large {
			err = refuse(http.StatusBadRequest, "the changes cannot be read: %v", err)
		}
		fail(w, r, err)
		return
	}
	if len(all) > mostChanges {
		fail(w, r, refuse(http.StatusRequestEntityTooLarge, "%d changes are too many; send %d at a time", len(all), mostChanges))
		return
	}
	out, err := s.keepOf(r, p, all)
	if s.After != nil && len(out.Kept) > 0 {
		s.After()
	}
	if err != nil {
		fail(w, r, err)
		return
	}
	write(w, r, http.StatusOK, out)
}

// keepOf keeps the changes of somebody up to the first that they may not make.
func (s *Server) keepOf(r *http.Request, p Person, all []book.Change) (taken, error) {
	i, why := forbidden(p, all)
	may := all
	if i >= 0 {
		may = all[:i]
	}
	if err := s.attribute(r.Context(), p, may); err != nil {
		return taken{}, err
	}
	out, err := s.keep(r, may)
	if err == nil && out.Refused == nil && i >= 0 {
		out.Refused = &refused{all[i].ID, why}
	}
	return out, err
}

// keep keeps all changes, or those before the first that can never be kept.
func (s *Server) keep(r *http.Request, all []book.Change) (taken, error) {
	out := taken{Kept: []kept{}}
	receipts, err := s.book.Apply(r.Context(), s.now(), all...)
	if err == nil {
		return out.with(receipts), nil
	}
	if !never(err) {
		return out, err
	}
	for i := range all { // one of them is wrong: those before it are kept one by one
		receipts, err := s.book.Apply(r.Context(), s.now(), all[i])
		switch {
		case err == nil:
			out = out.with(receipts)
		case never(err):
			out.Refused = &refused{all[i].ID, err.Error()}
			return out, nil
		default:
			return out, err
		}
	}
	return out, nil
}

// never tells an error that comes again however often the change is sent.
func never(err error) bool {
	_, invalid := errors.AsType[*book.Invalid](err)
	return invalid || errors.Is(err, book.ErrNone)
}

func (t taken) with(receipts []book.Receipt) taken {
	for _, r := range receipts {
		t.Kept = append(t.Kept, kept{r.ID, r.Revision, r.Outcome})
	}
	return t
}

// shownTypes are the media types that a browser may show by itself; all others it saves.
var shownTypes = []string{"image/jpeg", "image/png", "image/webp"}

// putAttachment takes the content of an attachment, under the hash that it has to have.
func (s *Server) putAttachment(w http.ResponseWriter, r *http.Request) {
	if _, err := s.person(r); err != nil {
		fail(w, r, err)
		return
	}
	content, err := io.ReadAll(http.MaxBytesReader(w, r.Body, mostAttachment))
	if err != nil {
		fail(w, r, err)
		return
	}
	if hash := r.PathValue("hash"); book.Digest(string(content)) != hash {
		fail(w, r, refuse(http.StatusUnprocessableEntity, "the content is not the one of this hash"))
		return
	}
	if err := sound(content); err != nil {
		fail(w, r, err)
		return
	}
	hash, size, err := s.book.Store(bytes.NewReader(content), mostAttachment)
	if err != nil {
		fail(w, r, err)
		return
	}
	write(w, r, http.StatusOK, map[string]any{"hash": hash, "size": size})
}

// kindOf is what a content is by its first bytes; empty for what is no attachment.
func kindOf(content []byte) string {
	kind, _, _ := mime.ParseMediaType(http.DetectContentType(content))
	switch {
	case slices.Contains(shownTypes, kind) || kind == "application/pdf":
		return kind
	case kind == "text/plain" || kind == "text/xml" || kind == "text/html" || kind == "image/svg+xml":
		return "text/plain"
	}
	return ""
}

// attachment gives a content. Only photos are shown; what could hold a script never runs.
func (s *Server) attachment(w http.ResponseWriter, r *http.Request) {
	if _, err := s.person(r); err != nil {
		fail(w, r, err)
		return
	}
	content, err := s.book.Content(r.PathValue("hash"))
	if err != nil {
		fail(w, r, err)
		return
	}
	h := w.Header()
	kind := kindOf(content)
	if !slices.Contains(shownTypes, kind) {
		kind = "application/octet-stream"
		h.Set("Content-Disposition", "attachment")
	}
	h.Set("Content-Type", kind)
	h.Set("Content-Security-Policy", "default-src 'none'; sandbox")
	h.Set("Cache-Control", "private, max-age=31536000, immutable")
	w.Write(content)
}
