package picture

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"swingwright/judge"
	"swingwright/opening"
	"swingwright/plan"
	q "swingwright/quantity"
)

// anyWiring is a supply with devices in a chain or a star, of any lengths and currents.
func anyWiring(t *rapid.T) opening.Wiring {
	f := func(low, high float64, name string) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	kinds := []opening.DeviceKind{opening.Drive, opening.ElectricStrike, opening.Magnet, opening.PresenceSensor, opening.SolenoidExit, opening.AccessRelay}
	w := opening.Wiring{Devices: []opening.Device{{Name: rapid.SampledFrom([]string{"supply", "P", "the supply above the ceiling of the long corridor"}).Draw(t, "name"), Kind: opening.PowerSupply}}}
	if rapid.Bool().Draw(t, "rated") {
		w.Devices[0].Working = q.Exactly(q.Current(f(0.2, 10, "rating")))
	}
	for i := range rapid.IntRange(0, 7).Draw(t, "devices") {
		d := opening.Device{Name: fmt.Sprint(rapid.SampledFrom([]string{"x", "device with quite a long name for a drawing "}).Draw(t, "name"), i), Kind: rapid.SampledFrom(kinds).Draw(t, "kind"),
			Opening: rapid.SampledFrom([]string{"A", "B"}).Draw(t, "opening"), Working: q.Exactly(q.Current(f(0, 4, "amps")))}
		from := w.Devices[rapid.IntRange(0, i).Draw(t, "from")].Name
		w.Cables = append(w.Cables, opening.Cable{Name: fmt.Sprint("W", i), From: from, To: d.Name, Gauge: 18, Length: q.Exactly(q.Length(f(0, 60, "length")))})
		w.Devices = append(w.Devices, d)
	}
	return w
}

// Whatever is wired, it can be drawn: every number finite, all on the page, no word on
// another.
func TestAnyWiringIsLegible(t *testing.T) {
	o, sheets, _ := demoOpening(t, "115")
	rapid.Check(t, func(t *rapid.T) {
		o.Wiring = anyWiring(t)
		p := &plan.Plan{Opening: &o}
		for _, one := range Feeding(p.Power(sheets, judge.Policy{})) {
			for _, fault := range faults(one.Scene) {
				t.Errorf("%s: %s", one.Name, fault)
			}
		}
	})
}

// The picture tells what the tables do: each device with its volts, what each run takes,
// and the words for too little and for a collapse.
func TestVoltsAreWritten(t *testing.T) {
	for id, want := range map[string][]string{
		"115": {"drive: drive starts or stalls; 22.92 V of 21.00 V needed, enough", "lost on the way: W3 1.08 V", "Supply supply gives 24 V"},
		"114": {"the wires cannot carry what is asked of them"},
	} {
		o, sheets, books := demoOpening(t, id)
		f := plan.Make(&o, sheets, books, plan.Options{}).Power(sheets, judge.Policy{})
		text := words(Volts(f))
		for _, part := range want {
			if !strings.Contains(strings.Join(strings.Fields(text), " "), part) {
				t.Errorf("%s: %q is not in %q", id, part, text)
			}
		}
		if text := words(SupplyCurrent(f)); !strings.Contains(text, "leaf moves") || !strings.Contains(text, "all the time") {
			t.Errorf("%s: %q", id, text)
		}
	}
}
