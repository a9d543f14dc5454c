package draw

import (
	"regexp"
	"slices"
)

// A Layer is a run of a scene's items that drawing programs can show and hide.
type Layer struct {
	// Name in letters, digits, hyphens and underscores of ASCII, up to 31 (what R12 allows).
	Name string
	// First is the number of its first item; it goes on until the next layer begins.
	First int
}

var layerName = regexp.MustCompile(`^[A-Za-z0-9_-]{1,31}$`)

// Begin puts the items added from now on into a layer. Items before the first
// layer lie on layer 0. The same name may be begun more than once.
func (s *Scene) Begin(layer string) {
	s.Layers = append(s.Layers, Layer{layer, len(s.Items)})
}

// layerOf is the name of the layer that an item lies on.
func (s *Scene) layerOf(item int) string {
	for _, l := range slices.Backward(s.Layers) {
		if l.First <= item {
			return l.Name
		}
	}
	return "0"
}
