package clearance

import (
	"fmt"
	"math"

	q "swingwright/quantity"
)

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
	mostLooks = 20_000
)

// A Touch is two bodies that touch, and where in the plan.
type Touch struct {
	// Moving rides on the leaf or is a link; Other is what it meets.
	Moving, Other string
	At            Point
}

// A Lost link goes out of reach at an angle, and is not looked at from there on.
type Lost struct {
	Link string
	From q.Angle
}

// A Swing is how far the leaf opens.
type Swing struct {
	// Angle is the largest opening angle up to which nothing touches: the
	// contact, or the end of the swing asked for.
	Angle q.Angle
	// Touches tells that Touch happens at Angle.
	Touches bool
	Touch   Touch
	// Joined are links that touch a body on the leaf from the start: they are
	// taken as fixed to it, and not looked at.
	Joined []Touch
	// Lost are links that go out of reach before Angle.
	Lost []Lost
}

// Sweep opens the leaf from one angle to another and stops at the first contact.
//
// It cannot step over a thin thing. Say the gap of a pair is d. A point in
// contact lies as far from the pin as the point of the other body that it
// meets, so it is no farther than v, the lesser of the two bodies' greatest
// distances. In turning by less than d/v it moves by less than d and cannot
// have closed a gap of d. Each step is d/v, so no contact lies before the angle
// that is returned, and there the gap is at most 1 µm. The true contact is
// within 0.01° of it where the bodies close at 6 mm or more per radian; a graze
// that misses by less than 1 µm counts as contact. Links are bounded otherwise, see Link.
//
// A body that touches something on the frame at the start, as the closed leaf
// does its stop, is let go if they part within one degree; otherwise that is the
// contact. Gaps tells what touches at the start.
func (s *Scene) Sweep(from, to q.Angle) Swing {
	return s.sweep(from, to, 0, func(*pair) bool { return true })
}

// KeepOff opens the leaf until anything that moves comes as near as keep to the
// one body of that name, which must be on the frame; nothing else is looked at.
// It fails when there is no such body.
func (s *Scene) KeepOff(name string, keep q.Length, from, to q.Angle) (Swing, error) {
	if !(keep >= 0) {
		return Swing{}, fmt.Errorf("clearance: the distance to keep from %q is %g m; give zero or more", name, float64(keep))
	}
	for i := range s.bodies {
		if b := &s.bodies[i]; b.name == name && b.on == OnFrame && b.joints == nil {
			return s.sweep(from, to, float64(keep), func(p *pair) bool { return p.other == b }), nil
		}
	}
	return Swing{}, fmt.Errorf("clearance: nothing on the frame is named %q; name a wall, stop or piece of furniture of the scene", name)
}

func (s *Scene) sweep(from, to q.Angle, keep float64, wanted func(*pair) bool) Swing {
	out := Swing{Angle: max(from, to)}
	for i := range s.pairs {
		p := &s.pairs[i]
		if !wanted(p) || p.apart(keep) {
			continue
		}
		run := p.run(float64(from), float64(out.Angle), keep)
		switch touch := (Touch{p.mover.name, p.other.name, run.at.point()}); run.end {
		case touched:
			out.Angle, out.Touches, out.Touch = q.Angle(run.theta), true, touch
		case joined:
			out.Joined = append(out.Joined, touch)
		case lost:
			out.lose(p.mover.name, q.Angle(run.theta))
		}
	}
	return out.trim()
}

func (s *Swing) lose(link string, from q.Angle) {
	for _, l := range s.Lost {
		if l.Link == link {
			return
		}
	}
	s.Lost = append(s.Lost, Lost{link, from})
}

// trim drops links that are lost only after the contact.
func (s Swing) trim() Swing {
	kept := s.Lost[:0]
	for _, l := range s.Lost {
		if l.From < s.Angle {
			kept = append(kept, l)
		}
	}
	s.Lost = kept
	return s
}

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
	if p.mover.joints != nil {
		return p.follow(theta, to, keep)
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
