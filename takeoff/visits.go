package takeoff

import (
	"math"
	"slices"
	"strings"

	"swingwright/opening"
)

// place is where and when visits are grouped.
type place struct{ building, phase string }

// round is what one trade does at one place.
type round struct {
	trade    opening.Trade
	purpose  string
	why      string
	openings []string
	hours    *Range
}

func (r *round) add(id string, hours *Range) {
	if !slices.Contains(r.openings, id) {
		r.openings = append(r.openings, id)
	}
	if hours != nil {
		sum := *hours
		if r.hours != nil {
			sum = Range{r.hours.Low + hours.Low, r.hours.Likely + hours.Likely, r.hours.High + hours.High}
		}
		r.hours = &sum
	}
}

// afterOthers are the tasks that wait until other firms are done.
func afterOthers(t opening.Task) bool {
	return t == opening.Commission || t == opening.CloseOut || t == opening.AlarmTie || t == opening.AccessTie
}

// visits groups the work by place and phase, in the order in which it can be done:
// power before operators, locks and alarms before commissioning (common practice).
func visits(openings []Opening, items map[string]Item) []Visit {
	var places []place
	at := map[place][]int{}
	for i := range openings {
		if openings[i].Left != "" {
			continue
		}
		w := &items[openings[i].ID].Opening.Work
		p := place{strings.TrimSpace(w.Building), strings.TrimSpace(w.Phase)}
		if at[p] == nil {
			places = append(places, p)
		}
		at[p] = append(at[p], i)
	}
	var all []Visit
	for _, p := range places {
		order := 0
		for _, r := range rounds(openings, at[p]) {
			if len(r.openings) == 0 {
				continue
			}
			order++
			v := Visit{Order: order, Trade: r.trade, Building: p.building, Phase: p.phase, Purpose: r.purpose, Openings: r.openings, Hours: r.hours, Days: 1, Why: r.why}
			if r.hours != nil {
				v.Days = max(1, int(math.Ceil(r.hours.Likely/dayHours)))
			}
			all = append(all, v)
		}
	}
	return all
}

// rounds are those at one place, in their order; some may have no openings.
func rounds(openings []Opening, at []int) []round {
	power := round{trade: opening.Electrician, purpose: "bring the circuits", why: "without power nothing can be set, and every opening takes a second trip"}
	fit := round{trade: opening.OwnTrade, purpose: "fit the operators", why: "power is there"}
	inspect := round{trade: opening.DoorInspector, purpose: "look at labels and holes", why: "before a labelled leaf is drilled"}
	access := round{trade: opening.AccessFirm, purpose: "connect the locks", why: "the operators are there"}
	alarm := round{trade: opening.AlarmFirm, purpose: "connect the alarm and test it with us", why: "one drop of the alarm serves all openings of the place"}
	finish := round{trade: opening.OwnTrade, purpose: "commission and hand over", why: "locks and alarm are connected"}
	for _, i := range at {
		o := &openings[i]
		for _, s := range o.Subs {
			switch s.Trade {
			case opening.Electrician:
				power.add(o.ID, s.Hours)
			case opening.AlarmFirm:
				alarm.add(o.ID, s.Hours)
			case opening.AccessFirm:
				access.add(o.ID, s.Hours)
			case opening.DoorInspector:
				inspect.add(o.ID, s.Hours)
			}
		}
		for k := range o.Work {
			w := &o.Work[k]
			if afterOthers(w.Task) {
				finish.add(o.ID, &w.Hours)
			} else {
				fit.add(o.ID, &w.Hours)
			}
		}
	}
	if len(access.openings) == 0 && len(alarm.openings) == 0 && fit.hours != nil && finish.hours != nil {
		fit.purpose = "fit, commission and hand over"
		for _, id := range finish.openings {
			fit.add(id, nil)
		}
		fit.add(fit.openings[0], finish.hours)
		finish = round{}
	}
	return []round{inspect, power, fit, access, alarm, finish}
}
