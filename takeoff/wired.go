package takeoff

import (
	"fmt"

	"swingwright/opening"
)

// wiredParts are the parts that devices of a wiring are.
var wiredParts = map[opening.DeviceKind]opening.Part{
	opening.PowerSupply: opening.SupplyPart, opening.StandbyBattery: opening.BatteryPart,
	opening.PushPlate: opening.WiredPart, opening.TouchlessPlate: opening.WiredPart, opening.Transmitter: opening.WirelessPart,
	opening.Receiver: opening.ReceiverPart, opening.ElectricStrike: opening.StrikePart,
	opening.SolenoidExit: opening.RetractionPart, opening.MotorExit: opening.RetractionPart,
	opening.AlarmModule: opening.AlarmRelayPart, opening.DelayRelay: opening.LogicPart, opening.Sequencer: opening.LogicPart, opening.PlainRelay: opening.LogicPart,
	opening.KeySwitch: opening.ModePart, opening.NightSwitch: opening.ModePart, opening.EnableSwitch: opening.ModePart, opening.HoldOpenSwitch: opening.ModePart,
}

// wired counts what the wiring tells: its devices, cables and conduits. What
// somebody else supplies is left to them.
func (c *counter) wired() {
	w := c.wiring
	for i := range w.Devices {
		c.device(&w.Devices[i])
	}
	for i := range w.Cables {
		c.cable(&w.Cables[i])
	}
	for i := range w.Conduits {
		k := &w.Conduits[i]
		from := "wiring.conduits " + k.Name
		if !k.Length.Known {
			c.gap("length of conduit "+k.Name, "wiring.conduits.length")
			continue
		}
		what := "conduit"
		if k.Kind != "" {
			what = "conduit " + string(k.Kind)
		}
		if k.Trade != "" {
			what += ", trade size " + k.Trade
		}
		c.run(opening.RacewayPart, what, k.Length.Value, "conduit "+k.Name, from, FromWiring)
		c.add(opening.FittingPart, "raceway fitting", "", fittingsPerRun, "elbows and couplings of conduit "+k.Name, from, FromMemory)
	}
}

func (c *counter) device(d *opening.Device) {
	switch d.Kind {
	case opening.Drive: // counted as the operator
		return
	case opening.BranchCircuit, opening.AccessRelay, opening.Reader, opening.AlarmSounder: // other trades bring them
		return
	}
	if d.By != "" {
		return
	}
	part, ok := wiredParts[d.Kind]
	if !ok {
		part = opening.DevicePart
	}
	from := "wiring.devices " + d.Name
	c.add(part, string(d.Kind), d.Sheet, 1, named(d.Place, "device "+d.Name), from, FromWiring)
	switch part {
	case opening.WiredPart, opening.WirelessPart:
		c.add(opening.BoxPart, "switch box", "", 1, "behind "+d.Name, from, CommonPractice)
	}
	if part == opening.WirelessPart {
		c.add(opening.CellPart, "transmitter cell set", "", 1, "in "+d.Name+", dated", from, CommonPractice)
	}
}

func (c *counter) cable(k *opening.Cable) {
	if k.By != "" {
		return
	}
	from := "wiring.cables " + k.Name
	if !k.Length.Known {
		c.gap("length of cable "+k.Name, "wiring.cables.length")
		return
	}
	what := "cable"
	if k.Conductors > 0 {
		what += fmt.Sprintf(", %d conductors", k.Conductors)
	}
	if k.Gauge > 0 {
		what += fmt.Sprintf(" %d AWG", k.Gauge)
	}
	c.run(opening.CablePart, what, k.Length.Value, fmt.Sprintf("cable %s, from %s to %s", k.Name, k.From, k.To), from, FromWiring)
}
