// Package phrasebook says in other languages what the engine says in English.
//
// The engine makes its sentences where it knows their reasons, in English, and knows
// no other language. A phrasebook holds, for every form of words that it uses, the
// same form in another language, and says a finished text by finding the forms that it
// was made of, as one reads a sentence: what stands in the holes of a form is said in
// turn. What no form fits, such as the name that somebody gave a hardware sheet, stays
// as it is. Tests hold the phrasebook against the source of the engine, form by form,
// and against everything that a whole job makes it say.
package phrasebook

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// A phrase is a form of words in English and in another language.
//
// The English form is that of package fmt, with a verb for every hole and %% for a per
// cent sign; %d, %g, %f, %.1f take numbers, any other verb takes any text. In the other
// language {1} is what stands in the first hole, said in that language; {!1} is the same
// as it stands, for names, and {#1} as a number; {1?one|many} is the first word where the first hole is the
// number 1, else the second. A phrase that begins with ~ waits for a speaker of the
// trade to confirm its terms.
type phrase [2]string

// A Book says texts in one language. It keeps what it said, and is not safe for use by
// several goroutines at once.
type Book struct {
	comma  bool // decimals are parted by a comma
	exact  map[string]string
	begins map[string][]*form // forms that begin with a word, by that word
	others []*form            // forms that begin with a hole
	said   map[string]saying
}

// saying is how a text is said.
type saying struct {
	text string
	cost int // letters that were not understood
	read int // bytes of forms that were
	form int // bytes of the outermost form
}

// over tells a saying that leaves less than another, or understands more.
func (s saying) over(other saying) bool {
	if s.cost != other.cost {
		return s.cost < other.cost
	}
	return s.read > other.read || s.read == other.read && s.form > other.form
}

// mostSaid is how many sayings are kept before all are let go.
const mostSaid = 1 << 16

// For is the phrasebook of a language by its BCP 47 tag, such as es, es-MX or es-ES;
// nil for English and for every language that there is none of. A nil book says
// everything as it stands.
func For(tag string) *Book {
	language, rest, _ := strings.Cut(strings.ToLower(strings.ReplaceAll(tag, "_", "-")), "-")
	if language != "es" {
		return nil
	}
	region := rest[strings.LastIndexByte(rest, '-')+1:]
	return newBook(spanish, !slices.Contains(spanishPoint, region))
}

// spanishPoint are the regions of Spanish that part decimals by a point; elsewhere it is
// a comma (Unicode CLDR 44, numbers/symbols of es and es-419 and what overrides them).
var spanishPoint = []string{"419", "br", "bz", "cu", "do", "gt", "hn", "mx", "ni", "pa", "pe", "pr", "sv", "us"}

func newBook(lists [][]phrase, comma bool) *Book {
	b := &Book{comma: comma, exact: map[string]string{}, begins: map[string][]*form{}, said: map[string]saying{}}
	for _, list := range lists {
		for _, p := range list {
			b.add(p)
		}
	}
	return b
}

// add takes a phrase into the book, also without the joint that it begins with and the
// full stop that it ends with: what joins texts is found on its own where they are read.
func (b *Book) add(p phrase) {
	if b.comma {
		p[1] = amount.ReplaceAllString(p[1], "$1,$2")
	}
	b.take(p)
	for _, join := range joints {
		if bare, ok := both(strings.CutPrefix, p, join); ok {
			b.take(bare)
			b.take(after(p))
		}
	}
	if bare, ok := both(strings.CutSuffix, p, "."); ok {
		b.take(bare)
		for _, join := range joints {
			if barer, ok := both(strings.CutPrefix, bare, join); ok {
				b.take(barer)
			}
		}
	}
}

// after is a phrase that goes on after another, with a hole for that one.
func after(p phrase) phrase {
	said := holes.ReplaceAllStringFunc(strings.TrimPrefix(p[1], unsure), func(hole string) string {
		m := holes.FindStringSubmatch(hole)
		n, _ := strconv.Atoi(m[2])
		return "{" + m[1] + strconv.Itoa(n+1)
	})
	return phrase{"%s" + p[0], "{1}" + said}
}

// holes are where the holes of a phrase begin.
var holes = regexp.MustCompile(`\{([!#]?)([0-9]+)`)

// both cuts something off either side of a phrase, where both have it.
func both(cut func(string, string) (string, bool), p phrase, what string) (phrase, bool) {
	english, ok := cut(p[0], what)
	said, too := cut(p[1], what)
	return phrase{english, said}, ok && too && strings.Trim(english, "% sv") != ""
}

func (b *Book) take(p phrase) {
	f := read(p)
	switch {
	case len(f.holes) == 0:
		if _, ok := b.exact[f.literals[0]]; !ok {
			b.exact[f.literals[0]] = strings.TrimPrefix(p[1], unsure)
		}
	case firstWord(f.literals[0]) != "":
		word := firstWord(f.literals[0])
		b.begins[word] = append(b.begins[word], f)
	default:
		b.others = append(b.others, f)
	}
}

// joints are how a phrase begins that goes on after another.
var joints = []string{"; ", ", ", ": ", ". ", " "}

