// Package packet makes the papers that go to site and to the other trades: one
// packet for every opening and one for the job. Each paper says in a line what it
// is for; one that does not apply is named on the first page with the reason, since
// a paper that is only missing looks like one that was forgotten.
//
// Papers repeat what package plan reckoned and package decision decided, in the
// reader's units, and leave blanks for what has to be found out. They certify nothing.
package packet
