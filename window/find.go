package window

import (
	"swingwright/quantity"
)

// A Held is one demand and the settings at which it is kept, whatever the other
// demands that have a role of their own say: a ceiling or a floor by itself, a
// slow demand with the valves at their most, a quick one with the least
// resistances that keep all slow ones.
type Held struct {
	Demand Demand
	Span   Span // within the marked powers; empty where no setting will do
}

// An Answer is what was found.
type Answer struct {
	Settings Span   // the marked powers
	Held     []Held // every demand, in the order given
	// Window is the settings that keep every demand. Where there is none it is
	// empty and runs from the highest lower edge to the lowest upper one, if both exist.
	Window Span
	Best   *Setting // the setting to choose; nil without a window
	// Conflicts are the minimal sets of demands that no setting keeps together,
	// smallest first, and Changes what would open a window; both only without one.
	Conflicts []Conflict
	Changes   []Change
}

// Open tells that there is a window.
func (a *Answer) Open() bool { return !a.Window.Empty() }

// Find answers a question. It fails only where Question.Check does.
func (f *Finder) Find(ask *Question) (Answer, error) {
	if err := ask.Check(); err != nil {
		return Answer{}, err
	}
	a := f.window(ask)
	if a.Open() {
		best := f.best(a.Window, setOf(ask.Demands))
		a.Best = &best
		return a, nil
	}
	if !ask.Brief {
		a.Conflicts = f.conflicts(&a)
		a.Changes = f.changes(ask)
	}
	return a, nil
}

// window finds the edges of every demand and of the window.
func (f *Finder) window(ask *Question) Answer {
	f.begin(ask)
	s, over := setOf(ask.Demands), ask.settings()
	a := Answer{Settings: over, Held: make([]Held, len(ask.Demands)), Window: over}
	for i := range ask.Demands {
		a.Held[i].Demand = ask.Demands[i]
	}
	keep := func(of []int, spans []Span) {
		for k, span := range spans {
			a.Held[of[k]].Span = span
			a.Window = a.Window.both(span)
		}
	}
	keep(s.still, f.edges(s, s.still, f.stillGood))
	slow := s.slowOnes()
	keep(slow, f.edges(s, slow, f.slowest))
	strongest := a.Window
	keep(s.quick, f.edges(s, s.quick, f.quickGood))
	// Edges that meet within their precision still leave one setting.
	if a.Window.Empty() && !strongest.Empty() && f.keeps(s, strongest.High) {
		a.Window = Span{strongest.High, strongest.High}
	}
	return a
}

// edges finds, for some demands of a set, the settings at which each is good.
func (f *Finder) edges(s *set, of []int, ask func(*set, quantity.Ratio, []bool)) []Span {
	if len(of) == 0 {
		return nil
	}
	all := make([]bool, len(s.demands))
	return edges(f.ask.settings(), len(of), func(setting quantity.Ratio, good []bool) {
		ask(s, setting, all)
		for k, i := range of {
			good[k] = all[i]
		}
	})
}

func (f *Finder) stillGood(s *set, setting quantity.Ratio, good []bool) {
	f.set(setting)
	for _, i := range s.still {
		d := &s.demands[i]
		good[i] = d.margin(f.still(d)) >= 0
	}
}

func (f *Finder) quickGood(s *set, setting quantity.Ratio, good []bool) {
	f.decide(s, setting, good, false)
}

// keeps tells whether all quick demands are kept at a setting.
func (f *Finder) keeps(s *set, setting quantity.Ratio) bool {
	good := make([]bool, len(s.demands))
	f.decide(s, setting, good, false)
	return all(good, s.quick)
}

// open tells whether some setting keeps a whole set of demands: it suffices to
// look at the strongest spring that the ceilings and the valves allow.
func (f *Finder) open(s *set) bool {
	return f.opens(s, f.narrowed(f.ask.settings(), s, s.still, f.stillGood))
}

// opens is open with the span that ceilings and floors leave known.
func (f *Finder) opens(s *set, over Span) bool {
	if over.Empty() {
		return false
	}
	over = f.narrowed(over, s, s.slowOnes(), f.slowest)
	return !over.Empty() && (len(s.quick) == 0 || f.keeps(s, over.High))
}

// narrowed is the part of a span in which some demands of a set are all good.
func (f *Finder) narrowed(over Span, s *set, of []int, ask func(*set, quantity.Ratio, []bool)) Span {
	for _, span := range f.edges(s, of, ask) {
		over = over.both(span)
	}
	return over
}
