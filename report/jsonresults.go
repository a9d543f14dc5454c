package report

import (
	"swingwright/fact"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/swing"
)

// resultsJSON is what was computed of an opening.
type resultsJSON struct {
	Facts   map[string]factJSON `json:"facts"`
	Motions motionsJSON         `json:"motions"`
	Marks   []markJSON          `json:"marks"` // of the closing from 90 degrees
	Budget  *budgetJSON         `json:"latch_budget"`
	Power   *powerJSON          `json:"power"`
}

func resultsOf(p *plan.Plan) resultsJSON {
	s := &p.Swing
	out := resultsJSON{Facts: make(map[string]factJSON), Marks: []markJSON{}, Power: powerOf(p)}
	for i, f := range p.Facts {
		if f.Known {
			out.Facts[fact.ID(i).String()] = factOf(fact.ID(i), f)
		}
	}
	if !p.Resolved.Link.Closer {
		return out
	}
	out.Motions = motionsJSON{motionOf(&s.Worst5), motionOf(&s.Worst30), nil, nil}
	out.Budget = budgetOf(s.Budget)
	if s.Reachable {
		out.Motions.From90, out.Motions.Worst90 = motionOf(&s.From90), motionOf(&s.Worst90)
		out.Marks = marksOf(s.Marks[:])
	}
	return out
}

// factJSON is a fact: a number has u and unit, a yes or no a share of draws.
type factJSON struct {
	Value  any         `json:"value"`
	U      *number     `json:"u,omitempty"`
	Unit   string      `json:"unit,omitempty"`
	Share  *number     `json:"share,omitempty"`
	Origin plan.Origin `json:"origin"`
}

func factOf(id fact.ID, f plan.Fact) factJSON {
	row, out := id.Fact(), factJSON{Origin: f.Origin}
	switch row.Kind {
	case fact.Choice:
		out.Value = value(id, f, quantity.SI)
	case fact.YesNo:
		share := number(f.Share)
		out.Value, out.Share = f.Value >= 0.5, &share
	default:
		u := number(f.U)
		out.Value, out.U, out.Unit = number(f.Value), &u, quantity.SIUnit(row.Dim)
	}
	return out
}

// motionsJSON are the closings: as it usually is, and at the largest pressure.
type motionsJSON struct {
	Worst5  *motionJSON `json:"from_5_largest_pressure"`
	Worst30 *motionJSON `json:"from_30_largest_pressure"`
	Worst90 *motionJSON `json:"from_90_largest_pressure"`
	From90  *motionJSON `json:"from_90"`
}

// motionJSON is one motion: angles in rad, times in s, rates in rad/s, energies in J.
type motionJSON struct {
	End    swing.End `json:"end"`
	From   number    `json:"from"`
	Angle  number    `json:"angle"`
	Time   number    `json:"time"`
	Rate   number    `json:"rate"`
	Peak   number    `json:"peak_rate"`
	PeakAt number    `json:"peak_rate_at"`
	Energy number    `json:"peak_energy"`
	Impact number    `json:"impact_energy"`
	Error  string    `json:"error,omitempty"`
}

func motionOf(m *swing.Motion) *motionJSON {
	out := motionJSON{
		End: m.End, From: number(m.From), Angle: number(m.Angle), Time: number(m.Time), Rate: number(m.Rate),
		Peak: number(m.Peak), PeakAt: number(m.PeakAt), Energy: number(m.Energy), Impact: number(m.Impact),
	}
	if m.Err != nil {
		out.Error = m.Err.Error()
	}
	return &out
}

// markJSON tells when an angle (rad) was passed, in s from the start; null if never.
type markJSON struct {
	Angle number `json:"angle"`
	Time  number `json:"time"`
}

func marksOf(marks []swing.Mark) []markJSON {
	out := make([]markJSON, len(marks))
	for i, m := range marks {
		out[i] = markJSON{number(m.Angle), number(m.Time)}
	}
	return out
}

// budgetJSON is the latch budget, moments about the hinge axis in N·m.
type budgetJSON struct {
	Closer   number `json:"closer"`
	Latch    number `json:"latch"`
	Seal     number `json:"seal"`
	Friction number `json:"friction"`
	Air      number `json:"air"`
	Plumb    number `json:"plumb"`
	Drive    number `json:"drive"`
	Margin   number `json:"margin"`
}

func budgetOf(b swing.Budget) *budgetJSON {
	return &budgetJSON{
		number(b.Closer), number(b.Latch), number(b.Seal), number(b.Friction), number(b.Air), number(b.Plumb), number(b.Drive), number(b.Margin()),
	}
}
