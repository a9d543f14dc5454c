package server

import (
	"context"
	"strings"

	"swingwright/book"
)

// attribute puts into changes who is signed in, beside who is said to have entered them: a phone
// goes from hand to hand. A change that was kept already stays as it was first sent.
func (s *Server) attribute(ctx context.Context, p Person, all []book.Change) error {
	if p.Name == "" {
		return nil
	}
	for i := range all {
		c := &all[i]
		kept, err := s.book.EnteredBy(ctx, c.ID)
		if err != nil {
			return err
		}
		if c.Who = enteredBy(c.Who, p.Name); kept != "" {
			c.Who = kept
		}
	}
	return nil
}

// unnamed is what the app says where nobody gave a name.
const unnamed = "unnamed"

func enteredBy(said, signedIn string) string {
	said = strings.TrimSpace(said)
	if said == "" || said == unnamed || strings.EqualFold(said, signedIn) {
		return signedIn
	}
	return said + " (signed in as " + signedIn + ")"
}

// forbidden is the first change that somebody may not make, and why; -1 where they may make all.
func forbidden(p Person, all []book.Change) (int, string) {
	for i, c := range all {
		if c.Kind == book.Sign && !p.Role.Signs() {
			return i, "the role " + string(p.Role) + " does not sign: who signs was at the door"
		}
	}
	return -1, ""
}
