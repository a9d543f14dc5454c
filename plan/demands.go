package plan

import (
	"cmp"
	"fmt"
	"math"

	"swingwright/fact"
	"swingwright/judge"
	"swingwright/opening"
	q "swingwright/quantity"
	"swingwright/rulebook"
	"swingwright/swing"
	"swingwright/window"
)

// asks tells, for every fact that a closer's setting moves, as which demands it is
// put where its limit is a least and where it is a greatest value.
var asks = map[fact.ID]struct {
	least, most window.Kind
	from, to    q.Angle // degrees
}{
	fact.HandToStart:           {never, window.HandForce, 0, 0},
	fact.HandToOpen:            {never, window.HandForce, 1, 90},
	fact.Hand0To30:             {never, window.HandForce, 0, 30},
	fact.Hand30To60:            {never, window.HandForce, 30, 60},
	fact.CloserMoment0To4:      {window.ClosingMoment, never, 0, 4},
	fact.CloserMoment88To92:    {window.ClosingMoment, never, 88, 92},
	fact.CloserMomentElsewhere: {window.ClosingMoment, never, 0, 90},
	fact.CloserSize:            {window.LeastPower, window.MostPower, 0, 0},
	fact.LatchesFrom90:         {window.Shuts, never, 90, 0},
	fact.LatchesFrom30:         {window.Shuts, never, 30, 0},
	fact.LatchesFrom5:          {window.Shuts, never, 5, 0},
	fact.CloseTime90To12:       {window.LeastTime, window.MostTime, 90, 12},
	fact.CloseTime90To10:       {window.LeastTime, window.MostTime, 90, 10},
	fact.CloseTime90ToCheck:    {window.LeastTime, window.MostTime, 90, 10},
	fact.CloseTime10ToClosed:   {window.LeastTime, window.MostTime, 10, 0},
	fact.CloseTime90ToClosed:   {window.LeastTime, window.MostTime, 90, 0},
	fact.CloseTime70ToClosed:   {window.LeastTime, window.MostTime, 70, 0},
	fact.CloseTime70To75mm:     {window.LeastTime, window.MostTime, 70, 0},
	fact.ClosePeakEnergy:       {never, window.PeakEnergy, 0, 0},
	fact.CloseImpactEnergy:     {never, window.ImpactEnergy, 0, 0},
	fact.LatchMargin:           {never, never, 0, 0},
}

// Settable tells that a closer's setting, spring or valves, moves a fact.
func Settable(id fact.ID) bool {
	_, known := asks[id]
	return known
}

// never is no kind of demand.
const never = window.Kind(math.MaxUint8)

// commonPractice is the source of what the trade asks for without a published text.
const commonPractice = "common practice"

// demands are what the plan's findings ask of a closer's setting, with what the
// trade and the operator's paper ask besides; and what of it cannot be put, with the reason.
// Advice is left out.
func (p *Plan) demands() (all []window.Demand, left []string) {
	for i := range p.Findings {
		f := &p.Findings[i]
		if _, known := asks[f.Rule.Of]; !known || f.Verdict == judge.DoesNotApply || f.Rule.Advice {
			continue
		}
		d, why := p.demand(f)
		if why != "" {
			left = append(left, f.Rule.Title+" ("+cited(f)+"): "+why)
			continue
		}
		all = joined(all, d)
	}
	return p.operatorAsks(p.latchAsked(all)), left
}

// demand is a finding's limit as a demand, or why it cannot be put.
func (p *Plan) demand(f *Finding) (window.Demand, string) {
	of := asks[f.Rule.Of]
	kind := of.least
	if f.Rule.Side == rulebook.AtMost {
		kind = of.most
	}
	switch {
	case kind == never:
		return window.Demand{}, "a window has no such demand; check judges it"
	case math.IsNaN(f.Limit) || math.IsInf(f.Limit, 0):
		return window.Demand{}, cmp.Or(f.Why, "whether it applies, or its limit, is not known")
	case p.sways(f.Rule):
		return window.Demand{}, "its limit depends on the power set; check judges it once that is set"
	}
	d := window.Demand{
		Name: f.Book.ID + " " + f.Rule.ID, What: f.Rule.Title, Source: cited(f),
		Kind: kind, From: of.from * q.Degree, To: of.to * q.Degree, Limit: f.Limit,
		Pressure: q.Pressure(p.Resolved.Rows[swing.Pressure].Value), Oil: q.Ratio(p.Resolved.Rows[swing.OilFactor].Value),
	}
	p.placed(f, &d)
	return d, ""
}

