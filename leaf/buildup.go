package leaf

import (
	"fmt"
	"math"

	"swingwright/opening"
	"swingwright/quantity"
)

// Part is one line of a leaf's weight.
type Part struct {
	What   string
	Mass   quantity.Measured[quantity.Mass]
	Source string
}

// Built is a leaf's mass built up from its construction.
type Built struct {
	Slab     quantity.Measured[quantity.Mass] // what is spread evenly over the leaf; unknown without layers
	Attached Attached
	Parts    []Part // every line that went into it
	Doubts   []error
}

// Attached is what is fixed to the leaf, lites counted with what they replace.
type Attached struct {
	Mass    quantity.Measured[quantity.Mass]
	Moment  quantity.Measured[quantity.Torque]  // g·Σm_i·x_i
	Inertia quantity.Measured[quantity.Inertia] // Σm_i·(x_i² + y_i²), lites with their own w²/12
}

// BuildUp adds up a leaf of the given slab from its layers, lites and hardware.
// It reports what it could not use among Doubts.
func BuildUp(l *opening.Leaf, s Slab) Built {
	var b Built
	area := float64(s.Width) * float64(s.Height)
	for _, layer := range l.Layers {
		areal, source, err := Areal(layer)
		if err != nil {
			b.Doubts = append(b.Doubts, err)
			continue
		}
		m := quantity.Give(quantity.Mass(float64(areal.Value)*area), quantity.Mass(float64(areal.U)*area))
		b.Parts = append(b.Parts, Part{named(layer.What, string(layer.Material)), m, source})
		b.Slab = sum(b.Slab, m)
	}
	a := &b.Attached
	for _, h := range l.Hardware {
		b.add(h.What, h.Weight.WithSpread(h.Weight.Value/20), float64(h.FromHinge.Value), off(h, s), 0)
	}
	for _, lite := range l.Lites {
		b.lite(lite, s, area)
	}
	a.Mass, a.Moment, a.Inertia = known(a.Mass), known(a.Moment), known(a.Inertia)
	return b
}

// off is the distance of a piece of hardware from the hinge axis, square to the leaf.
func off(h opening.Hardware, s Slab) float64 {
	return float64(s.PinToFace) + float64(s.Thickness)/2 + float64(h.Off.Value)
}

// lite counts a pane less the construction that was cut out for it.
func (b *Built) lite(lite opening.Lite, s Slab, area float64) {
	sort := lite.Material
	if sort == "" {
		sort = "glass"
	}
	stuff := Materials[sort]
	size := float64(lite.Width.Value) * float64(lite.Height.Value)
	glass := float64(stuff.Density) * float64(lite.Thickness.Value)
	cut := float64(b.Slab.Value) / area
	m := quantity.Give(quantity.Mass(size*(glass-cut)), quantity.Mass(size*math.Hypot(glass*float64(stuff.Spread), float64(b.Slab.U)/area)))
	x := float64(s.PinToEdge) + float64(s.Width)/2
	if lite.FromHinge.Known {
		x = float64(s.PinToEdge) + float64(lite.FromHinge.Value)
	}
	w := float64(lite.Width.Value)
	b.add("lite, less what it replaces", m, x, float64(s.PinToFace)+float64(s.Thickness)/2, w*w/12)
	b.Parts[len(b.Parts)-1].Source = stuff.Source
}

// add counts a mass at (x, y) from the hinge axis with its own radius of gyration squared.
func (b *Built) add(what string, m quantity.Measured[quantity.Mass], x, y, own float64) {
	arm2 := x*x + y*y + own
	a := &b.Attached
	a.Mass = sum(a.Mass, m)
	a.Moment = sum(a.Moment, times[quantity.Torque](m, quantity.StandardGravity*x))
	a.Inertia = sum(a.Inertia, times[quantity.Inertia](m, arm2))
	b.Parts = append(b.Parts, Part{what, m, "as entered"})
}

// Areal is a layer's mass per area with its standard uncertainty, and where it
// comes from. It fails when the layer does not tell enough, or names a material
// or a gauge that is not known.
func Areal(l opening.Layer) (quantity.Measured[quantity.ArealDensity], string, error) {
	none := quantity.Measured[quantity.ArealDensity]{}
	count := float64(max(l.Count, 1))
	if l.Areal.Known {
		a := l.Areal.WithSpread(l.Areal.Value * quantity.ArealDensity(BuiltUpSpread))
		return quantity.Give(a.Value*quantity.ArealDensity(count), a.U*quantity.ArealDensity(count)), "mass per area as entered", nil
	}
	stuff, ok := Materials[l.Material]
	if l.Density.Known {
		d := l.Density.WithSpread(l.Density.Value / 20)
		stuff, ok = Stuff{Density: d.Value, Spread: quantity.Ratio(d.U / d.Value), Source: "density as entered"}, true
	}
	if !ok {
		return none, "", fmt.Errorf("layer %q names no material whose density is known; give material, density or areal", l.What)
	}
	if stuff.Areal > 0 {
		v := stuff.Areal * quantity.ArealDensity(count)
		return quantity.Give(v, v*quantity.ArealDensity(stuff.Spread)), stuff.Source, nil
	}
	t := l.Thickness.WithSpread(l.Thickness.Value / 50)
	if l.Gauge != 0 {
		v, u, ok := Gauge(l.Gauge)
		if !ok {
			return none, "", fmt.Errorf("layer %q: the thickness of %d gauge steel is not known; give thickness", l.What, l.Gauge)
		}
		t = quantity.Give(v, u)
	}
	if !t.Known || !(t.Value > 0) {
		return none, "", fmt.Errorf("layer %q has no thickness; give thickness or gauge", l.What)
	}
	v := float64(stuff.Density) * float64(t.Value) * count
	u := v * math.Hypot(float64(stuff.Spread), float64(t.U/t.Value))
	return quantity.Give(quantity.ArealDensity(v), quantity.ArealDensity(u)), stuff.Source, nil
}

func named(what, material string) string {
	if what != "" {
		return what
	}
	return material
}

// sum adds two independent values.
func sum[Q quantity.Quantity](a, b quantity.Measured[Q]) quantity.Measured[Q] {
	return quantity.Give(a.Value+b.Value, Q(math.Hypot(float64(a.U), float64(b.U))))
}

// times is a mass times a number that carries it to another quantity.
func times[Q quantity.Quantity](m quantity.Measured[quantity.Mass], by float64) quantity.Measured[Q] {
	return quantity.Give(Q(float64(m.Value)*by), Q(float64(m.U)*math.Abs(by)))
}

func known[Q quantity.Quantity](m quantity.Measured[Q]) quantity.Measured[Q] {
	return quantity.Give(m.Value, m.U)
}
