package book

import (
	"context"
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"github.com/pressly/goose/v3"
)

//go:embed schema/*.sql
var files embed.FS

// schema are the steps that lead from one schema to the next, each in a file that
// begins with its number; inGo has the others.
var schema = func() fs.FS {
	steps, err := fs.Sub(files, "schema")
	if err != nil { // the name is a valid one
		panic(err)
	}
	return steps
}()

// inGo are the steps that SQL alone cannot do.
func inGo() []*goose.Migration {
	return []*goose.Migration{goose.NewGoMigration(2, &goose.GoFunc{RunTx: wordsByJob}, nil)}
}

// migrate brings the book up to the schema of this program, forward only. A copy
// is made first, under the name of the schema that the book had. A book without any schema
// has lost all that it held, unless it is a new one.
func (b *Book) migrate(ctx context.Context, steps fs.FS, empty bool) error {
	p, err := goose.NewProvider(goose.DialectSQLite3, b.write, steps, goose.WithGoMigrations(inGo()...))
	if err != nil {
		return err
	}
	for try := range tries {
		if err = b.bringUp(ctx, p, empty); err == nil || errors.Is(err, ErrNewer) || errors.Is(err, ErrDamaged) || ctx.Err() != nil {
			return err
		}
		time.Sleep(time.Duration(try) * 100 * time.Millisecond)
	}
	return err
}

// tries are made to bring a book up: where several programs open it at the same
// moment, one of them does so and the others, in whose way it was, find it done.
const tries = 8

func (b *Book) bringUp(ctx context.Context, p *goose.Provider, empty bool) error {
	version, latest, err := versions(ctx, p)
	switch {
	case err != nil:
		return told(err)
	case version > latest:
		return fmt.Errorf("%w (schema %d; this program knows %d)", ErrNewer, version, latest)
	case version == latest:
		return nil
	case version == 0 && !empty:
		return fmt.Errorf("%w (%s holds nothing)", ErrDamaged, fileName)
	case version > 0:
		if err := b.copyBefore(ctx, version); err != nil {
			return fmt.Errorf("no copy could be made before the book is brought up to schema %d: %w", latest, err)
		}
	}
	_, err = p.Up(ctx)
	return err
}

func versions(ctx context.Context, p *goose.Provider) (version, latest int64, err error) {
	version, err = p.GetDBVersion(ctx)
	sources := p.ListSources()
	return version, sources[len(sources)-1].Version, err
}

// copyBefore copies the book as it is. A copy that is there already was made
// before an upgrade that did not come to its end, or by another program that is about to do it, and is kept.
func (b *Book) copyBefore(ctx context.Context, version int64) error {
	name := filepath.Join(b.dir, fmt.Sprintf("before-schema-%d.sqlite", version+1))
	if _, err := os.Stat(name); err == nil {
		return nil
	} else if !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	half, err := b.copyHalf(ctx, name)
	if err != nil {
		return err
	}
	defer os.Remove(half)
	// Who brings the book up has put its copy there before, so that one made later, of
	// a book that is up, never takes its place.
	if err := os.Link(half, name); err != nil && !errors.Is(err, fs.ErrExist) {
		return os.Rename(half, name) // a disk that knows no links
	}
	return syncFile(b.dir)
}
