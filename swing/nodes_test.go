package swing

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// The pinion's turn summed up along the chart is that which the arm gives at each node.
func TestChartTurnsAsTheArmDoes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v, link := typical()
		v[ShoeX] *= rapid.Float64Range(0.85, 1.15).Draw(t, "shoe")
		v[Forearm] *= rapid.Float64Range(0.85, 1.15).Draw(t, "forearm")
		m, err := New(&v, link)
		if err != nil || !m.chart.ok {
			return
		}
		for i := 1; i < nodes-1; i++ {
			want, n, _ := m.arm.Turn(chartFrom + float64(i)*chartStep)
			if got := m.chart.still[i]; math.Abs(got.psi-want) > 1e-6 || math.Abs(got.n-n) > 1e-9*n {
				t.Fatalf("node %d: turn %g and ratio %g, arm says %g and %g", i, got.psi, got.n, want, n)
			}
		}
	})
}
