package window

import (
	"swingwright/quantity"
	"swingwright/swing"
)

const deg = quantity.Degree

// typical is an ordinary interior leaf with a regular-arm closer, latch and
// light seals; all its numbers are invented.
func typical() Question {
	var v swing.Values
	in := float64(quantity.Inch)
	v[swing.LeafWidth], v[swing.LeafHeight], v[swing.LeafThickness] = 35.75*in, 83.75*in, 1.75*in
	v[swing.PinToEdge], v[swing.PinToFace] = 0.125*in, 0.375*in
	v[swing.SlabMass] = 54
	v[swing.PinionX], v[swing.PinionY], v[swing.ShoeX], v[swing.ShoeY] = 6.5*in, 2.25*in, 12.5*in, 1*in
	v[swing.MainArm], v[swing.Forearm] = 11*in, 10.47*in
	v[swing.CloserLoss] = 0.25
	v[swing.SweepViscous], v[swing.LatchViscous], v[swing.LatchZone] = 35, 90, float64(20*deg)
	v[swing.Blend], v[swing.OilFactor] = float64(1.5*deg), 1
	v[swing.HingeFriction], v[swing.BoltForce], v[swing.BoltRadius] = 0.6, 7, 0.89
	v[swing.BoltClears], v[swing.BoltMeets] = float64(0.6*deg), float64(2*deg)
	v[swing.SealStiffness], v[swing.SealMeets] = 60, float64(1*deg)
	v[swing.PressureFades] = float64(6 * deg)
	v[swing.DragCoefficient], v[swing.AirDensity] = 1.9, 1.2
	const handle = 33.375 * quantity.Inch
	return Question{
		Values: v, Link: swing.Linkage{Closer: true, OnLeaf: true, Bend: 1, Latch: true},
		Spring: Spring{{1, 5, 1.2}, {2, 7.5, 1.9}, {3, 10.5, 2.6}, {4, 14.5, 3.6}, {5, 20, 5}},
		Valves: Valves{Sweep: [2]quantity.Damping{3, 400}, Latch: [2]quantity.Damping{5, 1500}},
		Demands: []Demand{
			{Name: "start", What: "sets in motion", Kind: HandForce, At: handle, Limit: float64(12 * quantity.PoundForce)},
			{Name: "open", What: "opens", Kind: HandForce, From: deg, To: 90 * deg, At: handle, Limit: float64(10 * quantity.PoundForce)},
			{Name: "from 90", Kind: Shuts, From: 90 * deg, Limit: 5},
			{Name: "from 30", Kind: Shuts, From: 30 * deg, Limit: 5},
			{Name: "from 5", Kind: Shuts, From: 5 * deg, Limit: 5},
			{Name: "sweep", Kind: LeastTime, From: 90 * deg, To: 12 * deg, Limit: 5},
			{Name: "latch", Kind: LeastTime, From: 10 * deg, To: 0, Limit: 1.5},
			{Name: "energy", Kind: PeakEnergy, Limit: 1.69},
			{Name: "operator", Kind: MostPower, Limit: 4},
		},
	}
}
