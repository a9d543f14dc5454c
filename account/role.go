package account

import "slices"

// A Role is what somebody may do.
type Role string

// The roles.
const (
	Technician Role = "technician"
	Office     Role = "office"
	Owner      Role = "owner"
)

// Roles are all of them, who may do most with jobs first.
var Roles = []Role{Technician, Office, Owner}

// Known tells a role from any other word.
func (r Role) Known() bool { return slices.Contains(Roles, r) }

// Enters tells whether the role may change anything.
func (r Role) Enters() bool { return r == Technician || r == Office }

// Signs tells whether the role may sign off.
func (r Role) Signs() bool { return r == Technician }

// SeesAll tells whether the role sees the jobs of all customers.
func (r Role) SeesAll() bool { return r == Technician || r == Office }

// Keeps tells whether the role keeps the accounts: makes and changes them, and reads what happened at the door.
func (r Role) Keeps() bool { return r == Office }

// within tells whether the role may do nothing with jobs that another may not. It is for tokens, which keep no accounts.
func (r Role) within(other Role) bool {
	return r.Known() && other.Known() && slices.Index(Roles, r) >= slices.Index(Roles, other)
}
