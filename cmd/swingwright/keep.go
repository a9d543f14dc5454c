package main

import (
	"cmp"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"swingwright/job"
	"swingwright/job/amend"
	"swingwright/opening"
	"swingwright/quantity"
	"swingwright/report"
)

// fingerprint tells recordings apart by what they hold, whatever their names.
func fingerprint(data []byte) string { return fmt.Sprintf("%.6x", sha256.Sum256(data)) }

// keep adds what a recording showed to a file of readings, in which nothing else is
// disturbed, and makes the file where there is none. A recording that is in it for the
// same opening is not added again. It tells what was done.
func keep(name string, r *report.Recording, data []byte) (*report.KeptIn, error) {
	out := &report.KeptIn{File: name, Of: r.Plan.Opening.ID}
	before, err := os.ReadFile(name)
	if err != nil && !os.IsNotExist(err) {
		return nil, problem{what: "--keep: " + plain(err), hint: "name a file that can be read and written"}
	}
	text := string(before)
	if strings.TrimSpace(text) == "" {
		text += "# Readings kept beside a job; list this file there under reading_files.\nkept:\n"
	} else if out.Before, err = keptBefore(name, out.Of, fingerprint(data)); err != nil || out.Before {
		return out, err
	}
	entry, n, err := kept(r, data)
	if err != nil {
		return nil, err
	}
	if out.N = n; n == 0 {
		return nil, problem{what: "nothing was measured that could be kept", hint: "see what is wrong with the recording"}
	}
	splice, err := amend.Add(text, "kept", entry)
	if err == nil {
		text, err = splice.Apply(text)
	}
	if err != nil {
		return nil, problem{what: "--keep: " + name + ": " + err.Error(), hint: "name another file, and copy what is in this one"}
	}
	return out, rewrite(name, string(before), text)
}

// kept is the entry of a recording in a file of readings, and how many it holds.
func kept(r *report.Recording, data []byte) (entry string, n int, err error) {
	fields := []amend.Change{
		{Path: "of", Value: amend.Text(r.Plan.Opening.ID)},
		{Path: "recording", Value: amend.Text(r.File + " " + fingerprint(data))},
	}
	for i := range r.Recorded {
		m := &r.Recorded[i]
		if !m.Known() {
			continue
		}
		n++
		reading, err := amend.Record([]amend.Change{
			{Path: "fact", Value: amend.Text(m.ID.String())},
			{Path: "value", Value: amend.Text(quantity.Display(m.ID.Fact().Dim, m.Value, m.U, true, quantity.SI))},
			{Path: "instrument", Value: amend.Text("recording " + r.File)},
		})
		if err != nil {
			return "", 0, err
		}
		fields = append(fields, amend.Change{Path: "readings", Value: reading, Add: true})
	}
	entry, err = amend.Record(fields)
	return entry, n, err
}

// keptBefore tells that a file of readings holds a recording for an opening.
func keptBefore(name, of, print string) (bool, error) {
	dir, base := filepath.Split(name)
	all, err := job.ReadKept(os.DirFS(cmp.Or(dir, ".")), base)
	return slices.ContainsFunc(all, func(k opening.Kept) bool {
		return k.Of == of && strings.HasSuffix(k.Recording, " "+print)
	}), under(dir, err)
}

// rewrite writes a text that a file shall hold: what is added to its end is only added,
// so that two who keep at the same time both do.
func rewrite(name, before, after string) error {
	rest, adds := strings.CutPrefix(after, before)
	if !adds {
		return writeWhole(name, func(w io.Writer) error {
			_, err := io.WriteString(w, after)
			return err
		})
	}
	file, err := os.OpenFile(name, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o666)
	if err != nil {
		return problem{what: "--keep: " + plain(err), hint: "name a file that can be written"}
	}
	if _, err := file.WriteString(rest); err != nil {
		return errors.Join(problem{what: "--keep: " + plain(err), hint: "look at the end of " + name + ": it may be cut short"}, file.Close())
	}
	return file.Close()
}
