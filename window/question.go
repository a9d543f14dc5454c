package window

import (
	"errors"
	"fmt"
	"math"

	"swingwright/quantity"
	"swingwright/swing"
)

// A Power is one marked setting of a closer's spring.
type Power struct {
	Setting quantity.Ratio       // the number marked
	Closed  quantity.Torque      // T_0, spring torque at the pinion with the leaf closed
	Rise    quantity.TorsionRate // k, rise of that torque per turn of the pinion
}

// Put sets a model's spring to the power.
func (p Power) Put(v *swing.Values) {
	v[swing.SpringClosed], v[swing.SpringRise] = float64(p.Closed), float64(p.Rise)
}

// A Spring is a closer's marked powers, weakest first. Between two of them the
// spring is taken in proportion.
type Spring []Power

// At is the spring at a setting; outside the marked powers it is the nearest one.
func (s Spring) At(setting quantity.Ratio) Power {
	i := 1
	for i < len(s)-1 && setting > s[i].Setting {
		i++
	}
	if len(s) == 1 || setting <= s[0].Setting {
		return s[0]
	}
	a, b := s[i-1], s[i]
	part := min(1, (setting-a.Setting)/(b.Setting-a.Setting))
	return Power{
		Setting: a.Setting + part*(b.Setting-a.Setting),
		Closed:  a.Closed + quantity.Torque(part)*(b.Closed-a.Closed),
		Rise:    a.Rise + quantity.TorsionRate(part)*(b.Rise-a.Rise),
	}
}

// wound is the largest turn of the pinion at which springs are compared: a half
// turn, more than a leaf's arm makes of its swing.
const wound = math.Pi

// problems lists what makes no sense in a spring.
func (s Spring) problems() (all []error) {
	if len(s) == 0 {
		return []error{errors.New("the closer has no marked powers: give at least one, from its sheet")}
	}
	for i, p := range s {
		if !(p.Setting >= 0 && p.Closed > 0) || math.IsInf(float64(p.Setting), 0) || math.IsInf(float64(p.Closed), 0) || !(math.Abs(float64(p.Rise)) < 1e6) {
			all = append(all, fmt.Errorf("power %g: %g N·m closed, rising by %g N·m/rad: give finite numbers, the torque above zero", float64(p.Setting), float64(p.Closed), float64(p.Rise)))
		}
		if i == 0 {
			continue
		}
		before := s[i-1]
		open := func(p Power) float64 { return float64(p.Closed) + wound*float64(p.Rise) }
		if !(p.Setting > before.Setting) {
			all = append(all, fmt.Errorf("power %g follows %g: give powers in rising order", float64(p.Setting), float64(before.Setting)))
		} else if p.Closed < before.Closed || open(p) < open(before) {
			all = append(all, fmt.Errorf("power %g is somewhere weaker than power %g: a spring grows with its setting; check both against the sheet", float64(p.Setting), float64(before.Setting)))
		}
	}
	return all
}

// Valves are the viscous resistances at the pinion between which the sweep and
// the latch valve can be set, least first, at the oil's reference temperature.
type Valves struct {
	Sweep, Latch [2]quantity.Damping
}

func (v *Valves) problems() (all []error) {
	for _, r := range []struct {
		name string
		span [2]quantity.Damping
	}{{"sweep", v.Sweep}, {"latch", v.Latch}} {
		if !(r.span[0] > 0 && r.span[1] >= r.span[0]) || math.IsInf(float64(r.span[1]), 0) {
			all = append(all, fmt.Errorf("%s valve from %g to %g N·m·s/rad: give its least resistance, above zero, then its greatest", r.name, float64(r.span[0]), float64(r.span[1])))
		}
	}
	return all
}

// An Arm is another arm that could be fitted.
type Arm struct {
	Name   string
	Values swing.Values // the whole model with that arm; spring and pressure are taken as with Question.Values
	Link   swing.Linkage
}

// A Question is one opening and what is asked of it.
type Question struct {
	Values  swing.Values // the model; its spring, pressure, oil and viscous resistances are set by the search
	Link    swing.Linkage
	Drive   swing.Drive // operator that the leaf turns along without power, if one is fitted
	Spring  Spring
	Valves  Valves
	Release quantity.Angle // where the leaf is let go for timed closings; zero stands for 90 degrees
	Demands []Demand
	Arms    []Arm // arms to try where no setting will do
	// Brief leaves out, where no setting will do, what excludes what and what
	// would change it: their search takes twenty times as long as that for the window.
	Brief bool
}

// Check collects all that makes the question one that cannot be answered.
func (ask *Question) Check() error {
	all := append(ask.Spring.problems(), ask.Valves.problems()...)
	if !ask.Link.Closer {
		all = append(all, errors.New("there is no closer: without one there is no spring to set"))
	} else {
		all = append(all, ask.arm("the arm", &ask.Values, ask.Link)...)
	}
	if len(ask.Demands) == 0 {
		all = append(all, errors.New("nothing is demanded, so every setting will do: give at least one demand"))
	}
	names := map[string]bool{}
	for i := range ask.Demands {
		d := &ask.Demands[i]
		all = append(all, d.problems(ask.release())...)
		if names[d.Name] {
			all = append(all, fmt.Errorf("two demands are named %q: give each a name of its own", d.Name))
		}
		names[d.Name] = true
	}
	for i := range ask.Arms {
		a := &ask.Arms[i]
		all = append(all, ask.arm(fmt.Sprintf("arm %q", a.Name), &a.Values, a.Link)...)
	}
	return errors.Join(all...)
}

// arm lists why an arm cannot serve.
func (ask *Question) arm(name string, v *swing.Values, link swing.Linkage) []error {
	m, err := swing.New(v, link)
	if err == nil {
		err = m.SetDrive(ask.Drive)
	}
	if err != nil {
		return []error{fmt.Errorf("%s: %w", name, err)}
	}
	if fault, ok := m.Arm().Reach(ask.release()); !ok {
		return []error{fmt.Errorf("%s reaches %.0f of the %.0f degrees from which the leaf is let go: place it otherwise, or let the leaf go from less",
			name, float64(fault.Theta/quantity.Degree), float64(ask.release()/quantity.Degree))}
	}
	return nil
}

func (ask *Question) release() quantity.Angle {
	if ask.Release == 0 {
		return 90 * quantity.Degree
	}
	return ask.Release
}

// settings is the span of the marked powers.
func (ask *Question) settings() Span {
	return Span{ask.Spring[0].Setting, ask.Spring[len(ask.Spring)-1].Setting}
}
