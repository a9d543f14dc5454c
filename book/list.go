package book

import (
	"context"
	"fmt"

	"swingwright/job/amend"
)

// A Summary is what was reckoned of an opening, for lists.
type Summary struct {
	State   string `json:"state"`            // a word of whoever reckoned it, such as a report's
	Missing int    `json:"missing"`          // how much is missing
	Due     string `json:"due,omitempty"`    // the day on which something is due, as 2026-11-25; empty where nothing is
	Detail  string `json:"detail,omitempty"` // anything more
}

// An Entry is an opening as it stands in a list.
type Entry struct {
	Key, Job  string
	ID, Name  string
	State     State
	Conflicts int
	Changed   int64
	Summary   *Summary // nil where none was made
	Stale     bool     // something was entered about the opening, or changed of what all of its job share, after the summary
	InPlaceOf string   // the id of the opening that it is an alternative to; empty where it is none
	Place     int64    // openings with a lower one come before it in the job
}

// A Filter says which openings a list shows. The zero one shows all that are live, from the first.
type Filter struct {
	Job       string // key; empty for all jobs
	State     State  // of the opening; empty for live
	Summary   string // state of the summary; empty for any
	DueBefore string // day; only what is due before it
	Conflicts bool   // only those with open conflicts
	Missing   bool   // only those of which, by the summary, something is missing
	Words     string // only those that a search for it finds
	After     string // key of the opening after which the page begins
	Limit     int    // openings on a page, at most 1000; 0 for 50
}

// List is one page of openings, in the order of the jobs.
func (b *Book) List(ctx context.Context, f Filter) ([]Entry, error) {
	var after int64
	if f.After != "" {
		p, err := partOf(ctx, b.read, f.After)
		if err != nil {
			return nil, err
		}
		after = p.n
	}
	if f.State == "" {
		f.State = Live
	}
	if f.Limit == 0 {
		f.Limit = 50
	}
	query := "SELECT " + entryColumns + " FROM part p LEFT JOIN summary s ON s.part = p.n LEFT JOIN standing st ON st.part = p.n WHERE p.kind = 'opening' AND p.n > ? AND p.state = ?"
	values := []any{after, f.State}
	where := func(condition string, value ...any) { query += " AND " + condition; values = append(values, value...) }
	if f.Job != "" {
		where("p.job = ?", f.Job)
	}
	if f.Summary != "" {
		where("s.state = ?", f.Summary)
	}
	if f.DueBefore != "" {
		where("s.due <> '' AND s.due < ?", f.DueBefore)
	}
	if f.Conflicts {
		where("p.conflicts > 0")
	}
	if f.Missing {
		where("s.missing > 0")
	}
	if f.Words != "" {
		words := match(f.Job, f.Words)
		if words == "" {
			return nil, nil
		}
		where("p.n IN (SELECT rowid FROM words WHERE words MATCH ?)", words)
	}
	values = append(values, min(max(f.Limit, 1), 1000))
	return b.entries(ctx, query+" ORDER BY p.n LIMIT ?", values...)
}

const entryColumns = "p.n, p.key, p.job, p.name, p.title, p.state, p.conflicts, p.changed, s.as_of, s.state, s.missing, s.due, s.detail, coalesce(st.stale, 1), iif(instr(p.text, 'in_place_of'), p.text, '')"

func (b *Book) entries(ctx context.Context, query string, values ...any) ([]Entry, error) {
	rows, err := b.read.QueryContext(ctx, query, values...)
	if err != nil {
		return nil, told(err)
	}
	defer rows.Close()
	var list []Entry
	for rows.Next() {
		var e Entry
		var asOf, missing *int64
		var state, due, detail *string
		var text string // of what may be an alternative
		if err := rows.Scan(&e.Place, &e.Key, &e.Job, &e.ID, &e.Name, &e.State, &e.Conflicts, &e.Changed, &asOf, &state, &missing, &due, &detail, &e.Stale, &text); err != nil {
			return nil, told(err)
		}
		if asOf != nil {
			e.Summary = &Summary{State: *state, Missing: int(*missing), Due: *due, Detail: *detail}
		}
		if text != "" {
			e.InPlaceOf = amend.Plain(text, "in_place_of")[0]
		}
		list = append(list, e)
	}
	return list, told(rows.Err())
}

