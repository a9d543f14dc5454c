package main

import (
	"bufio"
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"strconv"
	"strings"
	"text/tabwriter"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
	"golang.org/x/term"

	"swingwright/account"
	"swingwright/book"
)

func (pr *program) accountCommand() *cobra.Command {
	c := &cobra.Command{
		Use:   "account",
		Short: "Tell who may reach a book from other machines",
		Long: `Keeps the accounts of a book: who may reach it from other machines, once serve --lan
serves it. BOOK is the folder of a book, or a job file or its folder, beside which one is kept.

  technician  sees all jobs, enters and signs
  office      sees all jobs and enters; signs nothing; keeps the accounts, in the app too
  owner       sees the jobs of one customer, as the job files name it; enters nothing

Passwords are asked for without being shown, or read from the first line of the
standard input where that is no terminal. Who makes an account for somebody else need not know
their password: invite shows a code, with which that person chooses it at the first sign-in.
Whoever can read the files of the book needs no account.`,
		Example: `  swingwright account add clinic.book Olga --role office
  swingwright account invite clinic.book Marlow --role technician
  swingwright account add clinic.book Owen --role owner --customer "Harbour Street Clinic"
  swingwright account token clinic.book Marlow --for "nightly export" --role office
  swingwright account record clinic.book`,
		Args: noArguments,
		RunE: func(c *cobra.Command, _ []string) error { return c.Help() },
	}
	c.AddCommand(pr.accountAdd(), pr.accountInvite(), pr.accountList(), pr.accountRole(), pr.accountPassword(), pr.accountReset(), pr.accountOut(), pr.accountSwitch("disable", "Shut an account out at once, with its sessions and tokens"),
		pr.accountSwitch("enable", "Let an account in again that was disabled"), pr.accountToken(), pr.accountWithdraw(), pr.accountRecord())
	return c
}

// withAccounts opens the accounts of a book, or of the one beside a job.
func withAccounts(ctx context.Context, what string, do func(*account.Accounts) error) error {
	b, _, err := openShelf(ctx, what)
	if err != nil {
		return hinted(err)
	}
	err = do(account.Of(b, time.Now))
	if errors.Is(err, account.ErrNone) {
		err = problem{what: err.Error(), hint: "swingwright account list shows them"}
	}
	return errors.Join(hinted(err), b.Close())
}

// password asks for a password, twice where somebody types it.
func (pr *program) password() (string, error) {
	f, ok := pr.in.(*os.File)
	if !ok || !term.IsTerminal(int(f.Fd())) {
		if pr.in == nil {
			return "", problem{what: "no password is given", hint: "type it on a terminal, or pass it on the first line of the standard input"}
		}
		line, err := bufio.NewReader(io.LimitReader(pr.in, 4<<10)).ReadString('\n')
		if err != nil && !errors.Is(err, io.EOF) {
			return "", err
		}
		return strings.TrimRight(line, "\r\n"), nil
	}
	var typed [2]string
	for i, ask := range []string{"password, " + fmt.Sprint(account.LeastPassword) + " characters or more: ", "once more: "} {
		fmt.Fprint(pr.errOut, ask)
		text, err := term.ReadPassword(int(f.Fd()))
		fmt.Fprintln(pr.errOut)
		if err != nil {
			return "", err
		}
		typed[i] = string(text)
	}
	if typed[0] != typed[1] {
		return "", problem{what: "the two differ", hint: "nothing was changed; do it again"}
	}
	return typed[0], nil
}

// roleFlags say what somebody may do.
type roleFlags struct{ role, customer string }

func (f *roleFlags) add(flags *pflag.FlagSet) {
	flags.StringVar(&f.role, "role", "", "what they may do: a `role`, technician, office or owner")
	flags.StringVar(&f.customer, "customer", "", "whose jobs an owner sees: the `customer`, as the job files name it")
}

