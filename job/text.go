package job

import (
	"bytes"
	"fmt"
	"unicode/utf8"
)

// plainText returns the text of a file without its byte order mark, or the
// reason why it is not plain UTF-8 text.
func plainText(file string, b []byte) ([]byte, *Problem) {
	wrong := func(p Place, found, hint string) ([]byte, *Problem) {
		p.File = file
		return nil, &Problem{Place: p, Found: found, Needed: "a text file in UTF-8", Hint: hint}
	}
	if looksUTF16(b) {
		return wrong(Place{}, "text that looks like UTF-16", "save it again with the encoding UTF-8")
	}
	b = bytes.TrimPrefix(b, []byte("\xef\xbb\xbf"))
	if len(bytes.TrimSpace(b)) == 0 {
		return wrong(Place{}, "an empty file", "")
	}
	if marks := bytes.Count(b, []byte("\n")) + bytes.Count(b, []byte(":")) + bytes.Count(b, []byte(",")); marks > mostMarks {
		return nil, &Problem{Place: Place{File: file}, Found: fmt.Sprintf("%d lines and values", marks),
			Needed: fmt.Sprintf("at most %d", mostMarks), Hint: "a job of ten thousand openings has about half a million; split a larger one"}
	}
	place := Place{Line: 1, Column: 1}
	for i := 0; i < len(b); {
		c, size := utf8.DecodeRune(b[i:])
		switch {
		case c == utf8.RuneError && size == 1:
			return wrong(place, fmt.Sprintf("the byte %02X", b[i]),
				"it looks like Latin-1 or Windows-1252; save the file again with the encoding UTF-8")
		case isControl(c):
			return wrong(place, fmt.Sprintf("the control character %U", c), "delete it; the file may be damaged, or no text at all")
		case c == '\n':
			place.Line, place.Column = place.Line+1, 1
		default:
			place.Column++
		}
		i += size
	}
	return b, nil
}

// isControl tells the characters that YAML 1.2.2, production 1, keeps out of a text.
func isControl(c rune) bool {
	return c < ' ' && c != '\t' && c != '\n' && c != '\r' || c >= 0x7f && c < 0xa0 && c != 0x85 || c == 0xfffe || c == 0xffff
}

// looksUTF16 tells UTF-16 by its byte order mark or by a zero in one of the
// first two bytes, which no text in UTF-8 begins with.
func looksUTF16(b []byte) bool {
	if bytes.HasPrefix(b, []byte("\xff\xfe")) || bytes.HasPrefix(b, []byte("\xfe\xff")) {
		return true
	}
	return len(b) >= 2 && (b[0] == 0) != (b[1] == 0)
}

// lines gives back the text of a line, to see what YAML takes for a comment.
type lines struct {
	text   []byte
	starts []int // of the lines, in bytes
}

func linesOf(text []byte) lines {
	l := lines{text: text, starts: []int{0}}
	for i, c := range text {
		if c == '\n' {
			l.starts = append(l.starts, i+1)
		}
	}
	return l
}

// after returns what stands in a line after so many of its characters.
func (l lines) after(line, characters int) string {
	if line < 1 || line > len(l.starts) {
		return ""
	}
	rest := l.text[l.starts[line-1]:]
	if end := bytes.IndexByte(rest, '\n'); end >= 0 {
		rest = rest[:end]
	}
	for ; characters > 0 && len(rest) > 0; characters-- {
		_, size := utf8.DecodeRune(rest)
		rest = rest[size:]
	}
	return string(rest)
}
