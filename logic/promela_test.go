package logic

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"swingwright/opening"
	q "swingwright/quantity"
)

// A promela writes a wiring as a model in Promela, the language of the model
// checker spin (Holzmann, The SPIN Model Checker, 2003). It reads devices and
// wires afresh: it walks from terminal to terminal along wires and contacts and
// writes each coil and input as a formula of the contacts on the ways to it, where
// the machine joins nets; of the machine it takes only the numbers at which long
// times are cut off, and whether a rule applies.
type promela struct {
	strings.Builder
	w     *opening.Wiring
	doors []Door
	m     *Machine
	rest  bool
	edges map[string][]edge // from terminal to terminal
	sense map[string]string // formula by name
	order []string

	levers, locks, drives, accesses []int // indices of devices
	itself                          int   // the first so many arms happen by themselves
	outputs                         []promelaOutput
}

// An edge joins two terminals while a formula holds; "" is a wire.
type edge struct{ to, while string }

type promelaOutput struct {
	dev                     int
	relay                   opening.Relay
	delay, pulse, hold      int
	pulseFree, holdFree     bool
	oneShot, used           bool
	name, signal, powerName string
}

func (p *promela) say(format string, args ...any) { fmt.Fprintf(p, format+"\n", args...) }

// promelaOf is the model of a wiring. With rest, people may withdraw from it once and
// for all; then every run of it has to end at rest.
func promelaOf(w *opening.Wiring, doors []Door, m *Machine, rest bool) string {
	p := &promela{w: w, doors: doors, m: m, rest: rest, edges: make(map[string][]edge), sense: make(map[string]string)}
	p.sort()
	p.walkable()
	p.declare()
	p.senseInline()
	p.watchInline()
	p.drivesInline()
	p.outputsInline()
	p.locksInline()
	p.restInline()
	p.holdInline()
	p.settleInline()
	p.main()
	return p.String()
}

func (p *promela) doorOf(i int) int {
	for k, d := range p.doors {
		if d.ID == p.w.Devices[i].Opening {
			return k
		}
	}
	return 0
}

func (p *promela) sort() {
	for i := range p.w.Devices {
		d := &p.w.Devices[i]
		switch d.Kind {
		case opening.PushPlate, opening.TouchlessPlate, opening.Transmitter, opening.RequestToExit, opening.KeySwitch,
			opening.NightSwitch, opening.EnableSwitch, opening.HoldOpenSwitch, opening.PresenceSensor:
			p.levers = append(p.levers, i)
		case opening.ElectricStrike, opening.Magnet, opening.ElectricLock, opening.SolenoidExit, opening.MotorExit:
			p.locks = append(p.locks, i)
		case opening.Drive:
			p.drives = append(p.drives, i)
			p.addOutputs(i)
		case opening.AccessRelay:
			p.accesses = append(p.accesses, i)
			p.addOutputs(i)
		case opening.Receiver, opening.DelayRelay, opening.PlainRelay, opening.Sequencer:
			p.addOutputs(i)
		}
	}
}

func floorTicks(t, tick q.Time) int { return int(math.Floor(float64(t/tick) + 1e-9)) }
func ceilTicks(t, tick q.Time) int  { return int(math.Ceil(float64(t/tick) - 1e-9)) }

func (p *promela) addOutputs(i int) {
	d := &p.w.Devices[i]
	relays := d.Relays
	if len(relays) == 0 {
		relays = []opening.Relay{{Follows: "trigger", OnDelay: d.OnDelay, Pulse: d.Pulse, Hold: d.Hold}}
		switch d.Kind {
		case opening.Drive:
			relays = []opening.Relay{{Name: "LOCK", Follows: "start"}}
		case opening.AccessRelay:
			relays[0].Follows = "release"
		case opening.Receiver:
			if !relays[0].Pulse.Known {
				relays[0].Pulse = seconds(0.5)
			}
		}
	}
	for _, r := range relays {
		o := promelaOutput{dev: i, relay: r, delay: floorTicks(r.OnDelay.Value, p.m.Tick), hold: floorTicks(r.Hold.Value, p.m.Tick), oneShot: d.Kind != opening.AccessRelay}
		if r.Pulse.Known {
			o.pulse = max(1, floorTicks(r.Pulse.Value, p.m.Tick))
		} else if d.Kind == opening.AccessRelay && r.Follows != "forced" {
			o.pulse = floorTicks(5, p.m.Tick)
		}
		if o.pulse > p.m.capTicks {
			o.pulse, o.pulseFree = p.m.capTicks, true
		}
		if o.hold > p.m.capTicks {
			o.hold, o.holdFree = p.m.capTicks, true
		}
		o.name = fmt.Sprintf("o%d", len(p.outputs))
		o.used = d.Kind == opening.AccessRelay
		for _, t := range d.Points() {
			if end := d.Name + "." + t.Name; (t.Function == opening.NormallyOpen || t.Function == opening.NormallyShut) && p.hasWire(end) && (t.Of == r.Name || len(relays) == 1) {
				o.used = true
			}
		}
		p.outputs = append(p.outputs, o)
	}
}

func (p *promela) hasWire(end string) bool {
	return slices.ContainsFunc(p.w.Wires, func(w opening.Wire) bool { return w.From == end || w.To == end })
}

