package packet

import (
	"bytes"
	"strings"
	"swingwright/judge"
	"swingwright/plan"
	"testing"

	"swingwright/decision"
	"swingwright/internal/paper"
	"swingwright/internal/reference"
	q "swingwright/quantity"
	"swingwright/takeoff"
)

// The demonstration's papers as an independent reader finds them: titles, page
// numbers, fonts, bookmarks, and no word beyond the margins.
func TestPapersByAnotherReader(t *testing.T) {
	for _, c := range []struct {
		id    string
		size  paper.Size
		units q.System
	}{{"101", paper.A4, q.SI}, {"108", paper.Letter, q.US}, {"111", paper.Letter, q.US}, {"105", paper.A4, q.SI}, {"102", paper.Letter, q.US}} {
		opt := usual
		opt.Size, opt.Units = c.size, c.units
		o := made(t, c.id)
		pdf := pdfOf(t, o, opt)
		s := newSheet(o, opt)
		titles := []string{"Opening " + c.id}
		for _, k := range s.there {
			titles = append(titles, k.title)
		}
		checkPDF(t, c.id, pdf, c.size, titles)
	}
}

func TestJobPapersByAnotherReader(t *testing.T) {
	j, books := demo()
	var entries []Entry
	var items []takeoff.Item
	for _, id := range []string{"101", "102", "108", "111"} {
		o := made(t, id)
		entries = append(entries, EntryOf(o, id+".pdf", usual))
		items = append(items, takeoff.NewItem(o.Plan.Opening, o.Decision))
	}
	counted, err := takeoff.Make(j, items)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	whole := &Job{Job: j, Books: books, Entries: entries, Takeoff: counted}
	whole.Circuits, whole.Unnamed = plan.Circuits(j.Openings, j.Groups, &j.Sheets, judge.Policy{})
	if _, err := WriteJob(&b, whole, usual); err != nil {
		t.Fatal(err)
	}
	checkPDF(t, "job", b.Bytes(), paper.Letter, []string{j.Name, "Schedule of openings", "Suitability", "Branch circuits", "Whom to call", "Take-off", "Hours and quote", "Not in the quote", "Visits", "The packets"})
}

func checkPDF(t *testing.T, name string, pdf []byte, size paper.Size, titles []string) {
	t.Helper()
	pages, err := reference.WordBoxes(pdf)
	if err != nil {
		t.Fatal(err)
	}
	const point, margin = 25.4 / 72, 9.
	for i, p := range pages {
		turned := p.Width > p.Height // a tile that lies across
		if turned {
			p.Width, p.Height = p.Height, p.Width
		}
		if w, h := p.Width*point, p.Height*point; w < size.Width-0.2 || w > size.Width+0.2 || h < size.Height-0.2 || h > size.Height+0.2 {
			t.Errorf("%s, page %d is %.1f by %.1f mm, wants %v by %v", name, i+1, w, h, size.Width, size.Height)
		}
		var words []string
		for _, w := range p.Words {
			words = append(words, w.Text)
		}
		// The reader finds what the clip of a tile hides, too; package picture proves tiles.
		tile := strings.Contains(strings.Join(words, " "), "Measure before drilling.")
		if turned && !tile {
			t.Errorf("%s, page %d lies across and is no tile", name, i+1)
		}
		for _, w := range p.Words {
			if !tile && (w.Left*point < margin || w.Top*point < margin-2 || w.Right > p.Width-margin/point+3 || w.Down > p.Height-(margin-3)/point) {
				t.Errorf("%s, page %d: %q lies beyond the margins, at %.0f to %.0f by %.0f to %.0f of %.0f by %.0f points", name, i+1, w.Text, w.Left, w.Right, w.Top, w.Down, p.Width, p.Height)
			}
		}
		if all, want := strings.Join(words, " "), say("page %d of %d", i+1, len(pages)); !strings.Contains(all, want) {
			t.Errorf("%s, page %d does not say %q", name, i+1, want)
		}
	}
	fonts, err := reference.Fonts(pdf)
	if err != nil {
		t.Fatal(err)
	}
	if len(fonts) != 2 {
		t.Errorf("%s has fonts %v, wants two", name, fonts)
	}
	for _, f := range fonts {
		if !f.Embedded || !f.Unicode {
			t.Errorf("%s: font %s is embedded %v, to be selected %v", name, f.Name, f.Embedded, f.Unicode)
		}
	}
	marks, err := reference.Bookmarks(pdf)
	if err != nil {
		t.Fatal(err)
	}
	next := 0
	for _, m := range marks {
		if next < len(titles) && m.Text == titles[next] {
			next++
			var words []string
			for _, w := range pages[m.Page-1].Words {
				words = append(words, w.Text)
			}
			if !strings.Contains(strings.Join(words, " "), m.Text) {
				t.Errorf("%s: the bookmark %q leads to page %d, which does not say so", name, m.Text, m.Page)
			}
		}
	}
	if next < len(titles) {
		t.Errorf("%s: no bookmark leads to %q, or not in its order", name, titles[next])
	}
}

func TestFilesGoAlong(t *testing.T) {
	opt := usual
	opt.Only, opt.Stamp = []string{"matrix"}, "a stamp"
	opt.Attached = []paper.Attached{{Name: "findings.json", About: "words", Content: []byte("{}")}}
	pdf := pdfOf(t, made(t, "101"), opt)
	names, err := reference.Attachments(pdf)
	if err != nil {
		t.Fatal(err)
	}
	if len(names) != 1 || names[0] != "findings.json" {
		t.Errorf("files %q go along, wants findings.json", names)
	}
	if !bytes.Contains(pdf, []byte("(swingwright packet a stamp)")) {
		t.Error("the stamp cannot be found in the file")
	}
}

func TestSameOpeningSameBytes(t *testing.T) {
	o := made(t, "102")
	if !bytes.Equal(pdfOf(t, o, usual), pdfOf(t, made(t, "102"), usual)) {
		t.Error("two runs differ")
	}
	if o.Decision.Answer != decision.Repair {
		t.Errorf("opening 102 is %v; this test wants one with settings to make", o.Decision.Answer)
	}
}
