package logic

import (
	"fmt"
	"slices"
	"strings"

	"swingwright/opening"
)

// ToTry is what has to be tried on site, since no wiring shows it (common practice):
// what devices do by themselves, and what nobody has found out yet of these.
func (p *Proof) ToTry() (all []string) {
	m := p.Machine
	add := func(format string, args ...any) { all = append(all, fmt.Sprintf(format, args...)) }
	if len(m.drives) > 0 {
		add("Hold the leaf against its opening below 5 degrees, as a latch that hangs does: the drive has to stop within 1 to 2 s, draw back, try once more, and then give up and show a fault, without pushing again and again.")
		add("Hold the leaf midway as it opens, and as it closes: it has to stop or turn back.")
	}
	for i := range m.locks {
		l := &m.locks[i]
		switch {
		case l.dev < 0 || l.magnet || !m.atDrive(func(o *lock) bool { return o.dev == l.dev }):
		case l.hangs:
			add("Hold the latch of %s out by hand, and ask for the door five times: the drive must not start. Then lean on the leaf and ask again: the latch has to come back.", m.name(l.dev))
		case !l.loads:
			add("Lean on the leaf as wind and seals do, and ask for the door ten times: %s has to let go each time. Nobody knows both the force on it and the most that it bears; gauge the one, and look for the other in its paper.", m.name(l.dev))
		case l.sticks:
			add("Ask for the door ten times while somebody leans on the leaf, once its load is off %s: by what was gauged it does not let go as it is.", m.name(l.dev))
		}
	}
	if radio := m.named(opening.Transmitter); radio != "" {
		add("Find out how each of these warns before its battery is flat, and that it does: %s.", radio)
	}
	if m.sagSlot >= 0 {
		add("Switch the mains off and find out how the standby battery warns before it is flat, and that it does.")
		for _, say := range m.Fading() {
			add("%s", say)
		}
		if p.Verdicts[LowBattery].Undone {
			add("Let the battery run down while somebody watches, and ask for the door until nothing comes. The drive must not push against a lock that no longer lets go, and nothing may open by itself.")
		}
	}
	return all
}

// named lists the devices of a kind, empty where there are none.
func (m *Machine) named(kind opening.DeviceKind) string {
	var names []string
	for i := range m.wiring.Devices {
		if d := &m.wiring.Devices[i]; d.Kind == kind {
			names = append(names, d.Name)
		}
	}
	return strings.Join(slices.Compact(names), ", ")
}
