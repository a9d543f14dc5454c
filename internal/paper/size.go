package paper

import "fmt"

// Size is a size of paper, upright.
type Size struct {
	Name string
	// Width and Height, mm.
	Width, Height float64
}

// The sizes of paper: ANSI/ASME Y14.1 size A, which is called letter, and ISO 216.
var (
	Letter = Size{"letter", 215.9, 279.4}
	A4     = Size{"a4", 210, 297}
)

// SizeOf finds a size by its name, letter or a4.
func SizeOf(name string) (Size, error) {
	for _, s := range []Size{Letter, A4} {
		if s.Name == name {
			return s, nil
		}
	}
	return Size{}, fmt.Errorf("paper: there is no size %q; there are letter and a4", name)
}

// Margins of a page, mm.
const (
	side   = 18. // left and right of the text
	edge   = 11. // above the running head and below the running foot
	footed = 19. // from the lower edge to the lowest text
)
