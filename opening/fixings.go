package opening

import (
	"slices"

	q "swingwright/quantity"
)

// Fixed is a thing of an opening that is fixed with holes, and its holes.
type Fixed struct {
	Fixing  Fixing // empty for a further fixture
	Sheet   string // name of its hardware sheet
	Side    Side   // on which side of the leaf it sits
	Planned bool   // whether its holes are still to be drilled
	OnLeaf  bool   // whether its weight hangs on the leaf
	Weight  q.Measured[q.Mass]
	Holes   []Hole
}

// What names it for people.
func (f *Fixed) What() string {
	if f.Fixing == "" {
		return f.Sheet
	}
	return string(f.Fixing) + " (" + f.Sheet + ")"
}

// Face is on which side one of its holes is.
func (f *Fixed) Face(h *Hole) Side {
	switch {
	case h.On == Soffit, h.On == LatchStop:
		return PushSide
	case h.On == LatchRabbet:
		return PullSide
	case h.Side != "":
		return h.Side
	case f.Side != "":
		return f.Side
	}
	return PushSide
}

// ArmSide is the side of the leaf on which closer and arm of a kind sit.
func (a *ArmSheet) ArmSide() Side {
	switch a.Kind {
	case RegularArm:
		return PullSide
	case SlideTrack:
		return a.Side
	}
	return PushSide
}

// bodyOnLeaf tells an arm whose closer or unit sits on the leaf.
func (a *ArmSheet) bodyOnLeaf() bool {
	return a.Kind == RegularArm || a.Kind == ParallelArm || a.Kind == SlideTrack && a.Body == OnLeaf
}

// FixedWith lists what is fixed with holes at an opening, in the order of its parts:
// what is there already, and what holes are still to be drilled for.
func FixedWith(o *Opening, sheets *Sheets) []Fixed {
	l := lister{o: o, asked: o.Drilling.For}
	meant := o.Operator.Sheet != "" && o.Operator.Fitted != "yes"
	arm, own := sheets.Arm(o.Closer.Arm), sheets.Arm(o.Operator.Arm)
	if c := sheets.Closer(o.Closer.Sheet); c != nil {
		f := Fixed{Fixing: CloserHoles, Sheet: c.Name, Weight: c.Weight, Holes: c.Holes, OnLeaf: arm != nil && arm.bodyOnLeaf()}
		l.add(f, arm, false)
	}
	if arm != nil {
		l.add(Fixed{Fixing: ArmHoles, Sheet: arm.Name, Holes: arm.Holes}, arm, false)
	}
	if op := sheets.Operator(o.Operator.Sheet); op != nil {
		f := Fixed{Fixing: OperatorHoles, Sheet: op.Name, Weight: op.Weight, Holes: op.Holes, OnLeaf: op.Body == OnLeaf}
		of := own
		if op.Kind == AddOn {
			of = arm
			f.OnLeaf = op.Body == OnLeaf || op.Body == "" && arm != nil && arm.bodyOnLeaf()
		}
		l.add(f, of, meant)
	}
	if own != nil {
		l.add(Fixed{Fixing: UnitArmHoles, Sheet: own.Name, Holes: own.Holes}, own, meant)
	}
	if s := find(sheets.Strikes, o.Lock.Strike); s != nil && slices.Contains(l.asked, StrikeHoles) {
		l.add(Fixed{Fixing: StrikeHoles, Sheet: s.Name, Holes: s.Holes}, nil, true)
	}
	if s := sheets.Fixture(o.DoorLoop.Sheet); s != nil {
		l.add(Fixed{Fixing: LoopHoles, Sheet: s.Name, Side: s.Side, Weight: s.Weight, Holes: s.Holes}, nil, meant)
	}
	for _, name := range o.Drilling.Fixtures {
		if s := sheets.Fixture(name); s != nil {
			l.all = append(l.all, Fixed{Sheet: s.Name, Side: s.Side, Weight: s.Weight, OnLeaf: true, Planned: true, Holes: s.Holes})
		}
	}
	return l.all
}

type lister struct {
	o     *Opening
	asked []Fixing
	all   []Fixed
}

// add puts a thing on the list. It is drilled for where the job says so, and where
// that says nothing if it is meant only; what is neither there nor asked for is left out.
func (l *lister) add(f Fixed, arm *ArmSheet, meant bool) {
	if arm != nil && f.Side == "" {
		f.Side = arm.ArmSide()
	}
	f.Holes = slices.DeleteFunc(slices.Clone(f.Holes), func(h Hole) bool { return h.With != "" && (arm == nil || h.With != arm.Kind) })
	f.Planned = meant
	if len(l.asked) > 0 {
		f.Planned = slices.Contains(l.asked, f.Fixing)
		if meant && !f.Planned {
			return
		}
	}
	l.all = append(l.all, f)
}

// PlannedHole is the largest hole that is still to be drilled into leaf or frame,
// and whether one of them is not round; unknown where none is planned.
func PlannedHole(o *Opening, sheets *Sheets) (largest q.Measured[q.Length], notRound bool) {
	for _, f := range FixedWith(o, sheets) {
		if !f.Planned {
			continue
		}
		for i := range f.Holes {
			h := &f.Holes[i]
			notRound = notRound || h.Shape != "" && h.Shape != "round"
			for _, d := range []q.Measured[q.Length]{h.Diameter, h.Far} {
				if d.Known && (!largest.Known || d.Value > largest.Value) {
					largest = d
				}
			}
		}
	}
	return largest, notRound
}
