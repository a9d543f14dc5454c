package main

import (
	"bytes"
	"fmt"
	"os"
	"strings"

	"swingwright/quantity"
	"swingwright/report"
)

// keep adds what a recording showed to a file of readings: at its end, so that
// nothing in it is disturbed, and makes the file where there is none.
func keep(name string, r *report.Recording) error {
	var text strings.Builder
	before, err := os.ReadFile(name)
	switch {
	case err != nil && !os.IsNotExist(err):
		return problem{what: "--keep: " + err.Error(), hint: "name a file that can be read and written"}
	case len(bytes.TrimSpace(before)) == 0:
		text.WriteString("# Readings kept beside a job; list this file there under reading_files.\nkept:\n")
	case before[len(before)-1] != '\n':
		text.WriteByte('\n') // else its last line would run on
	}
	fmt.Fprintf(&text, "  - of: %q\n    readings:\n", r.Plan.Opening.ID)
	n := 0
	for i := range r.Recorded {
		m := &r.Recorded[i]
		if !m.Known() {
			continue
		}
		n++
		d := m.ID.Fact().Dim
		fmt.Fprintf(&text, "      - {fact: %s, value: %q, instrument: %q}\n", m.ID, quantity.Display(d, m.Value, m.U, true, quantity.SI), "recording "+r.File)
	}
	if n == 0 {
		return problem{what: "nothing was measured that could be kept", hint: "see what is wrong with the recording"}
	}
	file, err := os.OpenFile(name, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o666)
	if err != nil {
		return problem{what: "--keep: " + err.Error(), hint: "name a file that can be written"}
	}
	if _, err = file.WriteString(text.String()); err != nil {
		file.Close()
		return problem{what: "--keep: " + err.Error(), hint: "look at the end of " + name + ": it may be cut short"}
	}
	return file.Close()
}
