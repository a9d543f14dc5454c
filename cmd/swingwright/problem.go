package main

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"swingwright/job"
)

// problem is an error with its next move. All errors are told alike: a line that
// says what was found and where, and a line that says how to mend it.
type problem struct{ what, hint string }

func (p problem) Error() string { return p.what }

// tell writes every problem in err to w.
func tell(w io.Writer, err error) {
	list := flatten(err)
	for _, one := range list {
		switch p := one.(type) {
		case job.Problem:
			tellPlaced(w, p)
		case problem:
			write(w, p.what, p.hint)
		default:
			write(w, plain(one), "")
		}
	}
	if len(list) > 1 {
		fmt.Fprintf(w, "%d problems\n", len(list))
	}
}

func tellPlaced(w io.Writer, p job.Problem) {
	what := p.Place.String() + ": "
	if p.Field != "" {
		what += p.Field + ": "
	}
	write(w, what+"found "+cmp.Or(p.Found, "nothing")+", needed "+p.Needed, p.Hint)
}

func write(w io.Writer, what, hint string) {
	fmt.Fprintln(w, "problem: "+what)
	if hint != "" {
		fmt.Fprintln(w, "   hint: "+hint)
	}
}

// flatten lists the single problems in err, which may be joined or wrapped.
func flatten(err error) []error {
	var placed job.Problems
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		var all []error
		for _, one := range joined.Unwrap() {
			all = append(all, flatten(one)...)
		}
		return all
	}
	if errors.As(err, &placed) {
		all := make([]error, len(placed))
		for i, p := range placed {
			all[i] = p
		}
		return all
	}
	return []error{err}
}

// misuse is a command line that could not be understood.
func misuse(c *cobra.Command, what string) error {
	return problem{what: what, hint: "see " + c.CommandPath() + " --help"}
}

// noArguments refuses arguments, and names the command most likely meant.
func noArguments(c *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	if c.HasAvailableSubCommands() {
		p := problem{what: fmt.Sprintf("%s has no command %q", c.CommandPath(), args[0]), hint: "see " + c.CommandPath() + " --help"}
		c.SuggestionsMinimumDistance = 2 // letters wrong
		if near := c.SuggestionsFor(args[0]); len(near) > 0 {
			p.hint = "did you mean " + strings.Join(near, " or ") + "?"
		}
		return p
	}
	return misuse(c, fmt.Sprintf("%s takes no argument, but got %q", c.CommandPath(), args[0]))
}

// arguments accepts from least to most arguments.
func arguments(least, most int, what string) cobra.PositionalArgs {
	return func(c *cobra.Command, args []string) error {
		if n := len(args); n < least || most >= 0 && n > most {
			return misuse(c, fmt.Sprintf("%s takes %s, but got %d arguments", c.CommandPath(), what, n))
		}
		return nil
	}
}
