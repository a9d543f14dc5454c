package service

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	_ "swingwright/internal/steady"
)

// The table hangs together: every cause that a test is for exists, every cause can be
// told by some test, and keys are unique.
func TestTable(t *testing.T) {
	seen := map[string]bool{}
	for _, c := range complaints {
		if seen[c.Key] || c.Title == "" || c.Source == "" {
			t.Errorf("complaint %q: twice, or without title or source", c.Key)
		}
		seen[c.Key] = true
		told := map[string]bool{}
		tests := map[string]bool{}
		for _, test := range c.Tests {
			if tests[test.Key] || !(test.Minutes > 0) || test.Do == "" || test.Shows == "" {
				t.Errorf("%s: test %q is twice there or not whole", c.Key, test.Key)
			}
			tests[test.Key] = true
			for cause, p := range test.Shown {
				if !slices.ContainsFunc(c.Causes, func(one Cause) bool { return one.Key == cause }) || !(p > 0 && p < 1) {
					t.Errorf("%s %s: cause %q, %g", c.Key, test.Key, cause, p)
				}
				told[cause] = told[cause] || p >= 0.7
			}
		}
		for _, cause := range c.Causes {
			if !told[cause.Key] || !(cause.Weight > 0) || cause.Fix == "" {
				t.Errorf("%s: no test shows that %q", c.Key, cause.What)
			}
		}
	}
}

// Whatever the cause is, a technician who makes the tests in their order and sees what
// that cause shows comes to it, and seldom needs them all.
func TestFindsEveryCause(t *testing.T) {
	door := &Door{Powered: true, Sealed: true, Electric: true, Latches: math.NaN()}
	made, all := 0, 0
	for _, c := range complaints {
		for _, cause := range c.Causes {
			var seen []Seen
			for {
				e, err := Enquire(c.Key, door, seen)
				if err != nil {
					t.Fatal(err)
				}
				if e.Settled || len(e.Steps) == 0 {
					if got := e.Likely[0].Cause.Key; got != cause.Key {
						t.Errorf("%s by %s: found %s (%.2f) after %v", c.Key, cause.Key, got, e.Likely[0].Odds, seen)
					}
					break
				}
				next := e.Steps[0].Test
				seen = append(seen, Seen{next.Key, next.likelihood(cause.Key, true) >= 0.5})
			}
			made, all = made+len(seen), all+len(c.Tests)
		}
	}
	if made*10 > all*9 {
		t.Errorf("%d of %d tests were needed: the order saves nothing", made, all)
	}
	t.Logf("%d tests made of %d that there are", made, all)
}

// What a record tells brings the test for it forward, and says why.
func TestRecordCounts(t *testing.T) {
	plain, err := Enquire("no-latch", &Door{Sealed: true, Latches: math.NaN()}, nil)
	if err != nil {
		t.Fatal(err)
	}
	windy, err := Enquire("no-latch", &Door{Sealed: true, Latches: 0.6, Pressed: true, Outdoors: true}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if windy.Likely[0].Cause.Key != "pressure" || windy.Steps[0].Test.Key != "fans-off" || len(windy.Reasons) != 2 {
		t.Errorf("a door that the record says air holds open: likeliest %s, first test %s, reasons %v", windy.Likely[0].Cause.Key, windy.Steps[0].Test.Key, windy.Reasons)
	}
	if len(plain.Reasons) != 0 || plain.Steps[0].Test.Key == "fans-off" {
		t.Errorf("a door without a record: first test %s, reasons %v", plain.Steps[0].Test.Key, plain.Reasons)
	}
	byHand, err := Enquire("slower", &Door{Latches: math.NaN()}, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range byHand.Steps {
		if s.Test.Powered {
			t.Errorf("a leaf without an operator is given the test %s", s.Test.Key)
		}
	}
	for _, wrong := range [][2]string{{"nonsense", ""}, {"slams", "nonsense"}} {
		if _, err := Enquire(wrong[0], &Door{}, []Seen{{wrong[1], true}}); err == nil {
			t.Errorf("%v is answered", wrong)
		}
	}
}

// Odds sum to one, and no test is expected to add doubt, whatever was seen.
func TestOdds(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		c := &complaints[rapid.IntRange(0, len(complaints)-1).Draw(r, "complaint")]
		var seen []Seen
		for i := range c.Tests {
			if rapid.Bool().Draw(r, "made") {
				seen = append(seen, Seen{c.Tests[i].Key, rapid.Bool().Draw(r, "shown")})
			}
		}
		e, err := Enquire(c.Key, &Door{Powered: true, Latches: rapid.Float64Range(0, 1).Draw(r, "latches"), Turned: rapid.Bool().Draw(r, "turned")}, seen)
		if err != nil {
			r.Fatal(err)
		}
		sum := 0.0
		for i, l := range e.Likely {
			sum += l.Odds
			if i > 0 && l.Odds > e.Likely[i-1].Odds {
				r.Errorf("causes out of order")
			}
		}
		if math.Abs(sum-1) > 1e-9 {
			r.Errorf("odds sum to %g", sum)
		}
		for _, s := range e.Steps {
			if s.Tells < 0 || s.Tells > 1 {
				r.Errorf("%s tells %g bit", s.Test.Key, s.Tells)
			}
		}
	})
}
