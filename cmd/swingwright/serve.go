package main

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"time"

	"github.com/spf13/cobra"

	"swingwright/app"
	"swingwright/book"
	"swingwright/server"
)

// serveFlags are the flags of serve.
type serveFlags struct {
	what  string
	port  int
	lan   bool
	names []string
}

func (pr *program) serveCommand() *cobra.Command {
	var f serveFlags
	c := &cobra.Command{
		Use:   "serve BOOK|JOB",
		Short: "Serve the site app on this machine, or to the network",
		Long: `Serves the site app, for a browser on this machine: survey, measure, tune, sign,
hand over. BOOK is the folder of a book. Of a JOB, a job file or the folder of one,
a book is kept beside it, in a folder of its name that ends in .book: the app shows what
the file says, and what is entered in the app is written into the file.

Nobody else can reach it: it answers on this machine alone, without a sign-in. With
--lan it answers the machines of the network too, and everybody has to sign in, with an
account that account add made. It then speaks TLS, with a certificate authority that it
makes for this book and keeps in its folder, and tells how a phone comes to trust it: phones
give motion sensors, and keep the app for where there is no network, only to pages that
came so.`,
		Example: `  swingwright serve harbour.book
  swingwright serve demo/harbour-street-clinic --port 8080
  swingwright serve harbour.book --lan --name bench.home.arpa`,
		Args:              arguments(0, 1, "one book or job"),
		ValidArgsFunction: jobFiles,
		RunE: func(c *cobra.Command, args []string) error {
			f.what = first(args)
			if len(f.names) > 0 && !f.lan {
				return misuse(c, "--name is for --lan: on this machine alone the server goes by localhost")
			}
			return pr.serve(c.Context(), &f)
		},
	}
	c.Flags().IntVar(&f.port, "port", 8714, "listen on this `port` of this machine; 0 for any that is free")
	c.Flags().BoolVar(&f.lan, "lan", false, "answer other machines too, over TLS, whoever has an account; the port after --port tells phones how to trust it")
	c.Flags().StringSliceVar(&f.names, "name", nil, "a further `name` that the network knows this machine by")
	return c
}

// serve serves until ctx ends.
func (pr *program) serve(ctx context.Context, f *serveFlags) error {
	b, follow, err := openShelf(ctx, f.what)
	if err != nil {
		return err
	}
	defer b.Close()
	a, err := app.New()
	if err != nil {
		return err
	}
	go a.Pack()
	s := server.New(b, a, time.Now)
	if s.Program, err = programHash(); err != nil {
		return err
	}
	if follow != nil {
		s.Before, s.After = pr.telling(follow.read), pr.telling(follow.write)
	}
	if f.lan {
		return pr.lan(ctx, f, b, s)
	}
	listener, err := net.Listen("tcp", fmt.Sprintf("127.0.0.1:%d", f.port))
	if err != nil {
		return problem{what: err.Error(), hint: "choose another with --port, or 0 for any that is free"}
	}
	fmt.Fprintf(pr.out, "the site app: http://localhost:%d\n", listener.Addr().(*net.TCPAddr).Port)
	if !a.Engine() {
		fmt.Fprintln(pr.out, "this program was built without the engine for the browser: without a network the app keeps what is entered and reckons nothing; make build puts it in")
	}
	return listen(ctx, s, listener)
}

// telling does something and tells what goes wrong: the book is in order all the same,
// and the app goes on with what it says.
func (pr *program) telling(do func() error) func() {
	told := ""
	return func() {
		err := do()
		if err != nil && err.Error() != told {
			tell(pr.errOut, err)
		}
		told = ""
		if err != nil {
			told = err.Error()
		}
	}
}

// listen serves on a listener until ctx ends.
func listen(ctx context.Context, h http.Handler, listener net.Listener) error {
	web := &http.Server{Handler: h, ReadHeaderTimeout: 10 * time.Second, ReadTimeout: 2 * time.Minute, WriteTimeout: 5 * time.Minute, IdleTimeout: time.Minute, MaxHeaderBytes: 64 << 10}
	stop := context.AfterFunc(ctx, func() {
		soon, cancel := context.WithTimeout(context.Background(), 5*time.Second)
		defer cancel()
		web.Shutdown(soon)
	})
	defer stop()
	if err := web.Serve(listener); !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	return nil
}

// openShelf opens the book that is named, or that is kept beside the job that is named;
// of a job it tells also how the job file is followed.
func openShelf(ctx context.Context, what string) (*book.Book, *follower, error) {
	if what == "" {
		what = usualJob
	}
	if _, err := os.Stat(filepath.Join(what, "book.sqlite")); err == nil {
		b, err := book.Open(ctx, what)
		return b, nil, err
	}
	if info, err := os.Stat(what); err == nil && info.IsDir() {
		what = filepath.Join(what, usualJob)
	}
	if _, err := os.Stat(what); err != nil {
		return nil, nil, problem{what: fmt.Sprintf("there is neither a book nor a job file at %s", what), hint: "name the folder of a book, or a job file"}
	}
	f, err := followJob(ctx, what)
	if err != nil {
		return nil, nil, err
	}
	return f.book, f, nil
}
