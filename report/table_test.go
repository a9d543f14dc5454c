package report

import (
	"bufio"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"
	_ "swingwright/internal/steady"
)

func lay(t *table, colour bool) string {
	var out strings.Builder
	w := bufio.NewWriter(&out)
	t.write(w, colour)
	w.Flush()
	return out.String()
}

// Laid out by hand.
func TestTable(t *testing.T) {
	tab := &table{indent: 2, width: 30, least: []int{4, 8, 4}}
	tab.add("one", "a long text that wraps", hold("3.5 s"))
	tab.note("below the second column and on to the end")
	tab.add("four", "", "5")
	want := "" +
		"  one   a long text      3.5 s\n" +
		"        that wraps\n" +
		"        below the second\n" +
		"        column and on to the\n" +
		"        end\n" +
		"  four                   5\n"
	if got := lay(tab, false); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestTintPaintsTheFirstCellOnly(t *testing.T) {
	tab := &table{width: 60, least: []int{2, 2}, rows: []row{{cells: []string{"!!", "text"}, tint: red}}}
	if got := lay(tab, true); got != "\x1b[31m!!\x1b[0m  text\n" {
		t.Errorf("got %q", got)
	}
	if got := lay(tab, false); got != "!!  text\n" {
		t.Errorf("without colour: %q", got)
	}
}

// Whatever stands in the cells, lines keep to the page where the least widths
// allow it, no letter is lost or added, and no control character gets through.
func TestTableKeepsToThePage(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		width := rapid.IntRange(30, 120).Draw(t, "width")
		tab := &table{indent: 2, width: width, least: []int{4, 6, 8}}
		letters := 0
		for range rapid.IntRange(0, 6).Draw(t, "rows") {
			cells := rapid.SliceOfN(rapid.String(), 3, 3).Draw(t, "cells")
			tab.add(cells...)
			letters += visible(strings.Join(cells, ""))
		}
		got := lay(tab, false)
		if n := visible(got); n != letters {
			t.Fatalf("%d letters went in and %d came out:\n%q", letters, n, got)
		}
		for line := range strings.Lines(got) {
			line = strings.TrimSuffix(line, "\n")
			if n := utf8.RuneCountInString(line); n > width {
				t.Fatalf("a line is %d wide, the page %d: %q", n, width, line)
			}
			if strings.ContainsFunc(line, func(r rune) bool { return r < ' ' || r == 0x7f || r == 0x202e }) {
				t.Fatalf("a control character in %q", line)
			}
		}
	})
}

// visible counts the letters that are neither space nor control characters.
func visible(text string) (n int) {
	for _, word := range wrap(text, 1) {
		n += utf8.RuneCountInString(strings.TrimSpace(word))
	}
	return n
}

func TestWrap(t *testing.T) {
	for text, want := range map[string][]string{
		"":                            {""},
		"one two three":               {"one two", "three"},
		"abcdefghijk":                 {"abcdefgh", "ijk"},
		"at " + hold("15 lbf"):        {"at", "15 lbf"},
		"\x1b[2Jred\nline":            {"[2Jred", "line"},
		"a\u202eb\u0007":              {"ab"},
		"  many   spaces  in between": {"many", "spaces", "in", "between"},
	} {
		if got := wrap(text, 8); strings.Join(got, "|") != strings.Join(want, "|") {
			t.Errorf("%q wraps into %q, want %q", text, got, want)
		}
	}
}
