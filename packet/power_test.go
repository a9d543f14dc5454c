package packet

import (
	"os"
	"strings"
	"testing"

	"swingwright/decision"
	"swingwright/job"
	"swingwright/judge"
	"swingwright/plan"
)

// wired is an opening with a whole wiring.
func wired(t *testing.T) *Opening {
	t.Helper()
	j, err := job.Decode(os.DirFS("testdata"), "wired.yaml")
	if err != nil {
		t.Fatal(err)
	}
	p := plan.Make(&j.Openings[0], &j.Sheets, nil, quick)
	d := decision.Make(p, &j.Sheets, decision.Options{Brief: true})
	return &Opening{Job: j, Plan: p, Decision: d, Feeding: p.Power(&j.Sheets, judge.Policy{})}
}

// The paper names every device with what it has, every run with its gauge, and all that
// is the electrician's; and the electrician is asked for the latter.
func TestPowerPaperIsWhole(t *testing.T) {
	o := wired(t)
	opt := usual
	opt.Only = []string{"power", "electrician"}
	all := flat(text(Make(o, opt)))
	s := newSheet(o, opt)
	if len(s.there) != 2 || len(o.Feeding.Circuits) == 0 {
		t.Fatalf("%d papers, %d circuits", len(s.there), len(o.Feeding.Circuits))
	}
	want := []string{"Power and wires", "Supply supply, 24 V, 4 A", "Conduits", "K1", "12 %"}
	for i := range o.Feeding.Circuits {
		d := &o.Feeding.Circuits[i]
		for k := range d.Devices {
			one := &d.Devices[k]
			if one.Works {
				want = append(want, one.Device.Name, flat(strings.ReplaceAll(s.rounded(one.Volts.Dimension(), float64(one.LeastItWorksAt), 10), "\u00a0", " ")), one.Verdict.String())
			}
		}
		for k := range d.Tree.Runs {
			want = append(want, d.Tree.Runs[k].Name, d.Tree.Runs[k].Wire.Gauge.String())
		}
	}
	for _, text := range want {
		if !strings.Contains(all, text) {
			t.Errorf("the paper does not say %q", text)
		}
	}
	for _, text := range o.Feeding.Electrician {
		if strings.Count(strings.ToLower(all), strings.ToLower(text)) < 2 {
			t.Errorf("%q does not stand on both papers", text)
		}
	}
}
