package plan

import (
	"fmt"
	"io/fs"
	"math"
	"os"
	"reflect"
	"strings"
	"testing"

	"swingwright/fact"
	"swingwright/internal/propagate"
	"swingwright/job"
	"swingwright/judge"
	"swingwright/opening"
	"swingwright/quantity"
	"swingwright/rulebook"
	"swingwright/rulebook/author"
	"swingwright/swing"
)

// clinic is the demo job, with the rulebooks it names and its own rules.
func clinic(t testing.TB) (*job.Job, []*rulebook.Book) {
	t.Helper()
	folder := os.DirFS("../demo/harbour-street-clinic")
	j, err := job.Decode(folder, "job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return j, booksOf(t, j, folder)
}

func booksOf(t testing.TB, j *job.Job, folder fs.FS) (books []*rulebook.Book) {
	t.Helper()
	for _, id := range j.Rulebooks {
		b, err := author.BuiltinBook(id)
		if err != nil {
			t.Fatal(err)
		}
		books = append(books, b)
	}
	for _, name := range j.OwnRules {
		b, err := author.Load(folder, name)
		if err != nil {
			t.Fatal(err)
		}
		books = append(books, b)
	}
	return books
}

func demoPlan(t testing.TB, id string) *Plan {
	t.Helper()
	j, books := clinic(t)
	return Make(demoOpening(t, j, id), &j.Sheets, books, Options{})
}

func demoOpening(t testing.TB, j *job.Job, id string) *opening.Opening {
	t.Helper()
	for i := range j.Openings {
		if j.Openings[i].ID == id {
			return &j.Openings[i]
		}
	}
	t.Fatalf("the demo has no opening %s", id)
	return nil
}

func verdicts(p *Plan, v judge.Verdict) map[string]bool {
	found := map[string]bool{}
	for _, f := range p.Findings {
		if f.Verdict == v && !f.Caution {
			found[f.Rule.ID] = true
		}
	}
	return found
}

// The demo's openings are what they are said to be.
func TestDemo(t *testing.T) {
	for _, c := range []struct {
		id    string
		stand Standing
		short []string // rules that must fall short, among others
	}{
		{"101", Good, nil},
		{"102", Bad, []string{"close-90-to-check", "energy-closing"}},
		{"103", Bad, []string{"latches-from-90", "latches-from-5"}},
		{"104", Bad, []string{"open-by-hand"}},
		{"105", Undecided, nil},
		{"106", Good, nil},
		{"107", Bad, []string{"open-by-hand"}},
		{"108", Undecided, nil}, // for want of confirmed limits only; see TestFireDoorOfTheDemo
		{"109A", Undecided, nil},
		{"109B", Bad, []string{"opening-force"}},
		{"110", Good, nil},
		{"111", Bad, []string{"clear-width-by-hand", "label-legible", "close-10-to-closed"}},
		{"112", Bad, []string{"opening-force", "latches-from-90"}},
		{"113", Undecided, nil},
		{"114", Undecided, nil},
		{"115", Bad, []string{"clear-width-powered"}},
	} {
		p := demoPlan(t, c.id)
		if got := Stand(p.Findings); got != c.stand {
			t.Errorf("%s stands %d, want %d", c.id, got, c.stand)
			for _, f := range p.Findings {
				t.Logf("  %s/%s %v caution=%v %s", f.Book.ID, f.Rule.ID, f.Verdict, f.Caution, f.Why)
			}
		}
		short := verdicts(p, judge.FallsShort)
		for _, rule := range c.short {
			if !short[rule] {
				t.Errorf("%s: %s does not fall short; these do: %v", c.id, rule, short)
			}
		}
	}
}

// The fire door of the demo meets whatever stands confirmed; only what nobody has
// compared with its text is left open.
func TestFireDoorOfTheDemo(t *testing.T) {
	met := 0
	for _, f := range demoPlan(t, "108").Findings {
		switch {
		case f.Verdict == judge.Meets && f.Book.ID == "nfpa-80-2016":
			met++
		case f.Rule.Advice || f.Verdict == judge.Meets || f.Verdict == judge.DoesNotApply:
		case !f.Caution:
			t.Errorf("%s/%s %v: %s", f.Book.ID, f.Rule.ID, f.Verdict, f.Why)
		}
	}
	if met < 15 {
		t.Errorf("only %d rules on fire doors are met", met)
	}
}

// What an operator of the demo cannot do is told where its story says so, and
// nowhere else.
func TestOperatorsOfTheDemo(t *testing.T) {
	j, _ := clinic(t)
	ends := map[string]swing.End{"104": swing.Stalled, "107": swing.Opened, "110": swing.Opened, "113": swing.Opened}
	for id, want := range map[string]string{
		"101": "", "106": "", "107": "", "108": "", "110": "", "115": "",
		"104": "limits of use", "113": "backcheck", "114": "limits of use",
	} {
		p := planned(demoOpening(t, j, id), &j.Sheets)
		got := ""
		for _, c := range p.Cautions {
			if got == "" && (c.Matter == "limits of use" || c.Matter == "backcheck") {
				got = c.Matter
			}
		}
		if got != want {
			t.Errorf("%s is cautioned of %q, want %q", id, got, want)
		}
		if want, ok := ends[id]; ok && p.Swing.Power.Usual.End != want {
			t.Errorf("%s: under power it ends %v, want %v", id, p.Swing.Power.Usual.End, want)
		}
		if s := &p.Swing.Power; id == "107" && (s.Worst.End != swing.Stalled || s.Against[0].Against != swing.AirPressure) {
			t.Errorf("107 in the wind ends %v against %v, want stalled against the air", s.Worst.End, s.Against)
		}
	}
}

// Draws and the linear law give the same spread wherever the demo's answers
// are numbers and the laws are near enough to linear.
func TestDrawsAgreeWithTheLinearLaw(t *testing.T) {
	j, _ := clinic(t)
	for _, id := range []string{"101", "102", "104"} {
		o := demoOpening(t, j, id)
		var mk Maker
		p := mk.Make(o, &j.Sheets, nil, Options{Draws: 4096})
		k := mk.readers[0]
		linear, err := propagate.Linear(mk.inputs, fact.Count, mk.draw(&k, nil, p.read))
		if err != nil {
			t.Fatal(err)
		}
		for i := range fact.Count {
			f := fact.ID(i).Fact()
			sum := mk.draws.Summary(i)
			law, drawn := linear.U(i), sum.SD
			if id == "104" && powered(fact.ID(i)) {
				continue // its spring is beyond the operator, which saturates in every draw
			}
			if f.Kind != fact.Number || !(law > 1e-9*math.Abs(linear.Value(i))) {
				continue
			}
			// 4096 draws scatter by 1.1 %; what is left is curvature
			within := 0.06
			if powered(fact.ID(i)) {
				// some draws saturate the drive and creep: a tail that no slope
				// sees, so the middle two thirds of the draws are compared
				drawn, within = (sum.Quantile(0.8413)-sum.Quantile(0.1587))/2, 0.2
			}
			if closing(fact.ID(i)) {
				// likewise a draw that all but comes to rest before it latches
				drawn, within = (sum.Quantile(0.8413)-sum.Quantile(0.1587))/2, 0.08
			}
			switch fact.ID(i) {
			case fact.ClosePeakEnergy, fact.CloseImpactEnergy, fact.CloseImpactRate:
				within = 0.25 // squares and small differences of large spreads
			case fact.CloserMoment0To4, fact.CloserEfficiency:
				within = 0.1
			}
			if math.Abs(drawn/law-1) > within {
				t.Errorf("%s %s: draws give %.4g, the linear law %.4g", id, f.Name, drawn, law)
			}
		}
	}
}

// The same input gives the same bits, however many share the work.
func TestPlansRepeat(t *testing.T) {
	j, books := clinic(t)
	o := demoOpening(t, j, "102")
	var mk Maker
	mk.Make(demoOpening(t, j, "104"), &j.Sheets, books, Options{}) // leaves its memory behind
	one := Make(o, &j.Sheets, books, Options{})
	two := mk.Make(o, &j.Sheets, books, Options{Workers: 3})
	if !sameBits(one.Facts, two.Facts) {
		t.Error("the facts differ")
	}
	for i := range one.Findings {
		a, b := one.Findings[i], two.Findings[i]
		if a.Verdict != b.Verdict || math.Float64bits(a.Margin) != math.Float64bits(b.Margin) || math.Float64bits(a.U) != math.Float64bits(b.U) {
			t.Errorf("%s differs: %+v and %+v", a.Rule.ID, a, b)
		}
	}
	if other := Make(o, &j.Sheets, books, Options{Seed: 2}); sameBits(one.Facts, other.Facts) {
		t.Error("another seed gives the same spreads: the draws are not drawn")
	}
}

func sameBits(a, b [fact.Count]Fact) bool {
	for i := range a {
		if math.Float64bits(a[i].Value) != math.Float64bits(b[i].Value) || math.Float64bits(a[i].U) != math.Float64bits(b[i].U) {
			return false
		}
	}
	return true
}

// The hand of the opening changes nothing that is computed: the mechanics
// never know it.
func TestHandDoesNotMatter(t *testing.T) {
	j, books := clinic(t)
	o := *demoOpening(t, j, "102")
	one := Make(&o, &j.Sheets, books, Options{})
	o.Frame.Hand = "RHR"
	two := Make(&o, &j.Sheets, books, Options{})
	if !sameBits(one.Facts, two.Facts) {
		t.Error("the facts differ between hands")
	}
}

// What is written in other units means the same.
func TestUnitsDoNotMatter(t *testing.T) {
	j, books := clinic(t)
	o := *demoOpening(t, j, "101")
	one := Make(&o, &j.Sheets, books, Options{})
	reread(t, &o.Leaf.Width, "908.05 mm ± 1.5875 mm")
	reread(t, &o.Leaf.Weight, "53.523900 kg ± 1.814369 kg")
	reread(t, &o.Frame.Friction, "2.66893 N ± 0.444822 N")
	two := Make(&o, &j.Sheets, books, Options{})
	for i := range one.Facts {
		a, b := one.Facts[i], two.Facts[i]
		if math.Abs(a.Value-b.Value) > 1e-5*math.Abs(a.Value)+1e-9 {
			t.Errorf("%s: %g and %g", fact.ID(i), a.Value, b.Value)
		}
	}
}

func reread[Q quantity.Quantity](t *testing.T, m *quantity.Measured[Q], text string) {
	t.Helper()
	got, err := quantity.Parse[Q](text)
	if err != nil {
		t.Fatal(err)
	}
	*m = got
}

// A reading outranks what is computed, and brings its own spread.
func TestReadingOutranksComputation(t *testing.T) {
	j, books := clinic(t)
	o := *demoOpening(t, j, "102")
	o.Readings = append([]opening.Reading(nil), opening.Reading{Fact: "closing.time_90_to_check", Value: "4.2 s ± 0.2 s"})
	p := Make(&o, &j.Sheets, books, Options{})
	f := p.Facts[fact.CloseTime90ToCheck]
	if f.Origin != Read || f.Value != 4.2 || math.Abs(f.U-0.1) > 1e-12 {
		t.Errorf("fact is %+v, want the reading, 4.2 s with u 0.1 s", f)
	}
	if !verdicts(p, judge.Meets)["close-90-to-check"] {
		t.Error("close-90-to-check does not meet its limit by the reading")
	}
}

// An opening with nothing but a name gets a plan that says what is missing,
// and passes nothing that was not seen.
func TestEmptyOpening(t *testing.T) {
	_, books := clinic(t)
	p := Make(&opening.Opening{ID: "x"}, &opening.Sheets{}, books, Options{})
	if len(p.Gaps) == 0 {
		t.Error("nothing is missing")
	}
	for _, f := range p.Findings {
		if f.Verdict == judge.Meets || f.Verdict == judge.FallsShort {
			t.Errorf("%s %v on an opening nobody looked at", f.Rule.ID, f.Verdict)
		}
	}
}

// What a hand feels is not known while a closer may be there that nobody
// described; said to be absent, it is.
func TestHandForceNeedsTheCloser(t *testing.T) {
	j, books := clinic(t)
	o := *demoOpening(t, j, "105")
	if f := Make(&o, &j.Sheets, books, Options{}).Facts[fact.HandToOpen]; f.Known {
		t.Errorf("hand.to_open is %+v though the closer's arm and power are unknown", f)
	}
	o.Closer = opening.Closer{None: "yes"}
	if f := Make(&o, &j.Sheets, books, Options{}).Facts[fact.HandToOpen]; !f.Known {
		t.Error("hand.to_open is unknown though there is no closer")
	}
	o.Leaf.Nominal = opening.Nominal{}
	if f := Make(&o, &j.Sheets, books, Options{}).Facts; f[fact.HandToOpen].Known || f[fact.LeafMass].Known {
		t.Error("a leaf without width has a weight or a force")
	}
}

// An operator outside its paper's limits of use is named with what is outside.
func TestLimitsOfUse(t *testing.T) {
	said := func(id string) string {
		for _, c := range demoPlan(t, id).Cautions {
			if c.Matter == "limits of use" {
				return c.Text
			}
		}
		return ""
	}
	if got := said("102"); got != "" {
		t.Errorf("102 lies within every limit of its operator's sheet; said is %q", got)
	}
	got := said("104") // a slide track at power 6; the sheet allows no track, and 5
	for _, want := range []string{"slide-track", "closer's power 6, at most 5"} {
		if !strings.Contains(got, want) {
			t.Errorf("104: %q does not tell of %q", got, want)
		}
	}
}

// Every value of the model has a source, and an assumed one says so.
func TestEveryValueHasASource(t *testing.T) {
	p := demoPlan(t, "102")
	for i, row := range p.Resolved.Rows {
		if !row.Known || row.Source == "" {
			t.Errorf("%s has no source: %+v", swing.Symbols[i].Key, row)
		}
	}
	if reflect.DeepEqual(p.Resolved.Rows, [swing.NumValues]Row{}) {
		t.Error("the model is empty")
	}
}

// One opening checked, 256 draws: 112 without an operator, 102 with one, whose
// opening is then followed in every draw too.
func BenchmarkMake(b *testing.B) {
	j, books := clinic(b)
	for _, id := range []string{"112", "102"} {
		for _, workers := range []int{1, 2} {
			b.Run(fmt.Sprintf("%s/workers=%d", id, workers), func(b *testing.B) {
				o := demoOpening(b, j, id)
				var mk Maker
				b.ReportAllocs()
				for b.Loop() {
					mk.Make(o, &j.Sheets, books, Options{Workers: workers})
				}
			})
		}
	}
}
