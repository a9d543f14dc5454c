package report

import (
	"encoding/json"
	"io"
	"slices"

	"swingwright/fact"
	"swingwright/judge"
	"swingwright/plan"
)

// howMeasured tells, of a fact that is measured at the finished opening, with what,
// where and how, and how often (common practice, from memory).
var howMeasured = map[fact.ID]struct {
	with, how string
	times     string
}{
	fact.HandToStart:          {"force gauge", "At the handle, latch held back, slowly and square, until it begins to move.", "3"},
	fact.HandToOpen:           {"force gauge", "At the handle, slowly and square, on to 90 degrees; the largest that lasts, not the first jerk.", "3"},
	fact.Hand0To30:            {"force gauge", "At the handle, slowly and square, from closed to 30 degrees.", "3"},
	fact.Hand30To60:           {"force gauge", "At the handle, slowly and square, from 30 to 60 degrees.", "3"},
	fact.HandReleaseForce:     {"force gauge", "On the bar or plate that is pushed or pulled, until the latch lets go.", "3"},
	fact.HandReleaseTorque:    {"torque gauge", "On the lever, until the latch lets go.", "3"},
	fact.CloseTime90To12:      {"stopwatch and floor marks, or a phone on the leaf", "From 90 to 12 degrees, let go at rest.", "3"},
	fact.CloseTime90To10:      {"stopwatch and floor marks, or a phone on the leaf", "From 90 to 10 degrees, let go at rest.", "3"},
	fact.CloseTime90ToCheck:   {"stopwatch and floor marks, or a phone on the leaf", "From 90 degrees to where it slows to latch, or to 10 degrees.", "3"},
	fact.CloseTime10ToClosed:  {"stopwatch and floor marks, or a phone on the leaf", "From 10 degrees to the sound of the latch.", "3"},
	fact.CloseTime90ToClosed:  {"stopwatch and floor marks, or a phone on the leaf", "From 90 degrees to the sound of the latch.", "3"},
	fact.CloseTime70ToClosed:  {"stopwatch and floor marks, or a phone on the leaf", "From 70 degrees to closed.", "3"},
	fact.CloseTime70To75mm:    {"stopwatch and floor marks, or a phone on the leaf", "From 70 degrees to 75 mm from closed.", "3"},
	fact.ClosePeakEnergy:      {"phone on the leaf", "One recording of three swings, still for three seconds before and after.", "3"},
	fact.LatchesFrom90:        {"eye", "Let go at 90 degrees, fans on and off.", "3"},
	fact.LatchesFrom30:        {"eye", "Let go at 30 degrees, fans on and off.", "3"},
	fact.LatchesFrom5:         {"eye", "Let go at 5 degrees, fans on and off.", "3"},
	fact.PoweredTimeToCheck:   {"stopwatch and floor marks, or a phone on the leaf", "From the first movement, not the press, to backcheck or 80 degrees.", "3"},
	fact.PoweredTimeTo80:      {"stopwatch and floor marks, or a phone on the leaf", "From the first movement to 80 degrees.", "3"},
	fact.PoweredTimeTo90:      {"stopwatch and floor marks, or a phone on the leaf", "From the first movement to 90 degrees.", "3"},
	fact.PoweredTimeToOpen:    {"stopwatch", "From the first movement until it stands fully open.", "3"},
	fact.PoweredDwell:         {"stopwatch", "From when it stands fully open to the first movement back.", "2"},
	fact.PoweredPeakEnergy:    {"phone on the leaf", "One recording of three swings, still for three seconds before and after.", "3"},
	fact.PoweredStallMoment:   {"force gauge that holds its peak", "1 in from the latch edge, against the moving leaf, at 30, 60 and 80 degrees.", "2 each"},
	fact.PoweredBackcheckFrom: {"angle finder", "Where the opening leaf begins to slow.", "2"},
	fact.PoweredOpenAngle:     {"angle finder, or a chord on the floor", "Where the operator stops the leaf.", "1"},
	fact.ClearWidth:           {"tape", "Leaf at 90 degrees, from the stop to its face or what stands out of it from 34 to 80 in up.", "1"},
	fact.PoweredClearWidth:    {"tape", "Where the operator stops the leaf, from the stop to its face.", "1"},
	fact.ControlForce:         {"force gauge", "On the middle of the plate.", "2"},
}

