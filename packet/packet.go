package packet

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"swingwright/decision"
	"swingwright/internal/draw"
	"swingwright/internal/paper"
	"swingwright/job"
	"swingwright/opening"
	"swingwright/picture"
	"swingwright/plan"
	q "swingwright/quantity"
	"swingwright/takeoff"
)

// Options say how papers look, and which are wanted.
type Options struct {
	Size  paper.Size
	Units q.System
	// Revision and Date stand on every page, as the caller says them: no clock is asked.
	Revision, Date string
	// Only are the keys of the papers wanted; all of them when empty.
	Only []string
	// Attached go along inside the file, such as the job's own files.
	Attached []paper.Attached
	// Stamp is put among the file's keywords, for programs that look for it.
	Stamp string
}

// An Opening is what an opening's papers are made from, as a [Source] gathers it.
type Opening struct {
	// Job is as much of the job as the papers rest on, [Source.Part].
	Job      *job.Job
	Plan     *plan.Plan
	Decision *decision.Decision
	// Window is where its closer's settings keep everything; nil where nobody looked.
	Window *plan.Window
	// Holes are where to drill; nil where nobody looked.
	Holes *plan.Holes
	// Wired is what the wiring does that the opening shares with another one; nil where
	// it has its own, which is the plan's, or none.
	Wired *plan.Wired
	// Feeding is how its devices are fed; nil where nobody looked.
	Feeding *plan.Feeding
	// Takeoff is what it takes; nil where nobody counted.
	Takeoff *takeoff.Opening
}

// A kind is one sort of paper for an opening.
type kind struct {
	key, title string
	about      string // what it is for, in one line of the contents
	// absent tells why an opening has no such paper; empty where it has one.
	absent func(*sheet) string
	write  func(*sheet)
}

// kinds are the papers of an opening, in the order of the packet.
func kinds() []kind {
	return []kind{
		{"letter", "Letter to the customer", "Why it cannot be powered as it is, and the least that would change that.", noLetter, letter},
		{"survey", "Survey sheet", "What is still to be found out at the opening, with blanks.", noSurvey, survey},
		{"work", "Work sheet", "Steps in their safe order, settings, and what to expect.", noWork, work},
		{"marks", "Floor marks", "Strips at full size to lay on the floor, for times by stopwatch.", noMarks, marks},
		{"motion", "What the leaf will do", "Times, energies and pushes as reckoned, as pictures.", noMotion, motion},
		{"template", "Drilling template", "Where to drill, with which drill, and the templates at full size.", noTemplate, template},
		{"wiring", "Wiring", "What is joined to what, proof of what it does, and the sequence of operation.", noWiring, wiring},
		{"power", "Power and wires", "Volts at every device in its worst moment, runs, supply and battery.", noPower, powerPaper},
		{"electrician", "Request to the electrician", "What is to be brought where, and its load.", noElectrician, electrician},
		{"alarm", "Request to the fire-alarm contractor", "What an alarm must do here, and the test together.", noAlarm, alarm},
		{"access", "Request to the access-control integrator", "Who releases the lock, when, and what must not start the leaf.", noAccess, access},
		{"matrix", "Who does what", "Every piece of work and the party that answers for it.", noMatrix, matrix},
		{"kit", "Kit and tools", "What to take along.", noKit, kit},
		{"fire", "Fire-door change sheet", "Label, gaps, holes, latching and alarm, before and after.", noFire, fireSheet},
		{"commissioning", "Commissioning sheet", "Every measurement with its limit here, what is expected, and blanks.", noCommissioning, commissioning},
		{"signs", "Signs due", "Words, sizes and heights, with their sources.", noSigns, signsPaper},
		{"owner", "Owner's sheet and daily check", "How it works, what to look at every day, and what to leave alone.", noOwner, owner},
	}
}

// Names are the keys by which papers of an opening are asked for, in their order.
func Names() []string {
	var all []string
	for _, k := range kinds() {
		all = append(all, k.key)
	}
	return all
}

// wants tells that a paper was asked for.
func (o *Options) wants(key string) bool { return len(o.Only) == 0 || slices.Contains(o.Only, key) }

