package packet

import (
	"bytes"
	"os"
	"strings"
	"sync"
	"testing"

	"swingwright/decision"
	"swingwright/internal/draw"
	"swingwright/internal/paper"
	"swingwright/job"
	"swingwright/judge"
	"swingwright/plan"
	q "swingwright/quantity"
	"swingwright/rulebook"
	"swingwright/rulebook/author"
	"swingwright/takeoff"
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

// made is an opening of the demonstration, ready for its papers.
func made(t testing.TB, id string) *Opening {
	t.Helper()
	j, books := demo()
	for i := range j.Openings {
		if j.Openings[i].ID != id {
			continue
		}
		opt := quick
		opt.Climate = j.Climate
		p := plan.Make(&j.Openings[i], &j.Sheets, books, opt)
		d := decision.Make(p, &j.Sheets, decision.Options{Brief: true})
		o := &Opening{Job: j, Plan: p, Decision: d, Holes: p.Holes(&j.Sheets, judge.Policy{}), Feeding: p.Power(&j.Sheets, judge.Policy{})}
		if w, err := p.HasWindow(&j.Sheets); err == nil {
			o.Window = w
		}
		if counted, err := takeoff.Make(j, []takeoff.Item{takeoff.NewItem(p.Opening, d)}); err == nil {
			o.Takeoff = &counted.Openings[0]
		}
		return o
	}
	t.Fatalf("there is no opening %s in the demonstration", id)
	return nil
}

// usual are the options of most tests.
var usual = Options{Size: paper.Letter, Units: q.US, Revision: "A", Date: "2026-11-25"}

func pdfOf(t testing.TB, o *Opening, opt Options) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, o, opt); err != nil {
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