// walkable lays out the ways from terminal to terminal.
func (p *promela) walkable() {
	both := func(a, b, while string) {
		p.edges[a] = append(p.edges[a], edge{b, while})
		p.edges[b] = append(p.edges[b], edge{a, while})
	}
	for _, w := range p.w.Wires {
		both(w.From, w.To, "")
	}
	for i := range p.w.Devices {
		d := &p.w.Devices[i]
		for _, c := range d.Points() {
			if c.Function != opening.Common {
				continue
			}
			for _, t := range d.Points() {
				if t.Of != c.Of || t.Function != opening.NormallyOpen && t.Function != opening.NormallyShut {
					continue
				}
				if acts := p.acting(i, c.Of); acts != "" {
					if t.Function == opening.NormallyShut {
						acts = "!" + acts
					}
					both(d.Name+"."+c.Name, d.Name+"."+t.Name, acts)
				}
			}
		}
	}
}

// acting is the formula of what works a contact of a device.
func (p *promela) acting(i int, of string) string {
	d := &p.w.Devices[i]
	not := ""
	if d.Normal == opening.Closed || d.Kind == opening.EnableSwitch && d.Normal == "" {
		not = "!"
	}
	switch d.Kind {
	case opening.AlarmModule:
		return "(" + not + "(alarm != 0))"
	case opening.AlarmSounder:
		return "(" + not + "(alarm == 1))"
	case opening.PositionSwitch:
		return fmt.Sprintf("(%s(leaf%d != 0))", not, p.doorOf(i))
	}
	if k := slices.Index(p.locks, i); k >= 0 {
		if of == "REX" {
			return fmt.Sprintf("(hand == %d)", p.doorOf(i))
		}
		if slices.ContainsFunc(d.Relays, func(r opening.Relay) bool { return r.Name == of && r.Follows == opening.FollowsFree }) {
			return fmt.Sprintf("(k%dp == 2)", k)
		}
	}
	if k := slices.Index(p.levers, i); k >= 0 {
		switch d.Kind {
		case opening.TouchlessPlate, opening.PresenceSensor:
			return fmt.Sprintf("(%s(l%d && %s))", not, k, p.coil(i))
		}
		return fmt.Sprintf("(%s(l%d == 1))", not, k)
	}
	for _, o := range p.outputs {
		if o.dev == i && (o.relay.Name == of || len(p.relaysOf(i)) == 1) {
			return fmt.Sprintf("(%sp >= 2 && %sp <= 6)", o.name, o.name)
		}
	}
	return ""
}

func (p *promela) relaysOf(i int) (names []string) {
	for _, o := range p.outputs {
		if o.dev == i {
			names = append(names, o.name)
		}
	}
	return names
}

// ways is the formula of being joined: all ways along wires and contacts from one
// terminal to any of the others, none twice through a point.
func (p *promela) ways(from string, to map[string]bool) string {
	var all []string
	var walk func(at string, seen map[string]bool, while []string)
	walk = func(at string, seen map[string]bool, while []string) {
		// everything that wires alone reach
		group := []string{at}
		for k := 0; k < len(group); k++ {
			seen[group[k]] = true
			for _, e := range p.edges[group[k]] {
				if e.while == "" && !seen[e.to] && !slices.Contains(group, e.to) {
					group = append(group, e.to)
				}
			}
		}
		for _, g := range group {
			if to[g] {
				if len(while) == 0 {
					while = []string{"true"}
				}
				all = append(all, "("+strings.Join(while, " && ")+")")
				return
			}
		}
		for _, g := range group {
			for _, e := range p.edges[g] {
				if e.while != "" && !seen[e.to] {
					again := make(map[string]bool, len(seen))
					for k := range seen {
						again[k] = true
					}
					walk(e.to, again, append(slices.Clone(while), e.while))
				}
			}
		}
	}
	walk(from, map[string]bool{}, nil)
	if len(all) == 0 {
		return "false"
	}
	slices.Sort(all)
	return "(" + strings.Join(slices.Compact(all), " || ") + ")"
}

func (p *promela) terminal(d *opening.Device, f opening.Function) string {
	for _, t := range d.Points() {
		if t.Function == f {
			return d.Name + "." + t.Name
		}
	}
	return ""
}

// need keeps a formula under a name, and returns the name.
func (p *promela) need(name, formula string) string {
	if _, known := p.sense[name]; !known {
		p.sense[name] = formula
		p.order = append(p.order, name)
	}
	return name
}

// coil is the name of whether a device has power; "true" where it takes none.
func (p *promela) coil(i int) string {
	d := &p.w.Devices[i]
	plus, minus := p.terminal(d, opening.Plus), p.terminal(d, opening.Minus)
	if plus == "" || minus == "" {
		return "true"
	}
	name := fmt.Sprintf("c%d", i)
	if _, known := p.sense[name]; known {
		return name
	}
	p.need(name, "") // it may be asked for again on the way
	var any []string
	for k := range p.w.Devices {
		s := &p.w.Devices[k]
		a, b, live := p.terminal(s, opening.Plus), p.terminal(s, opening.Minus), "mains"
		switch s.Kind {
		case opening.PowerSupply:
			if p.backed(s) {
				live = "true"
			}
		default:
			if a, b = p.terminal(s, opening.OutPlus), p.terminal(s, opening.OutMinus); a == "" || !p.hasWire(a) || !p.hasWire(b) || k == i {
				continue
			}
			live = p.coil(k)
		}
		x, y := p.ways(plus, map[string]bool{a: true}), p.ways(minus, map[string]bool{b: true})
		if x != "false" && y != "false" {
			any = append(any, fmt.Sprintf("(%s && %s && %s)", live, x, y))
		}
	}
	formula := "false"
	if len(any) > 0 {
		formula = strings.Join(any, " || ")
		if lost := p.lost(i); lost != "false" {
			formula = "!" + lost + " && (" + formula + ")"
		}
	}
	p.sense[name] = formula
	// what it hangs on has to be worked out before it
	p.order = append(slices.DeleteFunc(p.order, func(s string) bool { return s == name }), name)
	return name
}

