// Package book keeps everything that was ever entered about jobs: what was found
// at their openings, hardware sheets, readings, adjustments, recordings, photos,
// notes, sign-offs. Nothing in it is overwritten. Every change is a revision that
// says who, when, on which device and with what, and what it replaced, and any
// earlier state can be seen again.
//
// A book is a folder. In it are book.sqlite, which holds the revisions, the
// folder attachments, which holds photos, recordings and the like under their
// SHA-256, and copies of book.sqlite that were made before it was brought up to a newer
// schema. So the log of a write in progress, which SQLite keeps beside its file,
// is never left behind when a book is moved, and gigabytes of photos, which never
// change, are not copied with every backup and compaction.
//
// # Parts
//
// A job is kept in parts, each a piece of text: the job itself (the job file up to
// its openings), one for each opening, one for what follows them, and one for each
// file beside the job file. Put together they are the job's files to the byte,
// comments too. A revision that changes a part is a splice of its text (package
// job/amend), so that every state can be reached backwards from the present one
// and forwards from nothing, without the code that once chose the splice.
//
// # Changes
//
// A Change carries an identity that its maker chose, so that it may be sent twice
// and is kept once. A device that works without a network numbers its changes;
// they are kept in that order, and a gap is refused until it is filled. A change
// made without having seen a later one of the same field, by another device, is
// kept but not carried out: a conflict, which stays open until a later change
// resolves it.
//
// # Seal
//
// The hash of a revision covers all that the revision says and the hash before
// it, so it covers the whole book up to there. Printed on a signed paper, the hash of
// a sign-off proves later that neither it nor anything before it was altered.
package book
