package lsq

import (
	"errors"
	"fmt"
	"math"
)

// An End is how a search ended.
type End uint8

// The endings.
const (
	Settled End = iota // cost and parameters no longer changed
	Stuck              // no step made the cost less, though one should
	TooMany            // still on its way after the largest number of steps
)

var endNames = [...]string{"settled", "stuck", "too many steps"}

// String is the ending in words.
func (e End) String() string { return endNames[e] }

// errNoStart tells that there are no residuals to begin with.
var errNoStart = errors.New("lsq: the residuals do not exist where the search begins: start elsewhere")

// damping at the begin, and beyond which no step is worth trying.
const (
	firstDamping = 1e-3
	mostDamping  = 1e14
)

// search is a search under way.
type search struct {
	p       *Problem
	n, m    int       // residuals, parameters
	x       []float64 // as reckoned with
	outer   []float64 // memory for x in the parameters' own units
	r       []float64 // residuals at x
	cost    float64
	j       []float64 // derivatives of the residuals, by rows
	weighed []float64 // j with weights, turned into a triangle
	right   []float64 // and the right side
	scale   []float64 // largest length of each column so far
	free    []bool    // neither at a bound nor pushed out of it
	trial   []float64
	rTrial  []float64
	small   []float64 // the triangle over the damping
	evals   int
}

// Solve fits the parameters. It fails where Problem.Check does and where there are no
// residuals at the start.
func Solve(p *Problem) (*Result, error) {
	if err := p.Check(); err != nil {
		return nil, err
	}
	s := newSearch(p)
	if !s.residuals(s.x, s.r) {
		return nil, errNoStart
	}
	s.cost = s.costOf(s.r)
	end, steps, err := s.run()
	if err != nil {
		return nil, err
	}
	return s.result(end, steps), nil
}

func newSearch(p *Problem) *search {
	n, m := p.Observed+p.Priors, len(p.Params)
	s := &search{
		p: p, n: n, m: m, x: make([]float64, m), outer: make([]float64, m), r: make([]float64, n),
		j: make([]float64, n*m), weighed: make([]float64, n*m), right: make([]float64, n),
		scale: make([]float64, m), free: make([]bool, m), trial: make([]float64, m), rTrial: make([]float64, n),
		small: make([]float64, 2*m*m),
	}
	for i := range p.Params {
		s.x[i] = p.Params[i].inner(p.Params[i].Start)
	}
	return s
}

