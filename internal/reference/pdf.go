package reference

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"image"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
)

// Pages are the pages of a PDF as poppler prints them, grey, at so many dots per inch.
func Pages(pdf []byte, dpi float64) ([]*image.Gray, error) {
	dir, err := os.MkdirTemp("", "pages")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	if _, err := poppler(pdf, "pdftoppm", "-gray", "-r", fmt.Sprint(dpi), "-", filepath.Join(dir, "page")); err != nil {
		return nil, err
	}
	names, err := filepath.Glob(filepath.Join(dir, "page*.pgm"))
	if err != nil {
		return nil, err
	}
	slices.Sort(names) // the numbers in the names are padded
	var pages []*image.Gray
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			return nil, err
		}
		page, err := greyMap(text)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		pages = append(pages, page)
	}
	return pages, nil
}

// greyMap reads an image as poppler writes one: a binary portable grey map of 8 bits.
func greyMap(text []byte) (*image.Gray, error) {
	var width, height, most int
	if n, err := fmt.Sscanf(string(text[:min(len(text), 40)]), "P5\n%d %d\n%d\n", &width, &height, &most); n != 3 || most != 255 {
		return nil, fmt.Errorf("no grey map of 8 bits: %v", err)
	}
	dots := text[len(text)-min(len(text), width*height):]
	if len(dots) != width*height {
		return nil, fmt.Errorf("%d dots of %d by %d", len(dots), width, height)
	}
	return &image.Gray{Pix: dots, Stride: width, Rect: image.Rect(0, 0, width, height)}, nil
}

// Words are what poppler finds to read in a PDF, laid out as on the page.
func Words(pdf []byte) (string, error) {
	out, err := poppler(pdf, "pdftotext", "-layout", "-", "-")
	return string(out), err
}

// A Font is one that a PDF uses.
type Font struct {
	Name string
	// Embedded tells that the file brings it along, Unicode that its text can be selected.
	Embedded, Unicode bool
}

// Fonts are those that poppler finds in a PDF.
func Fonts(pdf []byte) ([]Font, error) {
	out, err := poppler(pdf, "pdffonts", "-")
	if err != nil {
		return nil, err
	}
	var fonts []Font
	for i, line := range strings.Split(strings.TrimSpace(string(out)), "\n") {
		if i < 2 {
			continue // the heading
		}
		// name, type (words), encoding, emb, sub, uni, object ID (two words)
		words := strings.Fields(line)
		n := len(words)
		if n < 8 {
			return nil, fmt.Errorf("pdffonts says %q", line)
		}
		fonts = append(fonts, Font{Name: words[0], Embedded: words[n-5] == "yes", Unicode: words[n-3] == "yes"})
	}
	return fonts, nil
}

// Attachments are the names of the files that go along inside a PDF.
func Attachments(pdf []byte) (names []string, err error) {
	f, err := os.CreateTemp("", "*.pdf") // the program reads no pipe
	if err != nil {
		return nil, err
	}
	defer os.Remove(f.Name())
	_, err = f.Write(pdf)
	if err := errors.Join(err, f.Close()); err != nil {
		return nil, err
	}
	out, err := poppler(nil, "pdfdetach", "-list", f.Name())
	if err != nil {
		return nil, err
	}
	for line := range strings.Lines(string(out)) {
		if number, name, ok := strings.Cut(strings.TrimSpace(line), ": "); ok && strings.Trim(number, "0123456789") == "" {
			names = append(names, name)
		}
	}
	return names, nil
}

// Version is the version of PDF that poppler takes a file for, which an appended
// catalog may have raised.
func Version(pdf []byte) (string, error) {
	out, err := poppler(pdf, "pdfinfo", "-")
	if err != nil {
		return "", err
	}
	for line := range strings.Lines(string(out)) {
		if version, ok := strings.CutPrefix(line, "PDF version:"); ok {
			return strings.TrimSpace(version), nil
		}
	}
	return "", errors.New("pdfinfo tells no version")
}

// poppler runs one of its programs, and fails where that complains.
func poppler(pdf []byte, program string, args ...string) ([]byte, error) {
	path, err := exec.LookPath(program)
	if err != nil {
		return nil, fmt.Errorf("no %s found, which reads PDFs for the tests; install it (Debian: apt-get install poppler-utils)", program)
	}
	var out, told bytes.Buffer
	cmd := exec.Command(path, args...)
	cmd.Stdin, cmd.Stdout, cmd.Stderr = bytes.NewReader(pdf), &out, &told
	if err := cmd.Run(); err != nil || told.Len() > 0 {
		return nil, fmt.Errorf("%s: %w %s", program, err, told.String())
	}
	return out.Bytes(), nil
}

// A Word is a word on a page of a PDF, in points from the page's upper left.
type Word struct {
	Text                   string
	Left, Top, Right, Down float64
}

// A PDFPage is a page with its words, in points.
type PDFPage struct {
	Width, Height float64
	Words         []Word
}

// WordBoxes are the words of a PDF as poppler finds them, page by page, with their places.
func WordBoxes(pdf []byte) ([]PDFPage, error) {
	out, err := poppler(pdf, "pdftotext", "-bbox", "-", "-")
	if err != nil {
		return nil, err
	}
	var doc struct {
		Pages []struct {
			Width  float64 `xml:"width,attr"`
			Height float64 `xml:"height,attr"`
			Words  []struct {
				XMin float64 `xml:"xMin,attr"`
				YMin float64 `xml:"yMin,attr"`
				XMax float64 `xml:"xMax,attr"`
				YMax float64 `xml:"yMax,attr"`
				Text string  `xml:",chardata"`
			} `xml:"word"`
		} `xml:"body>doc>page"`
	}
	if err := xml.Unmarshal(out, &doc); err != nil {
		return nil, err
	}
	var pages []PDFPage
	for _, p := range doc.Pages {
		page := PDFPage{Width: p.Width, Height: p.Height}
		for _, w := range p.Words {
			page.Words = append(page.Words, Word{w.Text, w.XMin, w.YMin, w.XMax, w.YMax})
		}
		pages = append(pages, page)
	}
	return pages, nil
}

// A Mark is a bookmark of a PDF, and its page from 1.
type Mark struct {
	Text string
	Page int
}

// Bookmarks are those that poppler finds in a PDF, in their order, of every level.
func Bookmarks(pdf []byte) ([]Mark, error) {
	dir, err := os.MkdirTemp("", "outline") // the program makes files beside its input
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	name := filepath.Join(dir, "in.pdf")
	if err := os.WriteFile(name, pdf, 0o644); err != nil {
		return nil, err
	}
	out, err := poppler(nil, "pdftohtml", "-xml", "-i", "-q", "-stdout", name)
	if err != nil {
		return nil, err
	}
	var marks []Mark
	for in := xml.NewDecoder(bytes.NewReader(out)); ; {
		token, err := in.Token()
		if err != nil {
			return marks, nil // the end, or what follows the outline
		}
		start, ok := token.(xml.StartElement)
		if !ok || start.Name.Local != "item" {
			continue
		}
		var item struct {
			Page int    `xml:"page,attr"`
			Text string `xml:",chardata"`
		}
		if err := in.DecodeElement(&item, &start); err != nil {
			return nil, err
		}
		marks = append(marks, Mark{item.Text, item.Page})
	}
}
