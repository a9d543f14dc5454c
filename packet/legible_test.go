package packet

import (
	"bytes"
	"math"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"swingwright/internal/draw"
	"swingwright/internal/paper"
	"swingwright/internal/reference"
	"swingwright/judge"
	"swingwright/logic"
	"swingwright/opening"
	"swingwright/plan"
	q "swingwright/quantity"
	"swingwright/takeoff"
)

// whole is the demonstration, every opening ready for its papers, and the job, made once.
// What a group shares is looked at with as few states as still draw it.
func whole(t *testing.T) ([]*Opening, *Job) {
	t.Helper()
	if wholeJob == nil {
		wholeOpenings, wholeJob = makeWhole(t)
	}
	return wholeOpenings, wholeJob
}

var (
	wholeOpenings []*Opening
	wholeJob      *Job
)

func makeWhole(t *testing.T) (openings []*Opening, job *Job) {
	t.Helper()
	j, books := demo()
	for i := range j.Openings {
		if j.Openings[i].InPlaceOf == "" {
			openings = append(openings, made(t, j.Openings[i].ID))
		}
	}
	few := logic.Effort{States: 2000}
	for i := range j.Groups {
		g := &j.Groups[i]
		var of []*opening.Opening
		var plans []*plan.Plan
		var members []*plan.Member
		for _, o := range openings {
			if slices.Contains(g.Of, o.Plan.Opening.ID) {
				of, plans, members = append(of, o.Plan.Opening), append(plans, o.Plan), append(members, o.Plan.Member(&j.Sheets))
			}
		}
		if g.Wiring.None() {
			continue
		}
		wired, feeding := plan.WireGroup(g, of, &j.Sheets, few, judge.Policy{}, members...), plan.PowerOf(g, plans, &j.Sheets, judge.Policy{})
		for _, o := range openings {
			if slices.Contains(g.Of, o.Plan.Opening.ID) {
				o.Wired, o.Feeding = wired, feeding
			}
		}
	}
	var items []takeoff.Item
	for _, o := range openings {
		items = append(items, takeoff.NewItem(o.Plan.Opening, o.Decision))
	}
	counted, err := takeoff.Make(j, items)
	if err != nil {
		t.Fatal(err)
	}
	return openings, &Job{Job: j, Books: books, Takeoff: counted}
}

// laid are all papers of the demonstration on one paper in one system of units.
func laid(openings []*Opening, job *Job, opt Options) map[string]*paper.Document {
	all := map[string]*paper.Document{}
	job.Entries = nil
	for _, o := range openings {
		id := o.Plan.Opening.ID
		all[id] = Make(o, opt)
		job.Entries = append(job.Entries, EntryOf(o, id+".pdf", opt))
	}
	all["job"] = MakeJob(job, opt)
	return all
}

// placed is a text with the corners of its box, from its base line to its capitals, as
// it is turned.
type placed struct {
	text                     draw.Text
	left, bottom, right, top float64
}

