package opening

// Closer is the closer sheet of a name, nil where there is none. The other
// methods are the same for their sorts of sheet.
func (s *Sheets) Closer(name string) *CloserSheet { return find(s.Closers, name) }

// Arm is the arm sheet of a name, or nil.
func (s *Sheets) Arm(name string) *ArmSheet { return find(s.Arms, name) }

// Latch is the latch sheet of a name, or nil.
func (s *Sheets) Latch(name string) *LatchSheet { return find(s.Latches, name) }

// Seal is the seal sheet of a name, or nil.
func (s *Sheets) Seal(name string) *SealSheet { return find(s.Seals, name) }

// Operator is the operator sheet of a name, or nil.
func (s *Sheets) Operator(name string) *OperatorSheet { return find(s.Operators, name) }

// Lock is the lock sheet of a name, or nil.
func (s *Sheets) Lock(name string) *LockSheet { return find(s.Locks, name) }

// Strike is the strike sheet of a name, or nil.
func (s *Sheets) Strike(name string) *StrikeSheet { return find(s.Strikes, name) }

// Actuator is the actuator sheet of a name, or nil.
func (s *Sheets) Actuator(name string) *ActuatorSheet { return find(s.Actuators, name) }

// Supply is the sheet of a power supply of a name, or nil.
func (s *Sheets) Supply(name string) *SupplySheet { return find(s.Supplies, name) }

// Named are the sheets whose names are wanted, in their order.
func (s *Sheets) Named(wanted func(name string) bool) Sheets {
	return Sheets{
		Closers: named(s.Closers, wanted), Arms: named(s.Arms, wanted), Latches: named(s.Latches, wanted), Seals: named(s.Seals, wanted),
		Operators: named(s.Operators, wanted), Locks: named(s.Locks, wanted), Strikes: named(s.Strikes, wanted),
		Actuators: named(s.Actuators, wanted), Supplies: named(s.Supplies, wanted), Fixtures: named(s.Fixtures, wanted),
	}
}

func named[S interface{ sheetName() string }](all []S, wanted func(string) bool) (some []S) {
	for _, s := range all {
		if wanted(s.sheetName()) {
			some = append(some, s)
		}
	}
	return some
}

func (s LockSheet) sheetName() string     { return s.Name }
func (s StrikeSheet) sheetName() string   { return s.Name }
func (s ActuatorSheet) sheetName() string { return s.Name }
func (s SupplySheet) sheetName() string   { return s.Name }
