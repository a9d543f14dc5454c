package takeoff_test

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"testing/fstest"

	"pgregory.net/rapid"
	_ "swingwright/internal/steady"

	"swingwright/decision"
	"swingwright/job"
	"swingwright/opening"
	"swingwright/takeoff"
)

// made counts a job that is given as YAML; every opening is a go unless named in answers.
func made(t testing.TB, text string, answers map[string]decision.Answer) *takeoff.Takeoff {
	t.Helper()
	j, err := job.Decode(fstest.MapFS{"job.yaml": {Data: []byte(text)}}, "job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	var items []takeoff.Item
	for i := range j.Openings {
		items = append(items, takeoff.Item{Opening: &j.Openings[i], Answer: answers[j.Openings[i].ID]})
	}
	made, err := takeoff.Make(j, items)
	if err != nil {
		t.Fatal(err)
	}
	return made
}

const sheets = `
sheets:
  operators:
    - {name: D, kind: add-on, stall_torque: 40 N·m, free_speed: 60 deg/s}
    - {name: U, kind: own-arm, stall_torque: 40 N·m, free_speed: 60 deg/s}
  actuators:
    - {name: radio, radio_range: 50 ft}
    - {name: wired, size: 4-1/2 in}
`

const fixed = `job: x
rates:
  currency: dollars
  labour: {likely: 100}
  material_markup: {likely: 30 %}
  subs_markup: {likely: 10 %}
  contingency: {likely: 5 %}
  permit: {likely: 200}
  travel: {likely: 60}
  hours:
    - {task: repair or tune closer, hours: {likely: 0.75}}
    - {task: mount operator, hours: {likely: 2}}
    - {task: fire-alarm tie, hours: {likely: 1}}
    - {task: commission, hours: {likely: 0.7}}
  prices:
    - {part: operator, price: {likely: 900}}
    - {part: operator, sheet: D, price: {likely: 1000}}
    - {part: wireless switch, price: {likely: 50}}
    - {part: cable, price: {likely: 1}, per: ft}
  subs:
    - {trade: licensed electrician, price: {likely: 500}}
` + sheets

const door = `openings:
  - id: "1"
    use: {operation: low-energy, activation: switch, fire_rated: no}
    operator: {sheet: D}
    lock: {kind: push-pull, release: not-needed}
    power: {distance: 60 ft}
    controls: [{what: a, sheet: radio}, {what: b, sheet: radio}]
`

// One door by hand. Hours from trade practice, from memory, at the middle of their
// ranges: mobilise 0.5, tune 0.75, mount 2, loop and cover 0.5, two wireless
// switches 0.3 each, commission 0.7, close out 0.3: 5.35 h. Cable 60 ft run, 15 %
// more bought: 69 ft.
//
//	labour    5.35 h at 100                        535.00
//	material  (1000 + 2·50 + 69·1)·1.30           1519.70
//	subs      500·1.10                             550.00
//	extras    permit 200, travel 60 for one day    260.00
//	                                              2864.70
//	contingency 5 %                                143.235
//	                                              3007.935
func TestQuoteByHand(t *testing.T) {
	got := made(t, fixed+door, nil)
	for i, want := range []float64{535, 1519.70, 550, 260, 143.235} {
		near(t, got.Quote.Sums[i].What, got.Quote.Sums[i].Range, want)
	}
	near(t, "total", got.Quote.Total, 3007.935)
	near(t, "hours", got.Hours, 5.35)
	near(t, "opening", got.Openings[0].Total, 1.05*(485+1519.70+550))
	if got.Quote.Currency != "dollars" {
		t.Errorf("currency %q", got.Quote.Currency)
	}
}

func near(t *testing.T, what string, got takeoff.Range, want float64) {
	t.Helper()
	for _, x := range []float64{got.Low, got.Likely, got.High} {
		if math.Abs(x-want) > 1e-9*want {
			t.Errorf("%s: %v, want %v", what, got, want)
			return
		}
	}
}

// The parts of one door, as trade practice lists them (from memory): drive, plate,
// through-bolt sets, loop, two wireless switches with boxes and cells, receiver, mode
// switch, cable times 1.15, two caution and two instruction signs, sticker, torque tag.
func TestPartsOfOneDoor(t *testing.T) {
	got := made(t, fixed+door, nil)
	want := map[opening.Part]int{
		opening.OperatorPart: 1, opening.PlatePart: 1, opening.BoltPart: 6, opening.LoopPart: 1, opening.WirelessPart: 2, opening.BoxPart: 2,
		opening.CellPart: 2, opening.ReceiverPart: 1, opening.ModePart: 1, opening.SupplyPart: 1, opening.CablePart: 0,
		opening.CautionPart: 2, opening.InstructionPart: 2, opening.StickerPart: 1, opening.TagPart: 1,
	}
	seen := map[opening.Part]int{}
	for _, l := range got.Openings[0].Lines {
		seen[l.Part] += l.Count
		if l.Why == "" || l.Basis == "" || l.Of != "1" {
			t.Errorf("%+v does not say why it is there", l)
		}
		if l.Part == opening.CablePart && math.Abs(float64(l.Length)-69*0.3048) > 1e-9 {
			t.Errorf("%v m of cable, want 69 ft", l.Length)
		}
	}
	if fmt.Sprint(seen) != fmt.Sprint(want) {
		t.Errorf("parts\n%v, want\n%v", seen, want)
	}
}

// Every condition lengthens the hours by its factor, and they multiply; paper is
// not made longer by any.
func TestMultipliers(t *testing.T) {
	plain := made(t, fixed+door, nil)
	hard := made(t, fixed+door+"    work: {masonry: yes, occupied: yes, night: yes, tall: yes, winter: yes, first_of_kind: yes}\n", nil)
	factor := 1.3 * 1.4 * 1.25 * 1.2 * 1.5 // no winter: it is no outer opening
	for i, w := range hard.Openings[0].Work {
		want := plain.Openings[0].Work[i].Hours.Likely
		if w.Task != opening.CloseOut {
			want *= factor
		}
		if math.Abs(w.Hours.Likely-want) > 1e-9 {
			t.Errorf("%s: %v h, want %v", w.Task, w.Hours.Likely, want)
		}
	}
}

// From eleven identical openings on each goes faster, and from ten on spares are bought.
func TestManyAlike(t *testing.T) {
	for _, test := range []struct {
		n, spareSwitches int
		factor           float64
	}{{9, 0, 1}, {10, 2, 1}, {11, 2, 0.85}} { // 7.5 % of 20 switches is 1.5, of 22 it is 1.65
		var b strings.Builder
		b.WriteString(fixed + door)
		for i := 2; i <= test.n; i++ {
			fmt.Fprintf(&b, "  - {id: \"%d\", same_as: \"1\"}\n", i)
		}
		got := made(t, b.String(), nil)
		mount := got.Openings[0].Work[1]
		if math.Abs(mount.Hours.Likely-2*test.factor) > 1e-9 {
			t.Errorf("%d alike: %s %v h", test.n, mount.Task, mount.Hours)
		}
		spare := 0
		for _, l := range got.Spares {
			if l.Part == opening.WirelessPart {
				spare = l.Count
			}
			if l.Part == opening.OperatorPart || l.Part == opening.CablePart {
				t.Errorf("%s among the spares", l.What)
			}
		}
		if spare != test.spareSwitches {
			t.Errorf("%d alike: %d spare switches, want %d", test.n, spare, test.spareSwitches)
		}
	}
}

// What is refused, referred, to be changed, pushed by hand or not said to be powered
// is not in the quote, and the exclusions say so.
func TestLeftOut(t *testing.T) {
	text := fixed + door + `  - {id: "2", same_as: "1"}
  - {id: "3", same_as: "1"}
  - {id: "4", same_as: "1"}
  - {id: "5", use: {operation: manual}}
  - {id: "6"}
  - {id: "7", same_as: "1"}
`
	got := made(t, text, map[string]decision.Answer{"2": decision.Refuse, "3": decision.Refer, "4": decision.Change, "7": decision.Repair})
	var in []string
	for _, o := range got.Openings {
		if o.Left == "" {
			in = append(in, o.ID)
		} else if len(o.Lines)+len(o.Work)+len(o.Subs) > 0 || o.Total.High != 0 {
			t.Errorf("%s is left out and counted", o.ID)
		}
	}
	if strings.Join(in, " ") != "1 7" {
		t.Errorf("in the quote: %v", in)
	}
	for _, id := range []string{"2", "3", "4", "5", "6"} {
		found := false
		for _, x := range got.Exclusions {
			found = found || x.What == "opening "+id && x.Why != ""
		}
		if !found {
			t.Errorf("no exclusion tells of %s", id)
		}
	}
}

// An operator that is fitted and suited as it is takes no hours, unless it is asked to
// commission it; one that has to be repaired does.
func TestFitted(t *testing.T) {
	text := fixed + strings.Replace(door, "{sheet: D}", "{sheet: D, fitted: yes}", 1)
	j, err := job.Decode(fstest.MapFS{"job.yaml": {Data: []byte(text)}}, "job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		answer decision.Answer
		asked  bool
		tasks  string
	}{
		{decision.Go, false, ""}, {decision.Go, true, "commission, close out"},
		{decision.FindOut, false, "commission, close out"}, {decision.Repair, false, "repair or tune closer, commission, close out"},
	} {
		got, err := takeoff.Make(j, []takeoff.Item{{Opening: &j.Openings[0], Answer: test.answer, Asked: test.asked}})
		if err != nil {
			t.Fatal(err)
		}
		o := got.Openings[0]
		var tasks []string
		for _, w := range o.Work {
			tasks = append(tasks, string(w.Task))
		}
		if strings.Join(tasks, ", ") != test.tasks || len(o.Lines) > 0 || (o.Left != "") != (test.tasks == "") {
			t.Errorf("%v, asked %v: %v, %d lines, left out %q", test.answer, test.asked, tasks, len(o.Lines), o.Left)
		}
	}
}

// A possible change is priced in place of its opening, for the difference.
func TestAlternate(t *testing.T) {
	text := fixed + strings.Replace(door, "lock: {kind: push-pull, release: not-needed}", "lock: {kind: storeroom, release: by-hand-only}", 1) +
		"  - {id: \"1 with a strike\", in_place_of: \"1\", lock: {release: strike}}\n"
	got := made(t, text, nil)
	if len(got.Openings) != 1 || len(got.Alternates) != 1 {
		t.Fatalf("%d openings, %d alternates", len(got.Openings), len(got.Alternates))
	}
	a := got.Alternates[0]
	// A strike without a price, 2 h to fit it and 1.5 h for the tie: known within ranges.
	if math.Abs(a.Hours.Likely-got.Openings[0].Hours.Likely-3.5) > 0.05 {
		t.Errorf("%v h against %v", a.Hours, got.Openings[0].Hours)
	}
	if a.More.Likely < 330 || a.More.Likely > 405 { // 3.5 h at 100, 5 % on it: 367.50
		t.Errorf("more: %v", a.More)
	}
	if a.More.Low < 1.05*100*2.5-1 || a.More.High > 1.05*100*4.5+1 {
		t.Errorf("more: %v is wider than its rates allow", a.More)
	}
}

// Devices and cables of a wiring are counted from it; what others bring is not.
func TestWiring(t *testing.T) {
	text := fixed + strings.Replace(door, "    controls:", `    wiring:
      devices:
        - {name: drive, kind: operator}
        - {name: ps, kind: supply}
        - {name: bat, kind: battery}
        - {name: in, kind: push-plate}
        - {name: out, kind: push-plate, by: the owner}
        - {name: strike, kind: strike}
        - {name: panel, kind: access-controller}
      cables:
        - {name: C1, from: ps, to: drive, gauge: 18, conductors: 2, length: 40 ft}
        - {name: C2, from: panel, to: strike, length: 90 ft, by: integrator}
        - {name: C3, from: in, to: drive, gauge: 18, conductors: 2}
      conduits:
        - {name: E1, kind: EMT, trade_size: 3/4, length: 20 ft}
    controls:`, 1)
	got := made(t, text, nil).Openings[0]
	count := map[opening.Part]int{}
	length := map[opening.Part]float64{}
	for _, l := range got.Lines {
		count[l.Part] += l.Count
		length[l.Part] += float64(l.Length) / 0.3048
	}
	for part, want := range map[opening.Part]int{opening.OperatorPart: 1, opening.SupplyPart: 1, opening.BatteryPart: 1, opening.WiredPart: 1, opening.WirelessPart: 0, opening.StrikePart: 1, opening.DevicePart: 0} {
		if count[part] != want {
			t.Errorf("%d of %s, want %d", count[part], part, want)
		}
	}
	if math.Abs(length[opening.CablePart]-46) > 1e-9 || math.Abs(length[opening.RacewayPart]-23) > 1e-9 {
		t.Errorf("%v ft of cable and %v ft of conduit, want 46 and 23", length[opening.CablePart], length[opening.RacewayPart])
	}
	if len(got.Gaps) != 1 || !strings.Contains(got.Gaps[0].What, "C3") {
		t.Errorf("gaps %v, want the length of C3", got.Gaps)
	}
}

// Visits come in the order in which the work can be done, place by place.
func TestVisits(t *testing.T) {
	text := fixed + strings.Replace(door, "fire_rated: no", "fire_rated: yes", 1) + `    work: {building: North}
  - {id: "2", same_as: "1"}
  - {id: "3", same_as: "1", use: {fire_rated: no}, work: {building: South}}
`
	var got []string
	for _, v := range made(t, text, nil).Visits {
		got = append(got, fmt.Sprintf("%s %d %s %v", v.Building, v.Order, v.Trade, v.Openings))
	}
	want := `North 1 licensed electrician [1 2]
North 2 door technician [1 2]
North 3 fire-alarm contractor [1 2]
North 4 door technician [1 2]
South 1 licensed electrician [3]
South 2 door technician [3]`
	if strings.Join(got, "\n") != want {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), want)
	}
}

