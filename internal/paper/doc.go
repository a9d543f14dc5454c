// Package paper lays out papers for print: headings, paragraphs, tables that run
// over pages with their heads repeated, boxes to tick, blanks to write on, and
// figures. Text wraps and never is clipped; what has no room goes to the next page.
//
// A finished document is a list of pages, each a [draw.Scene] of its true size,
// so that what writes and tests scenes writes and tests papers too, and a PDF file
// made of them. The same calls give the same bytes: date and revision are words
// that the caller gives, and no clock is asked.
package paper
