package drilling

import (
	"math"
	"strings"

	"swingwright/judge"
	"swingwright/opening"
	q "swingwright/quantity"
)

// Bolt is how long a fastener has to be.
type Bolt struct {
	Needed q.Measured[q.Length] // least length; unknown where the sheet or the survey does not tell
	Stock  q.Length             // the next length that is sold; 0 where none is
	// Unsure tells that the length needed, with its spread, straddles two stock
	// lengths: measure the leaf's thickness.
	Unsure bool
}

// bolt reckons the length of a fastener, after trade practice: through the leaf and
// what the head and the nut clamp (L = t + seats), or what the head clamps and the
// hold below the surface.
func (l *layer) bolt(h *Hole) (b Bolt) {
	s := h.Spec
	switch s.Fastener {
	case opening.Passage:
		return b
	case opening.ThroughBolt:
		t := l.o.Leaf.Thickness
		if !t.Known {
			return b
		}
		t = t.WithSpread(q.Inch / 64)
		b.Needed = q.Give(t.Value+s.Foot.Value+s.FarSeat.Value, t.U)
	default:
		if !s.Grip.Known {
			return b
		}
		b.Needed = q.Exactly(s.Foot.Value + s.Grip.Value)
	}
	metric := strings.HasPrefix(s.Thread, "M")
	b.Stock = Stock(b.Needed.Value, metric)
	k := judge.Policy{}.Coverage() // of the default risk: bolts are bought once
	spread := q.Length(k * float64(b.Needed.U))
	b.Unsure = Stock(b.Needed.Value-spread, metric) != Stock(b.Needed.Value+spread, metric)
	return b
}

// iso888 are the nominal lengths of metric bolts and screws, mm (ISO 888, from memory).
var iso888 = []float64{6, 8, 10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 80, 90, 100, 110, 120, 130, 140, 150}

// Stock is the shortest length sold that is not below the one needed: by ISO 888 for
// metric threads; for inch ones in quarters to 3 in and in halves to 6 in (common
// practice). 0 where nothing that long is sold, or nothing is needed.
func Stock(needed q.Length, metric bool) q.Length {
	const slack = q.Millimetre / 100 // a length that was reckoned is no longer than itself
	if !(needed > 0) {
		return 0
	}
	if metric {
		for _, mm := range iso888 {
			if at := q.Length(mm) * q.Millimetre; at >= needed-slack {
				return at
			}
		}
		return 0
	}
	step := q.Inch / 4
	if needed > 3*q.Inch+slack {
		step = q.Inch / 2
	}
	at := q.Length(math.Ceil(float64((needed-slack)/step))) * step
	if at > 6*q.Inch {
		return 0
	}
	return at
}