// accepting parts an opening's findings: those about something measured, and those
// that still want a measurement.
func accepting(p *plan.Plan) (measured, open []*plan.Finding) {
	for i := range p.Findings {
		f := &p.Findings[i]
		_, measurable := howMeasured[f.Rule.Of]
		switch {
		case f.Verdict == judge.DoesNotApply || f.Rule.Advice:
		case f.Origin == plan.Read:
			measured = append(measured, f)
		case measurable:
			open = append(open, f)
		}
	}
	return measured, open
}

// AcceptanceStanding is how an acceptance stands: Undecided while something is still
// to be measured.
func AcceptanceStanding(p *plan.Plan) plan.Standing {
	measured, open := accepting(p)
	var all []plan.Finding
	for _, f := range measured {
		all = append(all, *f)
	}
	stand := plan.Stand(all)
	if len(open) > 0 {
		stand = max(stand, plan.Undecided)
	}
	return stand
}

// Acceptance writes the sheet of acceptance of an opening: what was measured, with its
// uncertainty, against which limit, and what is still to be measured, with what and how.
func Acceptance(t *Text, p *plan.Plan) error {
	t.heading(p)
	measured, open := accepting(p)
	if len(measured) > 0 {
		t.head("Measured")
		tab := t.section(9, 20, 12, 12, 12)
		tab.add("verdict", "rule", "measured", "limit", "where")
		for _, f := range measured {
			t.finding(tab, p, f)
		}
		t.put(tab)
	}
	if len(open) > 0 {
		t.head("Still to be measured")
		tab := t.section(20, 12, 24, 6)
		tab.add("what", "with", "how", "times")
		var seen []fact.ID
		for _, f := range open {
			if slices.Contains(seen, f.Rule.Of) {
				continue
			}
			seen = append(seen, f.Rule.Of)
			h := howMeasured[f.Rule.Of]
			tab.add(sentence(f.Rule.Of.Fact().Meaning), h.with, h.how, h.times)
		}
		t.put(tab)
	}
	if len(measured)+len(open) == 0 {
		t.paragraph("-", "no rule of the job asks for a measurement here")
	}
	t.paragraphAt(2, "Name: ________________   Date: ____________   Instruments: ______________________   How they are done is common practice; the rules' own texts come first.")
	return t.flush()
}

// acceptanceFormat names the layout of an acceptance's JSON; docs/json.md describes it.
const acceptanceFormat = "swingwright acceptance 1"

type acceptanceJSON struct {
	Format   string        `json:"format"`
	Opening  string        `json:"opening"`
	Measured []findingJSON `json:"measured"`
	Open     []openJSON    `json:"open"`
}

type openJSON struct {
	Fact  string `json:"fact"`
	With  string `json:"with"`
	How   string `json:"how"`
	Times string `json:"times"`
}

// AcceptanceJSON writes the sheet of acceptance for programs.
func AcceptanceJSON(w io.Writer, p *plan.Plan) error {
	measured, open := accepting(p)
	out := acceptanceJSON{Format: acceptanceFormat, Opening: p.Opening.ID, Measured: []findingJSON{}, Open: []openJSON{}}
	for _, f := range measured {
		out.Measured = append(out.Measured, findingOf(p, f))
	}
	for _, f := range open {
		h := howMeasured[f.Rule.Of]
		one := openJSON{f.Rule.Of.String(), h.with, h.how, h.times}
		if !slices.Contains(out.Open, one) {
			out.Open = append(out.Open, one)
		}
	}
	return json.NewEncoder(w).Encode(out)
}
