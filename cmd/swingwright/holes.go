package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"swingwright/internal/draw"
	"swingwright/picture"
	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/report"
)

// holesAsk is an ask for the holes of one opening.
type holesAsk struct {
	askOne
	paper, out string
}

func (pr *program) holesCommand() *cobra.Command {
	var f holesAsk
	c := &cobra.Command{
		Use:   "holes JOB -o OPENING",
		Short: "Tell where to drill, and draw templates at full size",
		Long: `Lays out the holes that one opening's hardware sheets give, on leaf and frame: from
which edges, mirrored for the hand, transferred to the other face, with which drill
and which length of bolt; how near each comes to edges, lites, rods, raceways, old
holes and one another; what hinges and fixings bear; what has to be surveyed first;
and what the limits for a labelled fire door say.

With --out the templates are drawn at full size: one PDF of all, and each as SVG and
DXF. Print at 100 % and measure the bars before you drill.

Exit status:
  0  every hole keeps its distances
  1  a pattern is impossible, or a hole meets what it must keep clear of or a limit
  2  the command or a file could not be understood
  3  something is too close, has to be surveyed, or stops the work`,
		Example: `  swingwright holes job.yaml -o 101
  swingwright holes job.yaml -o 101 --out templates --paper a4
  swingwright holes job.yaml -o 101 --json`,
		RunE: func(c *cobra.Command, args []string) error {
			f.job = first(args)
			return pr.holes(&f)
		},
	}
	f.add(c, "to drill")
	flags := c.Flags()
	f.addJSON(flags)
	flags.StringVar(&f.out, "out", "", "draw the templates into this `folder`, as PDF, SVG and DXF")
	flags.StringVar(&f.paper, "paper", "", "print them on this `paper`: letter, a4, or whole for one large sheet each; the usual one for the units when not given")
	flags.BoolVarP(&f.style.all, "all", "v", false, "list the distances that are kept, too")
	f.style.addUnits(flags)
	completePapers(c)
	return c
}

// completePapers completes --paper.
func completePapers(c *cobra.Command) {
	err := c.RegisterFlagCompletionFunc("paper", func(*cobra.Command, []string, string) (names []string, _ cobra.ShellCompDirective) {
		for _, p := range picture.Papers {
			names = append(names, p.Name)
		}
		return names, cobra.ShellCompDirectiveNoFileComp
	})
	if err != nil {
		panic(err) // the flag is not there: a slip in this program
	}
}

func (pr *program) holes(f *holesAsk) error {
	paper, wrong := paperOf(f.paper)
	t, p, err := f.plan(pr, wrong)
	if err != nil {
		return err
	}
	if f.paper == "" && t.style.Units == quantity.US {
		paper = picture.Papers[0]
	}
	h := p.Holes(&t.Sheets, t.judged().Policy)
	files, err := t.templates(&pr.letters, f.out, paper, p, h)
	if err != nil {
		return err
	}
	pr.status = statusOf(report.HolesStanding(h))
	if f.json {
		return report.HolesJSON(pr.out, p, h, files)
	}
	return report.Holes(report.NewText(pr.out, t.style), p, h, files)
}

// paperOf finds a paper by its name.
func paperOf(name string) (picture.Paper, error) {
	if name == "" {
		return picture.Papers[1], nil
	}
	var names []string
	for _, p := range picture.Papers {
		if strings.EqualFold(p.Name, name) {
			return p, nil
		}
		names = append(names, p.Name)
	}
	return picture.Paper{}, problem{what: fmt.Sprintf("--paper: found %q", name), hint: "give one of " + strings.Join(names, ", ")}
}

// templates writes the templates into a folder and tells the files; nothing without one.
func (t *task) templates(l *letters, folder string, paper picture.Paper, p *plan.Plan, h *plan.Holes) (files []string, err error) {
	all := picture.Templates(p, h, picture.Sheet{Job: t.Job.Name, Date: t.Job.Date}, t.style.Units)
	if folder == "" || len(all) == 0 {
		return nil, nil
	}
	if err := os.MkdirAll(folder, 0o777); err != nil {
		return nil, problem{what: "--out: " + plain(err), hint: "name a folder that can be written"}
	}
	made, _ := time.Parse(time.DateOnly, t.Job.Date)
	stem := filepath.Join(folder, stems(t.picked)[p.Opening.ID]+"-")
	write := func(name string, how func(io.Writer) error) {
		files = append(files, stem+name)
		err = errors.Join(err, writeFile(stem+name, how))
	}
	write("holes-"+paper.Name+".pdf", func(w io.Writer) error {
		return picture.WriteTemplates(w, draw.Document{Title: "Drilling templates, opening " + p.Opening.ID, Subject: t.Job.Name, Made: made}, all, paper)
	})
	for _, one := range all {
		l.see(one.Whole)
		if paper.Width > 0 {
			for _, page := range one.Print(paper) {
				l.see(page.Scene)
			}
		}
		write(one.Name+".svg", func(w io.Writer) error { return draw.WriteSVG(w, one.Whole) })
		write(one.Name+".dxf", func(w io.Writer) error { return draw.WriteDXF(w, one.Whole) })
	}
	return files, err
}