func placeOf(t draw.Text) placed {
	w := t.Width()
	x := -w * [...]float64{draw.Start: 0, draw.Middle: 0.5, draw.End: 1}[t.Anchor]
	y := -t.Height * [...]float64{draw.Baseline: 0, draw.Centre: 0.5, draw.Top: 1}[t.Level]
	p := placed{t, math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	sin, cos := math.Sincos(t.Rotation)
	for _, a := range []float64{x, x + w} {
		for _, b := range []float64{y, y + t.Height} {
			u, v := t.At.X+a*cos-b*sin, t.At.Y+a*sin+b*cos
			p.left, p.right, p.bottom, p.top = min(p.left, u), max(p.right, u), min(p.bottom, v), max(p.top, v)
		}
	}
	return p
}

func (p *placed) over(o *placed) bool {
	const touch = 0.1 // mm
	return p.left < o.right-touch && o.left < p.right-touch && p.bottom < o.top-touch && o.bottom < p.top-touch
}

// papers are both sizes, each in the units that go with it and in the others.
var papers = []Options{
	{Size: paper.Letter, Units: q.US, Revision: "A", Date: "2026-11-25"}, {Size: paper.A4, Units: q.SI, Revision: "A", Date: "2026-11-25"},
	{Size: paper.Letter, Units: q.SI, Revision: "A", Date: "2026-11-25"}, {Size: paper.A4, Units: q.US, Revision: "A", Date: "2026-11-25"},
}

// No letter on any paper of the demonstration is smaller than paper.Smallest, none leaves
// its page, and none stands on another.
func TestEveryWordCanBeRead(t *testing.T) {
	openings, job := whole(t)
	for _, opt := range papers {
		pages, words := 0, 0
		for of, d := range laid(openings, job, opt) {
			for i, p := range d.Pages() {
				pages++
				var all []placed
				if below := d.Below(i); below.Scene != nil {
					for _, item := range below.Scene.Items { // a tile shows a part, at full size
						if text, ok := item.(draw.Text); ok && text.Height < paper.Smallest {
							t.Errorf("%s %s, %s, page %d: %q has capitals of %.2f mm, wants %v and more", opt.Size.Name, opt.Units, of, i+1, text.Body, text.Height, paper.Smallest)
						}
					}
				}
				for _, item := range p.Items {
					text, ok := item.(draw.Text)
					if !ok || strings.TrimSpace(text.Body) == "" {
						continue
					}
					words++
					if text.Height < paper.Smallest-1e-9 {
						t.Errorf("%s %s, %s, page %d: %q has capitals of %.2f mm, wants %v and more", opt.Size.Name, opt.Units, of, i+1, text.Body, text.Height, paper.Smallest)
					}
					one := placeOf(text)
					if one.left < 5 || one.bottom < 4 || one.right > p.Width-5 || one.top > p.Height-5 {
						t.Errorf("%s %s, %s, page %d: %q leaves the page", opt.Size.Name, opt.Units, of, i+1, text.Body)
					}
					for k := range all {
						if one.over(&all[k]) {
							t.Errorf("%s %s, %s, page %d: %q stands on %q", opt.Size.Name, opt.Units, of, i+1, text.Body, all[k].text.Body)
						}
					}
					all = append(all, one)
				}
			}
		}
		if pages < 300 || words < 20000 {
			t.Errorf("%s %s: only %d pages with %d texts were looked at", opt.Size.Name, opt.Units, pages, words)
		}
	}
}

// The same as an independent reader of the files finds it: no word is lower than the page
// numbers, which have the smallest letters there are, and none leaves its page.
func TestEveryWordCanBeReadByAnotherReader(t *testing.T) {
	openings, job := whole(t)
	for _, opt := range papers[:2] {
		for of, d := range laid(openings, job, opt) {
			var b bytes.Buffer
			if err := d.WritePDF(&b, paper.File{Title: of}); err != nil {
				t.Fatal(err)
			}
			pages, err := reference.WordBoxes(b.Bytes())
			if err != nil {
				t.Fatal(err)
			}
			least := 0.
			for _, w := range pages[0].Words {
				if w.Text == "page" {
					least = w.Down - w.Top
				}
			}
			if least < 8.5 || least > 9.5 { // capitals of 2 mm are 5.67 points high; up and down letters of this font take 1.6 times that
				t.Fatalf("%s, %s: the page number is %v points high", opt.Size.Name, of, least)
			}
			for i, p := range pages {
				if d.Below(i).Scene != nil {
					continue // the reader finds what a tile hides, too
				}
				for _, w := range p.Words {
					// Words of six letters are longer than high, also those that stand upright.
					if high := min(w.Down-w.Top, w.Right-w.Left); utf8.RuneCountInString(w.Text) >= 6 && high < least-0.1 {
						t.Errorf("%s, %s, page %d: %q is %.1f points high, the page number %.1f", opt.Size.Name, of, i+1, w.Text, high, least)
					}
					if w.Left < 0 || w.Top < 0 || w.Right > p.Width || w.Down > p.Height {
						t.Errorf("%s, %s, page %d: %q leaves the page", opt.Size.Name, of, i+1, w.Text)
					}
				}
			}
		}
	}
}
