package onsite_test

import (
	"encoding/json"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"swingwright/fact"
	_ "swingwright/internal/steady"
	"swingwright/job"
	"swingwright/onsite"
	found "swingwright/opening"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/record"
	"swingwright/rulebook"
	"swingwright/rulebook/author"
	"swingwright/swing"
	"swingwright/trace"
)

type (
	opening = found.Opening
	book    = rulebook.Book
)

// engine has the rulebooks that come with the program, and the clinic's tree.
func engine(t testing.TB) (*onsite.Engine, job.Tree) {
	t.Helper()
	tree, err := job.ReadTree(os.DirFS("../demo/harbour-street-clinic"), "job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	books, err := author.Builtin()
	if err != nil {
		t.Fatal(err)
	}
	collisions, err := author.Collisions()
	if err != nil {
		t.Fatal(err)
	}
	// as they come to the browser
	text, err := json.Marshal(onsite.Rules{Books: books, Collisions: collisions})
	if err != nil {
		t.Fatal(err)
	}
	var r onsite.Rules
	if err := json.Unmarshal(text, &r); err != nil {
		t.Fatal(err)
	}
	return onsite.New(r), tree
}

// ask asks about an opening of a tree, and reads the answer.
func ask[A any](t testing.TB, e *onsite.Engine, question string, tree job.Tree, opening string, more map[string]any) A {
	t.Helper()
	asked := map[string]any{"job": tree, "opening": opening, "units": "us", "draws": 64}
	for k, v := range more {
		asked[k] = v
	}
	text, err := json.Marshal(asked)
	if err != nil {
		t.Fatal(err)
	}
	answer := e.Answer(question, text)
	var wrong struct{ Problems []string }
	if err := json.Unmarshal(answer, &wrong); err != nil || len(wrong.Problems) > 0 {
		t.Fatalf("%s of %s: %v %v", question, opening, err, wrong.Problems)
	}
	var a A
	if err := json.Unmarshal(answer, &a); err != nil {
		t.Fatal(err)
	}
	return a
}

// The card of an opening says what check says.
func TestSaysWhatCheckSays(t *testing.T) {
	e, tree := engine(t)
	j, err := job.Decode(os.DirFS("../demo/harbour-street-clinic"), "job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for _, id := range []string{"101", "103"} {
		card := ask[onsite.Opened](t, e, "opening", tree, id, nil)
		i := slices.IndexFunc(j.Openings, func(o opening) bool { return o.ID == id })
		var books []*book
		for _, id := range j.Rulebooks {
			b, err := author.BuiltinBook(id)
			if err != nil {
				t.Fatal(err)
			}
			books = append(books, b)
		}
		p := plan.Make(&j.Openings[i], &j.Sheets, books, plan.Options{Draws: 64, Climate: j.Climate})
		if len(card.Findings) != len(p.Findings) {
			t.Fatalf("%s: %d findings, check has %d", id, len(card.Findings), len(p.Findings))
		}
		for k, f := range p.Findings {
			got := card.Findings[k]
			if got.Verdict != f.Verdict.String() || got.Of != f.Rule.Of.String() || f.Margin == f.Margin && got.Margin != nil && *got.Margin != f.Margin {
				t.Errorf("%s: %s is told as %+v", id, f.Rule.ID, got)
			}
		}
		if (len(card.Predicted) > 0) != (len(j.Openings[i].Readings) > 0) {
			t.Errorf("%s: %d facts foretold beside %d readings", id, len(card.Predicted), len(j.Openings[i].Readings))
		}
	}
}

// A bare opening is asked about until it is known; an answer is not asked for again.
func TestSurveyEnds(t *testing.T) {
	e, tree := engine(t)
	o := map[string]any{"id": "new", "name": "Boiler room"}
	tree["openings"] = append(tree["openings"].([]any), o)
	answers := map[string]string{"quantity": "", "nominal": "3070", "number": "16", "text": "x"}
	values := map[string]string{"length": "36 in", "angle": "90 deg", "mass": "110 lb", "time": "3 s", "force": "1 lbf", "pressure": "3 Pa", "turns": "1 turn", "temperature": "70 °F", "ratio": "3", "speed": "5 mph", "angular speed": "20 deg/s"}
	asked := map[string]bool{}
	for range 80 {
		s := ask[onsite.Surveyed](t, e, "survey", tree, "new", nil)
		i := slices.IndexFunc(s.Questions, func(q onsite.Question) bool { return len(q.Parts) > 0 && !asked[q.Gap] })
		if i < 0 {
			if len(asked) < 12 {
				t.Errorf("only %d things were asked: %v", len(asked), asked)
			}
			return
		}
		q := s.Questions[i]
		asked[q.Gap] = true
		if q.Why == "" || q.How == "" {
			t.Errorf("%s is asked without a reason or a way", q.Gap)
		}
		for _, p := range q.Parts {
			if strings.Contains(p.Path, "[") {
				continue
			}
			text := answers[p.Kind]
			switch {
			case strings.HasSuffix(p.Path, ".none"):
				continue
			case len(p.Choices) > 0:
				text = p.Choices[0]
			case p.Kind == "quantity":
				if text = values[p.Dim]; text == "" {
					t.Fatalf("%s: no value of %s", p.Path, p.Dim)
				}
				if p.Unit == "" && p.Dim != "ratio" || p.Step <= 0 {
					t.Errorf("%s has no unit or no step: %+v", p.Path, p)
				}
			}
			put(o, p.Path, text)
		}
	}
	t.Error("the survey does not end")
}

// put puts a text at a path of records.
func put(o map[string]any, path, text string) {
	steps := strings.Split(path, ".")
	for _, s := range steps[:len(steps)-1] {
		next, ok := o[s].(map[string]any)
		if !ok {
			next = map[string]any{}
			o[s] = next
		}
		o = next
	}
	o[steps[len(steps)-1]] = text
}

// Every question of the survey that can come up has its words in the app's catalogue.
func TestQuestionsHaveWords(t *testing.T) {
	words, err := os.ReadFile("../app/client/texts/es.js")
	if err != nil {
		t.Fatal(err)
	}
	sources, err := os.ReadFile("../opening/missing.go")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"closer", "operator", "work", "room", "air"} {
		more, err := os.ReadFile("../opening/missing_" + name + ".go")
		if err != nil {
			t.Fatal(err)
		}
		sources = append(sources, more...)
	}
	seen := 0
	for _, m := range regexp.MustCompile(`"([a-z_]+(?:\.[a-z_]+)+)", `).FindAllStringSubmatch(string(sources), -1) {
		if _, ok := job.EntryOf(m[1]); !ok || strings.HasPrefix(m[1], "climate.") {
			continue
		}
		seen++
		if !strings.Contains(string(words), `"q.`+m[1]+`"`) {
			t.Errorf("the survey may ask for %s, and the catalogue has no words for it", m[1])
		}
	}
	if seen < 40 {
		t.Errorf("only %d fields were found in the sources", seen)
	}
}

