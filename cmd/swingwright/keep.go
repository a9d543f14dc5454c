package main

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"os"
	"strings"

	"swingwright/quantity"
	"swingwright/report"
)

// fingerprint tells recordings apart by what they hold, whatever their names.
func fingerprint(data []byte) string { return fmt.Sprintf("%.6x", sha256.Sum256(data)) }

// keep adds what a recording showed to a file of readings: at its end, so that
// nothing in it is disturbed, and makes the file where there is none. A recording that
// is in it for the same opening is not added again. It tells what was done.
func keep(name string, r *report.Recording, data []byte) (*report.KeptIn, error) {
	var text strings.Builder
	before, err := os.ReadFile(name)
	out := &report.KeptIn{File: name, Of: r.Plan.Opening.ID}
	of := fmt.Sprintf("  - of: %q\n    recording: %q\n", out.Of, r.File+" "+fingerprint(data))
	switch {
	case err != nil && !os.IsNotExist(err):
		return nil, problem{what: "--keep: " + plain(err), hint: "name a file that can be read and written"}
	case keptBefore(before, out.Of, fingerprint(data)):
		out.Before = true
		return out, nil
	case len(bytes.TrimSpace(before)) == 0:
		text.WriteString("# Readings kept beside a job; list this file there under reading_files.\nkept:\n")
	case before[len(before)-1] != '\n':
		text.WriteByte('\n') // else its last line would run on
	}
	text.WriteString(of + "    readings:\n")
	for i := range r.Recorded {
		m := &r.Recorded[i]
		if !m.Known() {
			continue
		}
		out.N++
		d := m.ID.Fact().Dim
		fmt.Fprintf(&text, "      - {fact: %s, value: %q, instrument: %q}\n", m.ID, quantity.Display(d, m.Value, m.U, true, quantity.SI), "recording "+r.File)
	}
	if out.N == 0 {
		return nil, problem{what: "nothing was measured that could be kept", hint: "see what is wrong with the recording"}
	}
	file, err := os.OpenFile(name, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o666)
	if err != nil {
		return nil, problem{what: "--keep: " + plain(err), hint: "name a file that can be written"}
	}
	if _, err = file.WriteString(text.String()); err != nil {
		file.Close()
		return nil, problem{what: "--keep: " + plain(err), hint: "look at the end of " + name + ": it may be cut short"}
	}
	return out, file.Close()
}

// keptBefore tells that a file of readings holds a recording for an opening: the
// fingerprint stands in the entry of that opening.
func keptBefore(text []byte, of, print string) bool {
	for entry := range bytes.SplitSeq(text, []byte("- of:")) {
		head, rest, _ := bytes.Cut(entry, []byte("\n"))
		id := strings.Trim(strings.TrimSpace(string(head)), `"'`)
		if id == of && bytes.Contains(rest, []byte(" "+print+`"`)) {
			return true
		}
	}
	return false
}
