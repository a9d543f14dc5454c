package takeoff

import (
	"fmt"
	"slices"
	"strings"

	"swingwright/decision"
	"swingwright/opening"
)

// task reckons the hours of a task that is done some times at the opening.
func (c *counter) task(t opening.Task, times int, why string) {
	if times == 0 {
		return
	}
	each, basis := c.rates.hours(t)
	w := Work{Of: c.o.ID, Task: t, Times: times, Why: why, Basis: basis}
	factor := 1.0
	if t != opening.CloseOut { // paper is not harder to do at night
		w.Multipliers = c.longer
		for _, m := range w.Multipliers {
			factor *= m.Factor
		}
	}
	w.Hours = each.Times(float64(times) * factor)
	c.out.Work = append(c.out.Work, w)
}

// multipliers are those that hold at an opening.
func multipliers(o *opening.Opening, alike int) (all []Multiplier) {
	for _, k := range conditions {
		if k.when(o) {
			all = append(all, Multiplier{k.what, k.factor})
		}
	}
	if alike > manyAlike {
		all = append(all, Multiplier{fmt.Sprintf("%d identical", alike), alikeFactor})
	}
	return all
}

// fit are the tasks of an operator that is not there yet.
func (c *counter) fit() {
	o := c.o
	if c.kind() != opening.OwnArm || c.out.Answer == decision.Repair {
		c.task(opening.TuneCloser, 1, "what shall work under power works by hand first")
	}
	c.task(opening.MountOperator, 1, "through-bolts, plate and unit")
	if c.has(opening.LoopPart) {
		c.task(opening.LoopAndCover, 1, "wires to a unit on the leaf")
	}
	c.task(opening.WirelessPlate, c.count(opening.WirelessPart), "fix it and learn it")
	c.task(opening.WiredPlate, c.count(opening.WiredPart), "switch, raceway and wire")
	c.task(opening.FitStrike, c.count(opening.StrikePart), "cut it in and align it")
	c.task(opening.FitRetraction, c.count(opening.RetractionPart), "swap it and wire it")
	if c.locked() {
		c.task(opening.AccessTie, 1, "the lock is free before the drive starts")
	}
	if o.Use.FireRated == "yes" {
		c.task(opening.AlarmTie, 1, "an alarm takes the operator off a fire door")
	}
}

// finish are the tasks that every operator takes, old or new.
func (c *counter) finish() {
	c.task(opening.Commission, 1, "set, time and test it by its rules")
	c.task(opening.CloseOut, 1, "papers and hand-over")
}

// locked tells an opening whose lock or reader works with the operator.
func (c *counter) locked() bool {
	l := &c.o.Lock
	return c.o.Use.Activation == "access-control" || l.Release == "strike" || l.Release == "retraction" || l.Release == "trim" || l.Release == "magnet"
}

func (c *counter) count(p opening.Part) (n int) {
	for i := range c.out.Lines {
		if c.out.Lines[i].Part == p {
			n += c.out.Lines[i].Count
		}
	}
	return n
}

// others are the firms that have to do with the opening.
func (c *counter) others() {
	o := c.o
	why := "mains work is a licensed electrician's, under the local electrical code"
	if o.Power.Distance.Known {
		why = "a circuit " + o.Power.Distance.Text + " away; " + why
	}
	c.sub(opening.Electrician, why, nil)
	if o.Use.FireRated == "yes" {
		hours := alarmHours
		c.sub(opening.AlarmFirm, "connects and tests the alarm relay together with us", &hours)
	}
	if c.locked() {
		c.sub(opening.AccessFirm, "frees the lock, and leaves a contact for the operator", nil)
	}
	if slices.ContainsFunc(c.calls, func(whom string) bool { return strings.Contains(whom, "fire-door inspector") }) {
		c.sub(opening.DoorInspector, "the label and what was prepared on site", nil)
	}
}

func (c *counter) sub(t opening.Trade, why string, hours *Range) {
	basis := CommonPractice
	if hours != nil {
		basis = FromMemory
	}
	c.out.Subs = append(c.out.Subs, Sub{Of: c.o.ID, Trade: t, Why: why, Basis: basis, Hours: hours, Price: c.rates.sub(t)})
}
