package author

import (
	"encoding/json"
	"math/rand/v2"
	"reflect"
	"testing"

	"swingwright/rulebook"
)

// A book that went through JSON is the same book and says the same of every opening.
func TestBooksComeBackFromJSON(t *testing.T) {
	for _, b := range books(t) {
		text, err := json.Marshal(b)
		if err != nil {
			t.Fatal(err)
		}
		var back rulebook.Book
		if err := json.Unmarshal(text, &back); err != nil {
			t.Fatalf("%s: %v", b.ID, err)
		}
		if !reflect.DeepEqual(b, &back) {
			t.Errorf("%s changed on its way through JSON", b.ID)
		}
		special := specials(b)
		r := rand.New(rand.NewPCG(1, 1))
		for range 500 {
			env := draw(r, special)
			for i := range b.Rules {
				x, y := b.Rules[i].Check(env), back.Rules[i].Check(env)
				if !agree(x.Margin, y.Margin) || x.End != y.End || x.Missing != y.Missing || x.Unconfirmed != y.Unconfirmed {
					t.Fatalf("%s %s: %+v, after JSON %+v", b.ID, b.Rules[i].ID, x, y)
				}
			}
		}
	}
}
