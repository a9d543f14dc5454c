package packet

import (
	"bytes"
	"os"
	"strings"
	"sync"
	"testing"

	"swingwright/internal/draw"
	"swingwright/internal/paper"
	"swingwright/job"
	"swingwright/opening"
	"swingwright/plan"
	q "swingwright/quantity"
	"swingwright/rulebook"
	"swingwright/rulebook/author"
)

// demo is the demonstration job with the published rulebooks that it names.
var demo = sync.OnceValues(func() (*job.Job, []*rulebook.Book) {
	j, err := job.Decode(os.DirFS("../demo/harbour-street-clinic"), "job.yaml")
	if err != nil {
		panic(err)
	}
	var books []*rulebook.Book
	for _, id := range j.Rulebooks {
		b, err := author.BuiltinBook(id)
		if err != nil {
			panic(err)
		}
		books = append(books, b)
	}
	return j, books
})

// quick asks for as few draws as still give a spread.
var quick = plan.Options{Draws: 16}

// source is the demonstration with few draws.
func source() *Source {
	j, books := demo()
	return &Source{Job: j, Books: books, Draws: quick, Brief: true}
}

// made is an opening of the demonstration, ready for its papers.
func made(t testing.TB, id string) *Opening {
	t.Helper()
	s := source()
	for i := range s.Job.Openings {
		if s.Job.Openings[i].ID == id {
			return complete(t, s, &s.Job.Openings[i])
		}
	}
	t.Fatalf("there is no opening %s in the demonstration", id)
	return nil
}

// maker makes all plans of these tests, and keeps the proofs of wirings that are alike.
var maker plan.Maker

func complete(t testing.TB, s *Source, o *opening.Opening) *Opening {
	t.Helper()
	one := s.Gather(&maker, o)
	if err := s.Complete(one); err != nil {
		t.Fatal(err)
	}
	return one
}

// usual are the options of most tests.
var usual = Options{Size: paper.Letter, Units: q.US, Revision: "A", Date: "2026-11-25"}

func pdfOf(t testing.TB, o *Opening, opt Options) []byte {
	t.Helper()
	var b bytes.Buffer
	if _, err := Write(&b, o, opt); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// text are all lines of a document, each page below its number.
func text(d *paper.Document) string {
	var b strings.Builder
	for i, p := range d.Pages() {
		b.WriteString(say("---- page %d ----\n", i+1))
		for _, item := range p.Items {
			if t, ok := item.(draw.Text); ok {
				b.WriteString(strings.ReplaceAll(t.Body, "\u00a0", " ") + "\n")
			}
		}
	}
	return b.String()
}
