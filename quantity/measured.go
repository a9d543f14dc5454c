package quantity

// Measured is a value together with how well it is known. The zero Measured is
// an unknown value.
type Measured[Q Quantity] struct {
	// Value is the best estimate, in SI.
	Value Q
	// U is the standard uncertainty (JCGM 100:2008, 2.3.1) in the same unit; never negative.
	U Q
	// Known tells a value from a blank.
	Known bool
	// Stated tells that the person who entered the value gave its spread too;
	// when false, whoever uses the value supplies the spread of its source.
	Stated bool
	// Text is what was typed, kept so that papers can show it.
	Text string
}

// Exactly is a known value without spread.
func Exactly[Q Quantity](v Q) Measured[Q] {
	return Measured[Q]{Value: v, Known: true, Stated: true}
}

// Give is a known value with standard uncertainty u.
func Give[Q Quantity](v, u Q) Measured[Q] {
	return Measured[Q]{Value: v, U: u, Known: true, Stated: true}
}

// Or returns m when it is known, else the fallback.
func (m Measured[Q]) Or(fallback Measured[Q]) Measured[Q] {
	if m.Known {
		return m
	}
	return fallback
}

// WithSpread returns m with standard uncertainty u when m states none of its own.
func (m Measured[Q]) WithSpread(u Q) Measured[Q] {
	if m.Known && !m.Stated {
		m.U = u
	}
	return m
}
