package paper

import (
	"bytes"
	"math"
	"strings"
	"testing"
	"unicode"

	"pgregory.net/rapid"

	"swingwright/internal/draw"
	_ "swingwright/internal/steady"
)

// box is what a text takes up on its page, mm from the lower left.
func box(t draw.Text) (left, bottom, right, top float64) {
	w := t.Width()
	left = t.At.X - w*[...]float64{draw.Start: 0, draw.Middle: 0.5, draw.End: 1}[t.Anchor]
	bottom = t.At.Y - t.Height*[...]float64{draw.Baseline: 0, draw.Centre: 0.5, draw.Top: 1}[t.Level]
	return left, bottom - t.Height/3, left + w, bottom + t.Height
}

// inside reports texts that leave the margins of their page.
func inside(t rapid.TB, d *Document) {
	t.Helper()
	for i, p := range d.Pages() {
		for _, item := range p.Items {
			if text, ok := item.(draw.Text); ok {
				left, bottom, right, top := box(text)
				if left < side-0.01 || right > p.Width-side+0.01 || bottom < 5 || top > p.Height-5 {
					t.Errorf("page %d: %q lies at %.1f to %.1f by %.1f to %.1f, beyond the margins of %v by %v", i+1, text.Body, left, right, bottom, top, p.Width, p.Height)
				}
			}
		}
	}
}

// apart reports texts that lie over one another.
func apart(t rapid.TB, d *Document) {
	t.Helper()
	for n, p := range d.Pages() {
		type rect struct {
			body                     string
			left, bottom, right, top float64
		}
		var all []rect
		for _, item := range p.Items {
			if text, ok := item.(draw.Text); ok && strings.TrimSpace(text.Body) != "" {
				w := text.Width()
				x := text.At.X - w*[...]float64{draw.Start: 0, draw.Middle: 0.5, draw.End: 1}[text.Anchor]
				all = append(all, rect{text.Body, x, text.At.Y - text.Height, x + w, text.At.Y})
			}
		}
		for i, a := range all {
			for _, b := range all[i+1:] {
				if a.left < b.right-0.05 && b.left < a.right-0.05 && a.bottom < b.top-0.05 && b.bottom < a.top-0.05 {
					t.Errorf("page %d: %q and %q lie over one another", n+1, a.body, b.body)
				}
			}
		}
	}
}

// letters are the letters of a text in order, without what separates them.
func letters(text string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) || unicode.IsControl(r) || unicode.Is(unicode.Cf, r) {
			return -1
		}
		return r
	}, strings.ToValidUTF8(text, "?"))
}

// written are the letters of all pages, in order.
func written(d *Document) string {
	var b strings.Builder
	for _, p := range d.Pages() {
		for _, item := range p.Items {
			if t, ok := item.(draw.Text); ok {
				b.WriteString(letters(t.Body))
			}
		}
	}
	return b.String()
}

var anyText = rapid.OneOf(
	rapid.StringMatching(`([a-zA-Z0-9±°·]{1,12} ){0,30}`),
	rapid.StringMatching(`[a-z]{0,400}`),
	rapid.String(),
	rapid.Custom(func(t *rapid.T) string { // longer than a page
		return strings.Repeat(rapid.StringMatching(`[a-z]{1,9} `).Draw(t, "word"), rapid.IntRange(1, 3000).Draw(t, "times"))
	}),
)

func TestWrapKeepsEveryLetterAndTheWidth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text, width := anyText.Draw(t, "text"), rapid.Float64Range(8, 180).Draw(t, "width")
		face := rapid.SampledFrom([]Face{Title, Head, Sub, Body, Small, cell}).Draw(t, "face")
		lines := face.Wrap(text, width)
		if got, want := letters(strings.Join(lines, "")), letters(text); got != want {
			t.Errorf("wrapped to %q, wants the letters of %q", got, want)
		}
		for _, line := range lines {
			one := draw.Text{Body: line, Height: face.Cap, Bold: face.Bold}
			if w := one.Width(); w > width+0.01 && len([]rune(line)) > 1 {
				t.Errorf("%q is %.2f mm long, wants %.2f at most", line, w, width)
			}
		}
	})
}

