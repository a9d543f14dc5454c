package clearance

import (
	"errors"
	"fmt"
	"math"
)

// What a scene may hold; far beyond any doorway, and enough to bound the work.
const (
	farOff     = 100.0 // m, the largest coordinate and radius
	mostPoints = 100   // corners of one polygon
)

// check tells all that is wrong with a body.
func (b *Body) check() error {
	var wrong []error
	note := func(format string, args ...any) {
		wrong = append(wrong, fmt.Errorf("clearance: %q: "+format, append([]any{b.name}, args...)...))
	}
	if b.name == "" {
		note("a body has no name; give it one, contacts are told by it")
	}
	if b.on > OnLeaf {
		note("carrier %d is neither OnFrame nor OnLeaf", b.on)
	}
	if n := len(b.shape.pts); n == 0 || n > mostPoints {
		note("it has %d corners; give 1 to %d", n, mostPoints)
	}
	for i, p := range b.shape.pts {
		if !(math.Abs(p.x) <= farOff && math.Abs(p.y) <= farOff) {
			note("corner %d is at (%g, %g) m; give finite places within %g m of the hinge pin", i+1, p.x, p.y, farOff)
		}
	}
	if r := b.shape.round; !(r >= 0 && r <= farOff) {
		note("its radius or half width is %g m; give one from 0 to %g m", r, farOff)
	}
	if d := b.shape.solid; b.shape.half() && !(math.Abs(d.length()-1) < 1e-9) {
		note("the direction toward which it lies is no finite angle")
	}
	if l := b.band; !(l == Band{}) && !(l.From < l.To) {
		note("it reaches from %g m to %g m above the floor; give a lower height first", float64(l.From), float64(l.To))
	}
	if len(wrong) == 0 {
		if i, j, ok := b.shape.crosses(); ok {
			note("its edges from corner %d and from corner %d cross; give the corners in order round the outline", i+1, j+1)
		}
	}
	return errors.Join(wrong...)
}

// crosses finds two edges of the outline that cross each other.
func (o *outline) crosses() (int, int, bool) {
	for i := range edges(o.pts) {
		a, b := edge(o.pts, i)
		for j := range i {
			c, d := edge(o.pts, j)
			if _, ok := crossing(a, b, c, d); ok {
				return j, i, true
			}
		}
	}
	return 0, 0, false
}

// checkNames tells which names are used more than once.
func checkNames(bodies []Body) error {
	var wrong []error
	first := make(map[string]int, len(bodies))
	for i := range bodies {
		name := bodies[i].name
		if j, ok := first[name]; ok && name != "" {
			wrong = append(wrong, fmt.Errorf("clearance: bodies %d and %d are both named %q; give each a name of its own", j+1, i+1, name))
			continue
		}
		first[name] = i
	}
	return errors.Join(wrong...)
}
