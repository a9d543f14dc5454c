package picture

// A format is what a picture is laid out for: how wide it is, and how its words run beside or
// below what is drawn. Letters are as high in every format.
type format struct {
	width    float64 // mm
	rim      float64 // kept free at the edges, mm
	plotLeft float64 // where plots begin, mm
}

var (
	// wideFormat is as wide as the text of a letter or A4 page.
	wideFormat = format{width: pageWidth, rim: margin, plotLeft: plotLeft}
	// narrowFormat fills the screen of a phone. Shown 322 CSS pixels wide, which a screen of 360
	// leaves the app, its letters are of the size of 14 pixels.
	narrowFormat = format{width: 92, rim: 4, plotLeft: 21}
)

// format is what pictures are laid out for.
func (to In) format() format {
	if to.Narrow {
		return narrowFormat
	}
	return wideFormat
}

// inner is how wide lines of text are, mm.
func (f format) inner() float64 { return f.width - 2*f.rim }

// plotRight is where plots end, mm.
func (f format) plotRight() float64 { return f.width - f.rim - 3 }

// narrow tells that there is no room beside a drawing.
func (f format) narrow() bool { return f == narrowFormat }

// ticks is how many ticks an axis of time has at most.
func (f format) ticks() int {
	if f.narrow() {
		return 5
	}
	return 9
}

// of90 are the ticks of an axis of the leaf's angle, degrees.
func (f format) of90() []float64 {
	if f.narrow() {
		return []float64{0, 30, 60, 90}
	}
	return []float64{0, 15, 30, 45, 60, 75, 90}
}

// lastMark is how far along an axis of time the last mark may stand, as a share of it, so that its words find room.
func (f format) lastMark() float64 {
	if f.narrow() {
		return 0.56
	}
	return 0.82
}
