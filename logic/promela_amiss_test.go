package logic

import (
	"fmt"
	"slices"

	"swingwright/opening"
)

// What may go amiss, in Promela: latches that cannot move, and a battery that runs
// low.

// hangs tells a lock whose latch may hang, sticks one that the leaf's load holds.
func (p *promela) hangs(i int) bool {
	kind := p.w.Devices[i].Kind
	return kind == opening.SolenoidExit || kind == opening.MotorExit
}

func (p *promela) sticks(i int) bool {
	d, load := &p.w.Devices[i], p.doors[p.doorOf(i)].Preload
	return d.Kind != opening.Magnet && load.Known && d.PreloadMax.Known && load.Value+2*load.U > d.PreloadMax.Value-2*d.PreloadMax.U
}

// loosen takes away a bit of what stands against a latch; one that was to let go is late for it.
func (p *promela) loosen(k int, bits int) string {
	return fmt.Sprintf("if :: k%dp == 3 -> k%ds = (k%ds & ~%d) | ((k%ds & %d) * 4) :: else -> k%ds = k%ds & ~%d fi", k, k, k, bits, k, bits, k, k, bits)
}

// unload takes the load off the locks of a door.
func (p *promela) unload(i int) string {
	s := ""
	for k, lock := range p.locks {
		if p.w.Devices[i].Unloads == "yes" && p.doorOf(lock) == p.doorOf(i) {
			s += fmt.Sprintf("if :: k%ds & 2 -> %s :: else fi; ", k, p.loosen(k, 2))
		}
	}
	return s
}

// blame tells which rule a drive breaks that meets a lock which is not free.
func (p *promela) blame(door int) string {
	s := fmt.Sprintf("bad = bad | %d", 1<<ReleasedFirst)
	for k := len(p.locks) - 1; k >= 0; k-- {
		if p.doorOf(p.locks[k]) == door {
			jam, late := fmt.Sprintf("k%dp == 3", k), fmt.Sprintf("k%dp == 1", k)
			s = fmt.Sprintf("if :: (%s && (k%ds & 1)) || (%s && (k%ds & 4)) -> bad = bad | %d :: (%s && !(k%ds & 1)) || (%s && (k%ds & 12) == 8) -> bad = bad | %d :: else -> %s fi",
				jam, k, late, k, 1<<RetractedFirst, jam, k, late, k, 1<<LetsGoLoaded, s)
		}
	}
	return s
}

func (p *promela) anyStuck() string {
	s := "false"
	for k := range p.locks {
		s += fmt.Sprintf(" || k%ds != 0", k)
	}
	return "(" + s + ")"
}

// sticking are the events by which a latch is stuck and ceases to be.
func (p *promela) sticking(add func(guard, effect string, args ...any)) {
	for k, i := range p.locks {
		for _, how := range []struct {
			may bool
			bit int
		}{{p.hangs(i), 1}, {p.sticks(i), 2}} {
			if how.may {
				add(fmt.Sprintf("(k%ds & %d) == 0 && k%dp == 0 && leaf%d == 0", k, how.bit, k, p.doorOf(i)), "k%ds = k%ds | %d; want = 0; wantl = 0; way = 0", k, k, how.bit)
				add(fmt.Sprintf("(k%ds & %d) != 0", k, how.bit), "%s", p.loosen(k, how.bit))
			}
		}
	}
}

// backed tells a supply that a battery is wired to.
func (p *promela) backed(supply *opening.Device) bool {
	for i := range p.w.Devices {
		b := &p.w.Devices[i]
		if b.Kind == opening.StandbyBattery && p.ways(p.terminal(b, opening.Plus), map[string]bool{p.terminal(supply, opening.BatteryPlus): true}) == "((true))" &&
			p.ways(p.terminal(b, opening.Minus), map[string]bool{p.terminal(supply, opening.BatteryMinus): true}) == "((true))" {
			return true
		}
	}
	return false
}

// fades lists what gives up as a battery runs low: a lock or a drive each by itself,
// and last all else that has a coil; none without a battery.
func (p *promela) fades() (sets [][]int) {
	if !slices.ContainsFunc(p.w.Devices, func(d opening.Device) bool { return d.Kind == opening.PowerSupply && p.backed(&d) }) {
		return nil
	}
	var rest []int
	for i := range p.w.Devices {
		d := &p.w.Devices[i]
		switch {
		case p.terminal(d, opening.Plus) == "" || p.terminal(d, opening.Minus) == "":
		case slices.Contains(p.locks, i), slices.Contains(p.drives, i):
			sets = append(sets, []int{i})
		case d.Kind == opening.TouchlessPlate, d.Kind == opening.PresenceSensor, d.Kind == opening.AccessRelay, d.Kind == opening.Receiver,
			d.Kind == opening.DelayRelay, d.Kind == opening.PlainRelay, d.Kind == opening.Sequencer:
			rest = append(rest, i)
		}
	}
	if rest != nil {
		sets = append(sets, rest)
	}
	return sets
}

// lost is whether a device has given up.
func (p *promela) lost(i int) string {
	for k, set := range p.fades() {
		if slices.Contains(set, i) {
			return fmt.Sprintf("(sag & %d)", 1<<k)
		}
	}
	return "false"
}

// fading are the events by which things give up, in any order that voltages allow.
func (p *promela) fading(add func(guard, effect string, args ...any), forget string) {
	sets := p.fades()
	span := func(set []int) (low, high float64, known bool) {
		known = true
		for n, i := range set {
			v := p.w.Devices[i].Least
			a, b := float64(v.Value-2*v.U), float64(v.Value+2*v.U)
			if n == 0 {
				low, high = a, b
			}
			low, high, known = min(low, a), max(high, b), known && v.Known
		}
		return low, high, known
	}
	for k, set := range sets {
		_, high, known := span(set)
		guard := fmt.Sprintf("!mains && (sag & %d) == 0", 1<<k)
		for n, other := range sets {
			if low, _, knownToo := span(other); n != k && known && knownToo && low*0.95 > high {
				guard += fmt.Sprintf(" && (sag & %d) != 0", 1<<n)
			}
		}
		add(guard, "way = 0; %s sag = sag | %d; if :: !%s -> areturn = 1 :: else fi", forget, 1<<k, p.pressedFormula())
	}
}

// alone is whether nobody does anything and nothing is amiss, and relocked whether
// every door that has to be locked is.
func (p *promela) alone() string {
	s := "!" + p.pressedFormula() + " && alarm == 0 && mains && !" + p.anyStuck()
	for k, i := range p.levers {
		switch p.w.Devices[i].Kind {
		case opening.KeySwitch, opening.HoldOpenSwitch, opening.PresenceSensor:
			s += fmt.Sprintf(" && !l%d", k)
		}
	}
	return "(" + s + ")"
}

func (p *promela) relocked() string {
	s := "true"
	for k, i := range p.locks {
		if p.doors[p.doorOf(i)].StaysLocked {
			s += fmt.Sprintf(" && k%dp == 0", k)
		}
	}
	if slices.ContainsFunc(p.accesses, func(i int) bool { return p.w.Devices[i].OnSchedule == "yes" }) {
		return "(isday || (" + s + "))"
	}
	return "(" + s + ")"
}