// firstWord is the first word of a text where it is followed by something; else empty.
func firstWord(text string) string {
	i := strings.IndexByte(text, ' ')
	if i <= 0 {
		return ""
	}
	return text[:i]
}

// Say says an English text of the engine in the language of the book.
func (b *Book) Say(text string) string {
	if b == nil || text == "" {
		return text
	}
	if plain := strings.ReplaceAll(text, noBreak, " "); plain != text {
		return hold(b.say(plain).text)
	}
	return b.say(text).text
}

// Left counts the letters of a text that no form accounts for: of names that are not the
// engine's, or of words that are missing from the book. It is 0 for a nil book.
func (b *Book) Left(text string) int {
	if b == nil || text == "" {
		return 0
	}
	return b.say(strings.ReplaceAll(text, noBreak, " ")).cost
}

// say finds the saying of a text that leaves the fewest letters, and of these the one that
// understands the most.
func (b *Book) say(text string) saying {
	if s, ok := b.said[text]; ok {
		return s
	}
	best := b.alone(text)
	if best.cost > 0 {
		for _, f := range b.begins[firstWord(text)] {
			best = b.better(text, f, best)
		}
		for _, f := range b.others {
			best = b.better(text, f, best)
		}
	}
	if best.cost > 0 {
		best = b.turned(text, best)
	}
	if len(b.said) >= mostSaid {
		clear(b.said)
	}
	b.said[text] = best
	return best
}

// turned says a text as it is with its first letter small where that is a capital, and the other way
// round: phrases come to stand at the head of sentences and within them.
func (b *Book) turned(text string, best saying) saying {
	first, size := utf8.DecodeRuneInString(text)
	from, to := unicode.ToLower, unicode.ToUpper
	if unicode.IsLower(first) {
		from, to = to, from
	}
	other := string(from(first)) + text[size:]
	said, ok := b.exact[other]
	turned := saying{text: said, read: len(text)}
	if unicode.IsUpper(first) {
		turned, ok = b.say(other), true
	}
	if !ok || turned.cost >= best.cost {
		return best
	}
	head, size := utf8.DecodeRuneInString(turned.text)
	turned.text = string(to(head)) + turned.text[size:]
	return turned
}

// better is how a text is said by a form, where that is better than the best so far.
func (b *Book) better(text string, f *form, best saying) saying {
	f.match(text, func(contents []string) {
		if s := b.put(f, contents); s.over(best) {
			best = s
		}
	})
	return best
}

// put says a form with what stands in its holes.
func (b *Book) put(f *form, contents []string) saying {
	var out strings.Builder
	all := saying{read: f.length, form: f.length}
	for _, p := range f.pieces {
		switch {
		case p.hole < 0:
			out.WriteString(p.text)
		case p.choice:
			i := 1
			if contents[p.hole] == "1" {
				i = 0
			}
			out.WriteString(p.words[i])
		case p.asIs:
			out.WriteString(contents[p.hole])
			all.read += b.alone(contents[p.hole]).read
			if f.words < enough || strings.Contains(contents[p.hole], "; ") { // no name has a semicolon
				all.cost += b.hole(contents[p.hole], f.holes[p.hole]).cost
			}
		case p.number:
			out.WriteString(b.decimal(contents[p.hole]))
		default:
			s := b.hole(contents[p.hole], f.holes[p.hole])
			out.WriteString(s.text)
			all.cost += s.cost
			all.read += s.read
		}
	}
	if all.cost > 0 && slices.Equal(f.literals, semicolon) && b.say(contents[0]).cost > 0 && b.say(contents[1]).cost > 0 {
		all.cost -= unknown
	}
	if all.cost > 0 && slices.Contains(joining, strings.Join(f.literals, "")) {
		all.cost = math.MaxInt32
	}
	all.text = out.String()
	return all
}

// semicolon parts two names beyond doubt, which costs nothing then.
var semicolon = []string{"", "; ", ""}

// enough is how many letters a form needs to be trusted with a name.
const enough = 4

// joining are words that anybody's text can have between others: a form of nothing else is
// taken only where all around it is understood.
var joining = []string{" to ", " and ", " or ", " of ", " in ", " with "}

// hole says what stands in a hole.
func (b *Book) hole(content string, number bool) saying {
	switch {
	case content == "":
		return saying{}
	case number:
		return saying{text: b.decimal(content), read: len(content)}
	}
	return b.say(content)
}

// unknown is what a text costs that nothing is known of, besides its letters, so that
// two unknown texts with a known word between them are not preferred to one.
const unknown = 20

// alone says a text without a form: by heart, as a value, or as it stands.
func (b *Book) alone(text string) saying {
	if s, ok := b.exact[text]; ok {
		return saying{text: s, read: len(text)}
	}
	if s, ok := b.value(text); ok {
		return saying{text: s, read: len(text)}
	}
	letters := 0
	for _, r := range text {
		if unicode.IsLetter(r) {
			letters++
		}
	}
	if letters == 0 || isCode(text) {
		return saying{text: text}
	}
	return saying{text: text, cost: unknown + letters}
}