// input is the name of whether an input of a device is not as it wants to be left.
func (p *promela) input(i int, f opening.Function) string {
	d := &p.w.Devices[i]
	commons := make(map[string]bool)
	for _, t := range d.Points() {
		if end := d.Name + "." + t.Name; t.Function == opening.InputCommon && p.hasWire(end) {
			commons[end] = true
		}
	}
	var any []string
	for _, t := range d.Points() {
		if end := d.Name + "." + t.Name; t.Function == f && p.hasWire(end) {
			x := p.ways(end, commons)
			if t.Normal == opening.Closed {
				x = "!" + x
				if x == "!false" {
					x = "true"
				}
			}
			any = append(any, x)
		}
	}
	if len(any) == 0 {
		return "false"
	}
	return p.need(fmt.Sprintf("i%d%s", i, strings.ReplaceAll(string(f), "-", "")), strings.Join(any, " || "))
}

func (p *promela) declare() {
	p.say("c_decl { int asked_of, asked_low; unsigned char kept[256]; };")
	p.say("int badlow; byte sag; bool left, under;")
	p.say("byte alarm, way, want, wantl, outc, outd; bool mains = 1, isday = 1, byin, bycard, byout, bybetween, areset, areturn;")
	p.say("int bad; bool broken; byte ev, n; byte changed, wasrest; byte hand = 255;")
	for k := range p.levers {
		p.say("bool l%d;", k)
	}
	for k := range p.doors {
		p.say("byte leaf%d;", k)
	}
	for k := range p.locks {
		p.say("byte k%dp, k%dc, k%ds;", k, k, k)
	}
	for k := range p.drives {
		p.say("byte d%dp, d%dc; bool d%ds, d%dr; byte st%d, ready%d, hold%d;", k, k, k, k, k, k, k)
	}
	for k := range p.accesses {
		p.say("bool a%dcard, a%dopen, a%dforced;", k, k, k)
	}
	for k := range p.outputs {
		o := &p.outputs[k]
		p.say("byte %sp, %sc;", o.name, o.name)
		o.powerName = p.coil(o.dev)
		if !o.used {
			o.powerName = "false"
		}
		o.signal = p.signalOf(o)
	}
	for _, i := range p.locks {
		p.coil(i)
	}
	for _, i := range p.drives {
		p.coil(i)
		for _, f := range []opening.Function{opening.StartInput, opening.EnableInput, opening.AlarmInput, opening.HoldInput, opening.SafetyInput} {
			p.input(i, f)
		}
	}
	for _, i := range p.accesses {
		p.coil(i)
		p.input(i, opening.ExitInput)
		p.input(i, opening.PositionInput)
	}
	for _, name := range p.order {
		p.say("bool %s;", name)
	}
}

func (p *promela) signalOf(o *promelaOutput) string {
	drive, access := slices.Index(p.drives, o.dev), slices.Index(p.accesses, o.dev)
	let := fmt.Sprintf("(a%dcard || (%v && isday))", access, access >= 0 && p.w.Devices[o.dev].OnSchedule == "yes")
	switch o.relay.Follows {
	case opening.FollowsStart:
		return fmt.Sprintf("(d%dp >= 1 && d%dp <= 3)", drive, drive)
	case opening.FollowsMoving:
		return fmt.Sprintf("(d%dp == 2 || d%dp == 3)", drive, drive)
	case opening.FollowsOpen:
		return fmt.Sprintf("(leaf%d != 0)", p.doorOf(o.dev))
	case opening.FollowsCredential:
		return let
	case opening.FollowsExit:
		return p.input(o.dev, opening.ExitInput)
	case opening.FollowsRelease:
		return "(" + let + " || " + p.input(o.dev, opening.ExitInput) + ")"
	case opening.FollowsForced:
		return fmt.Sprintf("a%dforced", access)
	}
	d := &p.w.Devices[o.dev]
	if trigger := p.terminal(d, opening.TriggerInput); trigger != "" && p.hasWire(trigger) {
		return p.input(o.dev, opening.TriggerInput)
	}
	if d.Kind == opening.Receiver {
		return "false"
	}
	return p.coil(o.dev)
}

func (p *promela) senseInline() {
	p.say("inline work_out() {")
	for range 2 {
		for _, name := range p.order {
			p.say("  %s = %s;", name, p.sense[name])
		}
	}
	for i := range p.w.Devices {
		if s := &p.w.Devices[i]; s.Kind == opening.PowerSupply {
			x := p.ways(p.terminal(s, opening.Plus), map[string]bool{p.terminal(s, opening.Minus): true})
			if x != "false" {
				live := "mains"
				if p.backed(s) {
					live = "true"
				}
				p.say("  if :: %s && %s -> bad = bad | %d :: else fi;", live, x, 1<<NoShort)
			}
		}
	}
	p.say("  skip }")
}

