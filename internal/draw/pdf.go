//go:build !js

// The engine in a browser prints nothing, and does without the large library for PDF.

package draw

import (
	"bytes"
	"errors"
	"fmt"
	"image/color"
	"io"
	"math"
	"regexp"
	"strconv"
	"time"

	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
)

// PDFFont is the family of the two fonts, style "" and "B", that a document of
// [NewPDF] embeds. They are those of the PNG writer, so [Text.Width] holds for both.
const PDFFont = "Go"

// Document says what a PDF is about.
type Document struct {
	Title, Subject string
	// Made is the date that the file states: an argument, so that the same
	// document gives the same bytes. The zero time states the year 1.
	Made time.Time
}

// NewPDF begins a document in millimetres with the fonts of the package, without
// margins or page breaks of its own. Set text in [PDFFont], place pictures with
// [PlacePDF] and end with [FinishPDF].
func NewPDF(d Document) *fpdf.Fpdf {
	pdf := fpdf.New("P", "mm", "A4", "")
	pdf.SetMargins(0, 0, 0)
	pdf.SetAutoPageBreak(false, 0)
	pdf.SetTitle(d.Title, true)
	pdf.SetSubject(d.Subject, true)
	pdf.SetProducer("Swingwright", true)
	pdf.SetLang("en")
	pdf.SetCreationDate(d.Made.UTC())
	pdf.SetModificationDate(d.Made.UTC())
	pdf.SetCatalogSort(true)
	pdf.AddUTF8FontFromBytes(PDFFont, "", goregular.TTF)
	pdf.AddUTF8FontFromBytes(PDFFont, "B", gobold.TTF)
	pdf.SetFont(PDFFont, "", 10)
	return pdf
}

// WritePDF writes each scene as one page at its true size, with its title as a
// bookmark where it has one. Text stays text, its fonts are embedded, and viewers
// are asked to print without scaling. The same arguments give the same bytes.
// It writes nothing if a scene cannot be drawn, and tells everything that is wrong.
func WritePDF(w io.Writer, d Document, pages ...*Scene) error {
	if len(pages) == 0 {
		return errors.New("draw: PDF without pages; give one scene or more")
	}
	var found []error
	for i, s := range pages {
		if err := s.Check(); err != nil {
			found = append(found, fmt.Errorf("page %d: %w", i+1, err))
		}
		if max(s.Width, s.Height) > mostPDF {
			found = append(found, fmt.Errorf("page %d: draw: page of %v mm by %v mm; a PDF has sides up to %v mm, so tile it", i+1, s.Width, s.Height, mostPDF))
		}
	}
	if len(found) > 0 {
		return errors.Join(found...)
	}
	pdf := NewPDF(d)
	for _, s := range pages {
		pdf.AddPageFormat("P", fpdf.SizeType{Wd: s.Width, Ht: s.Height})
		if s.Title != "" {
			pdf.Bookmark(s.Title, 0, 0)
		}
		if err := PlacePDF(pdf, s, Point{}, 1); err != nil {
			return err
		}
	}
	return FinishPDF(w, pdf)
}

// mostPDF is the longest side of a page, mm: 14400 units of 1/72 in (ISO 32000-1:2008, C.2).
const mostPDF = 5080

// PlacePDF draws the scene onto the current page of a document of [NewPDF], clipped
// to the scene's page: the upper left corner at a place in millimetres from the upper
// left of the page, y down as that library has it, every length times scale.
// The scene's white page is not painted. Font, colours, opacity and line width are
// afterwards as they were, dashes are off.
func PlacePDF(pdf *fpdf.Fpdf, s *Scene, corner Point, scale float64) error {
	return PlacePartPDF(pdf, s, Box{Max: Point{s.Width, s.Height}}, corner, scale)
}

