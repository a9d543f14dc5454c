package quantity

// A System is the set of units that a reader wants to see. It belongs to the
// reader, never to the record: values are kept in SI whatever was typed.
type System uint8

// The two systems of units.
const (
	SI System = iota
	US
	systems // how many there are
)

var systemNames = [systems]string{SI: "SI", US: "US"}

// String gives "SI" or "US".
func (s System) String() string {
	if s >= systems {
		return "unknown system of units"
	}
	return systemNames[s]
}

// SystemOf finds a system by the name that String gives; false when there is
// none of that name.
func SystemOf(name string) (System, bool) {
	for s, n := range systemNames {
		if n == name {
			return System(s), true
		}
	}
	return 0, false
}
