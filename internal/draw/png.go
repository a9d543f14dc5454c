package draw

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"hash/crc32"
	"image"
	"image/color"
	stddraw "image/draw"
	"image/png"
	"io"
	"math"

	"golang.org/x/image/vector"
)

// Bounds of what WritePNG makes: a page of A4 at 600 dpi has 35 million pixels.
const (
	leastDPI, mostDPI = 20, 1200
	mostPixels        = 40_000_000
)

// WritePNG writes the scene as a PNG image on white, anti-aliased, at the given
// number of dots per inch (20 to 1200, and 40 million dots in all), which the
// file states so that it prints at its true size.
func WritePNG(w io.Writer, s *Scene, dpi float64) error {
	scale := dpi / 25.4
	width, height := math.Ceil(s.Width*scale-1e-6), math.Ceil(s.Height*scale-1e-6)
	err := s.Check()
	if !(dpi >= leastDPI && dpi <= mostDPI) {
		err = errors.Join(err, fmt.Errorf("draw: %v dots per inch; give %v to %v", dpi, leastDPI, mostDPI))
	} else if width*height > mostPixels {
		err = errors.Join(err, fmt.Errorf("draw: %v by %v dots; lower the %v dots per inch or the page until there are %v dots or fewer", width, height, dpi, mostPixels))
	}
	if err != nil {
		return err
	}
	c := canvas{
		image: image.NewRGBA(image.Rect(0, 0, int(width), int(height))),
		scale: scale, height: s.Height,
	}
	stddraw.Draw(c.image, c.image.Bounds(), image.White, image.Point{}, stddraw.Src)
	for _, item := range s.Items {
		switch it := item.(type) {
		case Path:
			c.path(it)
		case Circle:
			c.path(it.outline())
		case Arc:
			c.path(it.outline())
		case Text:
			c.text(it)
		}
	}
	return c.write(w, dpi)
}

// canvas fills areas of an image.
type canvas struct {
	image  *image.RGBA
	scale  float64 // dots per mm
	height float64 // of the page, mm
	raster vector.Rasterizer
}

func (c *canvas) path(p Path) {
	if p.Fill.A > 0 {
		c.fill([][]Point{p.Points}, p.Fill)
	}
	c.fill(p.stroke(), p.Style.stroke())
}

func (c *canvas) text(t Text) {
	letters := t.contours()
	if t.Halo > 0 {
		var edges [][]Point
		for _, contour := range letters {
			edges = append(edges, Path{Points: contour, Closed: true, Style: Style{Width: 2 * t.Halo}}.stroke()...)
		}
		c.fill(edges, White)
	}
	c.fill(letters, t.colour())
}

// fill paints what the contours wind round. The raster covers only the part of
// the image that they touch.
func (c *canvas) fill(contours [][]Point, colour color.NRGBA) {
	low, high := Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}
	for _, contour := range contours {
		for _, p := range contour {
			low = Point{min(low.X, p.X), min(low.Y, p.Y)}
			high = Point{max(high.X, p.X), max(high.Y, p.Y)}
		}
	}
	if low.X > high.X {
		return
	}
	box := image.Rect(
		int(math.Floor(low.X*c.scale)), int(math.Floor((c.height-high.Y)*c.scale)),
		int(math.Ceil(high.X*c.scale))+1, int(math.Ceil((c.height-low.Y)*c.scale))+1,
	).Intersect(c.image.Bounds())
	if box.Empty() {
		return
	}
	c.raster.Reset(box.Dx(), box.Dy())
	for _, contour := range contours {
		for i, p := range contour {
			x := float32(p.X*c.scale - float64(box.Min.X))
			y := float32((c.height-p.Y)*c.scale - float64(box.Min.Y))
			if i == 0 {
				c.raster.MoveTo(x, y)
			} else {
				c.raster.LineTo(x, y)
			}
		}
		c.raster.ClosePath()
	}
	c.raster.Draw(c.image, box, image.NewUniform(colour), image.Point{})
}

// write encodes the image and puts in a pHYs chunk, which gives the size of a
// dot (PNG specification, 3rd edition, 11.3.4.3), right after the header.
func (c *canvas) write(w io.Writer, dpi float64) error {
	var b bytes.Buffer
	if err := png.Encode(&b, c.image); err != nil {
		return fmt.Errorf("draw: encode PNG: %w", err)
	}
	const header = 8 + 4 + 4 + 13 + 4 // signature; length, type, data, checksum of IHDR
	perMetre := uint32(math.Round(dpi / 0.0254))
	chunk := binary.BigEndian.AppendUint32(nil, 9)
	chunk = append(chunk, "pHYs"...)
	chunk = binary.BigEndian.AppendUint32(chunk, perMetre)
	chunk = binary.BigEndian.AppendUint32(chunk, perMetre)
	chunk = append(chunk, 1) // the unit is the metre
	chunk = binary.BigEndian.AppendUint32(chunk, crc32.ChecksumIEEE(chunk[4:]))
	for _, part := range [][]byte{b.Bytes()[:header], chunk, b.Bytes()[header:]} {
		if _, err := w.Write(part); err != nil {
			return fmt.Errorf("draw: write PNG: %w", err)
		}
	}
	return nil
}
