package clearance

import (
	"errors"
	"slices"
)

// A Scene is a set of bodies made ready. It is never changed, so that many may use it at a time
// as long as the joints of its links allow it.
type Scene struct {
	bodies []Body
	pairs  []pair
}

// A pair is two bodies that could touch: one that moves and one that, seen from
// where it is fixed, stands still.
type pair struct {
	mover, other *Body
	// inLeaf is true where the other rides on the leaf; then a link is looked at as the leaf sees it.
	inLeaf bool
	// The least and greatest distance from the pin, m, of a body on the leaf and of the other.
	inner, reach, near, far float64
}

// NewScene takes bodies and pairs those that could ever touch: what rides on
// the leaf with what is on the frame, and links with both. Things on the same
// carrier, and two links, are never compared. It reports all that is wrong with
// the bodies.
func NewScene(bodies ...Body) (*Scene, error) {
	wrong := []error{checkNames(bodies)}
	for i := range bodies {
		wrong = append(wrong, bodies[i].check())
	}
	if err := errors.Join(wrong...); err != nil {
		return nil, err
	}
	s := &Scene{bodies: append([]Body(nil), bodies...)}
	for i := range s.bodies {
		for j := range s.bodies {
			s.join(&s.bodies[i], &s.bodies[j])
		}
	}
	// Where one pair stops the leaf the next need not be looked at, so the quickest go first.
	slices.SortStableFunc(s.pairs, func(a, b pair) int { return a.labour() - b.labour() })
	return s, nil
}

// join adds a pair where the two bodies can meet. A point that turns about the
// pin keeps its distance from it, so a body on the leaf meets only what has a
// part as near to the pin, and as far from it, as the body itself.
func (s *Scene) join(mover, other *Body) {
	moves := mover.joints != nil || mover.on == OnLeaf
	if !moves || other.joints != nil || !mover.band.Meets(other.band) {
		return
	}
	if mover.joints == nil && other.on == OnLeaf {
		return
	}
	p := pair{mover: mover, other: other, inLeaf: other.on == OnLeaf}
	p.near, p.far = other.shape.span()
	if mover.joints == nil {
		p.inner, p.reach = mover.shape.span()
	}
	s.pairs = append(s.pairs, p)
}

// labour ranks pairs by how long their sweep takes: a wall is met in closed form, a link goes in short steps.
func (p *pair) labour() int {
	switch {
	case p.mover.joints != nil:
		return 2
	case p.other.shape.half():
		return 0
	}
	return 1
}

// apart tells that a body on the leaf never comes as near as keep to the other.
func (p *pair) apart(keep float64) bool {
	return p.mover.joints == nil && (p.near-keep > p.reach || p.inner > p.far+keep)
}

// look measures the pair at leaf angle theta with room set aside round the
// other, as the other's carrier sees it. ok is false where a link is out of reach.
func (p *pair) look(theta, keep float64) (near, bool) {
	var room [16]vec
	mover := outline{round: p.mover.shape.round}
	var ok bool
	if mover.pts, ok = p.mover.place(room[:0], theta); !ok {
		return near{}, false
	}
	if p.inLeaf {
		for i, v := range mover.pts {
			mover.pts[i] = v.turned(-theta)
		}
	}
	other := p.other.shape
	other.round += keep
	return between(&mover, &other), true
}
