package job

import (
	"io/fs"
	"path"
)

// DecodePart reads a job file of which some openings are left out, as Decode
// reads a whole one. Where something refers to a sheet or an opening that is not
// in the files, exists is asked whether the whole job has it; the sorts are
// "opening", and "closer", "arm" and so on for the sheets. A part may have no
// openings at all.
func DecodePart(fsys fs.FS, name string, exists func(sort, name string) bool) (*Job, error) {
	r := &reader{fsys: fsys, dir: path.Dir(name), names: map[thing]Place{}, elsewhere: exists}
	return r.decode(name)
}
