package instrument

import "math"

// mostReadings is the number of readings up to which more of them are advised.
const mostReadings = 30

// More is how many readings in all would decide a margin that is too close to call, if
// it stayed where it is: the least number with which the guard band is no larger than
// the margin. fixed is the standard uncertainty of the margin from all else, which
// more readings do not change; coverage is the factor between guard band and standard
// uncertainty for its degrees of freedom. It is 0 where no number up to 30 is enough.
func (r Read) More(margin, fixed float64, coverage func(df float64) float64) int {
	for n := r.N + 1; n <= mostReadings; n++ {
		u, df := r.with(n, fixed)
		if math.Abs(margin) >= coverage(df)*u {
			return n
		}
	}
	return 0
}

// with is the uncertainty if there were n readings.
func (r Read) with(n int, fixed float64) (u, df float64) {
	budget := append([]Term{{U: fixed, DF: certain}}, r.Budget...)
	for i := range budget {
		if t := &budget[i]; t.Falls {
			t.U *= math.Sqrt(float64(r.N) / float64(n))
			if !math.IsInf(t.DF, 1) {
				t.DF = float64(n - 1)
			}
		}
	}
	return combine(budget)
}
