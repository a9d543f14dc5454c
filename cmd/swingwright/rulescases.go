package main

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"swingwright/rulebook"
	"swingwright/rulebook/author"
)

func (pr *program) rulesTestCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "test [FILE...]",
		Short: "Check rulebook files and run their cases",
		Long: `Reads each rulebook file, checks the types, units and sources of its rules, and
runs the cases in the folder cases beside it, in the file of the same name.
Without a file, tests the rulebooks that come with the program.`,
		Example: `  swingwright rules test
  swingwright rules test own/hospital.yaml`,
		RunE: func(_ *cobra.Command, files []string) error { return pr.rulesTest(files) },
	}
}

func (pr *program) rulesTest(files []string) error {
	var errs []error
	if len(files) == 0 {
		for _, id := range author.BuiltinIDs() {
			errs = append(errs, pr.testBook(rulebook.Builtin(), "", id+".yaml"))
		}
	}
	for _, file := range files {
		dir, name := filepath.Split(file)
		errs = append(errs, pr.testBook(os.DirFS(filepath.Clean(dir+".")), dir, name))
	}
	return errors.Join(errs...)
}

// testBook reads one book and runs its cases.
func (pr *program) testBook(folder fs.FS, dir, name string) error {
	if _, err := fs.Stat(folder, name); err != nil {
		return problem{what: "there is no rulebook file " + filepath.Join(dir, name), hint: "name a file"}
	}
	b, err := author.Load(folder, name)
	if err != nil {
		return under(dir, err)
	}
	cases, told := "cases/"+name, "no cases beside it"
	if _, err := fs.Stat(folder, cases); err == nil {
		n, err := author.RunCases(folder, cases, b)
		if err != nil {
			return under(dir, err)
		}
		told = fmt.Sprintf("%d cases hold", n)
	}
	_, err = fmt.Fprintf(pr.out, "%s: %d rules sound, %s\n", cmp.Or(b.ID, name), len(b.Rules), told)
	return err
}