// residuals are those at x; false where one of them is no number.
func (s *search) residuals(x, r []float64) bool {
	s.evals++
	for i := range x {
		s.outer[i] = s.p.Params[i].outer(x[i])
	}
	if !s.p.Residuals(s.outer, r) {
		return false
	}
	for _, v := range r {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}

func (s *search) costOf(r []float64) float64 {
	sum := 0.0
	for i, v := range r {
		if i < s.p.Observed {
			sum += s.p.Loss.Of(v)
		} else {
			sum += v * v / 2
		}
	}
	return sum
}

// weight is that of residual i.
func (s *search) weight(i int, r float64) float64 {
	if i < s.p.Observed {
		return s.p.Loss.Weight(r)
	}
	return 1
}

// run takes steps until the search is over. The damping follows Nielsen, "Damping
// parameter in Marquardt's method", IMM-REP-1999-05, Technical University of Denmark.
func (s *search) run() (End, int, error) {
	tolerance, most := s.p.Tolerance, s.p.Most
	if tolerance == 0 {
		tolerance = 1e-10
	}
	if most == 0 {
		most = 200
	}
	damping, more := firstDamping, 2.0
	stale := 0 // steps since derivatives were taken
	for step := range most {
		if stale == 0 {
			if err := s.derive(!s.p.Costly); err != nil {
				return Stuck, step, err
			}
		}
		s.weigh()
		if stale == 0 && s.atBottom(tolerance) {
			return Settled, step, s.derive(true)
		}
		for {
			foreseen := s.try(damping)
			cost := math.Inf(1)
			if s.residuals(s.trial, s.rTrial) {
				cost = s.costOf(s.rTrial)
			}
			gain := s.cost - cost
			// at the bottom, gains are lost in the rounding, or the noise, of the cost
			tiny := foreseen >= 0 && foreseen <= tolerance*tolerance*s.cost && !(gain < -tolerance*s.cost)
			if gain > 0 || tiny {
				ratio := 1.0
				if foreseen != 0 { // else all are held at bounds
					ratio = gain / foreseen
				}
				damping *= max(1.0/3, 1-math.Pow(2*min(ratio, 1)-1, 3))
				damping, more = max(damping, 1e-16), 2
				settled := tiny || gain <= tolerance*s.cost && foreseen <= tolerance*s.cost && s.near(tolerance)
				if gain > 0 {
					s.accept(cost)
				}
				if settled && stale == 0 {
					return Settled, step + 1, s.derive(true)
				}
				stale++
				if !s.p.Costly || settled || gain <= 0 || ratio < poor || stale > mostStale {
					stale = 0
				}
				break
			}
			if stale > 0 {
				stale = 0 // perhaps it is the derivatives that are wrong
				break
			}
			damping *= more
			more *= 2
			if damping > mostDamping {
				end := Stuck
				if s.near(math.Sqrt(tolerance)) {
					end = Settled
				}
				return end, step + 1, s.derive(true)
			}
		}
	}
	return TooMany, most, s.derive(true)
}

// While derivatives are brought up to date without taking them: the gain over the one
// foreseen below which they are taken anew, and for how many steps they serve.
const (
	poor      = 0.3
	mostStale = 6
)

// accept takes the step that was tried. The derivatives are brought up to date so that
// they would have foreseen its residuals, and changed no more than that (Broyden, Math.
// Comp. 19 (1965) 577-593), steps measured by what they move.
func (s *search) accept(cost float64) {
	d, length := make([]float64, s.m), 0.0
	for k := range s.m {
		d[k] = s.trial[k] - s.x[k]
		length += d[k] * d[k] * s.scale[k] * s.scale[k]
	}
	if s.p.Costly && length > 0 {
		for i := range s.n {
			row, off := s.j[i*s.m:(i+1)*s.m], s.rTrial[i]-s.r[i]
			for k := range d {
				off -= row[k] * d[k]
			}
			for k := range d {
				row[k] += off * d[k] * s.scale[k] * s.scale[k] / length
			}
		}
	}
	copy(s.x, s.trial)
	copy(s.r, s.rTrial)
	s.cost = cost
}

// derive takes the derivatives of the residuals at x, by central differences; one-sided at
// a bound, where there are no residuals on the other side, and where half the work will
// do.
func (s *search) derive(central bool) error {
	up, down := make([]float64, s.n), make([]float64, s.n)
	for k := range s.m {
		q := &s.p.Params[k]
		low, high := q.box()
		x, h := s.x[k], q.step(s.x[k], s.unit(k))
		at := func(to float64, r []float64) (float64, bool) {
			if to < low || to > high {
				copy(r, s.r)
				return x, false
			}
			s.x[k] = to
			ok := s.residuals(s.x, r)
			s.x[k] = x
			if !ok {
				copy(r, s.r)
				return x, false
			}
			return to, true
		}
		above, ok1 := at(x+h, up)
		below, ok2 := x, false
		if central || !ok1 {
			below, ok2 = at(x-h, down)
		} else {
			copy(down, s.r)
		}
		if !ok1 && !ok2 {
			return fmt.Errorf("lsq: the residuals exist on neither side of %s = %g: take another start or a smaller step", q.Name, q.outer(x))
		}
		for i := range s.n {
			s.j[i*s.m+k] = (up[i] - down[i]) / (above - below)
		}
	}
	return nil
}

// unit is how far a parameter goes for the residuals to move by one, as far as known.
func (s *search) unit(k int) float64 {
	if s.scale[k] == 0 {
		return 0
	}
	return 1 / s.scale[k]
}

// weigh turns the weighted derivatives of the free parameters into a triangle.
func (s *search) weigh() {
	gradient := make([]float64, s.m)
	for i := range s.n {
		w := s.weight(i, s.r[i])
		for k := range s.m {
			gradient[k] += w * s.r[i] * s.j[i*s.m+k]
		}
	}
	for k := range s.m {
		low, high := s.p.Params[k].box()
		s.free[k] = !(s.x[k] <= low && gradient[k] > 0 || s.x[k] >= high && gradient[k] < 0)
	}
	for i := range s.n {
		w := math.Sqrt(s.weight(i, s.r[i]))
		s.right[i] = -w * s.r[i]
		for k := range s.m {
			v := 0.0
			if s.free[k] {
				v = w * s.j[i*s.m+k]
			}
			s.weighed[i*s.m+k] = v
		}
	}
	for k := range s.m {
		norm := 0.0
		for i := range s.n {
			norm = math.Hypot(norm, s.weighed[i*s.m+k])
		}
		s.scale[k] = max(s.scale[k], norm)
	}
	triangle(s.weighed, s.n, s.m, s.right)
}

// try puts into trial a step with a damping, and returns by how much it should make the
// cost less. A parameter that the step would take beyond a bound is put on it, and the
// step is looked for again in the others.
func (s *search) try(damping float64) float64 {
	m := s.m
	d, b, held := make([]float64, m), make([]float64, 2*m), make([]bool, m)
	for k := range m {
		held[k] = !s.free[k]
	}
	for range m + 1 {
		s.damped(damping, held, d, b)
		beyond := false
		for k := range m {
			low, high := s.p.Params[k].box()
			if to := s.x[k] + d[k]; !held[k] && (to < low || to > high) {
				d[k], held[k], beyond = max(low, min(high, to))-s.x[k], true, true
			}
		}
		if !beyond {
			break
		}
	}
	foreseen := 0.0
	for i := range m { // ½|b|² − ½|b − R·d|²
		rd := 0.0
		for k := i; k < m; k++ {
			rd += s.weighed[i*m+k] * d[k]
		}
		foreseen += rd * (s.right[i] - rd/2)
		low, high := s.p.Params[i].box()
		s.trial[i] = max(low, min(high, s.x[i]+d[i]))
	}
	return foreseen
}

// damped solves for the step d of the parameters that are not held; b is memory for the
// right side.
func (s *search) damped(damping float64, held []bool, d, b []float64) {
	m, a := s.m, s.small
	clear(a)
	clear(b)
	for i := range m {
		b[i] = s.right[i]
		for k := i; k < m; k++ {
			if held[k] {
				b[i] -= s.weighed[i*m+k] * d[k]
			} else {
				a[i*m+k] = s.weighed[i*m+k]
			}
		}
	}
	for k := range m {
		a[(m+k)*m+k] = math.Sqrt(damping) * max(s.scale[k], 1e-300)
	}
	step := make([]float64, m)
	triangle(a, 2*m, m, b)
	back(a, m, b, step)
	for k := range m {
		if !held[k] {
			d[k] = step[k]
		}
	}
}

// atBottom tells that no step at all is asked for.
func (s *search) atBottom(tolerance float64) bool {
	left := 0.0
	for i := range s.m {
		left = math.Hypot(left, s.right[i])
	}
	return left == 0 || left*left <= tolerance*tolerance*2*s.cost
}

// near tells that the step last tried moves no parameter by more than a share of the
// length that a residual of one corresponds to, or of its own size.
func (s *search) near(share float64) bool {
	for k := range s.m {
		moved := math.Abs(s.trial[k] - s.x[k])
		if moved*s.scale[k] > share*math.Sqrt(2*s.cost) && moved > share*math.Abs(s.x[k]) {
			return false
		}
	}
	return true
}
