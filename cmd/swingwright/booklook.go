package main

import (
	"context"
	"fmt"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"swingwright/book"
	"swingwright/report"
)

// columns writes a table, its head first.
func (pr *program) columns(least []int, rows [][]string) error {
	var style styleFlags
	s, err := style.style(nil, pr.out)
	if err != nil {
		return err
	}
	return report.NewText(pr.out, s).Rows(least, rows)
}

func (pr *program) bookList() *cobra.Command {
	var f bookFlags
	var find string
	var limit int
	var inConflict bool
	c := &cobra.Command{
		Use:   "list BOOK",
		Short: "List the jobs of a book, the openings of a job, or what a search finds",
		Example: `  swingwright book list clinic.book
  swingwright book list clinic.book -j "Harbour Street Clinic" --limit 100
  swingwright book list clinic.book --find "waiting room"`,
		Args: arguments(1, 1, "one book"),
		RunE: func(c *cobra.Command, args []string) error {
			return withBook(c.Context(), args[0], func(b *book.Book) error {
				if find != "" {
					return pr.listFound(c.Context(), b, &f, find, limit)
				}
				if jobs, err := b.Jobs(c.Context()); err != nil || len(jobs) > 1 && f.job == "" && !inConflict {
					return pr.listJobs(jobs, err)
				}
				return pr.listOpenings(c.Context(), b, &f, book.Filter{Limit: limit, Conflicts: inConflict})
			})
		},
	}
	f.addJob(c.Flags())
	c.Flags().StringVar(&find, "find", "", "only what holds these `words`, the last of which may be cut short")
	c.Flags().IntVar(&limit, "limit", 50, "list at most this `number`, up to 1000")
	c.Flags().BoolVar(&inConflict, "conflicts", false, "only openings with open conflicts")
	return c
}

func (pr *program) listJobs(jobs []*book.Part, err error) error {
	rows := [][]string{{"key", "job", "site", "revision"}}
	for _, j := range jobs {
		rows = append(rows, []string{j.Key, j.Name, j.Title, fmt.Sprint(j.Last)})
	}
	if err != nil {
		return err
	}
	return pr.columns([]int{12, 20, 12, 8}, rows)
}

func (pr *program) listOpenings(ctx context.Context, b *book.Book, f *bookFlags, filter book.Filter) error {
	if f.job != "" || !filter.Conflicts {
		j, err := f.jobOf(ctx, b)
		if err != nil {
			return err
		}
		filter.Job = j.Key
	}
	list, err := b.List(ctx, filter)
	rows := [][]string{{"key", "opening", "name", "revision", "conflicts"}}
	for _, e := range list {
		rows = append(rows, []string{e.Key, e.ID, e.Name, fmt.Sprint(e.Changed), number(e.Conflicts)})
	}
	if err != nil {
		return err
	}
	return pr.columns([]int{12, 8, 20, 8, 9}, rows)
}

// number is a count, and nothing for none.
func number(n int) string {
	if n == 0 {
		return ""
	}
	return fmt.Sprint(n)
}

func (pr *program) listFound(ctx context.Context, b *book.Book, f *bookFlags, words string, limit int) error {
	key := ""
	if f.job != "" {
		j, err := f.jobOf(ctx, b)
		if err != nil {
			return err
		}
		key = j.Key
	}
	found, err := b.Search(ctx, key, words, limit)
	rows := [][]string{{"key", "what", "name", ""}}
	for _, e := range found {
		rows = append(rows, []string{e.Key, string(e.Kind), e.Name, e.Title})
	}
	if err != nil {
		return err
	}
	return pr.columns([]int{12, 8, 12, 20}, rows)
}

func (pr *program) bookHistory() *cobra.Command {
	var f bookFlags
	var opening string
	var limit int
	var before int64
	c := &cobra.Command{
		Use:   "history BOOK [-o OPENING]",
		Short: "Show what was changed, by whom and when",
		Long: `Shows what was changed in an opening, or in the whole job where none is named, the
latest first: who, when, what it was and what it became.`,
		Example: `  swingwright book history clinic.book -o 101
  swingwright book history clinic.book --limit 200 --before 1000`,
		Args: arguments(1, 1, "one book"),
		RunE: func(c *cobra.Command, args []string) error {
			return withBook(c.Context(), args[0], func(b *book.Book) error {
				p, err := f.partOf(c.Context(), b, opening)
				if err != nil {
					return err
				}
				list, err := b.History(c.Context(), p.Key, opening == "", before, limit)
				if err != nil {
					return err
				}
				return pr.showHistory(c.Context(), b, list)
			})
		},
	}
	f.addJob(c.Flags())
	c.Flags().StringVarP(&opening, "opening", "o", "", "id of the `opening`; the whole job when not given")
	c.Flags().IntVar(&limit, "limit", 50, "show at most this `number` of revisions")
	c.Flags().Int64Var(&before, "before", 0, "only what came before this `revision`")
	return c
}

