package swing

import (
	"fmt"
	"math"
	"math/rand/v2"

	"swingwright/linkage"
	"swingwright/quantity"
)

// armKinds are the sorts of arm of the random models: where the pinion and the
// far end may be (inches; x from the hinge axis, y from the closed leaf's axis)
// and how long the arms.
var armKinds = []struct {
	name                     string
	link                     Linkage
	pinionX, pinionY         [2]float64
	shoeX, shoeY, main, fore [2]float64
}{
	{"regular arm", Linkage{OnLeaf: true, Bend: 1}, span(5, 8), span(2, 2.75), span(10, 14), span(0.5, 1.5), span(9.5, 12.5), span(9, 12.5)},
	{"parallel arm", Linkage{OnLeaf: true, Bend: 1}, span(5, 9), span(-5.5, -3.5), span(-2, 20), span(-7, -1.5), span(8, 14), span(6, 14)},
	{"top-jamb arm", Linkage{Bend: -1}, span(5, 8), span(-3, -0.5), span(9, 15), span(-4.5, -2), span(9.5, 12.5), span(9, 12.5)},
	{"slide track, body on the leaf", Linkage{OnLeaf: true, Track: true, Bend: 1}, span(5, 9), span(1.5, 3), span(0, 20), span(0.5, 1.5), span(9, 14), span(0, 0)},
	{"slide track, body on the frame", Linkage{Track: true, Bend: 1}, span(5, 9), span(-4, -1), span(0, 20), span(-4, -2), span(9, 14), span(0, 0)},
}

func span(low, high float64) [2]float64 { return [2]float64{low, high} }

// dice draws the quantities of a random model.
type dice struct{ *rand.Rand }

func diceOf(seed uint64) dice { return dice{rand.New(rand.NewPCG(seed, 0x5317))} }

func (d dice) in(low, high float64) float64 { return low + d.Float64()*(high-low) }

func (d dice) of(r [2]float64) float64 { return d.in(r[0], r[1]) }

// log draws evenly in the logarithm.
func (d dice) log(low, high float64) float64 { return low * math.Exp(d.Float64()*math.Log(high/low)) }

func (d dice) chance(p float64) bool { return d.Float64() < p }

// randomModel draws a leaf with a closer on an arm of one of armKinds: every
// effect of the equation of motion comes in, none in all models, and some
// models do not close.
func randomModel(seed uint64, kind int) (Values, Linkage) {
	d := diceOf(seed)
	var v Values
	v[LeafWidth], v[LeafHeight], v[LeafThickness] = d.in(0.7, 1.25), d.in(1.9, 2.5), d.in(0.035, 0.055)
	v[PinToEdge], v[PinToFace] = d.in(0, 0.01), d.in(0, 0.02)
	v[SlabMass] = d.in(20, 150)
	if d.chance(0.5) {
		m, x := d.in(1, 12), d.in(0.1, v[LeafWidth])
		v[AttachedMass], v[AttachedMoment], v[AttachedInertia] = m, quantity.StandardGravity*m*x, m*x*x
	}
	link, arm := d.arm(&v, kind)
	d.closer(&v, &arm)
	d.surroundings(&v)
	link.Latch = v[BoltForce] > 0
	return v, link
}

// arm draws until the arm works to 115° without coming near a dead point.
func (d dice) arm(v *Values, kind int) (Linkage, linkage.Arm) {
	k, link := &armKinds[kind], armKinds[kind].link
	link.Closer = true
	for {
		in := float64(quantity.Inch)
		v[PinionX], v[PinionY] = d.of(k.pinionX)*in, d.of(k.pinionY)*in
		v[ShoeX], v[ShoeY] = d.of(k.shoeX)*in, d.of(k.shoeY)*in
		v[MainArm], v[Forearm] = d.of(k.main)*in, d.of(k.fore)*in
		if k.name == "parallel arm" && d.chance(0.5) {
			link.Bend = -link.Bend
		}
		if link.Track {
			v[TrackLine] = d.in(-0.1, 0.1)
		}
		m := Model{v: *v}
		if arm, err := linkage.New(m.spec(link)); err == nil && gentle(&arm) {
			return link, arm
		}
	}
}

// gentle tells that an arm keeps away from dead points and from its reach.
func gentle(arm *linkage.Arm) bool {
	for theta := 0.0; theta <= 115*deg; theta += deg {
		if n, ok := arm.Ratio(theta); !ok || n < 0.3 || n > 5 || math.Abs(arm.Bend(theta)) > 8 {
			return false
		}
	}
	return true
}

