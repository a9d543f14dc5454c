package packet

import (
	"math"
	"testing"

	"swingwright/internal/draw"
	"swingwright/internal/paper"
)

// Floor marks are at full size in every packet, also those of a leaf so wide that they
// take more than a page: their bar is 100 mm long, their strips are 170 mm.
func TestMarksAreAtFullSize(t *testing.T) {
	for _, size := range []paper.Size{paper.Letter, paper.A4} {
		for _, id := range []string{"105", "114"} {
			opt := usual
			opt.Size, opt.Only = size, []string{"marks"}
			bars, strips := 0, 0
			for i, p := range Make(made(t, id), opt).Pages() {
				if p.Title != "Floor marks" {
					continue
				}
				for _, item := range p.Items {
					path, ok := item.(draw.Path)
					if !ok || len(path.Points) < 4 {
						continue
					}
					wide := math.Abs(path.Points[1].X - path.Points[0].X)
					switch {
					case path.Fill == draw.Ink && math.Abs(wide-100) < 1e-9:
						bars++
					case math.Abs(wide-170) < 1e-9:
						strips++
					case path.Fill != draw.White:
						t.Errorf("%s, %s, page %d: a rectangle %v mm long, wants 100 or 170", id, size.Name, i+1, wide)
					}
				}
			}
			if bars == 0 || strips < 7 {
				t.Errorf("%s, %s: %d bars and %d strips", id, size.Name, bars, strips)
			}
		}
	}
}
