package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"swingwright/book"
	"swingwright/job"
)

func (pr *program) bookCommand() *cobra.Command {
	c := &cobra.Command{
		Use:   "book",
		Short: "Keep jobs and everything that happens to them",
		Long: `A book is a folder that keeps everything ever entered about jobs: what was found,
readings, adjustments, photos, notes, sign-offs. Nothing in it is overwritten: every
change is a revision that says who, when and what it replaced, and any earlier state
can be seen again. While it may be in use copy it by backup: a plain copy of the
folder can be torn.

  swingwright book new clinic.book
  swingwright book import clinic.book clinic/job.yaml
  swingwright book enter clinic.book -o 101 set leaf.width "36 in"
  swingwright book history clinic.book -o 101
  swingwright book export clinic.book --to out
  swingwright book backup clinic.book /mnt/stick/clinic.book
  swingwright book verify clinic.book`,
		Args: noArguments,
		RunE: func(c *cobra.Command, _ []string) error { return c.Help() },
	}
	c.AddCommand(pr.bookNew(), pr.bookImport(), pr.bookExport(), pr.bookList(), pr.bookEnter(), pr.bookHistory(), pr.bookBackup(), pr.bookVerify(), pr.bookCompact())
	return c
}

// bookFlags say which job of a book is meant, and who is at work.
type bookFlags struct{ job, who string }

func (f *bookFlags) addJob(flags *pflag.FlagSet) {
	flags.StringVarP(&f.job, "job", "j", "", "key or name of the `job`; need not be given where there is one")
}

func (f *bookFlags) addWho(flags *pflag.FlagSet) {
	flags.StringVar(&f.who, "by", "", "who enters it, a `name`; the one that you are logged in with when not given")
}

// by is who enters something now.
func (f *bookFlags) by(now time.Time) (book.By, error) {
	by := book.By{Who: cmp.Or(f.who, os.Getenv("USER"), os.Getenv("USERNAME")), Made: now}
	if by.Who == "" {
		return by, problem{what: "nobody is named", hint: "say who enters it: --by NAME"}
	}
	return by, nil
}

// withBook opens a book, does something with it and closes it.
func withBook(ctx context.Context, dir string, do func(*book.Book) error) error {
	b, err := book.Open(ctx, dir)
	if err != nil {
		return hinted(err)
	}
	return errors.Join(hinted(do(b)), b.Close())
}

// hinted parts an error of the book, which is in one line, into what was found and
// how to mend it. Problems of a job stay as they are.
func hinted(err error) error {
	if _, ok := errors.AsType[job.Problems](err); ok || err == nil {
		return err
	}
	if what, hint, ok := strings.Cut(err.Error(), "; hint: "); ok {
		return problem{what: what, hint: hint}
	}
	return err
}

// jobOf is the job that is meant.
func (f *bookFlags) jobOf(ctx context.Context, b *book.Book) (*book.Part, error) {
	jobs, err := b.Jobs(ctx)
	if err != nil {
		return nil, err
	}
	var names []string
	var found []*book.Part
	for _, j := range jobs {
		names = append(names, fmt.Sprintf("%s (%s)", j.Key, j.Name))
		if f.job == "" || j.Key == f.job || j.Name == f.job {
			found = append(found, j)
		}
	}
	switch {
	case len(jobs) == 0:
		return nil, problem{what: "the book holds no job", hint: "import one: swingwright book import BOOK JOB"}
	case len(found) == 0:
		return nil, problem{what: fmt.Sprintf("the book holds no job %q", f.job), hint: "it holds " + listed(names)}
	case len(found) > 1:
		return nil, problem{what: "which job is not clear", hint: "give its key with --job; the book holds " + listed(names)}
	}
	return found[0], nil
}

// partOf is the opening of an id, or the job where none is given.
func (f *bookFlags) partOf(ctx context.Context, b *book.Book, opening string) (*book.Part, error) {
	j, err := f.jobOf(ctx, b)
	if err != nil || opening == "" {
		return j, err
	}
	key, err := b.Find(ctx, j.Key, opening)
	if errors.Is(err, book.ErrNone) {
		return nil, problem{what: fmt.Sprintf("the job has no opening %q", opening), hint: "swingwright book list shows them"}
	} else if err != nil {
		return nil, err
	}
	return b.Part(ctx, key)
}

func (pr *program) bookNew() *cobra.Command {
	return &cobra.Command{
		Use:     "new BOOK",
		Short:   "Make an empty book",
		Long:    "Makes an empty book in a new folder, into which only its owner can look.",
		Example: "  swingwright book new clinic.book",
		Args:    arguments(1, 1, "one folder"),
		RunE: func(c *cobra.Command, args []string) error {
			b, err := book.Create(c.Context(), args[0])
			if err != nil {
				return hinted(err)
			}
			fmt.Fprintf(pr.out, "made %s: swingwright book import %s JOB\n", args[0], args[0])
			return b.Close()
		},
	}
}

