package opening

import q "swingwright/quantity"

// Adjustment is what a closer was set to, and what was found then.
type Adjustment struct {
	On        string                    `key:"on" form:"date" doc:"When, as 2026-11-25."`
	By        string                    `key:"by" doc:"Who turned it."`
	Size      q.Measured[q.Ratio]       `key:"size" over:"0" doc:"Power that the spring was set to; as before when not given."`
	Sweep     q.Measured[q.Turns]       `key:"sweep_turns" from:"0" doc:"Turns of the sweep valve from shut; as before when not given."`
	Latch     q.Measured[q.Turns]       `key:"latch_turns" from:"0" doc:"Turns of the latch valve from shut; as before when not given."`
	SweepTime q.Measured[q.Time]        `key:"sweep_time" over:"0" doc:"Time found then from 90 to 12 degrees."`
	LatchTime q.Measured[q.Time]        `key:"latch_time" over:"0" doc:"Time found then from 12 degrees to closed."`
	Latched   YesNo                     `key:"latched" doc:"Whether it latched by itself then."`
	Warmth    q.Measured[q.Temperature] `key:"temperature" doc:"Temperature of the closer then; that of the survey when not given."`
}
