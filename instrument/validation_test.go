package instrument

import (
	"flag"
	"fmt"
	"math"
	"strings"
	"testing"

	"swingwright/internal/reference"
	"swingwright/judge"
	q "swingwright/quantity"
)

var update = flag.Bool("update", false, "write this package's part of docs/validation.md anew")

// The page tells how budgets of a stopwatch and a force gauge agree with worked ones.
func TestValidationPage(t *testing.T) {
	var b strings.Builder
	row := func(what, unit string, digits int, got, want, open float64) {
		near(t, what, got, want, open)
		fmt.Fprintf(&b, "| %s | %.*f %s | %.*f %s | ±%g |\n", what, digits, got, unit, digits, want, unit, open)
	}
	b.WriteString(`## Stopwatch and force gauge (package instrument)

Source: reaction times of Am. J. Phys. 87 (2019) 110, 4304 timings; budgets worked by hand from them by the law of propagation (JCGM
100:2008); limits of acceptance by ISO 14253-1:2017 at a risk of 5 %, for at least 3.00 s.

| Quantity | Ours | Reference | Open |
|---|---|---|---|
`)
	for _, c := range []struct {
		n         int
		u, accept float64
	}{{1, 0.112, 3.18}, {3, 0.069, 3.11}, {5, 0.057, 3.09}} {
		r, err := Laps{Times: laps(c.n, 3.5)}.Read()
		if err != nil {
			t.Fatal(err)
		}
		row(fmt.Sprintf("laps, mean of %d: standard uncertainty", c.n), "s", 3, r.U, c.u, 0.0005)
		row(fmt.Sprintf("laps, mean of %d: accepted from", c.n), "s", 2, judge.AcceptanceLimit(judge.AtLeast, 3, r.U, judge.Policy{}), c.accept, 0.006)
	}
	r, err := Pulls{Forces: []q.Force{58.5, 60, 61.5}, At: q.Exactly(q.Length(0.9))}.Read()
	if err != nil {
		t.Fatal(err)
	}
	row("gauge, three pulls of 60 N: standard uncertainty", "N", 2, r.U/0.9, 1.14, 0.015)
	row("the same: degrees of freedom", "", 1, r.DF, 6, 0.3)
	for _, c := range [][2]float64{{5, 0.4}, {10, 1.5}, {15, 3.4}, {20, 6.0}} {
		row(fmt.Sprintf("loss off square by %g°", c[0]), "%", 1, 100*(1-math.Cos(c[0]*math.Pi/180)), c[1], 0.05)
	}
	if err := reference.Section(b.String(), "instrument", *update); err != nil {
		t.Error(err)
	}
}
