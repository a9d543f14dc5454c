package lsq

import "math"

// A Kind is the shape of a loss.
type Kind uint8

// The losses.
const (
	// Square counts every residual by its square.
	Square Kind = iota
	// Huber counts residuals beyond K in proportion to their size (Huber, Ann. Math. Stat.
	// 35 (1964) 73-101): they pull, but no harder than one at K.
	Huber
	// Tukey lets go of residuals beyond K altogether (Beaton, Tukey, Technometrics 16
	// (1974) 147-185). It needs a start that is not far off.
	Tukey
)

// K at which a loss is 95 % as good as Square where there are no outliers (Holland,
// Welsch, Comm. Stat. A6 (1977) 813-827).
const (
	huberK = 1.345
	tukeyK = 4.685
)

// A Loss is how residuals count. The zero Loss is Square.
type Loss struct {
	Kind Kind
	// K is the size of residual at which the loss parts from Square; zero stands for the
	// usual 1.345 of Huber and 4.685 of Tukey.
	K float64
}

func (l Loss) k() float64 {
	switch {
	case l.K > 0:
		return l.K
	case l.Kind == Tukey:
		return tukeyK
	}
	return huberK
}

// Of is what a residual adds to the cost: r²/2 where Square.
func (l Loss) Of(r float64) float64 {
	k := l.k()
	switch {
	case l.Kind == Huber && math.Abs(r) > k:
		return k * (math.Abs(r) - k/2)
	case l.Kind == Tukey && math.Abs(r) > k:
		return k * k / 6
	case l.Kind == Tukey:
		u := 1 - r*r/(k*k)
		return k * k / 6 * (1 - u*u*u)
	}
	return r * r / 2
}

// Weight is the weight, 0 to 1, with which a residual would have to be squared to pull as
// it does: the derivative of Of over r.
func (l Loss) Weight(r float64) float64 {
	k := l.k()
	switch {
	case l.Kind == Huber && math.Abs(r) > k:
		return k / math.Abs(r)
	case l.Kind == Tukey && math.Abs(r) > k:
		return 0
	case l.Kind == Tukey:
		u := 1 - r*r/(k*k)
		return u * u
	}
	return 1
}
