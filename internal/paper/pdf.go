package paper

import (
	"io"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"swingwright/internal/draw"
)

// File says what a PDF file states about itself.
type File struct {
	Title, Subject string
	// Keywords are plain ASCII words that programs may look for.
	Keywords string
	Attached []Attached
}

// Attached is a file that goes along inside the PDF.
type Attached struct {
	Name, About string
	Content     []byte
}

// made is the date that files state. A file of the same papers has the same bytes
// whenever it was written, so this is no date of anything; the papers name theirs.
var made = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)

// WritePDF writes the finished document, with an outline of its papers and
// headings and with the lines of its contents as links.
func (d *Document) WritePDF(w io.Writer, f File) error {
	pdf := draw.NewPDF(draw.Document{Title: f.Title, Subject: f.Subject, Made: made})
	pdf.SetKeywords(f.Keywords, false)
	var attached []fpdf.Attachment
	for _, a := range f.Attached {
		attached = append(attached, fpdf.Attachment{Content: a.Content, Filename: a.Name, Description: a.About})
	}
	pdf.SetAttachments(attached)
	links := map[string]int{}
	for _, l := range d.leaders {
		if _, known := d.targets[l.key]; known && links[l.key] == 0 {
			links[l.key] = pdf.AddLink()
		}
	}
	next := 0
	for i, page := range d.pages {
		pdf.AddPageFormat("P", fpdf.SizeType{Wd: page.Width, Ht: page.Height})
		for ; next < len(d.marks) && d.marks[next].page == i; next++ {
			pdf.Bookmark(d.marks[next].text, d.marks[next].level, d.marks[next].y)
		}
		if b := d.below[i]; b.Scene != nil {
			if err := draw.PlacePartPDF(pdf, b.Scene, b.Part, b.At, b.scale()); err != nil {
				return err
			}
		}
		if err := draw.PlacePDF(pdf, page, draw.Point{}, 1); err != nil {
			return err
		}
		for _, l := range d.leaders {
			if id, ok := links[l.key]; ok && l.page == i {
				pdf.Link(side, l.y-1, d.Width(), Strong.Lead+1, id)
			}
		}
	}
	for key, id := range links {
		pdf.SetLink(id, 0, d.targets[key]+1)
	}
	return draw.FinishPDF(w, pdf)
}
