package trace

import (
	"bytes"
	"encoding/binary"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// plain is a file's bytes as UTF-8 without a byte order mark. UTF-16 is told by
// its mark.
func plain(data []byte) []byte {
	switch {
	case bytes.HasPrefix(data, []byte("\xef\xbb\xbf")):
		return data[3:]
	case bytes.HasPrefix(data, []byte("\xff\xfe")):
		return fromUTF16(data[2:], binary.LittleEndian)
	case bytes.HasPrefix(data, []byte("\xfe\xff")):
		return fromUTF16(data[2:], binary.BigEndian)
	}
	return data
}

func fromUTF16(data []byte, order binary.ByteOrder) []byte {
	units := make([]uint16, len(data)/2)
	for i := range units {
		units[i] = order.Uint16(data[2*i:])
	}
	return []byte(string(utf16.Decode(units)))
}

// linesOf cuts a text into lines, which end in LF, CRLF or, in a text without
// any LF, in CR.
func linesOf(text []byte) [][]byte {
	end := byte('\n')
	if bytes.IndexByte(text, '\n') < 0 {
		end = '\r'
	}
	lines := make([][]byte, 0, 1+bytes.Count(text, []byte{end}))
	for len(text) > 0 {
		line := text
		if i := bytes.IndexByte(text, end); i >= 0 {
			line, text = text[:i], text[i+1:]
		} else {
			text = nil
		}
		lines = append(lines, bytes.TrimSuffix(line, []byte("\r")))
	}
	return lines
}

// words is what a header's or a strange cell says; bytes that are no UTF-8 are
// taken for Latin-1, where µ and ° are wont to come from.
func words(cell []byte) string {
	if utf8.Valid(cell) {
		return strings.TrimSpace(string(cell))
	}
	runes := make([]rune, len(cell))
	for i, b := range cell {
		runes[i] = rune(b)
	}
	return strings.TrimSpace(string(runes))
}

// cells cuts a line at the separator, appending to out. A space as separator
// stands for any run of blanks. Quotation marks around a cell are taken off; a
// separator inside of them does not cut.
func cells(line []byte, sep byte, out [][]byte) [][]byte {
	if sep == ' ' {
		return append(out, bytes.Fields(line)...)
	}
	if bytes.IndexByte(line, '"') >= 0 {
		return quotedCells(line, sep, out)
	}
	for {
		i := bytes.IndexByte(line, sep)
		if i < 0 {
			return append(out, trimmed(line))
		}
		out = append(out, trimmed(line[:i]))
		line = line[i+1:]
	}
}

// trimmed is a cell without blanks around it, of which most have none.
func trimmed(cell []byte) []byte {
	if n := len(cell); n > 0 && cell[0] > ' ' && cell[n-1] > ' ' && cell[0] < 0x80 && cell[n-1] < 0x80 {
		return cell
	}
	return bytes.TrimSpace(cell)
}

func quotedCells(line []byte, sep byte, out [][]byte) [][]byte {
	start, quoted := 0, false
	cell := func(end int) []byte {
		c := bytes.TrimSpace(line[start:end])
		if len(c) >= 2 && c[0] == '"' && c[len(c)-1] == '"' {
			c = bytes.TrimSpace(c[1 : len(c)-1])
		}
		return c
	}
	for i, b := range line {
		switch {
		case b == '"':
			quoted = !quoted
		case b == sep && !quoted:
			out = append(out, cell(i))
			start = i + 1
		}
	}
	return append(out, cell(len(line)))
}

// column is where cell k of a line begins, counted from 1 in characters.
func column(line []byte, sep byte, k int) int {
	at, quoted := 0, false
	for i := 0; i < len(line) && k > 0; i++ {
		switch b := line[i]; {
		case b == '"':
			quoted = !quoted
		case b == sep && !quoted, sep == ' ' && b == '\t':
			if sep != ' ' || i > 0 && line[i-1] != ' ' && line[i-1] != '\t' {
				k, at = k-1, i+1
			}
		}
	}
	for at < len(line) && (line[at] == ' ' || line[at] == '\t' && sep != '\t') {
		at++
	}
	return 1 + utf8.RuneCount(line[:at])
}
