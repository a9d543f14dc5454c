package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"swingwright/book"
	"swingwright/internal/draw"
	"swingwright/internal/paper"
	"swingwright/label"
)

// labelFlags are the flags of label.
type labelFlags struct {
	bookFlags
	at, out, paper string
	openings       []string
}

func (pr *program) labelCommand() *cobra.Command {
	var f labelFlags
	c := &cobra.Command{
		Use:   "label JOB|BOOK --at ADDRESS --out FILE",
		Short: "Print labels whose code opens the page of an opening",
		Long: `Lays out a label for every opening of a job, to cut out and stick on the frame: a
phone that looks at its code opens the page of the opening, in the app that it has, also where
there is no network. The code says ADDRESS and a key; it says nothing of the opening.

ADDRESS is that of the server, as serve --lan tells it. A label lasts as long as the
address: give the server a name, with serve --lan --name, rather than a number.

FILE ends in .pdf; in .svg it is one file a sheet, numbered where there are several.`,
		Example: `  swingwright label clinic.book --at https://bench.local:8714 --out labels.pdf
  swingwright label job.yaml --at https://bench.local:8714 -o 101,102 --out labels.svg --paper a4`,
		Args:              arguments(0, 1, "one job or book"),
		ValidArgsFunction: jobFiles,
		RunE: func(c *cobra.Command, args []string) error {
			return pr.label(c.Context(), first(args), &f)
		},
	}
	f.addJob(c.Flags())
	c.Flags().StringVar(&f.at, "at", "", "`address` of the server, such as https://bench.local:8714")
	c.Flags().StringVar(&f.out, "out", "labels.pdf", "write into this `file`")
	c.Flags().StringVar(&f.paper, "paper", "letter", "print on this `paper`: letter or a4")
	c.Flags().StringSliceVarP(&f.openings, "opening", "o", nil, "only these `openings`")
	return c
}

func (pr *program) label(ctx context.Context, what string, f *labelFlags) error {
	at, err := url.Parse(strings.TrimSuffix(f.at, "/"))
	if err != nil || at.Host == "" || at.Scheme != "https" && at.Scheme != "http" || at.Path != "" || at.RawQuery != "" {
		return problem{what: fmt.Sprintf("--at %q is no address of a server", f.at), hint: "give it as serve --lan tells it, such as https://bench.local:8714"}
	}
	size, err := paper.SizeOf(f.paper)
	if err != nil {
		return problem{what: fmt.Sprintf("--paper %s is not known", f.paper), hint: "letter or a4"}
	}
	form := strings.ToLower(filepath.Ext(f.out))
	if form != ".pdf" && form != ".svg" {
		return problem{what: fmt.Sprintf("--out %s ends in neither .pdf nor .svg", f.out), hint: "name the file so"}
	}
	b, _, err := openShelf(ctx, what)
	if err != nil {
		return hinted(err)
	}
	defer b.Close()
	labels, err := f.labels(ctx, b, at.String())
	if err != nil {
		return err
	}
	pages, err := label.Sheets(size.Width, size.Height, labels)
	if err != nil {
		return hinted(err)
	}
	pr.letters.see(pages...)
	if err := writeLabels(f.out, form, pages); err != nil {
		return err
	}
	fmt.Fprintf(pr.out, "%d labels on %d sheets: %s\n", len(labels), len(pages), f.out)
	return nil
}

// labels are those of the openings that are meant.
func (f *labelFlags) labels(ctx context.Context, b *book.Book, at string) ([]label.Label, error) {
	j, err := f.jobOf(ctx, b)
	if err != nil {
		return nil, err
	}
	var all []label.Label
	left := slices.Clone(f.openings)
	for filter := (book.Filter{Job: j.Key, Limit: 1000}); ; {
		page, err := b.List(ctx, filter)
		if err != nil {
			return nil, err
		}
		for _, e := range page {
			if len(f.openings) > 0 && !slices.Contains(f.openings, e.ID) {
				continue
			}
			left = slices.DeleteFunc(left, func(id string) bool { return id == e.ID })
			all = append(all, label.Label{Address: at + "/o/" + e.Key, ID: e.ID, Name: e.Name, Job: cmp.Or(j.Name, j.Customer())})
		}
		if len(page) < filter.Limit {
			break
		}
		filter.After = page[len(page)-1].Key
	}
	if len(left) > 0 {
		return nil, problem{what: "the job has no opening " + listed(left), hint: "swingwright book list shows them"}
	}
	if len(all) == 0 {
		return nil, problem{what: "the job has no openings", hint: "there is nothing to label yet"}
	}
	return all, nil
}

// writeLabels writes the sheets.
func writeLabels(name, form string, pages []*draw.Scene) error {
	if form == ".pdf" {
		return writeSheet(name, func(f *os.File) error {
			return draw.WritePDF(f, draw.Document{Title: "Labels", Subject: "codes that open the page of an opening", Made: time.Now()}, pages...)
		})
	}
	for i, p := range pages {
		one := name
		if len(pages) > 1 {
			one = fmt.Sprintf("%s-%d%s", strings.TrimSuffix(name, filepath.Ext(name)), i+1, filepath.Ext(name))
		}
		if err := writeSheet(one, func(f *os.File) error { return draw.WriteSVG(f, p) }); err != nil {
			return err
		}
	}
	return nil
}

func writeSheet(name string, write func(*os.File) error) error {
	f, err := os.Create(name)
	if err != nil {
		return err
	}
	return errors.Join(write(f), f.Close())
}
