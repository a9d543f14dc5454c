package clearance

import (
	"fmt"

	q "swingwright/quantity"
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
// that misses by less than 1 µm counts as contact. Half-planes are met in
// closed form. Links are bounded by how their joints move, see Joints.
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
