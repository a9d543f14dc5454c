package tune

import (
	"math"
	"slices"

	"swingwright/quantity"
)

const degree = float64(quantity.Degree)

// A closing is a curve made ready to be fitted: rests at either end cut short, samples
// averaged so that there are some hundreds.
type closing struct {
	curve    *Curve
	t, theta []float64 // s, rad
	u        []float64 // standard deviation of each average, rad
	scale    float64   // by which u is raised for what the model does not follow
	from     float64   // where the leaf was let go, rad
	run      int       // the run that follows it
	pieces   []piece
	// When the leaf was all but shut, s, and how well that is known; NaN where it did not
	// shut or the way there is left out. It stands for the last degree: angles there bend
	// too sharply at the frame for derivatives.
	shut, shutU float64
}

// shuts tells that the end of the closing was seen.
func (c *closing) shuts() bool { return !math.IsNaN(c.shut) && len(c.pieces) > 0 }

// A piece is a stretch of a closing over which the leaf was left to itself: the averages
// from first up to before end.
type piece struct{ first, end int }

// Rests and averages, assumed.
const (
	stirs      = 0.5 * degree // a leaf within this of its rest has hardly moved
	restBefore = 0.3          // s of the rest before a closing that are kept
	restAfter  = 0.3          // s of the rest behind
	lastWay    = 1 * degree   // before the frame, which one time stands for
	shutAt     = 0.5 * degree // where that is taken
	nearShut   = 1.5 * degree // a leaf that rests within this of closed is shut
	averages   = 300
	leastSpan  = 0.02 // s, the shortest stretch averaged
)

func newClosing(c *Curve) *closing {
	t, theta := c.good()
	out := &closing{curve: c, scale: 1}
	still := max(stirs, 4*c.U)
	// the rest from which it was let go
	n, mean := 0, 0.0
	for n < len(theta) && (n < 3 || math.Abs(theta[n]-mean) < still) {
		mean += (theta[n] - mean) / float64(n+1)
		n++
	}
	out.from = median(theta[:n])
	first := 0
	for first < n-1 && t[first] < t[n-1]-restBefore {
		first++
	}
	// the rest behind
	end := len(theta)
	for resting := theta[end-1]; end > first && math.Abs(theta[end-1]-resting) < still; {
		end--
	}
	stop := t[min(end, len(t)-1)] + restAfter
	for end < len(t) && t[end] <= stop {
		end++
	}
	out.average(t[first:end], theta[first:end])
	out.ends()
	return out
}

// ends finds when the leaf was shut, and drops what comes after.
func (c *closing) ends() {
	n := len(c.t)
	c.shut = math.NaN()
	if rest := c.rests(); math.Abs(rest) < nearShut {
		c.shut = c.passes(rest + shutAt)
		// the pace there is that from twice the last degree on
		if t := c.shut - c.passes(rest+shutAt+lastWay); t > 0 {
			c.shutU = math.Hypot(leastSpan/2, c.u[0]*t/lastWay)
		} else {
			c.shut = math.NaN()
		}
		for i := range c.theta {
			if c.theta[i] < rest+lastWay {
				n = i
				break
			}
		}
	}
	if n >= shortest {
		c.pieces = []piece{{0, n}}
	}
}

// good are the curve's valid samples.
func (c *Curve) good() (t, theta []float64) {
	if c.Valid == nil {
		return c.T, c.Theta
	}
	for i, ok := range c.Valid {
		if ok {
			t, theta = append(t, c.T[i]), append(theta, c.Theta[i])
		}
	}
	return t, theta
}

// average takes the mean of all samples in stretches of one length.
func (c *closing) average(t, theta []float64) {
	if len(t) == 0 {
		return
	}
	width := max(leastSpan, (t[len(t)-1]-t[0])/averages)
	for i := 0; i < len(t); {
		j, sumT, sum := i, 0.0, 0.0
		for j < len(t) && t[j] < t[i]+width {
			sumT, sum = sumT+t[j], sum+theta[j]
			j++
		}
		n := float64(j - i)
		c.t, c.theta, c.u = append(c.t, sumT/n), append(c.theta, sum/n), append(c.u, c.curve.U/math.Sqrt(n))
		i = j
	}
}

// passes is when the leaf first passes an angle on its way down, s; NaN if it does not.
func (c *closing) passes(theta float64) float64 {
	for i := 1; i < len(c.t); i++ {
		if c.theta[i] <= theta && c.theta[i-1] > theta {
			return c.t[i-1] + (c.t[i]-c.t[i-1])*(c.theta[i-1]-theta)/(c.theta[i-1]-c.theta[i])
		}
	}
	return math.NaN()
}

// rests is where the leaf came to rest, rad.
func (c *closing) rests() float64 { return median(c.theta[max(0, len(c.theta)-5):]) }

func median(x []float64) float64 {
	s := slices.Clone(x)
	slices.Sort(s)
	n := len(s)
	if n == 0 {
		return math.NaN()
	}
	return (s[(n-1)/2] + s[n/2]) / 2
}
