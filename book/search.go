package book

import (
	"context"
	"database/sql"
	"errors"
	"strings"
	"unicode"
	"unicode/utf8"

	"swingwright/job/amend"
)

// index brings the search up to a part as it is now.
func (w *writer) index(p *Part) error {
	notes, err := w.notes(p)
	if err != nil {
		return err
	}
	return w.exec("INSERT OR REPLACE INTO words (rowid, job, name, title, text, notes) VALUES (?, ?, ?, ?, ?, ?)", p.n, p.Job, p.Name, p.Title, amend.Values(p.Text), notes)
}

// wordsByJob leads to schema 2: the search knows the jobs, since to look for a
// common word in one job among a hundred went through what all of them hold.
func wordsByJob(ctx context.Context, tx *sql.Tx) error {
	w := &writer{ctx: ctx, tx: tx}
	err := errors.Join(w.exec("DROP TABLE words"), w.exec(`CREATE VIRTUAL TABLE words USING fts5 (job, name, title, text, notes,
		content = '', contentless_delete = 1, tokenize = 'unicode61 remove_diacritics 2', prefix = '2 3')`))
	if err != nil {
		return err
	}
	const stretch = 500
	for last := int64(0); ; {
		parts, err := partsOf(tx.QueryContext(ctx, "SELECT "+partColumns+" FROM part WHERE n > ? ORDER BY n LIMIT ?", last, stretch))
		if err != nil || len(parts) == 0 {
			return err
		}
		for _, p := range parts {
			if err := w.index(p); err != nil {
				return err
			}
			last = p.n
		}
	}
}

// notes are the words of what was added to a part.
func (w *writer) notes(p *Part) (string, error) {
	var any bool
	err := w.tx.QueryRowContext(w.ctx, "SELECT EXISTS (SELECT 1 FROM revision WHERE subject = ? AND kind IN (?, ?))", p.Key, Note, Attach).Scan(&any)
	if err != nil || !any {
		return "", err
	}
	all, err := annotations(w.ctx, w.tx, p.Key)
	if err != nil {
		return "", err
	}
	var words []string
	for _, a := range all {
		switch {
		case a.Withdrawn:
		case a.Kind == Note:
			words = append(words, a.Value)
		case a.Kind == Attach:
			words = append(words, a.Attachment.Name, a.Attachment.Caption)
		}
	}
	return strings.Join(words, "\n"), nil
}

// A Found part is one that a search found.
type Found struct {
	Key, Job string
	Kind     Kind
	Name     string // of an opening its id
	Title    string // of an opening its name
	State    State
}

// Search finds the parts that hold all of the words, in their values, notes or
// captions, the last one perhaps not yet typed to its end. The best come first where the
// words are rare; at most limit are returned. A job's key narrows it to that job; empty
// it means all. Text without a letter or digit finds nothing.
func (b *Book) Search(ctx context.Context, job, text string, limit int) ([]Found, error) {
	query := match(job, text)
	if query == "" {
		return nil, nil
	}
	// To rank what half the book has would take long and tell nothing, so only the
	// earliest few hundred are ranked.
	const ranked = 500
	rows, err := b.read.QueryContext(ctx, `
		WITH hit AS MATERIALIZED (
			SELECT words.rowid AS n FROM words JOIN part ON part.n = words.rowid
			WHERE words MATCH ? AND (part.job = ? OR ? = '') LIMIT ?)
		SELECT part.key, part.job, part.kind, part.name, part.title, part.state
		FROM hit JOIN part ON part.n = hit.n
		ORDER BY part.name = ? DESC, part.state = 'live' DESC, part.n LIMIT ?`, query, job, job, ranked, strings.TrimSpace(text), limit)
	if err != nil {
		return nil, told(err)
	}
	defer rows.Close()
	var list []Found
	for rows.Next() {
		var f Found
		if err := rows.Scan(&f.Key, &f.Job, &f.Kind, &f.Name, &f.Title, &f.State); err != nil {
			return nil, told(err)
		}
		list = append(list, f)
	}
	return list, told(rows.Err())
}

// match is what a person typed as a query that holds all of its words, in the job
// where one is named, and nothing that means something to the search itself.
func match(job, text string) string {
	words := strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsNumber(r) && !unicode.IsMark(r) })
	for i := range words {
		words[i] = `"` + words[i] + `"`
	}
	if n := len(words) - 1; n >= 0 && utf8.RuneCountInString(words[n]) > len(`"x"`) { // one letter alone would find nearly everything
		words[n] += "*"
	}
	switch {
	case len(words) == 0:
		return ""
	case !identity.MatchString(job):
		return "- job : (" + strings.Join(words, " ") + ")"
	}
	return `job : "` + job + `" AND - job : (` + strings.Join(words, " ") + ")"
}
