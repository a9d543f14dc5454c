package draw

import (
	"encoding/xml"
	"errors"
	"io"
	"math"
	"strings"
	"testing"
	"unicode/utf8"
)

// parse reads a whole document and returns its root, its elements by name and
// the character data inside each name.
func parse(t testing.TB, document string) (root xml.StartElement, count map[string]int, text map[string][]string) {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(document))
	count, text = map[string]int{}, map[string][]string{}
	var open []string
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return root, count, text
		}
		if err != nil {
			t.Fatalf("not well-formed: %v\n%s", err, document)
		}
		switch token := token.(type) {
		case xml.StartElement:
			if len(open) == 0 {
				root = token.Copy()
			}
			open = append(open, token.Name.Local)
			count[token.Name.Local]++
		case xml.EndElement:
			open = open[:len(open)-1]
		case xml.CharData:
			if len(open) > 0 {
				name := open[len(open)-1]
				text[name] = append(text[name], string(token))
			}
		}
	}
}

func attribute(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

func TestSVGIsAccessible(t *testing.T) {
	document := svgOf(t, everything())
	root, count, text := parse(t, document)
	for name, want := range map[string]string{"role": "img", "aria-labelledby": "all-title all-desc", "width": "120mm", "height": "80mm", "viewBox": "0 0 120 80"} {
		if got := attribute(root, name); got != want {
			t.Errorf("%s is %q, want %q", name, got, want)
		}
	}
	if text["title"][0] != "One of <each>" || text["desc"][0] != `Lines, circles, arcs & "texts"` {
		t.Errorf("title %q, description %q", text["title"], text["desc"])
	}
	if count["title"] != 5 || count["text"] != 5 || count["path"] != 2 {
		t.Errorf("elements %v", count)
	}
	for _, outside := range []string{"href", "url(", "@import", "<script", "<image"} {
		if strings.Contains(document, outside) {
			t.Errorf("refers outside with %q", outside)
		}
	}
	if document != svgOf(t, everything()) {
		t.Error("written twice it differs")
	}
	root, _, _ = parse(t, svgOf(t, &Scene{Width: 1, Height: 1}))
	if attribute(root, "aria-labelledby") != "" {
		t.Error("a scene without ID has names that may clash")
	}
}

func TestSVGCoordinates(t *testing.T) {
	// By hand: y is flipped on a page 100 high; a quarter turn counter-clockwise
	// has sweep flag 0, three quarters clockwise the flags 1 1 (SVG 1.1, 8.3.8).
	s := &Scene{Width: 100, Height: 100}
	s.Add(
		Line(Point{0, 0}, Point{1. / 3, 100}, Style{Width: 1}),
		Arc{Center: Point{50, 50}, Radius: 10, From: 0, To: math.Pi / 2, Style: Style{Width: 1}},
		Arc{Center: Point{50, 50}, Radius: 10, From: 0, To: -1.5 * math.Pi, Style: Style{Width: 1}},
		Text{At: Point{10, 20}, Body: "x", Height: 0.72265625, Rotation: math.Pi / 2},
		Text{At: Point{10, 20}, Body: "x", Height: 0.72265625, Rotation: math.Pi / 2, Level: Top},
	)
	document := svgOf(t, s)
	for _, want := range []string{
		`points="0,100 0.333,0"`,
		`d="M60 50A10 10 0 0 0 50 40"`,
		`d="M60 50A10 10 0 1 1 50 40"`,
		`x="10" y="80" font-size="1" fill="#000000" transform="rotate(-90 10 80)"`,
		// Turned to read upwards, the top of the letters lies left of the baseline.
		`x="10.723" y="80"`,
	} {
		if !strings.Contains(document, want) {
			t.Errorf("%q is not in\n%s", want, document)
		}
	}
}

func TestSVGOpacityAndZero(t *testing.T) {
	s := &Scene{Width: 10, Height: 10}
	half := Blue
	half.A = 51 // a fifth
	s.Add(Circle{Center: Point{-1e-9, 5}, Radius: 1, Style: Style{Width: 1, Stroke: half, Fill: half}})
	if document := svgOf(t, s); !strings.Contains(document, `fill-opacity="0.2"`) || !strings.Contains(document, `stroke-opacity="0.2"`) || !strings.Contains(document, `cx="0"`) {
		t.Error(document)
	}
}

type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, io.ErrClosedPipe }

func TestWriteErrorsAreReported(t *testing.T) {
	if err := WriteSVG(broken{}, everything()); !errors.Is(err, io.ErrClosedPipe) {
		t.Errorf("SVG: %v", err)
	}
	if err := WritePNG(broken{}, everything(), 50); !errors.Is(err, io.ErrClosedPipe) {
		t.Errorf("PNG: %v", err)
	}
}

// FuzzText puts any text where texts can go: it is refused, or comes back whole.
func FuzzText(f *testing.F) {
	for _, seed := range []string{"", "plain", `<&>"'`, "]]>", "</text><script>", "&#x41;", "a\nb", "\x00", "\xff\xfe", "Ω ″ é 火", "\ufffe", "\u2028", "\x85"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, body string) {
		s := &Scene{Width: 10, Height: 10, Title: body, Description: body}
		if s.Add(Text{Body: body, Height: 1}); s.Check() != nil {
			s.Items = nil
		}
		_, count, text := parse(t, svgOf(t, s))
		if count["svg"] != 1 || count["g"] != 1 || count["title"] != 1 || count["rect"] != 1 || count["text"] != len(s.Items) {
			t.Fatalf("%q made elements: %v", body, count)
		}
		want := strings.Map(func(r rune) rune { // what XML 1.0 cannot hold (2.2) is replaced
			if r == '\t' || r == '\n' || r == '\r' || r >= 0x20 && r <= 0xd7ff || r >= 0xe000 && r <= 0xfffd || r >= 0x10000 {
				return r
			}
			return utf8.RuneError
		}, body)
		if got := strings.Join(text["title"], ""); got != want {
			t.Fatalf("title %q came back as %q", body, got)
		}
		if got := strings.Join(text["text"], ""); len(s.Items) > 0 && got != want {
			t.Fatalf("text %q came back as %q", body, got)
		}
	})
}