// PlacePartPDF draws the part of a scene inside a box, as a tile of it: the upper left
// corner of the box at a place of the page; items wholly outside are left out. In all else it
// does as [PlacePDF] does.
func PlacePartPDF(pdf *fpdf.Fpdf, s *Scene, part Box, corner Point, scale float64) error {
	err := s.Check()
	if !(part.Max.X > part.Min.X && part.Max.Y > part.Min.Y) {
		err = errors.Join(err, fmt.Errorf("draw: part of a scene from %v to %v mm; give two corners, the lower left first", part.Min, part.Max))
	}
	if !(scale > 0 && scale <= 1000) {
		err = errors.Join(err, fmt.Errorf("draw: scale %v; give more than 0, and 1 for true size", scale))
	}
	if !(math.Abs(corner.X) <= farthest && math.Abs(corner.Y) <= farthest) {
		err = errors.Join(err, fmt.Errorf("draw: picture at %v mm; keep within %v mm of the page's corner", corner, farthest))
	}
	if pdf.PageNo() == 0 {
		err = errors.Join(err, errors.New("draw: the PDF has no page yet; add one first"))
	}
	if err != nil {
		return err
	}
	restore := keep(pdf)
	o := pdfPage{pdf: pdf, corner: Point{corner.X - part.Min.X*scale, corner.Y}, height: part.Max.Y, scale: scale}
	pdf.ClipRect(corner.X, corner.Y, (part.Max.X-part.Min.X)*scale, (part.Max.Y-part.Min.Y)*scale, false)
	pdf.SetLineJoinStyle("round")
	for _, item := range s.Items {
		if !Bounds(item).meets(part) {
			continue // nobody would see it, and whoever selects text would find it
		}
		switch it := item.(type) {
		case Path:
			o.draw(it.Style, func() { o.polygon(it.Points, it.Closed) })
		case Circle:
			o.draw(it.Style, func() {
				o.curve(Arc{Center: it.Center, Radius: it.Radius, To: 2 * math.Pi})
				pdf.ClosePath()
			})
		case Arc:
			style := it.Style
			style.Fill = color.NRGBA{}
			o.draw(style, func() { o.curve(it) })
		case Text:
			o.text(it)
		}
	}
	pdf.SetDashPattern(nil, 0)
	pdf.ClipEnd()
	restore()
	return pdf.Error()
}

// keep remembers the drawing state that a picture changes. The library remembers
// it too, and what it believes must agree with the page after the clip has ended.
func keep(pdf *fpdf.Fpdf) (restore func()) {
	if pdf.GetFontFamily() == "" {
		pdf.SetFont(PDFFont, "", 10)
	}
	family, style := pdf.GetFontFamily(), pdf.GetFontStyle()
	points, _ := pdf.GetFontSize()
	width := pdf.GetLineWidth()
	alpha, blend := pdf.GetAlpha()
	r, g, b := pdf.GetDrawColor()
	fr, fg, fb := pdf.GetFillColor()
	tr, tg, tb := pdf.GetTextColor()
	return func() {
		pdf.SetFont(family, style, points)
		pdf.SetLineWidth(width)
		pdf.SetDrawColor(r, g, b)
		pdf.SetFillColor(fr, fg, fb)
		pdf.SetTextColor(tr, tg, tb)
		if now, _ := pdf.GetAlpha(); now != alpha {
			pdf.SetAlpha(alpha, blend)
		}
	}
}

// pdfPage draws items at their place on the current page.
type pdfPage struct {
	pdf    *fpdf.Fpdf
	corner Point   // of the page, where x is 0 and y is height in the scene
	height float64 // mm
	scale  float64
}

// at gives a point in the library's coordinates, y down.
func (o pdfPage) at(p Point) (x, y float64) {
	return o.corner.X + p.X*o.scale, o.corner.Y + (o.height-p.Y)*o.scale
}

// draw paints the path that trace lays out: first inside, then along. They are
// two, since their opacity may differ.
func (o pdfPage) draw(s Style, trace func()) {
	if s.Fill.A > 0 {
		o.opacity(s.Fill)
		o.pdf.SetFillColor(int(s.Fill.R), int(s.Fill.G), int(s.Fill.B))
		trace()
		o.pdf.DrawPath("F")
	}
	if s.Width > 0 {
		c := s.stroke()
		o.opacity(c)
		o.pdf.SetDrawColor(int(c.R), int(c.G), int(c.B))
		o.pdf.SetLineWidth(s.Width * o.scale)
		o.dash(s.Dash)
		trace()
		o.pdf.DrawPath("D")
	}
}

func (o pdfPage) opacity(c color.NRGBA) {
	alpha := float64(c.A) / 255
	if now, _ := o.pdf.GetAlpha(); now != alpha {
		o.pdf.SetAlpha(alpha, "Normal")
	}
}

func (o pdfPage) dash(lengths []float64) {
	scaled := make([]float64, len(lengths))
	for i, d := range lengths {
		scaled[i] = max(d*o.scale, 0.01)
	}
	o.pdf.SetDashPattern(scaled, 0)
}

func (o pdfPage) polygon(points []Point, closed bool) {
	o.pdf.MoveTo(o.at(points[0]))
	for _, p := range points[1:] {
		o.pdf.LineTo(o.at(p))
	}
	if closed {
		o.pdf.ClosePath()
	}
}

