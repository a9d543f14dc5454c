package packet

import (
	"slices"
	"strconv"
	"strings"

	"swingwright/fact"
	"swingwright/internal/paper"
	q "swingwright/quantity"
)

func noCommissioning(s *sheet) string {
	if s.refused() {
		return "the opening cannot be powered as it is; see the letter"
	}
	return ""
}

// A measurement is one of the commissioning sheet.
type measurement struct {
	name  string // T1 to T26
	what  string
	how   string
	times int       // how often; one blank for each
	of    []fact.ID // whose limits hold and whose values are expected
	limit string    // where no rulebook limits it, with where it comes from
	where func(*sheet) bool
}

func always(*sheet) bool       { return true }
func powered(s *sheet) bool    { return s.powered() }
func withCloser(s *sheet) bool { return s.o.Closer.None != "yes" }
func latched(s *sheet) bool    { return s.o.Latch.None != "yes" }
func alarmed(s *sheet) bool    { return s.powered() && s.o.Use.FireRated != "no" }
func locked(s *sheet) bool     { return s.powered() && s.release().IsElectric() }
func radio(s *sheet) bool      { return s.powered() && s.wireless() }

// measurements are what is measured at the finished opening (common practice; limits
// without a rulebook from memory).
var measurements = []measurement{
	{"T1", "Free friction, arm off", "Gauge 1 in (25 mm) from the latch edge, slowly.", 3, nil, "at most 1.5 lbf (6.7 N), from memory", always},
	{"T2", "Push by hand, power off", "Gauge at the handle, leaf square to it, slowly; the largest that lasts, not the first jerk. Write the distance from the hinge pin.", 3, []fact.ID{fact.HandToOpen, fact.HandToStart}, "", always},
	{"T3", "Closing force at 5 degrees", "Gauge 1 in (25 mm) from the edge; let it close slowly onto it.", 3, []fact.ID{fact.LatchMargin}, "more than T4 and the seals together", withCloser},
	{"T4", "Force to latch", "Push shut with the gauge from 1 in (25 mm) open.", 3, nil, "less than T3", latched},
	{"T5", "Opening to backcheck or 80 degrees", "Floor marks and stopwatch, or phone on the leaf, from the first movement, not the press.", 3, []fact.ID{fact.PoweredTimeToCheck, fact.PoweredTimeTo80}, "", powered},
	{"T6", "Opening until it stands open", "The same.", 3, []fact.ID{fact.PoweredTimeToOpen, fact.PoweredTimeTo90}, "", powered},
	{"T7", "Hold open", "From standing open to the first movement back.", 2, []fact.ID{fact.PoweredDwell}, "", powered},
	{"T8", "Closing 90 to 10 degrees", "Floor marks and stopwatch, operator on.", 3, []fact.ID{fact.CloseTime90ToCheck, fact.CloseTime90To10}, "", withCloser},
	{"T9", "Closing 10 degrees to closed", "To the sound of the latch.", 3, []fact.ID{fact.CloseTime10ToClosed}, "", withCloser},
	{"T10", "Closing 90 to 12 degrees, by hand", "Power off; let go at rest.", 3, []fact.ID{fact.CloseTime90To12}, "", withCloser},
	{"T11", "Force that stops the leaf", "Gauge that holds its peak, 1 in (25 mm) from the edge, against the moving leaf at 30, 60 and 80 degrees opening and 10 closing.", 4, []fact.ID{fact.PoweredStallMoment}, "", powered},
	{"T12", "By hand, power off", "Gauge 1 in (25 mm) from the edge: latch free, set in motion, fully open.", 3, []fact.ID{fact.HandReleaseForce, fact.HandToStart, fact.HandToOpen}, "15, 30 and 15 lbf (67, 133 and 67 N)", powered},
	{"T13", "Obstruction", "Soft block at 45 degrees, then a hand.", 2, nil, "stops or turns back; pushes no harder than T11 allows", powered},
	{"T14", "Where backcheck begins", "Angle finder; slowly under power, then a shove by hand.", 2, []fact.ID{fact.PoweredBackcheckFrom}, "smooth", powered},
	{"T15", "Open angle", "Angle finder, or chord on the floor.", 1, []fact.ID{fact.PoweredOpenAngle}, "as wide as T16 wants", powered},
	{"T16", "Clear width", "Tape, from the stop to the leaf or what stands out of it from 34 to 80 in (865 to 2030 mm) up.", 1, []fact.ID{fact.PoweredClearWidth, fact.ClearWidth}, "", always},
	{"T17", "Volts at the operator", "Meter with least reading, while it moves and the lock works.", 1, nil, "", powered},
	{"T18", "Wireless switches", "Ten presses each from the worst place.", 1, nil, "10 of 10", radio},
	{"T19", "Lock", "Ten times, also with somebody leaning on the leaf.", 1, nil, "10 of 10, no scrape", locked},
	{"T20", "Alarm, with its contractor", "Leaf closed, held open, opening; silence and reset.", 2, nil, "lets go within seconds, closes and latches", alarmed},
	{"T21", "Power off and on", "Breaker.", 1, nil, "does not open by itself", powered},
	{"T22", "Closes and latches", "Three times each from fully open, half open, 30 degrees, 5 degrees and a slow hand; fans on and off.", 1, []fact.ID{fact.LatchesFrom90, fact.LatchesFrom30, fact.LatchesFrom5}, "15 of 15, twice", withCloser},
	{"T23", "Signs", "Tape; see the sheet of signs.", 1, nil, "as on the sheet of signs", powered},
	{"T24", "Screws", "Torque wrench, each; mark it.", 1, nil, "as the maker's paper says", powered},
	{"T25", "Gap at the stop", "Rule, leaf standing open.", 1, nil, "at least 1/2 in (13 mm), common practice", powered},
	{"T26", "Film", "Phone, 30 s, with sound: one whole opening.", 1, nil, "kept with this sheet", powered},
}

