package job

import (
	"io/fs"
	"path"
	"strings"
	"time"
)

// Texts are the texts of files by their names, as a file system, for jobs that lie in
// no folder.
type Texts map[string]string

// Open opens one of them; it is for fs.FS.
func (t Texts) Open(name string) (fs.File, error) {
	text, ok := t[name]
	if !ok {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
	}
	return &textFile{strings.NewReader(text), name}, nil
}

// textFile is one text as a file.
type textFile struct {
	*strings.Reader
	name string
}

func (f *textFile) Stat() (fs.FileInfo, error) { return f, nil }
func (f *textFile) Close() error               { return nil }
func (f *textFile) Name() string               { return path.Base(f.name) }
func (f *textFile) Mode() fs.FileMode          { return 0o444 }
func (f *textFile) ModTime() time.Time         { return time.Time{} }
func (f *textFile) IsDir() bool                { return false }
func (f *textFile) Sys() any                   { return nil }
