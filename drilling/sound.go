package drilling

import (
	"math"

	"swingwright/opening"
	q "swingwright/quantity"
)

// sound reports what is impossible about a hole by itself; false where its place
// cannot be reckoned with.
func (l *layer) sound(h *Hole) bool {
	s, finite := h.Spec, true
	for name, m := range map[string]q.Measured[q.Length]{"along": s.Along, "across": s.Across, "diameter": s.Diameter} {
		if x := float64(m.Value); !m.Known || math.IsNaN(x) || math.IsInf(x, 0) || x < 0 {
			finite = false
			l.problem(h, "give a length of zero or more", "%s is %v m", name, x)
		}
	}
	if !finite {
		h.Why = "its place or its size is no length"
		return false
	}
	if s.Diameter.Value <= 0 {
		l.problem(h, "give the drill's diameter", "diameter is %s", both(s.Diameter.Value))
	}
	if s.Pilot.Known && s.Pilot.Value > s.Diameter.Value {
		l.problem(h, "the pilot is the smaller one; are the two exchanged?", "pilot drill of %s for a hole of %s", both(s.Pilot.Value), both(s.Diameter.Value))
	}
	t := l.o.Leaf.Thickness
	if s.On == opening.LeafFace && s.Depth.Known && t.Known && s.Depth.Value >= t.Value {
		l.problem(h, "drill less deep, or let it go through", "%s deep in a leaf %s thick", both(s.Depth.Value), both(t.Value))
	}
	if s.Fastener == opening.ThroughBolt && s.On != opening.LeafFace {
		l.problem(h, "name another fastener", "a through-bolt in the frame has no other face to come out of")
	}
	return true
}

// onFace reports a hole that is not on its face, whole.
func (l *layer) onFace(f Face, h *Hole) {
	width, height := l.size(f)
	halfX, halfY := h.Half()
	for _, way := range []struct {
		at, r q.Length
		size  q.Measured[q.Length]
		name  string
	}{{h.At.X, halfX, width, "width"}, {h.At.Y, halfY, height, "height"}} {
		r := way.r
		switch {
		case way.size.Known && 2*r >= way.size.Value:
			l.problem(h, "check number and unit", "a hole of %s in a face whose %s is %s", both(2*r), way.name, both(way.size.Value))
		case way.at < r || way.size.Known && way.at > way.size.Value-r:
			over := max(r-way.at, way.at+r-way.size.Value)
			if !way.size.Known {
				over = r - way.at
			}
			l.problem(h, "check place, edge and hand", "it runs over the edge of the %s by %s", f, both(over))
		}
	}
}

// both prints a length in both systems, for problems, which do not know the reader.
func both(x q.Length) string {
	return q.FormatValue(x, q.US, -1) + " (" + q.FormatValue(x, q.SI, -1) + ")"
}
