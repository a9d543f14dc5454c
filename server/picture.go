package server

import (
	"bytes"
	"image"
	_ "image/jpeg" // to read their sizes
	_ "image/png"
	"net/http"
	"slices"

	_ "golang.org/x/image/webp"
)

// mostPixels is how large a photo may be: what a few kilobytes can unfold to would fill the
// memory of whoever looks at it. The cameras of phones take some 50 million.
const mostPixels = 64 << 20

// sound refuses what is no attachment: programs, archives, photos that are damaged at their
// head or far too large.
func sound(content []byte) error {
	kind := kindOf(content)
	if kind == "" {
		return refuse(http.StatusUnsupportedMediaType, "an attachment is a photo (JPEG, PNG, WebP), a text, a signature or a PDF")
	}
	if !slices.Contains(shownTypes, kind) {
		return nil
	}
	head, format, err := image.DecodeConfig(bytes.NewReader(content))
	if err != nil || "image/"+format != kind || head.Width < 1 || head.Height < 1 {
		return refuse(http.StatusUnsupportedMediaType, "the photo is damaged: %v", err)
	}
	if head.Width > mostPixels/head.Height {
		return refuse(http.StatusRequestEntityTooLarge, "a photo of %d × %d pixels is too large; make it smaller", head.Width, head.Height)
	}
	return nil
}