// Make lays out the packet of one opening: a first page with the contents, then
// the papers that apply.
func Make(o *Opening, opt Options) *paper.Document {
	s := newSheet(o, opt)
	s.Fitted("cover", "Opening "+s.o.ID, s.cover)
	for _, k := range s.there {
		s.Fitted(k.key, k.title, func() { k.write(s) })
	}
	tellLetters(s.Document)
	s.Finish()
	return s.Document
}

// Write writes the packet of one opening as a PDF file, and returns the letters that the
// font of the papers has no picture of; the papers tell of them too.
func Write(w io.Writer, o *Opening, opt Options) (lacking []rune, err error) {
	title := "Opening " + o.Plan.Opening.ID
	if name := o.Plan.Opening.Name; name != "" {
		title += ", " + name
	}
	d := Make(o, opt)
	return d.Lacking(), d.WritePDF(w, paper.File{
		Title: title, Subject: "Papers for one opening of the job " + o.Job.Name, Keywords: opt.keywords(), Attached: opt.Attached,
	})
}

func (o *Options) keywords() string { return strings.TrimSpace("swingwright packet " + o.Stamp) }

// foot is what stands at the foot of every page.
func (o *Options) foot(of string) string {
	for _, one := range []string{revision(o.Revision), o.Date} {
		if one != "" {
			of += " · " + one
		}
	}
	return of
}

func revision(r string) string {
	if r == "" {
		return ""
	}
	return "revision " + r
}

// sheet is a packet of one opening under way.
type sheet struct {
	*paper.Document
	*Opening
	opt    Options
	p      *plan.Plan
	o      *opening.Opening
	sheets *opening.Sheets
	units  q.System
	there  []kind
	gone   []absence
	cited  []string // sources that marks point to
	drawn  map[string]*draw.Scene
}

// picture is a picture by its name, drawn once however often it is put on paper.
func (s *sheet) picture(name string, drawn func() *draw.Scene) *draw.Scene {
	if s.drawn[name] == nil {
		if s.drawn == nil {
			s.drawn = map[string]*draw.Scene{}
		}
		s.drawn[name] = drawn()
	}
	return s.drawn[name]
}

// fromAbove is the plan of the opening.
func (s *sheet) fromAbove() *draw.Scene {
	return s.picture("plan", func() *draw.Scene { return picture.Plan(s.p, s.units) })
}

// absence is a paper that is not in the packet, and why.
type absence struct{ title, why string }

func newSheet(o *Opening, opt Options) *sheet {
	s := &sheet{Opening: o, opt: opt, p: o.Plan, o: o.Plan.Opening, sheets: &o.Job.Sheets, units: opt.Units}
	s.Document = paper.New(opt.Size, paper.Running{Head: o.Job.Name, Foot: opt.foot("Opening " + s.o.ID)})
	for _, k := range kinds() {
		switch why := k.absent(s); {
		case !opt.wants(k.key):
		case why != "":
			s.gone = append(s.gone, absence{k.title, why})
		default:
			s.there = append(s.there, k)
		}
	}
	return s
}

// powered tells an opening that is, or is to be, opened by an operator.
func (s *sheet) powered() bool { return s.o.Use.Powered() }

// refused tells that it must not be powered as it is.
func (s *sheet) refused() bool { return s.powered() && s.Decision.Answer == decision.Refuse }

// unpowered is why a paper for powered openings is not there; empty where it may be.
func (s *sheet) unpowered() string {
	switch {
	case !s.powered():
		return "the opening stays hand-pushed"
	case s.refused():
		return "the opening cannot be powered as it is; see the letter"
	}
	return ""
}

// operator is the sheet of its operator, nil without one.
func (s *sheet) operator() *opening.OperatorSheet { return s.p.Resolved.Operator }

// tellLetters tells on the last page which letters have no picture. They are named by
// their code points, since they cannot be printed.
func tellLetters(d *paper.Document) {
	var names []string
	for _, r := range d.Lacking() {
		names = append(names, say("%U", r))
	}
	if len(names) > 0 {
		d.Note(say("The font of these papers has no picture of some letters, which stand as %s: %s.", draw.InPlace, strings.Join(names, ", ")))
	}
}

func say(format string, args ...any) string { return fmt.Sprintf(format, args...) }
