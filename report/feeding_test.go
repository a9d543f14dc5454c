package report

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"swingwright/judge"
	"swingwright/opening"
	"swingwright/plan"
	"swingwright/quantity"
)

// Whatever is known of a wiring, text and JSON can be written of it, and say the same
// device for device.
func TestFeedingIsWritten(t *testing.T) {
	wiring := opening.Wiring{
		Devices: []opening.Device{{Name: "supply", Kind: opening.PowerSupply}, {Name: "drive", Kind: opening.Drive}, {Name: "strike", Kind: opening.ElectricStrike}},
		Cables: []opening.Cable{
			{Name: "W1", From: "supply", To: "drive", Gauge: 22, Length: quantity.Exactly[quantity.Length](90), Conduit: "K"},
			{Name: "W2", From: "supply", To: "strike", Gauge: 18, Length: quantity.Exactly[quantity.Length](9)},
		},
		Conduits: []opening.Conduit{{Name: "K", Kind: "FMC", Trade: "1/2"}},
		Standby:  opening.Standby{Time: quantity.Exactly[quantity.Time](3600)},
	}
	bare := opening.Wiring{Devices: wiring.Devices[1:]}
	for name, w := range map[string]opening.Wiring{"nothing": {}, "no supply": bare, "collapses": wiring} {
		p := &plan.Plan{Opening: &opening.Opening{ID: "1", Wiring: w}}
		f := p.Power(nil, judge.Policy{})
		var text, data bytes.Buffer
		if err := NewText(&text, Style{Why: true}).Feeding(f); err != nil {
			t.Fatal(err)
		}
		if err := FeedingJSON(&data, f); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		var back struct {
			Standing string
			Circuits []struct {
				Ending  string
				Devices []struct {
					Device, Verdict string
					Volts           *float64
				}
			}
		}
		if err := json.Unmarshal(data.Bytes(), &back); err != nil {
			t.Fatal(err)
		}
		if name != "collapses" {
			if !strings.Contains(text.String(), "missing:") || back.Standing != "undecided" {
				t.Errorf("%s: %s %s", name, back.Standing, text.String())
			}
			continue
		}
		if c := back.Circuits[0]; c.Ending != "collapses" || c.Devices[0].Volts != nil || c.Devices[0].Verdict != "falls short" || c.Devices[1].Volts == nil {
			t.Errorf("%+v", c)
		}
		for _, part := range []string{"drive starts", "collapses", "its inside diameter is not known: trade size 1/2", "assumed: middle of what", "Isolate before opening a cover"} {
			if !strings.Contains(strings.Join(strings.Fields(strings.ReplaceAll(text.String(), "\u00a0", " ")), " "), part) {
				t.Errorf("%q is not in\n%s", part, text.String())
			}
		}
	}
}
