package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"swingwright/internal/workbook"
	"swingwright/job"
	"swingwright/opening"
	"swingwright/report"
	"swingwright/schedule"
)

func (pr *program) scheduleCommand() *cobra.Command {
	c := &cobra.Command{
		Use:   "schedule",
		Short: "Read an owner's door schedule into a job, and write one",
		Long: `Reads door schedules as owners keep them, CSV or XLSX under headings of their
own, and writes the openings of a job as a schedule.

  swingwright schedule look   what the columns go with, before anything is written
  swingwright schedule in     make a job of it, or add it to a job
  swingwright schedule out    write a job's openings as CSV or XLSX

Nothing is dropped in silence: a column that goes with no field of an opening
becomes a note under its heading, a cell that cannot be read is kept as it stands
and told, and a row that is no opening is kept with the job.`,
		Args: noArguments,
		RunE: func(c *cobra.Command, _ []string) error { return c.Help() },
	}
	c.AddCommand(pr.scheduleLookCommand(), pr.scheduleInCommand(), pr.scheduleOutCommand(), pr.scheduleFieldsCommand())
	return c
}

// scheduleFlags are the flags of the commands that read a schedule.
type scheduleFlags struct {
	file, mapFile, saveMap string
	into, job              string
	progress, workOut      bool
}

func (f *scheduleFlags) add(c *cobra.Command) {
	c.Flags().StringVar(&f.mapFile, "map", "", "take what the columns go with from this `file`")
	c.Flags().BoolVar(&f.workOut, "work-out", false, "take what simple formulas of an XLSX file come to where it holds no value of them; each is told of and kept as a note")
	c.Flags().StringVar(&f.saveMap, "save-map", "", "write what the columns go with to this new `file`, to be edited and given again")
}

func (pr *program) scheduleLookCommand() *cobra.Command {
	var f scheduleFlags
	c := &cobra.Command{
		Use:   "look FILE",
		Short: "Show what the columns of a schedule go with",
		Long: `Shows, for every sheet and column, which field of an opening it goes with, how
sure that is and why, with examples; and what would be told. Nothing is written
but the mapping, where --save-map names a file for it.`,
		Example: `  swingwright schedule look doors.xlsx
  swingwright schedule look doors.csv --save-map doors-map.yaml`,
		Args: arguments(1, 1, "one schedule"),
		RunE: func(c *cobra.Command, args []string) error {
			f.file = args[0]
			return pr.scheduleIn(c.Context(), &f, true)
		},
	}
	f.add(c)
	return c
}

func (pr *program) scheduleInCommand() *cobra.Command {
	var f scheduleFlags
	c := &cobra.Command{
		Use:   "in FILE",
		Short: "Make a job of a schedule, or add it to a job",
		Long: `Makes a new job of a schedule; a file that exists is never overwritten. With
--into it is added to a job that is there: openings that are new, and fields that
are not given yet. What stands in that file stays as it is, comments and all; where
the schedule says otherwise that is told, and kept as a note.

A schedule of more than ten thousand openings makes several jobs, job-2.yaml and so on.`,
		Example: `  swingwright schedule in doors.csv --job job.yaml
  swingwright schedule in doors.xlsx --map doors-map.yaml --into job.yaml`,
		Args: arguments(1, 1, "one schedule"),
		RunE: func(c *cobra.Command, args []string) error {
			f.file = args[0]
			return pr.scheduleIn(c.Context(), &f, false)
		},
	}
	f.add(c)
	c.Flags().StringVar(&f.job, "job", "", "the new job `file`; job.yaml when not given")
	c.Flags().StringVar(&f.into, "into", "", "add to this job `file`")
	c.Flags().BoolVar(&f.progress, "progress", false, "count on the error stream even when it is no terminal")
	return c
}

func (pr *program) scheduleFieldsCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "fields",
		Short: "List the fields that a mapping may name",
		Args:  noArguments,
		RunE: func(*cobra.Command, []string) error {
			style, err := new(styleFlags).style(nil, pr.out)
			if err != nil {
				return err
			}
			rows := [][]string{{"leaf.nominal.width", "Width of the nominal size, where width and height stand in two columns."}, {"leaf.nominal.height", "Height of the nominal size, likewise."}}
			for _, f := range job.OpeningFields() {
				doc := f.Doc
				if len(f.Choices) > 0 {
					doc += " One of " + strings.Join(f.Choices, ", ") + "."
				}
				rows = append(rows, []string{f.Path, doc})
			}
			return report.NewText(pr.out, style).Grid("", []string{"field", "what it holds"}, rows)
		},
	}
}

