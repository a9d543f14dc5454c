package clearance

import "math"

// How a sweep looks. A gap of at most hair counts as contact; the survey is
// coarser by far.
const (
	hair = 1e-6 // m
	// Things that touch at the start, such as the closed leaf and its stop, are
	// given one degree to part, looked at every hundredth of a degree.
	partWithin = 1.0 * math.Pi / 180
	partStep   = 0.01 * math.Pi / 180
	// mostLooks ends a sweep of two bodies that scrape along each other, a
	// fraction of a millimetre apart all the way; they count as touching where it ends.
	mostLooks = 50_000
)

// An end is how the sweep of one pair ended.
type end uint8

const (
	cleared end = iota // at the end of the swing
	touched
	joined
	lost
)

// A run is the sweep of one pair.
type run struct {
	theta float64
	end   end
	at    vec // where they touch, in the plan
}

func (p *pair) run(from, to, keep float64) run {
	n, ok := p.look(from, keep)
	theta := from
	if ok && n.gap <= hair {
		if p.inLeaf {
			return run{from, joined, n.b.turned(from)}
		}
		if theta, ok = p.part(from, to, keep); !ok {
			return run{from, touched, n.b}
		}
	}
	switch {
	case theta >= to:
		return run{theta: to}
	case p.mover.joints != nil:
		return p.follow(theta, to, keep)
	case p.other.shape.half():
		return p.meetWall(theta, to, keep)
	}
	return p.turn(theta, to, keep)
}

// part gives the first angle at which bodies that touch at the start have
// parted; ok is false when they do not, or when a distance is to be kept.
func (p *pair) part(from, to, keep float64) (float64, bool) {
	if keep > 0 {
		return from, false
	}
	for theta := from + partStep; theta <= from+partWithin; theta += partStep {
		if theta >= to {
			return to, true
		}
		if n, ok := p.look(theta, keep); !ok || n.gap > hair {
			return theta, true
		}
	}
	return from, false
}

// turn advances a body on the leaf; Sweep tells why it misses nothing.
func (p *pair) turn(theta, to, keep float64) run {
	speed := math.Min(p.reach, p.far+keep) // m of travel per radian
	for range mostLooks {
		n, _ := p.look(theta, keep)
		if n.gap <= hair {
			return run{theta, touched, n.b}
		}
		if theta+n.gap/speed >= to {
			return run{theta: to}
		}
		theta += n.gap / speed
	}
	n, _ := p.look(theta, keep)
	return run{theta, touched, n.b}
}
