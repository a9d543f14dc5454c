package phrasebook_test

import (
	"encoding/json"
	"fmt"
	"html"
	"math/rand/v2"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"swingwright/decision"
	"swingwright/job"
	"swingwright/onsite"
	"swingwright/phrasebook"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/record"
	"swingwright/report"
	"swingwright/rulebook"
	"swingwright/rulebook/author"
	"swingwright/service"
	"swingwright/swing"
	"swingwright/trace"
)

// The words of the check below are English ones: it would find a sentence that was left.
func TestEnglishIsFound(t *testing.T) {
	for _, text := range []string{"fit a closer", "the leaf comes to rest at 12 degrees", "Width of the leaf", "Spring settings that keep what is asked"} {
		if len(phrasebook.English(text)) == 0 {
			t.Errorf("%q passes for Spanish", text)
		}
	}
	if found := phrasebook.English("no se puede calcular el cierre"); len(found) > 0 {
		t.Errorf("%v pass for English", found)
	}
}

// Whatever is asked about the openings of the clinic, the answer has no English in it but
// names, titles of works and what signs say.
func TestTheClinicIsToldInSpanish(t *testing.T) {
	a := newAsker(t, "job.yaml")
	for i, o := range a.tree["openings"].([]any) {
		a.everything(t, o.(map[string]any)["id"].(string), i)
	}
	t.Logf("%d texts in %d answers", a.texts, a.answers)
	if a.texts < 15000 {
		t.Error("too little was said")
	}
}

// Nor where much is unknown, or otherwise than at the clinic.
func TestAnyOpeningIsToldInSpanish(t *testing.T) {
	a := newAsker(t, "job.yaml")
	all := a.tree["openings"].([]any)
	for n := range uint64(12) {
		chance := rand.New(rand.NewPCG(7, n))
		o := changed(chance, all[chance.IntN(len(all))].(map[string]any), "")
		o["id"] = fmt.Sprintf("X-%d", n)
		delete(o, "like")
		delete(o, "in_place_of")
		a.tree["openings"] = append(slices.Clone(all), o)
		a.everything(t, o["id"].(string), int(n))
	}
	t.Logf("%d texts in %d answers", a.texts, a.answers)
}

