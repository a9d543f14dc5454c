package book

import (
	"bytes"
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"
)

// Backup copies the book, while it is in use, into a folder; where the folder holds
// an earlier backup of this book it is brought up to date, and only attachments that it
// has not got are copied. The backup is a book itself, and like one only its owner can read it:
// it holds the hashes of passwords too. It returns how many attachments were copied.
func (b *Book) Backup(ctx context.Context, dir string) (copied int, err error) {
	if err := shelve(dir); err != nil {
		return 0, full(err)
	}
	name := filepath.Join(dir, fileName)
	if err := b.follows(ctx, name); err != nil {
		return 0, err
	}
	half, err := b.copyHalf(ctx, name)
	if err != nil {
		return 0, err
	}
	defer os.Remove(half) // where it is there still
	// The attachments come first: a backup that is cut off is the earlier one, or none.
	copied, damaged, err := b.copyAttached(ctx, half, dir)
	if err == nil {
		err = putBook(half, name)
	}
	return copied, errors.Join(err, damaged)
}

// copyAttached copies the contents that a copy of the database names into the folder of a backup, where it has not got
// them. damaged are those that could not be read; all others are there.
func (b *Book) copyAttached(ctx context.Context, half, dir string) (copied int, damaged, err error) {
	backup := &Book{dir: dir}
	defer backup.Close()
	if backup.files, err = os.OpenRoot(filepath.Join(dir, attachName)); err != nil {
		return 0, nil, err
	}
	if backup.read, err = sql.Open("sqlite", source(half, "deferred", "query_only(1)")); err != nil {
		return 0, nil, err
	}
	used, err := backup.attached(ctx)
	if err != nil {
		return 0, nil, err
	}
	for digest, n := range used {
		if _, err := backup.Content(digest); err == nil {
			continue
		}
		content, err := b.Content(digest)
		if err != nil {
			damaged = errors.Join(damaged, fmt.Errorf("revision %d: %w", n, err))
			continue
		}
		if _, _, err := backup.Store(bytes.NewReader(content), int64(len(content))); err != nil {
			return copied, damaged, err
		}
		copied++
	}
	return copied, damaged, nil
}

// follows refuses to put the book in the place of another one: what stands there
// has to be an earlier state of it.
func (b *Book) follows(ctx context.Context, name string) error {
	if _, err := os.Stat(name); errors.Is(err, fs.ErrNotExist) {
		return nil
	} else if err != nil {
		return err
	}
	db, err := sql.Open("sqlite", source(name, "deferred", "query_only(1)"))
	if err != nil {
		return err
	}
	defer db.Close()
	var n int64
	var there, here []byte
	err = db.QueryRowContext(ctx, "SELECT n, hash FROM revision ORDER BY n DESC LIMIT 1").Scan(&n, &there)
	if errors.Is(err, sql.ErrNoRows) {
		return nil
	}
	if err == nil {
		err = b.read.QueryRowContext(ctx, "SELECT hash FROM revision WHERE n = ?", n).Scan(&here)
	}
	if err != nil || !bytes.Equal(there, here) {
		return fmt.Errorf("%s holds no earlier state of this book and was left as it is; hint: make the backup in another folder", name)
	}
	return nil
}

// putBook puts a whole copy of a database in the place of a name, where it is at once or not at all.
func putBook(half, name string) error {
	for _, log := range []string{name + "-wal", name + "-shm"} { // of the one that is replaced
		if err := os.Remove(log); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
	}
	if err := os.Rename(half, name); err != nil {
		return err
	}
	return syncFile(filepath.Dir(name))
}

// copyHalf copies the database to a new file beside the one of a name. It reads as any reader does,
// so that nobody who writes has to wait. The copy is on the disk when it returns.
func (b *Book) copyHalf(ctx context.Context, name string) (half string, err error) {
	db, err := sql.Open("sqlite", source(filepath.Join(b.dir, fileName), "deferred"))
	if err != nil {
		return "", err
	}
	defer db.Close()
	half = name + "." + NewKey() + ".half"
	if err := blank(half); err != nil {
		return "", full(err)
	}
	if _, err = db.ExecContext(ctx, "VACUUM INTO ?", half); err == nil {
		err = full(syncFile(half))
	}
	if err != nil {
		os.Remove(half)
		return "", told(err)
	}
	return half, nil
}

func syncFile(name string) error {
	f, err := os.Open(name)
	if err != nil {
		return err
	}
	return errors.Join(f.Sync(), f.Close())
}

// day is how old a content that nothing is attached to has to be before Compact
// deletes it: an upload may still be on its way.
const day = 24 * time.Hour

// Compact gives back the room that is not needed, and deletes contents that
// nothing was attached to for a day before now. It needs as much free room as the book has, and others wait meanwhile.
func (b *Book) Compact(ctx context.Context, now time.Time) error {
	for _, statement := range []string{"INSERT INTO words (words) VALUES ('optimize')", "VACUUM", "PRAGMA optimize", "PRAGMA wal_checkpoint(TRUNCATE)"} {
		if _, err := b.write.ExecContext(ctx, statement); err != nil {
			return told(err)
		}
	}
	_, err := b.Sweep(ctx, now.Add(-day))
	return err
}
