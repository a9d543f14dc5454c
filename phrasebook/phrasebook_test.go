package phrasebook

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"golang.org/x/text/language"
	"golang.org/x/text/message"
)

func TestSay(t *testing.T) {
	for _, c := range []struct{ tag, english, said string }{
		{"es-MX", "fit a closer", "montar un cierrapuertas"},
		{"es-MX", "it binds at 70 deg; an operator will stall there", "se traba a 70°; un operador se parará ahí"},
		{"es-MX", "put on parallel arm P in place of the arm, with the spring at power 3.5", "poner parallel arm P en lugar del brazo, con el muelle a la fuerza 3.5"},
		{"es-ES", "put on parallel arm P in place of the arm, with the spring at power 3.5", "poner parallel arm P en lugar del brazo, con el muelle a la fuerza 3,5"},
		{"es-ES", "Width of the leaf", "Ancho de la hoja"}, // a meaning without its full stop
		{"es-ES", "Pull side", "Lado de tirar"},            // a phrase at the head of a sentence
		{"es-ES", "at most 66.72\u00a0N", "como mucho 66,72\u00a0N"},
		{"es-ES", "35-3/4\u00a0±\u00a01/16\u00a0in", "35-3/4\u00a0±\u00a01/16\u00a0in"},                                       // fractions of an inch stay
		{"es-ES", "ADA Standards for Accessible Design, 2010, 404.2.9", "ADA Standards for Accessible Design, 2010, 404.2.9"}, // and so do clauses
		{"es-ES", "3 rules are open: Hinges 4-1/2 in high; Inspected within the year; No parts are missing and 2 more",
			"3 reglas están abiertas: Bisagras de 4-1/2 in de alto; Inspeccionada dentro del año; No faltan piezas y 2 más"},
		{"es-ES", "Corridor to waiting room", "Corridor to waiting room"}, // somebody's name for an opening
		{"es-ES", "2 lbf to spare at the seam", "2 lbf to spare at the seam"},
		{"es-ES", "plate on the corridor wall touches wall beside the hinges", "plate on the corridor wall toca pared junto a las bisagras"},
		{"es-ES", "", ""},
		{"en", "fit a closer", "fit a closer"},
		{"de", "fit a closer", "fit a closer"}, // no phrasebook
	} {
		if got := For(c.tag).Say(c.english); got != c.said {
			t.Errorf("%s: %q is said as %q, want %q", c.tag, c.english, got, c.said)
		}
	}
	if n := For("es").Left("Corridor to waiting room"); n < 10 {
		t.Errorf("of a name %d letters are left", n)
	}
	if n := For("es").Left("the closer is concealed, and an add-on turns the pinion of one on the surface"); n != 0 {
		t.Errorf("of a form %d letters are left", n)
	}
}

// Decimals are parted as Unicode's CLDR parts them, as golang.org/x/text carries it.
func TestDecimalMarks(t *testing.T) {
	for _, region := range strings.Fields("AR BO BR BZ CL CO CR CU DO EC ES GT HN MX NI PA PE PR PY SV US UY VE 419") {
		want := message.NewPrinter(language.MustParse("es-" + region)).Sprint(1.5)
		if got := For("es-" + region).Say("1.5 s"); got != want+" s" {
			t.Errorf("es-%s: %s, want %s", region, got, want)
		}
	}
}

// amounts stand in holes: a number, and what may stand in any other.
var amounts = []string{"7", "2.5", "31", "0.25"}

// What was made by a form is said by that form, with its contents in their places.
func TestEveryPhraseIsSaidAsItself(t *testing.T) {
	b := For("es-MX")
	for english, said := range phrases() {
		f := read(phrase{english, said})
		var text strings.Builder
		contents := make([]string, len(f.holes))
		for i := range f.holes {
			contents[i] = amounts[i%len(amounts)]
			if !f.holes[i] {
				contents[i] += " N"
			}
			text.WriteString(f.literals[i] + contents[i])
		}
		text.WriteString(f.literals[len(f.holes)])
		want := b.put(f, contents).text
		if got := b.Say(text.String()); got != want && english != "%s." {
			t.Errorf("%q, as %q, is said as %q, want %q", english, text.String(), got, want)
		}
	}
}

var hole = regexp.MustCompile(`\{[!#]?([0-9]+)`)

// Every phrase has the same holes in both languages, and is told once.
func TestPhrasesAreWhole(t *testing.T) {
	twice := map[string]string{}
	unsureOnes := 0
	for _, list := range spanish {
		for _, p := range list {
			if said, ok := twice[p[0]]; ok {
				t.Errorf("%q stands twice: %q and %q", p[0], said, p[1])
			}
			twice[p[0]] = p[1]
			if strings.HasPrefix(p[1], unsure) {
				unsureOnes++
			}
			var want, got []string
			for i := range read(p).holes {
				want = append(want, fmt.Sprint(i+1))
			}
			for _, m := range hole.FindAllStringSubmatch(p[1], -1) {
				if !slices.Contains(got, m[1]) {
					got = append(got, m[1])
				}
			}
			slices.Sort(got)
			if !slices.Equal(got, want) {
				t.Errorf("%q has the holes %v, %q has %v", p[0], want, p[1], got)
			}
			if strings.TrimSpace(strings.TrimPrefix(p[1], unsure)) == "" || strings.Contains(strings.ReplaceAll(p[1], "%s", "%"), "%s") {
				t.Errorf("%q is said as %q", p[0], p[1])
			}
		}
	}
	t.Logf("%d phrases, %d wait for a speaker of the trade", len(twice), unsureOnes)
}
