package main

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"os"

	"github.com/spf13/cobra"

	"swingwright/job"
)

func (pr *program) newCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "new [FILE]",
		Short: "Write a commented job file to fill in",
		Long: `Writes a job file with one opening and a comment beside every common field:
job.yaml, or the file given. A file that exists is never overwritten.`,
		Example: `  swingwright new
  swingwright new clinic/job.yaml`,
		Args: arguments(0, 1, "one file"),
		RunE: func(_ *cobra.Command, args []string) error {
			return pr.writeStarter(cmp.Or(first(args), usualJob))
		},
	}
}

func (pr *program) writeStarter(name string) error {
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	switch {
	case errors.Is(err, fs.ErrExist):
		return problem{what: name + " exists already and was left as it is", hint: "name another file"}
	case err != nil:
		return problem{what: plain(err), hint: "make the folder first, or name a file elsewhere"}
	}
	_, err = f.Write(job.Starter())
	if err := errors.Join(err, f.Close()); err != nil {
		return err
	}
	fmt.Fprintf(pr.out, "wrote %s: fill it in, then: swingwright check %s\n", name, name)
	return nil
}
