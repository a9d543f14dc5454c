package rulebook

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"swingwright/fact"
)

// sample is a book with a two-key table and a blank cell.
func sample() *Book {
	r := tableRule()
	table := r.Limit.Table
	table.Cells[5] = math.NaN()
	table.Unconfirmed = []bool{false, true, false, false, false, false}
	r.When = call(Same, read(fact.Operation), Expr{Op: Word, Kind: fact.Choice, Fact: fact.Operation, Value: 1})
	r.When.Kind = fact.YesNo
	return &Book{ID: "made-up", Work: "A made-up work", Edition: "1", Title: "For tests", Tables: []*Table{table}, Rules: []Rule{*r}}
}

func TestBlankCellsComeBack(t *testing.T) {
	text, err := json.Marshal(sample())
	if err != nil {
		t.Fatal(err)
	}
	var back Book
	if err := json.Unmarshal(text, &back); err != nil {
		t.Fatal(err)
	}
	if cells := back.Tables[0].Cells; !math.IsNaN(cells[5]) || cells[4] != 5 {
		t.Errorf("cells came back as %v", cells)
	}
	if got := back.Rules[0].Limit.Table; got != back.Tables[0] {
		t.Error("the formula does not point to the book's own table")
	}
	again, err := json.Marshal(&back)
	if err != nil || string(again) != string(text) {
		t.Errorf("written again it differs: %v\n%s\n%s", err, text, again)
	}
}

// Each damage is told, with the table or rule that it is in.
func TestDamagedBooks(t *testing.T) {
	sound, err := json.Marshal(sample())
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ from, to, tells string }{
		{`"op":"cell"`, `"op":"shell"`, `rule "made-up": found the operation "shell"`},
		{`"fact":"leaf.width"`, `"fact":"leaf.girth"`, `found the fact "leaf.girth"`},
		{`"of":"closing.time_90_to_10"`, `"of":"closing.time"`, `found the fact "closing.time"`},
		{`"table":"made_up"`, `"table":"other"`, `found the table "other"`},
		{`"value":1,"fact":"opening.operation"`, `"value":9,"fact":"opening.operation"`, `found choice 9 of opening.operation`},
		{`"cells":[3,`, `"cells":[`, `table "made_up": found 5 cells`},
		{`"dim":"mass"`, `"dim":"weight"`, `found the dimension "weight"`},
		{`"pick":"next higher"`, `"pick":"nearest"`, `found "nearest", needed one of next higher, next lower, exact`},
		{`"side":"at least"`, `"side":"about"`, `found "about"`},
		{`"kind":"yes or no"`, `"kind":"maybe"`, `found the kind "maybe"`},
		{`{"op":"word",`, `{"op":"not",`, `found not with 0 arguments, needed 1 to 1`},
		{`"limit":{`, `"limit2":{`, `rule "made-up": found no limit`},
	} {
		text := strings.Replace(string(sound), c.from, c.to, 1)
		if text == string(sound) {
			t.Fatalf("%s is not in %s", c.from, sound)
		}
		book := Book{ID: "untouched"}
		err := json.Unmarshal([]byte(text), &book)
		if err == nil || !strings.Contains(err.Error(), c.tells) {
			t.Errorf("%s: got %v, want %s", c.to, err, c.tells)
		}
		if book.ID != "untouched" {
			t.Errorf("%s: the book was changed", c.to)
		}
	}
}

func FuzzBookJSON(f *testing.F) {
	text, err := json.Marshal(sample())
	if err != nil {
		f.Fatal(err)
	}
	f.Add(text)
	f.Fuzz(func(t *testing.T, text []byte) {
		var b Book
		if json.Unmarshal(text, &b) != nil {
			return
		}
		for i := range b.Rules {
			for _, env := range []Env{nil, NewEnv(), make(Env, fact.Count)} {
				b.Rules[i].Check(env)
				_ = Explain(b.Rules[i].Limit, env)
			}
		}
		if _, err := json.Marshal(&b); err != nil {
			t.Fatal(err)
		}
	})
}
