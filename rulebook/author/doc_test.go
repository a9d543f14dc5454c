package author

import (
	"fmt"
	"os"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"swingwright/fact"
)

const manual = "../../docs/rulebook.md"

// The manual's lists of units and facts are those that formulas know.
func TestManualListsUnitsAndFacts(t *testing.T) {
	text, err := os.ReadFile(manual)
	if err != nil {
		t.Fatal(err)
	}
	fresh := between(string(text), "units", unitList())
	fresh = between(fresh, "facts", factList())
	if *update {
		if err := os.WriteFile(manual, []byte(fresh), 0o644); err != nil {
			t.Fatal(err)
		}
	} else if fresh != string(text) {
		t.Error("docs/rulebook.md is stale; run go test ./rulebook/author -update")
	}
}

// between puts the list in the place that the mark keeps for it.
func between(text, mark, list string) string {
	kept := regexp.MustCompile(`(?s)(<!-- ` + mark + `:[^>]*-->\n).*?(<!-- end -->)`)
	return kept.ReplaceAllString(text, "${1}"+list+"${2}")
}

func unitList() string {
	var b strings.Builder
	b.WriteString("| dimension | number to quantity | quantity to number |\n| --- | --- | --- |\n")
	for _, u := range unitNames {
		fmt.Fprintf(&b, "| %s | `%s(number)` | `in_%s(%s)` |\n", u.dim, u.name, u.name, u.dim)
	}
	return b.String()
}

func factList() string {
	var b strings.Builder
	b.WriteString("| fact | kind | meaning |\n| --- | --- | --- |\n")
	for i := range fact.Table {
		f := &fact.Table[i]
		kind := f.Dim.String()
		switch f.Kind {
		case fact.YesNo:
			kind = "yes or no"
		case fact.Choice:
			kind = "one of " + strings.Join(f.Choices, ", ")
		}
		fmt.Fprintf(&b, "| `%s` | %s | %s |\n", f.Name, kind, f.Meaning)
	}
	return b.String()
}

// The manual's examples are sound: the small book, its cases and the table.
func TestManualExamples(t *testing.T) {
	text, err := os.ReadFile(manual)
	if err != nil {
		t.Fatal(err)
	}
	var blocks []string
	for _, m := range regexp.MustCompile("(?s)```yaml\n(.*?)```").FindAllStringSubmatch(string(text), -1) {
		blocks = append(blocks, m[1])
	}
	if len(blocks) != 4 {
		t.Fatalf("%d examples, want book, table, cases and collisions", len(blocks))
	}
	files := fstest.MapFS{
		"book.yaml":  {Data: []byte(blocks[0])},
		"table.yaml": {Data: []byte("book: b\nwork: w\nedition: '1'\ntitle: t\nrules: []\n" + blocks[1])},
		"cases.yaml": {Data: []byte(blocks[2])},
		"meet.yaml":  {Data: []byte(blocks[3])},
	}
	if list, err := LoadCollisions(files, "meet.yaml", books(t)); err != nil || len(list) != 1 {
		t.Errorf("%d collisions: %v", len(list), err)
	}
	house, err := Load(files, "book.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if n, err := RunCases(files, "cases.yaml", house); err != nil || n != 3 {
		t.Errorf("%d cases: %v", n, err)
	}
	if r, _ := house.Rule("night-latch"); r.Confirmed || !r.Advice {
		t.Error("common practice is not confirmed, and the rule is advice")
	}
	tables, err := Load(files, "table.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if got, sure, ok := tables.Tables[0].Lookup(30*0.0254, 125*0.45359237); got != 3 || sure || !ok {
		t.Errorf("the unconfirmed cell is %v, %v, %v", got, sure, ok)
	}
}

// A case that is wrong is told with what came out.
func TestFailingCase(t *testing.T) {
	files := fstest.MapFS{"cases.yaml": {Data: []byte(`
book: ada-2010
given: {opening.operation: manual, opening.has_closer: yes}
cases:
  - {name: wrong verdict, rule: closer-sweep, given: {closing.time_90_to_12: 4 s}, expect: meets, from: nowhere}
  - {name: wrong limit, rule: closer-sweep, given: {closing.time_90_to_12: 6 s}, expect: meets, limit: 3 s, from: nowhere}
  - {name: wrong doubt, rule: closer-sweep, given: {closing.time_90_to_12: 6 s}, expect: meets, unconfirmed: yes, from: nowhere}
  - {name: right, rule: closer-sweep, given: {closing.time_90_to_12: 6 s}, expect: meets, from: nowhere}
`)}}
	n, err := RunCases(files, "cases.yaml", book(t, "ada-2010"))
	if n != 4 || err == nil {
		t.Fatalf("%d cases, %v", n, err)
	}
	for _, want := range []string{
		`cases.yaml:5:5: wrong verdict: the rule says "falls short", expected "meets"`,
		`cases.yaml:6:5: wrong limit: the limit is 5 s`,
		`cases.yaml:7:5: wrong doubt:`,
	} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("no %q in\n%v", want, err)
		}
	}
	if strings.Contains(err.Error(), "right") {
		t.Errorf("the sound case failed:\n%v", err)
	}
}

// Cases that cannot be read are told like books.
func TestBrokenCases(t *testing.T) {
	files := fstest.MapFS{"cases.yaml": {Data: []byte(`
book: ada-2011
given: {leaf.width: 36}
cases:
  - {name: a, rule: closer-swep, given: {closing.time_90_to_12: 4 lb, leaf.mas: 3 lb}, expect: passes, from: nowhere}
  - {name: b, rule: opening-force, given: {hand.to_open: 5 lbf, opening.operation: by hand, opening.interior: maybe}, expect: meets}
`)}}
	cases, err := LoadCases(files, "cases.yaml", book(t, "ada-2010"))
	if err == nil || cases != nil {
		t.Fatal("accepted")
	}
	for _, want := range []string{
		`2:7: book: found "ada-2011"`, `3:21: given.leaf.width: found "36"`, `did you mean closer-sweep?`, `4 lb`,
		`did you mean leaf.mass?`, `"passes"`, `given.hand.to_open: found "5 lbf"`, `one of manual, low-energy`, `one of no, yes`, `cases[1].from`,
	} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("no %q in\n%v", want, err)
		}
	}
}
