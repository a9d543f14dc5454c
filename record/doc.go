// Package record simulates a recorder on a leaf: from a time history of the leaf
// it writes the file that a phone taped to it would, with noise, bias, rounding,
// knocks and gaps, and keeps the truth to compare with. It is for trying out what
// reads recordings, and for showing what one looks like.
package record
