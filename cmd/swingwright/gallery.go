package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"unicode"

	"swingwright/internal/draw"
	"swingwright/opening"
	"swingwright/picture"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/trace"
)

// dpi is the resolution of the PNG pictures, dots per inch: sharp on a phone and on paper.
const dpi = 200

// gallery draws openings into a folder. A nil gallery draws nothing.
type gallery struct {
	folder string
	units  quantity.System
	stems  map[string]string // of the file names, by opening
	*letters
}

// newGallery makes the folder ready; nil where no folder was asked for.
func newGallery(folder string, openings []*opening.Opening, units quantity.System, l *letters) (*gallery, error) {
	if folder == "" {
		return nil, nil
	}
	if err := os.MkdirAll(folder, 0o777); err != nil {
		return nil, problem{what: "--pictures: " + plain(err), hint: "name a folder that can be written"}
	}
	return &gallery{folder: folder, units: units, stems: stems(openings), letters: l}, nil
}

// stems gives every opening a file name of its own, from letters and digits only.
func stems(openings []*opening.Opening) map[string]string {
	byID, taken := make(map[string]string), make(map[string]bool)
	for _, o := range openings {
		stem := stemOf(o.ID)
		free := stem
		for n := 2; taken[free]; n++ {
			free = fmt.Sprintf("%s_%d", stem, n)
		}
		taken[free], byID[o.ID] = true, free
	}
	return byID
}

// stemOf is a name in letters and digits only.
func stemOf(id string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) || r == '-' {
			return unicode.ToLower(r)
		}
		return '_'
	}, id)
}

// draw writes the pictures of one opening.
func (g *gallery) draw(p *plan.Plan) error {
	if g == nil {
		return nil
	}
	return g.write(p, picture.All(p, g.units))
}

// drawWindow writes the pictures of an opening's window of settings and of its
// months; nil seasons are left out.
func (g *gallery) drawWindow(p *plan.Plan, w *plan.Window, s *plan.Seasons) error {
	if g == nil {
		return nil
	}
	pictures := []picture.Named{{Name: "window", Scene: picture.Window(p, w, g.units)}}
	if s != nil {
		pictures = append(pictures, picture.Named{Name: "seasons", Scene: picture.Seasons(p, s, g.units)})
	}
	return g.write(p, pictures)
}

// drawMarks draws the floor marks of a leaf.
func (g *gallery) drawMarks(p *plan.Plan) error {
	if g == nil {
		return nil
	}
	return g.write(p, []picture.Named{{Name: "marks", Scene: picture.Marks(p, g.units)}})
}

// drawRecording draws a recording.
func (g *gallery) drawRecording(p *plan.Plan, t *trace.Trace) error {
	if g == nil {
		return nil
	}
	return g.write(p, []picture.Named{{Name: "recording", Scene: picture.Recording(p, t, g.units)}})
}

// drawTuning draws the closing before and after the turn, and how well recordings are
// followed, where there are any.
func (g *gallery) drawTuning(p *plan.Plan, w *plan.Tuning) error {
	if g == nil {
		return nil
	}
	pictures := []picture.Named{{Name: "foretold", Scene: picture.Foretold(p, w)}}
	if w.Advice != nil && w.Fit != nil && len(w.Fit.Curves) > 0 {
		pictures = append(pictures, picture.Named{Name: "fit", Scene: picture.Fit(p, w)})
	}
	return g.write(p, pictures)
}

// drawFeeding draws the volts and currents of a wiring.
func (g *gallery) drawFeeding(f *plan.Feeding) error {
	if g == nil {
		return nil
	}
	stem := g.stems[f.Name]
	if stem == "" {
		stem = stemOf(f.Name) // a group
	}
	return g.writeAs(stem, picture.Feeding(f))
}

// drawWiring draws a wiring, and a timing diagram for each rule that it breaks; all
// of it as one PDF too.
func (g *gallery) drawWiring(name string, w *plan.Wired) error {
	if g == nil {
		return nil
	}
	pictures := picture.Wiring(name, w)
	var pages []*draw.Scene
	for _, one := range pictures {
		pages = append(pages, one.Scene)
	}
	stem := stemOf(w.Of)
	pdf := writeFile(filepath.Join(g.folder, stem+"-wiring.pdf"), func(out io.Writer) error {
		return draw.WritePDF(out, draw.Document{Title: "Wiring " + w.Of}, pages...)
	})
	return errors.Join(g.writeAs(stem, pictures), pdf)
}

func (g *gallery) write(p *plan.Plan, pictures []picture.Named) error {
	return g.writeAs(g.stems[p.Opening.ID], pictures)
}

// writeAs writes pictures under names that begin with a stem.
func (g *gallery) writeAs(stem string, pictures []picture.Named) error {
	for _, one := range pictures {
		g.see(one.Scene)
		name := filepath.Join(g.folder, stem+"-"+one.Name)
		svg := writeFile(name+".svg", func(w io.Writer) error { return draw.WriteSVG(w, one.Scene) })
		png := writeFile(name+".png", func(w io.Writer) error { return draw.WritePNG(w, one.Scene, dpi) })
		if err := errors.Join(svg, png); err != nil {
			return err
		}
	}
	return nil
}

func writeFile(name string, write func(io.Writer) error) error {
	f, err := os.Create(name)
	if err != nil {
		return err
	}
	return errors.Join(write(f), f.Close())
}
