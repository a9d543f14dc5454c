package onsite

import (
	"math"
	"slices"

	"swingwright/fact"
	"swingwright/job"
	"swingwright/opening"
	"swingwright/plan"
	"swingwright/service"
)

// Complaint is one thing that can be enquired into.
type Complaint struct {
	Key   string `json:"key"`
	Title string `json:"title"`
}

// Enquired is the answer to "service".
type Enquired struct {
	Complaints []Complaint    `json:"complaints"` // all there are, where none was named
	Title      string         `json:"title"`
	Steps      []ServiceStep  `json:"steps"`
	Likely     []ServiceCause `json:"likely"`
	Reasons    []string       `json:"reasons"`
	Settled    bool           `json:"settled"`
	Source     string         `json:"source"`
}

// ServiceStep is a test to make.
type ServiceStep struct {
	Key     string  `json:"key"`
	Do      string  `json:"do"`
	Shows   string  `json:"shows"`
	Minutes float64 `json:"minutes"`
	Tells   float64 `json:"tells"` // bit
}

// ServiceCause is a likely cause.
type ServiceCause struct {
	Key  string  `json:"key"`
	What string  `json:"what"`
	Fix  string  `json:"fix"`
	Odds float64 `json:"odds"` // 0 to 1
}

// service answers which test to make next for a complaint.
func (e *Engine) service(a *Asked) (any, error) {
	t, err := e.understand(a)
	if err != nil {
		return nil, err
	}
	out := &Enquired{Complaints: []Complaint{}, Steps: []ServiceStep{}, Likely: []ServiceCause{}, Reasons: []string{}}
	if a.Complaint == "" {
		for _, c := range service.Complaints() {
			out.Complaints = append(out.Complaints, Complaint{c.Key, c.Title})
		}
		return out, nil
	}
	q, err := service.Enquire(a.Complaint, doorOf(e.plan(t)), a.Made)
	if err != nil {
		return nil, err
	}
	out.Title, out.Settled, out.Source = q.Complaint.Title, q.Settled, q.Complaint.Source
	for _, s := range q.Steps {
		out.Steps = append(out.Steps, ServiceStep{s.Test.Key, s.Test.Do, s.Test.Shows, s.Test.Minutes, s.Tells})
	}
	for _, l := range q.Likely {
		out.Likely = append(out.Likely, ServiceCause{l.Cause.Key, l.Cause.What, l.Cause.Fix, l.Odds})
	}
	for _, r := range q.Reasons {
		out.Reasons = append(out.Reasons, r.Cause+": "+r.Why)
	}
	return out, nil
}

// busy is how many openings a day call for more care than one visit a year (trade practice).
const busy = 300

// doorOf is what a plan and the record behind it tell of a door's past.
func doorOf(p *plan.Plan) *service.Door {
	o := p.Opening
	d := &service.Door{
		Powered: o.Use.Powered(), Outdoors: o.Use.Outdoors(), Sealed: o.Seal.None != "yes", Electric: o.Lock.Release != "" && o.Lock.Release != "not-needed",
		Latches: math.NaN(), Turned: len(o.Adjusted) > 0, Leaks: o.Closer.Leaks == "yes", Binds: o.Frame.Binds == "yes", HeavyUse: o.Use.Cycles.Value > busy,
	}
	if f := p.Facts[fact.LatchesFrom90]; f.Known {
		d.Latches = f.Share
	}
	most := p.Resolved.Most
	d.Pressed = most.Known && !most.Assumed && most.Value > 2*most.U
	d.Slower, d.Faster = drifted(o.Readings)
	return d
}

// drifted tells whether a closing time that was read twice has grown, or shrunk, by more
// than both spreads together.
func drifted(all []opening.Reading) (slower, faster bool) {
	last := map[fact.ID]job.Reading{}
	for _, r := range all {
		got, err := job.ResolveReading(r)
		if err != nil || !slices.Contains([]fact.ID{fact.CloseTime90To10, fact.CloseTime90To12, fact.CloseTime90ToClosed, fact.CloseTime10ToClosed}, got.Fact) {
			continue
		}
		if before, ok := last[got.Fact]; ok {
			by, u := got.Value-before.Value, 2*math.Hypot(got.U, before.U)
			slower, faster = by > u, by < -u
		}
		last[got.Fact] = got
	}
	return slower, faster
}