// known refuses what is no role, before anything is asked for.
func (f *roleFlags) known() (account.Role, error) {
	role := account.Role(f.role)
	if !role.Known() {
		return role, problem{what: fmt.Sprintf("--role %q is no role", f.role), hint: "one of technician, office, owner"}
	}
	return role, nil
}

func (pr *program) accountAdd() *cobra.Command {
	var f roleFlags
	c := &cobra.Command{
		Use:     "add BOOK NAME --role ROLE",
		Short:   "Make an account",
		Example: "  swingwright account add clinic.book Marlow --role technician",
		Args:    arguments(2, 2, "a book and a name"),
		RunE: func(c *cobra.Command, args []string) error {
			return withAccounts(c.Context(), args[0], func(s *account.Accounts) error {
				role, err := f.known()
				if err != nil {
					return err
				}
				password, err := pr.password()
				if err != nil {
					return err
				}
				a, err := s.Add(c.Context(), args[1], role, f.customer, password)
				if err == nil {
					fmt.Fprintf(pr.out, "made the account %s, %s\n", a.Name, a.Role)
				}
				return err
			})
		},
	}
	f.add(c.Flags())
	return c
}

func (pr *program) accountInvite() *cobra.Command {
	var f roleFlags
	c := &cobra.Command{
		Use:   "invite BOOK NAME --role ROLE",
		Short: "Make an account for somebody who chooses the password with a code",
		Long: `Makes an account for somebody who chooses the password at the first sign-in, with a code
that is shown once and lasts three days. Give it to them by voice or on paper.`,
		Example: "  swingwright account invite clinic.book Marlow --role technician",
		Args:    arguments(2, 2, "a book and a name"),
		RunE: func(c *cobra.Command, args []string) error {
			return withAccounts(c.Context(), args[0], func(s *account.Accounts) error {
				role, err := f.known()
				if err != nil {
					return err
				}
				a, code, err := s.Invite(c.Context(), args[1], role, f.customer)
				if err == nil {
					ends, _ := a.Invited()
					pr.code(a.Name, code, ends)
				}
				return err
			})
		},
	}
	f.add(c.Flags())
	return c
}

// code shows a code, alone on the standard output, and says what it is for.
func (pr *program) code(name, code string, ends time.Time) {
	fmt.Fprintln(pr.out, code)
	fmt.Fprintf(pr.errOut, "shown this once: with it %s chooses a password in the app, where one signs in, until %s\n", name, ends.Local().Format("2006-01-02 15:04"))
}

func (pr *program) accountReset() *cobra.Command {
	return &cobra.Command{
		Use:   "reset BOOK NAME",
		Short: "Take a password back, end sessions, and show a code to choose another",
		Args:  arguments(2, 2, "a book and a name"),
		RunE: func(c *cobra.Command, args []string) error {
			return withAccounts(c.Context(), args[0], func(s *account.Accounts) error {
				code, ends, err := s.Reset(c.Context(), args[1])
				if err == nil {
					pr.code(args[1], code, ends)
				}
				return err
			})
		},
	}
}

func (pr *program) accountRole() *cobra.Command {
	var f roleFlags
	c := &cobra.Command{
		Use:     "role BOOK NAME --role ROLE",
		Short:   "Give an account another role, and end its sessions",
		Example: `  swingwright account role clinic.book Owen --role owner --customer "Harbour Street Clinic"`,
		Args:    arguments(2, 2, "a book and a name"),
		RunE: func(c *cobra.Command, args []string) error {
			return withAccounts(c.Context(), args[0], func(s *account.Accounts) error {
				role, err := f.known()
				if err == nil {
					err = s.SetRole(c.Context(), args[1], role, f.customer)
				}
				if err == nil {
					fmt.Fprintf(pr.out, "%s is %s from now on\n", args[1], role)
				}
				return err
			})
		},
	}
	f.add(c.Flags())
	return c
}

