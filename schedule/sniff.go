package schedule

import (
	"bytes"
	"encoding/csv"
	"io"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
	"golang.org/x/text/transform"
)

// An Encoding is how a text file writes its characters.
type Encoding string

// The encodings that are told apart.
const (
	UTF8        Encoding = "UTF-8"
	UTF16LE     Encoding = "UTF-16, little end first"
	UTF16BE     Encoding = "UTF-16, big end first"
	Windows1252 Encoding = "Windows-1252"
)

// encodingOf tells the encoding of a text by its first bytes: a byte order mark; zeros
// in every other byte, which only UTF-16 has; UTF-8 if it is valid, since hardly any
// other text is by chance; else Windows-1252, the usual one of office programs in the
// western world.
func encodingOf(head []byte) Encoding {
	switch {
	case bytes.HasPrefix(head, []byte("\xef\xbb\xbf")):
		return UTF8
	case bytes.HasPrefix(head, []byte("\xff\xfe")):
		return UTF16LE
	case bytes.HasPrefix(head, []byte("\xfe\xff")):
		return UTF16BE
	}
	var zeros [2]int
	for i, b := range head {
		if b == 0 {
			zeros[i%2]++
		}
	}
	half := len(head) / 2
	switch {
	case half > 0 && zeros[1] > half/2 && zeros[0] < half/8+1:
		return UTF16LE
	case half > 0 && zeros[0] > half/2 && zeros[1] < half/8+1:
		return UTF16BE
	case utf8.Valid(whole(head)):
		return UTF8
	}
	return Windows1252
}

// whole is a text without a last character that was cut.
func whole(head []byte) []byte {
	for cut := 0; cut < utf8.UTFMax && cut < len(head); cut++ {
		if c := head[len(head)-1-cut]; utf8.RuneStart(c) {
			if !utf8.FullRune(head[len(head)-1-cut:]) {
				return head[:len(head)-1-cut]
			}
			break
		}
	}
	return head
}

// decoded reads a text of an encoding as UTF-8, without its byte order mark.
func decoded(r io.Reader, e Encoding, strays *strays) io.Reader {
	switch e {
	case UTF16LE:
		return transform.NewReader(r, unicode.UTF16(unicode.LittleEndian, unicode.UseBOM).NewDecoder())
	case UTF16BE:
		return transform.NewReader(r, unicode.UTF16(unicode.BigEndian, unicode.UseBOM).NewDecoder())
	case Windows1252:
		return transform.NewReader(r, charmap.Windows1252.NewDecoder())
	}
	return transform.NewReader(r, transform.Chain(unicode.BOMOverride(transform.Nop), strays))
}

// strays takes bytes that are no UTF-8 for Windows-1252, and counts them: a file may
// look like UTF-8 for long before it shows that it is not.
type strays struct {
	transform.NopResetter
	count int
}

// Transform is that of transform.Transformer.
func (s *strays) Transform(dst, src []byte, atEOF bool) (nDst, nSrc int, err error) {
	for nSrc < len(src) {
		c, size := utf8.DecodeRune(src[nSrc:])
		if c == utf8.RuneError && size == 1 {
			if !atEOF && !utf8.FullRune(src[nSrc:]) {
				return nDst, nSrc, transform.ErrShortSrc
			}
			c = charmap.Windows1252.DecodeByte(src[nSrc])
			s.count++
		}
		if nDst+utf8.RuneLen(c) > len(dst) {
			return nDst, nSrc, transform.ErrShortDst
		}
		nDst += utf8.EncodeRune(dst[nDst:], c)
		nSrc += size
	}
	return nDst, nSrc, nil
}

// separators are those that are tried, the most usual first.
var separators = []rune{',', ';', '\t', '|'}

// separatorOf tells what separates the cells of a text by cutting its first lines
// with each in turn: the right one cuts most lines into equally many cells, and more
// than one. Decimal commas do not come equally often.
func separatorOf(text string) rune {
	best, most := separators[0], 0
	for _, sep := range separators {
		r := csv.NewReader(bytes.NewReader([]byte(text)))
		r.Comma, r.LazyQuotes, r.FieldsPerRecord, r.ReuseRecord = sep, true, -1, true
		alike := map[int]int{}
		for n := 0; n < 200; n++ {
			cells, err := r.Read()
			if err != nil {
				break
			}
			alike[len(cells)]++
		}
		score := 0
		for width, lines := range alike {
			if width > 1 {
				score = max(score, lines*lines*min(width, 30))
			}
		}
		if score > most {
			best, most = sep, score
		}
	}
	return best
}
