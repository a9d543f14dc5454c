package tune

import (
	"errors"
	"fmt"
	"math"

	"swingwright/internal/lsq"
	"swingwright/internal/ode"
	"swingwright/quantity"
	"swingwright/swing"
)

// A Check is what an opening by hand tells of backcheck.
type Check struct {
	Onset, OnsetU quantity.Angle // leaf angle at which it takes over, in the middle
	// Viscous is its resistance at the pinion, all of it taken as viscous, and U its
	// standard uncertainty.
	Viscous, U quantity.Damping
	// Correlation is that of the onset with the logarithm of the resistance.
	Correlation quantity.Ratio
	Hand        quantity.Torque // with which the leaf was pushed, about the hinge axis
}

// Of an opening that is followed, assumed.
const (
	mostOff    = 0.6 * degree // root mean square, beyond which no even push made it
	mostCheckU = 0.5          // of the resistance, beyond which it is not told
)

// errUneven says why a hand's opening does not tell backcheck.
var errUneven = errors.New("this opening cannot tell how strong backcheck is: no even push makes it. Push again, from closed to well past backcheck, with one steady push")

// Backcheck finds backcheck, by least squares on the angle, from a curve of a leaf pushed
// open by hand with one steady push, with the model as fitted to its closings: hand,
// resistance, onset and begin together. It fails where no onset shows, and where no even
// push makes the curve, since a hand that slackens looks like backcheck. An operator holds
// its rate whatever resists: an opening under power cannot tell.
func Backcheck(c *Curve, known *swing.Values, link swing.Linkage) (Check, error) {
	at, _, err := BackcheckOnset(c)
	if err != nil {
		return Check{}, err
	}
	t, theta := opened(c)
	v := *known
	v[swing.CheckViscous], v[swing.CheckOrifice] = 0, 0
	m, err := swing.New(&v, link)
	if err != nil {
		return Check{}, err
	}
	psi, n, ok := m.Arm().Turn(float64(at))
	if !ok {
		return Check{}, errNoBackcheck
	}
	hand := float64(m.LargestHandMoment(0, at))
	sight := theta[len(theta)-1]
	var mover swing.Mover
	residuals := func(p, r []float64) bool {
		v[swing.CheckViscous], v[swing.CheckZone] = p[1], p[2]
		m, err := swing.New(&v, link)
		if err != nil {
			return false
		}
		run := memo{}
		mover.Watch = func(s *ode.Segment) { run.segments = append(run.segments, *s) }
		run.end = mover.Open(&m, quantity.Torque(hand+p[0]), 0, quantity.Angle(sight+10*degree), nil)
		read := reader{memo: &run}
		for i := range t {
			r[i] = (read.angle(t[i]-p[3]) - theta[i]) / c.U
		}
		return run.end.End != swing.Unfinished
	}
	best, cost := (*lsq.Result)(nil), math.Inf(1)
	for _, push := range []float64{3, 8, 20} {
		result, err := lsq.Solve(&lsq.Problem{
			Params: []lsq.Param{
				{Name: "push", Start: push, Low: 0.2, High: 300, Log: true, Step: 1e-3},
				{Name: "backcheck", Start: 10, Low: 0.01, High: 2000, Log: true, Step: 1e-3},
				{Name: "onset", Start: psi, Low: psi - n*12*degree, High: psi + n*12*degree, Step: 1e-3},
				{Name: "start", Start: t[0], Step: 2e-3},
			},
			Observed: len(t), Residuals: residuals, Loss: lsq.Loss{Kind: lsq.Huber, K: huber}, Tolerance: settled, Most: mostFits, Costly: true,
		})
		if err != nil {
			continue
		}
		sum := 0.0
		for _, e := range result.Residuals {
			sum += e * e
		}
		if sum < cost {
			best, cost = result, sum
		}
	}
	if best == nil || math.Sqrt(cost/float64(len(t)))*c.U > mostOff {
		return Check{}, errUneven
	}
	return told(best, c, &m, hand)
}

// told gathers what a fit tells of backcheck.
func told(fit *lsq.Result, c *Curve, m *swing.Model, hand float64) (Check, error) {
	size := make([]float64, len(fit.Residuals))
	for i, e := range fit.Residuals {
		size[i] = math.Abs(e)
	}
	// misfits that keep together count by their persistence, as with closings
	scale := max(1, 1.4826*median(size)) * math.Sqrt(persistence(fit.Residuals))
	cov := fit.Covariance()
	onset, ok := m.LeafAngle(quantity.Angle(fit.At[2]))
	if !ok {
		return Check{}, errUneven
	}
	_, n, _ := m.Arm().Turn(float64(onset))
	u := math.Sqrt(cov[1*4+1]) * scale
	out := Check{
		Onset: onset, OnsetU: quantity.Angle(math.Sqrt(cov[2*4+2]) * scale / n),
		Viscous: quantity.Damping(fit.At[1]), U: quantity.Damping(u * fit.At[1]),
		Correlation: quantity.Ratio(cov[1*4+2] / math.Sqrt(cov[1*4+1]*cov[2*4+2])), Hand: quantity.Torque(hand + fit.At[0]),
	}
	if !(u < mostCheckU) {
		return out, fmt.Errorf("this opening tells backcheck only to within %.0f %%: push again, harder and farther into it", 100*u)
	}
	return out, nil
}

// opened are the good samples of an opening, up to shortly before its largest angle.
func opened(c *Curve) (t, theta []float64) {
	t, theta = c.good()
	top := 0
	for i := range theta {
		if theta[i] > theta[top] {
			top = i
		}
	}
	n := top
	for n > 1 && theta[n-1] > theta[top]-pushBefore {
		n--
	}
	return t[:n], theta[:n]
}
