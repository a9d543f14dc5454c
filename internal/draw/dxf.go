package draw

import (
	"bufio"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
)

// WriteDXF writes the scene as an ASCII drawing file of the oldest kind that all
// programs read (AC1009, "R12"), in millimetres at true size, x to the right, y up,
// with the layers of the scene. Circles stay circles and text stays text. Areas are
// shown by their outline, since the kind has none; what is painted white is left
// out. The same scene gives the same bytes.
func WriteDXF(w io.Writer, s *Scene) error {
	if err := s.Check(); err != nil {
		return err
	}
	out := dxf{Writer: bufio.NewWriter(w)}
	out.header(s)
	out.tables(s)
	out.pair(0, "SECTION")
	out.pair(2, "ENTITIES")
	for i, item := range s.Items {
		out.layer = s.layerOf(i)
		switch it := item.(type) {
		case Path:
			if out.drawn(it.Style) {
				out.path(it)
			}
		case Circle:
			if out.drawn(it.Style) {
				out.begin("CIRCLE", it.Style)
				out.point(10, it.Center)
				out.number(40, it.Radius)
			}
		case Arc:
			if it.Width > 0 {
				out.arc(it)
			}
		case Text:
			if it.Body != "" {
				out.text(it)
			}
		}
	}
	out.pair(0, "ENDSEC")
	out.pair(0, "EOF")
	return out.Flush()
}

// dxf writes group codes and values; the buffer keeps the first error until Flush.
type dxf struct {
	*bufio.Writer
	layer string
	lines []string // the dash patterns, in the order of their names
}

func (o *dxf) pair(code int, value string)    { fmt.Fprintf(o, "%3d\n%s\n", code, value) }
func (o *dxf) whole(code, value int)          { o.pair(code, fmt.Sprint(value)) }
func (o *dxf) number(code int, value float64) { o.pair(code, decimal(value)) }
func (o *dxf) point(code int, p Point)        { o.number(code, p.X); o.number(code+10, p.Y) }
func (o *dxf) table(name string, entries int) {
	o.pair(0, "TABLE")
	o.pair(2, name)
	o.whole(70, entries)
}
func (o *dxf) drawn(s Style) bool { return s.Width > 0 || s.Fill.A > 0 && s.Fill != White }

// decimal writes a number to a tenth of a micrometre, always with a point.
func decimal(x float64) string {
	t := fmt.Sprintf("%.4f", math.Round(x*1e4)/1e4+0)
	t = strings.TrimRight(t, "0")
	if strings.HasSuffix(t, ".") {
		t += "0"
	}
	if t == "-0.0" {
		return "0.0"
	}
	return t
}

func (o *dxf) header(s *Scene) {
	o.pair(0, "SECTION")
	o.pair(2, "HEADER")
	o.pair(9, "$ACADVER")
	o.pair(1, "AC1009")
	o.pair(9, "$INSUNITS") // 4 is the millimetre
	o.whole(70, 4)
	o.pair(9, "$MEASUREMENT")
	o.whole(70, 1)
	o.pair(9, "$EXTMIN")
	o.point(10, Point{})
	o.number(30, 0)
	o.pair(9, "$EXTMAX")
	o.point(10, Point{s.Width, s.Height})
	o.number(30, 0)
	o.pair(0, "ENDSEC")
}

// tables declares dash patterns, layers and the style of the text.
func (o *dxf) tables(s *Scene) {
	var patterns [][]float64
	layers := []string{"0"}
	for _, l := range s.Layers {
		if !slices.Contains(layers, l.Name) {
			layers = append(layers, l.Name)
		}
	}
	for _, item := range s.Items {
		if d := dashOf(item); len(d) > 0 && !slices.Contains(o.lines, fmt.Sprint(d)) {
			o.lines = append(o.lines, fmt.Sprint(d))
			patterns = append(patterns, d)
		}
	}
	o.pair(0, "SECTION")
	o.pair(2, "TABLES")
	o.table("LTYPE", 1+len(patterns))
	o.lineType("CONTINUOUS", nil)
	for i, d := range patterns {
		o.lineType(lineName(i), d)
	}
	o.pair(0, "ENDTAB")
	o.table("LAYER", len(layers))
	for _, name := range layers {
		o.pair(0, "LAYER")
		o.pair(2, name)
		o.whole(70, 0)
		o.whole(62, 7) // black on white, white on black
		o.pair(6, "CONTINUOUS")
	}
	o.pair(0, "ENDTAB")
	o.table("STYLE", 1)
	o.pair(0, "STYLE")
	o.pair(2, "STANDARD")
	o.whole(70, 0)
	o.number(40, 0)
	o.number(41, 1)
	o.number(50, 0)
	o.whole(71, 0)
	o.number(42, 2.5)
	o.pair(3, "txt")
	o.pair(4, "")
	o.pair(0, "ENDTAB")
	o.pair(0, "ENDSEC")
}

