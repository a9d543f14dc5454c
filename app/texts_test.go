package app

import (
	"io/fs"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// catalogue reads the texts of a language.
func catalogue(t *testing.T, name string) map[string]string {
	t.Helper()
	text, err := embedded.ReadFile("client/texts/" + name + ".js")
	if err != nil {
		t.Fatal(err)
	}
	all := map[string]string{}
	for _, m := range regexp.MustCompile(`(?m)^  "([^"]+)": "((?:[^"\\]|\\.)*)",$`).FindAllStringSubmatch(string(text), -1) {
		if _, twice := all[m[1]]; twice {
			t.Errorf("%s has %q twice", name, m[1])
		}
		all[m[1]] = m[2]
	}
	if len(all) < 100 {
		t.Fatalf("%s: %d texts", name, len(all))
	}
	return all
}

var blank = regexp.MustCompile(`\{\w+\}`)

// Every text stands in both languages, with the same blanks to fill in.
func TestCatalogues(t *testing.T) {
	en, es := catalogue(t, "en"), catalogue(t, "es")
	for key, text := range en {
		other, ok := es[key]
		if !ok {
			t.Errorf("%s has no Spanish text", key)
			continue
		}
		a, b := blank.FindAllString(text, -1), blank.FindAllString(other, -1)
		slices.Sort(a)
		slices.Sort(b)
		if !slices.Equal(a, b) {
			t.Errorf("%s: %q in English, %q in Spanish", key, a, b)
		}
	}
	for key := range es {
		if _, ok := en[key]; !ok {
			t.Errorf("%s has no English text", key)
		}
	}
}

// Every text that a page asks for by its name is there, and what pages show stands in
// the catalogue and not in the page.
func TestPagesTakeTheirTexts(t *testing.T) {
	en := catalogue(t, "en")
	named := regexp.MustCompile(`\bt\('([^']+)'[,)]`)
	counted := regexp.MustCompile(`\bn\('([^']+)',`)
	spoken := regexp.MustCompile(`h\('(?:p|h1|h2|li|span|b|button|summary|legend|label|th|td)', \{[^}]*\}, '([A-Za-z]{3,}[^']*)'`)
	files := 0
	err := fs.WalkDir(embedded, "client/js", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := embedded.ReadFile(name)
		if err != nil {
			return err
		}
		files++
		for _, m := range named.FindAllStringSubmatch(string(text), -1) {
			if _, ok := en[m[1]]; !ok && !strings.HasSuffix(m[1], ".") {
				t.Errorf("%s asks for the text %q, which is not there", name, m[1])
			}
		}
		for _, m := range counted.FindAllStringSubmatch(string(text), -1) {
			for _, form := range []string{".one", ".many"} {
				if _, ok := en[m[1]+form]; !ok {
					t.Errorf("%s counts %q, which has no %s", name, m[1], form)
				}
			}
		}
		for _, m := range spoken.FindAllStringSubmatch(string(text), -1) {
			t.Errorf("%s says %q by itself", name, m[1])
		}
		return nil
	})
	if err != nil || files < 15 {
		t.Fatalf("%d files, %v", files, err)
	}
}
