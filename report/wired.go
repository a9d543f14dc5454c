package report

import (
	"encoding/json"
	"fmt"
	"io"
	"slices"
	"strings"

	"swingwright/judge"
	"swingwright/logic"
	"swingwright/plan"
	"swingwright/quantity"
)

// Wired writes what a wiring does: which rules it keeps, the order of events that
// breaks each of the others, what its locks need, the sequence of operation, the
// fire-alarm matrix and every connection.
func Wired(t *Text, name string, w *plan.Wired) error {
	t.title(strings.TrimSpace(w.Of+" "+noBreak+name), '-')
	if w.Problem != nil {
		t.paragraph("Nothing could be proved:", w.Problem.Error())
	} else {
		t.proof(w)
		t.breaches(w.Proof)
	}
	t.faultsOfWiring(w.Faults)
	if w.Problem == nil {
		t.ways(w.Walked, w.Policy)
		t.releases(w.Delays)
		t.clears(w)
		t.sequence(w.Sequence())
		t.truth(w.Proof.Machine)
		t.alarmMatrix(w.Proof.Machine)
		t.connections(w.Proof.Machine)
	}
	if try := w.ToTry(); len(try) > 0 {
		t.head("To try on site: no wiring shows it")
		for _, c := range try {
			t.paragraph("-", c)
		}
	}
	t.head("Cautions")
	for _, c := range wiringCautions {
		t.paragraph("-", c)
	}
	return t.flush()
}

// wiringCautions stand under whatever is said of a wiring.
var wiringCautions = []string{
	"Isolate before opening a cover. Line voltage is a licensed electrician's, under the local electrical code.",
	"Connect and test the fire alarm together with its own contractor, and ask the authority having jurisdiction in writing what the door shall do in alarm.",
	"What is proved is proved of the wiring as it is written down, and of devices that behave as such devices commonly do. Try the lock ten times, the alarm and the loss of power on site.",
	"It certifies nothing: locally adopted codes, the makers' papers and the licensed person on site come first.",
}

// provedWords are the verdicts on rules.
var provedWords = map[judge.Verdict]string{
	judge.Meets: "proved", judge.FallsShort: "broken", judge.NotMeasured: "not proved", judge.TooClose: "too close to call", judge.DoesNotApply: "does not apply",
}

func (t *Text) proof(w *plan.Wired) {
	p := w.Proof
	if p.Complete {
		t.head(fmt.Sprintf("Every order of events was followed: %d states, %d steps, time in steps of %g s", p.States, p.Steps, float64(p.Machine.Tick)))
	} else {
		t.head(fmt.Sprintf("Not every order of events could be followed: %d states were, time in steps of %g s", p.States, float64(p.Machine.Tick)))
	}
	tab := t.section(18, 30)
	for i := range p.Verdicts {
		v := &p.Verdicts[i]
		verdict := w.OnRule(v)
		if verdict == judge.DoesNotApply && !t.style.All {
			continue
		}
		text := v.Rule.String()
		if v.Why != "" {
			text += " " + upper(v.Why) + "."
		}
		if verdict == judge.TooClose {
			text += fmt.Sprintf(" Kept in %.0f %% of %d draws.", 100*w.Walked.Share(v.Rule), w.Walked.Draws)
		}
		tab.add(hold(markOf(verdict, false)+" "+provedWords[verdict]), text)
	}
	t.put(tab)
}

