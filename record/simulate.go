package record

import (
	"math"
	"math/rand/v2"
	"slices"

	"swingwright/quantity"
)

// Options describe the recorder. The zero value of each but Rate is a recorder
// without that fault.
type Options struct {
	Seed uint64
	// Rate is how many samples it takes a second.
	Rate float64
	// Jitter is the standard deviation of the instants at which it takes them,
	// which its stamps tell.
	Jitter quantity.Time
	// NoiseDensity is that of its rates, rad/s over √Hz; 0.004 to 0.015 deg/s over
	// √Hz are usual (from memory).
	NoiseDensity quantity.AngularSpeed
	// Bias is the error of its rates about its own three axes, and BiasDrift by how
	// much it grows per second.
	Bias, BiasDrift [3]quantity.AngularSpeed
	// Rounding is the step to which rates are rounded; browsers round to 0.1 deg/s
	// (W3C Device Orientation and Motion).
	Rounding quantity.AngularSpeed
	// Scale is the relative error of its rates.
	Scale quantity.Ratio
	// Attitude turns the leaf's axes (along the leaf, across it, up) into those of
	// the device, as a quaternion; nil draws one from the seed, and which way the
	// leaf opens.
	Attitude *[4]float64
	// Slip is by how much the device turns about its own x axis in the middle of
	// the recording.
	Slip quantity.Angle
	// Touches is how many times a hand knocks the resting device.
	Touches int
	// Carried is how long it is carried about before it is fixed to the leaf, and
	// after it is taken off; the course begins after the first.
	Carried quantity.Time
	// DropOuts is how many gaps there are, DropOut how long each is.
	DropOuts int
	DropOut  quantity.Time
	// Limit is the largest rate that it can tell; 0 for none.
	Limit quantity.AngularSpeed
	// Style is how it writes its file.
	Style Style
}

// sample is what the recorder took at one instant, in SI.
type sample struct {
	t     float64
	rate  [3]float64
	accel [3]float64
}

// Simulate records a course and writes it as a file.
func Simulate(c *Course, o Options) []byte { return o.Style.write(take(c, o)) }

// take takes the samples, times from the first.
func take(c *Course, o Options) []sample {
	d := rand.New(rand.NewPCG(o.Seed, 0x7ace))
	turn, sense := attitude(d, o.Attitude)
	out := o.carry(d, turn, -1)
	out = append(out, o.fixed(d, c, turn, sense)...)
	for _, x := range o.carry(d, turn, 1) {
		x.t += float64(c.Lasts())
		out = append(out, x)
	}
	for i := range out {
		out[i].t += float64(o.Carried)
	}
	return out
}

// fixed takes samples while the recorder is fixed to the leaf.
func (o *Options) fixed(d *rand.Rand, c *Course, turn [3][3]float64, sense float64) (out []sample) {
	knocks := o.knocks(d, c)
	gaps := o.gaps(d, c)
	end := float64(c.Lasts())
	for n := 0; ; n++ {
		t := float64(n)/o.Rate + float64(o.Jitter)*clamp(d.NormFloat64(), 3)
		if k := len(out); k > 0 {
			t = math.Max(t, out[k-1].t+1e-5)
		}
		if t = math.Max(t, 0); t > end {
			return out
		}
		x := o.sample(d, c, t, turn, sense, knocks)
		if o.Slip != 0 && t > end/2 {
			x.rate, x.accel = about(x.rate, float64(o.Slip)), about(x.accel, float64(o.Slip))
		}
		if !inside(gaps, t) {
			out = append(out, x)
		}
	}
}

// carry takes samples while the recorder is carried about: before the course, way
// -1, at times below zero, or after it, way 1. It sways about all its axes, and
// gravity turns in it as it does.
func (o *Options) carry(d *rand.Rand, turn [3][3]float64, way float64) (out []sample) {
	if o.Carried <= 0 {
		return nil
	}
	var most, beat [3]float64
	for k := range 3 {
		most[k], beat[k] = (30+60*d.Float64())*float64(quantity.Degree), 1+3*d.Float64()
	}
	g := [3]float64{quantity.StandardGravity * turn[0][2], quantity.StandardGravity * turn[1][2], quantity.StandardGravity * turn[2][2]}
	h := 1 / o.Rate
	for n := 1; float64(n)*h < float64(o.Carried); n++ {
		x := sample{t: way * float64(n) * h}
		for k := range 3 {
			x.rate[k] = most[k] * math.Sin(beat[k]*float64(n)*h)
		}
		w := x.rate // the device turns by w, and gravity in it by -w
		g = [3]float64{
			g[0] - way*h*(w[1]*g[2]-w[2]*g[1]), g[1] - way*h*(w[2]*g[0]-w[0]*g[2]), g[2] - way*h*(w[0]*g[1]-w[1]*g[0]),
		}
		size := math.Sqrt(g[0]*g[0]+g[1]*g[1]+g[2]*g[2]) / quantity.StandardGravity
		for k := range 3 {
			g[k] /= size
			x.accel[k] = g[k]
			x.rate[k] += float64(o.Bias[k])
		}
		out = append(out, x)
	}
	if way < 0 {
		slices.Reverse(out)
	}
	return out
}

