// Package draw holds pictures as lists of lines, circles, arcs and texts and
// writes them in several formats. A [Scene] is drawn once; [WriteSVG], [WritePNG],
// [WritePDF] and [WriteDXF] show the same. [Axes] puts a plot into a scene, so that all charts
// look alike.
//
// All lengths are plain float64 in millimetres of paper, angles in radians,
// counter-clockwise. The origin is the lower left corner of the page, x to the
// right, y up, as in a drawing; the writers flip what their format wants flipped.
//
// Nothing in a picture is told by colour alone: it must read when printed
// black on white, and in sunlight on a small screen.
package draw