func (p *promela) authorized() string {
	any := "false"
	for k, i := range p.levers {
		if kind := p.w.Devices[i].Kind; kind == opening.KeySwitch || kind == opening.HoldOpenSwitch {
			any += fmt.Sprintf(" || l%d", k)
		}
	}
	return "(" + any + ")"
}

func (p *promela) watchInline() {
	p.say("inline watch() {")
	for k, i := range p.accesses {
		expects := fmt.Sprintf("a%dcard || %s || (%v && isday)", k, p.input(i, opening.ExitInput), p.w.Devices[i].OnSchedule == "yes")
		for _, o := range p.outputs {
			if o.dev == i && o.relay.Follows != opening.FollowsForced {
				expects += fmt.Sprintf(" || (%sp != 0 && %sp != 7)", o.name, o.name)
			}
		}
		open := p.input(i, opening.PositionInput)
		p.say("  if :: !%s -> a%dopen = 1; a%dforced = 0", p.coil(i), k, k)
		p.say("  :: else -> if :: %s && !a%dopen && !(%s) -> a%dforced = 1; if :: byin || bycard || hand != 255 || %s -> bad = bad | %d :: else fi :: else fi;",
			open, k, expects, k, p.authorized(), 1<<NoFalseAlarm)
		p.say("    a%dopen = %s; if :: !a%dopen -> a%dforced = 0 :: else fi fi;", k, open, k, k)
	}
	p.say("  skip }")
}

// mayEnter is whether somebody may come in at a door.
func (p *promela) mayEnter(door int) string {
	schedule := slices.ContainsFunc(p.accesses, func(i int) bool { return p.w.Devices[i].OnSchedule == "yes" })
	between := "false"
	if door == 0 && len(p.doors) > 1 {
		between = "bybetween"
	}
	return fmt.Sprintf("(%v || (%v && isday) || byin || bycard || %s || %s)", !p.doors[door].StaysLocked, schedule, between, p.authorized())
}

func (p *promela) locksHold(door int) string {
	any := "false"
	for k, i := range p.locks {
		if p.doorOf(i) == door {
			any += fmt.Sprintf(" || k%dp != 2", k)
		}
	}
	if any == "false" && p.doors[door].LockedByOld {
		any = "true"
	}
	return "(" + any + ")"
}

// inTurn is the check that a door of a vestibule starts when it is its turn.
func (p *promela) inTurn(i int) string {
	if len(p.doors) < 2 {
		return "skip;"
	}
	door := p.doorOf(i)
	first := fmt.Sprintf("(way %% 4 == 2 -> %d : 0)", len(p.doors)-1)
	return fmt.Sprintf("if :: way != 0 && %s == %d -> way = way | 4 :: way != 0 && %s != %d && way < 4 -> bad = bad | %d; way = 0 :: else fi;", first, door, first, door, 1<<InOrder)
}

func (p *promela) part(k, i int) string {
	door := p.doorOf(i)
	clear := max(1, ceilTicks(cmp.Or(p.doors[door].Clear, 0.5), p.m.Tick))
	if p.locksHold(door) == "(false)" {
		clear = 1
	}
	return fmt.Sprintf("%s if :: leaf%d != 0 -> d%dp = 3; d%dc = 0; leaf%d = 2 :: else -> if :: %s -> if :: alarm == 0 -> %s :: else fi; d%dp = 6; d%dc = 0 :: else -> d%dp = 2; d%dc = %d; leaf%d = 1 fi fi",
		p.inTurn(i), door, k, k, door, p.locksHold(door), p.blame(door), k, k, k, k, clear, door)
}

func (p *promela) drivesInline() {
	p.say("inline run_drives() {")
	for k, i := range p.drives {
		d := &p.w.Devices[i]
		door := p.doorOf(i)
		p.say("  st%d = %s; hold%d = %s;", k, p.input(i, opening.StartInput), k, p.input(i, opening.HoldInput))
		p.say("  ready%d = %s && !%s && !%s;", k, p.coil(i), p.input(i, opening.EnableInput), p.input(i, opening.AlarmInput))
		start := fmt.Sprintf("st%d && !d%ds && d%dr", k, k, k)
		if d.StartBy == opening.WhileShut {
			start = fmt.Sprintf("st%d", k)
		}
		p.say("  if :: !ready%d -> d%dp = 0; d%dc = 0", k, k, k)
		p.say("  :: else ->")
		hears := "false"
		for v, lever := range p.levers {
			if p.doorOf(lever) == door || p.w.Devices[lever].Side == opening.Between || len(p.doors) > 1 {
				hears += fmt.Sprintf(" || wantl == %d", v)
			}
		}
		p.say("    if :: (st%d || hold%d) && want != 0 && (%s) -> want = 0; wantl = 0 :: else fi;", k, k, hears)
		p.say("    if :: d%dp == 6 && !st%d && !hold%d -> d%dp = 0", k, k, k, k)
		p.say("    :: else -> if :: ((%s) || hold%d) && (d%dp == 0 || d%dp == 5) && !(%s && leaf%d == 0) ->", start, k, k, k, p.input(i, opening.SafetyInput), door)
		p.say("      if :: areset -> bad = bad | %d :: !areset && areturn -> bad = bad | %d :: else fi;", 1<<NothingQueued, 1<<NoSelfStart)
		p.say("      if :: (byout || bybetween) && !%s -> bad = bad | %d :: else fi;", p.mayEnter(door), 1<<OutsideDead)
		p.say("      if :: !byin && (byout || bycard) && %s -> bad = bad | %d :: else fi;", p.nightOn(door), 1<<NightLock)
		p.say("      %s", p.unload(i))
		wait := floorTicks(d.OnDelay.Value, p.m.Tick)
		p.say("      if :: leaf%d != 0 -> %s d%dp = 3; leaf%d = 2 :: else ->", door, p.inTurn(i), k, door)
		if wait == 0 {
			p.say("        %s fi", p.part(k, i))
		} else {
			p.say("        d%dp = 1; d%dc = %d fi", k, k, wait)
		}
		p.say("      :: else fi fi fi;")
		p.say("  d%ds = st%d; d%dr = ready%d;", k, k, k, k)
	}
	p.say("  skip }")
}