// sample is one sample at time t.
func (o *Options) sample(d *rand.Rand, c *Course, t float64, turn [3][3]float64, sense float64, knocks []float64) sample {
	_, rate := c.At(quantity.Time(t))
	_, soon := c.At(quantity.Time(t + 0.001))
	x := sample{t: t}
	const radius = 0.7 // of the device from the hinge axis, m
	w := float64(rate)
	push := clamp((float64(soon)-w)/0.001*radius, 5) // a stop is no infinite push
	accel := [3]float64{-w * w * radius, push, quantity.StandardGravity}
	sigma := float64(o.NoiseDensity) * math.Sqrt(o.Rate/2) // white up to half the rate
	for k := range 3 {
		v := turn[k][2]*sense*w*(1+float64(o.Scale)) + float64(o.Bias[k]) + float64(o.BiasDrift[k])*t + sigma*d.NormFloat64()
		for _, at := range knocks {
			v += knock(t-at) * (1 - 0.3*float64(k))
		}
		if limit := float64(o.Limit); limit > 0 {
			v = clamp(v, limit)
		}
		if q := float64(o.Rounding); q > 0 {
			v = q * math.Round(v/q)
		}
		x.rate[k] = v
		for j := range 3 {
			x.accel[k] += turn[k][j] * accel[j]
		}
		x.accel[k] = 0.01 * math.Round(100*(x.accel[k]+0.03*d.NormFloat64()))
	}
	return x
}

func clamp(x, limit float64) float64 { return math.Max(-limit, math.Min(limit, x)) }

// knock is the rate that a tap makes, rad/s: it swings out once and back.
func knock(t float64) float64 {
	const lasts, most = 0.08, 4 * float64(quantity.Degree)
	if t < 0 || t > lasts {
		return 0
	}
	return most * math.Sin(2*math.Pi*t/lasts)
}

// knocks are when a hand knocks, while the leaf rests.
func (o *Options) knocks(d *rand.Rand, c *Course) (at []float64) {
	for try := 0; len(at) < o.Touches && try < 1000; try++ {
		t := d.Float64() * float64(c.Lasts())
		still := true
		for x := t - 0.4; x < t+0.4; x += 0.05 {
			_, rate := c.At(quantity.Time(x))
			still = still && rate == 0 && x > 0 && x < float64(c.Lasts())
		}
		if still {
			at = append(at, t)
		}
	}
	return at
}

func (o *Options) gaps(d *rand.Rand, c *Course) (gaps [][2]float64) {
	for range o.DropOuts {
		t := d.Float64() * float64(c.Lasts())
		gaps = append(gaps, [2]float64{t, t + float64(o.DropOut)})
	}
	return gaps
}

func inside(gaps [][2]float64, t float64) bool {
	for _, g := range gaps {
		if t > g[0] && t < g[1] {
			return true
		}
	}
	return false
}

// attitude is a turn as a matrix, of a quaternion that is given or drawn evenly,
// and the sense in which the leaf opens about the vertical.
func attitude(d *rand.Rand, given *[4]float64) (m [3][3]float64, sense float64) {
	q := [4]float64{d.NormFloat64(), d.NormFloat64(), d.NormFloat64(), d.NormFloat64()}
	sense = 1
	if d.Float64() < 0.5 {
		sense = -1
	}
	if given != nil {
		q, sense = *given, 1
	}
	n := math.Sqrt(q[0]*q[0] + q[1]*q[1] + q[2]*q[2] + q[3]*q[3])
	w, x, y, z := q[0]/n, q[1]/n, q[2]/n, q[3]/n
	return [3][3]float64{
		{1 - 2*(y*y+z*z), 2 * (x*y - w*z), 2 * (x*z + w*y)},
		{2 * (x*y + w*z), 1 - 2*(x*x+z*z), 2 * (y*z - w*x)},
		{2 * (x*z - w*y), 2 * (y*z + w*x), 1 - 2*(x*x+y*y)},
	}, sense
}

// about turns a vector about x.
func about(v [3]float64, a float64) [3]float64 {
	s, c := math.Sincos(a)
	return [3]float64{v[0], c*v[1] - s*v[2], s*v[1] + c*v[2]}
}
