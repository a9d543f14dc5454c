package takeoff

import (
	"fmt"

	"swingwright/opening"
	"swingwright/quantity"
)

// counter counts what one opening takes.
type counter struct {
	o      *opening.Opening
	was    *opening.Opening // the opening in whose place it stands, nil where there is none
	sheets *opening.Sheets
	rates  *rates
	calls  []string        // whom the decision calls
	wiring *opening.Wiring // its own or its group's; nil where there is none
	shared string          // the opening under which the group's wiring is counted, if not this
	longer []Multiplier
	out    *Opening
}

// add counts one more kind of part.
func (c *counter) add(p opening.Part, what, sheet string, count int, why, from string, basis Basis) {
	if count > 0 {
		c.out.Lines = append(c.out.Lines, Line{Of: c.o.ID, Part: p, What: what, Sheet: sheet, Count: count, Why: why, From: from, Basis: basis, Price: c.rates.price(p, sheet)})
	}
}

// run counts a length that is run, and buys more.
func (c *counter) run(p opening.Part, what string, length quantity.Length, why, from string, basis Basis) {
	bought := quantity.Length(float64(length) * c.rates.extra())
	c.out.Lines = append(c.out.Lines, Line{Of: c.o.ID, Part: p, What: what, Length: bought, Why: why, From: from, Basis: basis, Price: c.rates.price(p, "")})
}

func (c *counter) gap(what, field string) {
	c.out.Gaps = append(c.out.Gaps, Gap{c.o.ID, what, field})
}

// parts counts everything that is bought for an operator that is not there yet.
func (c *counter) parts() {
	o := c.o
	c.drive()
	c.closing()
	switch {
	case c.wiring != nil:
		c.wired()
	case c.shared == "":
		c.switches()
		c.supply()
	}
	c.lock()
	if o.Use.FireRated == "yes" && !c.has(opening.AlarmRelayPart) {
		c.add(opening.AlarmRelayPart, "alarm relay or jumper", "", 1, "an alarm takes the operator off a fire door", "use.fire_rated", CommonPractice)
	}
	if !c.has(opening.ModePart) {
		c.add(opening.ModePart, "key or mode switch", "", 1, "the owner turns the operator off with it", "", CommonPractice)
	}
	c.signs()
}

func (c *counter) has(p opening.Part) bool {
	for i := range c.out.Lines {
		if c.out.Lines[i].Part == p {
			return true
		}
	}
	return false
}

// kind is that of the operator; empty where no sheet tells.
func (c *counter) kind() opening.OperatorKind {
	if s := c.sheets.Operator(c.o.Operator.Sheet); s != nil {
		return s.Kind
	}
	return ""
}

// drive counts the operator and what holds it.
func (c *counter) drive() {
	sheet := c.o.Operator.Sheet
	switch c.kind() {
	case opening.AddOn:
		c.add(opening.OperatorPart, "operator on the closer that is there", sheet, 1, "opens the leaf", "operator.sheet", FromJob)
		c.add(opening.PlatePart, "mounting plate", "", 1, "carries it on leaf and closer", "operator.sheet", CommonPractice)
		c.add(opening.LoopPart, "door loop", "", 1, "carries the wires to a unit on the leaf", "operator.sheet", CommonPractice)
	case opening.OwnArm:
		c.add(opening.OperatorPart, "operator with an arm of its own", sheet, 1, "opens the leaf", "operator.sheet", FromJob)
		c.add(opening.ArmPart, "arm of the operator", c.o.Operator.Arm, 1, "carries its force to the leaf", "operator.arm", CommonPractice)
	default:
		c.add(opening.OperatorPart, "operator, not chosen yet", "", 1, "opens the leaf", "use.operation", CommonPractice)
		c.gap("which operator, and so whether it needs plate, loop or arm", "operator.sheet")
	}
	c.add(opening.BoltPart, "through-bolt set", "", bolts, "four to six hold the body against the cycles of its force", "", FromMemory)
}

// closing counts closer and arm where the old ones do not stay.
func (c *counter) closing() {
	o := c.o
	switch {
	case c.kind() == opening.OwnArm:
	case o.Closer.None == "yes":
		c.add(opening.CloserPart, "closer", o.Closer.Sheet, 1, "there is none, and an add-on needs one", "closer.none", FromJob)
	case o.Closer.Leaks == "yes":
		c.add(opening.CloserPart, "closer", o.Closer.Sheet, 1, "one that leaks is replaced, never adjusted", "closer.leaks", FromJob)
	case c.was != nil && c.was.Closer.Sheet != o.Closer.Sheet:
		c.add(opening.CloserPart, "closer", o.Closer.Sheet, 1, "in place of "+c.was.Closer.Sheet, "closer.sheet", FromJob)
	}
	if c.was != nil && c.was.Closer.Arm != o.Closer.Arm {
		c.add(opening.ArmPart, "arm of the closer", o.Closer.Arm, 1, "in place of "+c.was.Closer.Arm, "closer.arm", FromJob)
	}
}

