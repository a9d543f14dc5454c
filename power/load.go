package power

import q "swingwright/quantity"

// Phase is a part of the sequence in which an opening opens and closes.
type Phase uint8

// The phases, in the order of the sequence.
const (
	Resting   Phase  = iota // nothing asked, before and after
	Releasing               // the lock lets go: its inrush
	Colliding               // the drive starts before the lock's inrush is over
	Waiting                 // the lock is released, the drive not started
	Starting                // the drive's inrush, which is what it takes when stalled too
	Moving                  // the drive moves the leaf, the lock kept released
	Holding                 // the leaf is held open
	Closing                 // the leaf closes
	Relocking               // the lock takes hold again
	Phases    = iota        // how many there are
)

var phaseNames = [Phases]string{"at rest", "lock releases", "lock releases while the drive starts", "waiting for the lock", "drive starts or stalls", "leaf moves", "held open", "leaf closes", "lock takes hold"}

// String is the phase in words.
func (p Phase) String() string { return phaseNames[p] }

// MarshalText writes the phase in words.
func (p Phase) MarshalText() ([]byte, error) { return []byte(p.String()), nil }

// Brief tells a phase that lasts a moment only, so that a supply's peak current
// covers it.
func (p Phase) Brief() bool {
	return p == Releasing || p == Colliding || p == Starting || p == Relocking
}

// Behaviour is how a device's current goes with its voltage.
type Behaviour uint8

// The behaviours.
const (
	SteadyCurrent Behaviour = iota // the same at any voltage: electronics behind a linear regulator
	Resistive                      // in proportion: a coil
	SteadyPower                    // the more the lower the voltage: a controlled drive, a switching regulator
)

var behaviourNames = [...]string{"steady current", "resistive", "steady power"}

// String is the behaviour in words.
func (b Behaviour) String() string { return behaviourNames[b] }

// MarshalText writes the behaviour in words.
func (b Behaviour) MarshalText() ([]byte, error) { return []byte(b.String()), nil }

// A Load is a device that a supply feeds.
type Load struct {
	Name string
	// Node is where it is connected: 0 at the supply, k at the far end of run k-1.
	Node int
	// Rated is the voltage at which Draws hold, above zero.
	Rated q.Voltage
	// Least is the lowest voltage at which it is sure to work.
	Least q.Voltage
	// Draws are its currents at the rated voltage, phase by phase, not below zero.
	Draws [Phases]q.Current
	// U are their relative standard uncertainties.
	U [Phases]q.Ratio
	Behaviour
	// Sequence tells which of the sequences it goes with.
	Sequence int
}

// Sustained is its largest current outside the brief phases.
func (l *Load) Sustained() (most q.Current) {
	for p, i := range l.Draws {
		if !Phase(p).Brief() {
			most = max(most, i)
		}
	}
	return most
}

// A Sequence is how long the phases of one opening last, from when it is asked.
type Sequence struct {
	Start q.Time         // when it is asked
	Lasts [Phases]q.Time // Resting is not counted; a phase of no length is left out
}

// at is the phase at a time.
func (s *Sequence) at(t q.Time) Phase {
	end := s.Start
	if t < end {
		return Resting
	}
	for p := Releasing; p < Phases; p++ {
		if end += s.Lasts[p]; t < end {
			return p
		}
	}
	return Resting
}
