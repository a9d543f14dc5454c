package tune

import (
	"fmt"
	"math"

	"swingwright/quantity"
)

// A Stretch is a part of a curve that the model cannot follow, left out of the fit.
type Stretch struct {
	Curve    int            // its place in the record
	T0, T1   quantity.Time  // on the curve's own clock
	From, To quantity.Angle // leaf angles at its ends
	Slower   bool           // than the model, as where a hand or the floor drags; else it was helped along
}

// String tells of the stretch.
func (s Stretch) String() string {
	how := "faster"
	if s.Slower {
		how = "slower"
	}
	return fmt.Sprintf("from %.0f to %.0f degrees, %.1f to %.1f s, the leaf went much %s than it does elsewhere: was it touched, or does something drag? left out",
		float64(s.From/quantity.Degree), float64(s.To/quantity.Degree), float64(s.T0), float64(s.T1), how)
}

// When a bin counts as one that the model cannot follow, and what is left out about it;
// assumed.
const (
	strays     = 5.0  // spreads of all bins
	strayLog   = 0.25 // a quarter off
	leftAhead  = 0.05 // s before
	leftBehind = 0.35 // s behind, in which the leaf finds back to its pace
	mostLeft   = 0.5  // of the bins: beyond, it is the model that is wrong
)

// touches finds the stretches of curves that the model cannot follow, by how far bins are
// off, and cuts the curves there. It reports false where that is so much that nothing is
// cut.
func (w *work) touches(bins []bin, off []float64) (left []Stretch, ok bool) {
	size := make([]float64, len(off))
	for i, e := range off {
		size[i] = math.Abs(e)
	}
	spread := 1.4826 * median(size) // of a normal distribution
	var out []bool
	strayed := 0
	for i, e := range off {
		stray := math.Abs(e) > max(strays*spread, strayLog, strays*bins[i].u)
		out = append(out, stray)
		if stray {
			strayed++
		}
	}
	if float64(strayed) > mostLeft*float64(len(off)) {
		return nil, false
	}
	for i := 0; i < len(bins); i++ {
		if !out[i] {
			continue
		}
		j := i
		for j+1 < len(bins) && out[j+1] && bins[j+1].curve == bins[i].curve {
			j++
		}
		left = append(left, Stretch{
			Curve: bins[i].curve, T0: quantity.Time(bins[i].t0 - leftAhead), T1: quantity.Time(bins[j].t1 + leftBehind),
			From: quantity.Angle(bins[i].from), To: quantity.Angle(bins[j].to), Slower: off[i] > 0,
		})
		i = j
	}
	for k, c := range w.curves {
		c.cut(k, left)
	}
	return left, true
}

// shortest is the least number of averages of a piece that is kept.
const shortest = 8

// cut leaves stretches out of a closing.
func (c *closing) cut(k int, left []Stretch) {
	if len(c.pieces) == 0 {
		return
	}
	stop := c.pieces[len(c.pieces)-1].end
	c.pieces = nil
	first := -1
	for _, s := range left {
		if s.Curve == k && float64(s.T1) >= c.t[stop-1] {
			c.shut = math.NaN()
		}
	}
	for i := range stop {
		in := true
		for _, s := range left {
			if s.Curve == k && c.t[i] >= float64(s.T0) && c.t[i] <= float64(s.T1) {
				in = false
			}
		}
		if in && first < 0 {
			first = i
		}
		if first >= 0 && (!in || i == stop-1) {
			end := i
			if in {
				end++
			}
			// a leaf at rest tells nothing by itself
			if end-first >= shortest && c.theta[first]-c.theta[end-1] > degree {
				c.pieces = append(c.pieces, piece{first, end})
			}
			first = -1
		}
	}
}
