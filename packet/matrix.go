package packet

import (
	"swingwright/internal/paper"
	"swingwright/opening"
)

func noMatrix(s *sheet) string { return s.unpowered() }

// The parties.
const (
	tech       = "technician"
	sparky     = "electrician"
	alarmFirm  = "fire-alarm contractor"
	integrator = "access integrator"
	ownerParty = "owner"
	general    = "general contractor"
	nobody     = "not needed"
)

// Duty is one piece of work and who does which part of it; no part is empty.
type Duty struct {
	Work                               string
	Provides, Installs, Wires, Answers string
}

// Duties are the work that an opening takes and who does it, as the trade shares it
// out (common practice): to be agreed, and changed where the job has it otherwise.
func Duties(o *Opening) []Duty { return newSheet(o, Options{}).duties() }

func (s *sheet) duties() []Duty {
	var all []Duty
	add := func(work, provides, installs, wires, answers string) {
		all = append(all, Duty{work, provides, installs, wires, answers})
	}
	none := func(work, why string) { add(work, nobody+": "+why, nobody, nobody, nobody) }
	add("Access to the site, keys, escort, hours", ownerParty, nobody, nobody, ownerParty)
	add("Permit, where one is needed", general+" or "+ownerParty, nobody, nobody, general+" or "+ownerParty)
	switch s.o.Leaf.Asbestos {
	case "yes":
		add("Asbestos in the core of the leaf", ownerParty+", by a hygienist", nobody+" until cleared", nobody, ownerParty)
	case "no":
		none("Asbestos in the core of the leaf", "no doubt of it was found")
	default:
		add("Asbestos in the core of the leaf", "to be settled: nobody wrote down whether there is a doubt", nobody+" until settled", nobody, ownerParty)
	}
	add("Repair of leaf, frame, hinges, latch and seals", tech, tech, nobody, tech)
	if s.o.Closer.None == "yes" {
		none("Closer", "there is none")
	} else {
		add("Closer: setting, or another one", tech, tech, nobody, tech)
	}
	add("Operator, its arm and its cover", tech, tech, tech, tech)
	add("Mains: circuit, disconnect, box", sparky, sparky, sparky, sparky)
	add("Low-voltage supply", tech, tech, sparky+"; "+tech+" below 50\u00a0V", tech)
	add("Raceway, boxes, firestop", sparky, sparky, nobody, sparky)
	s.switchDuty(add)
	add("Cord or hinge that carries wires to the leaf", tech, tech, tech, tech)
	s.lockDuty(add, none)
	s.alarmDuty(add, none)
	if s.o.Use.FireRated == "yes" {
		add("Fire label and what may be drilled", ownerParty+", through an inspector", nobody, nobody, ownerParty)
	} else if s.o.Use.FireRated == "no" {
		none("Fire label and what may be drilled", "no fire label")
	} else {
		add("Fire label and what may be drilled", "to be settled: whether it is a fire door", nobody+" until settled", nobody, ownerParty)
	}
	if s.Window != nil || s.o.Air.Most.Known {
		add("Air: pressure on the leaf, fans", ownerParty, ownerParty+"'s air balancer", nobody, ownerParty)
	} else {
		add("Air: pressure on the leaf, fans", ownerParty, nobody+" as far as known", nobody, ownerParty)
	}
	add("Signs", tech, tech, nobody, tech)
	add("Patching and painting", general+" or "+ownerParty, general+" or "+ownerParty, nobody, general+" or "+ownerParty)
	add("Setting, measuring, recording", tech, tech, nobody, tech)
	add("Showing the owner, and the owner's signature", tech, nobody, nobody, ownerParty)
	add("Daily check", ownerParty, nobody, nobody, ownerParty)
	add("Inspection every year", ownerParty, nobody, nobody, ownerParty+", by somebody qualified")
	return all
}

type addDuty func(work, provides, installs, wires, answers string)

func (s *sheet) switchDuty(add addDuty) {
	wires := tech
	if s.wireless() {
		wires = nobody + ": by radio"
	}
	add("Switches", tech, tech, wires, tech)
}

func (s *sheet) lockDuty(add addDuty, none func(work, why string)) {
	switch r := s.release(); {
	case r.IsElectric():
		by := tech
		if s.o.Use.Activation == "access-control" || s.o.Lock.StaysLocked == "yes" {
			by = integrator
		}
		add("Lock release: "+releaseWords[r], by, by, by, by)
		add("Access control: card, hours, request to exit", integrator, integrator, integrator, integrator)
	case r == "":
		add("Lock release", "to be settled: what frees the lock", nobody+" until settled", nobody+" until settled", tech)
		none("Access control: card, hours, request to exit", "none was found")
	default:
		none("Lock release", releaseWords[r])
		if s.o.Use.Activation == "access-control" || s.o.Lock.StaysLocked == "yes" {
			add("Access control: card, hours, request to exit", integrator, integrator, integrator, integrator)
		} else {
			none("Access control: card, hours, request to exit", "nothing is locked or started by it")
		}
	}
}

func (s *sheet) alarmDuty(add addDuty, none func(work, why string)) {
	switch s.o.Use.FireRated {
	case "no":
		none("Fire alarm: relay, programming, test", "no fire label")
	case opening.YesNo("yes"):
		add("Fire alarm: relay and programming", alarmFirm, alarmFirm, alarmFirm, alarmFirm)
		add("Fire alarm: wire from relay to operator", alarmFirm, alarmFirm, alarmFirm+"; "+tech+" at the operator", alarmFirm)
		add("Fire alarm: test together", alarmFirm+" and "+tech, nobody, nobody, alarmFirm)
	default:
		add("Fire alarm: relay, programming, test", "to be settled: whether it is a fire door", nobody+" until settled", nobody+" until settled", ownerParty)
	}
}

// matrix is who does what.
func matrix(s *sheet) {
	s.Say("What is by others is where jobs go wrong: every piece of work has a name here. This is how the trade shares it out; strike out what was agreed otherwise, and sign.")
	t := paper.NewTable("work", "provides", "installs", "wires", "answers for it")
	for _, d := range s.duties() {
		t.Cells(paper.Cell{Text: d.Work, Bold: true}, paper.Cell{Text: d.Provides}, paper.Cell{Text: d.Installs}, paper.Cell{Text: d.Wires}, paper.Cell{Text: d.Answers})
	}
	s.Table(t)
	parties := []string{tech, ownerParty, sparky}
	if s.o.Use.FireRated != "no" {
		parties = append(parties, alarmFirm)
	}
	if noAccess(s) == "" {
		parties = append(parties, integrator)
	}
	s.Whole(func() {
		s.Heading("Agreed")
		t := paper.NewTable("for the", "name", "signature", "date")
		t.Columns[1].Grow, t.Columns[2].Grow, t.Columns[3].Width = 1, 1, 26
		for _, who := range parties {
			t.Cells(paper.Cell{Text: who, Bold: true}, paper.Cell{Line: true}, paper.Cell{Line: true}, paper.Cell{Line: true})
		}
		s.Table(t)
	})
}
