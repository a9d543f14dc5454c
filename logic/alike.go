package logic

import "swingwright/opening"

// alike makes states alike that no rule can tell apart any more, now or later:
// of what prompted what runs, only that is kept which some rule still asks for.
// All of it is forgotten together, at rest, so that what outdoes the rest outdoes
// it until then.
func (m *Machine) alike(s *state) {
	p := &s[m.promptSlot]
	const by = byInside | byCredential | byOutside | byBetween
	switch {
	case !m.asksWho:
		*p &^= by
	case *p&byInside != 0: // it excuses whatever anybody else does
		*p = *p&^by | byInside
	case *p&byCredential != 0 && !m.hasNight: // so does a credential, but for a night lock
		*p = *p&^by | byInside
	case *p&byCredential != 0:
		*p = *p&^by | byCredential
	}
}

// findWho finds out what the rules ask of who prompted something.
func (m *Machine) findWho() {
	for i := range m.levers {
		m.hasNight = m.hasNight || m.levers[i].role == opening.NightSwitch
	}
	stays, _ := m.applies(OutsideDead)
	watched, _ := m.applies(NoFalseAlarm)
	m.asksWho = stays || watched || m.hasNight
}
