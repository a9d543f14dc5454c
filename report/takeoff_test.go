package report_test

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"swingwright/internal/reference"
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

// Another library finds the same numbers in the workbook as the take-off has, as numbers.
func TestTakeoffBook(t *testing.T) {
	if testing.Short() {
		t.Skip("asks another program")
	}
	_, k := takenOff(t)
	var b bytes.Buffer
	if err := report.TakeoffBook(&b, k, quantity.SI); err != nil {
		t.Fatal(err)
	}
	name := filepath.Join(t.TempDir(), "a.xlsx")
	if err := os.WriteFile(name, b.Bytes(), 0o666); err != nil {
		t.Fatal(err)
	}
	var sheets []struct {
		Name  string
		Cells [][]any
	}
	if err := reference.OpenPyXL.Ask("../internal/workbook/testdata/readback.py", name, &sheets); err != nil {
		t.Fatal(err)
	}
	rows := map[string][][]any{}
	for _, s := range sheets {
		rows[s.Name] = s.Cells
	}
	for i, l := range k.Parts {
		want := float64(l.Count)
		if l.Count == 0 {
			want = float64(l.Length)
		}
		if got, ok := rows["Parts"][i+1][3].(float64); !ok || math.Abs(got-want) > 1e-9 || rows["Parts"][i+1][1] != l.What {
			t.Errorf("part %d is %v, want %v %s", i, rows["Parts"][i+1], want, l.What)
		}
	}
	if len(rows["Parts"]) != 1+len(k.Parts) || len(rows["By opening"]) != 1+len(k.Openings[0].Lines) {
		t.Errorf("%d parts and %d lines", len(rows["Parts"]), len(rows["By opening"]))
	}
	quote := rows["Quote"]
	last := quote[len(quote)-1]
	sum := 0.0
	for _, r := range quote[1 : len(quote)-1] {
		sum += r[2].(float64)
	}
	if last[0] != "total, crowns" || math.Abs(last[2].(float64)-k.Quote.Total.Likely) > 1e-9 || last[1].(float64) > last[2].(float64) || last[2].(float64) > last[3].(float64) {
		t.Errorf("total %v, want %v", last, k.Quote.Total)
	}
	if math.Abs(sum/last[2].(float64)-1) > 0.01 { // middles of sums and sum of middles differ a little
		t.Errorf("rows add up to %v, the total is %v", sum, last[2])
	}
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