func (d dice) closer(v *Values, arm *linkage.Arm) {
	turn := func(theta float64) (psi, n float64) { psi, n, _ = arm.Turn(theta * deg); return }
	_, n0 := turn(0)
	psi45, n45 := turn(45)
	v[CloserLoss] = d.in(0.05, 0.35)
	v[SpringClosed] = d.in(10, 45) / (n0 * (1 - v[CloserLoss]))
	v[SpringRise] = v[SpringClosed] * d.in(0, 0.4)
	if d.chance(0.5) {
		v[PinionInertia] = d.log(0.005, 2)
	}
	// Resistances that hold the leaf to a rate (rad/s) at 45° and near closed,
	// in part or wholly by the orifice.
	hold := func(drive, n, rate float64) (a, b float64) {
		orifice := 0.0
		switch {
		case d.chance(0.06):
			orifice = 1
		case d.chance(0.5):
			orifice = d.in(0.1, 0.8)
		}
		return (1 - orifice) * drive / (n * rate), orifice * drive / (n * n * rate * rate)
	}
	share := 1 - v[CloserLoss]
	v[SweepViscous], v[SweepOrifice] = hold(share*(v[SpringClosed]+v[SpringRise]*psi45), n45, d.log(0.15, 0.6))
	v[LatchViscous], v[LatchOrifice] = hold(share*v[SpringClosed], n0, d.log(0.02, 0.3))
	v[LatchZone], _ = turn(d.in(3, 20))
	v[Blend] = d.in(0.8, 3) * deg
	if d.chance(0.25) {
		v[DelayViscous] = v[SweepViscous] * d.in(2, 12)
		v[DelayFrom], _ = turn(d.in(50, 65))
		v[DelayTo], _ = turn(d.in(70, 90))
	}
	v[OilFactor] = 1
	switch {
	case d.chance(0.05):
		v[OilFactor] = d.log(20, 100) // deep frost: hardly any of these shut in two minutes
	case d.chance(0.6):
		v[OilFactor] = d.log(0.4, 5)
	}
	v[FreeFlow] = d.in(0, 10)
	if d.chance(0.6) {
		v[CheckViscous], v[CheckOrifice] = d.in(0, 60), d.in(0, 60)
		v[CheckZone], _ = turn(d.in(55, 80))
	}
}

func (d dice) surroundings(v *Values) {
	v[HingeFriction] = d.in(0, 2.5)
	if d.chance(0.6) {
		v[BoltForce], v[BoltRadius] = d.in(1, 25), v[LeafWidth]-0.02
		v[BoltClears], v[BoltMeets] = d.in(0.2, 1)*deg, d.in(1.5, 3)*deg
	}
	if d.chance(0.6) {
		v[SealStiffness], v[SealMeets] = d.log(30, 900), d.in(0.5, 2.2)*deg
	}
	v[PressureFades] = d.in(3, 9) * deg
	if d.chance(0.6) {
		v[Pressure] = d.in(-15, 15)
	}
	v[AirDensity] = 1.2
	if d.chance(0.7) {
		v[DragCoefficient] = d.in(0.5, 2.5)
	}
	if d.chance(0.5) {
		v[LeanAngle], v[LeanAzimuth] = d.in(0, 0.5)*deg, d.in(-180, 180)*deg
	}
}

// spec is the arm that a model's quantities describe.
func (m *Model) spec(link Linkage) linkage.Spec {
	v := &m.v
	return linkage.Spec{
		Track: link.Track, OnLeaf: link.OnLeaf, Bend: link.Bend,
		Pinion: linkage.Point{X: quantity.Length(v[PinionX]), Y: quantity.Length(v[PinionY])},
		Shoe:   linkage.Point{X: quantity.Length(v[ShoeX]), Y: quantity.Length(v[ShoeY])},
		Main:   quantity.Length(v[MainArm]), Fore: quantity.Length(v[Forearm]), Line: quantity.Angle(v[TrackLine]),
	}
}

// random is a random model made ready.
func random(seed uint64) (Model, error) {
	v, link := randomModel(seed, int(seed%uint64(len(armKinds))))
	m, err := New(&v, link)
	if err != nil {
		return m, fmt.Errorf("random model %d: %w", seed, err)
	}
	return m, nil
}
