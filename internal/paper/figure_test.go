package paper

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"swingwright/internal/draw"
)

// scene is a picture with rows of words, shapes, and words that stand upright.
func scene(t *rapid.T) *draw.Scene {
	s := &draw.Scene{Width: rapid.Float64Range(60, 190).Draw(t, "width"), Height: rapid.Float64Range(40, 900).Draw(t, "height")}
	letter := rapid.Float64Range(Smallest, 3.6).Draw(t, "letter")
	step := letter * rapid.Float64Range(1.5, 3).Draw(t, "step")
	n := 0
	for y := s.Height - inner - letter; y > inner+letter; y -= step {
		n++
		s.Add(draw.Text{At: draw.Point{X: inner, Y: y}, Body: fmt.Sprintf("row %d", n), Height: letter})
	}
	for range rapid.IntRange(0, 12).Draw(t, "boxes") {
		y := rapid.Float64Range(inner, s.Height-inner).Draw(t, "y")
		s.Add(draw.Rectangle(draw.Point{X: 30, Y: y}, draw.Point{X: 40, Y: min(s.Height-inner, y+rapid.Float64Range(3, 80).Draw(t, "high"))}, draw.Style{Width: 0.3, Fill: draw.Shade}))
	}
	for i := range rapid.IntRange(0, 6).Draw(t, "upright") {
		y := rapid.Float64Range(inner+40, max(inner+41, s.Height-inner-40)).Draw(t, "y")
		s.Add(draw.Text{At: draw.Point{X: 45 + 3*letter*float64(i), Y: y}, Body: fmt.Sprintf("upright %d of a cable", i), Height: letter, Rotation: math.Pi / 2, Anchor: draw.Middle})
	}
	return s
}

// count is how often each text of some scenes stands there.
func count(all ...*draw.Scene) map[string]int {
	n := map[string]int{}
	for _, s := range all {
		for _, item := range s.Items {
			if t, ok := item.(draw.Text); ok && t.Body != "" {
				n[t.Body]++
			}
		}
	}
	return n
}

// Wherever a high picture is put, every text of it is there whole at least once, no cut
// goes through one, nothing leaves the page, and no letter is too small to read.
func TestNoCutGoesThroughAText(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := rapid.SampledFrom([]Size{Letter, A4}).Draw(t, "size")
		d := New(size, Running{Head: "job", Foot: "opening"})
		d.Paper("a", "A paper")
		for range rapid.IntRange(0, 40).Draw(t, "lines") {
			d.Say("before it")
		}
		s := scene(t)
		if rapid.Bool().Draw(t, "float") {
			d.Float(s)
			d.Say("after it")
		} else {
			d.FigureOver(s)
		}
		d.Finish()
		inside(t, d)
		there := count(d.Pages()...)
		for body := range count(s) {
			if there[body] == 0 {
				t.Errorf("%q is on no page", body)
			}
		}
		smallest(t, d)
	})
}

// The levels that were chosen, held against every text: a text that a part shows in its
// place lies inside it from its descenders to its capitals.
func TestPartsAreCutBetweenTexts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := scene(t)
		room := rapid.Float64Range(120, 250).Draw(t, "room")
		for high := s.Height; ; {
			low, next := parted(s, high, room)
			if high-low > room+inner/2+1e-9 {
				t.Fatalf("a part of %v mm has %v mm of room", high-low, room)
			}
			for _, item := range s.Items {
				text, ok := item.(draw.Text)
				if !ok || text.Rotation != 0 || low == 0 {
					continue // what stands upright may have to be in the next part alone
				}
				if bottom, top := text.At.Y-0.2*text.Height, text.At.Y+text.Height; bottom < low && low < top {
					t.Errorf("a cut at %.2f mm goes through %q, %.2f to %.2f mm", low, text.Body, bottom, top)
				}
			}
			if low == 0 {
				return
			}
			if next <= low || next >= high {
				t.Fatalf("after the part from %v to %v mm comes one from %v mm", high, low, next)
			}
			high = next
		}
	})
}

// smallest reports letters below the least height.
func smallest(t rapid.TB, d *Document) {
	t.Helper()
	for i, p := range d.Pages() {
		for _, item := range p.Items {
			if text, ok := item.(draw.Text); ok && text.Body != "" && text.Height < Smallest-1e-9 {
				t.Errorf("page %d: %q has capitals of %.2f mm, wants %v and more", i+1, text.Body, text.Height, Smallest)
			}
		}
	}
}