// placed gives a demand what depends on the opening: radius, mark and air.
func (p *Plan) placed(f *Finding, d *window.Demand) {
	r := p.Resolved
	at := 1.0 // a limit on a moment is put as a force at 1 m
	if f.Rule.At != nil {
		at = float64(f.At)
	}
	switch d.Kind {
	case window.HandForce:
		d.At, d.Pressure, d.Oil = q.Length(at), q.Pressure(r.Least.Value), 0
	case window.ClosingMoment:
		d.Limit, d.Pressure, d.Oil = d.Limit*at, 0, 0
	case window.LeastPower, window.MostPower:
		d.Pressure, d.Oil = 0, 0
	case window.Shuts:
		d.Limit, d.Pressure = r.Most.Value, 0
	}
	switch f.Rule.Of {
	case fact.CloseTime70To75mm:
		d.To = closed75(q.Length(p.Facts[fact.LatchEdge].Value))
	case fact.CloseTime90ToCheck:
		if zone := p.Facts[fact.LatchZoneFrom]; zone.Known {
			d.To = max(d.To, q.Angle(zone.Value))
		}
	}
}

// sways tells that a rule's limit goes with the power that is set.
func (p *Plan) sways(r *rulebook.Rule) bool {
	env := p.Known()
	env[fact.CloserSize] = math.NaN()
	for _, e := range []*rulebook.Expr{r.Limit, r.When} {
		if _, in := rulebook.Eval(e, env); r.Side != rulebook.MustHold && in.State == rulebook.Unknown {
			return true
		}
	}
	return false
}

// cited is where a finding's limit stands, and that it is not confirmed.
func cited(f *Finding) string {
	text := f.Book.Work + ", " + f.Book.Edition + ", " + cmp.Or(f.Rule.Source.Table, f.Rule.Source.Clause)
	if !f.Rule.Confirmed {
		text += " (" + f.Rule.Source.Confidence.String() + ")"
	}
	return text
}

// latchAsked asks of every leaf that no rule asks it of that it shuts from
// wherever it may be let go.
func (p *Plan) latchAsked(all []window.Demand) []window.Demand {
	for _, from := range [...]q.Angle{90, 30, 5} {
		all = joined(all, window.Demand{
			Name: fmt.Sprintf("shuts from %g", float64(from)), What: fmt.Sprintf("Closes and latches from %g degrees", float64(from)),
			Source: commonPractice, Kind: window.Shuts, From: from * q.Degree, Limit: p.Resolved.Most.Value,
			Oil: q.Ratio(p.Resolved.Rows[swing.OilFactor].Value),
		})
	}
	return all
}

// operatorAsks adds the powers that an add-on operator may be used with.
func (p *Plan) operatorAsks(all []window.Demand) []window.Demand {
	sheet := p.Resolved.Operator
	if sheet == nil || sheet.Kind != opening.AddOn {
		return all
	}
	source := "limits of use, operator sheet " + sheet.Name
	if l := sheet.Limits.PowerMin; l.Known {
		all = joined(all, window.Demand{Name: "operator at least", What: "Least power that the operator allows", Source: source, Kind: window.LeastPower, Limit: float64(l.Value)})
	}
	if l := sheet.Limits.PowerMax; l.Known {
		all = joined(all, window.Demand{Name: "operator at most", What: "Greatest power that the operator allows", Source: source, Kind: window.MostPower, Limit: float64(l.Value)})
	}
	return all
}
