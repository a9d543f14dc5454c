package job

import (
	"fmt"
	"slices"
	"strings"

	yaml "go.yaml.in/yaml/v4"

	"swingwright/opening"
	"swingwright/quantity"
)

// wiringCheck finds what is wrong between the lists of one wiring, whose names
// count in that wiring alone.
type wiringCheck struct {
	*walker
	wiring  *opening.Wiring
	devices map[string]*opening.Device
	cables  map[string]*opening.Cable
	known   map[string][]string // names by sort
}

// checkWiring reports names that are given twice or not at all, terminals that a
// device has not, and wires that their cable does not carry. Whether what is
// connected works is not looked at here.
func (w *walker) checkWiring(n *yaml.Node, wiring *opening.Wiring) {
	c := wiringCheck{w, wiring, make(map[string]*opening.Device), make(map[string]*opening.Cable), map[string][]string{
		"device":    sortedNames(wiring.Devices, func(d *opening.Device) string { return d.Name }),
		"cable":     sortedNames(wiring.Cables, func(x *opening.Cable) string { return x.Name }),
		"conduit":   sortedNames(wiring.Conduits, func(x *opening.Conduit) string { return x.Name }),
		"enclosure": sortedNames(wiring.Enclosures, func(x *opening.Enclosure) string { return x.Name }),
	}}
	for i := range wiring.Devices {
		c.devices[wiring.Devices[i].Name] = &wiring.Devices[i]
	}
	for i := range wiring.Cables {
		c.cables[wiring.Cables[i].Name] = &wiring.Cables[i]
	}
	eachNamed(&c, n, "devices", "device", wiring.Devices, func(d *opening.Device) string { return d.Name })
	eachNamed(&c, n, "cables", "cable", wiring.Cables, func(x *opening.Cable) string { return x.Name })
	eachNamed(&c, n, "conduits", "conduit", wiring.Conduits, func(x *opening.Conduit) string { return x.Name })
	eachNamed(&c, n, "enclosures", "enclosure", wiring.Enclosures, func(x *opening.Enclosure) string { return x.Name })
	eachItem(&c, n, "devices", wiring.Devices, c.device)
	eachItem(&c, n, "cables", wiring.Cables, c.cable)
	eachItem(&c, n, "wires", wiring.Wires, c.wire)
}

// eachItem calls check with every item of a list and its node.
func eachItem[T any](c *wiringCheck, n *yaml.Node, list string, items []T, check func(*yaml.Node, *T)) {
	at := child(n, list)
	if at == nil || at.Kind != yaml.SequenceNode {
		return
	}
	c.enter(list)
	for i := range min(len(items), len(at.Content)) {
		c.enter(fmt.Sprintf("[%d]", i))
		check(at.Content[i], &items[i])
		c.leave()
	}
	c.leave()
}

// eachNamed reports names that a list has twice.
func eachNamed[T any](c *wiringCheck, n *yaml.Node, list, sort string, items []T, name func(*T) string) {
	first := make(map[string]Place, len(items))
	eachItem(c, n, list, items, func(n *yaml.Node, item *T) {
		at := child(n, "name")
		if at == nil || name(item) == "" {
			return // told elsewhere
		}
		if place, again := first[name(item)]; again {
			c.in("name", at, quantity.Quote(at.Value)+" again", "a name of its own for each "+sort+" of a wiring", "the other one is at "+place.String())
			return
		}
		first[name(item)] = c.place(at)
	})
}

// in reports a problem of a field of the record in hand.
func (c *wiringCheck) in(key string, n *yaml.Node, found, needed, hint string) {
	c.enter(key)
	c.wrong(n, found, needed, hint)
	c.leave()
}

// names tells whether a text names something of its sort, and reports one that
// names nothing.
func (c *wiringCheck) names(n *yaml.Node, key, name, sort string) bool {
	at := child(n, key)
	if name == "" || at == nil {
		return false
	}
	if _, found := slices.BinarySearch(c.known[sort], name); found {
		return true
	}
	c.in(key, at, quantity.Quote(name), "the name of "+Article(sort)+" of this wiring", c.hint(name, c.known[sort]))
	return false
}

// hint guesses what was meant by a name, or lists the known ones while they are few.
func (c *wiringCheck) hint(name string, known []string) string {
	const few = 12
	if c.problems.full() || len(known) > mostGuessed {
		return ""
	}
	if hint := DidYouMean(name, known); hint != "" || len(known) == 0 || len(known) > few {
		return hint
	}
	return "there are " + strings.Join(known, ", ")
}

// mostGuessed names are looked through for the one that was meant.
const mostGuessed = 1000

// sortedNames are the names of a list, in alphabetical order.
func sortedNames[T any](items []T, name func(*T) string) []string {
	names := make([]string, len(items))
	for i := range items {
		names[i] = name(&items[i])
	}
	slices.Sort(names)
	return names
}

