package server

import (
	"bytes"
	"net/http"
	"strings"
	"time"

	"swingwright/book"
	"swingwright/decision"
	"swingwright/internal/paper"
	"swingwright/packet"
	"swingwright/plan"
	"swingwright/quantity"
)

// packet makes the papers of an opening, as the command packet does.
func (s *Server) packet(w http.ResponseWriter, r *http.Request) {
	if _, err := s.person(r); err != nil {
		fail(w, err)
		return
	}
	size, err := paper.SizeOf(r.FormValue("paper"))
	if err != nil {
		fail(w, refuse(http.StatusBadRequest, "there is no paper %q; ask for letter or a4", r.FormValue("paper")))
		return
	}
	units, ok := quantity.SystemOf(strings.ToUpper(r.FormValue("units")))
	if !ok {
		fail(w, refuse(http.StatusBadRequest, "there are no units %q; ask for us or si", r.FormValue("units")))
		return
	}
	one, err := s.papersOf(r)
	if err != nil {
		fail(w, err)
		return
	}
	var pdf bytes.Buffer
	if err := packet.Write(&pdf, one, packet.Options{Size: size, Units: units, Revision: "A", Date: s.now().Format(time.DateOnly)}); err != nil {
		fail(w, err)
		return
	}
	h := w.Header()
	h.Set("Content-Type", "application/pdf")
	h.Set("Content-Disposition", `inline; filename="packet.pdf"`)
	h.Set("Cache-Control", "no-store")
	w.Write(pdf.Bytes())
}

// papersOf reckons what the papers of an opening are made from.
func (s *Server) papersOf(r *http.Request) (*packet.Opening, error) {
	ctx, key := r.Context(), r.PathValue("key")
	part, err := s.book.Part(ctx, key)
	if err != nil {
		return nil, err
	}
	if part.Kind != book.BeginOpening || part.State != book.Live {
		return nil, refuse(http.StatusNotFound, "there is no such opening")
	}
	files, _, err := s.book.Export(ctx, part.Job, 0)
	if err != nil {
		return nil, err
	}
	rules, err := s.rules.find(files)
	if err != nil {
		return nil, err
	}
	j, err := s.book.Decode(ctx, key)
	if err != nil {
		return nil, err
	}
	s.asking.Lock()
	defer s.asking.Unlock()
	o := &j.Openings[0]
	p := plan.Make(o, &j.Sheets, rules.all.Books, plan.Options{Climate: j.Climate, Collisions: rules.all.Collisions})
	judged := decision.Options{}
	d := decision.Make(p, &j.Sheets, judged)
	one := packet.NewOpening(j, p, d, judged.Policy)
	if err := one.Complete(judged.Brief); err != nil {
		return nil, err
	}
	return one, nil
}
