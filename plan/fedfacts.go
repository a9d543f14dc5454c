package plan

import (
	"math"

	"swingwright/fact"
	"swingwright/judge"
	"swingwright/logic"
	"swingwright/opening"
	"swingwright/power"
	q "swingwright/quantity"
)

// surveyedWiring tells whether a wiring is written down for the opening.
func (p *Plan) surveyedWiring(facts *[fact.Count]float64, groups []opening.Group) {
	v := truth(!p.Opening.Wiring.None() || opening.Sharing(groups, p.Opening.ID) != nil)
	facts[fact.Wired] = v
	p.Facts[fact.Wired] = Fact{Known: true, Value: v, Share: v, Origin: Surveyed}
}

// fedFact tells a fact that a wiring is reckoned for.
func fedFact(id fact.ID) bool { return id > fact.Wired && id <= fact.BranchDrop }

// fedFacts are what rules may judge of how the opening is fed, where nobody measured
// it. Like those of the plan geometry they stand among the readings: what they turn
// on, nothing else does.
func (p *Plan) fedFacts() (all readings) {
	add := func(id fact.ID, value, u float64, origin Origin) {
		if !p.read.has(id) && !all.has(id) && !math.IsNaN(value) {
			all = append(all, reading{id: id, value: value, u: u, origin: origin, most: "wiring"})
		}
	}
	if has := p.Opening.DoorLoop.Length; has.Known && p.Room != nil && p.Room.Cord != nil && p.Room.Cord.Longest > 0 {
		c := p.Room.Cord
		ratio := float64(has.Value / c.Longest)
		add(fact.LoopSlack, ratio-1, math.Hypot(float64(has.WithSpread(tape).U/c.Longest), ratio*float64(c.U/c.Longest)), Computed)
	}
	f := p.Feeding
	if f == nil {
		return all
	}
	if apart := power.LinesApart(f.Wiring); apart != "" {
		add(fact.LinesApart, truth(apart == "yes"), 0, Surveyed)
	}
	f.worstFacts(p.Opening.ID, add)
	f.supplyFacts(p.Opening.ID, add)
	var fullest *Pipe
	for i := range f.Conduits {
		if c := &f.Conduits[i]; c.Verdict != judge.NotMeasured && (fullest == nil || c.Fill.Share/c.Fill.Limit > fullest.Fill.Share/fullest.Fill.Limit) {
			fullest = c
		}
	}
	if fullest != nil {
		add(fact.ConduitFill, float64(fullest.Fill.Share), 0, Computed)
		add(fact.ConduitCables, float64(fullest.Fill.Cables), 0, Surveyed)
	}
	if len(f.Conduits) == 0 {
		add(fact.ConduitCables, 0, 0, Surveyed)
	}
	f.branchFacts(add)
	return all
}

// worstFacts are the volts of the operator and of the lock that are worst off.
func (f *Feeding) worstFacts(id string, add func(fact.ID, float64, float64, Origin)) {
	for _, of := range []struct {
		volts, drop fact.ID
		is          func(opening.DeviceKind) bool
	}{
		{fact.VoltsAtOperator, fact.DropAtOperator, func(k opening.DeviceKind) bool { return k == opening.Drive }},
		{fact.VoltsAtLock, fact.DropAtLock, opening.DeviceKind.IsLock},
	} {
		lacks, volts, rated, u := math.Inf(-1), 0., 0., 0.
		for i := range f.Circuits {
			for k := range f.Circuits[i].Devices {
				one := &f.Circuits[i].Devices[k]
				if !one.Works || !of.is(one.Device.Kind) || !f.Concerns(one.Device, id) {
					continue
				}
				v, spread := float64(one.Volts), float64(one.U)
				if one.Ending != power.Fed {
					v, spread = 0, 0 // there is no voltage at which its wires carry what is asked
				}
				if lack := 1 - v/float64(one.Rated); lack > lacks {
					lacks, volts, rated, u = lack, v, float64(one.Rated), spread
				}
			}
		}
		if rated > 0 {
			add(of.volts, volts, u, Computed)
			add(of.drop, lacks, u/rated, Computed)
		}
	}
}