// SaveSummary keeps what was reckoned of an opening as the book was at a
// revision. An older one does not take the place of a newer one.
func (b *Book) SaveSummary(ctx context.Context, key string, asOf int64, s Summary) error {
	_, err := b.write.ExecContext(ctx, `INSERT INTO summary SELECT n, ?, ?, ?, ?, ? FROM part WHERE key = ? AND kind = 'opening'
		ON CONFLICT (part) DO UPDATE SET as_of = excluded.as_of, state = excluded.state, missing = excluded.missing, due = excluded.due, detail = excluded.detail
		WHERE excluded.as_of >= as_of`, asOf, s.State, s.Missing, s.Due, s.Detail, key)
	if err != nil {
		return fmt.Errorf("summary of %s: %w", key, told(err))
	}
	return nil
}

// Stale are the live openings of a job, or of all where it is empty, that have no
// summary or an old one, at most limit of them.
func (b *Book) Stale(ctx context.Context, job string, limit int) ([]Entry, error) {
	of, values := narrowed(job)
	return b.entries(ctx, "SELECT "+entryColumns+" FROM standing st JOIN part p ON p.n = st.part LEFT JOIN summary s ON s.part = st.part WHERE st.stale = 1"+of+" ORDER BY st.part LIMIT ?", append(values, limit)...)
}

// narrowed is the condition that narrows what stands as st to a job, unless none is named. It is no
// part of one statement for both: that would go through all jobs either way.
func narrowed(job string) (condition string, values []any) {
	if job == "" {
		return "", nil
	}
	return " AND st.job = ?", []any{job}
}

// Count is how many live openings of a job, or of all where it is empty, there are
// in each state of their summaries; those without one count under the empty word.
func (b *Book) Count(ctx context.Context, job string) (map[string]int, error) {
	of, values := narrowed(job)
	rows, err := b.read.QueryContext(ctx, "SELECT state, sum(n) FROM tally st WHERE true"+of+" GROUP BY state", values...)
	if err != nil {
		return nil, told(err)
	}
	defer rows.Close()
	counts := map[string]int{}
	for rows.Next() {
		var state string
		var n int
		if err := rows.Scan(&state, &n); err != nil {
			return nil, told(err)
		}
		counts[state] = n
	}
	return counts, told(rows.Err())
}

// Jobs are the jobs of the book, in the order in which they were begun; withdrawn ones too.
func (b *Book) Jobs(ctx context.Context) ([]*Part, error) {
	// From one job to the next by the index: to look for them among all parts would read the whole book.
	return partsOf(b.read.QueryContext(ctx, `WITH RECURSIVE one (job) AS (
			SELECT min(job) FROM part
			UNION ALL SELECT (SELECT min(job) FROM part WHERE job > one.job) FROM one WHERE one.job IS NOT NULL)
		SELECT `+partColumns+` FROM part WHERE key IN (SELECT job FROM one) AND kind = ? ORDER BY n`, BeginJob))
}

// Openings is how many live openings each job has, by the job's key; a job without any is not in it.
func (b *Book) Openings(ctx context.Context) (map[string]int, error) {
	rows, err := b.read.QueryContext(ctx, "SELECT job, sum(n) FROM tally GROUP BY job")
	if err != nil {
		return nil, told(err)
	}
	defer rows.Close()
	counts := map[string]int{}
	for rows.Next() {
		var job string
		var n int
		if err := rows.Scan(&job, &n); err != nil {
			return nil, told(err)
		}
		counts[job] = n
	}
	return counts, told(rows.Err())
}