// Where rates are ranges, a sum lies between that of all the least and that of all
// the largest, and its middle near that of the likely ones; the same job comes to the
// same cent.
func TestSpread(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lo := rapid.Float64Range(20, 200).Draw(t, "labour")
		hi := lo * rapid.Float64Range(1.05, 3).Draw(t, "span")
		price := rapid.Float64Range(100, 3000).Draw(t, "price")
		text := fmt.Sprintf(`job: x
rates:
  labour: {low: %g, high: %g}
  contingency: {low: 5 %%, high: 10 %%}
  prices: [{part: operator, price: {low: %g, high: %g}}]
%s%s`, lo, hi, price, price*1.5, sheets, door)
		j, err := job.Decode(fstest.MapFS{"job.yaml": {Data: []byte(text)}}, "job.yaml")
		if err != nil {
			t.Fatal(err)
		}
		item := []takeoff.Item{{Opening: &j.Openings[0]}}
		got, err := takeoff.Make(j, item)
		if err != nil {
			t.Fatal(err)
		}
		again, _ := takeoff.Make(j, item)
		if again.Quote.Total != got.Quote.Total {
			t.Fatalf("%v, then %v", got.Quote.Total, again.Quote.Total)
		}
		// Hours 0.5, 0.5–1, 1.5–2.5, 0.5, 0.6, 0.6–0.8, 0.3; mark-up 25–40 %.
		least := (4.5*lo + 1.25*price) * 1.05
		most := (6.2*hi + 1.40*price*1.5) * 1.10
		middle := (5.35*(lo+hi)/2 + 1.325*price*1.25) * 1.075
		total := got.Quote.Total
		if !(least < total.Low && total.Low < total.Likely && total.Likely < total.High && total.High < most) {
			t.Fatalf("%v is not within %v and %v", total, least, most)
		}
		if math.Abs(total.Likely/middle-1) > 0.02 {
			t.Fatalf("middle %v, of the likely rates %v", total.Likely, middle)
		}
	})
}

// A quote says which of its rates nobody set, and nothing once all are.
func TestRatesToSet(t *testing.T) {
	all := &takeoff.Takeoff{Rates: []takeoff.Rate{{What: "labour, each hour", Basis: takeoff.FromMemory}, {What: "travel, each own day", Basis: takeoff.FromJob}, {What: "contingency", Basis: takeoff.FromMemory}}}
	if got := all.ToSet(); !strings.Contains(got, "no offer: labour, each hour; contingency. Write yours") || strings.Contains(got, "travel") {
		t.Errorf("%q", got)
	}
	for i := range all.Rates {
		all.Rates[i].Basis = takeoff.FromJob
	}
	if got := all.ToSet(); got != "" {
		t.Errorf("all are set, and it says %q", got)
	}
}