func lineName(i int) string { return fmt.Sprintf("DASH%d", i+1) }

// lineType declares a pattern: marks count up, gaps down. An odd one goes on
// alternating, as in the other writers.
func (o *dxf) lineType(name string, dash []float64) {
	if len(dash)%2 == 1 {
		dash = append(slices.Clone(dash), dash...)
	}
	total := 0.
	for _, d := range dash {
		total += d
	}
	o.pair(0, "LTYPE")
	o.pair(2, name)
	o.whole(70, 0)
	o.pair(3, "")
	o.whole(72, 65)
	o.whole(73, len(dash))
	o.number(40, total)
	for i, d := range dash {
		if i%2 == 1 {
			d = -d
		}
		o.number(49, d)
	}
}

// dashOf is the pattern of an item that is drawn with one.
func dashOf(item Item) []float64 {
	var s Style
	switch it := item.(type) {
	case Path:
		s = it.Style
	case Circle:
		s = it.Style
	case Arc:
		s = it.Style
	}
	if s.Width == 0 {
		return nil
	}
	return s.Dash
}

// begin writes what every entity has first.
func (o *dxf) begin(kind string, s Style) {
	o.pair(0, kind)
	o.pair(8, o.layer)
	if i := slices.Index(o.lines, fmt.Sprint(s.Dash)); s.Width > 0 && i >= 0 {
		o.pair(6, lineName(i))
	}
	if c := s.stroke(); s.Width > 0 && (c == Faint || c == Shade || c == White) {
		o.whole(62, 9) // light grey
	}
}

func (o *dxf) path(p Path) {
	if len(p.Points) == 2 {
		o.begin("LINE", p.Style)
		o.point(10, p.Points[0])
		o.point(11, p.Points[1])
		return
	}
	o.begin("POLYLINE", p.Style)
	o.whole(66, 1) // vertices follow
	o.point(10, Point{})
	o.number(30, 0)
	closed := 0
	if p.Closed {
		closed = 1
	}
	o.whole(70, closed)
	for _, q := range p.Points {
		o.begin("VERTEX", Style{})
		o.point(10, q)
	}
	o.begin("SEQEND", Style{})
}

// arc writes an arc, which the format draws counter-clockwise only, in degrees.
func (o *dxf) arc(a Arc) {
	from, to := min(a.From, a.To), max(a.From, a.To)
	o.begin("ARC", a.Style)
	o.point(10, a.Center)
	o.number(40, a.Radius)
	o.number(50, degrees(from))
	o.number(51, degrees(to))
}

// degrees in a whole turn.
func degrees(radians float64) float64 {
	d := math.Mod(radians*180/math.Pi, 360)
	if d < 0 {
		d += 360
	}
	return d
}

func (o *dxf) text(t Text) {
	o.begin("TEXT", Style{})
	o.point(10, t.At)
	o.number(40, t.Height)
	o.pair(1, dxfText(t.Body))
	if t.Rotation != 0 {
		o.number(50, degrees(t.Rotation))
	}
	o.pair(7, "STANDARD")
	if t.Anchor != Start || t.Level != Baseline {
		o.whole(72, int(t.Anchor)) // left, centre, right
		o.point(11, t.At)
		o.whole(73, [...]int{Baseline: 0, Centre: 2, Top: 3}[t.Level])
	}
}

// dxfText writes what is not ASCII by its code, and a lone caret so that it stays
// one. Two percent signs, which begin codes of the format's own, come apart.
func dxfText(body string) string {
	for strings.Contains(body, "%%") {
		body = strings.ReplaceAll(body, "%%", "% %")
	}
	var b strings.Builder
	for _, r := range body {
		switch {
		case r == '^':
			b.WriteString("^ ")
		case r <= '~':
			b.WriteRune(r)
		case r > 0xFFFF:
			b.WriteString(`\U+FFFD`)
		default:
			fmt.Fprintf(&b, `\U+%04X`, r)
		}
	}
	return b.String()
}
