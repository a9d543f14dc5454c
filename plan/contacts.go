package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"swingwright/clearance"
	"swingwright/judge"
	"swingwright/linkage"
	"swingwright/opening"
	q "swingwright/quantity"
	"swingwright/swing"
)

const (
	// armSpread is the standard uncertainty of a leaf angle at which an arm
	// touches or is out of reach; assumed for joints placed with a tape.
	armSpread = q.Degree
	// armsTo is how far arms are looked at where the leaf is not planned to open farther.
	armsTo = LargestOpenAngle
)

// contacts finds what would touch what.
func (r *Room) contacts(o *opening.Opening, m *Resolved, l *layout) {
	r.Movers, r.Fixed = l.movers(), l.fixed()
	scene, err := clearance.NewScene(slices.Concat(r.Movers, r.Fixed)...)
	if err != nil {
		r.Problem = err
		return
	}
	for _, b := range r.Fixed {
		if s, err := scene.KeepOff(b.Name(), 0, 0, halfTurn); err == nil && s.Touches {
			r.Contacts = append(r.Contacts, Contact{s.Touch.Moving, s.Touch.Other, s.Angle, q.Angle(math.NaN()), s.Touch.At})
		}
	}
	r.sortContacts()
	r.arms(m, l, r.armsTo(o, l))
	r.sortContacts()
}

func (r *Room) sortContacts() {
	slices.SortStableFunc(r.Contacts, func(a, b Contact) int { return cmp.Compare(a.Angle, b.Angle) })
}

// armsTo is the angle up to which arms are looked at: none gets farther than where something else ends the swing.
func (r *Room) armsTo(o *opening.Opening, l *layout) q.Angle {
	to := max(l.open, armsTo)
	if s := o.Room.StopsAt; s.Known {
		to = min(to, s.Value)
	}
	if len(r.Contacts) > 0 {
		to = min(to, r.Contacts[0].Angle)
	}
	return to
}

// arms finds what an arm touches first of frame, walls and things, and where it
// is out of reach. Arm and leaf are not compared: they lie above each other, and the
// plan would have them touch. An arm that by its measures lies in something while the
// leaf is closed tells nothing.
func (r *Room) arms(m *Resolved, l *layout, to q.Angle) {
	for _, a := range m.bothArms() {
		arm, err := linkage.New(a.spec)
		if err != nil || !(to > 0) {
			continue
		}
		links := []clearance.Body{l.link("main arm of the "+a.of, &arm, false)}
		if !a.spec.Track {
			links = append(links, l.link("forearm of the "+a.of, &arm, true))
		}
		scene, err := clearance.NewScene(slices.Concat(links, r.Fixed)...)
		if err != nil {
			continue
		}
		s := scene.Sweep(0, to)
		if s.Touches && s.Angle > 0 {
			r.Contacts = append(r.Contacts, Contact{s.Touch.Moving, s.Touch.Other, s.Angle, armSpread, s.Touch.At})
		}
		if len(s.Lost) > 0 {
			r.Contacts = append(r.Contacts, Contact{"arm of the " + a.of, "", s.Lost[0].From, armSpread, clearance.Point{}})
		}
	}
}

// placedArm is an arm that can be put together, and what it belongs to.
type placedArm struct {
	of   string
	spec linkage.Spec
}

// bothArms are the arm of the closer and the operator's own, as far as they are known.
func (r *Resolved) bothArms() (all []placedArm) {
	v := r.values()
	if r.Rows[swing.MainArm].Known {
		all = append(all, placedArm{"closer", v.Arm(swing.PinionX, r.Link.Track, r.Link.OnLeaf, r.Link.Bend)})
	}
	if d := r.Drive; d.Own && r.Rows[swing.DriveMainArm].Value > 0 {
		all = append(all, placedArm{"operator", v.Arm(swing.DrivePinionX, d.Track, d.OnLeaf, d.Bend)})
	}
	return all
}

// link is a bar of an arm as a body: the main arm, or the forearm. A sweep asks
// for the same posture two or three times over, so the last ones are kept; a scene
// with links is one goroutine's.
func (l *layout) link(name string, arm *linkage.Arm, fore bool) clearance.Body {
	var kept [4]struct {
		theta   q.Angle
		a, b    clearance.Point
		ok, set bool
	}
	next := 0
	joints := func(theta q.Angle) (clearance.Point, clearance.Point, bool) {
		for i := range kept {
			if k := &kept[i]; k.set && k.theta == theta {
				return k.a, k.b, k.ok
			}
		}
		p, ok := arm.Posture(theta)
		a, b := clearance.Point(p.Pinion), clearance.Point(p.Elbow)
		if fore {
			a, b = b, clearance.Point(p.Far)
		}
		k := &kept[next]
		k.theta, k.a, k.b, k.ok, k.set = theta, a, b, ok, true
		next = (next + 1) % len(kept)
		return a, b, ok
	}
	return clearance.Link(name, armWidth, joints).Between(l.height-armBelow, l.height+armAbove)
}

// String is a contact in words.
func (c *Contact) String() string {
	if c.Fixed == "" {
		return c.Moving + " is out of reach"
	}
	return c.Moving + " touches " + c.Fixed
}

// opens tells how far the leaf can open, and whether that is as far as planned.
func (r *Room) opens(o *opening.Opening, s *spreads, policy judge.Policy) {
	out := &r.Opens
	out.Angle, out.U = halfTurn, 0
	if len(r.Contacts) > 0 {
		first := &r.Contacts[0]
		if math.IsNaN(float64(first.U)) {
			first.U = s.contactSpread()
		}
		out.Angle, out.U, out.By = first.Angle, first.U, first.String()
	}
	stop := o.Room.StopsAt.WithSpread(q.Degree)
	if stop.Known && stop.Value <= out.Angle {
		out.Angle, out.U, out.By = stop.Value, stop.U, cmp.Or(o.Room.StopsOn, "something stops it there")
	}
	r.Opens.Free = r.comesTo(policy)
	r.disagreement(stop)
}

// comesTo tells whether the leaf comes to the planned angle without a contact.
// Where it was seen to come there, measures that say otherwise only raise a doubt.
func (r *Room) comesTo(policy judge.Policy) judge.Verdict {
	out, planned := &r.Opens, r.Open
	short := float64(out.Angle) < planned.Value
	switch {
	case r.Problem != nil, out.By == "" && !r.Surveyed:
		return judge.NotMeasured
	case planned.Source == seenToStop && short:
		return judge.TooClose
	case planned.Source == seenToStop, out.By == "":
		return judge.Meets
	}
	return judge.Decide(float64(out.Angle)-planned.Value, math.Hypot(float64(out.U), planned.U), policy)
}

// disagreement notes a contact short of the angle to which the leaf was seen to open.
func (r *Room) disagreement(stop q.Measured[q.Angle]) {
	if len(r.Contacts) == 0 || !stop.Known {
		return
	}
	if c := &r.Contacts[0]; stop.Value-c.Angle > 2*q.Angle(math.Hypot(float64(c.U), float64(stop.U))) {
		r.Doubt = fmt.Sprintf("by its measures %s at %.1f degrees, and yet the leaf was seen to open to %.1f: measure again where they are",
			c.String(), float64(c.Angle/q.Degree), float64(stop.Value/q.Degree))
	}
}
