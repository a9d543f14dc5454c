package main

import (
	"github.com/spf13/cobra"

	"swingwright/job"
)

func (pr *program) schemaCommand() *cobra.Command {
	var sheets bool
	c := &cobra.Command{
		Use:   "schema",
		Short: "Print the JSON Schema of job files",
		Long: `Prints the JSON Schema (2020-12) of job files, or of sheet files, with the
meaning of every field: for editors that complete and check while you type.`,
		Example: `  swingwright schema > job.schema.json`,
		Args:    noArguments,
		RunE: func(*cobra.Command, []string) error {
			text := job.Schema()
			if sheets {
				text = job.SheetsSchema()
			}
			_, err := pr.out.Write(text)
			return err
		},
	}
	c.Flags().BoolVar(&sheets, "sheets", false, "print the schema of sheet files instead")
	return c
}