// Whatever is put on paper, in whatever order and however long, stays within the
// margins, lies over nothing else, and is there.
func TestNothingIsClippedOrCovered(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := rapid.SampledFrom([]Size{Letter, A4}).Draw(t, "size")
		d := New(size, Running{Head: anyText.Draw(t, "head"), Foot: anyText.Draw(t, "foot")})
		d.Paper("first", "First paper")
		want := ""
		text := func() string { s := anyText.Draw(t, "text"); want += letters(s); return s }
		for range rapid.IntRange(1, 12).Draw(t, "parts") {
			switch rapid.IntRange(0, 10).Draw(t, "part") {
			case 0:
				d.Heading(anyText.Draw(t, "heading"))
			case 10:
				d.Paper("next", anyText.Draw(t, "title"))
			case 1:
				d.Say(text())
			case 2:
				d.Item(text())
			case 3:
				d.Tick(text())
			case 4:
				d.Todo("12", text())
			case 5:
				d.Framed(anyText.Draw(t, "lead"), text())
			case 6:
				d.Blanks(Blank{anyText.Draw(t, "label"), 1}, Blank{anyText.Draw(t, "label"), 2})
			case 7:
				d.Pair(anyText.Draw(t, "label"), text())
			case 8:
				below := anyText.Draw(t, "below lines")
				d.LinesToFoot(func() { d.Blanks(Blank{below, 1}) })
			case 9:
				tab := NewTable("one", "two", "three")
				for range rapid.IntRange(1, 9).Draw(t, "rows") {
					tab.Cells(Cell{Text: text(), Bold: true, Tick: true}, Cell{Text: text()}, Cell{Line: true, Blanks: 3})
				}
				d.Table(tab)
			}
		}
		d.Finish()
		inside(t, d)
		apart(t, d)
		if got := len(written(d)); got < len(want) {
			t.Errorf("%d letters are written, wants %d and more", got, len(want))
		}
	})
}

func TestNoWordIsLost(t *testing.T) {
	d := New(A4, Running{Head: "job", Foot: "opening"})
	long := strings.Repeat("Supercalifragilistic leaf ", 400) // some pages
	d.Paper("a", "A paper")
	tab := NewTable("x", "y")
	tab.Row(long, "short")
	d.Table(tab)
	d.Say(long)
	d.Finish()
	if got := strings.Count(written(d), "Supercalifragilisticleaf"); got < 700 { // page ends cut a few in two lines
		t.Errorf("%d of 800 words are there in one piece", got)
	}
	all := strings.ReplaceAll(strings.ReplaceAll(written(d), "job", ""), "opening", "")
	if got, want := strings.Count(all, "f"), 0; got == want {
		t.Error("nothing is written")
	}
	if got, want := strings.Count(all, "g"), 800; got < want {
		t.Errorf("%d letters g, wants %d", got, want)
	}
}

func TestHeadsStandAgainAndHeadingsAreNeverAlone(t *testing.T) {
	d := New(Letter, Running{Head: "job", Foot: "opening"})
	d.Paper("a", "A paper")
	for range 30 {
		d.Heading("A heading")
		tab := NewTable("column one", "column two")
		for range 7 {
			tab.Row("left", "right")
		}
		d.Table(tab)
	}
	d.Finish()
	for i, p := range d.Pages() {
		lowest, body := math.Inf(1), ""
		first := ""
		rows := 0
		for _, item := range p.Items {
			text, ok := item.(draw.Text)
			if !ok || text.Height == running.Cap {
				continue
			}
			if first == "" && text.Height != Title.Cap {
				first = text.Body
			}
			if text.At.Y < lowest {
				lowest, body = text.At.Y, text.Body
			}
			if text.Body == "left" {
				rows++
			}
		}
		if body == "A heading" || strings.HasPrefix(body, "column") {
			t.Errorf("page %d ends with %q", i+1, body)
		}
		if first == "left" {
			t.Errorf("page %d begins with a row without its head", i+1)
		}
		if rows == 0 {
			t.Errorf("page %d has no rows", i+1)
		}
	}
}

// The sums of widths that columns are cut to fill the page, and no column is wider
// than the level that the widest were cut to (a closed form: the water level).
func TestColumnsAreCutToOneLevel(t *testing.T) {
	w := []float64{10, 80, 120, 30}
	narrow(w, make([]float64, 4), 140)
	for i, want := range []float64{10, 50, 50, 30} {
		if math.Abs(w[i]-want) > 1e-6 {
			t.Errorf("column %d is %v wide, wants %v", i, w[i], want)
		}
	}
}

func TestSameCallsSameBytes(t *testing.T) {
	write := func() []byte {
		d := New(Letter, Running{Head: "job", Foot: "opening"})
		d.Paper("a", "A paper")
		d.Leader("b", "Another paper", "with links to it")
		d.Say("Some words.")
		d.Paper("b", "Another paper")
		d.Say("More words.")
		d.Finish()
		var b bytes.Buffer
		if err := d.WritePDF(&b, File{Title: "Papers", Keywords: "stamp", Attached: []Attached{{"a.txt", "words", []byte("words")}}}); err != nil {
			t.Fatal(err)
		}
		return b.Bytes()
	}
	if a, b := write(), write(); !bytes.Equal(a, b) {
		t.Error("two runs of the same calls differ")
	}
}
