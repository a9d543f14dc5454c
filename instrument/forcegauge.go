package instrument

import (
	"errors"
	"fmt"
	"math"

	"swingwright/quantity"
)

// Pulls are forces read off a gauge that was held against the leaf, one place and one
// thing after the other.
type Pulls struct {
	Forces []quantity.Force
	At     quantity.Measured[quantity.Length] // distance of the gauge from the hinge axis
	// Range is the gauge's full scale, Accuracy its limit of error as a share of that, and
	// Digit its last digit; 200 N, 0.5 % and 0.1 N when zero.
	Range    quantity.Force
	Accuracy quantity.Ratio
	Digit    quantity.Force
	// Askew is how far off square the gauge may have been held; 10 degrees when zero.
	Askew quantity.Angle
}

// Assumed of a gauge where nobody says.
const (
	usualRange    = 200 // N
	usualAccuracy = 0.005
	usualDigit    = 0.1 // N
	usualAskew    = 10 * quantity.Degree
	usualLever    = 0.01 // m, half-width of where the gauge may have stood
	// pullScatter is the scatter of one reading, as a share of it; assumed.
	pullScatter = 0.05
)

// Read tells which moment the forces come to. A gauge held askew by φ shows F·cos φ,
// which is always too little; with φ anywhere up to Askew the mean is F·sin φ/φ, by
// which it is corrected.
func (p Pulls) Read() (Read, error) {
	p = p.usual()
	err := errors.Join(positive("force", p.Forces), p.check())
	if err != nil {
		return Read{}, err
	}
	n := len(p.Forces)
	m, s := mean(p.Forces)
	shown, scatter := askew(float64(p.Askew))
	force, at := m/shown, float64(p.At.Value)
	lever := float64(p.At.U)
	if lever == 0 {
		lever = usualLever / math.Sqrt(3)
	}
	r := Read{Value: force * at, N: n, Corrected: (force - m) * at}
	df := float64(n - 1)
	if n < 2 {
		s, df = pullScatter*m, certain
	}
	r.Budget = []Term{
		{"the gauge's accuracy", at * float64(p.Accuracy) * float64(p.Range) / math.Sqrt(3), certain, false, "rectangular"},
		{"its last digit", at * float64(p.Digit) / math.Sqrt(12), certain, false, "rectangular"},
		{"where it stood", force * lever, certain, false, "rectangular, unless stated"},
		{"off square", at * force * scatter, certain, false, "any angle up to that allowed for"},
		{"scatter of the readings", at * s / math.Sqrt(float64(n)), df, true, "these readings"},
	}
	if n < 2 {
		r.Budget[4].Source = "one reading: a twentieth, assumed"
		r.Doubts = append(r.Doubts, "one reading tells nothing of its scatter: take three")
	}
	if largest := float64(p.Range); m < largest/20 {
		r.Doubts = append(r.Doubts, fmt.Sprintf("a gauge of %.0f N is coarse for %.3g N: take a smaller one", largest, m))
	}
	r.U, r.DF = combine(r.Budget)
	return r, nil
}

func (p Pulls) usual() Pulls {
	if p.Range == 0 {
		p.Range = usualRange
	}
	if p.Accuracy == 0 {
		p.Accuracy = usualAccuracy
	}
	if p.Digit == 0 {
		p.Digit = usualDigit
	}
	if p.Askew == 0 {
		p.Askew = usualAskew
	}
	return p
}

func (p Pulls) check() error {
	var all []error
	if !(p.At.Value > 0) {
		all = append(all, errors.New("where the gauge stood is not known: give its distance from the hinge pin"))
	}
	if !(p.Range > 0) || !(p.Accuracy > 0 && p.Accuracy < 1) || !(p.Digit > 0) {
		all = append(all, errors.New("range, accuracy and last digit of a gauge are above zero, the accuracy below 1"))
	}
	if !(p.Askew > 0 && p.Askew <= 45*quantity.Degree) {
		all = append(all, errors.New("a gauge held more than 45 degrees off square shows nothing of use"))
	}
	for _, f := range p.Forces {
		if f > p.Range {
			all = append(all, fmt.Errorf("%.4g N is beyond the gauge's range of %.4g N", float64(f), float64(p.Range)))
		}
	}
	return errors.Join(all...)
}

// askew is the mean and the standard deviation of cos φ for φ evenly anywhere between
// 0 and most: sin m/m, and E[cos²] = 1/2 + sin 2m/4m.
func askew(most float64) (shown, scatter float64) {
	shown = math.Sin(most) / most
	square := 0.5 + math.Sin(2*most)/(4*most)
	return shown, math.Sqrt(max(0, square-shown*shown))
}
