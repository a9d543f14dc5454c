// Package service finds out why a door that was in order is not any more: from what
// is complained of and from what is known of this very door it puts the tests in
// order that tell most about the cause for the least work, and after every test
// it says what is likely now.
//
// Causes have weights, and a test has, for each cause, how often it shows something
// where that is the cause. Both are from memory, as the trade finds them; they order
// the work and prove nothing.
package service

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// A Complaint is what people say of a door, with all that may be behind it.
type Complaint struct {
	Key    string
	Title  string
	Causes []Cause
	Tests  []Test
	Source string
}

// A Cause is one thing that may be behind a complaint.
type Cause struct {
	Key    string
	What   string
	Fix    string
	Weight float64 // how often it is the cause, beside the others, where nothing is known of the door
}

// A Test is something to look at or to try, which shows something or does not.
type Test struct {
	Key     string
	Do      string
	Shows   string  // what is seen where the test shows something
	Minutes float64 // of work
	// Shown is how likely the test shows something where a cause is the one; 0.05 where
	// it is not listed, since every test errs.
	Shown map[string]float64
	// Powered tells a test that only a leaf with an operator needs.
	Powered bool
}

// errs is how often a test shows something that is not there, or misses what is (from memory).
const errs = 0.05

// A Door is what is known of the door, from its record.
type Door struct {
	Powered  bool
	Outdoors bool
	Sealed   bool // it has seals
	Electric bool // its lock is freed by current
	// Latches is the share of draws in which the plan says that it latches; NaN where it is not known.
	Latches float64
	// Pressed tells that the largest pressure on it is known and pushes it open.
	Pressed bool
	// Slower and Faster tell that a closing time measured last is longer, or shorter, by
	// more than its spread than the one before it.
	Slower, Faster bool
	// Turned tells that a valve or the spring was turned since the door was in order.
	Turned bool
	// Leaks and Binds are what the survey says.
	Leaks, Binds bool
	// HeavyUse tells of more than 300 openings a day (trade practice for quarterly visits).
	HeavyUse bool
}

// A Reason is why this door's record makes a cause likelier.
type Reason struct {
	Cause string
	Why   string
}

// Seen is a test that was made, and whether it showed something.
type Seen struct {
	Test  string
	Shown bool
}

// A Step is a test to make, with how much it tells.
type Step struct {
	Test    Test
	Tells   float64 // expected information, bit
	Worth   float64 // of that, bit per minute
	Against string  // the cause that it tells from the others best
}

// A Likely cause, with how likely it is by now.
type Likely struct {
	Cause Cause
	Odds  float64 // 0 to 1
}

// Enquiry is where the search stands.
type Enquiry struct {
	Complaint *Complaint
	Likely    []Likely // the likeliest first
	Steps     []Step   // tests that are left, in the order of work
	Reasons   []Reason // from this door's record
	// Settled tells that one cause is likelier than all others together by nine to one.
	Settled bool
}

// settled is how likely a cause has to be until no other is looked for: the cure is tried
// then, and shows whether it was right.
const settled = 0.9

// Enquire puts the tests for a complaint in order, after those already made. It fails
// for a complaint or a test that nobody knows.
func Enquire(complaint string, d *Door, made []Seen) (*Enquiry, error) {
	c := find(complaint)
	if c == nil {
		return nil, fmt.Errorf("nobody knows the complaint %q", complaint)
	}
	e := &Enquiry{Complaint: c, Reasons: []Reason{}}
	odds := make([]float64, len(c.Causes))
	for i := range c.Causes {
		odds[i] = c.Causes[i].Weight
	}
	e.weigh(odds, d)
	normalise(odds)
	for _, s := range made {
		i := slices.IndexFunc(c.Tests, func(t Test) bool { return t.Key == s.Test })
		if i < 0 {
			return nil, fmt.Errorf("for %q there is no test %q", complaint, s.Test)
		}
		for k := range odds {
			odds[k] *= c.Tests[i].likelihood(c.Causes[k].Key, s.Shown)
		}
		normalise(odds)
	}
	for i := range c.Causes {
		e.Likely = append(e.Likely, Likely{c.Causes[i], odds[i]})
	}
	slices.SortStableFunc(e.Likely, func(a, b Likely) int { return cmp.Compare(b.Odds, a.Odds) })
	e.Settled = e.Likely[0].Odds >= settled
	for i := range c.Tests {
		t := &c.Tests[i]
		if t.Powered && !d.Powered || slices.ContainsFunc(made, func(s Seen) bool { return s.Test == t.Key }) {
			continue
		}
		tells := t.tells(c, odds)
		e.Steps = append(e.Steps, Step{Test: *t, Tells: tells, Worth: tells / t.Minutes, Against: t.best(c)})
	}
	slices.SortStableFunc(e.Steps, func(a, b Step) int { return cmp.Compare(b.Worth, a.Worth) })
	return e, nil
}

// Complaints lists what can be enquired into.
func Complaints() []Complaint { return slices.Clone(complaints) }

func find(key string) *Complaint {
	for i := range complaints {
		if complaints[i].Key == key {
			return &complaints[i]
		}
	}
	return nil
}

// likelihood is how likely the test comes out so where the cause is the one.
func (t *Test) likelihood(cause string, shown bool) float64 {
	p, ok := t.Shown[cause]
	if !ok {
		p = errs
	}
	p = min(max(p, errs), 1-errs)
	if shown {
		return p
	}
	return 1 - p
}

// tells is the mutual information between cause and outcome, bit: by how much the test
// is expected to lessen the entropy of the causes (Shannon, Bell System Technical
// Journal 27, 1948, 379).
func (t *Test) tells(c *Complaint, odds []float64) float64 {
	shown := 0.0
	for i, p := range odds {
		shown += p * t.likelihood(c.Causes[i].Key, true)
	}
	rest := 0.0
	for i, p := range odds {
		rest += p * entropy(t.likelihood(c.Causes[i].Key, true))
	}
	return max(entropy(shown)-rest, 0)
}

// entropy is that of a yes or no, bit.
func entropy(p float64) float64 {
	if p <= 0 || p >= 1 {
		return 0
	}
	return -p*math.Log2(p) - (1-p)*math.Log2(1-p)
}

// best is the cause that the test shows most surely.
func (t *Test) best(c *Complaint) (what string) {
	most := 0.0
	for i := range c.Causes {
		if p := t.Shown[c.Causes[i].Key]; p > most {
			most, what = p, c.Causes[i].What
		}
	}
	return what
}

func normalise(odds []float64) {
	sum := 0.0
	for _, p := range odds {
		sum += p
	}
	for i := range odds {
		odds[i] /= sum
	}
}
