package judge

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mathext"
)

// DefaultRisk is the risk of a Policy that names none: conformity is called
// when it is 95 % probable (ISO 14253-1:2017, default rule).
const DefaultRisk = 0.05

// A Policy is the decision rule that was agreed before measuring (ILAC-G8:09/2019,
// 4.2.3). The zero Policy is the default one.
type Policy struct {
	// Risk is the greatest allowed probability of a wrong call, one-sided,
	// above 0 and up to 0.5; 0 stands for DefaultRisk. At 0.5 there is no guard
	// band, and a value on the limit is right as often as wrong.
	Risk float64
}

// Check tells whether the risk is one that can be worked with. A policy that
// fails it decides nothing: all it judges is too close to call.
func (p Policy) Check() error {
	if r := p.risk(); r > 0 && r <= 0.5 {
		return nil
	}
	return fmt.Errorf("the risk of a wrong call is %v: choose one above 0 and up to 0.5, such as %v", p.Risk, DefaultRisk)
}

func (p Policy) risk() float64 {
	if p.Risk == 0 {
		return DefaultRisk
	}
	return p.Risk
}

// Coverage is the factor between the spread and the guard band when the spread
// is well known: the normal quantile, 1.645 for a risk of 5 %. It is infinite
// for a policy that fails Check.
func (p Policy) Coverage() float64 {
	if p.Check() != nil {
		return math.Inf(1)
	}
	return math.Sqrt2 * math.Erfcinv(2*p.risk())
}

// normalFrom is the number of degrees of freedom from which Student's t is
// taken as normal: the quantiles differ by less than 1e-6 there.
const normalFrom = 1e7

// CoverageDF is the factor when the spread itself was estimated, with nu
// degrees of freedom: the quantile of Student's t (JCGM 100:2008, G.3). Few
// readings make it large, 6.31 for nu = 1 at a risk of 5 %. It is infinite when
// nu is not above zero and for a policy that fails Check.
func (p Policy) CoverageDF(nu float64) float64 {
	switch {
	case !(nu > 0) || p.Check() != nil:
		return math.Inf(1)
	case nu >= normalFrom || p.risk() == 0.5:
		return p.Coverage()
	}
	// With x = nu/(nu+t²), both tails together hold I_x(nu/2, 1/2): Abramowitz
	// and Stegun, 26.7.1 and 26.5.27.
	x := mathext.InvRegIncBeta(nu/2, 0.5, 2*p.risk())
	return math.Sqrt(nu * (1 - x) / x)
}
