package book

import (
	"context"
	"database/sql"
	"time"
)

// ApplyUnchecked keeps changes without reading the job that they lead to, to make
// large books in little time.
func (b *Book) ApplyUnchecked(ctx context.Context, now time.Time, changes ...Change) ([]Receipt, error) {
	return b.apply(ctx, now, false, changes)
}

// Database is the connection that writes.
func (b *Book) Database() *sql.DB { return b.write }
