package propagate

import "math"

// Shares tells, for every input, how much of the variance over the draws of an
// outcome it explains: the square of their linear correlation, 0 to 1. outcome
// has a value per draw, in their order; draws in which it is not finite are left
// out. Where inputs act independently and about linearly the shares add up to 1;
// a share below about 4/n is noise.
func (d *Draws) Shares(outcome []float64) []float64 {
	shares := make([]float64, d.ins)
	n, sum := 0., 0.
	for _, y := range outcome {
		if finite(y) {
			n++
			sum += y
		}
	}
	for i := range shares {
		mean := 0.
		for k, y := range outcome {
			if finite(y) {
				mean += d.in[k*d.ins+i] / n
			}
		}
		var xx, xy, yy float64
		for k, y := range outcome {
			if finite(y) {
				dx, dy := d.in[k*d.ins+i]-mean, y-sum/n
				xx, xy, yy = xx+dx*dx, xy+dx*dy, yy+dy*dy
			}
		}
		if xx > 0 && yy > 0 {
			shares[i] = math.Min(1, xy*xy/(xx*yy))
		}
	}
	return shares
}
