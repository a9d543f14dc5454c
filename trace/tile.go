package trace

import "math"

// tile is half a second of recording: mean acceleration and rate of its rows.
type tile struct {
	from, to int // rows
	g, w     vector
	lasts    float64 // s
	member   bool    // the recorder was then fixed to the leaf
}

// Sizes of tiles.
const (
	tileTime  = 0.5 // s
	mostTiles = 400
)

// cosTilted is the cosine of 6°, between tiles of one attitude: a leaf that turns
// fast throws as much outward.
const cosTilted = 0.99452

// tiles cuts the recording into tiles. Rows without acceleration do not count.
func (r *Recording) tiles(step float64) (list []tile) {
	n := len(r.t)
	size := max(5, int(math.Round(tileTime/step)), n/mostTiles)
	for from := 0; from+size <= n; from += size {
		t := tile{from: from, to: from + size, lasts: float64(size) * step}
		some := 0.0
		for i := from; i < t.to; i++ {
			a := vector{r.accel[0][i], r.accel[1][i], r.accel[2][i]}
			if d := a.dot(a); d != d || math.IsInf(d, 0) {
				continue
			}
			some++
			for k := range 3 {
				t.g[k] += a[k]
				t.w[k] += r.rate[k][i]
			}
		}
		if some == 0 || t.g.norm() == 0 {
			continue
		}
		for k := range 3 {
			t.g[k] /= some
			t.w[k] /= some
		}
		list = append(list, t)
	}
	return list
}

// leaflike is how much a tile speaks for a recorder fixed to a leaf, rad/s: by
// turning about the vertical more than about other directions, and a little by
// being there. A bias is too small to matter.
func (t *tile) leaflike() float64 {
	up := math.Abs(t.w.dot(t.g.unit()))
	aside := math.Sqrt(math.Max(0, t.w.dot(t.w)-up*up))
	return math.Max(0, up-aside) + 3*degree
}

// attitude finds the attitude in which the recorder was fixed to the leaf: that
// in which it turned most without tilting. Carried about it tilts, and lying on
// a table it does not turn. Its tiles are marked; the direction of gravity is the
// mean of those at rest, or of all where none is.
func attitude(list []tile) (g vector) {
	best, most := -1, 0.0
	down, weight := make([]vector, len(list)), make([]float64, len(list))
	for i := range list {
		down[i], weight[i] = list[i].g.unit(), list[i].leaflike()*list[i].lasts
	}
	for i := range list {
		score := 0.0
		for k := range list {
			if down[i].dot(down[k]) > cosTilted {
				score += weight[k]
			}
		}
		if score > most {
			best, most = i, score
		}
	}
	if best < 0 {
		return g
	}
	var all, rests vector
	var n, m float64
	for k := range list {
		t := &list[k]
		if t.member = down[best].dot(down[k]) > cosTilted; !t.member {
			continue
		}
		n++
		for j := range 3 {
			all[j] += t.g[j]
		}
		if t.w.norm() < 8*degree {
			m++
			for j := range 3 {
				rests[j] += t.g[j]
			}
		}
	}
	if m > 0 {
		all, n = rests, m
	}
	for j := range 3 {
		g[j] = all[j] / n
	}
	return g
}

// fixed marks the rows of the tiles in which the recorder was fixed to the leaf.
func (r *Recording) fixed(list []tile) []bool {
	on := make([]bool, len(r.t))
	for _, t := range list {
		for i := t.from; i < t.to; i++ {
			on[i] = t.member
		}
	}
	return on
}

// steady tells that all tiles are of one attitude and that the device hardly
// turned about other axes than the vertical in any.
func steady(list []tile, axis vector) bool {
	for _, t := range list {
		up := t.w.dot(axis)
		if !t.member || t.w.dot(t.w)-up*up > 36*degree*degree {
			return false
		}
	}
	return true
}

// tilts finds where the recorder is carried about: about other axes than the
// vertical it turns by more than a leaf lets it, on the mean over a third of a
// second. It gives the first row of each stretch and the row after its last.
func (r *Recording) tilts(o *order, up vertical) (stretches [][2]int) {
	n := len(o.row)
	wide := max(2, int(math.Round(0.15/math.Max(o.step, 1e-3))))
	rate := [3][]float64{r.rate[up.pick[0]], r.rate[up.pick[1]], r.rate[up.pick[2]]}
	still := r.stillOn(&rate, up.on)
	var sum vector
	add := func(i int, sign float64) {
		for k := range sum {
			sum[k] += sign * (rate[k][o.row[i]] - still[k])
		}
	}
	lo, hi := 0, 0
	for i := range n {
		for hi < min(n, i+wide+1) {
			add(hi, 1)
			hi++
		}
		for lo < i-wide {
			add(lo, -1)
			lo++
		}
		m := float64(hi - lo)
		w := vector{sum[0] / m, sum[1] / m, sum[2] / m}
		v := w.dot(up.axis)
		level := math.Sqrt(math.Max(0, w.dot(w)-v*v))
		if level < math.Max(6*degree, 0.35*math.Abs(v)) {
			continue
		}
		if k := len(stretches); k > 0 && stretches[k-1][1] >= i-3*wide {
			stretches[k-1][1] = min(n, i+wide)
		} else {
			stretches = append(stretches, [2]int{max(0, i-wide), min(n, i+wide)})
		}
	}
	return stretches
}

// stillOn is the median of the rates while the recorder was fixed to the leaf.
// About the axes square to the vertical, that is their bias.
func (r *Recording) stillOn(rate *[3][]float64, on []bool) (still vector) {
	stride := max(1, len(on)/1600)
	some := make([]float64, 0, 1601)
	for k := range still {
		some = some[:0]
		for i := 0; i < len(on); i += stride {
			if on[i] {
				some = append(some, rate[k][i])
			}
		}
		still[k], _ = middle(some, 1, nil)
	}
	return still
}
