package window

import (
	"cmp"
	"math"
	"slices"

	"swingwright/quantity"
	"swingwright/swing"
)

// ChangeKind is what is changed to open a window.
type ChangeKind uint8

// The changes that are tried.
const (
	LessPressure ChangeKind = iota // all pressures that push the leaf open, in proportion
	WeakerBolt                     // the force that pushes the bolt over the strike lip
	LighterSeal                    // the stiffness of the seals
	FreerHinges                    // the friction of the hinges
	HigherForces                   // every limit on a force by hand, in proportion
	OtherArm                       // one of the question's arms
)

var changeNames = [...]string{"less pressure", "weaker bolt", "lighter seal", "freer hinges", "higher hand forces allowed", "other arm"}

// String is the change in words.
func (k ChangeKind) String() string { return changeNames[k] }

// A Change is one thing changed until a window just opens.
type Change struct {
	Kind ChangeKind
	Arm  string // the arm's name, with OtherArm
	// From and To are the quantity before and after, in SI, of dimension Dim;
	// for LessPressure and HigherForces the largest pressure and the lowest force
	// limit. OtherArm has none.
	From, To float64
	Dim      quantity.Dimension
	Share    quantity.Ratio // |To − From|/|From|, 0 for OtherArm
	// Opens is false where the change does not open a window even at its end;
	// To is then that end.
	Opens  bool
	Window Span // the window after the change
	// Waived are the names of the hand forces that exceed their limit in it,
	// with HigherForces.
	Waived []string
}

// changes tries every change by itself and orders them: first those that open a
// window, by relative size, then the arms that do, widest window first, then the rest.
func (f *Finder) changes(ask *Question) []Change {
	var all []Change
	for kind := LessPressure; kind < OtherArm; kind++ {
		if c, ok := f.change(ask, kind); ok {
			all = append(all, c)
		}
	}
	for i := range ask.Arms {
		a := &ask.Arms[i]
		other := *ask
		other.Values, other.Link = a.Values, a.Link
		c := Change{Kind: OtherArm, Arm: a.Name}
		c.Window = f.window(&other).Window
		c.Opens = !c.Window.Empty()
		all = append(all, c)
	}
	f.begin(ask)
	rank := func(c *Change) int {
		switch {
		case !c.Opens:
			return 2
		case c.Kind == OtherArm:
			return 1
		}
		return 0
	}
	slices.SortStableFunc(all, func(a, b Change) int {
		return cmp.Or(cmp.Compare(rank(&a), rank(&b)), cmp.Compare(a.Share, b.Share), cmp.Compare(b.Window.Width(), a.Window.Width()))
	})
	return all
}

// change finds the least change of a kind that opens a window; false where
// there is nothing of the kind to change.
func (f *Finder) change(ask *Question, kind ChangeKind) (Change, bool) {
	c := Change{Kind: kind}
	var most float64 // relative change at which it ends
	c.From, c.Dim, most = f.present(ask, kind)
	if !(c.From > 0) || !(most > 0) {
		return c, false
	}
	share, opens := least(func(share float64) bool {
		changed := ask.changed(kind, share*most)
		f.begin(changed)
		return f.open(setOf(changed.Demands))
	})
	c.Opens = opens
	if !opens {
		share = 1
	}
	by := share * most
	c.Share, c.To = quantity.Ratio(by), c.From*(1-by)
	if kind == HigherForces {
		c.To = c.From * (1 + by)
	}
	changed := ask.changed(kind, by)
	after := f.window(changed)
	c.Window = after.Window
	if kind == HigherForces && opens {
		c.Waived = f.waived(ask, after.Window)
	}
	return c, true
}

// present is the quantity that a kind of change changes, and how far it can
// be, relative to it; zero where there is nothing.
func (f *Finder) present(ask *Question, kind ChangeKind) (from float64, dim quantity.Dimension, most float64) {
	switch kind {
	case LessPressure:
		for i := range ask.Demands {
			if d := &ask.Demands[i]; d.Kind == Shuts {
				from = max(from, d.Limit)
			}
		}
		return from, quantity.DimPressure, 1
	case WeakerBolt:
		return ask.Values[swing.BoltForce], quantity.DimForce, 1
	case LighterSeal:
		return ask.Values[swing.SealStiffness], quantity.DimTorsionRate, 1
	case FreerHinges:
		return ask.Values[swing.HingeFriction], quantity.DimTorque, 1
	}
	f.begin(ask)
	f.set(ask.settings().High)
	from = math.Inf(1)
	for i := range ask.Demands {
		if d := &ask.Demands[i]; d.Kind == HandForce && d.Limit > 0 {
			from = min(from, d.Limit)
			most = max(most, -d.margin(f.still(d))/d.Limit*(1+1e-6))
		}
	}
	return from, quantity.DimForce, most
}

// changed is the question after a relative change.
func (ask *Question) changed(kind ChangeKind, by float64) *Question {
	out := *ask
	switch kind {
	case LessPressure, HigherForces:
		out.Demands = append([]Demand(nil), ask.Demands...)
		for i := range out.Demands {
			out.Demands[i].change(kind, by)
		}
	case WeakerBolt:
		out.Values[swing.BoltForce] *= 1 - by
	case LighterSeal:
		out.Values[swing.SealStiffness] *= 1 - by
	case FreerHinges:
		out.Values[swing.HingeFriction] *= 1 - by
	}
	return &out
}

// change lowers the pressures that push the leaf open, or raises a limit on a
// force by hand.
func (d *Demand) change(kind ChangeKind, by float64) {
	switch {
	case kind == HigherForces && d.Kind == HandForce:
		d.Limit *= 1 + by
	case kind == LessPressure && d.Kind == Shuts && d.Limit > 0:
		d.Limit *= 1 - by
	case kind == LessPressure && d.Pressure > 0:
		d.Pressure *= quantity.Pressure(1 - by)
	}
}

// waived names the hand forces that exceed their limit at the lowest setting of
// a window.
func (f *Finder) waived(ask *Question, over Span) (names []string) {
	f.begin(ask)
	f.set(over.Low)
	for i := range ask.Demands {
		if d := &ask.Demands[i]; d.Kind == HandForce && d.margin(f.still(d)) < 0 {
			names = append(names, d.Name)
		}
	}
	return names
}
