package trace

import "math"

// edge finds when movement begins in rates u (rad/s, above zero when moving) at
// times t, from rest at the begin to movement at the end. sigma is the noise of a
// sample. How a leaf gathers speed is not known: evenly under a constant torque
// (u ∝ t − t0), evenly faster under a hand or a torque that rises (the square of
// it), or in between; with sudden, which is how a leaf ends on a stop seen
// backward in time, at once. Every kind and every time is weighed by how well it
// fits (least squares, weights of a normal likelihood); mean and spread of the
// time are those of all together.
func edge(t, u []float64, sigma float64, sudden bool) moment {
	const tries = 140
	n := len(t)
	if n < 4 {
		return moment{t[n/2], t[n-1] - t[0]}
	}
	top := 0.0
	for _, x := range u {
		top = math.Max(top, x)
	}
	variance := sigma*sigma + (0.007*top)*(0.007*top) // no leaf keeps to a law better than that
	before := make([]float64, n+1)
	for i, x := range u {
		before[i+1] = before[i] + x*x
	}
	from, to := t[0], t[n-2]
	kinds := []float64{1, 1.5, 2}
	if sudden {
		kinds = append(kinds, 0)
	}
	misfit := make([]float64, 0, len(kinds)*tries)
	least := math.Inf(1)
	for _, p := range kinds {
		i := 0
		for k := range tries {
			t0 := from + (to-from)*(float64(k)+0.5)/tries
			for i < n && t[i] <= t0 {
				i++
			}
			m := (before[i] + rise(t[i:], u[i:], t0, p)) / variance
			if p == 0 {
				m += math.Log(float64(n)) // for its second parameter (Schwarz, Ann. Stat. 6 (1978) 461)
			}
			misfit = append(misfit, m)
			least = math.Min(least, m)
		}
	}
	var sum, mean, square float64
	for k, m := range misfit {
		w := math.Exp(-(m - least) / 2)
		t0 := from + (to-from)*(float64(k%tries)+0.5)/tries - t[0]
		sum += w
		mean += w * t0
		square += w * t0 * t0
	}
	mean /= sum
	grain := (to - from) / tries
	return moment{t[0] + mean, math.Sqrt(math.Max(0, square/sum-mean*mean) + grain*grain/12)}
}

// rise is the sum of squares that is left of rates after t0 by the best rise of
// a kind: c·(t − t0)^p, or for p = 0 a step and a straight line.
func rise(t, u []float64, t0, p float64) float64 {
	if p == 0 {
		return stepAndLine(t, u)
	}
	var xx, xu, uu float64
	for i := range t {
		x := t[i] - t0
		switch p {
		case 1.5:
			x *= math.Sqrt(x)
		case 2:
			x *= x
		}
		xx += x * x
		xu += x * u[i]
		uu += u[i] * u[i]
	}
	if xu <= 0 || xx == 0 {
		return uu
	}
	return math.Max(0, uu-xu*xu/xx)
}

// stepAndLine is what is left by a straight line.
func stepAndLine(t, u []float64) float64 {
	n := float64(len(t))
	if n == 0 {
		return 0
	}
	var mt, mu float64
	for i := range t {
		mt += t[i]
		mu += u[i]
	}
	mt, mu = mt/n, mu/n
	var tt, tu, uu float64
	for i := range t {
		a, b := t[i]-mt, u[i]-mu
		tt += a * a
		tu += a * b
		uu += b * b
	}
	if mu < 0 {
		return uu + n*mu*mu
	}
	if tt > 0 {
		uu -= tu * tu / tt
	}
	return math.Max(0, uu)
}
