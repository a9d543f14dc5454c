package lsq

import "math"

// triangle reduces a matrix of n rows and p columns, n at least p, held by rows, to upper
// triangular form by Householder's reflections, and applies them to b. The triangle is
// left in the first p rows. A column without length is left as it is.
func triangle(a []float64, n, p int, b []float64) {
	for j := range p {
		norm := 0.0
		for i := j; i < n; i++ {
			norm = math.Hypot(norm, a[i*p+j])
		}
		if norm == 0 {
			continue
		}
		if a[j*p+j] > 0 {
			norm = -norm
		}
		// v = column − norm·e, with v's first element scaled out
		head := a[j*p+j] - norm
		for i := j + 1; i < n; i++ {
			a[i*p+j] /= head
		}
		beta := -head / norm // 2/(vᵀv)
		a[j*p+j] = norm
		reflect := func(at func(i int) *float64) {
			sum := *at(j)
			for i := j + 1; i < n; i++ {
				sum += a[i*p+j] * *at(i)
			}
			sum *= beta
			*at(j) -= sum
			for i := j + 1; i < n; i++ {
				*at(i) -= sum * a[i*p+j]
			}
		}
		for k := j + 1; k < p; k++ {
			reflect(func(i int) *float64 { return &a[i*p+k] })
		}
		if b != nil {
			reflect(func(i int) *float64 { return &b[i] })
		}
	}
	for i := range n {
		for j := range min(i, p) {
			a[i*p+j] = 0
		}
	}
}

// back solves R·x = b for the upper triangle of p rows and columns. An element of the
// diagonal that is zero gives a zero.
func back(r []float64, p int, b, x []float64) {
	for i := p - 1; i >= 0; i-- {
		sum := b[i]
		for k := i + 1; k < p; k++ {
			sum -= r[i*p+k] * x[k]
		}
		x[i] = 0
		if d := r[i*p+i]; d != 0 {
			x[i] = sum / d
		}
	}
}