func (pr *program) bookImport() *cobra.Command {
	var f bookFlags
	var since int64
	c := &cobra.Command{
		Use:   "import BOOK JOB",
		Short: "Take a job file into the book",
		Long: `Takes a job file into the book with the files that it lists: all of it or nothing.
With --since a job that was exported at that revision and edited is taken back:
only what was edited is changed, and what somebody else changed meanwhile in the same
opening is kept beside it as a conflict.`,
		Example: `  swingwright book import clinic.book clinic/job.yaml
  swingwright book import clinic.book out/job.yaml --since 120`,
		Args: arguments(2, 2, "a book and a job file"),
		RunE: func(c *cobra.Command, args []string) error {
			by, err := f.by(time.Now())
			if err != nil {
				return err
			}
			dir, name := filepath.Split(args[1])
			files, err := book.ReadFiles(os.DirFS(filepath.Clean(dir+".")), name)
			if err != nil {
				return under(dir, err)
			}
			return withBook(c.Context(), args[0], func(b *book.Book) error {
				if since == 0 {
					key := cmp.Or(f.job, book.NewKey())
					if err := b.Import(c.Context(), by.Made, by, key, files); err != nil {
						return err
					}
					return pr.toldHead(c.Context(), b, fmt.Sprintf("imported %s as job %s", args[1], key))
				}
				j, err := f.jobOf(c.Context(), b)
				if err != nil {
					return err
				}
				receipts, err := b.Update(c.Context(), by.Made, by, j.Key, since, files)
				if err != nil {
					return err
				}
				return pr.toldHead(c.Context(), b, fmt.Sprintf("%d parts changed, %d of them in conflict", len(receipts), conflicts(receipts)))
			})
		},
	}
	f.addWho(c.Flags())
	c.Flags().StringVarP(&f.job, "job", "j", "", "`key` of the job in the book; one is made up for a new job when not given")
	c.Flags().Int64Var(&since, "since", 0, "the `revision` at which the job was exported before it was edited")
	return c
}

func conflicts(receipts []book.Receipt) (n int) {
	for _, r := range receipts {
		if r.Outcome == book.Conflict {
			n++
		}
	}
	return n
}

// toldHead tells what was done and at which revision the book is.
func (pr *program) toldHead(ctx context.Context, b *book.Book, what string) error {
	n, _, err := b.Head(ctx)
	if err == nil {
		fmt.Fprintf(pr.out, "%s: the book is at revision %d\n", what, n)
	}
	return err
}

func (pr *program) bookExport() *cobra.Command {
	var f bookFlags
	var to, on string
	var at int64
	c := &cobra.Command{
		Use:   "export BOOK --to FOLDER",
		Short: "Write a job of the book as its files",
		Long: `Writes a job as its files into a folder, as it is or as it was. Files that are there
are never overwritten. What nobody changed since it was imported is the same to the byte.`,
		Example: `  swingwright book export clinic.book --to out
  swingwright book export clinic.book --to before --at 120
  swingwright book export clinic.book --to before --on 2026-11-25T12:00:00Z`,
		Args: arguments(1, 1, "one book"),
		RunE: func(c *cobra.Command, args []string) error {
			if to == "" {
				return misuse(c, "no folder is named: --to FOLDER")
			}
			return withBook(c.Context(), args[0], func(b *book.Book) error {
				j, err := f.jobOf(c.Context(), b)
				if err != nil {
					return err
				}
				if on != "" {
					if at, err = revisionOn(c.Context(), b, on); err != nil {
						return err
					}
				}
				files, n, err := b.Export(c.Context(), j.Key, at)
				if err != nil {
					return err
				}
				if err := files.Write(to); err != nil {
					return err
				}
				fmt.Fprintf(pr.out, "wrote %s as of revision %d: to take it back edited: swingwright book import %s %s --since %d\n", filepath.Join(to, files.Name), n, args[0], filepath.Join(to, files.Name), n)
				return nil
			})
		},
	}
	f.addJob(c.Flags())
	c.Flags().StringVar(&to, "to", "", "write into this `folder`")
	c.Flags().Int64Var(&at, "at", 0, "as it was after this `revision`")
	c.Flags().StringVar(&on, "on", "", "as it was at this `time`, such as 2026-11-25T12:00:00Z")
	return c
}

func revisionOn(ctx context.Context, b *book.Book, on string) (int64, error) {
	t, err := time.Parse(time.RFC3339, on)
	if err != nil {
		return 0, problem{what: fmt.Sprintf("--on %s is no time", on), hint: "write it as 2026-11-25T12:00:00Z"}
	}
	n, err := b.AsOf(ctx, t)
	if err == nil && n == 0 {
		err = problem{what: "the book was empty then", hint: "name a later time"}
	}
	return n, err
}
