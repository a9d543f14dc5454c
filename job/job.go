// Package job is the technician's record of a set of openings and its file
// format: YAML that a person writes, read with every problem told at once, each
// with its place, what was found, what is needed and how to mend it.
package job

import "swingwright/opening"

// A Job is a customer's set of openings with the hardware sheets they refer to.
type Job struct {
	Name       string            `key:"job" need:"yes" doc:"Name of the job; it heads every paper."`
	Customer   string            `key:"customer" doc:"Who the work is for."`
	Site       string            `key:"site" doc:"Where the openings are."`
	Date       string            `key:"date" form:"date" doc:"Day of the survey, as 2026-11-25; it picks the editions in force."`
	Units      Units             `key:"units" doc:"Units in which papers show values; what you write may be in either."`
	Rulebooks  []string          `key:"rulebooks" doc:"Names of the published rulebooks that this job is judged by."`
	OwnRules   []string          `key:"own_rules" form:"file" doc:"Files with rules of your own, beside this file."`
	SheetFiles []string          `key:"sheet_files" form:"file" doc:"Files with hardware sheets, beside this file."`
	Readings   []string          `key:"reading_files" form:"file" doc:"Files with readings that were kept beside this file; read --keep adds to one."`
	Sheets     opening.Sheets    `key:"sheets" doc:"Hardware sheets copied from the makers' papers."`
	Climate    opening.Climate   `key:"climate" doc:"The weather of the place, month by month, for openings to the outdoors."`
	Groups     []opening.Group   `key:"groups" doc:"Openings that work together: pairs, double egress, vestibules."`
	Rates      opening.Rates     `key:"rates" doc:"What work and material cost, for take-off and quote."`
	Openings   []opening.Opening `key:"openings" need:"yes" doc:"The openings, each with a hyphen before its first field."`
	Notes      map[string]any    `key:"notes" doc:"Anything else about the job; kept as it is."`
}

// Units are the units in which papers show values; empty is the reader's choice.
type Units string

// The systems of units.
const (
	US Units = "us"
	SI Units = "si"
)

// Choices lists the units that a file may name.
func (Units) Choices() []string { return []string{string(US), string(SI)} }
