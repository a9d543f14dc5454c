package tune

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"

	"swingwright/internal/lsq"
	"swingwright/quantity"
)

// A Point is what a valve was found to resist at one position.
type Point struct {
	Turns quantity.Turns
	// Resistance is the viscous resistance, or anything that goes in proportion to it,
	// such as the time of the valve's arc at one spring setting.
	Resistance float64
	U          quantity.Ratio // standard uncertainty, as a share
	// Oil is the oil's viscosity over that at the reference temperature, as with
	// swing.OilViscosity, where Resistance still holds its share; zero stands for 1.
	Oil quantity.Ratio
}

// Of valves, assumed.
const (
	eighth = quantity.Turns(1.0 / 8)
	// grain is the finest turn that a hand sets: about eleven degrees.
	grain = quantity.Turns(1.0 / 32)
	// hand is the spread of a position that was set and noted.
	hand = quantity.Turns(1.0 / 64)
	// apartLeast is how far positions lie apart of which a valve can be learned.
	apartLeast = quantity.Turns(1.0 / 16)
	// stops is where flow stops, counted from where the screw is felt to seat, while
	// nothing is learned, and seat the spread of that.
	stops = quantity.Turns(1.0 / 16)
	seat  = quantity.Turns(1.0 / 8)
)

// A Valve is a valve's law, a = c/(u − u_0), and b as the square of that, as far as it was
// learned: u turns from seated, u_0 where flow stops.
type Valve struct {
	Points int  // positions that it was learned from
	Known  bool // learned from two or more; else only which way and an eighth can be told
	// Shut is u_0 and how well it is known.
	Shut, ShutU quantity.Turns
	// Slope is c: resistance times turns beyond u_0.
	Slope float64
	// Wild lists the points, by their place, that do not go with the others.
	Wild []int

	cov [4]float64 // of ln c and u_0
}

// LearnValve learns a valve from what it was found to resist. shut is where its flow stops
// by what is known without a reading, as from a sheet; not Known, it is taken to be a
// sixteenth of a turn from where the screw seats, within an eighth. cov, if given, is the
// covariance of the logarithms of the resistances, by rows; it then stands for the points'
// own U. It fails where there are no points, or one that no valve has.
func LearnValve(points []Point, shut quantity.Measured[quantity.Turns], cov []float64) (Valve, error) {
	if err := checkPoints(points, cov); err != nil {
		return Valve{}, err
	}
	if !shut.Known {
		shut = quantity.Give(stops, seat)
	}
	shut = shut.WithSpread(seat)
	shut.U = max(shut.U, hand/4) // nobody knows it better
	n, lowest := len(points), points[0].Turns
	y := make([]float64, n)
	for i, p := range points {
		y[i] = math.Log(p.Resistance / oilOf(p.Oil))
		lowest = min(lowest, p.Turns)
	}
	ceiling := float64(lowest - grain)
	u0 := min(float64(shut.Value), ceiling-0.01)
	var result *lsq.Result
	for range 3 { // how much a hand's spread counts hangs on where flow stops
		white := whitener(points, cov, u0)
		problem := lsq.Problem{
			Params: []lsq.Param{
				{Name: "slope", Start: math.Exp(y[0]) * (float64(points[0].Turns) - u0), Log: true},
				{Name: "shut", Start: u0, Low: -3, High: ceiling},
			},
			Observed: n, Priors: 1, Loss: lsq.Loss{Kind: lsq.Huber, K: huber},
			Residuals: func(p, r []float64) bool {
				for i := range points {
					r[i] = y[i] - math.Log(p[0]/(float64(points[i].Turns)-p[1]))
				}
				white(r[:n])
				r[n] = (p[1] - float64(shut.Value)) / float64(shut.U)
				return true
			},
		}
		var err error
		if result, err = lsq.Solve(&problem); err != nil {
			return Valve{}, err
		}
		u0 = result.At[1]
	}
	v := Valve{Slope: result.At[0], Shut: quantity.Turns(u0)}
	copy(v.cov[:], result.Covariance())
	v.ShutU = quantity.Turns(math.Sqrt(v.cov[3]))
	v.Points, v.Known = positions(points)
	for i, w := range result.Weights[:n] {
		if w < 0.5 {
			v.Wild = append(v.Wild, i)
		}
	}
	return v, nil
}