func (pr *program) accountOut() *cobra.Command {
	return &cobra.Command{
		Use:   "out BOOK NAME",
		Short: "Put out everybody who signed in with an account; tokens go on",
		Args:  arguments(2, 2, "a book and a name"),
		RunE: func(c *cobra.Command, args []string) error {
			return withAccounts(c.Context(), args[0], func(s *account.Accounts) error {
				if err := s.EndSessions(c.Context(), args[1]); err != nil {
					return err
				}
				fmt.Fprintln(pr.out, "ended; whoever was signed in has to sign in again")
				return nil
			})
		},
	}
}

// day is a date in a table.
func day(t time.Time) string {
	if t.IsZero() {
		return "-"
	}
	return t.Local().Format(time.DateOnly)
}

func (pr *program) accountList() *cobra.Command {
	return &cobra.Command{
		Use:   "list BOOK",
		Short: "List accounts and tokens",
		Args:  arguments(1, 1, "one book"),
		RunE: func(c *cobra.Command, args []string) error {
			return withAccounts(c.Context(), args[0], func(s *account.Accounts) error {
				all, err := s.List(c.Context())
				if err != nil {
					return err
				}
				tokens, err := s.Tokens(c.Context())
				if err != nil {
					return err
				}
				if len(all) == 0 {
					fmt.Fprintln(pr.out, "nobody has an account: swingwright account add BOOK NAME --role ROLE")
					return nil
				}
				w := tabwriter.NewWriter(pr.out, 0, 0, 2, ' ', 0)
				fmt.Fprintln(w, "account\trole\tcustomer\tmade\t")
				for _, a := range all {
					state := ""
					if ends, yes := a.Invited(); yes {
						state = "code until " + day(ends)
					}
					if a.Disabled {
						state = "disabled"
					}
					fmt.Fprintf(w, "%s\t%s\t%s\t%s\t%s\n", a.Name, a.Role, cmp.Or(plainText(a.Customer), "-"), day(a.Made), state)
				}
				if len(tokens) > 0 {
					fmt.Fprintln(w, "\ntoken\taccount\trole\tfor\tmade\tends\tlast used\t")
				}
				for _, t := range tokens {
					state := ""
					if !t.Withdrawn.IsZero() {
						state = "withdrawn"
					}
					fmt.Fprintf(w, "%d\t%s\t%s\t%s\t%s\t%s\t%s\t%s\n", t.ID, t.Account, t.Role, plainText(t.Purpose), day(t.Made), day(t.Ends), day(t.Used), state)
				}
				return w.Flush()
			})
		},
	}
}

// plainText keeps what somebody typed from moving the cursor.
func plainText(text string) string { return strings.Trim(strconv.QuoteToGraphic(text), `"`) }

func (pr *program) accountPassword() *cobra.Command {
	return &cobra.Command{
		Use:   "password BOOK NAME",
		Short: "Give an account another password, and end its sessions",
		Args:  arguments(2, 2, "a book and a name"),
		RunE: func(c *cobra.Command, args []string) error {
			return withAccounts(c.Context(), args[0], func(s *account.Accounts) error {
				if _, err := s.Named(c.Context(), args[1]); err != nil {
					return err
				}
				password, err := pr.password()
				if err != nil {
					return err
				}
				if err := s.SetPassword(c.Context(), args[1], password); err != nil {
					return err
				}
				fmt.Fprintln(pr.out, "changed; whoever was signed in has to sign in again")
				return nil
			})
		},
	}
}

// accountSwitch disables or enables.
func (pr *program) accountSwitch(word, short string) *cobra.Command {
	return &cobra.Command{
		Use:   word + " BOOK NAME",
		Short: short,
		Args:  arguments(2, 2, "a book and a name"),
		RunE: func(c *cobra.Command, args []string) error {
			return withAccounts(c.Context(), args[0], func(s *account.Accounts) error {
				do := s.Disable
				if word == "enable" {
					do = s.Enable
				}
				if err := do(c.Context(), args[1]); err != nil {
					return err
				}
				fmt.Fprintf(pr.out, "%sd %s\n", word, args[1])
				return nil
			})
		},
	}
}