func (p *promela) nightOn(door int) string {
	any := "false"
	for k, i := range p.levers {
		if p.w.Devices[i].Kind == opening.NightSwitch && (p.doorOf(i) == door || len(p.doors) > 1) {
			any += fmt.Sprintf(" || l%d", k)
		}
	}
	return "(" + any + ")"
}

func (p *promela) act(o *promelaOutput) string {
	if o.oneShot && o.pulse > 0 {
		return fmt.Sprintf("%sp = 3; %sc = %d", o.name, o.name, o.pulse)
	}
	return fmt.Sprintf("%sp = 2; %sc = 0", o.name, o.name)
}

func (p *promela) outputsInline() {
	p.say("inline run_outputs() {")
	for k := range p.outputs {
		o := &p.outputs[k]
		n := o.name
		begin := p.act(o)
		if o.delay > 0 {
			begin = fmt.Sprintf("%sp = 1; %sc = %d", n, n, o.delay)
		}
		after := fmt.Sprintf("%sp = 0", n)
		if o.pulse > 0 {
			after = fmt.Sprintf("%sp = 3; %sc = %d", n, n, o.pulse)
		} else if o.hold > 0 {
			after = fmt.Sprintf("%sp = 5; %sc = %d", n, n, o.hold)
		}
		p.say("  if :: !%s -> %sp = 0; %sc = 0", o.powerName, n, n)
		p.say("  :: else -> if :: %sp == 0 && %s -> %s", n, o.signal, begin)
		p.say("    :: %sp == 1 && !%s && %v -> %sp = 0; %sc = 0", n, o.signal, o.pulse == 0, n, n)
		p.say("    :: %sp == 7 && !%s -> %sp = 0; %sc = 0", n, o.signal, n, n)
		p.say("    :: %sp == 2 && !%s -> %s", n, o.signal, after)
		p.say("    :: %s && (%sp == 5 || %sp == 6 || (%v && (%sp == 3 || %sp == 4))) -> %sp = 2; %sc = 0", o.signal, n, n, !o.oneShot, n, n, n, n)
		p.say("    :: else fi fi;")
	}
	p.say("  skip }")
}

func (p *promela) locksInline() {
	p.say("inline run_locks() {")
	for k, i := range p.locks {
		d := &p.w.Devices[i]
		wants := p.coil(i)
		if d.Kind == opening.Magnet || d.Fails == "fail-safe" {
			wants = "!" + wants
		}
		slow := q.Time(0.5)
		if d.Kind == opening.Magnet && d.Residual.Known {
			slow = d.Residual.Value
		} else if d.Release.Known {
			slow = d.Release.Value
		}
		p.say("  if :: !(%s) -> k%dp = 0; k%dc = 0; k%ds = k%ds & 3", wants, k, k, k, k)
		p.say("  :: else -> if :: k%dp == 0 && (k%ds & 3) -> k%dp = 3 :: (k%dp == 0 || k%dp == 3) && !(k%ds & 3) -> k%dp = 1; k%dc = %d :: else fi fi;", k, k, k, k, k, k, k, k, ceilTicks(slow+0.2, p.m.Tick))
	}
	p.say("  skip }")
}

func (p *promela) pressedFormula() string {
	any := "false"
	for k, i := range p.levers {
		if p.isMomentary(i) {
			any += fmt.Sprintf(" || l%d", k)
		}
	}
	return "(" + any + ")"
}

func (p *promela) isMomentary(i int) bool {
	switch p.w.Devices[i].Kind {
	case opening.PushPlate, opening.TouchlessPlate, opening.Transmitter, opening.RequestToExit:
		return true
	}
	return false
}

func (p *promela) restInline() {
	idle := "true"
	for _, o := range p.outputs {
		idle += fmt.Sprintf(" && (%sp == 0 || %sp == 2 || %sp == 7)", o.name, o.name, o.name)
	}
	for k := range p.locks {
		idle += fmt.Sprintf(" && k%dp != 1", k)
	}
	for k := range p.accesses {
		idle += fmt.Sprintf(" && !a%dcard", k)
	}
	for k := range p.drives {
		idle += fmt.Sprintf(" && (d%dp == 0 || d%dp == 6)", k, k)
	}
	p.say("#define QUIET (%s && !%s)", idle, p.pressedFormula())
	shut := "true"
	for k := range p.doors {
		shut += fmt.Sprintf(" && leaf%d == 0", k)
	}
	p.say("#define ATREST (QUIET && %s)", shut)
}

