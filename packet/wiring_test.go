package packet

import (
	"errors"
	"os"
	"strings"
	"testing"

	"swingwright/decision"
	"swingwright/job"
	"swingwright/logic"
	"swingwright/plan"
)

// The paper says of every rule that applies whether it is proved, shows each that is
// broken, and lists every terminal that has a wire.
func TestWiringPaperIsWhole(t *testing.T) {
	j, _ := demo()
	shown := 0
	for i := range j.Openings {
		o := &j.Openings[i]
		if o.Wiring.None() || o.InPlaceOf != "" {
			continue
		}
		w := plan.Wire(o, &j.Sheets, logic.Effort{})
		p := plan.Make(o, &j.Sheets, nil, quick)
		p.Wired = w
		d := decision.Make(p, &j.Sheets, decision.Options{Brief: true})
		opt := usual
		opt.Only = []string{"wiring"}
		one := &Opening{Job: j, Plan: p, Decision: d}
		if newSheet(one, opt).refused() {
			continue
		}
		shown++
		all := flat(text(Make(one, opt)))
		var want []string
		for _, v := range w.Proof.Verdicts {
			switch {
			case v.Broken:
				want = append(want, "Not kept: "+v.Rule.String())
			case v.Applies:
				want = append(want, "proved "+v.Rule.String())
			}
		}
		for _, c := range w.Proof.Machine.Connections() {
			want = append(want, c.Device, c.Terminal)
		}
		for _, s := range want {
			if !strings.Contains(all, flat(s)) {
				t.Errorf("opening %s: the paper does not say %q", o.ID, s)
			}
		}
	}
	if shown == 0 {
		t.Error("no opening of the demonstration has a wiring")
	}
}

// A wiring that cannot be proved is drawn all the same, with the reason.
func TestWiringThatCannotBeProved(t *testing.T) {
	j, err := job.Decode(os.DirFS("testdata"), "wired.yaml")
	if err != nil {
		t.Fatal(err)
	}
	o := &j.Openings[0]
	p := plan.Make(o, &j.Sheets, nil, quick)
	p.Wired = plan.Wire(o, &j.Sheets, logic.Effort{})
	p.Wired.Proof, p.Wired.Problem = nil, errors.New("the wiring has more contacts than can be followed")
	d := decision.Make(p, &j.Sheets, decision.Options{Brief: true})
	opt := usual
	opt.Only = []string{"wiring"}
	all := flat(text(Make(&Opening{Job: j, Plan: p, Decision: d}, opt)))
	for _, want := range []string{"Nothing could be proved The wiring has more contacts than can be followed", "Riser", "Connections, terminal to terminal"} {
		if !strings.Contains(all, want) {
			t.Errorf("the paper does not say %q", want)
		}
	}
}