// A recording is read as the command reads it, and what it shows can be kept.
func TestRead(t *testing.T) {
	e, tree := engine(t)
	j, err := job.Decode(os.DirFS("../demo/harbour-street-clinic"), "job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	m, err := plan.Make(&j.Openings[0], &j.Sheets, nil, plan.Options{Draws: 64}).Model()
	if err != nil {
		t.Fatal(err)
	}
	var c record.Course
	var mover swing.Mover
	c.Rest(3*quantity.Second).Turn(trace.Opening, 92*quantity.Degree, 3*quantity.Second).Rest(3 * quantity.Second)
	c.Close(&mover, &m)
	c.Rest(3 * quantity.Second)
	data := string(record.Simulate(&c, record.Options{Seed: 1, Rate: 60}))
	got := ask[onsite.Recorded](t, e, "read", tree, "101", map[string]any{"file": "phone.csv", "data": data, "open": "92 deg ± 0.5 deg", "by": "hand"})
	if len(got.Swings) != 1 || len(got.Measured) < 5 || !strings.HasPrefix(got.Picture.SVG, "<svg") {
		t.Fatalf("%d swings, %d readings", len(got.Swings), len(got.Measured))
	}
	for _, r := range got.Measured {
		id, ok := fact.Lookup(r.Fact)
		if !ok {
			t.Errorf("%s is no fact", r.Fact)
			continue
		}
		if v, u, _, err := quantity.ParseAs(id.Fact().Dim, r.Keep); err != nil || v-r.SI > r.U || r.SI-v > r.U || !(u > 0) {
			t.Errorf("%s is kept as %q, which reads as %g ± %g and not %g ± %g: %v", r.Fact, r.Keep, v, u, r.SI, r.U, err)
		}
	}
	text, _ := json.Marshal(map[string]any{"job": tree, "opening": "101", "file": "x", "data": "nonsense"})
	if answer := string(e.Answer("read", text)); !strings.Contains(answer, `"problems"`) {
		t.Errorf("nonsense is read as %s", answer)
	}
}

// How the leaf stood when a recording began is for whoever made it to tell: the same
// move is an opening of a leaf that was shut, and a closing of one that was open.
func TestReadBegins(t *testing.T) {
	e, tree := engine(t)
	var c record.Course
	c.Rest(3*quantity.Second).Turn(trace.Opening, 92*quantity.Degree, 3*quantity.Second).Rest(3 * quantity.Second)
	data := string(record.Simulate(&c, record.Options{Seed: 1, Rate: 60}))
	for begins, kind := range map[string]string{"closed": "swing that stays open", "open": "interrupted swing"} {
		got := ask[onsite.Recorded](t, e, "read", tree, "101", map[string]any{"file": "phone.csv", "data": data, "begins": begins})
		if len(got.Swings) != 1 || got.Swings[0].Kind != kind {
			t.Errorf("begun %s: %+v", begins, got.Swings)
		}
	}
}

// Whatever is asked, the answer is JSON, and a question that makes no sense is told.
func TestAnswersEverything(t *testing.T) {
	e, _ := engine(t)
	rapid.Check(t, func(r *rapid.T) {
		question := rapid.SampledFrom(append(onsite.Questions(), "nonsense")).Draw(r, "question")
		asked := rapid.OneOf(rapid.Just(`{"job": {"job": "x", "openings": [{"id": "a"}]}, "opening": "a", "draws": 64}`), rapid.String(), rapid.Just(`{"job": 5}`), rapid.Just(`{}`)).Draw(r, "asked")
		answer := e.Answer(question, []byte(asked))
		if !json.Valid(answer) {
			r.Errorf("%s: %s", question, answer)
		}
	})
	for _, wrong := range []string{"", "{", `{"job": {"job": "x", "openings": [{"id": "a"}]}, "opening": "b"}`, `{"job": {"job": "x", "rulebooks": ["none"], "openings": [{"id": "a"}]}, "opening": "a"}`} {
		if answer := string(e.Answer("opening", []byte(wrong))); !strings.Contains(answer, `"problems"`) {
			t.Errorf("%q is answered with %s", wrong, answer)
		}
	}
}

// Values come in the units that are asked for.
func TestUnits(t *testing.T) {
	e, tree := engine(t)
	for units, word := range map[string]string{"us": " in", "si": " mm"} {
		s := ask[onsite.Surveyed](t, e, "survey", bare(tree), "new", map[string]any{"units": units})
		i := slices.IndexFunc(s.Questions, func(q onsite.Question) bool { return q.Gap == "leaf.height" })
		if i < 0 || " "+s.Questions[i].Parts[0].Unit != word {
			t.Errorf("in %s the height is asked for as %+v", units, s.Questions[i].Parts)
		}
		v := ask[onsite.Valued](t, e, "value", tree, "101", map[string]any{"units": units, "field": "leaf.width", "text": "914 mm"})
		if !v.OK || !strings.HasSuffix(v.Shown, word) {
			t.Errorf("in %s a width is shown as %+v", units, v)
		}
	}
}

// bare is a tree with one opening more, of which nothing is known.
func bare(tree job.Tree) job.Tree {
	more := job.Tree{}
	for k, v := range tree {
		more[k] = v
	}
	more["openings"] = append(slices.Clone(tree["openings"].([]any)), map[string]any{"id": "new"})
	return more
}