func upper(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

func (t *Text) breaches(p *logic.Proof) {
	for _, v := range p.Broken() {
		t.head("Broken: " + v.Rule.String())
		t.paragraph("What one sees:", v.Symptom)
		lines := v.Story.Text()
		if len(lines) == 0 {
			lines = []string{"As soon as power is on, with nobody doing anything."}
		}
		t.paragraph("A shortest way there:", lines[0])
		for _, line := range lines[1:] {
			t.paragraph("                     ", line)
		}
	}
}

func (t *Text) faultsOfWiring(faults []logic.Fault) {
	if len(faults) == 0 {
		return
	}
	t.head("Seen without following anything")
	for _, f := range faults {
		verdict := judge.FallsShort
		t.paragraph(markOf(verdict, f.Advice), f.Says+" What one sees: "+f.Symptom)
	}
}

// ways are what people meet who go through a vestibule.
func (t *Text) ways(w *plan.Followed, policy judge.Policy) {
	if w == nil {
		return
	}
	t.head(fmt.Sprintf("Through the vestibule: %d pairs of people followed, the second up to %.0f s after the first", w.Runs, float64(w.Longest)))
	for i := range w.Ways {
		way := &w.Ways[i]
		t.paragraph(way.From+" to "+way.To+":", strings.Join(plan.WayWords(way, policy), " "))
	}
	for i := range w.Slips {
		t.paragraph("-", plan.SlipWords(&w.Slips[i]))
	}
	t.paragraph("Taken for granted:", plan.WalkGranted)
}

func (t *Text) releases(delays []logic.Delay) {
	if len(delays) == 0 {
		return
	}
	t.head("What the locks need")
	tab := t.section(10, 10, 12, 12, 12)
	tab.add("lock", "drive", "releases in", "drive waits at least", "drive waits")
	for _, d := range delays {
		release := "up to " + quantity.FormatValue(d.Release, quantity.SI, 2)
		if !d.Measured {
			release += " (not from tries on site: try it five times)"
		}
		set := "never for it"
		if d.Known {
			set = quantity.FormatValue(d.Set, quantity.SI, 2)
		}
		tab.add(d.Lock, d.Drive, release, quantity.FormatValue(d.Needed, quantity.SI, 2), set)
	}
	t.put(tab)
}

// clears tells how long each lock has to stay released.
func (t *Text) clears(w *plan.Wired) {
	for _, d := range w.Delays {
		if i := slices.IndexFunc(w.Clears, func(c plan.Clearing) bool { return c.Door == d.Door }); i >= 0 {
			t.paragraph(d.Lock+":", w.Clears[i].Words())
		}
	}
}

func (t *Text) sequence(ps []logic.Passage) {
	t.head("Sequence of operation")
	part := ""
	for i, p := range ps {
		if p.Part != part {
			part = p.Part
			t.paragraph("", part)
		}
		t.paragraph(fmt.Sprintf("%2d.", i+1), upper(p.When)+". "+strings.Join(p.Then, " "))
	}
}

func (t *Text) alarmMatrix(m *logic.Machine) {
	t.head("Fire alarm: what each device does")
	if !m.Alarmed() {
		t.paragraph("-", "No fire alarm comes here. Ask the authority having jurisdiction in writing whether one has to.")
		return
	}
	rows := m.AlarmMatrix()
	tab := t.section(10, 10, 10, 10, 10, 10)
	tab.add(append([]string{"device"}, logic.AlarmColumns...)...)
	for _, r := range rows {
		cells := []string{r.Device}
		for _, c := range r.Cells {
			text := c.Does
			if !c.Right() {
				text = "!! " + text + ", should be: " + c.Should
			}
			cells = append(cells, text)
		}
		tab.add(cells...)
	}
	t.put(tab)
}

// truth writes what comes of everything that people can do.
func (t *Text) truth(m *logic.Machine) {
	t.head("Truth table: what comes of it")
	of := m.TruthTable()
	least := []int{20}
	for range of.Conditions {
		least = append(least, 12)
	}
	tab := t.section(least...)
	tab.add(append([]string{"somebody does"}, of.Conditions...)...)
	for _, r := range of.Rows {
		cells := []string{r.Ask}
		for _, c := range r.Comes {
			cells = append(cells, c.String())
		}
		tab.add(cells...)
	}
	t.put(tab)
}

func (t *Text) connections(m *logic.Machine) {
	t.head("Connections")
	tab := t.section(12, 10, 14, 8, 20)
	tab.add("device", "terminal", "function", "normally", "to")
	last := ""
	for _, c := range m.Connections() {
		name := c.Device
		if name == last {
			name = ""
		}
		last = c.Device
		tab.add(name, c.Terminal, string(c.Function), orDash(c.Normal), strings.Join(c.To, ", "))
	}
	t.put(tab)
}

// wiredFormat names the layout of a wiring's JSON; docs/json.md describes it.
const wiredFormat = "swingwright wiring 1"

type wiredJSON struct {
	Format      string           `json:"format"`
	Of          string           `json:"of"`
	Standing    plan.Standing    `json:"standing"`
	States      int              `json:"states"`
	Steps       int              `json:"steps"`
	Tick        number           `json:"tick"`
	Complete    bool             `json:"complete"`
	Rules       []wiringRuleJSON `json:"rules"`
	Faults      []wiringFault    `json:"faults"`
	Releases    []releaseJSON    `json:"releases"`
	Clearings   []clearingJSON   `json:"clearings"`
	Sequence    []passageJSON    `json:"sequence"`
	Ways        []wayJSON        `json:"ways"`
	Slips       []slipJSON       `json:"slips"`
	Alarm       []alarmRowJSON   `json:"alarm"`
	Truth       truthJSON        `json:"truth_table"`
	Connections []connectionJSON `json:"connections"`
	Problem     string           `json:"problem"`
	OnSite      []string         `json:"on_site"`
	Cautions    []string         `json:"cautions"`
}

// truthJSON is the truth table: the columns, and a row for each thing that people do.
type truthJSON struct {
	Conditions []string       `json:"conditions"`
	Rows       []truthRowJSON `json:"rows"`
}

type truthRowJSON struct {
	Ask   string     `json:"ask"`
	Comes []cameJSON `json:"comes"`
}

// cameJSON names the locks freed, the drives that moved their leaf and the openings
// opened by hand.
type cameJSON struct {
	Freed  []string `json:"freed"`
	Driven []string `json:"driven"`
	ByHand []string `json:"by_hand"`
}

func truthOf(m *logic.Machine) truthJSON {
	of := m.TruthTable()
	out := truthJSON{Conditions: of.Conditions, Rows: []truthRowJSON{}}
	for _, r := range of.Rows {
		row := truthRowJSON{Ask: r.Ask}
		for _, c := range r.Comes {
			row.Comes = append(row.Comes, cameJSON{texts(c.Freed), texts(c.Driven), texts(c.ByHand)})
		}
		out.Rows = append(out.Rows, row)
	}
	return out
}

type wayJSON struct {
	From      string          `json:"from"`
	To        string          `json:"to"`
	Through   bool            `json:"through"`
	Time      number          `json:"time"`
	Wait      number          `json:"wait"`
	Spare     [2]number       `json:"spare"`
	TimeU     number          `json:"time_u"`
	WaitU     number          `json:"wait_u"`
	SpareU    [2]number       `json:"spare_u"`
	Verdicts  [2]string       `json:"verdicts"`
	Drivers   [2][]driverJSON `json:"drivers"`
	Starts    [2]number       `json:"starts"`
	By        []string        `json:"by"`
	Asks      bool            `json:"asks"`
	Forgets   bool            `json:"forgets"`
	Forgotten [2]number       `json:"forgotten"`
	Deaf      string          `json:"deaf"`
	Says      []string        `json:"says"`
}

type slipJSON struct {
	From   string `json:"from"`
	To     string `json:"to"`
	Behind bool   `json:"behind"`
	Until  number `json:"until"`
	Caught number `json:"caught"`
	Shut   number `json:"shut"`
	Meets  string `json:"meets"`
	Says   string `json:"says"`
}

var exitWords = map[logic.Exit]string{logic.ByWay: "way", logic.ByPlate: "plate", logic.ByHand: "hand", logic.NoExit: "none"}

type wiringRuleJSON struct {
	Rule    string   `json:"rule"`
	Says    string   `json:"says"`
	Verdict string   `json:"verdict"`
	Why     string   `json:"why"`
	Symptom string   `json:"symptom"`
	Events  int      `json:"events"`
	Story   []string `json:"story"`
}

type wiringFault struct {
	Fault   string `json:"fault"`
	Advice  bool   `json:"advice"`
	Says    string `json:"says"`
	Symptom string `json:"symptom"`
}

type releaseJSON struct {
	Lock     string  `json:"lock"`
	Drive    string  `json:"drive"`
	Release  number  `json:"release"`
	Measured bool    `json:"measured"`
	Needed   number  `json:"needed"`
	Set      *number `json:"set"`
}

// clearingJSON is how long a lock has to stay released once its drive starts.
type clearingJSON struct {
	Opening string  `json:"opening"`
	Angle   number  `json:"angle"`
	Time    *number `json:"time"`
	U       *number `json:"u"`
	Used    number  `json:"used"`
	Why     string  `json:"why"`
}

func clearingsOf(w *plan.Wired) []clearingJSON {
	all := []clearingJSON{}
	for _, c := range w.Clears {
		out := clearingJSON{Opening: c.Door, Angle: number(c.Angle), Used: number(c.Used), Why: c.Why}
		if c.Known {
			took, u := number(c.Time), number(c.U)
			out.Time, out.U = &took, &u
		}
		all = append(all, out)
	}
	return all
}

type passageJSON struct {
	Part string   `json:"part"`
	When string   `json:"when"`
	Then []string `json:"then"`
}

type alarmRowJSON struct {
	Device  string   `json:"device"`
	Opening string   `json:"opening"`
	State   []string `json:"state"`
	Does    []string `json:"does"`
	Should  []string `json:"should"`
}

type connectionJSON struct {
	Device   string   `json:"device"`
	Terminal string   `json:"terminal"`
	Function string   `json:"function"`
	Relay    string   `json:"relay"`
	Normal   string   `json:"normal"`
	To       []string `json:"to"`
}

// WiredJSON writes what a wiring does for programs.
func WiredJSON(w io.Writer, of *plan.Wired) error {
	j := wiredJSON{Format: wiredFormat, Of: of.Of, Standing: of.Standing(), Rules: []wiringRuleJSON{}, Faults: []wiringFault{}, Releases: []releaseJSON{}, Clearings: []clearingJSON{},
		Sequence: []passageJSON{}, Ways: []wayJSON{}, Slips: []slipJSON{}, Alarm: []alarmRowJSON{}, Truth: truthJSON{[]string{}, []truthRowJSON{}}, Connections: []connectionJSON{}, OnSite: texts(of.ToTry()), Cautions: wiringCautions}
	for _, f := range of.Faults {
		j.Faults = append(j.Faults, wiringFault{f.Key, f.Advice, f.Says, f.Symptom})
	}
	if of.Problem != nil {
		j.Problem = of.Problem.Error()
		return encodeWired(w, j)
	}
	p := of.Proof
	j.States, j.Steps, j.Tick, j.Complete = p.States, p.Steps, number(p.Machine.Tick), p.Complete
	for i := range p.Verdicts {
		v := &p.Verdicts[i]
		r := wiringRuleJSON{Rule: v.Rule.Key(), Says: v.Rule.String(), Verdict: of.OnRule(v).String(), Why: v.Why, Symptom: v.Symptom, Story: []string{}}
		if v.Story != nil {
			r.Events, r.Story = v.Story.Events, append(r.Story, v.Story.Text()...)
		}
		j.Rules = append(j.Rules, r)
	}
	for _, d := range of.Delays {
		r := releaseJSON{Lock: d.Lock, Drive: d.Drive, Release: number(d.Release), Measured: d.Measured, Needed: number(d.Needed)}
		if d.Known {
			set := number(d.Set)
			r.Set = &set
		}
		j.Releases = append(j.Releases, r)
	}
	j.Clearings = clearingsOf(of)
	for _, s := range of.Sequence() {
		j.Sequence = append(j.Sequence, passageJSON{s.Part, s.When, s.Then})
	}
	if of.Walked != nil {
		for i := range of.Walked.Ways {
			x := &of.Walked.Ways[i]
			starts := [2]number{number(x.Starts[0]), number(x.Starts[1])}
			j.Ways = append(j.Ways, wayJSON{From: x.From, To: x.To, Through: x.Through, Time: number(x.Time), Wait: number(x.Wait),
				TimeU: number(x.TimeU), WaitU: number(x.WaitU), SpareU: [2]number{number(x.SpareU[0]), number(x.SpareU[1])}, Starts: starts, By: texts(x.By),
				Verdicts: [2]string{x.SpareVerdict(0, of.Policy).String(), x.SpareVerdict(1, of.Policy).String()}, Drivers: [2][]driverJSON{driversOf(x.Drivers[0]), driversOf(x.Drivers[1])},
				Spare: [2]number{number(x.Spare[0]), number(x.Spare[1])}, Asks: x.Asks, Forgets: x.Forgets,
				Forgotten: [2]number{number(x.Earliest), number(x.Latest)}, Deaf: x.Deaf, Says: plan.WayWords(x, of.Policy)})
		}
	}
	if of.Walked != nil {
		for i := range of.Walked.Slips {
			s := &of.Walked.Slips[i]
			j.Slips = append(j.Slips, slipJSON{s.From, s.To, s.Behind, number(s.Until), number(s.Caught), number(s.Shut), exitWords[s.Meets], plan.SlipWords(s)})
		}
	}
	for _, r := range p.Machine.AlarmMatrix() {
		a := alarmRowJSON{Device: r.Device, Opening: r.Door, State: logic.AlarmColumns}
		for _, c := range r.Cells {
			a.Does, a.Should = append(a.Does, c.Does), append(a.Should, c.Should)
		}
		j.Alarm = append(j.Alarm, a)
	}
	j.Truth = truthOf(p.Machine)
	for _, c := range p.Machine.Connections() {
		j.Connections = append(j.Connections, connectionJSON{c.Device, c.Terminal, string(c.Function), c.Of, c.Normal, c.To})
	}
	return encodeWired(w, j)
}

func encodeWired(w io.Writer, j wiredJSON) error {
	e := json.NewEncoder(w)
	e.SetIndent("", " ")
	return e.Encode(j)
}
