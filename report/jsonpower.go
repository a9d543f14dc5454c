package report

import (
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/swing"
)

// powerJSON is an opening under power: angles in rad, moments in N·m.
type powerJSON struct {
	From     number           `json:"from"`
	Slows    number           `json:"slows_from"`
	Usual    poweredJSON      `json:"usual_pressure"`
	Least    poweredJSON      `json:"smallest_pressure"`
	Marks    []markJSON       `json:"marks"` // at the usual pressure
	Against  []resistanceJSON `json:"against"`
	Pressure number           `json:"largest_pressure"`
	Stall    []stallJSON      `json:"stall"`
	Hold     number           `json:"holding_torque"`
	Push     number           `json:"push"`
}

// poweredJSON is one motion under power.
type poweredJSON struct {
	motionJSON
	Starts number     `json:"starts"`
	Strain strainJSON `json:"strain"`
}

// strainJSON is how the drive fares beyond 70 degrees.
type strainJSON struct {
	Saturated bool   `json:"saturated"`
	Lag       number `json:"lag"`
	At        number `json:"at"`
	Struggles bool   `json:"struggles"`
}

type resistanceJSON struct {
	Against swing.Obstacle `json:"against"`
	Moment  number         `json:"moment"`
}

// stallJSON is what holds the driven leaf still at an angle: a moment, and as a
// force 25 mm from the latch edge.
type stallJSON struct {
	Angle  number `json:"angle"`
	Moment number `json:"moment"`
	Force  number `json:"force"`
}

func powerOf(p *plan.Plan) *powerJSON {
	s := &p.Swing.Power
	if !s.Fitted {
		return nil
	}
	out := &powerJSON{
		From: number(s.From), Slows: number(s.Slows), Usual: poweredOf(&s.Usual), Least: poweredOf(&s.Worst),
		Marks: marksOf(s.Marks[:]), Against: []resistanceJSON{}, Pressure: number(s.Pressure),
		Stall: []stallJSON{}, Hold: number(s.Hold), Push: number(s.Push),
	}
	for _, one := range s.Against {
		out.Against = append(out.Against, resistanceJSON{one.Against, number(one.Moment)})
	}
	for i, moment := range s.Stall[:s.Stops] {
		at := quantity.Angle(i) * plan.StallStep
		out.Stall = append(out.Stall, stallJSON{number(at), number(moment), number(swing.HandForce(moment, stallRadius(p)))})
	}
	return out
}

func poweredOf(m *swing.Powered) poweredJSON {
	s := &m.Strain
	return poweredJSON{*motionOf(&m.Motion), number(m.Starts), strainJSON{s.Saturated, number(s.Lag), number(s.At), s.Struggles()}}
}
