package main

import (
	"os"

	"swingwright/opening"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/record"
	"swingwright/swing"
	"swingwright/trace"
)

// What an ordinary phone does to a recording (from memory, as the ranges beside
// record.Options say).
const (
	phoneRate  = 60
	phoneNoise = 0.008 * quantity.AngularSpeed(quantity.Degree)
	phoneBias  = 0.3 * quantity.AngularSpeed(quantity.Degree)
	phoneStep  = 0.1 * quantity.AngularSpeed(quantity.Degree)
)

// writeRecord writes a made-up recording of an opening: opened by its operator where it
// has one, else by hand, held, and left to close.
func writeRecord(name string, p *plan.Plan, sheets *opening.Sheets, seed uint64) error {
	if !p.Resolved.Link.Closer {
		return problem{what: "--record: the closing is not reckoned, since closer or arm is not known", hint: "give closer, arm and spring; check tells what is missing"}
	}
	m, err := p.Turned(sheets)
	if err != nil {
		return problem{what: "--record: " + err.Error(), hint: "the opening has to be known well enough to move; check tells what is missing"}
	}
	var mover swing.Mover
	var c record.Course
	c.Rest(3 * quantity.Second)
	if p.Swing.Power.Fitted && p.Swing.Power.Usual.End == swing.Opened {
		c.Drive(&mover, &m)
	} else {
		c.Turn(trace.Opening, 92*quantity.Degree, 3*quantity.Second)
	}
	c.Rest(max(3*quantity.Second, quantity.Time(p.Resolved.Dwell.Value)))
	c.Close(&mover, &m)
	c.Rest(3 * quantity.Second)
	data := record.Simulate(&c, record.Options{
		Seed: seed, Rate: phoneRate, Jitter: 2e-3, NoiseDensity: phoneNoise, Rounding: phoneStep, Scale: 0.008,
		Bias: [3]quantity.AngularSpeed{phoneBias, -phoneBias / 2, phoneBias / 3},
	})
	if err := os.WriteFile(name, data, 0o666); err != nil {
		return problem{what: "--record: " + plain(err), hint: "name a file that can be written"}
	}
	return nil
}
