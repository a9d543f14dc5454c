package tune

// Foretell reckons what the closer would be like at a state, from what was measured so
// far, whether or not that state is advised. It fails as Advise does.
func Foretell(v *Visit, to State) (*Outlook, error) {
	s, err := newScout(v)
	if err != nil {
		return nil, err
	}
	return s.look(to)
}
