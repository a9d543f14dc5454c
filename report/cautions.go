package report

import (
	"fmt"

	"swingwright/job"
	"swingwright/opening"
	"swingwright/rulebook"
)

// Cautions are those on a job as a whole: weather that is hard to believe, and rulebooks
// that do not hold on the day of its survey.
func Cautions(j *job.Job, books []*rulebook.Book) (all []string) {
	for _, d := range opening.ImplausibleClimate(&j.Climate) {
		all = append(all, "hard to believe: "+d.String())
	}
	for _, b := range books {
		if j.Date != "" && !b.InForce(rulebook.Date(j.Date)) {
			all = append(all, fmt.Sprintf("rulebook %s holds %s, not on the day of the survey, %s", b.ID, held(b), j.Date))
		}
	}
	return all
}

// held is when a book holds.
func held(b *rulebook.Book) string {
	switch {
	case b.From != "" && b.Until != "":
		return fmt.Sprintf("from %s until %s", b.From, b.Until)
	case b.From != "":
		return fmt.Sprintf("from %s", b.From)
	}
	return fmt.Sprintf("until %s", b.Until)
}
