package server

import (
	"bytes"
	"io"
	"net/http"
	"slices"
	"strings"

	"swingwright/book"
	"swingwright/internal/paper"
	"swingwright/job"
	"swingwright/opening"
	"swingwright/packet"
	"swingwright/quantity"
)

// packet makes the papers of an opening: the same file that the command packet writes.
func (s *Server) packet(w http.ResponseWriter, r *http.Request) {
	if _, err := s.person(r); err != nil {
		fail(w, r, err)
		return
	}
	size, err := paper.SizeOf(r.FormValue("paper"))
	if err != nil {
		fail(w, r, refuse(http.StatusBadRequest, "there is no paper %q; ask for letter or a4", r.FormValue("paper")))
		return
	}
	units, ok := quantity.SystemOf(strings.ToUpper(r.FormValue("units")))
	if !ok {
		fail(w, r, refuse(http.StatusBadRequest, "there are no units %q; ask for us or si", r.FormValue("units")))
		return
	}
	var pdf bytes.Buffer
	if err := s.papers(r, packet.Options{Size: size, Units: units, Revision: "A"}, &pdf); err != nil {
		fail(w, r, err)
		return
	}
	h := w.Header()
	h.Set("Content-Type", "application/pdf")
	h.Set("Content-Disposition", `inline; filename="packet.pdf"`)
	h.Set("Cache-Control", "no-store")
	w.Write(pdf.Bytes())
}

// papers writes the papers of an opening.
func (s *Server) papers(r *http.Request, opt packet.Options, w io.Writer) error {
	ctx, key := r.Context(), r.PathValue("key")
	part, err := s.book.Part(ctx, key)
	if err != nil {
		return err
	}
	if part.Kind != book.BeginOpening || part.State != book.Live {
		return refuse(http.StatusNotFound, "there is no such opening")
	}
	files, _, err := s.book.Export(ctx, part.Job, 0)
	if err != nil {
		return err
	}
	rules, err := s.rules.find(files)
	if err != nil {
		return err
	}
	j, err := job.Decode(job.Texts(files.Texts), files.Name)
	if err != nil { // what is wrong elsewhere in the job holds up none of its other openings
		if j, err = s.book.Decode(ctx, key); err != nil {
			return err
		}
	}
	at := slices.IndexFunc(j.Openings, func(o opening.Opening) bool { return o.ID == part.Name })
	if at < 0 {
		return refuse(http.StatusNotFound, "there is no such opening")
	}
	from := &packet.Source{Job: j, Books: rules.all.Books, Collisions: rules.all.Collisions, Program: s.Program}
	opt.Date = from.Dated()
	s.printing.Lock()
	defer s.printing.Unlock()
	one := from.Gather(&s.maker, &j.Openings[at])
	if err := from.Complete(one); err != nil {
		return err
	}
	_, err = from.Write(w, one, opt) // the papers themselves tell of letters without a picture
	return err
}
