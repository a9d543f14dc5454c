package drilling

import (
	"fmt"
	"math"
	"slices"

	"swingwright/judge"
	"swingwright/opening"
	q "swingwright/quantity"
)

// Assumed of the work and of what was surveyed without a spread, as standard
// uncertainties.
const (
	// Marking is how far a hole's middle comes from where the template has it, with a
	// template held to its edges and a centre punch.
	Marking = q.Millimetre / 2
	taped   = q.Inch / 16
	thick   = q.Inch / 32
	hung    = q.Inch / 8 // gap between leaf and hinge jamb where nobody gauged it (common practice)
)

// Layout is where the holes of an opening come to.
type Layout struct {
	Sides    []Laid // the faces that have holes, in the order of the patterns
	Unplaced []Hole // holes whose place cannot be told; Why says what is missing
	// Problems are what makes the patterns impossible, all of it.
	Problems []Problem
	// Missing is what has to be surveyed first, and why.
	Missing []opening.Gap
	// Cautions belong on every paper that shows the holes.
	Cautions []Caution
	// Notes say what was assumed.
	Notes []string
	// Exit is how far a hole through the leaf may come out from its place on the other
	// face, and Tilt the angle off square that it was reckoned for; unknown where the
	// thickness is.
	Exit q.Measured[q.Length]
	Tilt q.Angle
	// HandKnown tells that templates may be drawn.
	HandKnown bool
}

// Laid is one face with its holes.
type Laid struct {
	Face          Face
	HingesLeft    bool
	Width, Height q.Measured[q.Length]
	Holes         []Hole
	Old           []Old
	Inside        []Region
}

// Hole is one hole at its place.
type Hole struct {
	Mark    string // as its template has it
	Of      string // what it is for
	Spec    *opening.Hole
	Planned bool // false for a hole of what hangs there already
	// Through tells a hole that comes out on the other face; Transferred that this is
	// where it comes out.
	Through, Transferred bool
	At                   Place
	U                    q.Length // standard uncertainty of either coordinate, in what was measured and in marking
	Diameter             q.Length // on this face
	Pilot                q.Length
	Bolt                 Bolt
	Checks               []Check
	Why                  string // of a hole that could not be placed
}

// Half is how far the hole reaches from its middle along, and across.
func (h *Hole) Half() (along, across q.Length) {
	along, across = h.Diameter/2, h.Diameter/2
	if h.Spec.Shape == opening.CutOut && h.Spec.Width.Known {
		along = h.Spec.Width.Value / 2
	}
	return along, across
}

// Size is how large the hole is on this face, in the words for lengths that are given:
// its diameter, with its shape where it is not round.
func (h *Hole) Size(words func(q.Length) string) string {
	text, shape := words(h.Diameter), h.Spec.Shape
	switch along, _ := h.Half(); {
	case shape == opening.CutOut:
		text += " × " + words(2*along) + " cut-out"
	case shape != "" && shape != "round":
		text += " " + string(shape)
	}
	return text
}

// Name tells the hole among all.
func (h *Hole) Name() string { return h.Mark + " of " + h.Of }

// Depth is how deep the hole goes from this face, or in words where no length tells it.
func (h *Hole) Depth() (q.Length, string) {
	switch s := h.Spec; {
	case h.Transferred:
		return 0, "to meet the pilot"
	case h.Through:
		return 0, "through"
	case s.Depth.Known:
		return s.Depth.Value, ""
	case s.On == opening.LeafFace && s.Grip.Known:
		return s.Grip.Value, ""
	}
	return 0, "through the sheet"
}

// Problem is something that makes a pattern impossible.
type Problem struct {
	Hole  string // which hole
	Found string // what is wrong, in numbers
	Hint  string // how to mend it
}

func (p Problem) Error() string { return p.Hole + ": " + p.Found + "; " + p.Hint }

// layer makes one Layout.
type layer struct {
	*Layout
	o      *opening.Opening
	policy judge.Policy
}

// Lay lays out the holes of an opening: those to be drilled, and those that are
// there. It never fails: what cannot be is among the problems, with all else laid out.
func Lay(o *opening.Opening, sheets *opening.Sheets, policy judge.Policy) *Layout {
	l := layer{Layout: &Layout{Tilt: 1 * q.Degree, HandKnown: o.Frame.Hand != ""}, o: o, policy: policy}
	if o.Drilling.Tilt.Known {
		l.Tilt = o.Drilling.Tilt.Value
	}
	if t := o.Leaf.Thickness; t.Known {
		l.Exit = q.Exactly(ExitError(t.Value, l.Tilt))
	}
	for _, f := range opening.FixedWith(o, sheets) {
		for i := range f.Holes {
			l.place(&f, &f.Holes[i])
		}
	}
	for i := range l.Sides {
		l.surround(&l.Sides[i])
	}
	for i := range l.Sides {
		l.check(&l.Sides[i])
	}
	l.Missing = opening.MissingForHoles(o, sheets)
	l.cautions()
	return l.Layout
}

// Planned counts the holes that are to be drilled, each once.
func (l *Layout) Planned() (n int) {
	for i := range l.Sides {
		for k := range l.Sides[i].Holes {
			if h := &l.Sides[i].Holes[k]; h.Planned && !h.Transferred {
				n++
			}
		}
	}
	for i := range l.Unplaced {
		if l.Unplaced[i].Planned {
			n++
		}
	}
	return n
}