func (p *promela) holdInline() {
	p.say("inline hold_rules() {")
	for k, i := range p.drives {
		door := p.doorOf(i)
		p.say("  if :: d%dp >= 2 && d%dp <= 4 && alarm != 0 -> bad = bad | %d :: else fi;", k, k, 1<<NoDriveInAlarm)
		for v, lever := range p.levers {
			if p.w.Devices[lever].Kind == opening.EnableSwitch && p.doorOf(lever) == door {
				p.say("  if :: d%dp >= 2 && d%dp <= 4 && l%d -> bad = bad | %d :: else fi;", k, k, v, 1<<MotorOff)
			}
		}
		p.say("  if :: d%dp == 2 && %s && alarm == 0 -> bad = bad | %d :: else fi;", k, p.locksHold(door), 1<<StaysReleased)
	}
	magnet := "false"
	for k, i := range p.locks {
		door := p.doorOf(i)
		if p.w.Devices[i].Kind == opening.Magnet {
			magnet += fmt.Sprintf(" || (outd == %d && k%dp != 2)", door, k)
			p.say("  if :: alarm != 0 && k%dp == 0 -> bad = bad | %d :: else fi;", k, 1<<FreeInAlarm)
		} else if p.doors[door].FireRated {
			p.say("  if :: alarm != 0 && QUIET && leaf%d == 0 && k%dp != 0 -> bad = bad | %d :: else fi;", door, k, 1<<LatchesInAlarm)
		}
		p.say("  if :: k%dp == 2 && (byout || bybetween) && !%s && alarm == 0 && mains -> bad = bad | %d :: else fi;", k, p.mayEnter(door), 1<<OutsideDead)
	}
	p.say("  if :: outc > 0 && !(%s) -> outc = 0; outd = 0 :: else fi;", magnet)
	p.say("  skip }")
}

func (p *promela) settleInline() {
	var sum []string
	n := 1
	term := func(name string) { sum = append(sum, name); n++ }
	for k := range p.locks {
		term(fmt.Sprintf("k%dp", k))
		term(fmt.Sprintf("k%dc", k))
		term(fmt.Sprintf("k%ds", k))
	}
	for k := range p.drives {
		for _, x := range []string{"p", "c", "s", "r"} {
			term(fmt.Sprintf("d%d%s", k, x))
		}
	}
	for k := range p.accesses {
		term(fmt.Sprintf("a%dopen", k))
		term(fmt.Sprintf("a%dforced", k))
	}
	for _, o := range p.outputs {
		term(o.name + "p")
		term(o.name + "c")
	}
	for k := range p.doors {
		term(fmt.Sprintf("leaf%d", k))
	}
	term("want")
	term("way")
	p.say("inline settle() { n = 0; changed = 1; do :: changed && n < 24 ->")
	keep, differs := "", "0"
	for k, name := range sum {
		keep += fmt.Sprintf("kept[%d] = now.%s; ", k, name)
		differs += fmt.Sprintf(" || kept[%d] != now.%s", k, name)
	}
	p.say("  c_code { %s };", keep)
	p.say("  work_out(); watch(); run_drives(); run_outputs(); run_locks(); if :: c_expr { %s } -> changed = 1 :: else -> changed = 0 fi; n++ :: else", differs)
	p.say(" -> break od; if :: changed -> bad = bad | %d :: else fi; hold_rules() }", 1<<NoChatter)
}

// An arm is one event of the model: when it can happen, and what it does.
type arm struct{ guard, effect string }

func (p *promela) arms() (arms []arm) {
	add := func(guard, effect string, args ...any) { arms = append(arms, arm{guard, fmt.Sprintf(effect, args...)}) }
	p.time(add)
	p.itself = len(arms)
	const asked = "areset = 0; areturn = 0; "
	const forget = "want = 0; wantl = 0; "
	anew := fmt.Sprintf("want = 0; wantl = 0; if :: outc > 0 -> outc = %d :: else fi; ", ceilTicks(1, p.m.Tick)+1)
	for k, i := range p.levers {
		add(fmt.Sprintf("!l%d", k), "wasrest = ATREST; l%d = 1; %s", k, p.press(k, i))
		effect := ""
		switch kind := p.w.Devices[i].Kind; {
		case kind == opening.RequestToExit:
			effect = "outc = 0; outd = 0"
		case kind == opening.EnableSwitch:
			effect = forget + "if :: !" + p.pressedFormula() + " -> areturn = 1 :: else fi"
		case !p.isMomentary(i):
			effect = forget + "skip"
		default:
			effect = "skip"
		}
		add(fmt.Sprintf("l%d", k), "l%d = 0; %s", k, effect)
	}
	fires := slices.ContainsFunc(p.doors, func(d Door) bool { return d.FireRated })
	schedule := false
	for i := range p.w.Devices {
		kind := p.w.Devices[i].Kind
		fires = fires || kind == opening.AlarmModule || kind == opening.AlarmSounder
		schedule = schedule || kind == opening.AccessRelay && p.w.Devices[i].OnSchedule == "yes"
	}
	for k := range p.accesses {
		add("true", "a%dcard = 1; bycard = 1; %sskip", k, asked)
	}
	if fires {
		add("alarm == 0", "alarm = 1; way = 0; %sskip", anew)
		add("alarm == 1", "alarm = 2; way = 0; %sskip", anew)
		add("alarm != 0", "alarm = 0; way = 0; %sif :: !%s -> areset = 1 :: else fi", anew, p.pressedFormula())
	}
	const recharge = "if :: sag != 0 -> sag = 128 :: else fi; "
	add("mains", recharge+"mains = 0; way = 0; %sskip", anew)
	add("!mains", recharge+"mains = 1; way = 0; %sif :: !%s -> areturn = 1 :: else fi", anew, p.pressedFormula())
	if schedule {
		add("isday", "isday = 0; bycard = 1")
		add("!isday", "isday = 1")
	}
	for k, i := range p.drives {
		effect := fmt.Sprintf("d%dp = 3", k)
		if p.w.Devices[i].NoFight == "no" {
			effect = fmt.Sprintf("bad = bad | %d", 1<<Yields)
		}
		add(fmt.Sprintf("d%dp == 5", k), "byin = 1; %s%s", asked, effect)
	}
	p.sticking(add)
	p.fading(add, anew)
	for k := range p.doors {
		effect := ""
		for v, i := range p.levers {
			if d := &p.w.Devices[i]; d.Kind == opening.RequestToExit && p.doorOf(i) == k && (d.Side == opening.Inside || d.Side == "") {
				effect += fmt.Sprintf("l%d = 1; ", v)
			}
		}
		add(fmt.Sprintf("leaf%d == 0", k), "byin = 1; way = 0; %s%shand = %d", asked, effect, k)
	}
	return arms
}

