package report_test

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"
	"testing/fstest"

	"swingwright/job"
	"swingwright/quantity"
	"swingwright/report"
	"swingwright/takeoff"
)

const quoted = `job: x
rates:
  currency: crowns
  labour: {likely: 100}
  contingency: {likely: 0 %}
  material_markup: {likely: 30 %}
  prices: [{part: operator, price: {likely: 1000}}]
openings:
  - id: "1"
    use: {operation: low-energy, activation: switch, fire_rated: yes}
    power: {distance: 20 m}
  - {id: "2", use: {operation: manual}}
`

func takenOff(t *testing.T) (*job.Job, *takeoff.Takeoff) {
	t.Helper()
	j, err := job.Decode(fstest.MapFS{"job.yaml": {Data: []byte(quoted)}}, "job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	k, err := takeoff.Make(j, []takeoff.Item{{Opening: &j.Openings[0]}, {Opening: &j.Openings[1]}})
	if err != nil {
		t.Fatal(err)
	}
	return j, k
}

// The tables name what is left out, what has no price, and what rests on memory; the
// JSON reads back.
func TestTakeoffShown(t *testing.T) {
	j, k := takenOff(t)
	var text bytes.Buffer
	if err := report.Takeoff(report.NewText(&text, report.Style{Units: quantity.US, All: true}), j, k); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"Quote, in crowns", "not in the quote: it stays", "pushed by hand", "operator, not chosen yet", "alarm relay or jumper", "from memory", "76 ft", "licensed electrician"} {
		if !strings.Contains(text.String(), want) {
			t.Errorf("no %q in\n%s", want, text.String())
		}
	}
	var raw bytes.Buffer
	if err := report.TakeoffJSON(&raw, j, k); err != nil {
		t.Fatal(err)
	}
	var back struct {
		Format   string
		Openings []struct{ ID string }
		Quote    struct{ Total takeoff.Range }
	}
	if err := json.Unmarshal(raw.Bytes(), &back); err != nil || back.Format != "swingwright takeoff 1" || len(back.Openings) != 2 || back.Quote.Total != k.Quote.Total {
		t.Errorf("%v: %+v", err, back)
	}
}

// Cable is bought in whole feet or tenths of a metre, never short.
func TestBought(t *testing.T) {
	for _, test := range []struct {
		length quantity.Length
		units  quantity.System
		want   string
	}{
		{69 * quantity.Foot, quantity.US, "69 ft"}, {69.1 * quantity.Foot, quantity.US, "70 ft"},
		{23 * quantity.Metre, quantity.SI, "23.0 m"}, {23.01 * quantity.Metre, quantity.SI, "23.1 m"},
	} {
		if got := report.Bought(test.length, test.units); got != test.want {
			t.Errorf("%v m: %s, want %s", test.length, got, test.want)
		}
	}
}
