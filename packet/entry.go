package packet

import (
	"swingwright/decision"
	"swingwright/opening"
	"swingwright/plan"
)

// An Entry is as much of an opening as the job's papers need: packets are made one
// by one, and that of the job when the last has passed.
type Entry struct {
	ID, Name, File  string
	Use             opening.Use
	Hand            opening.Hand
	Leaf            string
	Answer          decision.Answer
	Stands          plan.Standing
	Reasons         []string
	Calls           []decision.Call
	Missing, Papers int
}

// EntryOf is an opening's entry, in the units of opt; file is the name of its packet.
func EntryOf(o *Opening, file string, opt Options) Entry {
	s := newSheet(o, opt)
	return Entry{
		ID: s.o.ID, Name: s.o.Name, File: file, Use: s.o.Use, Hand: s.o.Frame.Hand, Leaf: s.leafBrief(),
		Answer: o.Decision.Answer, Stands: plan.Stand(o.Plan.Findings), Reasons: s.reasons(), Calls: o.Decision.Calls,
		Missing: len(o.Decision.Questions), Papers: len(s.there),
	}
}