// commissioning is the sheet of what was measured.
func commissioning(s *sheet) {
	s.Say("Each measurement with its limit at this opening and what is expected. Write what you read, not whether it is good. Discard runs that differ by more than 15 %, and repeat. A value within its uncertainty of a limit is not passed: measure it better.")
	s.Blanks(paper.Blank{Label: "measured by", Share: 2}, paper.Blank{Label: "date", Share: 1}, paper.Blank{Label: "temperature", Share: 1}, paper.Blank{Label: "instruments and their numbers", Share: 2.4})
	t := paper.NewTable("", "what, how and with what", "limit here", "expected", "found")
	t.Columns[0].Width, t.Columns[4].Width = 8, 40
	for i := range measurements {
		m := &measurements[i]
		if m.where(s) {
			t.Cells(paper.Cell{Text: m.name, Bold: true}, paper.Cell{Text: m.what + ". " + m.how}, paper.Cell{Text: s.limitOf(m)}, paper.Cell{Text: s.expected(m)}, paper.Cell{Blanks: m.times})
		}
	}
	s.Table(t)
	s.sources()
	s.Note("At: the distance of the gauge from the hinge pin.")
	if w := s.wired(); w != nil && s.powered() {
		s.toTry(w)
	}
	s.Heading("What was found amiss, and what was done")
	s.LinesToFoot(func() {
		s.Blanks(paper.Blank{Label: "accepted for the firm", Share: 2}, paper.Blank{Label: "signature", Share: 2}, paper.Blank{Label: "date", Share: 1})
		s.Blanks(paper.Blank{Label: "seen by the owner", Share: 2}, paper.Blank{Label: "signature", Share: 2}, paper.Blank{Label: "date", Share: 1})
		s.Note("This sheet records; it certifies nothing. Codes adopted locally, the maker's paper and the licensed person on site come first.")
	})
}

// limitOf is every different limit on a measurement here, without its source, else
// what common practice asks for.
func (s *sheet) limitOf(m *measurement) string {
	if m.name == "T17" {
		if op := s.operator(); op != nil && op.Volts.Known {
			return "at least " + s.amount(q.DimVoltage, 0.9*float64(op.Volts.Value), 0) + ", a tenth below its paper, common practice"
		}
		return "at least 9/10 of what its paper says, common practice"
	}
	if m.name == "T24" {
		return "as the maker's paper says" + colon(s.torques())
	}
	var parts []string
	for _, id := range m.of {
		for _, f := range s.about(id) {
			one := s.bound(f) + s.mark(f)
			if !f.Rule.Advice && !slices.Contains(parts, one) {
				parts = append(parts, one)
			}
		}
	}
	if len(parts) == 0 || m.name == "T22" {
		parts = append(parts, m.limit)
	}
	text := ""
	for _, p := range parts {
		if p != "" && text != "" {
			text += "; "
		}
		text += p
	}
	return orElse(text, "none in the job's rulebooks")
}

// mark points to the source of a finding's limit, by a number in brackets.
func (s *sheet) mark(f interface{ Cited() string }) string {
	cited := f.Cited()
	i := slices.Index(s.cited, cited)
	if i < 0 {
		i, s.cited = len(s.cited), append(s.cited, cited)
	}
	return "\u00a0[" + strconv.Itoa(i+1) + "]"
}

// sources are what the marks point to.
func (s *sheet) sources() {
	if len(s.cited) == 0 {
		return
	}
	s.Subheading("Where the limits stand")
	var all []string
	for i, cited := range s.cited {
		all = append(all, "["+strconv.Itoa(i+1)+"]\u00a0"+cited)
	}
	s.Note(strings.Join(all, "; ") + ".")
}

// expected is what is expected of a measurement.
func (s *sheet) expected(m *measurement) string {
	text := ""
	for _, id := range m.of {
		one := s.predicted(id)
		if one == unknown {
			continue
		}
		if text != "" {
			text += "; "
		}
		text += one
	}
	return orElse(text, "–")
}