// scheduleIn reads a schedule: looks at it only, or makes a job, or adds to one.
func (pr *program) scheduleIn(ctx context.Context, f *scheduleFlags, look bool) error {
	if f.into != "" && f.job != "" {
		return problem{what: "both --job and --into are given", hint: "--job makes a new job, --into adds to one that is there"}
	}
	var given *schedule.Mapping
	if f.mapFile != "" {
		dir, name := filepath.Split(f.mapFile)
		m, err := schedule.ReadMap(os.DirFS(filepath.Clean(dir+".")), name)
		if err != nil {
			return under(dir, err)
		}
		given = m
	}
	file, err := os.Open(f.file)
	if err != nil {
		return problem{what: "there is no schedule " + f.file, hint: "name a CSV or XLSX file"}
	}
	defer file.Close()
	source, err := schedule.Open(file)
	if err != nil {
		return refused(f.file, err)
	}
	defer source.Close()
	name := filepath.Base(f.file)
	count := newCounter(pr.errOut, pr.out, 0, f.progress)
	opt := schedule.Options{WorkOut: f.workOut, Map: given, Look: look, Stop: ctx.Err, Progress: count.rows}
	var sink sink
	switch {
	case look:
		sink = nothing{}
	case f.into != "":
		sink, err = newMerging(f.into, name)
	default:
		sink, err = newFresh(cmp.Or(f.job, usualJob), name)
	}
	if err != nil {
		return err
	}
	result, err := source.Import(opt, sink.take)
	count.endRows()
	if err != nil {
		sink.undo()
		return refused(f.file, err)
	}
	openings := 0
	for _, c := range result.Counts {
		openings += c.Openings
	}
	if openings == 0 && !look {
		sink.undo()
		pr.tellSchedule(source, result, look, nil)
		return problem{what: f.file + ": no opening was found", hint: "see above what the columns go with; name the one with the openings' numbers in a mapping file: --save-map, then --map"}
	}
	if f.saveMap != "" {
		if err := saveNew(f.saveMap, func(w io.Writer) error { return schedule.WriteMap(w, &result.Mapping, name) }); err != nil {
			sink.undo()
			return err
		}
	}
	said, err := sink.end(result)
	if err != nil {
		sink.undo()
		return err
	}
	return pr.tellSchedule(source, result, look, said)
}

// refused words the reason why a file is not read.
func refused(file string, err error) error {
	if no, ok := errors.AsType[*schedule.Refused](err); ok {
		return problem{what: file + ": " + no.What, hint: no.Hint}
	}
	if errors.Is(err, context.Canceled) || errors.As(err, new(problem)) || errors.As(err, new(job.Problems)) {
		return err
	}
	return problem{what: file + ": " + err.Error(), hint: "save the schedule again, as XLSX or CSV"}
}

// rows counts rows of which nobody knows how many there will be.
func (c *counter) rows(n int) {
	c.done = n
	if now := time.Now(); now.After(c.next) {
		if c.w != nil {
			fmt.Fprintf(c.w, "%s%d rows%s", c.lead, n, c.tail)
		}
		c.next = now.Add(c.every)
	}
}

// endRows clears the count from a terminal.
func (c *counter) endRows() {
	if c.w != nil && c.lead != "" && c.done > 0 {
		fmt.Fprint(c.w, "\r\x1b[K")
	}
}

// A sink takes the openings of a schedule.
type sink interface {
	take(*schedule.Entry) error
	end(*schedule.Result) (said []string, err error)
	undo()
}

// nothing takes openings and leaves it at that.
type nothing struct{}

func (nothing) take(*schedule.Entry) error             { return nil }
func (nothing) end(*schedule.Result) ([]string, error) { return nil, nil }
func (nothing) undo()                                  {}

// fresh writes new jobs, each as it is filled.
type fresh struct {
	name, from string
	part       int
	file       *os.File
	w          *schedule.Writer
	made       []string
}

func newFresh(name, from string) (*fresh, error) {
	f := &fresh{name: name, from: from}
	return f, f.open()
}

// open begins the job file of the part in hand.
func (f *fresh) open() (err error) {
	name, title := f.name, strings.TrimSuffix(f.from, filepath.Ext(f.from))
	if f.part > 0 {
		ext := filepath.Ext(name)
		name = fmt.Sprintf("%s-%d%s", strings.TrimSuffix(name, ext), f.part+1, ext)
		title = fmt.Sprintf("%s, part %d", title, f.part+1)
	}
	f.file, err = createNew(name)
	if err != nil {
		return err
	}
	f.made = append(f.made, name)
	f.w = schedule.NewWriter(f.file, title, f.from)
	return nil
}

func (f *fresh) take(e *schedule.Entry) error {
	if e.Part != f.part {
		if err := errors.Join(f.w.End(new(schedule.Result), f.from), f.file.Close()); err != nil {
			return err
		}
		f.part = e.Part
		if err := f.open(); err != nil {
			return err
		}
	}
	return f.w.Write(e)
}