func checkPoints(points []Point, cov []float64) error {
	var all []error
	if len(points) == 0 {
		return errors.New("a valve is learned from what it was found to resist: give one point at least")
	}
	if cov != nil && len(cov) != len(points)*len(points) {
		all = append(all, fmt.Errorf("%d covariances of %d points", len(cov), len(points)))
	}
	for i, p := range points {
		if !(p.Resistance > 0) || math.IsInf(p.Resistance, 0) || !(p.Turns > 0) || !(p.U > 0 || cov != nil) || !(p.Oil >= 0) {
			all = append(all, fmt.Errorf("point %d: resistance %g within %g at %g turns: give numbers above zero", i+1, p.Resistance, float64(p.U), float64(p.Turns)))
		}
	}
	return errors.Join(all...)
}

// positions counts the positions that lie apart, and tells whether they do enough to learn
// from.
func positions(points []Point) (n int, known bool) {
	low, high := points[0].Turns, points[0].Turns
	var seen []quantity.Turns
	for _, p := range points {
		low, high = min(low, p.Turns), max(high, p.Turns)
		fresh := true
		for _, s := range seen {
			fresh = fresh && math.Abs(float64(s-p.Turns)) >= float64(grain)
		}
		if fresh {
			seen = append(seen, p.Turns)
		}
	}
	return len(seen), high-low >= apartLeast
}

// whitener makes misfits independent with spread one: by the Cholesky factor of their
// covariance, that of the points with the hand's spread of each position.
func whitener(points []Point, cov []float64, u0 float64) func(r []float64) {
	n := len(points)
	c := mat.NewSymDense(n, nil)
	for i, p := range points {
		for j := range n {
			switch {
			case cov != nil:
				c.SetSym(i, j, cov[i*n+j])
			case i == j:
				c.SetSym(i, i, float64(p.U*p.U))
			}
		}
		set := float64(hand) / max(float64(p.Turns)-u0, float64(grain))
		c.SetSym(i, i, c.At(i, i)+set*set)
	}
	var chol mat.Cholesky
	chol.Factorize(c) // a covariance with something added to its diagonal
	var l mat.TriDense
	chol.LTo(&l)
	return func(r []float64) {
		for i := range n {
			for j := range i {
				r[i] -= l.At(i, j) * r[j]
			}
			r[i] /= l.At(i, i)
		}
	}
}

// At is what the valve resists at a position, as in its points, and the standard
// uncertainty as a share, with that of setting it. It is infinite where flow has stopped.
func (v *Valve) At(u quantity.Turns) (resistance float64, share quantity.Ratio) {
	open := float64(u - v.Shut)
	if !(open > 0) {
		return math.Inf(1), quantity.Ratio(math.Inf(1))
	}
	g := 1 / open
	variance := v.cov[0] + 2*g*v.cov[1] + g*g*(v.cov[3]+float64(hand*hand))
	return v.Slope / open, quantity.Ratio(math.Sqrt(variance))
}

// Ratio is by what factor the resistance changes from one position to another, and the
// standard uncertainty as a share, with that of setting the second.
func (v *Valve) Ratio(from, to quantity.Turns) (ratio, share quantity.Ratio) {
	a, b := float64(from-v.Shut), float64(to-v.Shut)
	if !(a > 0 && b > 0) {
		return quantity.Ratio(math.Inf(1)), quantity.Ratio(math.Inf(1))
	}
	g := 1/b - 1/a
	spread := math.Sqrt(g*g*v.cov[3] + float64(hand*hand)/(b*b))
	if from == to {
		spread = 0
	}
	return quantity.Ratio(a / b), quantity.Ratio(spread)
}

// Where the resistance is that of a position times a factor.
func (v *Valve) Where(from quantity.Turns, factor quantity.Ratio) quantity.Turns {
	return v.Shut + (from-v.Shut)/quantity.Turns(factor)
}

// mostOpen is how far a valve is opened at most, turns from seated: beyond, it hardly
// acts, and its screw may come out (common practice).
const mostOpen = quantity.Turns(2)

// Reach is between which positions a valve now at u may be left after the next turn: an
// eighth of a turn either way until it is learned (common practice), and never nearer to
// where flow stops than a sixteenth, or twice what that is uncertain by.
func (v *Valve) Reach(u quantity.Turns) (low, high quantity.Turns) {
	low = v.Shut + max(1.0/16, 2*v.ShutU)
	high = mostOpen
	if !v.Known {
		low, high = max(u-eighth, grain), min(u+eighth, mostOpen)
	}
	return min(low, u), max(high, u)
}