// lock counts what frees the lock, where it is not there yet.
func (c *counter) lock() {
	l := &c.o.Lock
	fresh := c.was != nil && c.was.Lock.Release != l.Release
	switch l.Release {
	case "strike":
		if fresh && !c.has(opening.StrikePart) {
			c.add(opening.StrikePart, "electric strike", l.Strike, 1, "frees the leaf before it opens", "lock.release", FromJob)
		}
	case "retraction":
		if fresh && !c.has(opening.RetractionPart) {
			c.add(opening.RetractionPart, "latch retraction kit", l.Sheet, 1, "frees the leaf before it opens", "lock.release", FromJob)
		}
	case "by-hand-only":
		c.gap("what shall free the lock: an electric strike or latch retraction is not counted", "lock.release")
	case "":
		if l.Kind != "push-pull" && l.Kind != "none" {
			c.gap("whether the lock has to be freed, and by what", "lock.release")
		}
	}
}

// usualSwitches is one on either side: common practice.
const usualSwitches = 2

// switches counts what starts the leaf, from the survey.
func (c *counter) switches() {
	radio := 0
	for i := range c.o.Controls {
		k := &c.o.Controls[i]
		from := fmt.Sprintf("controls[%d]", i)
		sheet := c.sheets.Actuator(k.Sheet)
		switch {
		case sheet == nil:
			c.gap(fmt.Sprintf("whether %s is wired or wireless: it is counted as wireless", named(k.What, from)), from+".sheet")
			radio++
			c.plate(opening.WirelessPart, "wireless switch", k, from, FromMemory)
		case sheet.Radio.Known:
			radio++
			c.plate(opening.WirelessPart, "wireless switch", k, from, FromJob)
		default:
			c.plate(opening.WiredPart, "wired switch", k, from, FromJob)
			c.wire(k, from)
		}
	}
	if len(c.o.Controls) == 0 && (c.o.Use.Activation == "switch" || c.o.Use.Activation == "touchless" || c.o.Use.Activation == "") {
		c.gap("which switches, and where: one wireless switch on either side is counted", "controls")
		radio = usualSwitches
		c.add(opening.WirelessPart, "wireless switch", "", radio, "one on either side", "use.activation", CommonPractice)
		c.add(opening.BoxPart, "switch box", "", radio, "one behind every switch", "use.activation", CommonPractice)
	}
	if radio > 0 {
		c.add(opening.CellPart, "transmitter cell set", "", radio, "one in every wireless switch, dated", "controls", CommonPractice)
		c.add(opening.ReceiverPart, "receiver", "", 1, "hears the wireless switches", "controls", CommonPractice)
	}
}

// named is what a person called a thing, else where it stands.
func named(what, from string) string {
	if what == "" {
		return from
	}
	return what
}

func (c *counter) plate(p opening.Part, what string, k *opening.Control, from string, basis Basis) {
	c.add(p, what, k.Sheet, 1, named(k.What, "starts the leaf"), from, basis)
	c.add(opening.BoxPart, "switch box", "", 1, "behind "+named(k.What, from), from, CommonPractice)
}

// wire counts the way from a wired switch up to the head and to the middle of it.
func (c *counter) wire(k *opening.Control, from string) {
	up, known := c.head()
	if !k.FromMiddle.Known || !k.Height.Known || !known {
		c.gap("cable and raceway of "+named(k.What, from), from+".from_middle, "+from+".height, leaf.height")
		return
	}
	run := k.FromMiddle.Value + max(up-k.Height.Value, 0)
	why := named(k.What, from) + ": up to the head and along it"
	c.run(opening.CablePart, "cable, 2 conductors 18 AWG", run, why, from, FromMemory)
	c.run(opening.RacewayPart, "surface raceway", run, why, from, FromMemory)
	c.add(opening.FittingPart, "raceway fitting", "", fittingsPerRun, "elbows and couplings of "+named(k.What, from), from, FromMemory)
}

// head is the height of the head of the frame, about that of the leaf.
func (c *counter) head() (quantity.Length, bool) {
	l := &c.o.Leaf
	switch {
	case l.Height.Known:
		return l.Height.Value, true
	case l.Nominal.Text != "":
		return l.Nominal.Height, true
	}
	return 0, false
}

// supply counts the power supply and the way to it.
func (c *counter) supply() {
	c.add(opening.SupplyPart, "power supply", c.o.Power.Sheet, 1, "feeds the operator", "power.sheet", CommonPractice)
	if d := c.o.Power.Distance; d.Known {
		c.run(opening.CablePart, "cable, 2 conductors 18 AWG", d.Value, "from the source to the operator", "power.distance", FromJob)
	} else {
		c.gap("cable from the source to the operator", "power.distance")
	}
}

// signs counts signs and tags. Those that are up stay.
func (c *counter) signs() {
	if c.o.Signs.General != "yes" {
		c.add(opening.CautionPart, "caution sign", "", 2, "one on either side", "signs.general", CommonPractice)
	}
	if c.o.Signs.Switch != "yes" && c.o.Signs.PushPull != "yes" && c.o.Signs.Assist != "yes" {
		c.add(opening.InstructionPart, "instruction sign", "", 2, "one on either side", "signs.switch_text", CommonPractice)
	}
	c.add(opening.StickerPart, "daily-check sticker", "", 1, "tells the owner what to look at", "", CommonPractice)
	c.add(opening.TagPart, "torque tag", "", 1, "shows which fixings were tightened, and how far", "", CommonPractice)
}
