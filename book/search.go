package book

import (
	"context"
	"strings"
	"unicode"

	"swingwright/job/amend"
)

// index brings the search up to a part as it is now.
func (w *writer) index(p *Part) error {
	notes, err := w.notes(p)
	if err != nil {
		return err
	}
	return w.exec("INSERT OR REPLACE INTO words (rowid, name, title, text, notes) VALUES (?, ?, ?, ?, ?)", p.n, p.Name, p.Title, amend.Values(p.Text), notes)
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
	query := match(text)
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

// match is what a person typed as a query that holds all of its words and nothing
// that means something to the search itself.
func match(text string) string {
	words := strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsNumber(r) && !unicode.IsMark(r) })
	for i := range words {
		words[i] = `"` + words[i] + `"`
	}
	if len(words) > 0 {
		words[len(words)-1] += "*"
	}
	return strings.Join(words, " ")
}