func (pr *program) accountToken() *cobra.Command {
	var purpose, role string
	var days int
	c := &cobra.Command{
		Use:   "token BOOK NAME --for PURPOSE",
		Short: "Make a token for a program",
		Long: `Makes a token, with which a program reaches the book as the account does: it sends
the header Authorization: Bearer TOKEN. The token is shown once and kept nowhere.
What the program can ask is described at /api/openapi.json.`,
		Args: arguments(2, 2, "a book and a name"),
		RunE: func(c *cobra.Command, args []string) error {
			return withAccounts(c.Context(), args[0], func(s *account.Accounts) error {
				text, id, err := s.NewToken(c.Context(), args[1], purpose, account.Role(role), days)
				if err != nil {
					return err
				}
				fmt.Fprintln(pr.out, text)
				fmt.Fprintf(pr.errOut, "token %d, shown this once; to end it: swingwright account withdraw %s %d\n", id, args[0], id)
				return nil
			})
		},
	}
	c.Flags().StringVar(&purpose, "for", "", "what it is for: a `purpose`, in a few words")
	c.Flags().StringVar(&role, "role", "", "a `role` that may do no more than the account; that of the account when not given")
	c.Flags().IntVar(&days, "days", 365, "it ends after so many `days`; 0: never")
	return c
}

func (pr *program) accountWithdraw() *cobra.Command {
	return &cobra.Command{
		Use:   "withdraw BOOK TOKEN",
		Short: "End a token at once, by its number",
		Args:  arguments(2, 2, "a book and the number of a token"),
		RunE: func(c *cobra.Command, args []string) error {
			id, err := strconv.ParseInt(args[1], 10, 64)
			if err != nil {
				return problem{what: fmt.Sprintf("%q is no number of a token", args[1]), hint: "swingwright account list shows them"}
			}
			return withAccounts(c.Context(), args[0], func(s *account.Accounts) error {
				if err := s.Withdraw(c.Context(), id); err != nil {
					return err
				}
				fmt.Fprintf(pr.out, "withdrew token %d\n", id)
				return nil
			})
		},
	}
}

func (pr *program) accountRecord() *cobra.Command {
	var limit int
	c := &cobra.Command{
		Use:   "record BOOK",
		Short: "Tell who signed in, who was refused, and what was changed",
		Args:  arguments(1, 1, "one book"),
		RunE: func(c *cobra.Command, args []string) error {
			return withAccounts(c.Context(), args[0], func(s *account.Accounts) error {
				events, err := s.Events(c.Context(), limit)
				if err != nil {
					return err
				}
				w := tabwriter.NewWriter(pr.out, 0, 0, 2, ' ', 0)
				fmt.Fprintln(w, "when\twhat\taccount\tfrom\t")
				for _, e := range events {
					fmt.Fprintf(w, "%s\t%s\t%s\t%s\t%s\n", e.At.Local().Format(time.DateTime), e.What, cmp.Or(e.Name, "-"), cmp.Or(e.Address, "this machine"), plainText(e.Detail))
				}
				return w.Flush()
			})
		},
	}
	c.Flags().IntVar(&limit, "limit", 100, "at most so many, the latest first: a `number`")
	return c
}

// someAccount refuses to open a book to other machines that nobody may reach.
func someAccount(ctx context.Context, b *book.Book, what string) (*account.Accounts, error) {
	s := account.Of(b, time.Now)
	all, err := s.List(ctx)
	if err != nil {
		return nil, err
	}
	for _, a := range all {
		if !a.Disabled {
			return s, nil
		}
	}
	return nil, problem{what: "nobody has an account, so nobody could sign in from another machine", hint: "make one first: swingwright account add " + cmp.Or(what, usualJob) + " NAME --role technician"}
}
