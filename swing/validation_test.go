package swing

import (
	"bytes"
	"flag"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"swingwright/internal/reference"
)

var update = flag.Bool("update", false, "write docs/validation.md anew")

const preface = `# Validation

What this program computes, beside values that come from outside its code. A
test writes this page and fails when it is stale; to write it anew:

    go test ./swing ./instrument ./power ./record ./tune -run Validation -update

**Open** is what the reference's printed places, or its nominal sizes, leave
open; ours must lie within it. Further checks, which have no table here, stand
beside the code: motions with a closed form (swing/closedform_test.go), an account
of all energy and other properties of random models (swing/properties_test.go,
linkage/properties_test.go), weights and inertia (leaf).
`

// The page tells what the tests found and is checked whole.
func TestValidationPage(t *testing.T) {
	if testing.Short() {
		t.Skip("the page holds the reference runs, which take a minute")
	}
	both, err := compare()
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	b.WriteString(preface)
	motions(&b, &both)
	for _, s := range published() {
		s.write(&b)
	}
	have, err := os.ReadFile(reference.Page)
	if err != nil {
		t.Fatal(err)
	}
	b.WriteByte('\n')
	if *update {
		if err := os.WriteFile(reference.Page, []byte(b.String()+reference.Below(string(have))), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if line, ours, ok := differ(reference.Above(string(have)), b.String()); !ok {
		t.Errorf("docs/validation.md is stale: has\n%s\nshould have\n%s\nRun go test ./swing -run Validation -update", line, ours)
	}
}

// differ finds the first line in which two texts differ.
func differ(a, b string) (lineA, lineB string, same bool) {
	x, y := strings.Split(a, "\n"), strings.Split(b, "\n")
	for i := 0; i < max(len(x), len(y)); i++ {
		if i < len(x) {
			lineA = x[i]
		}
		if i < len(y) {
			lineB = y[i]
		}
		if i >= len(x) || i >= len(y) || lineA != lineB {
			return lineA, lineB, false
		}
	}
	return "", "", true
}

// motions writes how random motions agree with SciPy. Figures are rounded up
// to 1, 2 or 5 of their decade, and to a tenth of what is asked, so that the page
// does not change with the last bits.
func motions(b *bytes.Buffer, both *[2]agreement) {
	a := &both[0]
	fmt.Fprintf(b, `
## Random motions beside SciPy

%d closings and %d openings over five sorts of arm, every effect of the equation
of motion in some of them, reckoned again by a program written from the equations
alone (swing/testdata/closing.py) with LSODA and DOP853 at a tolerance of 1e-10.
All endings are equal: %s.

| Quantity | As used, worst | Asked | Exact, worst | Asked |
|---|---|---|---|---|
`, a.closings, a.openings, endings(a.ends))
	for _, r := range []struct {
		what, unit string
		si         float64
		of         func(limits) float64
	}{
		{fmt.Sprintf("times of %d marks", a.marks), "ms", 1e-3, func(l limits) float64 { return l.time }},
		{"peak energy", "%", 1e-2, func(l limits) float64 { return l.energy }},
		{"angle at the end", "°", deg, func(l limits) float64 { return l.angle }},
	} {
		fmt.Fprintf(b, "| %s |", r.what)
		for i := range both {
			asked := r.of(both[i].limits) / r.si
			worst := stepUp(max(r.of(both[i].worst)/r.si, asked/10))
			fmt.Fprintf(b, " ≤ %s %s | %s %s |", plainly(worst), r.unit, plainly(asked), r.unit)
		}
		fmt.Fprintln(b)
	}
}

func endings(count map[End]int) string {
	var parts []string
	for e := Latched; e <= TimedOut; e++ {
		parts = append(parts, fmt.Sprintf("%d %s", count[e], e))
	}
	return strings.Join(parts, ", ")
}

// stepUp is the least 1, 2 or 5 times a power of ten that is not below x.
func stepUp(x float64) float64 {
	if !(x > 0) {
		return 0
	}
	decade := math.Pow(10, math.Floor(math.Log10(x)))
	for _, s := range []float64{1, 2, 5} {
		if x <= s*decade {
			return s * decade
		}
	}
	return 10 * decade
}

// plainly writes a number to six places at most.
func plainly(x float64) string {
	s := strconv.FormatFloat(x, 'g', 6, 64)
	if strings.Contains(s, "e") {
		s = strings.TrimRight(strconv.FormatFloat(x, 'f', 10, 64), "0")
	}
	return s
}

// write gives a heading's examples as tables, one for each source.
func (s *section) write(b *bytes.Buffer) {
	fmt.Fprintf(b, "\n## %s\n", s.title)
	source := ""
	for _, c := range s.examples {
		if c.source != source {
			source = c.source
			fmt.Fprintf(b, "\nSource: %s.\n\n| Quantity | Ours | Reference | Open |\n|---|---|---|---|\n", source)
		}
		open := "rounding"
		if c.within >= 1e-6 {
			open = "±" + strconv.FormatFloat(c.within, 'g', 1, 64)
		}
		// the reference as printed, ours to one place more
		printed := max(0, min(4, -int(math.Floor(math.Log10(2*c.within)))))
		fmt.Fprintf(b, "| %s | %s | %s | %s |\n", c.what, withUnit(c.ours, printed+1, c.unit), withUnit(c.want, printed, c.unit), open)
	}
}

func withUnit(x float64, places int, unit string) string {
	value := strings.ReplaceAll(strconv.FormatFloat(x, 'f', places, 64), "-", "−")
	if unit == "" {
		return value
	}
	return value + " " + unit
}

// The page's numbers step by 1, 2 and 5.
func TestStepUp(t *testing.T) {
	for x, want := range map[float64]float64{0: 0, 0.0009: 0.001, 0.001: 0.001, 0.0011: 0.002, 3: 5, 6: 10, 1999: 2000} {
		if got := stepUp(x); math.Abs(got-want) > 1e-12*want {
			t.Errorf("%g steps up to %g, want %g", x, got, want)
		}
	}
}
