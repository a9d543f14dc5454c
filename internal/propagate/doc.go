// Package propagate carries the spread of inputs through a function to the
// spread of its outputs: by draws ([Draws], the method of JCGM 101:2008) and by
// the linear law ([Linear], the method of JCGM 100:2008).
//
// Inputs are independent of each other. The package is a numeric kernel: its
// numbers are plain float64 in whatever unit the caller has, the same on the
// way in and on the way out.
//
// Sources: JCGM 100:2008 (GUM), JCGM 101:2008 (GUM supplement 1).
package propagate