func (f *fresh) end(r *schedule.Result) ([]string, error) {
	if err := errors.Join(f.w.End(r, f.from), f.file.Close()); err != nil {
		return nil, err
	}
	for _, name := range f.made {
		dir, base := filepath.Split(name)
		if _, err := job.Decode(os.DirFS(filepath.Clean(dir+".")), base); err != nil {
			return nil, under(dir, err)
		}
	}
	return []string{"wrote " + listed(f.made) + ", which reads as a job"}, nil
}

// undo takes away what was begun; nobody had a file there before.
func (f *fresh) undo() {
	f.file.Close()
	for _, name := range f.made {
		os.Remove(name)
	}
}

// merging adds to a job.
type merging struct {
	*schedule.Merge
	dir, name, from string
	text            string
	was             *job.Job
}

func newMerging(into, from string) (*merging, error) {
	if info, err := os.Stat(into); err == nil && info.IsDir() {
		into = filepath.Join(into, usualJob)
	}
	text, err := os.ReadFile(into)
	if err != nil {
		return nil, problem{what: "there is no job file " + into, hint: "--job makes a new one"}
	}
	dir, name := filepath.Split(into)
	was, err := job.Decode(os.DirFS(filepath.Clean(dir+".")), name)
	if err != nil {
		return nil, under(dir, err)
	}
	return &merging{schedule.NewMerge(was), dir, name, from, string(text), was}, nil
}

func (m *merging) take(e *schedule.Entry) error { return m.Add(e) }
func (*merging) undo()                          {}

