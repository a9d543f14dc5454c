package book

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"

	_ "modernc.org/sqlite" // the driver
)

// The names in the folder of a book.
const (
	fileName   = "book.sqlite"
	attachName = "attachments"
)

// A Book is an open book. Its methods may be called from many goroutines, and
// several programs may have one book open.
type Book struct {
	dir   string
	write *sql.DB // one connection, which waits its turn
	read  *sql.DB
	files *os.Root // attachments
}

// Create makes a new, empty book in a folder that does not exist or is empty. Only its owner can look
// into a folder that is made here, and read the file of the book.
func Create(ctx context.Context, dir string) (*Book, error) {
	if entries, err := os.ReadDir(dir); err == nil && len(entries) > 0 {
		return nil, fmt.Errorf("%s is there already and not empty; hint: name a new folder for the book", dir)
	}
	if err := shelve(dir); err != nil {
		return nil, err
	}
	if err := blank(filepath.Join(dir, fileName)); err != nil {
		return nil, full(err)
	}
	return open(ctx, dir, schema, true)
}

// Open opens a book and brings it up to the schema of this program; before that
// it makes a copy beside it.
func Open(ctx context.Context, dir string) (*Book, error) {
	if _, err := os.Stat(filepath.Join(dir, fileName)); errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("there is no book in %s; hint: name the folder that holds %s, or make a new book", dir, fileName)
	} else if err != nil {
		return nil, err
	}
	return open(ctx, dir, schema, false)
}

func open(ctx context.Context, dir string, steps fs.FS, empty bool) (*Book, error) {
	b, err := connect(dir)
	if err == nil {
		err = b.migrate(ctx, steps, empty)
	}
	if err != nil {
		if b != nil {
			b.Close()
		}
		return nil, told(err)
	}
	return b, nil
}

// readers is how many pages may be read at once.
const readers = 8

func connect(dir string) (*Book, error) {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return nil, err
	}
	b := &Book{dir: dir}
	if b.files, err = os.OpenRoot(filepath.Join(dir, attachName)); err != nil {
		return nil, err
	}
	name := filepath.Join(dir, fileName)
	if b.write, err = sql.Open("sqlite", source(name, "immediate", "journal_mode(WAL)", "synchronous(FULL)")); err != nil {
		return b, err
	}
	b.write.SetMaxOpenConns(1)
	if b.read, err = sql.Open("sqlite", source(name, "deferred", "query_only(1)")); err != nil {
		return b, err
	}
	b.read.SetMaxOpenConns(readers)
	b.read.SetMaxIdleConns(readers)
	return b, nil
}

// source names a database file so that any character may stand in its name. A
// transaction that writes takes its lock at once, so that none fails half-way for
// having read first.
func source(name, lock string, pragmas ...string) string {
	query := url.Values{"_txlock": {lock}, "_pragma": append([]string{"busy_timeout(10000)", "cache_size(-65536)"}, pragmas...)}
	u := url.URL{Scheme: "file", OmitHost: true, Path: filepath.ToSlash(name), RawQuery: query.Encode()}
	return u.String()
}

// Close closes the book.
func (b *Book) Close() error {
	var errs []error
	for _, db := range []*sql.DB{b.read, b.write} {
		if db != nil {
			errs = append(errs, db.Close())
		}
	}
	if b.files != nil {
		errs = append(errs, b.files.Close())
	}
	return errors.Join(errs...)
}

// Head is the latest revision, 0 of an empty book, and its hash in hexadecimal:
// the seal of everything in the book.
func (b *Book) Head(ctx context.Context) (n int64, seal string, err error) {
	err = b.read.QueryRowContext(ctx, "SELECT n, lower(hex(hash)) FROM revision ORDER BY n DESC LIMIT 1").Scan(&n, &seal)
	if errors.Is(err, sql.ErrNoRows) {
		return 0, "", nil
	}
	return n, seal, told(err)
}