// Pictures come out in their order, none too small, on no more pages than they take
// when each is as small as it may be.
func TestPicturesFillPages(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := New(Letter, Running{Head: "job", Foot: "opening"})
		d.Paper("a", "A paper")
		var all []*draw.Scene
		least := 0.
		for i := range rapid.IntRange(1, 6).Draw(t, "pictures") {
			s := &draw.Scene{Width: 190, Height: rapid.Float64Range(40, 230).Draw(t, "height")}
			s.Add(draw.Text{At: draw.Point{X: inner, Y: s.Height - inner}, Body: fmt.Sprintf("picture %d", i), Height: 3, Level: draw.Top})
			all = append(all, s)
			least += tall(s, d.scale(s, 0))
		}
		d.Figures(all...)
		d.Finish()
		smallest(t, d)
		inside(t, d)
		words := ""
		for _, p := range d.Pages() {
			for _, item := range p.Items {
				if text, ok := item.(draw.Text); ok && strings.HasPrefix(text.Body, "picture") {
					words += text.Body[8:]
				}
			}
		}
		if want := "012345"[:len(all)]; words != want {
			t.Errorf("the pictures come in the order %s, wants %s", words, want)
		}
		// First fit leaves less than half of every page empty, on two pages after each other.
		if most := 2*math.Ceil(least/(d.bottom()-d.top)) + 1; float64(len(d.Pages())) > most {
			t.Errorf("%d pages, wants %v at most", len(d.Pages()), most)
		}
	})
}

// A paper that would have a few lines on a page of their own is set closer.
func TestAFewLinesMoreDoNotTakeAPage(t *testing.T) {
	write := func(d *Document, rows int) {
		tab := NewTable("column one", "column two")
		for range rows {
			tab.Row("left", "right")
		}
		d.Table(tab)
		d.Blanks(Blank{"name", 1}, Blank{"signature", 1})
	}
	pages := func(rows int, fitted bool) int {
		d := New(Letter, Running{Head: "job", Foot: "opening"})
		if fitted {
			d.Fitted("a", "A paper", func() { write(d, rows) })
		} else {
			d.Paper("a", "A paper")
			write(d, rows)
		}
		d.Finish()
		inside(t, d)
		apart(t, d)
		return len(d.Pages())
	}
	spilled := 1
	for pages(spilled, false) == 1 {
		spilled++
	}
	if got := pages(spilled+2, true); got != 1 {
		t.Errorf("two rows more than fill a page take %d pages, wants one", got)
	}
	if got := pages(2*spilled, true); got != 2 {
		t.Errorf("twice as many rows as fill a page take %d pages, wants two", got)
	}
}

// What belongs on one page comes out whole, also where an attempt was taken back.
func TestWholeStandsOnOnePage(t *testing.T) {
	for before := range 60 {
		d := New(A4, Running{Head: "job", Foot: "opening"})
		d.Paper("a", "A paper")
		for range before {
			d.Say("before")
		}
		d.Whole(func() {
			d.Heading("Together")
			for range 10 {
				d.Say("whole")
			}
		})
		d.Say("after")
		d.Finish()
		at := map[int]int{}
		for i, p := range d.Pages() {
			at[count(p)["whole"]]++
			if n := count(p)["Together"]; n > 0 && count(p)["whole"] != 10 {
				t.Errorf("after %d lines, page %d has the heading and %d of 10 lines", before, i+1, count(p)["whole"])
			}
		}
		all := count(d.Pages()...)
		if all["before"] != before || all["whole"] != 10 || all["after"] != 1 || at[10] != 1 {
			t.Errorf("after %d lines there are %v, on pages %v", before, all, at)
		}
	}
}

func TestNoRowStandsAlone(t *testing.T) {
	for before := range 50 {
		for _, rows := range []int{4, 7, 41, 90} {
			d := New(Letter, Running{Head: "job", Foot: "opening"})
			d.Paper("a", "A paper")
			for range before {
				d.Say("before")
			}
			tab := NewTable("column one", "column two")
			for range rows {
				tab.Row("left", "right")
			}
			d.Table(tab)
			d.Finish()
			for i, p := range d.Pages() {
				if count(p)["left"] == 1 {
					t.Errorf("%d rows after %d lines: page %d has one of them", rows, before, i+1)
				}
			}
			if got := count(d.Pages()...)["left"]; got != rows {
				t.Errorf("%d of %d rows are there", got, rows)
			}
		}
	}
}
