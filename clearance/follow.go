package clearance

import "math"

// How a link is followed.
const (
	longStep  = 2.0 * math.Pi / 180 // rad
	shortStep = 1e-9                // rad; joints that still seem to move farther than the gap are taken to jump into it
	reachStep = 1e-5                // rad, how closely the end of a link's reach is found
)

// follow advances a link. How its joints move is known at single angles only,
// so each step is looked at in three places and taken when neither end can have
// strayed as far as the gap: by half as much again as it strays on the parabola
// through the three. That holds for every arm whose joints move smoothly over
// two degrees; steps are never longer, and shrink with the gap.
func (p *pair) follow(theta, to, keep float64) run {
	n, ok := p.look(theta, keep)
	if !ok {
		return run{theta: theta, end: lost}
	}
	step := longStep
	for range mostLooks {
		if n.gap <= hair {
			break
		}
		if theta >= to {
			return run{theta: to}
		}
		step = math.Min(math.Min(step, longStep), to-theta)
		stray, ok := p.stray(theta, step)
		if !ok && step <= reachStep {
			return run{theta: theta, end: lost}
		}
		if !ok || stray >= n.gap {
			if step /= 2; step < shortStep {
				break
			}
			continue
		}
		theta += step
		if to-theta < shortStep {
			theta = to
		}
		if n, ok = p.look(theta, keep); !ok {
			return run{theta: theta, end: lost}
		}
		step *= 2
	}
	at := n.b
	if p.inLeaf {
		at = at.turned(theta)
	}
	return run{theta, touched, at}
}

// stray bounds how far any point of a link gets from where it is at theta
// within a step, as the other's carrier sees it. A point between the ends strays no farther than they do.
func (p *pair) stray(theta, step float64) (float64, bool) {
	a0, b0, ok0 := p.ends(theta)
	a1, b1, ok1 := p.ends(theta + step/2)
	a2, b2, ok2 := p.ends(theta + step)
	return 1.5 * math.Max(bow(a0, a1, a2), bow(b0, b1, b2)), ok0 && ok1 && ok2
}

func (p *pair) ends(theta float64) (vec, vec, bool) {
	a, b, ok := p.mover.ends(theta)
	if p.inLeaf {
		a, b = a.turned(-theta), b.turned(-theta)
	}
	return a, b, ok
}

// bow bounds the distance from x0 to any point of the parabola through three
// points at even times: the larger chord, and what the curve adds between the points.
func bow(x0, x1, x2 vec) float64 {
	chord := math.Max(x1.minus(x0).length(), x2.minus(x0).length())
	second := x0.plus(x2).minus(x1.times(2))
	return chord + second.length()/8
}