// changed is a record with fields left out, and choices chosen anew.
func changed(chance *rand.Rand, record map[string]any, path string) map[string]any {
	out := map[string]any{}
	keys := make([]string, 0, len(record))
	for k := range record {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	for _, k := range keys {
		if path != "" && chance.IntN(6) == 0 {
			continue
		}
		at := strings.TrimPrefix(path+"."+k, ".")
		e, ok := job.EntryOf(at)
		switch v := record[k].(type) {
		case map[string]any:
			out[k] = changed(chance, v, at)
		default:
			out[k] = v
			if ok && e.Kind == "choice" && len(e.Choices) > 0 && chance.IntN(3) == 0 {
				out[k] = e.Choices[chance.IntN(len(e.Choices))]
			}
		}
	}
	return out
}

// asker asks in Spanish, and looks for English.
type asker struct {
	engine         *onsite.Engine
	tree           job.Tree
	names          *regexp.Regexp // what people and publishers named
	seen           map[string]bool
	texts, answers int
}

func newAsker(t *testing.T, file string) *asker {
	t.Helper()
	tree, err := job.ReadTree(os.DirFS("../demo/harbour-street-clinic"), file)
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
	a := &asker{engine: onsite.New(onsite.Rules{Books: books, Collisions: collisions}), tree: tree, seen: map[string]bool{}}
	names := []string{"AUTOMATIC CAUTION DOOR", "ACTIVATE SWITCH TO OPERATE", "PUSH TO OPERATE", "PULL TO OPERATE", "none: yes", "not-needed",
		"reading_files", "side: push", "Device Orientation and Motion", "ADAAG Manual", "job:", "ms, us o ns"}
	for _, b := range books {
		names = append(names, b.Work)
	}
	names = append(names, written(map[string]any(tree))...)
	slices.SortFunc(names, func(a, b string) int { return len(b) - len(a) })
	var quoted []string
	for _, n := range names {
		if len(n) > 2 {
			quoted = append(quoted, regexp.QuoteMeta(n))
		}
	}
	a.names = regexp.MustCompile(`(^|[^\p{L}])(?:` + strings.Join(quoted, "|") + `)([^\p{L}]|$)`)
	return a
}

// written are the texts of a tree of two words and more, and names that words of ours are not.
func written(v any) (all []string) {
	switch x := v.(type) {
	case map[string]any:
		for k, one := range x {
			if text, ok := one.(string); ok && (k == "what" || k == "name") {
				all = append(all, text)
			}
			all = append(all, written(one)...)
		}
	case []any:
		for _, one := range x {
			all = append(all, written(one)...)
		}
	case string:
		if strings.Contains(x, " ") {
			all = append(all, x)
		}
	}
	return all
}

// codes are the fields by which the page acts; it has words of its own for them.
var codes = []string{"verdict", "verdict_after", "answer", "standing", "accepted", "origin", "kind", "dim", "of", "rule", "fact", "key", "path", "gap", "Field", "field",
	"choices", "told", "last", "unit", "id", "name", "Found", "missing", "mark", "do", "part"}

// everything asks all questions about an opening: US units and a point, or SI and a comma.
func (a *asker) everything(t *testing.T, id string, i int) {
	t.Helper()
	style := [2]string{"us", "es-US"}
	if i%2 == 1 {
		style = [2]string{"si", "es-ES"}
	}
	ask := func(question string, more map[string]any) {
		answer := a.ask(t, question, id, style, more)
		if answer["problems"] != nil && !strings.HasPrefix(id, "X-") {
			t.Errorf("%s of %s: %v", question, id, answer["problems"])
		}
	}
	for _, question := range []string{"opening", "decide", "drawn", "survey", "marks", "tune", "window"} {
		ask(question, nil)
	}
	for k, c := range service.Complaints() {
		if k%4 == i%4 {
			ask("service", map[string]any{"complaint": c.Key})
		}
	}
	ask("service", nil)
}

// ask asks one question, and looks for English in the answer.
func (a *asker) ask(t *testing.T, question, id string, style [2]string, more map[string]any) map[string]any {
	t.Helper()
	asked := map[string]any{"job": a.tree, "opening": id, "units": style[0], "draws": 64, "language": style[1]}
	for k, v := range more {
		asked[k] = v
	}
	text, err := json.Marshal(asked)
	if err != nil {
		t.Fatal(err)
	}
	var answer map[string]any
	if err := json.Unmarshal(a.engine.Answer(question, text), &answer); err != nil {
		t.Fatal(err)
	}
	a.answers++
	a.look(t, question, answer)
	return answer
}

// Advice on what to turn, and what a recording shows or why it shows nothing.
func TestMeasuringIsToldInSpanish(t *testing.T) {
	a := newAsker(t, "tuning.yaml")
	si := [2]string{"si", "es-ES"}
	moves := 0
	for _, o := range a.tree["openings"].([]any) {
		id := o.(map[string]any)["id"].(string)
		for _, question := range []string{"tune", "opening", "window"} {
			answer := a.ask(t, question, id, si, nil)
			if list, ok := answer["moves"].([]any); ok {
				moves += len(list)
			}
		}
	}
	if moves == 0 {
		t.Error("nothing was to be turned")
	}
	j, err := job.Decode(os.DirFS("../demo/harbour-street-clinic"), "job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	m, err := plan.Make(&j.Openings[0], &j.Sheets, nil, plan.Options{Draws: 64}).Model()
	if err != nil {
		t.Fatal(err)
	}
	a = newAsker(t, "job.yaml")
	var mover swing.Mover
	measured := 0
	for name, course := range map[string]func(c *record.Course){
		"whole": func(c *record.Course) {
			c.Rest(3).Turn(trace.Opening, 92*quantity.Degree, 3).Rest(3)
			c.Close(&mover, &m)
			c.Rest(3)
		},
		"stays open": func(c *record.Course) { c.Rest(3).Turn(trace.Opening, 92*quantity.Degree, 3).Rest(3) },
		"no rest":    func(c *record.Course) { c.Turn(trace.Opening, 92*quantity.Degree, 3).Rest(1) },
		"still":      func(c *record.Course) { c.Rest(10) },
		"hardly":     func(c *record.Course) { c.Rest(3).Turn(trace.Opening, 4*quantity.Degree, 3).Rest(3) },
	} {
		for _, o := range []record.Options{{Seed: 1, Rate: 60}, {Seed: 2, Rate: 12, Jitter: 0.01, NoiseDensity: 2e-3}} {
			var c record.Course
			course(&c)
			for _, begins := range []string{"closed", "open", ""} {
				answer := a.ask(t, "read", "101", si, map[string]any{"file": "phone.csv", "data": string(record.Simulate(&c, o)), "begins": begins, "by": "hand"})
				if list, ok := answer["measured"].([]any); ok && name == "whole" {
					measured += len(list)
				}
			}
		}
	}
	for _, data := range []string{"", "nonsense", "t,x\n1,2\n", "time s,rate deg/s\n0,0\n0.1,x\n0.2,1,2\n", "time s,gyro x,gyro y\n0,0,0\n"} {
		if answer := a.ask(t, "read", "101", si, map[string]any{"file": "phone.csv", "data": data}); answer["problems"] == nil {
			t.Errorf("%q is read", data)
		}
	}
	if measured == 0 {
		t.Error("nothing was measured")
	}
}

// The report of check, on a page so wide that no name is broken.
func TestCheckIsToldInSpanish(t *testing.T) {
	a := newAsker(t, "job.yaml")
	j, err := job.Decode(os.DirFS("../demo/harbour-street-clinic"), "job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	books, err := author.Builtin()
	if err != nil {
		t.Fatal(err)
	}
	books = slices.DeleteFunc(slices.Clone(books), func(b *rulebook.Book) bool { return !slices.Contains(j.Rulebooks, b.ID) })
	collisions, err := author.Collisions()
	if err != nil {
		t.Fatal(err)
	}
	var out strings.Builder
	text := report.NewText(&out, report.Style{Units: quantity.SI, Width: 10_000, Why: true, Phrases: phrasebook.For("es-ES")})
	opt := plan.Options{Draws: 64, Climate: j.Climate, Groups: j.Groups, Collisions: collisions, Wiring: true}
	if err := text.Start(report.Head{Job: j, Openings: len(j.Openings), Books: books, Cautions: report.Cautions(j, books), Options: opt}); err != nil {
		t.Fatal(err)
	}
	var maker plan.Maker
	for i := range j.Openings {
		if !slices.Contains([]string{"101", "105", "111"}, j.Openings[i].ID) { // each says much of what all say
			continue
		}
		p := maker.Make(&j.Openings[i], &j.Sheets, books, opt)
		if err := text.Plan(p, decision.Make(p, &j.Sheets, decision.Options{})); err != nil {
			t.Fatal(err)
		}
	}
	if err := text.End(); err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(out.String(), "\n")
	ids := regexp.MustCompile(`regla [-a-z0-9.]+ [-a-z0-9]+,|[a-z_]+\.[a-z_.0-9]+`)
	for _, line := range lines {
		a.look(t, "check", ids.ReplaceAllString(line, "·"))
	}
	t.Logf("%d lines", len(lines))
}

// What is wrong with a value that was entered.
func TestSlipsAreToldInSpanish(t *testing.T) {
	a := newAsker(t, "job.yaml")
	for _, field := range []string{"leaf.width", "leaf.weight", "closer.sweep_time", "latch.force", "operator.open_angle", "air.pressure_most", "closer.size", "air.temperature"} {
		for _, text := range []string{"", "x", "36", "36 lb", "36 furlong", "36 in in", "1/0 in", "35-5/4 in", "36 in ± -1 in", "36 in ± 1 in ± 1 in", "1.2.3 in", "1,234 in", "2 in 3 ft", "1e99 in",
			"-500 °C", "36 in ± 1 lb", "± 1 in", "36 in 1/2", "20 lbf ± 1 in"} {
			a.ask(t, "value", "101", [2]string{"us", "es-US"}, map[string]any{"field": field, "text": text})
		}
	}
	answer := a.ask(t, "value", "101", [2]string{"us", "es-US"}, map[string]any{"field": "leaf.width", "text": "36 lb"})
	if reason, _ := answer["reason"].(string); !strings.Contains(reason, "no es una longitud") {
		t.Errorf("the reason is %q", reason)
	}
	for _, wrong := range []map[string]any{{"opening": "none"}, {"field": "leaf.none"}} {
		if answer := a.ask(t, "value", "101", [2]string{"us", "es-US"}, wrong); answer["problems"] == nil {
			t.Errorf("%v has an answer", wrong)
		}
	}
	for _, reading := range []map[string]any{
		{"fact": "hand.to_open", "value": "5 lbf"}, {"fact": "hand.to_open", "values": []any{"5 lbf", "x"}, "at": "36 in"}, {"fact": "hand.to"}, {"fact": "closing.time_90_to_10", "value": "3 lbf"},
		{"fact": "closing.time_90_to_10", "value": "3 s", "values": []any{"3 s"}}, {"fact": "closing.time_90_to_10"}, {"fact": "closing.latches_from_90", "value": "perhaps"},
		{"fact": "closing.time_90_to_10", "value": "3 s", "at": "36 in"}, {"fact": "closing.time_90_to_10", "value": "3 s", "on": "yesterday"},
	} {
		b := newAsker(t, "job.yaml")
		o := b.tree["openings"].([]any)[0].(map[string]any)
		o["readings"] = []any{reading}
		if answer := b.ask(t, "state", "101", [2]string{"us", "es-US"}, nil); answer["problems"] == nil {
			t.Errorf("%v is taken", reading)
		}
	}
}

var (
	inSVG = regexp.MustCompile(`<(?:text|tspan|title|desc)[^>]*>([^<]*)<`)
	own   = regexp.MustCompile(`"[^"]*"|[0-9]=[a-z-]+:[a-z/]+`) // quoted, or to be typed
	field = regexp.MustCompile(`[a-z_]+(?:\[[^\]]*\])?(?:\.[a-z_0-9]+(?:\[[^\]]*\])?)+|current_working|close_after`)
)

// look looks for English in an answer.
func (a *asker) look(t *testing.T, path string, v any) {
	t.Helper()
	switch x := v.(type) {
	case map[string]any:
		for k, one := range x {
			if !slices.Contains(codes, k) || k == "name" && strings.HasSuffix(path, "facts[]") {
				a.look(t, path+"."+k, one)
			}
		}
	case []any:
		for _, one := range x {
			a.look(t, path+"[]", one)
		}
	case string:
		a.texts++
		if strings.HasSuffix(path, ".svg") {
			var all []string
			for _, m := range inSVG.FindAllStringSubmatch(x, -1) {
				all = append(all, html.UnescapeString(m[1]))
			}
			x = strings.Join(all, " ")
		}
		x = own.ReplaceAllString(x, "·")
		text := field.ReplaceAllString(a.names.ReplaceAllString(a.names.ReplaceAllString(strings.ReplaceAll(x, "\u00a0", " "), "$1·$2"), "$1·$2"), "·")
		if found := phrasebook.English(text); len(found) > 0 && !a.seen[path+fmt.Sprint(found)] {
			a.seen[path+fmt.Sprint(found)] = true
			t.Errorf("%s: %v in %q", path, found, x)
		}
	}
}

// Every rule that comes with the program, its source and what a job is asked are known to the
// book, down to the last letter.
func TestRulesAreTold(t *testing.T) {
	b := phrasebook.For("es")
	books, err := author.Builtin()
	if err != nil {
		t.Fatal(err)
	}
	know := func(text string) {
		if n := b.Left(text); n > 0 {
			t.Errorf("%q is said as %q: %d letters are left", text, b.Say(text), n)
		}
	}
	for _, book := range books {
		know(book.Work + ", " + book.Edition)
		for i := range book.Rules {
			r := &book.Rules[i]
			know(r.Title)
			know(r.Source.Clause)
			know(r.Source.Table)
			know(r.Source.Confidence.String())
			know(r.Source.How)
			know(r.Source.CheckedBy)
		}
	}
	for _, c := range service.Complaints() {
		know(c.Title)
	}
}
