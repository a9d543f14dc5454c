package job

import (
	"io/fs"
	"path"
	"reflect"

	"swingwright/opening"
)

// keptFile is a file of readings that were kept beside the job.
type keptFile struct {
	Kept []opening.Kept `key:"kept" doc:"Readings, opening by opening, the latest last."`
}

var keptShape = shapeOf(reflect.TypeFor[keptFile]())

// ReadKept reads a file of readings as it is kept beside a job. Its error is Problems.
func ReadKept(fsys fs.FS, name string) ([]opening.Kept, error) {
	r := &reader{fsys: fsys, dir: path.Dir(name), names: map[thing]Place{}}
	var kept keptFile
	r.read(name, keptShape, reflect.ValueOf(&kept).Elem())
	return kept.Kept, r.problems.err()
}

// readKept appends the readings of the job's reading files to those of the openings.
func (r *reader) readKept(j *Job) {
	index := make(map[string]int, len(j.Openings))
	for i := range j.Openings {
		index[j.Openings[i].ID] = i
	}
	read := map[string]bool{}
	for _, name := range j.Readings {
		file, wrong := r.inside(name)
		if wrong != "" || read[file] {
			continue // reported where it is listed
		}
		read[file] = true
		var kept keptFile
		r.read(file, keptShape, reflect.ValueOf(&kept).Elem())
		for _, one := range kept.Kept {
			if i, known := index[one.Of]; known {
				j.Openings[i].Readings = append(j.Openings[i].Readings, one.Readings...)
			}
		}
	}
}
