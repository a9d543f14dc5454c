package book

import (
	"errors"
	"fmt"

	"modernc.org/sqlite"
	lib "modernc.org/sqlite/lib"
)

// An Invalid change can never be kept as it is.
type Invalid struct {
	Change      string // its identity
	Found, Hint string
	Err         error // what was wrong with the value, such as job.Problems; may be nil
}

// Error says what is wrong with which change, and how to mend it.
func (e *Invalid) Error() string {
	text := fmt.Sprintf("change %.64s: found %s", e.Change, e.Found)
	if e.Err != nil {
		text += ": " + e.Err.Error()
	}
	if e.Hint != "" {
		text += "; hint: " + e.Hint
	}
	return text
}

func (e *Invalid) Unwrap() error { return e.Err }

// A Gap is a change of a device that came before one that the device made earlier.
type Gap struct {
	Device        string
	Awaited, Sent int64
}

// Error says which change is awaited.
func (e *Gap) Error() string {
	return fmt.Sprintf("device %s sent its change %d, but %d is awaited; hint: send its changes in order", e.Device, e.Sent, e.Awaited)
}

// The errors that callers tell apart.
var (
	ErrNone    = errors.New("there is nothing of this name in the book")
	ErrFull    = errors.New("the disk is full: nothing of this was kept, and nothing that was kept is lost; hint: make room and do it again")
	ErrBusy    = errors.New("another program kept the book busy for too long: nothing of this was kept; hint: do it again")
	ErrDamaged = errors.New("the book is damaged; hint: book verify tells where; put a backup in its place")
	ErrNewer   = errors.New("the book was made by a newer version of the program; hint: use that one")
)

// told puts an error of the database into one that callers can tell apart.
func told(err error) error {
	var e *sqlite.Error
	if !errors.As(err, &e) {
		return err
	}
	switch e.Code() & 0xff {
	case lib.SQLITE_FULL:
		return fmt.Errorf("%w (%w)", ErrFull, err)
	case lib.SQLITE_BUSY, lib.SQLITE_LOCKED:
		return fmt.Errorf("%w (%w)", ErrBusy, err)
	case lib.SQLITE_CORRUPT, lib.SQLITE_NOTADB:
		return fmt.Errorf("%w (%w)", ErrDamaged, err)
	}
	return err
}
