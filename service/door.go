package service

import "fmt"

// likelier is by how much what the record tells makes a cause likelier (from memory).
const likelier = 4

// weigh takes this door's record into account.
func (e *Enquiry) weigh(odds []float64, d *Door) {
	raise := func(when bool, cause, why string) {
		if !when {
			return
		}
		for i := range e.Complaint.Causes {
			if e.Complaint.Causes[i].Key == cause {
				odds[i] *= likelier
				e.Reasons = append(e.Reasons, Reason{e.Complaint.Causes[i].What, why})
			}
		}
	}
	lower := func(when bool, cause string) {
		for i := range e.Complaint.Causes {
			if when && e.Complaint.Causes[i].Key == cause {
				odds[i] /= 20
			}
		}
	}
	raise(d.Latches < 0.95, "pressure", fmt.Sprintf("by its plan it latches in %.0f %% of the draws only", 100*d.Latches))
	raise(d.Pressed && d.Outdoors, "pressure", "it leads outdoors, and its record tells of a pressure that pushes it open")
	raise(d.Slower, "oil", "its closing times have grown since they were measured before")
	raise(d.Slower, "friction", "its closing times have grown since they were measured before")
	raise(d.Faster, "valve", "its closing times have shrunk since they were measured before")
	raise(d.Faster, "leak", "its closing times have shrunk since they were measured before")
	raise(d.Turned, "valve", "a valve was turned since it was in order")
	raise(d.Turned, "spring", "the closer was set anew since it was in order")
	raise(d.Leaks, "leak", "the survey found oil on the closer")
	raise(d.Binds, "friction", "the survey found that it binds")
	raise(d.HeavyUse, "wear", "it is opened more than 300 times a day")
	lower(!d.Sealed, "seal")
	lower(!d.Electric, "lock")
}
