package tune

// Foretell reckons what the closer would be like at a state, from what was measured so
// far, whether or not that state is advised. It fails as Advise does.
func Foretell(v *Visit, to State) (*Outlook, error) {
	if err := v.Check(); err != nil {
		return nil, err
	}
	fit, err := Identify(&v.Known, &v.Record)
	if err != nil {
		return nil, err
	}
	s := &scout{known: &v.Known, fit: fit, demands: v.Demands, policy: v.Policy, now: v.States[len(v.States)-1]}
	if err := s.learn(v); err != nil {
		return nil, err
	}
	s.prepare()
	return s.look(to)
}
