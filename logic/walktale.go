package logic

import (
	"fmt"
	"math"
	"slices"

	"swingwright/opening"
	q "swingwright/quantity"
)

// WalkStory is one person's way through a vestibule from a door, as Walk follows it, with
// the state of everything for a timing diagram. Of several plates there it is the first.
func WalkStory(w *opening.Wiring, doors []Door, t *Traffic, way int) (*Story, error) {
	x, err := newWalks(w, doors, t)
	if err != nil {
		return nil, err
	}
	c := x.set([2]walker{x.t.walker(way, x.starts[way][0], 0)}, 1)
	c.tale = &tale{story: &Story{}}
	c.record()
	c.run(func(*crossing) {}, nil)
	return c.ended(), nil
}

// ended is the story that was being written.
func (c *crossing) ended() *Story {
	s := c.tale.story
	s.Events, s.Length, s.last = c.tale.event, c.secs(c.now), c.s
	return s
}

// retell runs a breach once more and writes it down.
func (x *walks) retell(rule Rule, f found) (*Story, string) {
	people := f.people
	for i := range people {
		slips := people[i].slips
		people[i] = x.t.walker(people[i].way, people[i].lever, people[i].start)
		people[i].slips = slips
	}
	c := x.set(people, f.count)
	c.tale = &tale{story: &Story{}}
	c.record()
	symptom := ""
	c.run(func(c *crossing) {
		if c.bad&(1<<rule) != 0 && symptom == "" {
			symptom = c.symptomOfWalk(rule)
		}
		c.bad = 0
	}, func() bool { return symptom != "" })
	return c.ended(), symptom
}

// happens lets an event happen.
func (c *crossing) happens(e event, what string) {
	before := c.s
	c.s, _ = c.next(c.s, e)
	for i := range c.drives {
		if d := &c.drives[i]; c.s[d.slot] != rest && c.began[d.door] < 0 {
			c.began[d.door] = c.now
		}
	}
	if c.tale == nil {
		return
	}
	if what == "" && e.what != tick {
		what = c.words(e, before)
	}
	c.tell(what, c.changes(before, c.s, e))
}

// tell writes down a moment.
func (c *crossing) tell(what string, changes []string) {
	if c.tale == nil {
		return
	}
	c.tale.event++
	c.record()
	if what != "" || len(changes) > 0 {
		c.tale.story.Moments = append(c.tale.story.Moments, Moment{At: c.secs(c.now), What: what, Event: c.tale.event, Changes: changes})
	}
}

// record writes down the state of everything, people too.
func (c *crossing) record() {
	s := c.tale.story
	had := len(s.Signals)
	people := min(had, c.count)
	if had > 0 {
		people = c.count
	}
	rest := Story{Signals: s.Signals[:had-people]}
	rest.record(c.Machine, c.s, c.now)
	who := s.Signals[had-people:]
	if had == 0 {
		who = make([]Signal, c.count)
	}
	who = slices.Clone(who)
	for i := range who {
		who[i].Name = c.called(i)
		high, word := c.place(&c.who[i])
		who[i].Levels = append(who[i].Levels, Level{c.secs(c.now), high, word})
	}
	s.Signals = append(rest.Signals, who...)
}

// place is where somebody is, for the timing diagram.
func (c *crossing) place(p *walker) (int, string) {
	switch {
	case p.done && p.finished > 0:
		return 2, "through"
	case !p.inside:
		return 0, "before"
	case c.inSwing(p, p.way):
		return 1, "in " + c.Doors[p.way].ID
	case c.inSwing(p, 1-p.way):
		return 1, "in " + c.Doors[1-p.way].ID
	}
	return 1, "between"
}

func (c *crossing) called(i int) string {
	if c.count == 1 {
		return "the person"
	}
	return [2]string{"the first person", "the second person"}[i]
}

func (c *crossing) upper(i int) string { return "T" + c.called(i)[1:] }

func (c *crossing) symptomOfWalk(rule Rule) string {
	switch rule {
	case ClearOfLeaf:
		for i := range c.count {
			p := &c.who[i]
			for door := range 2 {
				if !c.caughtIn(i, door) {
					continue
				}
				left := (c.t.clearOf(p.way, door) - p.at) / float64(c.t.Speed)
				why := ""
				if s := c.t.stand(p.way); door == p.way && p.at <= c.t.stops(p.way)+1e-9 && !c.phase(1-door, keeping) {
					why = fmt.Sprintf(" They stand in it because %s is not open yet.", c.Doors[1-door].ID)
					if s.Short > 0 {
						why += fmt.Sprintf(" To stand clear of both leaves takes %.0f in more between the doors.", math.Ceil(float64(s.Short/q.Inch)))
					}
				}
				if i == 1 && door != p.way && p.deaf >= 0 {
					why += fmt.Sprintf(" %s was still busy with the first one's press as theirs came, and did not hear it.", upper(c.outputName(&c.outputs[p.deaf])))
				}
				c.tell(fmt.Sprintf("%s closes on %s.", c.Doors[door].ID, c.called(i)), nil)
				return fmt.Sprintf("%s closes on %s, who at a walk of %.2g ft/s is clear of it %.1f s later at the soonest.%s", c.Doors[door].ID, c.called(i), float64(c.t.Speed/q.FootPerSecond), left, why)
			}
		}
	case BothServed, NotTrapped:
		for i := range c.count {
			p := &c.who[i]
			if p.finished > 0 || p.slips && rule == BothServed {
				continue
			}
			if !p.done {
				return fmt.Sprintf("%s waits and presses in vain: after %.0f s they are not through.", c.upper(i), mostWalk)
			}
			s := fmt.Sprintf("%s finds %s shut, and nothing opens it for them", c.upper(i), c.Doors[1-p.way].ID)
			if i == 1 && p.deaf >= 0 {
				s += fmt.Sprintf(": %s was still busy with the first one's press as theirs came, and did not hear it", c.outputName(&c.outputs[p.deaf]))
			}
			if rule == NotTrapped {
				return s + ". Both doors are locked to the hand, too: they are trapped."
			}
			return s + ". They have to push or pull it by hand; who cannot, is stuck between the doors."
		}
	}
	return ""
}
