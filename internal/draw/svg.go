package draw

import (
	"bufio"
	"encoding/xml"
	"fmt"
	"image/color"
	"io"
	"math"
	"strconv"
	"strings"
)

// WriteSVG writes the scene as an SVG 1.1 document that refers to nothing
// outside itself, at its true size. The same scene gives the same bytes. It
// carries its title and description for screen readers; text stays text.
func WriteSVG(w io.Writer, s *Scene) error {
	if err := s.Check(); err != nil {
		return err
	}
	out := svg{Writer: bufio.NewWriter(w), height: s.Height}
	out.head(s)
	for _, item := range s.Items {
		switch it := item.(type) {
		case Path:
			out.path(it)
		case Circle:
			x, y := out.at(it.Center)
			out.element(`circle cx="`+x+`" cy="`+y+`" r="`+short(it.Radius)+`"`, it.Style, "circle", it.Title)
		case Arc:
			out.arc(it)
		case Text:
			out.text(it)
		}
	}
	out.WriteString("</g>\n</svg>\n")
	return out.Flush()
}

// svg writes items; the buffer keeps the first error until Flush.
type svg struct {
	*bufio.Writer
	height float64
}

func (o svg) head(s *Scene) {
	w, h := short(s.Width), short(s.Height)
	label, title, desc := "", "<title>", "<desc>"
	if s.ID != "" {
		label = ` aria-labelledby="` + s.ID + `-title ` + s.ID + `-desc"`
		title, desc = `<title id="`+s.ID+`-title">`, `<desc id="`+s.ID+`-desc">`
	}
	fmt.Fprintf(o, `<svg xmlns="http://www.w3.org/2000/svg" width="%smm" height="%smm" viewBox="0 0 %s %s" role="img"%s>`+"\n", w, h, w, h, label)
	fmt.Fprintf(o, "%s%s</title>\n%s%s</desc>\n", title, escaped(s.Title), desc, escaped(s.Description))
	fmt.Fprintf(o, `<rect width="%s" height="%s" fill="#ffffff"/>`+"\n", w, h)
	o.WriteString(`<g fill="none" stroke-linejoin="round" font-family="sans-serif">` + "\n")
}

func (o svg) path(p Path) {
	name := "polyline"
	if p.Closed {
		name = "polygon"
	}
	var b strings.Builder
	b.WriteString(name + ` points="`)
	for i, q := range p.Points {
		if i > 0 {
			b.WriteByte(' ')
		}
		x, y := o.at(q)
		b.WriteString(x + "," + y)
	}
	o.element(b.String()+`"`, p.Style, name, p.Title)
}

func (o svg) arc(a Arc) {
	large, sweep := 0, 0
	if math.Abs(a.To-a.From) > math.Pi {
		large = 1
	}
	if a.To < a.From {
		sweep = 1 // clockwise as seen, which SVG counts as positive
	}
	x0, y0 := o.at(a.point(a.From))
	x1, y1 := o.at(a.point(a.To))
	r, style := short(a.Radius), a.Style
	style.Fill = color.NRGBA{}
	o.element(fmt.Sprintf(`path d="M%s %sA%s %s 0 %d %d %s %s"`, x0, y0, r, r, large, sweep, x1, y1), style, "path", a.Title)
}

func (o svg) text(t Text) {
	at := t.baseline()
	x, y := o.at(at)
	fmt.Fprintf(o, `<text x="%s" y="%s" font-size="%s" fill="%s"`, x, y, short(t.Height/capital), hex(t.colour()))
	o.opacity("fill", t.colour())
	if t.Halo > 0 {
		fmt.Fprintf(o, ` stroke="#ffffff" stroke-width="%s" paint-order="stroke"`, short(2*t.Halo))
	}
	if t.Anchor != Start {
		fmt.Fprintf(o, ` text-anchor="%s"`, [...]string{Middle: "middle", End: "end"}[t.Anchor])
	}
	if t.Bold {
		o.WriteString(` font-weight="bold"`)
	}
	if t.Rotation != 0 {
		fmt.Fprintf(o, ` transform="rotate(%s %s %s)"`, short(-t.Rotation*180/math.Pi), x, y)
	}
	o.WriteByte('>')
	o.title(t.Title)
	o.WriteString(escaped(t.Body) + "</text>\n")
}

// element writes a begun tag with its style and, if it has one, its title.
func (o svg) element(begin string, s Style, name, title string) {
	o.WriteString("<" + begin)
	if s.Fill.A > 0 {
		fmt.Fprintf(o, ` fill="%s"`, hex(s.Fill))
		o.opacity("fill", s.Fill)
	}
	if s.Width > 0 {
		fmt.Fprintf(o, ` stroke="%s" stroke-width="%s"`, hex(s.stroke()), short(s.Width))
		o.opacity("stroke", s.stroke())
		if len(s.Dash) > 0 {
			marks := make([]string, len(s.Dash))
			for i, d := range s.Dash {
				marks[i] = short(d)
			}
			fmt.Fprintf(o, ` stroke-dasharray="%s"`, strings.Join(marks, " "))
		}
	}
	if title == "" {
		o.WriteString("/>\n")
		return
	}
	o.WriteByte('>')
	o.title(title)
	o.WriteString("</" + name + ">\n")
}

func (o svg) title(title string) {
	if title != "" {
		o.WriteString("<title>" + escaped(title) + "</title>")
	}
}

func (o svg) opacity(what string, c color.NRGBA) {
	if c.A < 255 {
		fmt.Fprintf(o, ` %s-opacity="%s"`, what, short(float64(c.A)/255))
	}
}

// at gives a point in SVG's coordinates, y down.
func (o svg) at(p Point) (x, y string) { return short(p.X), short(o.height - p.Y) }

func hex(c color.NRGBA) string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

// short writes a number to a thousandth, without needless zeros.
func short(x float64) string {
	x = math.Round(x*1000) / 1000
	if x == 0 {
		x = 0 // no minus before a zero
	}
	return strconv.FormatFloat(x, 'f', -1, 64)
}

// escaped is the text as XML wants it; characters that XML does not know
// become U+FFFD.
func escaped(s string) string {
	var b strings.Builder
	xml.EscapeText(&b, []byte(s)) // a Builder never fails
	return b.String()
}