// time lists what happens with nobody doing anything.
func (p *promela) time(add func(guard, effect string, args ...any)) {
	counts, all := "want > 0 || outc > 0", ""
	for k := range p.locks {
		counts += fmt.Sprintf(" || k%dp == 1", k)
		all += fmt.Sprintf("if :: k%dp == 1 -> k%dc--; if :: k%dc == 0 -> k%dp = 2; k%ds = k%ds & 3 :: else fi :: else fi; ", k, k, k, k, k, k)
	}
	for k := range p.outputs {
		o := &p.outputs[k]
		n := o.name
		over := fmt.Sprintf("%sp = 0; %sc = 0; if :: %v && %s -> %sp = 7 :: else fi", n, n, o.oneShot, o.signal, n)
		counts += fmt.Sprintf(" || %sp == 1 || %sp == 3 || %sp == 5", n, n, n)
		end := func(free bool, rest int) string {
			if free {
				return fmt.Sprintf("%sp = %d", n, rest)
			}
			return over
		}
		all += fmt.Sprintf("if :: %sp == 1 -> %sc--; if :: %sc == 0 -> %s :: else fi ", n, n, n, p.act(o))
		all += fmt.Sprintf(":: %sp == 3 -> %sc--; if :: %sc == 0 -> %s :: else fi ", n, n, n, end(o.pulseFree, 4))
		all += fmt.Sprintf(":: %sp == 5 -> %sc--; if :: %sc == 0 -> %s :: else fi :: else fi; ", n, n, n, end(o.holdFree, 6))
		add(fmt.Sprintf("%sp == 4 || %sp == 6", n, n), "%s", over)
	}
	for k, i := range p.drives {
		door := p.doorOf(i)
		counts += fmt.Sprintf(" || d%dp == 1 || d%dp == 2", k, k)
		all += fmt.Sprintf("if :: d%dp == 1 -> d%dc--; if :: d%dc == 0 -> %s :: else fi ", k, k, k, p.part(k, i))
		all += fmt.Sprintf(":: d%dp == 2 -> d%dc--; if :: d%dc == 0 -> d%dp = 3; leaf%d = 2 :: else fi :: else fi; ", k, k, k, k, door)
		add(fmt.Sprintf("d%dp == 3", k), "d%dp = 4", k)
		add(fmt.Sprintf("d%dp == 4 && !%s && !%s && !%s", k, p.input(i, opening.StartInput), p.input(i, opening.HoldInput), p.input(i, opening.SafetyInput)), "d%dp = 5", k)
		add(fmt.Sprintf("d%dp == 5", k), "d%dp = 0; leaf%d = 0", k, door)
	}
	for k := range p.doors {
		guard := fmt.Sprintf("leaf%d != 0", k)
		for v, i := range p.drives {
			if p.doorOf(i) == k {
				guard += fmt.Sprintf(" && (d%dp == 0 || d%dp == 6)", v, v)
			}
		}
		add(guard, "leaf%d = 0", k)
	}
	between := "false"
	for k, i := range p.levers {
		if p.w.Devices[i].Side == opening.Between {
			between += fmt.Sprintf(" || wantl == %d", k)
		}
	}
	all += fmt.Sprintf("if :: want > 0 -> want--; if :: want == 0 -> if :: %s -> bad = bad | %d :: else -> bad = bad | %d fi; wantl = 0 :: else fi :: else fi; ", between, 1<<BetweenWorks, 1<<InsideWorks)
	all += fmt.Sprintf("if :: outc > 1 -> outc--; if :: outc == 1 -> outc = 0; outd = 0; bad = bad | %d :: else fi :: else fi", 1<<WayOut)
	add(counts, "%s", all)
}