func (pr *program) showHistory(ctx context.Context, b *book.Book, list []*book.Revision) error {
	rows := [][]string{{"revision", "when", "who", "where", "what"}}
	names := map[string]string{}
	for _, r := range list {
		name, known := names[r.Subject]
		if !known {
			p, err := b.Part(ctx, r.Subject)
			if err != nil {
				return err
			}
			name = p.Name
			names[r.Subject] = name
		}
		before, err := b.Replaced(ctx, r)
		if err != nil {
			return err
		}
		rows = append(rows, []string{fmt.Sprint(r.N), r.Made.Format(time.RFC3339), r.Who, name, happened(r, before)})
	}
	return pr.columns([]int{8, 20, 10, 10, 30}, rows)
}

// happened says what a revision did, and what stood in its field before.
func happened(r *book.Revision, before string) string {
	words := []string{string(r.Kind), r.Path, short(r.Value)}
	if before != "" && r.Kind != book.Add {
		words = append(words, "— was "+short(before))
	}
	if r.Instrument != "" {
		words = append(words, "with "+r.Instrument)
	}
	switch r.Outcome {
	case book.Conflict:
		words = append(words, fmt.Sprintf("— in conflict with revision %d", r.Against))
	case book.Same:
		words = append(words, "— it was so already")
	}
	if r.Kind == book.Sign {
		words = append(words, "— seal "+r.Seal())
	}
	return strings.Join(strings.Fields(strings.Join(words, " ")), " ")
}

// short is the begin of a text.
func short(text string) string {
	const most = 80
	if runes := []rune(strings.TrimSpace(text)); len(runes) > most {
		return string(runes[:most]) + "…"
	} else {
		return string(runes)
	}
}

func (pr *program) bookBackup() *cobra.Command {
	return &cobra.Command{
		Use:   "backup BOOK FOLDER",
		Short: "Copy the book, also while it is in use",
		Long: `Copies the book into a folder, while others read it and write to it. Where the folder
holds an earlier backup of the same book, that is brought up to date, and only
attachments that it has not got are copied. The backup is a book itself: it can be looked into, verified, and put
in the place of a lost one. It holds what the book holds, hashes of passwords too, so only its
owner can read it, as far as the disk knows owners: keep the stick as you keep the book.`,
		Example: "  swingwright book backup clinic.book /mnt/stick/clinic.book",
		Args:    arguments(2, 2, "a book and a folder"),
		RunE: func(c *cobra.Command, args []string) error {
			return withBook(c.Context(), args[0], func(b *book.Book) error {
				copied, err := b.Backup(c.Context(), args[1])
				if err != nil {
					return err
				}
				return withBook(c.Context(), args[1], func(backup *book.Book) error {
					return pr.toldHead(c.Context(), backup, fmt.Sprintf("copied to %s with %d attachments that were not there", args[1], copied))
				})
			})
		},
	}
}

func (pr *program) bookCompact() *cobra.Command {
	return &cobra.Command{
		Use:   "compact BOOK",
		Short: "Give back room that the book does not need",
		Long: `Gives back room that the book does not need, and deletes contents of attachments that
were stored a day ago or more and that nothing was attached to. No revision is lost. It needs as much free
room on the disk as the book has, and whoever writes meanwhile waits.`,
		Example: "  swingwright book compact clinic.book",
		Args:    arguments(1, 1, "one book"),
		RunE: func(c *cobra.Command, args []string) error {
			return withBook(c.Context(), args[0], func(b *book.Book) error {
				if err := b.Compact(c.Context(), time.Now()); err != nil {
					return err
				}
				return pr.toldHead(c.Context(), b, "compacted")
			})
		},
	}
}

func (pr *program) bookVerify() *cobra.Command {
	var seal string
	c := &cobra.Command{
		Use:   "verify BOOK",
		Short: "Prove that the book is as it was kept",
		Long: `Goes through the whole book: the database itself, that no revision is missing and each
is what its seal and all before it say, that the revisions lead to what the book
shows, and that every attachment is what it was. With the seal from a signed paper it proves
that neither the sign-off nor anything before it was altered since.

Exit status:
  0  the book is sound
  1  something in it is not as it was kept
  2  the book could not be opened, or the run was stopped`,
		Example: `  swingwright book verify clinic.book
  swingwright book verify clinic.book --seal 5d41402abc4b2a76`,
		Args: arguments(1, 1, "one book"),
		RunE: func(c *cobra.Command, args []string) error {
			if seal != "" && len(seal) < 16 {
				return misuse(c, "the seal is too short: give at least 16 of its digits")
			}
			return withBook(c.Context(), args[0], func(b *book.Book) error {
				v, err := b.Verify(c.Context(), strings.ToLower(seal))
				if err != nil {
					return err
				}
				for _, f := range v.Faults {
					write(pr.errOut, f.String(), "")
				}
				if len(v.Faults) > 0 {
					pr.status = exitBad
					write(pr.errOut, fmt.Sprintf("%d faults were found", len(v.Faults)), "leave the book as it is, and go on with the latest backup that is sound")
					return nil
				}
				if v.SealAt != 0 {
					fmt.Fprintf(pr.out, "the seal is that of revision %d: nothing up to there was altered\n", v.SealAt)
				}
				fmt.Fprintf(pr.out, "sound: %d revisions, %d parts, %d attachments, seal %s\n", v.Revisions, v.Parts, v.Attachments, v.Seal)
				return nil
			})
		},
	}
	c.Flags().StringVar(&seal, "seal", "", "look for the revision that has this `seal`, or one that begins so")
	return c
}
