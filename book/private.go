package book

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// What is in a book is nobody's business but its owner's: customers, photos, signatures, and, where
// there are accounts, hashes of passwords. So the folder of a new book or backup, and every copy of its file, is
// made for its owner alone, from the first byte on. What the folder of a book holds from before, and a
// folder that was there already, keep the permissions that somebody gave them, until the book has accounts.
const (
	ownFile   = 0o600
	ownFolder = 0o700
)

// shelve makes the folder of a book, with that of its attachments.
func shelve(dir string) error {
	if err := os.MkdirAll(filepath.Dir(dir), 0o777); err != nil {
		return err
	}
	return os.MkdirAll(filepath.Join(dir, attachName), ownFolder)
}

// blank makes an empty file, which SQLite then fills: what it keeps beside its file has the permissions of that.
func blank(name string) error {
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, ownFile)
	if err != nil {
		return err
	}
	return f.Close()
}

// Private lets only the owner of the book read its file, what SQLite writes beside it, the copies in its
// folder, and its attachments: who could read them would see past all roles.
func (b *Book) Private() error {
	names, err := fs.Glob(os.DirFS(b.dir), "before-schema-*.sqlite")
	if err != nil {
		return err
	}
	for _, name := range append(names, fileName, fileName+"-wal", fileName+"-shm") {
		if err := os.Chmod(filepath.Join(b.dir, name), ownFile); err != nil && !errors.Is(err, os.ErrNotExist) {
			return fmt.Errorf("the book cannot be kept from other users of this machine: %w", err)
		}
	}
	if err := os.Chmod(filepath.Join(b.dir, attachName), ownFolder); err != nil {
		return fmt.Errorf("the attachments cannot be kept from other users of this machine: %w", err)
	}
	return nil
}
