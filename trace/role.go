package trace

import (
	"fmt"
	"strconv"
	"strings"
)

// Role is what a column of a recording holds.
type Role uint8

// The roles. Axes are those of the device; which is which does not matter as
// long as rates and accelerations name them alike.
const (
	Unused Role = iota // not looked at
	Time               // stamp of the row
	RateX              // rate of turn about an axis of the device
	RateY
	RateZ
	AccelerationX // acceleration with gravity along an axis of the device
	AccelerationY
	AccelerationZ
	Rate  // rate of turn about the hinge
	Angle // of the leaf
	numRoles
)

var roleNames = [numRoles]string{"unused", "time", "rate-x", "rate-y", "rate-z", "acceleration-x", "acceleration-y", "acceleration-z", "rate", "angle"}

// String is the role's name, as ParseAssign reads it.
func (r Role) String() string { return roleNames[r] }

// dimension is that of the units which a column in this role may have.
func (r Role) dimension() dimension {
	switch {
	case r == Time:
		return ofTime
	case r >= RateX && r <= RateZ, r == Rate:
		return ofRate
	case r >= AccelerationX && r <= AccelerationZ:
		return ofAcceleration
	case r == Angle:
		return ofAngle
	}
	return noDimension
}

// Assign tells what one column holds, where its name does not.
type Assign struct {
	Column string // its name in the header, or its number, counted from 1
	Role   Role
	Unit   string // such as ms or deg/s; empty takes the header's
}

// ParseAssign reads an assignment written as column=role or column=role:unit,
// such as 3=time:ms or spin=rate-z:deg/s. The error says what is wrong with it.
func ParseAssign(text string) (Assign, error) {
	i := strings.LastIndexByte(text, '=')
	if i < 1 {
		return Assign{}, fmt.Errorf("%q does not say which column is what: write column=role:unit, such as 3=time:ms", text)
	}
	role, unitText, _ := strings.Cut(text[i+1:], ":")
	a := Assign{Column: strings.TrimSpace(text[:i]), Unit: strings.TrimSpace(unitText)}
	for r, name := range roleNames {
		if name == strings.TrimSpace(role) {
			a.Role = Role(r)
			return a, a.check()
		}
	}
	return Assign{}, fmt.Errorf("%q is no role of a column: write one of %s", role, strings.Join(roleNames[:], ", "))
}

// check tells whether the unit fits the role.
func (a Assign) check() error {
	if a.Role >= numRoles {
		return fmt.Errorf("column %s has no such role", a.Column)
	}
	if a.Unit == "" || a.Role == Unused {
		return nil
	}
	if u, ok := unitOf(a.Unit); !ok || u.of != a.Role.dimension() {
		return fmt.Errorf("%q is no unit for a column that holds %s: write %s", a.Unit, a.Role, unitsFor(a.Role))
	}
	return nil
}

// unitsFor names the units that a role may have.
func unitsFor(r Role) string {
	return [...]string{"none", "s, ms, us or ns", "deg/s or rad/s", "m/s2 or g", "deg or rad"}[r.dimension()]
}

// at is the column that an assignment means, from 0.
func (a Assign) at(names []string, columns int) (int, bool) {
	for i, name := range names {
		if strings.EqualFold(name, a.Column) {
			return i, true
		}
	}
	if n, err := strconv.Atoi(a.Column); err == nil && n >= 1 && n <= columns {
		return n - 1, true
	}
	return 0, false
}
