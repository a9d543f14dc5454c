package draw

import (
	"slices"
	"strings"
	"sync"
	"unicode"

	"golang.org/x/image/font/sfnt"
)

// InPlace stands on paper for a letter that the fonts have no picture of.
const InPlace = "?"

// Lacking are the letters of a text that the fonts of this package have no picture of,
// each once, in the order of their code points; blanks, control and format
// characters are none.
func Lacking(text string) []rune {
	var all []rune
	var buf sfnt.Buffer
	for _, r := range text {
		if lacks(r, &buf) {
			all = append(all, r)
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// Lacking are the letters of the scene's texts that the fonts of this package have no
// picture of, as [Lacking] tells them.
func (s *Scene) Lacking() []rune {
	var all strings.Builder
	for _, item := range s.Items {
		if t, ok := item.(Text); ok {
			all.WriteString(t.Body)
		}
	}
	return Lacking(all.String())
}

// Printable is a text with [InPlace] for each letter that [Lacking] tells of, so that
// no empty box is taken for a letter.
func Printable(text string) string {
	var buf sfnt.Buffer
	if !strings.ContainsFunc(text, func(r rune) bool {
		if t := known(); r >= 0 && int(r) < len(t) {
			return t[r]
		}
		return lacks(r, &buf)
	}) {
		return text
	}
	var b strings.Builder
	for _, r := range text {
		if lacks(r, &buf) {
			b.WriteString(InPlace)
		} else {
			b.WriteRune(r)
		}
	}
	return b.String()
}

// known tells of the letters that are used most which are lacking, so that words are
// looked at quickly.
var known = sync.OnceValue(func() *[0x2680]bool {
	var t [0x2680]bool
	var buf sfnt.Buffer
	for r := range t {
		t[r] = lacks(rune(r), &buf)
	}
	return &t
})

// lacks tells that one of the two fonts has no picture of a letter.
func lacks(r rune, buf *sfnt.Buffer) bool {
	if r >= ' ' && r < 0x7f || unicode.IsControl(r) || unicode.IsSpace(r) || unicode.Is(unicode.Cf, r) {
		return false
	}
	for _, face := range []Text{{}, {Bold: true}} {
		if g, err := face.font().GlyphIndex(buf, r); err != nil || g == 0 {
			return true
		}
	}
	return false
}
