// Package trace reads the recording of a swing, made with a phone or any other
// recorder fixed to the leaf, and says what it shows and how well: when marks
// were passed, how fast the leaf turned, how long it was held open, each with
// standard uncertainty and budget, and what is wrong with the recording.
//
//	rec, err := trace.Read("door.csv", data, nil)
//	...
//	t := rec.Analyse(trace.Settings{})
//	for _, s := range t.Swings {
//		fmt.Println(s.Between(90*quantity.Degree, 10*quantity.Degree, true))
//	}
//
// A file holds a time and either the rates about three axes of the device, with
// or without acceleration, or one rate about the hinge, or the leaf's angle. The
// vertical is the direction of gravity, whatever way the device is fixed; names
// of axes are not trusted. The rate about it, less the bias found at the rests
// before and after, is summed to the angle; what is left over when the leaf has
// closed again is spread over the time in which it moved. The first movement is
// an opening. A scale error cannot be seen in a leaf that closes again: one
// chord measured at the open position takes it out, else it is counted.
//
// The package knows nothing of closers or limits. A recording that cannot be
// trusted gets a reason, never a number.
package trace