// end writes the job, once it is sure that the new text says all that the old one said.
func (m *merging) end(r *schedule.Result) ([]string, error) {
	path := filepath.Join(m.dir, m.name)
	text, err := m.Text(m.text, r, m.from)
	if err != nil {
		return nil, problem{what: path + " was left as it is: " + err.Error(), hint: "make a job of its own with --job, and copy from it"}
	}
	err = writeWhole(path, func(w io.Writer) error {
		if _, err := io.WriteString(w, text); err != nil {
			return err
		}
		beside := w.(*os.File).Name()
		is, err := job.Decode(os.DirFS(filepath.Clean(m.dir+".")), filepath.Base(beside))
		if err != nil {
			return problem{what: path + " was left as it is: with the schedule added it is no job: " + err.Error(), hint: "make a job of its own with --job, and see what is in it"}
		}
		if err := job.Keeps(m.was, is); err != nil {
			return problem{what: path + " was left as it is: " + err.Error(), hint: "make a job of its own with --job, and copy from it"}
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	r.Telling += len(m.Told)
	r.Told = append(r.Told, m.Told...)
	return []string{fmt.Sprintf("added to %s: %d openings; in those that were there %d fields and notes, %d agreed, %d the job has otherwise", path, m.Fresh, m.Filled, m.Agreed, len(m.Told))}, nil
}

// createNew makes a file that is not there yet.
func createNew(name string) (*os.File, error) {
	f, err := os.OpenFile(name, os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o666)
	switch {
	case errors.Is(err, fs.ErrExist):
		return nil, problem{what: name + " exists already and was left as it is", hint: "name another file"}
	case err != nil:
		return nil, problem{what: err.Error(), hint: "make the folder first, or name a file elsewhere"}
	}
	return f, nil
}

func saveNew(name string, write func(io.Writer) error) error {
	f, err := createNew(name)
	if err != nil {
		return err
	}
	return errors.Join(write(f), f.Close())
}

// folderOf is the folder of a file.
func folderOf(name string) string { return filepath.Dir(name) }

// tellSchedule tells what was understood of a schedule, what was not, and what became
// of every row.
func (pr *program) tellSchedule(s *schedule.Source, r *schedule.Result, look bool, said []string) error {
	style, err := new(styleFlags).style(nil, pr.out)
	if err != nil {
		return err
	}
	t := report.NewText(pr.out, style)
	what := s.Kind
	if s.Kind == "CSV" {
		what += fmt.Sprintf(", %s, cells apart by %s", s.Encoding, separatorName(s.Separator))
	}
	if err := t.Say(what); err != nil {
		return err
	}
	for i := range r.Mapping.Sheets {
		if err := tellSheet(t, &r.Mapping.Sheets[i], r.Counts[i], look); err != nil {
			return err
		}
	}
	rows := [][]string{}
	for _, one := range r.Told {
		rows = append(rows, []string{cmp.Or(one.Place.String(), "-"), one.What, one.Hint})
	}
	if len(rows) > 0 {
		if err := t.Grid("To look at", []string{"where", "what", "what to do"}, rows); err != nil {
			return err
		}
	}
	if more := r.Telling - len(r.Told); more > 0 {
		said = append([]string{fmt.Sprintf("%d more of these are not shown", more)}, said...)
	}
	if !look {
		said = append([]string{fmt.Sprintf("cells of openings: %d in fields, %d as notes, %d not understood and kept as notes", r.Cells.Fields, r.Cells.Notes, r.Cells.Unread)}, said...)
	}
	for _, line := range said {
		if err := t.Say(line); err != nil {
			return err
		}
	}
	return nil
}

func separatorName(c rune) string {
	switch c {
	case '\t':
		return "tabs"
	case ';':
		return "semicolons"
	case ',':
		return "commas"
	}
	return strconv.QuoteRune(c)
}

// tellSheet tells what the columns of one sheet go with, and what became of its rows.
func tellSheet(t *report.Text, m *schedule.SheetMap, c schedule.Count, look bool) error {
	title := "Columns"
	if m.Sheet != "" {
		title = "Sheet " + m.Sheet
	}
	rows := [][]string{}
	for i := range m.Columns {
		k := &m.Columns[i]
		goes, sure := "note", ""
		if k.Field != "" {
			goes, sure = k.Field, fmt.Sprintf("%.0f %%", 100*k.Confidence)
			if k.Unit != "" {
				goes += " (" + k.Unit + ")"
			}
		}
		rows = append(rows, []string{k.Heading, goes, sure, strings.Join(k.Examples, " | "), k.Reason})
	}
	if err := t.Grid(title, []string{"heading", "goes with", "sure", "examples", "why"}, rows); err != nil {
		return err
	}
	seen := "rows"
	if look {
		seen = "rows looked at"
	}
	return t.Say(fmt.Sprintf("%d %s = %d openings + %d of headings + %d blank + %d kept with the job", c.Rows, seen, c.Openings, c.Headings, c.Blank, c.Kept))
}

// scheduleOutFlags are the flags of schedule out.
type scheduleOutFlags struct{ job, csv, xlsx, mapFile string }

func (pr *program) scheduleOutCommand() *cobra.Command {
	var f scheduleOutFlags
	c := &cobra.Command{
		Use:   "out [JOB]",
		Short: "Write the openings of a job as a schedule",
		Long: `Writes the openings of a job as CSV or XLSX: every field of a single value that
any of them gives, and every note, under the headings of a mapping if one is given.
Cells that came from a schedule stand as they stood there, as long as they still
mean what the job says. In CSV, a text that a spread-sheet would take for a formula
gets an apostrophe before it, which schedule in takes away again.`,
		Example: `  swingwright schedule out job.yaml --csv doors.csv
  swingwright schedule out job.yaml --xlsx doors.xlsx --map doors-map.yaml`,
		Args:              arguments(0, 1, "one job"),
		ValidArgsFunction: jobFiles,
		RunE: func(_ *cobra.Command, args []string) error {
			f.job = first(args)
			return pr.scheduleOut(&f)
		},
	}
	c.Flags().StringVar(&f.csv, "csv", "", "write CSV to this `file`; - is the screen")
	c.Flags().StringVar(&f.xlsx, "xlsx", "", "write XLSX to this `file`")
	c.Flags().StringVar(&f.mapFile, "map", "", "take headings and their order from this `file`")
	return c
}

func (pr *program) scheduleOut(f *scheduleOutFlags) error {
	if f.csv == "" && f.xlsx == "" {
		return problem{what: "neither --csv nor --xlsx is given", hint: "add --csv FILE or --xlsx FILE"}
	}
	w, err := load(f.job)
	if err != nil {
		return err
	}
	var m *schedule.Mapping
	if f.mapFile != "" {
		dir, name := filepath.Split(f.mapFile)
		if m, err = schedule.ReadMap(os.DirFS(filepath.Clean(dir+".")), name); err != nil {
			return under(dir, err)
		}
	}
	openings := slices.DeleteFunc(slices.Clone(w.Openings), func(o opening.Opening) bool { return o.InPlaceOf != "" })
	s := schedule.Of(openings, m)
	if f.csv == "-" {
		return s.WriteCSV(pr.out, openings)
	}
	var wrote []string
	for name, write := range map[string]func(io.Writer) error{
		f.csv:  func(to io.Writer) error { return s.WriteCSV(to, openings) },
		f.xlsx: func(to io.Writer) error { return workbook.Write(to, []workbook.Sheet{s.Sheet(openings)}) },
	} {
		if name == "" {
			continue
		}
		if err := writeWhole(name, write); err != nil {
			return err
		}
		wrote = append(wrote, name)
	}
	slices.Sort(wrote)
	fmt.Fprintf(pr.out, "wrote %s: %d openings, %d columns\n", listed(wrote), len(openings), len(s.Headings))
	if left := job.ListsGiven(openings); len(left) > 0 {
		fmt.Fprintf(pr.out, "not in a schedule, and in the job only: %s\n", listed(left))
	}
	return nil
}
