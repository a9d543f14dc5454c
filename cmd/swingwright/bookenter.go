package main

import (
	"encoding/json"
	"fmt"
	"mime"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"swingwright/book"
	"swingwright/job/amend"
)

// mostAttached is how large an attachment may be, in bytes: a minute of video, or a
// hundred photos of a phone.
const mostAttached = 500 << 20

// enterForms are the kinds of change that can be typed, with what follows each.
var enterForms = []struct {
	kind   book.Kind
	least  int
	most   int
	follow string
}{
	{book.Set, 2, 2, "FIELD VALUE"},
	{book.Add, 2, 2, "LIST ITEM"},
	{book.Remove, 1, 1, "LIST[NUMBER]"},
	{book.Note, 1, 1, "TEXT"},
	{book.Attach, 1, 2, "FILE [CAPTION]"},
	{book.Sign, 2, 2, "NAME STATEMENT"},
	{book.Withdraw, 0, 1, "[CHANGE]"},
	{book.Restore, 0, 1, "[CHANGE]"},
	{book.Resolve, 0, 2, "[FIELD VALUE]"},
	{book.BeginOpening, 1, 1, "FIELDS"},
}

func (pr *program) bookEnter() *cobra.Command {
	var f bookFlags
	var opening, instrument string
	var yaml bool
	var base int64
	c := &cobra.Command{
		Use:   "enter BOOK [-o OPENING] WHAT ...",
		Short: "Enter a change",
		Long: `Enters one change of an opening, or of the job where no opening is named:

  set FIELD VALUE      a field, such as leaf.width; an empty value clears it
  add LIST ITEM        an item of a list, such as readings, as YAML
  remove LIST[NUMBER]  an item of a list, numbered from 0
  note TEXT            a note
  attach FILE CAPTION  a photo, a recording or another file
  sign NAME STATEMENT  a sign-off of the state as it is
  withdraw, restore    the opening, or the note, attachment or sign-off of a change
  resolve FIELD VALUE  the conflicts about a field; of all fields where none is named
  opening FIELDS       a new opening of the job, as YAML: {id: "104", name: Store}

Nothing is lost: what was there before stays in the history.`,
		Example: `  swingwright book enter clinic.book -o 101 set leaf.width "35-3/4 in ± 1/16 in"
  swingwright book enter clinic.book -o 101 add readings "{fact: closing.time_90_to_10, value: 6.1 s}"
  swingwright book enter clinic.book -o 101 attach sill.jpg "scuffed sill"`,
		Args: arguments(2, 5, "a book, what to enter, and what belongs to it"),
		RunE: func(c *cobra.Command, args []string) error {
			by, err := f.by(time.Now())
			if err != nil {
				return err
			}
			return withBook(c.Context(), args[0], func(b *book.Book) error {
				p, err := f.partOf(c.Context(), b, opening)
				if err != nil {
					return err
				}
				change, err := typed(b, p, args[1], args[2:], yaml)
				if err != nil {
					return err
				}
				change.ID, change.Who, change.Made, change.Instrument, change.Base = book.NewID(), by.Who, by.Made, instrument, base
				receipts, err := b.Apply(c.Context(), by.Made, change)
				if err != nil {
					return err
				}
				return pr.received(receipts[0])
			})
		},
	}
	f.addJob(c.Flags())
	f.addWho(c.Flags())
	c.Flags().StringVarP(&opening, "opening", "o", "", "id of the `opening`; the job itself when not given")
	c.Flags().StringVar(&instrument, "with", "", "the `instrument` that it was read with")
	c.Flags().BoolVar(&yaml, "yaml", false, "the value of set or resolve is YAML, not a text")
	c.Flags().Int64Var(&base, "seen", book.Latest, "the latest `revision` that you had seen; what came after it may be a conflict")
	return c
}

// received tells what became of a change.
func (pr *program) received(r book.Receipt) error {
	switch r.Outcome {
	case book.Same:
		fmt.Fprintf(pr.out, "revision %d: it was so already\n", r.Revision)
	case book.Conflict:
		fmt.Fprintf(pr.out, "revision %d: kept beside revision %d, with which it is in conflict; resolve settles it\n", r.Revision, r.Against)
	default:
		fmt.Fprintf(pr.out, "revision %d\n", r.Revision)
	}
	return nil
}

// typed is the change that was typed.
func typed(b *book.Book, p *book.Part, what string, rest []string, yaml bool) (book.Change, error) {
	for _, form := range enterForms {
		if string(form.kind) != what {
			continue
		}
		if len(rest) < form.least || len(rest) > form.most {
			return book.Change{}, problem{what: fmt.Sprintf("%s takes %s, but got %d", what, form.follow, len(rest)), hint: "put what belongs together between quotation marks"}
		}
		c := book.Change{Kind: form.kind, Subject: p.Key}
		err := fill(&c, b, p, append(rest, "", "")[:2], yaml)
		return c, err
	}
	var kinds []string
	for _, form := range enterForms {
		kinds = append(kinds, string(form.kind))
	}
	return book.Change{}, problem{what: fmt.Sprintf("nothing is entered by %q", what), hint: "enter one of " + strings.Join(kinds, ", ")}
}

func fill(c *book.Change, b *book.Book, p *book.Part, rest []string, yaml bool) (err error) {
	switch c.Kind {
	case book.Set, book.Resolve:
		c.Path, c.Value = rest[0], rest[1]
		if !yaml && c.Value != "" {
			c.Value = amend.Text(c.Value)
		}
	case book.Add:
		c.Path, c.Value = rest[0], rest[1]
	case book.Remove, book.Withdraw, book.Restore:
		c.Path = rest[0]
	case book.Note:
		c.Value = rest[0]
	case book.BeginOpening:
		c.Subject, c.Job, c.Value = book.NewKey(), p.Job, rest[0]
	case book.Sign:
		c.Seen = book.Digest(p.Text)
		c.Value, err = inJSON(book.Statement{Name: rest[0], Text: rest[1]})
	case book.Attach:
		c.Value, err = attached(b, rest[0], rest[1])
	}
	return err
}

func inJSON(v any) (string, error) {
	text, err := json.Marshal(v)
	return string(text), err
}

// attached stores a file and tells of it as an attachment.
func attached(b *book.Book, name, caption string) (string, error) {
	f, err := os.Open(name)
	if err != nil {
		return "", problem{what: err.Error(), hint: "name a file that can be read"}
	}
	defer f.Close()
	digest, size, err := b.Store(f, mostAttached)
	if err != nil {
		return "", err
	}
	media := mime.TypeByExtension(filepath.Ext(name))
	a := book.Attachment{What: "paper", Name: filepath.Base(name), Type: media, Hash: digest, Size: size, Caption: caption}
	switch {
	case strings.HasPrefix(media, "image/"):
		a.What = "photo"
	case strings.HasSuffix(name, ".csv"):
		a.What = "recording"
	}
	return inJSON(a)
}
