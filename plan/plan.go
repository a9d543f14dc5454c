// Package plan makes of one opening, as found, one plan: what the leaf is
// really like, how the closer holds it, how it will move and how sure we are, and
// whether it may move so. It calls, chooses and composes; formulas belong to the
// packages below it.
package plan

import (
	"swingwright/fact"
	"swingwright/judge"
	"swingwright/opening"
	"swingwright/quantity"
	"swingwright/rulebook"
)

// Plan is what is known, computed and judged of one opening.
type Plan struct {
	Opening  *opening.Opening
	Resolved *Resolved
	Facts    [fact.Count]Fact
	Swing    Swing
	Room     *Room // what surrounds the swing
	Findings []Finding
	Cautions []Caution
	// Meetings are the places where the job's rulebooks differ on this opening.
	Meetings []rulebook.Meeting
	Gaps     []opening.Gap   // what is missing for this opening
	Doubts   []opening.Doubt // what was entered and is hard to believe
	// Passing is whether people get through while the opening is held open under
	// power; nil where no switch starts it.
	Passing *Passing
	// Feeding is how its devices are fed, by its own wiring or by that of the group that
	// shares one; nil where nothing is written down.
	Feeding *Feeding
	// Wired is what the opening's own wiring does; nil where it has none, or nobody asked.
	Wired   *Wired
	Problem error // why the model could not be reckoned, nil when it could
	Draws   int   // how many draws its spreads were reckoned from; zero where none could be made
	read    readings
	pull    pull
}

// Fact is one fact of an opening. A yes or no is 1 or 0, a choice its place in
// the list.
type Fact struct {
	Known  bool
	Value  float64 // best estimate, in SI
	U      float64 // standard uncertainty
	Share  float64 // of a yes or no: the share of draws that say yes
	Origin Origin
}

// Origin is how a fact of this opening came to be known.
type Origin uint8

// The origins.
const (
	Nowhere  Origin = iota
	Surveyed        // written down at the opening
	Computed        // computed from the model
	Read            // measured
)

var originNames = [...]string{"", "surveyed", "computed", "measured"}

// String is the origin in words.
func (o Origin) String() string { return originNames[o] }

// MarshalText writes the origin in words.
func (o Origin) MarshalText() ([]byte, error) { return []byte(o.String()), nil }

// Finding is a rule applied to an opening.
type Finding struct {
	Book    *rulebook.Book
	Rule    *rulebook.Rule
	Verdict judge.Verdict
	// Caution tells that the limit is not confirmed, or a recommendation: the
	// finding warns and neither passes nor fails the opening.
	Caution bool
	Value   float64 // in SI of Rule.Dim; NaN where not known
	Limit   float64
	At      quantity.Length // radius at which the rule takes a moment as a force; NaN where it takes none, or it is not known
	Margin  float64         // on the good side above zero
	U       float64         // standard uncertainty of the margin
	Origin  Origin          // of the value judged
	Missing []fact.ID
	Why     string // what stands behind the verdict, where it is not plain
	Drivers []Driver
}

// Cited is where a finding's limit stands, and that it is not confirmed.
func (f *Finding) Cited() string { return cited(f) }

// Driver is an input that moves a finding's margin.
type Driver struct {
	Input   string  // what it is
	Share   float64 // share of the margin's variance, 0 to 1
	Assumed bool    // whether nobody measured it
}

// Standing is what a set of findings comes to.
type Standing uint8

// The standings, best first.
const (
	Good      Standing = iota // every finding meets its limit or does not apply
	Undecided                 // nothing falls short; something is open
	Bad                       // something falls short of a confirmed limit
)

// Stand sums up findings. Recommendations do not count.
func Stand(findings []Finding) Standing {
	s := Good
	for i := range findings {
		f := &findings[i]
		switch {
		case f.Rule.Advice || f.Verdict == judge.Meets || f.Verdict == judge.DoesNotApply:
		case f.Verdict == judge.FallsShort && !f.Caution:
			return Bad
		default:
			s = Undecided
		}
	}
	return s
}
