package job

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"reflect"
	"slices"
	"strings"

	yaml "go.yaml.in/yaml/v4"

	"swingwright/opening"
)

// Limits of one file, so that a hostile or mistaken one cannot fill the memory.
// Ten thousand openings take about five million bytes and half a million marks.
const (
	mostBytes = 16 << 20
	mostMarks = 2_000_000 // line ends, colons and commas: each ends a value of some hundred bytes
)

// Decode reads the job in the named file of fsys, and the sheet files that it
// lists. It returns every problem that it finds, as Problems; a job is returned
// only when there is none. Openings that are the same as others have their
// fields filled in.
func Decode(fsys fs.FS, name string) (*Job, error) {
	r := &reader{fsys: fsys, dir: path.Dir(name), names: map[thing]Place{}}
	return r.decode(name)
}

// decode reads the job in the named file with all that it lists.
func (r *reader) decode(name string) (*Job, error) {
	j := new(Job)
	r.read(name, jobShape, reflect.ValueOf(j).Elem())
	if r.elsewhere != nil { // a part of a job may have no openings
		r.problems = slices.DeleteFunc(r.problems, func(p Problem) bool { return p.Field == "openings" && p.Found == "" })
	}
	r.readSheets(j)
	r.readKept(j)
	r.checkReferences()
	r.takeOver(j.Openings)
	if err := r.problems.err(); err != nil {
		return nil, err
	}
	return j, nil
}

// reader reads the files of one job and gathers their problems.
type reader struct {
	fsys       fs.FS
	dir        string // the job's folder
	problems   Problems
	names      map[thing]Place // what has been named, and where
	references []reference     // what must be named somewhere
	// elsewhere tells what is named in a part of the job that is not read; nil for a whole job.
	elsewhere func(sort, name string) bool
}

// readSheets appends the sheets of the job's sheet files to its own.
func (r *reader) readSheets(j *Job) {
	read := map[string]bool{}
	for _, name := range j.SheetFiles {
		file, wrong := r.inside(name)
		if wrong != "" || read[file] {
			continue // reported where it is listed
		}
		read[file] = true
		var s opening.Sheets
		r.read(file, sheetsShape, reflect.ValueOf(&s).Elem())
		j.Sheets.Closers = append(j.Sheets.Closers, s.Closers...)
		j.Sheets.Arms = append(j.Sheets.Arms, s.Arms...)
		j.Sheets.Latches = append(j.Sheets.Latches, s.Latches...)
		j.Sheets.Seals = append(j.Sheets.Seals, s.Seals...)
		j.Sheets.Operators = append(j.Sheets.Operators, s.Operators...)
		j.Sheets.Locks = append(j.Sheets.Locks, s.Locks...)
		j.Sheets.Strikes = append(j.Sheets.Strikes, s.Strikes...)
		j.Sheets.Actuators = append(j.Sheets.Actuators, s.Actuators...)
		j.Sheets.Supplies = append(j.Sheets.Supplies, s.Supplies...)
		j.Sheets.Fixtures = append(j.Sheets.Fixtures, s.Fixtures...)
	}
}

// inside returns the path in fsys of a file that the job names relative to its
// own folder, and what is wrong with it, if anything.
func (r *reader) inside(name string) (file, wrong string) {
	clean := path.Clean(name)
	if !fs.ValidPath(clean) || clean == "." || strings.Contains(name, `\`) {
		return "", "give its path from the job file, with / between folders and no .."
	}
	file = path.Join(r.dir, clean)
	if info, err := fs.Stat(r.fsys, file); err != nil {
		return "", "there is no such file"
	} else if !info.Mode().IsRegular() {
		return "", "this is not a file"
	}
	return file, ""
}

// read fills v, of shape s, from the named file.
func (r *reader) read(name string, s *shape, v reflect.Value) {
	root, text, p := r.root(name)
	if p != nil {
		r.problems.add(*p)
		return
	}
	w := &walker{reader: r, file: name, lines: linesOf(text)}
	w.value(root, s, nil, v)
}

// root returns the root of the YAML in the named file, and its text.
func (r *reader) root(name string) (*yaml.Node, []byte, *Problem) {
	return ReadYAML(r.fsys, name, mostBytes, "a job of ten thousand openings takes about 5 MB; split a larger one")
}

// ReadYAML returns the root of the one YAML document in the named file of fsys,
// and the file's text. A file of more than most bytes is refused with the hint
// split. The problem tells, where there is one, why there is no root.
func ReadYAML(fsys fs.FS, name string, most int, split string) (*yaml.Node, []byte, *Problem) {
	text, p := load(fsys, name, most, split)
	if p == nil {
		text, p = plainText(name, text)
	}
	if p != nil {
		return nil, nil, p
	}
	root, p := parse(name, text)
	return root, text, p
}

// load returns the bytes of a file.
func load(fsys fs.FS, name string, most int, split string) ([]byte, *Problem) {
	wrong := func(found, hint string) ([]byte, *Problem) {
		return nil, &Problem{Place: Place{File: name}, Found: found, Needed: "a readable file", Hint: hint}
	}
	f, err := fsys.Open(name)
	if errors.Is(err, fs.ErrNotExist) {
		return wrong("no such file", "check the name, and the folder that you are in")
	}
	if err != nil {
		return wrong("a file that cannot be opened", err.Error())
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, int64(most)+1))
	if err != nil {
		return wrong("a file that cannot be read", err.Error())
	}
	if len(text) > most {
		return wrong(fmt.Sprintf("more than %d MB", most>>20), split)
	}
	return text, nil
}
