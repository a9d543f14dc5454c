package transit

import (
	"errors"
	"fmt"

	"swingwright/quantity"
)

// A Vestibule is two powered doors in series, A first. One press starts A; B
// starts by itself after a delay, or by a press inside.
type Vestibule struct {
	A, B   Cycle
	Gap    quantity.Length // from door to door
	Person quantity.Length // front to back
	Clear  quantity.Length // beyond a doorway until out of its leaf's way
	Speed  quantity.Speed
	Delay  quantity.Time // from the press to the start of B
	Inside bool          // an actuator between the doors opens either of them
	// Swing is the width of leaf that swings into the room between the doors,
	// zero if none does.
	Swing quantity.Length
}

// Of opening A, the share after which a person goes through; of the way, how
// far from B it should be open (common practice, from memory).
const (
	Enters = 0.6
	Meets  = 3 * quantity.Foot
)

// Room is the least depth between doors in series beyond the width of leaf that
// swings into it: 48 in, 1220 mm (ADA 2010, 404.2.6).
const Room = 48 * quantity.Inch

// Check collects what makes no sense in a vestibule.
func (v *Vestibule) Check() error {
	return errors.Join(door("door A", v.A.Check()), door("door B", v.B.Check()),
		length("gap between the doors", v.Gap), length("length of the person", v.Person), length("way beyond a doorway", v.Clear),
		length("leaf that swings in", v.Swing), speed(v.Speed), duration("delay", v.Delay))
}

func door(name string, err error) error {
	if err == nil {
		return nil
	}
	return fmt.Errorf("%s: %w", name, err)
}

// HalfWay is the trade's delay: B starts when the person, who goes through A
// when it is 0.6 open, is halfway to B: 0.6·t_A + gap/(2v).
func (v *Vestibule) HalfWay() quantity.Time { return v.reaches(v.Gap / 2) }

// reaches is when the person's front has gone so far beyond A, from the press.
func (v *Vestibule) reaches(beyond quantity.Length) quantity.Time {
	return v.A.Opening*Enters + over(beyond, v.Speed)
}

// Latest is the longest delay with which B is open when the person is 3 ft
// before it, without waiting; below zero where even starting with A is too late.
func (v *Vestibule) Latest() quantity.Time { return v.reaches(max(0, v.Gap-Meets)) - v.B.Opening }

// Earliest is the shortest delay with which the person, without waiting, is
// clear of B before it closes on the path; never below zero.
func (v *Vestibule) Earliest() quantity.Time {
	return max(0, v.reaches(v.Gap+v.Clear+v.Person)-v.B.Available())
}

// A Passage is how a person gets through a vestibule with its delay.
type Passage struct {
	// Wait is how long the person stands before B until it is open.
	Wait quantity.Time
	// FirstMargin is by how much the person is clear of A before it closes on
	// the path, and SecondMargin of B. Waiting before B can keep a person who does
	// not fit into the room standing in A.
	FirstMargin, SecondMargin quantity.Time
	// Room is the depth between the doors beyond what the standard asks for.
	Room quantity.Length
	// Trapped tells that both doors can be shut with the person between them and
	// nothing there to open one: B closes before the person is through, and there
	// is no actuator inside.
	Trapped bool
}

// Pass follows the person through.
func (v *Vestibule) Pass() Passage {
	open := v.Delay + v.B.Opening // B, fully
	near := v.reaches(max(0, v.Gap-Meets))
	p := Passage{Wait: max(0, open-near), Room: v.Gap - Room - v.Swing}
	clearA := v.reaches(v.Clear + v.Person)
	const whole = 1e-9 // m: who fits exactly fits, however the lengths add up
	if v.Clear+v.Person > v.Gap-Meets+whole {
		clearA += p.Wait // stands in A while waiting
	}
	p.FirstMargin = v.A.Available() - clearA
	p.SecondMargin = v.Delay + v.B.Available() - (v.reaches(v.Gap+v.Clear+v.Person) + p.Wait)
	p.Trapped = p.SecondMargin < 0 && !v.Inside
	return p
}
