package xlsx_test

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"swingwright/internal/reference"
	"swingwright/job"
	"swingwright/quantity"
	"swingwright/takeoff"
	"swingwright/takeoff/xlsx"
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

func takenOff(t *testing.T) *takeoff.Takeoff {
	t.Helper()
	j, err := job.Decode(fstest.MapFS{"job.yaml": {Data: []byte(quoted)}}, "job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	k, err := takeoff.Make(j, []takeoff.Item{{Opening: &j.Openings[0]}, {Opening: &j.Openings[1]}})
	if err != nil {
		t.Fatal(err)
	}
	return k
}

// Another library finds the same numbers in the workbook as the take-off has, as numbers.
func TestReadBack(t *testing.T) {
	if testing.Short() {
		t.Skip("asks another program")
	}
	k := takenOff(t)
	var b bytes.Buffer
	if err := xlsx.Write(&b, k, quantity.SI); err != nil {
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
	if err := reference.OpenPyXL.Ask("../../internal/workbook/testdata/readback.py", name, &sheets); err != nil {
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
		if r[0] == "to be set" { // which rates the job does not give
			if told, _ := r[4].(string); !strings.Contains(told, "labour, each hour") && strings.Contains(told, "mark-up on other firms") {
				continue
			}
		}
		sum += r[2].(float64)
	}
	if last[0] != "total, crowns" || math.Abs(last[2].(float64)-k.Quote.Total.Likely) > 1e-9 || last[1].(float64) > last[2].(float64) || last[2].(float64) > last[3].(float64) {
		t.Errorf("total %v, want %v", last, k.Quote.Total)
	}
	if math.Abs(sum/last[2].(float64)-1) > 0.01 { // middles of sums and sum of middles differ a little
		t.Errorf("rows add up to %v, the total is %v", sum, last[2])
	}
}