// press is what a press does beyond closing a contact.
func (p *promela) press(k, i int) string {
	d := &p.w.Devices[i]
	const forget = "want = 0; wantl = 0; way = 0; "
	const asked = "; areset = 0; areturn = 0; "
	switch d.Kind {
	case opening.NightSwitch:
		return forget + "if :: !wasrest -> byin = 1 :: else fi"
	case opening.HoldOpenSwitch:
		return forget + "byin = 1" + asked + "skip"
	case opening.KeySwitch:
		return forget + "bycard = 1" + asked + "skip"
	case opening.EnableSwitch, opening.PresenceSensor:
		return forget + "skip"
	}
	who := "byin"
	switch d.Side {
	case opening.Outside:
		who = "byout"
	case opening.Between:
		who = "bybetween"
	}
	s := who + " = 1" + asked
	for v := range p.outputs {
		o := &p.outputs[v]
		if to := &p.w.Devices[o.dev]; d.LearnedTo != "" && to.Name == d.LearnedTo {
			begin := p.act(o)
			if o.delay > 0 {
				begin = fmt.Sprintf("%sp = 1; %sc = %d", o.name, o.name, o.delay)
			}
			s += fmt.Sprintf("if :: %s -> %s :: else fi; ", o.powerName, begin)
		}
	}
	if (d.Side == opening.Inside || d.Side == opening.Between) && d.Kind != opening.RequestToExit && len(p.drives) > 0 {
		against := "want != 0 || !mains || alarm != 0 || " + p.anyStuck()
		for v, lever := range p.levers {
			switch kind := p.w.Devices[lever].Kind; {
			case kind == opening.EnableSwitch, kind == opening.PresenceSensor, kind == opening.NightSwitch && d.Side == opening.Between:
				against += fmt.Sprintf(" || l%d", v)
			}
		}
		s += fmt.Sprintf("if :: %s :: else -> want = %d; wantl = %d fi; ", against, p.m.want, k)
	}
	if len(p.doors) > 1 {
		way := 0
		if d.Side == opening.Outside && p.doorOf(i) == 0 {
			way = 1
		} else if d.Side == opening.Inside && p.doorOf(i) == len(p.doors)-1 {
			way = 2
		}
		s += fmt.Sprintf("way = 0; if :: wasrest -> way = %d :: else fi; ", way)
	}
	return s + "skip"
}

func (p *promela) main() {
	arms := p.arms()
	p.say("byte stage;")
	clear := ""
	for k := range p.drives {
		clear += fmt.Sprintf("st%d = 0; ready%d = 0; hold%d = 0; ", k, k, k)
	}
	p.say("inline judge() { if :: c_expr { (now.bad & asked_of) != 0 || (now.badlow & asked_low) != 0 } -> broken = 1 :: else fi; bad = 0; badlow = 0; under = 0; ev = 0; n = 0; changed = 0; wasrest = 0; stage = 0; hand = 255; %s skip }", clear)
	p.say("init { c_code { asked_of = atoi(getenv(\"RULES\")); asked_low = atoi(getenv(\"RULESLOW\")); };")
	p.say("d_step { bad = 0; settle(); byin = 0; bycard = 0; byout = 0; bybetween = 0; areset = 0; areturn = 0; judge() };")
	p.say("assert(!broken);")
	if p.rest {
		p.say("#define RESTS (ATREST && %s)", p.relocked())
		p.say("do :: left && RESTS -> break")
		p.say(":: !left && %s -> left = 1", p.alone())
		any := "false"
		for _, a := range arms[:p.itself] {
			any += " || (" + a.guard + ")"
		}
		p.say(":: left && !RESTS && !(%s) -> skip", any) // it stands still for ever, and not at rest
		p.say(":: !(left && RESTS) -> atomic { if")
	} else {
		p.say("do :: atomic { if")
	}
	for k, a := range arms {
		if p.rest && k >= p.itself {
			a.guard = "!left && (" + a.guard + ")"
		}
		p.say("  :: %s -> ev = %d", a.guard, k)
	}
	p.say("  fi; d_step { bad = 0; if")
	for k, a := range arms {
		p.say("  :: ev == %d -> %s", k, a.effect)
	}
	p.say("  fi; stage = 0; do :: stage < 3 -> settle(); if")
	hold := "false"
	for k, i := range p.locks {
		if p.w.Devices[i].Kind == opening.Magnet {
			hold += fmt.Sprintf(" || (hand == %d && k%dp != 2)", p.doorOf(i), k)
		}
	}
	leaf := ""
	for k := range p.doors {
		free := ""
		for v, i := range p.locks {
			if p.doorOf(i) == k {
				free += "; " + p.loosen(v, 3)
			}
		}
		leaf += fmt.Sprintf(":: hand == %d -> leaf%d = 2%s ", k, k, free)
	}
	cards := ""
	for k := range p.accesses {
		cards += fmt.Sprintf("a%dcard = 0; ", k)
	}
	p.say("    :: stage == 0 -> %s if :: hand == 255 :: else -> if :: %s -> outc = %d; outd = hand :: else -> if %s fi fi fi", cards, hold, ceilTicks(1, p.m.Tick)+1, leaf)
	p.say("    :: stage == 1 -> hand = 255 :: else fi; stage++ :: else -> break od;")
	p.say("  under = (sag != 0);")
	p.say("  if :: ATREST -> sag = sag & 127; byin = 0; bycard = 0; byout = 0; bybetween = 0; areset = 0; areturn = 0; way = 0 :: else fi; if :: under -> badlow = bad; bad = 0 :: else fi; judge() };")
	p.say("  assert(!broken) }")
	if p.rest {
		p.say("if :: !left -> progress_people: skip :: else fi")
	}
	p.say("od }")
}
