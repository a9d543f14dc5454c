package report

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"slices"
	"testing"

	"swingwright/decision"
	"swingwright/job"
	"swingwright/opening"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/rulebook/author"
	"swingwright/swing"
)

// demo is the example job as it stands, its possible changes left out, with the
// plans of its openings, made with few draws.
func demo(t testing.TB) (Head, []*plan.Plan) {
	t.Helper()
	j, err := job.Decode(os.DirFS("../demo/harbour-street-clinic"), "job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	j.Openings = slices.DeleteFunc(j.Openings, func(o opening.Opening) bool { return o.InPlaceOf != "" })
	h := Head{Job: j, Openings: len(j.Openings), Options: plan.Options{Draws: 64, Seed: 1}}
	for _, id := range j.Rulebooks {
		b, err := author.BuiltinBook(id)
		if err != nil {
			t.Fatal(err)
		}
		h.Books = append(h.Books, b)
	}
	var plans []*plan.Plan
	for i := range j.Openings {
		plans = append(plans, plan.Make(&j.Openings[i], &j.Sheets, h.Books, h.Options))
	}
	return h, plans
}

// decided is what is decided of a plan of the demo.
func decided(h Head, p *plan.Plan) *decision.Decision {
	return decision.Make(p, &h.Job.Sheets, decision.Options{Brief: true})
}

func demoJSON(t testing.TB) []byte {
	h, plans := demo(t)
	var out bytes.Buffer
	w := NewJSON(&out)
	err := w.Start(h)
	for _, p := range plans {
		if err == nil {
			err = w.Plan(p, decided(h, p))
		}
	}
	if err == nil {
		err = w.End()
	}
	if err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func TestJSONDocument(t *testing.T) {
	var doc map[string]json.RawMessage
	text := demoJSON(t)
	if err := json.Unmarshal(text, &doc); err != nil {
		t.Fatal(err)
	}
	want := documented(t)["document"]
	for _, name := range want {
		if _, ok := doc[name]; !ok {
			t.Errorf("%s is documented and not written", name)
		}
	}
	if len(doc) != len(want) {
		t.Errorf("%d fields are written, %d documented", len(doc), len(want))
	}
	if lines, want := bytes.Count(doc["openings"], []byte("\n{")), 16; lines != want {
		t.Errorf("%d openings begin a line, want %d", lines, want)
	}
	if !bytes.Equal(text, demoJSON(t)) {
		t.Error("the same job gives other bytes the second time")
	}
}

// Whoever has the JSON can do the sum again, and comes to the same result: the
// model is put together from its text alone, with the keys of the symbols.
func TestTheSumCanBeDoneAgain(t *testing.T) {
	var doc struct {
		Openings []struct {
			ID         string
			Model      map[string]struct{ Value float64 }
			Conditions map[string]struct{ Value float64 }
			Linkage    struct {
				Closer, Track, Latch bool
				OnLeaf               bool `json:"on_leaf"`
				Bend                 int
			}
			Drive struct {
				Fitted, Own, Track bool
				OnLeaf             bool `json:"on_leaf"`
				LetsGo             bool `json:"lets_go"`
				Bend               int
			}
			Results struct {
				Motions map[string]*struct {
					Time         float64
					ImpactEnergy float64 `json:"impact_energy"`
					PeakEnergy   float64 `json:"peak_energy"`
					Angle, From  float64
					End          string
				}
			}
		}
	}
	if err := json.Unmarshal(demoJSON(t), &doc); err != nil {
		t.Fatal(err)
	}
	again := 0
	for _, o := range doc.Openings {
		var v swing.Values
		for i, s := range swing.Symbols {
			row, ok := o.Model[s.Key]
			if !ok {
				t.Fatalf("opening %s: the model lacks %s", o.ID, s.Key)
			}
			v[i] = row.Value
		}
		l := o.Linkage
		m, err := swing.New(&v, swing.Linkage{Closer: l.Closer, Track: l.Track, OnLeaf: l.OnLeaf, Bend: l.Bend, Latch: l.Latch})
		if err != nil {
			t.Fatalf("opening %s: %v", o.ID, err)
		}
		d := o.Drive
		if err := m.SetDrive(swing.Drive{Fitted: d.Fitted, Own: d.Own, Track: d.Track, OnLeaf: d.OnLeaf, Bend: d.Bend, LetsGo: d.LetsGo}); err != nil {
			t.Fatalf("opening %s: %v", o.ID, err)
		}
		for name, was := range o.Results.Motions {
			if was == nil {
				continue
			}
			if name != "from_90" {
				m.SetAir(o.Conditions["pressure_most"].Value, v[swing.OilFactor])
			} else {
				m.SetAir(v[swing.Pressure], v[swing.OilFactor])
			}
			var mover swing.Mover
			got := mover.Close(&m, quantity.Angle(was.From), nil)
			again++
			for _, c := range []struct {
				what      string
				got, want float64
			}{{"time", float64(got.Time), was.Time}, {"energy", float64(got.Energy), was.PeakEnergy}, {"impact", float64(got.Impact), was.ImpactEnergy}, {"angle", float64(got.Angle), was.Angle}} {
				// the same sum from the same numbers; only its order may differ
				if math.Abs(c.got-c.want) > 1e-9*(1+math.Abs(c.want)) {
					t.Errorf("opening %s, %s: %s %v, was %v", o.ID, name, c.what, c.got, c.want)
				}
			}
			if got.End.String() != was.End {
				t.Errorf("opening %s, %s: %v, was %s", o.ID, name, got.End, was.End)
			}
		}
	}
	if again < 48 {
		t.Errorf("only %d motions were done again", again)
	}
}

func TestNumbersThatDoNotExistAreNull(t *testing.T) {
	got, err := json.Marshal([]number{1.5, number(math.NaN()), number(math.Inf(1)), number(math.Inf(-1)), 0})
	if string(got) != "[1.5,null,null,null,0]" || err != nil {
		t.Errorf("%s, %v", got, err)
	}
}

// A run that was stopped still closes its document, and owns up to it.
func TestStoppedDocument(t *testing.T) {
	h, plans := demo(t)
	var out bytes.Buffer
	w := NewJSON(&out)
	if err := w.Start(h); err != nil {
		t.Fatal(err)
	}
	if err := w.Plan(plans[0], decided(h, plans[0])); err != nil {
		t.Fatal(err)
	}
	if err := w.End(); err != nil {
		t.Fatal(err)
	}
	var doc struct {
		Openings []any
		Summary  tallyJSON
	}
	if err := json.Unmarshal(out.Bytes(), &doc); err != nil || len(doc.Openings) != 1 || doc.Summary.Complete {
		t.Errorf("%d openings, summary %+v, %v", len(doc.Openings), doc.Summary, err)
	}
}

func BenchmarkJSON(b *testing.B) {
	h, plans := demo(b)
	var out bytes.Buffer
	w := NewJSON(&out)
	if err := w.Start(h); err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		out.Reset()
		if err := w.Plan(plans[0], decided(h, plans[0])); err != nil {
			b.Fatal(err)
		}
	}
	b.SetBytes(int64(out.Len()))
}