// curve lays an arc in cubic pieces of an eighth of a turn at most, which leave the
// circle by less than 5e-6 of its radius (the handles are 4/3·tan(δ/4)·r long).
func (o pdfPage) curve(a Arc) {
	n := int(math.Ceil(math.Abs(a.To-a.From)/(math.Pi/4) - 1e-9))
	step := (a.To - a.From) / float64(max(n, 1))
	handle := 4. / 3 * math.Tan(step/4) * a.Radius
	o.pdf.MoveTo(o.at(a.point(a.From)))
	for i := range n {
		from := a.From + float64(i)*step
		p, q := a.point(from), a.point(from+step)
		sin, cos := math.Sincos(from)
		x1, y1 := o.at(Point{p.X - handle*sin, p.Y + handle*cos})
		sin, cos = math.Sincos(from + step)
		x2, y2 := o.at(Point{q.X + handle*sin, q.Y - handle*cos})
		x, y := o.at(q)
		o.pdf.CurveBezierCubicTo(x1, y1, x2, y2, x, y)
	}
}

// text writes a line of text. Its halo is drawn as a line along the letters, so
// that nobody who selects the text finds it twice.
func (o pdfPage) text(t Text) {
	if t.Body == "" {
		return
	}
	t.Body = Printable(t.Body)
	if t.Halo > 0 {
		edge := Style{Width: 2 * t.Halo, Stroke: White}
		o.draw(edge, func() {
			for _, contour := range t.contours() {
				if len(contour) > 1 {
					o.polygon(contour, true)
				}
			}
		})
	}
	style := ""
	if t.Bold {
		style = "B"
	}
	c := t.colour()
	o.opacity(c)
	o.pdf.SetTextColor(int(c.R), int(c.G), int(c.B))
	o.pdf.SetFont(PDFFont, style, 10)
	o.pdf.SetFontUnitSize(t.Height / capital * o.scale)
	x, y := o.at(t.baseline())
	along := -[...]float64{Start: 0, Middle: 0.5, End: 1}[t.Anchor] * t.Width() * o.scale
	if t.Rotation == 0 {
		o.pdf.Text(x+along, y, t.Body)
		return
	}
	o.pdf.TransformBegin()
	o.pdf.TransformRotate(t.Rotation*180/math.Pi, x, y)
	o.pdf.Text(x+along, y, t.Body)
	o.pdf.TransformEnd()
}

// FinishPDF ends the document and writes it with the wish not to be scaled in
// print (/PrintScaling /None, ISO 32000-1:2008, 12.2), which the library has no
// word for: it is appended as an update of the catalog (7.5.6). Printers and
// people may scale all the same, so a page to measure from needs a bar to measure.
func FinishPDF(w io.Writer, pdf *fpdf.Fpdf) error {
	var b bytes.Buffer
	if err := pdf.Output(&b); err != nil {
		return fmt.Errorf("draw: write PDF: %w", err)
	}
	if err := unscaled(&b); err != nil {
		return err
	}
	if _, err := b.WriteTo(w); err != nil {
		return fmt.Errorf("draw: write PDF: %w", err)
	}
	return nil
}

var trailer = regexp.MustCompile(`(?s)trailer\n<<\n/Size (\d+)\n/Root (\d+) 0 R\n/Info (\d+) 0 R\n>>\nstartxref\n(\d+)\n%%EOF\s*$`)

// unscaled appends the update.
func unscaled(b *bytes.Buffer) error {
	file := b.Bytes()
	end := trailer.FindSubmatch(file)
	if end == nil {
		return errors.New("draw: the PDF library ends its files in a way that is not known here")
	}
	root, table := string(end[2]), string(end[4])
	begin := bytes.LastIndex(file, []byte("\n"+root+" 0 obj\n<<\n"))
	if begin < 0 {
		return errors.New("draw: the PDF library's catalog is not found")
	}
	begin++
	length := bytes.Index(file[begin:], []byte("\nendobj"))
	catalog := bytes.TrimSuffix(file[begin:begin+length], []byte(">>"))
	if file[len(file)-1] != '\n' {
		b.WriteByte('\n')
	}
	at := b.Len()
	b.Write(bytes.Clone(catalog))
	b.WriteString("/Version /1.7\n/ViewerPreferences <</PrintScaling /None>>\n>>\nendobj\n")
	again := b.Len()
	fmt.Fprintf(b, "xref\n%s 1\n%010d 00000 n \n", root, at)
	fmt.Fprintf(b, "trailer\n<<\n/Size %s\n/Root %s 0 R\n/Info %s 0 R\n/Prev %s\n>>\nstartxref\n%s\n%%%%EOF\n", end[1], root, end[3], table, strconv.Itoa(again))
	return nil
}
