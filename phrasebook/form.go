package phrasebook

import (
	"regexp"
	"strconv"
	"strings"
	"unicode"
)

// unsure marks a phrase that waits for a speaker of the trade.
const unsure = "~"

// form is a phrase that was taken apart.
type form struct {
	literals []string // one more than there are holes
	holes    []bool   // whether a number stands there
	length   int      // of all literals
	words    int      // letters of all literals
	pieces   []piece
}

// piece is a part of the form in the other language: words, or a hole.
type piece struct {
	text   string
	hole   int // below 0 for words
	asIs   bool
	number bool
	choice bool
	words  [2]string
}

var (
	verb   = regexp.MustCompile(`%%|%[-+#0]*[0-9]*(?:\.[0-9]*)?[a-zA-Z]`)
	marked = regexp.MustCompile(`\{([!#]?)([0-9]+)(?:\?([^|{}]*)\|([^|{}]*))?\}`)
	number = regexp.MustCompile(`^[-+−]?(?:[0-9]+(?:\.[0-9]+)?(?:e[-+][0-9]+)?|NaN|[-+]?Inf)$`)
)

// read takes a phrase apart.
func read(p phrase) *form {
	f := &form{}
	var literal strings.Builder
	at := 0
	for _, m := range verb.FindAllStringIndex(p[0], -1) {
		literal.WriteString(p[0][at:m[0]])
		at = m[1]
		if p[0][m[0]:m[1]] == "%%" {
			literal.WriteByte('%')
			continue
		}
		f.literals = append(f.literals, literal.String())
		f.holes = append(f.holes, strings.ContainsRune("dgfe", rune(p[0][m[1]-1])))
		literal.Reset()
	}
	literal.WriteString(p[0][at:])
	f.literals = append(f.literals, literal.String())
	for _, l := range f.literals {
		f.length += len(l)
		for _, r := range l {
			if unicode.IsLetter(r) {
				f.words++
			}
		}
	}
	said := strings.TrimPrefix(p[1], unsure)
	at = 0
	for _, m := range marked.FindAllStringSubmatchIndex(said, -1) {
		if m[0] > at {
			f.pieces = append(f.pieces, piece{text: said[at:m[0]], hole: -1})
		}
		n, _ := strconv.Atoi(said[m[4]:m[5]])
		one := piece{hole: n - 1, asIs: said[m[2]:m[3]] == "!", number: said[m[2]:m[3]] == "#"}
		if m[6] >= 0 {
			one.choice, one.words = true, [2]string{said[m[6]:m[7]], said[m[8]:m[9]]}
		}
		f.pieces = append(f.pieces, one)
		at = m[1]
	}
	if at < len(said) {
		f.pieces = append(f.pieces, piece{text: said[at:], hole: -1})
	}
	return f
}

// match calls found with what stands in the holes, for every way in which a text can be
// one of the form. The contents are good until found returns.
func (f *form) match(text string, found func(contents []string)) {
	last := f.literals[len(f.literals)-1]
	if !strings.HasPrefix(text, f.literals[0]) || !strings.HasSuffix(text, last) || len(text) < f.length {
		return
	}
	contents := make([]string, 0, len(f.holes))
	f.fill(text[len(f.literals[0]):len(text)-len(last)], contents, found)
}

// fill puts the rest of a text, without the last literal, into the holes that are left.
func (f *form) fill(rest string, contents []string, found func(contents []string)) {
	k := len(contents)
	if k == len(f.holes)-1 {
		if f.fits(k, rest) {
			found(append(contents, rest))
		}
		return
	}
	next := f.literals[k+1]
	for at := 0; at <= len(rest)-len(next); at++ {
		i := strings.Index(rest[at:], next)
		if i < 0 {
			return
		}
		at += i
		if f.fits(k, rest[:at]) {
			f.fill(rest[at+len(next):], append(contents, rest[:at]), found)
		}
	}
}

// fits tells whether a text can stand in a hole.
func (f *form) fits(k int, content string) bool {
	return !f.holes[k] || number.MatchString(content)
}
