// Package drilling lays out the holes of an opening: where each comes to on leaf and
// frame, from which edges, which drill, which bolt, how near to what is hidden there,
// and what the fixings will bear.
//
// A face is looked at from its own side. Places on it are told without hand: X from
// the hinge edge of a leaf (from the rabbet of the hinge jamb for head and soffit; on
// a jamb out over its face from the edge that faces the opening; in the latch jamb's rabbet
// from the stop toward the pull side, on its stop from the leaf toward the push side), Y down from the top
// of a leaf (up from the lower edge of a head, away from the leaf on a soffit, down
// from the head on a jamb, in its rabbet and on its stop). Only [Face.OnPaper] knows the hand, so a pattern cannot be
// mirrored twice, or on one face and not on the other.
package drilling