// ExitError is how far a hole drilled off square by an angle comes out from its place
// behind a thickness: t·tan(tilt).
func ExitError(thickness q.Length, tilt q.Angle) q.Length {
	return q.Length(float64(thickness) * math.Tan(float64(tilt)))
}

// place puts one hole of a pattern on its face, and on the other where it goes through.
func (l *layer) place(f *opening.Fixed, spec *opening.Hole) {
	face := Face{spec.On, f.Face(spec)}
	h := Hole{
		Mark: spec.Mark, Of: f.What(), Spec: spec, Planned: f.Planned,
		Diameter: spec.Diameter.Value, Pilot: pilot(spec),
		Through: spec.On == opening.LeafFace && (spec.Fastener == opening.ThroughBolt || spec.Fastener == opening.Passage && !spec.Depth.Known),
	}
	if !l.sound(&h) {
		l.Unplaced = append(l.Unplaced, h)
		return
	}
	var along, across q.Measured[q.Length]
	along, h.Why = l.along(face, spec, f.Planned)
	if h.Why == "" {
		across, h.Why = l.across(face, spec)
	}
	if h.Why != "" {
		l.Unplaced = append(l.Unplaced, h)
		return
	}
	h.At = Place{along.Value, across.Value}
	h.U = hypot(max(along.U, across.U), Marking)
	l.onFace(face, &h)
	h.Bolt = l.bolt(&h)
	l.on(face, h)
	if h.Through {
		h.Transferred = true
		h.U = hypot(h.U, q.Length(float64(l.Exit.Value)/math.Sqrt(3))) // anywhere up to the exit error
		if spec.Far.Known {
			h.Diameter = spec.Far.Value
		}
		l.on(face.Other(), h)
	}
}

func (l *layer) on(f Face, h Hole) {
	i := slices.IndexFunc(l.Sides, func(s Laid) bool { return s.Face == f })
	if i < 0 {
		s := Laid{Face: f, HingesLeft: HingesLeft(l.o.Frame.Hand, f.Side)}
		s.Width, s.Height = l.size(f)
		l.Sides = append(l.Sides, s)
		i = len(l.Sides) - 1
	}
	l.Sides[i].Holes = append(l.Sides[i].Holes, h)
}

// pilot is the drill that goes first: 1/8 in through a leaf, as the trade has it
// (common practice), where the template names none.
func pilot(h *opening.Hole) q.Length {
	if h.Pilot.Known {
		return h.Pilot.Value
	}
	const usual = q.Inch / 8
	if h.On == opening.LeafFace && h.Diameter.Value > usual {
		return usual
	}
	return 0
}

// along is the distance of a hole's middle from the hinge side, as Place has it; why
// tells what is missing.
func (l *layer) along(f Face, h *opening.Hole, planned bool) (x q.Measured[q.Length], why string) {
	width, _ := l.size(f)
	switch f.On {
	case opening.HingeJamb, opening.LatchJamb, opening.LatchRabbet, opening.LatchStop:
		return h.Along, ""
	}
	switch h.AlongFrom {
	case opening.FromLatchEdge:
		if !width.Known {
			return x, "its place is measured from the latch side, and the width is not known"
		}
		return less(width.WithSpread(taped), h.Along), ""
	case opening.FromPin:
		pin := l.o.Frame.PinAlong
		if !pin.Known {
			return x, "its place is measured from the hinge pin, whose distance from the leaf's edge is not known"
		}
		x = less(h.Along, pin.WithSpread(q.Millimetre))
		if f.On != opening.LeafFace {
			gap := l.o.Doorway.Gaps.Hinge
			if !gap.Known {
				gap = q.Give(hung, taped)
			}
			if planned && !l.o.Doorway.Gaps.Hinge.Known {
				l.note("The gap between leaf and hinge jamb is assumed to be " + q.ByTape(hung, q.US) + " (" + q.ByTape(hung, q.SI) + ").")
			}
			x = q.Give(x.Value+gap.Value, hypot(x.U, gap.U))
		}
		return x, ""
	}
	return h.Along, ""
}

// across is its distance from top, lower edge, leaf or head, as Place has it.
func (l *layer) across(f Face, h *opening.Hole) (y q.Measured[q.Length], why string) {
	if f.On != opening.LeafFace || h.AcrossFrom != "bottom" {
		return h.Across, ""
	}
	if !l.o.Leaf.Height.Known {
		return y, "its place is measured from the bottom of the leaf, and the height is not known"
	}
	return less(l.o.Leaf.Height.WithSpread(taped), h.Across), ""
}

func (l *layer) note(text string) {
	if !slices.Contains(l.Notes, text) {
		l.Notes = append(l.Notes, text)
	}
}

func (l *layer) problem(h *Hole, hint, found string, args ...any) {
	l.Problems = append(l.Problems, Problem{h.Name(), fmt.Sprintf(found, args...), hint})
}

// less is the difference of two lengths that were measured apart.
func less(a, b q.Measured[q.Length]) q.Measured[q.Length] {
	return q.Give(a.Value-b.Value, hypot(a.U, b.U))
}

func hypot(a, b q.Length) q.Length { return q.Length(math.Hypot(float64(a), float64(b))) }
