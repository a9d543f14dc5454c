package rulebook

import (
	"embed"
	"io/fs"
)

//go:embed books
var embedded embed.FS

// Builtin holds the books that come with the program, as people wrote them:
// a file ID.yaml for each, and its cases in cases/ID.yaml.
func Builtin() fs.FS {
	books, err := fs.Sub(embedded, "books")
	if err != nil {
		return embedded // cannot be: the folder is embedded above
	}
	return books
}