func (c *wiringCheck) device(n *yaml.Node, d *opening.Device) {
	if strings.Contains(d.Name, ".") {
		c.in("name", child(n, "name"), quantity.Quote(d.Name), "a name without a dot", "a dot parts device and terminal at the ends of wires")
	}
	c.names(n, "enclosure", d.Enclosure, "enclosure")
	if c.names(n, "learned_to", d.LearnedTo, "device") {
		if to := c.devices[d.LearnedTo]; to.Kind != opening.Receiver && to.Kind != "" {
			c.in("learned_to", child(n, "learned_to"), quantity.Quote(d.LearnedTo)+", "+Article(string(to.Kind)), "a receiver", "")
		}
	}
	c.sheet(n, d)
	relays := sortedNames(d.Relays, func(r *opening.Relay) string { return r.Name })
	first := make(map[string]Place)
	eachItem(c, n, "terminals", d.Terminals, func(n *yaml.Node, t *opening.Terminal) {
		if at := child(n, "name"); at != nil && t.Name != "" && d.Kind != opening.TerminalStrip {
			if place, again := first[t.Name]; again {
				c.in("name", at, quantity.Quote(t.Name)+" again", "a name of its own for each terminal of a device", "the other one is at "+place.String())
			}
			first[t.Name] = c.place(at)
		}
		if at := child(n, "function"); at != nil && t.Function != "" && d.Kind != "" && !d.Kind.MayHave(t.Function) {
			c.in("function", at, quantity.Quote(string(t.Function)), "a function that "+Article(string(d.Kind))+" has: "+listed(d.Kind.Functions()), "")
		}
		if len(relays) > 0 { // without relays it names a pole
			c.relay(n, t.Of, relays)
		}
	})
}

// relay reports a terminal of a relay that the device has not.
func (c *wiringCheck) relay(n *yaml.Node, of string, relays []string) {
	if at := child(n, "of"); at != nil && of != "" && !slices.Contains(relays, of) {
		c.in("of", at, quantity.Quote(of), "the name of a relay of this device", c.hint(of, relays))
	}
}

func listed(fs []opening.Function) string {
	words := make([]string, len(fs))
	for i, f := range fs {
		words[i] = string(f)
	}
	return strings.Join(words, ", ")
}

// sheet leaves the name of a device's sheet to be looked for among those of its sort.
func (c *wiringCheck) sheet(n *yaml.Node, d *opening.Device) {
	at := child(n, "sheet")
	if at == nil || d.Sheet == "" {
		return
	}
	sort := sheetSort(d.Kind)
	c.enter("sheet")
	defer c.leave()
	if sort == "" {
		c.wrong(at, quantity.Quote(d.Sheet), "nothing here: there are no sheets of "+Article(string(d.Kind)), "give its values here")
		return
	}
	c.references = append(c.references, reference{thing{sort, d.Sheet}, c.place(at), c.field()})
}

// sheetSort is the sort of sheet that describes a kind of device, empty where there is none.
func sheetSort(k opening.DeviceKind) string {
	switch k {
	case opening.Drive:
		return "operator"
	case opening.ElectricStrike:
		return "strike"
	case opening.ElectricLock, opening.SolenoidExit, opening.MotorExit, opening.Magnet:
		return "lock"
	case opening.PowerSupply:
		return "supply"
	case opening.PushPlate, opening.TouchlessPlate, opening.Transmitter, opening.Receiver:
		return "actuator"
	}
	return ""
}

func (c *wiringCheck) cable(n *yaml.Node, x *opening.Cable) {
	from, to := c.names(n, "from", x.From, "device"), c.names(n, "to", x.To, "device")
	if from && to && x.From == x.To {
		c.in("to", child(n, "to"), quantity.Quote(x.To)+" again", "another device than the one at which it begins", "a link within one device needs no cable")
	}
	c.names(n, "conduit", x.Conduit, "conduit")
}

func (c *wiringCheck) wire(n *yaml.Node, x *opening.Wire) {
	from, to := c.end(n, "from", x.From), c.end(n, "to", x.To)
	if from != nil && to != nil && x.From == x.To {
		c.in("to", child(n, "to"), quantity.Quote(x.To)+" again", "another terminal than the one at which it begins", "")
		return
	}
	if !c.names(n, "cable", x.Cable, "cable") || from == nil || to == nil {
		return
	}
	cable := c.cables[x.Cable]
	if c.reaches(cable, from, to) || c.devices[cable.From] == nil || c.devices[cable.To] == nil {
		return
	}
	c.in("cable", child(n, "cable"), fmt.Sprintf("%s, which runs from %s to %s", quantity.Quote(x.Cable), cable.From, cable.To),
		fmt.Sprintf("a cable from %s to %s", from.Name, to.Name), "mend the cable's ends, or the wire's")
}

// reaches tells whether a cable runs between two devices, or the enclosures that they sit in.
func (c *wiringCheck) reaches(cable *opening.Cable, a, b *opening.Device) bool {
	at := func(name string, d *opening.Device) bool {
		end := c.devices[name]
		return name == d.Name || end != nil && end.Enclosure != "" && end.Enclosure == d.Enclosure
	}
	return at(cable.From, a) && at(cable.To, b) || at(cable.From, b) && at(cable.To, a)
}

// end checks one end of a wire and returns its device where the end is right.
func (c *wiringCheck) end(n *yaml.Node, key, end string) *opening.Device {
	at := child(n, key)
	if at == nil || end == "" {
		return nil // told elsewhere
	}
	name, terminal, dotted := opening.At(end)
	d := c.devices[name]
	switch {
	case !dotted:
		c.in(key, at, quantity.Quote(end), "a device and its terminal with a dot between them, as strike.+", "")
	case d == nil:
		c.in(key, at, quantity.Quote(name), "the name of a device of this wiring", c.hint(name, c.known["device"]))
	default:
		if _, has := d.Point(terminal); has || d.Kind == "" {
			return d
		}
		marks := sortedNames(d.Points(), func(t *opening.Terminal) string { return t.Name })
		hint := c.hint(terminal, marks)
		if len(marks) == 0 {
			hint = "list its terminals, or leave the wire out: a transmitter has none"
		}
		c.in(key, at, quantity.Quote(terminal), "a terminal of "+name, hint)
	}
	return nil
}