// supplyFacts are what the supplies have to give that feed something of the opening.
func (f *Feeding) supplyFacts(id string, add func(fact.ID, float64, float64, Origin)) {
	load, loadU, peak, peakU, lasts := math.NaN(), 0., math.NaN(), 0., math.NaN()
	volts, gives, two, any := math.NaN(), math.NaN(), false, false
	for i := range f.Circuits {
		d := &f.Circuits[i]
		if d.Course == nil || !f.Feeds(d, id) {
			continue
		}
		any, two = true, two || d.classTwo(f.Wiring)
		if d.Lasts > 0 && !(float64(d.Lasts) >= lasts) {
			lasts = float64(d.Lasts)
		}
		if d.Rated <= 0 {
			continue
		}
		if l := float64(d.Course.Sustained / d.Rated); !(l <= load) {
			load, loadU = l, float64(d.Course.SustainedU/d.Rated)
		}
		if l := float64(d.Course.Peak / d.Circuit.Peak); !(l <= peak) {
			peak, peakU = l, float64(d.Course.PeakU/d.Circuit.Peak)
		}
		if w := float64(d.Rated) * float64(d.Tree.Volts); !(w <= gives) {
			gives, volts = w, float64(d.Tree.Volts)
		}
	}
	if !any {
		return
	}
	add(fact.SupplyLoad, load, loadU, Computed)
	add(fact.SupplyPeakLoad, peak, peakU, Computed)
	add(fact.ClassTwo, truth(two), 0, Surveyed)
	add(fact.SourceVolts, volts, 0, Surveyed)
	add(fact.SourcePower, gives, 0, Surveyed)
	if !math.IsInf(lasts, 1) {
		add(fact.StandbyLasts, lasts, 0, Computed)
	}
}

// Feeds tells whether a circuit feeds something that counts for an opening.
func (f *Feeding) Feeds(d *Fed, id string) bool {
	for i := range d.Devices {
		if f.Concerns(d.Devices[i].Device, id) {
			return true
		}
	}
	return false
}

// branchFacts are those of the branch circuits.
func (f *Feeding) branchFacts(add func(fact.ID, float64, float64, Origin)) {
	load, u, doors, drop, dropU := math.NaN(), 0., 0., math.NaN(), 0.
	for i := range f.Branches {
		b := &f.Branches[i]
		working, _, workingU, _ := b.Currents()
		if l := float64(working / b.Rated); !(l <= load) {
			load, u = l, float64(workingU/b.Rated)
		}
		if n := b.Operators / float64(b.Rated/power.DoorCircuit); n > doors {
			doors = n
		}
		for k := range b.Statements {
			if s := &b.Statements[k]; s.Dim == q.DimVoltage && !(s.Value/float64(b.Tree.Volts) <= drop) {
				drop, dropU = s.Value/float64(b.Tree.Volts), s.U/float64(b.Tree.Volts)
			}
		}
	}
	add(fact.BranchLoad, load, u, Computed)
	add(fact.BranchOperators, doors, 0, Surveyed)
	add(fact.BranchDrop, drop, dropU, Computed)
}

// unfed says why something of the wiring is not known.
func (p *Plan) unfed() string {
	switch {
	case p.Feeding == nil:
		return "no wiring is written down"
	case len(p.Feeding.Faults) > 0:
		return "wiring: " + p.Feeding.Faults[0].Where + ": " + p.Feeding.Faults[0].What
	case len(p.Feeding.Missing) > 0:
		return "missing: " + p.Feeding.Missing[0]
	}
	return "the wiring does not tell"
}

// delays are how long after their locks the drives start, by opening, as the wires make
// it; what they do not tell is left out, and so are wirings without wires.
func (f *Feeding) delays(plans []*Plan, sheets *opening.Sheets) map[string]q.Time {
	locked, driven := false, false
	for i := range f.Wiring.Devices {
		locked = locked || f.Wiring.Devices[i].Kind.IsLock()
		driven = driven || f.Wiring.Devices[i].Kind == opening.Drive
	}
	if !locked || !driven || len(f.Wiring.Wires) == 0 {
		return nil
	}
	var of []*opening.Opening
	var doors []logic.Door
	for _, p := range plans {
		of = append(of, p.Opening)
	}
	ids := []string{f.Name}
	if f.Group != nil {
		ids = f.Group.Of
	}
	for _, id := range ids {
		door := logic.Door{ID: id}
		for _, o := range of {
			if o.ID == id {
				door = DoorOf(o)
			}
		}
		doors = append(doors, door)
	}
	if sheets == nil {
		sheets = &opening.Sheets{}
	}
	w := filledIn(f.Wiring, of, sheets)
	found, err := logic.Delays(w, doors)
	if err != nil {
		return nil // package logic tells of it where the logic is the matter
	}
	all := make(map[string]q.Time)
	for _, one := range found {
		lock := w.Device(one.Lock)
		if !one.Known || lock == nil {
			continue
		}
		if least, ok := all[lock.Opening]; !ok || one.Set < least {
			all[lock.Opening] = one.Set
		}
	}
	return all
}
