package job_test

import (
	"fmt"
	"strings"
	"testing"
)

// thousands is a job of n openings as a careful technician would fill them in.
func thousands(n int) string {
	var b strings.Builder
	b.WriteString("job: many\nsheets:\n  arms: [{name: R, kind: regular, main_arm: 11 in}]\n" +
		"  closers: [{name: A, powers: [{size: 3, torque_closed: 11 N·m}]}]\nopenings:\n")
	for i := range n {
		fmt.Fprintf(&b, `  - id: %d
    name: Corridor to room %d
    use: {place: interior, fire_rated: no, operation: low-energy, activation: switch}
    leaf:
      width: 35-3/4 in
      height: 83-3/4 in
      thickness: 1-3/4 in
      weight: 118 lb ± 4 lb
    frame:
      hand: RH
      pin_to_edge: 1/8 in
      pin_to_face: 3/8 in
      friction: 0.6 lbf
    closer:
      sheet: A
      arm: R
      size: 3
      sweep_time: 6.1 s ± 0.2 s
      latch_time: 2.1 s ± 0.2 s
    air: {pressure: 2 Pa}
    readings:
      - {fact: powered.dwell, value: 6.5 s ± 0.2 s}
`, i, i)
	}
	return b.String()
}

func BenchmarkDecode10000Openings(b *testing.B) {
	text := thousands(10_000)
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := decode(text); err != nil {
			b.Fatal(err)
		}
	}
}
